//! Bought-in pieces that are kept by a name and a day, to be opened again and held
//! against one another: what was typed of each, as it was typed.

use std::collections::BTreeMap;

use advice::steps::Steps;
use form_urlencoded::Serializer;
use notation::{Units, number, percent, price_with_unit};
use pricing::CalendarDate;
use quantity::{Rounding, Share};
use scale::bought_piece::FEWEST_PIECES;
use scale::lot_code::lot_key;
use scale::{BoughtPiece, Fault, FormError, UsableShares};
use wording::{key, say, text};

use crate::bench::in_order;
use crate::bought_entries::{BOUGHT, LONGEST, Typed, is_any};
use crate::controls::{Field, Takes, button, button_surely, field, form, heading, note};
use crate::entries::Entries;
use crate::ledger::Ledger;
use crate::tag_form;
use crate::visit::{Done, Outcome, Refusal, Visit};

/// Before the number of a kept piece.
pub(crate) const PIECE: &str = "bought.";

/// What a kept piece begins with.
const KIND: &str = "bought-piece";

/// The version that is written, and the newest that is read.
const VERSION: u32 = 1;

/// The most bytes of a kept piece.
const LARGEST_BYTES: usize = 16 * 1024;

/// So many pieces are kept at most: all are read where they are listed.
const MOST_PIECES: usize = 500;

/// So many are listed at first, and more at each asking.
const FEW: usize = 12;

/// Before the names of the fields under which a piece is kept.
const KEPT: &str = "piece.";

/// The entry of the name of the piece.
const NAME: &str = "piece.name";

/// The entry of the day of the piece.
const DAY: &str = "piece.day";

/// The entry of the number of the piece that was opened again.
const NUMBER: &str = "piece.number";

/// The entry of how many pieces are listed.
const LISTED: &str = "piece.listed";

/// A piece that is kept.
struct KeptPiece {
    name: String,
    day: CalendarDate,
    /// What stood in its fields.
    fields: Vec<(String, String)>,
    /// What that comes to.
    piece: BoughtPiece,
}

/// Whether a text is that of a piece.
///
/// # Errors
/// Why it is none.
pub(crate) fn check(text: &str) -> Result<(), FormError> {
    read(text).map(|_| ())
}

fn read(text: &str) -> Result<KeptPiece, FormError> {
    let fault = |fault| FormError { line: 1, fault };
    if text.len() > LARGEST_BYTES {
        let most = LARGEST_BYTES;
        return Err(fault(Fault::TooLong { most }));
    }
    let mut next = in_order(text);
    match next(KIND).and_then(|version| version.parse::<u32>().ok()) {
        Some(VERSION) => {}
        Some(newer) if newer > VERSION => return Err(fault(Fault::Newer { read: VERSION })),
        _ => return Err(fault(Fault::NotThis { kind: KIND })),
    }
    let mut whole = || {
        let (name, day, fields) = (next("name")?, next("day")?, next("fields")?);
        next("end")?;
        Some((name, day, fields))
    };
    let (name, day, fields) = whole().ok_or_else(|| fault(Fault::CutOff))?;
    let day = day.parse().map_err(|_| {
        let wanted = key!("a date");
        fault(Fault::Bad { wanted, found: day })
    })?;
    let fields: Vec<(String, String)> = form_urlencoded::parse(fields.as_bytes())
        .into_owned()
        .filter(|(name, _)| name.starts_with(BOUGHT))
        .collect();
    let typed = Typed::of_fields(&Entries::of(fields.clone()), Units::Kilograms);
    let wanted = key!("a weight");
    let piece = typed
        .piece()
        .ok_or_else(|| fault(Fault::Missing { wanted }))?;
    Ok(KeptPiece {
        name: name.chars().take(LONGEST).collect(),
        day,
        fields,
        piece,
    })
}

/// The fields of a piece as they stand.
fn fields(visit: &Visit) -> Vec<(String, String)> {
    let all = visit.entries.under(BOUGHT);
    all.filter(|(_, text)| !text.trim().is_empty())
        .map(|(name, text)| (name.to_owned(), text.to_owned()))
        .collect()
}

