//! What a page and the ledger in its worker say to each other, as text.
//!
//! | line of a request | holds |
//! |---|---|
//! | 1 | [`ASK`] |
//! | 2 | the draft in its kept form |
//! | 3 | `<milliseconds> <day> <time> <kg or lb> <address of the page>` |
//! | 4 | what is typed and chosen, in the encoding of web forms |
//! | 5 | the button that was pressed: what it says in [`advice::wire::WRITES`] |
//!
//! An answer has [`ASK`] in its first line, what to keep in the second, what
//! changed in the fields in the third, both in the encoding of web forms and
//! with [`NOTHING`] for what is to be removed, and then the piece of the page
//! as [`advice::wire`] has it.

use draft::Draft;
use form_urlencoded::Serializer;
use notation::Units;

use crate::entries::Entries;
use crate::visit::Visit;

/// The first line of a request and of what answers it.
pub const ASK: &str = "scale";

/// The first line of a request to take what the browser keeps, by key, in the
/// encoding of web forms.
pub const TAKE: &str = "scale-kept";

/// Stands for a text that is removed. No text of the ledger begins so.
pub const NOTHING: &str = "\u{0}";

/// Writes a request. `moment` is its third line.
pub fn request<'a>(
    draft: &str,
    moment: &str,
    entries: impl IntoIterator<Item = (&'a str, &'a str)>,
    pressed: &str,
) -> String {
    let mut typed = Serializer::new(String::new());
    typed.extend_pairs(entries);
    format!("{ASK}\n{draft}\n{moment}\n{}\n{pressed}", typed.finish())
}

/// Writes a request to take what the browser keeps.
pub fn take<'a>(kept: impl IntoIterator<Item = (&'a str, &'a str)>) -> String {
    let mut items = Serializer::new(String::new());
    items.extend_pairs(kept);
    format!("{TAKE}\n{}", items.finish())
}

/// Before the names of fields of which the place shows at once what is chosen in
/// them; what stands in others waits for a button.
pub const AT_ONCE: &str = "at.";

/// What stands in the fields, as a line.
pub fn form(pairs: &[(String, String)]) -> String {
    let mut line = Serializer::new(String::new());
    line.extend_pairs(pairs);
    line.finish()
}

/// The pairs of a line.
pub fn pairs(line: &str) -> Vec<(String, String)> {
    form_urlencoded::parse(line.as_bytes())
        .into_owned()
        .collect()
}

/// Reads a request: what comes with it and what was pressed.
pub(crate) fn read(text: &str) -> Option<(Visit, String)> {
    let mut lines = text.splitn(5, '\n');
    if lines.next()? != ASK {
        return None;
    }
    let draft = Draft::of_text(lines.next()?);
    let mut moment = lines.next()?.splitn(5, ' ');
    let now = moment.next()?.parse().ok()?;
    let day = moment.next()?.parse().ok()?;
    let time = moment.next()?.parse().ok()?;
    let units = Units::from_symbol(moment.next()?);
    let address = moment.next().unwrap_or_default().to_owned();
    let entries = Entries::of(pairs(lines.next()?));
    let visit = Visit {
        draft,
        now,
        today: (day, time),
        units,
        address,
        entries,
        faults: std::collections::BTreeMap::new(),
    };
    Some((visit, lines.next()?.to_owned()))
}

/// Writes an answer.
pub(crate) fn answer(
    keep: Vec<(String, Option<String>)>,
    entries: &Entries,
    piece: &str,
) -> String {
    let mut kept = Serializer::new(String::new());
    for (key, text) in keep {
        kept.append_pair(&key, text.as_deref().unwrap_or(NOTHING));
    }
    let mut changes = Serializer::new(String::new());
    for (name, text) in entries.changes() {
        changes.append_pair(name, text.unwrap_or(NOTHING));
    }
    format!("{ASK}\n{}\n{}\n{piece}", kept.finish(), changes.finish())
}
