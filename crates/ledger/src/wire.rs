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
//! An answer has [`ASK`] or [`TAKE_FILE`] in its first line, what to keep in the second, what
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

/// The first line of a request to take what the browser keeps.
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

/// Writes a request to take what the browser keeps: of each text its key, how
/// many bytes it has, and then itself. A shop keeps a million of them, so they go
/// as they are.
pub fn take<'a>(kept: impl IntoIterator<Item = (&'a str, &'a str)>) -> String {
    let mut request = TAKE.to_owned();
    for (key, text) in kept {
        request.push('\n');
        request.push_str(key);
        request.push(' ');
        request.push_str(&text.len().to_string());
        request.push('\n');
        request.push_str(text);
    }
    request
}

/// Reads such a request.
pub(crate) fn read_take(request: &str) -> Option<Vec<(String, String)>> {
    let mut rest = request.strip_prefix(TAKE)?;
    let mut kept = Vec::new();
    while let Some(next) = rest.strip_prefix('\n') {
        let (head, after) = next.split_once('\n')?;
        let (key, bytes) = head.rsplit_once(' ')?;
        let (text, behind) = after.split_at_checked(bytes.parse().ok()?)?;
        kept.push((key.to_owned(), text.to_owned()));
        rest = behind;
    }
    rest.is_empty().then_some(kept)
}

/// Before the names of fields of which the place shows at once what is chosen in
/// them; what stands in others waits for a button.
pub const AT_ONCE: &str = "at.";

/// Before the names of fields in which a file is chosen. What it holds is shown at
/// once and kept nowhere by itself.
pub const FILE: &str = "file.";

/// The first line of a request to keep the records of a file in the place of all
/// that is kept, and of what answers it, which has no piece: the place is to be
/// opened anew.
pub const TAKE_FILE: &str = "take-file";

/// Writes a request to keep the records of a file in the place of all that is
/// kept.
pub fn take_file(file: &str) -> String {
    format!("{TAKE_FILE}\n{file}")
}

/// The file that a request would have taken in; `None` where it is none.
pub(crate) fn read_take_file(request: &str) -> Option<&str> {
    request.strip_prefix(TAKE_FILE)?.strip_prefix('\n')
}

/// What stands in the fields, as a line.
pub fn form<'a>(pairs: impl IntoIterator<Item = (&'a str, &'a str)>) -> String {
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

/// Writes what answers a request of this first line.
pub(crate) fn answer(
    kind: &str,
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
    format!("{kind}\n{}\n{}\n{piece}", kept.finish(), changes.finish())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn what_is_kept_reads_back(kept in prop::collection::vec(("[a-z]{1,5}[.][0-9]", ".*"), 0..5)) {
            let texts = kept.iter().map(|(key, text)| (key.as_str(), text.as_str()));
            prop_assert_eq!(read_take(&take(texts)), Some(kept));
        }

        #[test]
        fn no_text_panics(text in ".*", numbers in "[0-9]{1,20}") {
            let _ = read_take(&text);
            let _ = read_take(&format!("{TAKE}\na {numbers}\n{text}"));
            let _ = read(&format!("{ASK}\n{text}\n{numbers} {text}"));
        }
    }
}