/// Does what is asked about kept pieces.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    match verb {
        "keep-bought" => {
            let number = reopened(ledger, visit).map(|(number, _)| number);
            return Some(keep(ledger, visit, number));
        }
        "keep-another" => return Some(keep(ledger, visit, None)),
        "open-bought" => open(ledger, visit, about),
        "delete-bought" => {
            ledger.kept.remove(&format!("{PIECE}{about}"));
            if visit.entries.text(NUMBER) == about {
                visit.entries.clear(NUMBER);
            }
        }
        "more-bought" => visit.entries.set(LISTED, about),
        _ => return None,
    }
    Some(Ok(Done::Shown))
}

/// Forgets which piece was opened again, its name and its day.
pub(crate) fn clear(visit: &mut Visit) {
    visit.entries.clear_under(KEPT);
}

/// The piece that was opened again or kept last, where it is still there.
fn reopened(ledger: &Ledger, visit: &Visit) -> Option<(u32, KeptPiece)> {
    let number = visit.entries.text(NUMBER).parse().ok()?;
    let text = ledger.kept.text(&format!("{PIECE}{number}"))?;
    Some((number, read(text).ok()?))
}

fn keep(ledger: &mut Ledger, visit: &mut Visit, number: Option<u32>) -> Result<Done, Refusal> {
    if Typed::of(visit).piece().is_none() {
        let why = text!("Fill in what was bought, its price and what can be used.");
        return Err(Refusal::at(NAME, why));
    }
    let name: String = visit.entries.text(NAME).chars().take(LONGEST).collect();
    if name.is_empty() {
        let why = text!("Give the piece a name: those of one name are held together.");
        return Err(Refusal::at(NAME, why));
    }
    let day = tag_form::day(visit, DAY)?.unwrap_or(visit.today.0);
    if number.is_none() && ledger.kept.under(PIECE).count() >= MOST_PIECES {
        let said = say!("{most} pieces are kept: delete one first.", MOST_PIECES);
        return Err(Refusal::at(NAME, said));
    }
    let mut typed = Serializer::new(String::new());
    typed.extend_pairs(fields(visit));
    let text = Serializer::new(String::new())
        .append_pair(KIND, &VERSION.to_string())
        .append_pair("name", &name)
        .append_pair("day", &day.to_string())
        .append_pair("fields", &typed.finish())
        .append_pair("end", "")
        .finish();
    // What could not be read again is not kept.
    check(&text).map_err(|error| Refusal::at(NAME, error))?;
    let number = number.unwrap_or_else(|| ledger.free_number(PIECE));
    ledger.kept.put(&format!("{PIECE}{number}"), text);
    visit.entries.set(NUMBER, &number.to_string());
    Ok(Done::Shown)
}

/// Puts a kept piece back into the fields.
fn open(ledger: &Ledger, visit: &mut Visit, number: &str) {
    let text = ledger.kept.text(&format!("{PIECE}{number}"));
    let Some(Ok(piece)) = text.map(read) else {
        return;
    };
    visit.entries.clear_under(BOUGHT);
    for (name, text) in &piece.fields {
        visit.entries.set(name, text);
    }
    visit.entries.set(NAME, &piece.name);
    visit.entries.set(DAY, &piece.day.to_string());
    visit.entries.set(NUMBER, number);
}

/// The fields under which the piece is kept that is typed.
pub(crate) fn keeping(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    let is_reopened = reopened(ledger, visit).is_some();
    let (today, _) = visit.today;
    let keep = if is_reopened {
        text!("Keep the change")
    } else {
        text!("Keep this piece")
    };
    form(steps, "settings", "keep-bought", keep, |steps| {
        for (name, label, takes, usual, note) in [
            (
                NAME,
                text!("Name of the piece"),
                Takes::Words,
                "",
                text!("Pieces of one name are held together."),
            ),
            (
                DAY,
                text!("Day of the test"),
                Takes::Day,
                today.to_string().as_str(),
                "",
            ),
        ] {
            let about = Field {
                name,
                label,
                takes,
                usual,
                note,
            };
            field(steps, visit, &about);
        }
    });
    if is_reopened {
        button(
            steps,
            "quiet",
            "keep-another",
            text!("Keep as another piece"),
        );
    } else {
        steps.nothing();
    }
}

/// The pieces that are kept, the last day first, and what those of one name say.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    let mut pieces: Vec<(u32, KeptPiece)> = ledger
        .kept
        .under(PIECE)
        .filter_map(|(number, text)| Some((number.parse().ok()?, read(text).ok()?)))
        .collect();
    if pieces.is_empty() {
        steps.nothing();
        return;
    }
    pieces.sort_by_key(|(number, kept)| core::cmp::Reverse((kept.day, *number)));
    steps.element(
        "section",
        &[("class", "settings"), ("key", "kept")],
        |steps| {
            heading(steps, text!("Pieces that are kept"));
            for said in by_name(&pieces) {
                steps.holding("p", &[("class", "finding")], &said);
            }
            let listed = visit.entries.text(LISTED).parse().unwrap_or(FEW);
            let is_dropping = is_unkept(ledger, visit);
            steps.element("ul", &[("class", "tests")], |steps| {
                for (number, kept) in pieces.iter().take(listed) {
                    let key = number.to_string();
                    steps.element("li", &[("class", "test"), ("key", &key)], |steps| {
                        one(ledger, visit, (&key, kept), is_dropping, steps);
                    });
                }
            });
            if pieces.len() > listed {
                let more = format!("more-bought {}", listed.saturating_add(FEW));
                button(steps, "quiet", &more, text!("More of them"));
            }
        },
    );
}

/// Whether something is typed that is not kept.
fn is_unkept(ledger: &Ledger, visit: &Visit) -> bool {
    let known = reopened(ledger, visit);
    is_any(&visit.entries) && known.is_none_or(|(_, kept)| kept.fields != fields(visit))
}

fn one(
    ledger: &Ledger,
    visit: &Visit,
    (key, kept): (&str, &KeptPiece),
    is_dropping: bool,
    steps: &mut Steps,
) {
    let KeptPiece {
        name, day, piece, ..
    } = kept;
    steps.holding("strong", &[], &format!("{name} · {day}"));
    let test = piece.test();
    let share = test.usable_share(piece.bought).unwrap_or_default();
    let mut said = vec![say!("{share} usable", percent(share))];
    if let Some(cost) = test.cost_per_usable() {
        let unit = visit.units.price();
        said.push(price_with_unit(cost, unit, Rounding::HalfEven));
    }
    if let Some(factor) = test.cost_factor() {
        let factor = number(factor, 4, Rounding::HalfEven);
        said.push(say!("{label}: {value}", text!("Cost factor"), factor));
    }
    steps.holding("p", &[], &said.join(" · "));
    if !piece.is_within(ledger.settings.tolerance) {
        note(steps, text!("Its parts do not weigh what was bought."));
    }
    let open = format!("open-bought {key}");
    if is_dropping {
        let said = [
            text!("Open"),
            text!("What is typed above and not kept is dropped."),
            text!("Keep it"),
        ];
        button_surely(steps, visit, &open, said);
    } else {
        button(steps, "quiet", &open, text!("Open"));
    }
    button_surely(
        steps,
        visit,
        &format!("delete-bought {key}"),
        [
            text!("Delete"),
            text!("This piece is deleted. This cannot be undone."),
            text!("Keep it"),
        ],
    );
}

/// What the pieces of each name say together.
fn by_name(pieces: &[(u32, KeptPiece)]) -> Vec<String> {
    let mut names: BTreeMap<String, (&str, Vec<Share>)> = BTreeMap::new();
    for (_, KeptPiece { name, piece, .. }) in pieces {
        let (_, shares) = names
            .entry(lot_key(name))
            .or_insert_with(|| (name, Vec::new()));
        shares.extend(piece.test().usable_share(piece.bought));
    }
    names
        .into_values()
        .map(|(name, shares)| match UsableShares::of(&shares) {
            None => say!(
                "{name}: too few to say, {count} of at least {fewest}.",
                name,
                shares.len(),
                FEWEST_PIECES
            ),
            Some(of) => {
                let [least, most] = of.ends.map(percent);
                say!(
                    "{name}: {mean} usable on average over {count} pieces, from {least} to {most}; one standard deviation is {spread}.",
                    name,
                    percent(of.mean),
                    shares.len(),
                    least,
                    most,
                    percent(of.spread)
                )
            }
        })
        .collect()
}
