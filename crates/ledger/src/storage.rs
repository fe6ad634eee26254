//! Everything as one file, taking such a file in beside what is here or in its
//! place, deleting everything.

use std::collections::BTreeMap;

use advice::steps::Steps;
use shelf::file::{read_file, write_file};
use wording::{say, text};

use crate::archive::{self, FILE_ALL, megabytes};
use crate::bought_kept::PIECE;
use crate::controls::{Field, Takes, button, button_surely, field, fold, heading, note, trouble};
use crate::joining::Joining;
use crate::kept::ROOM;
use crate::ledger::{Ledger, TEST};
use crate::record::{self, Part};
use crate::visit::{Done, File, Outcome, Refusal, Visit};

/// The entry of the text of a file that is taken in.
const FILE: &str = "file.record";

/// The entry of how many sides were added.
const JOINED: &str = "record.joined";

/// What the button says that adds the records of a file to those here.
const JOIN: &str = "join-record";

/// What the button says that takes the records of a file in.
pub const TAKE_IN: &str = "take-record";

/// Does what is asked about what is kept.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    match verb {
        FILE_ALL => {
            ledger.note_handed_out();
            return Some(Ok(Done::File(File {
                name: "sideworth-scale.json".to_owned(),
                media_type: "application/json",
                content: write_file([], ledger.all_kept()),
            })));
        }
        TAKE_IN => return Some(take_in(ledger, visit)),
        JOIN => return Some(join(ledger, visit)),
        "delete-all" => {
            ledger.clear();
            clear_fields(visit);
        }
        _ => return archive::press(ledger, visit, verb, about),
    }
    Some(Ok(Done::Shown))
}

/// The records of the scale that a file of everything holds.
///
/// # Errors
/// A sentence that says why there are none, or why they cannot be taken in.
pub(crate) fn read(text: &str) -> Result<BTreeMap<String, String>, String> {
    let items = read_file(text)
        .map_err(|fault| {
            let unchanged = text!("Nothing has been changed.");
            format!("{fault} {unchanged}")
        })?
        .scale;
    if items.is_empty() {
        return Err(text!("The file holds no records of the scale.").to_owned());
    }
    if bytes(&items) > ROOM {
        return Err(too_much().to_owned());
    }
    Ok(items)
}

fn bytes(items: &BTreeMap<String, String>) -> usize {
    items.iter().map(|(key, text)| key.len() + text.len()).sum()
}

/// What the records of a file would bring, with the button that takes them in
/// without asking again: a piece of the page.
pub fn would_take(items: &BTreeMap<String, String>) -> String {
    let mut steps = Steps::default();
    steps.holding("p", &[("class", "finding")], &held(items));
    if bytes(items) > ROOM {
        trouble(&mut steps, "p", too_much());
    } else {
        note(&mut steps, replaces());
        button(&mut steps, "quiet", TAKE_IN, text!("Take the records in"));
    }
    steps.written()
}

fn held(items: &BTreeMap<String, String>) -> String {
    let tests = items.keys().filter(|key| key.starts_with(TEST)).count();
    say!(
        "The file holds the records of the scale: {tests} cutting tests, in all {size}.",
        tests,
        megabytes(bytes(items))
    )
}

fn too_much() -> &'static str {
    text!("It holds more than a browser keeps.")
}

fn replaces() -> &'static str {
    text!(
        "They take the place of everything that the scale keeps here. This cannot be undone: save what is here as a file first."
    )
}

/// What a file would bring, before it is taken in.
fn coming(ledger: &Ledger, visit: &Visit, items: &BTreeMap<String, String>, steps: &mut Steps) {
    steps.holding("p", &[("class", "finding")], &held(items));
    // Where nothing is here there is nothing to add to.
    let is_any = ledger.kept.bytes() > 0;
    if is_any {
        would_join(&Joining::of(ledger, items), steps);
    }
    let take_in = if is_any {
        text!("Put them in the place of what is here")
    } else {
        text!("Take the records in")
    };
    button_surely(
        steps,
        visit,
        TAKE_IN,
        [take_in, replaces(), text!("Leave it")],
    );
}

/// What a file would add to what is here.
fn would_join(joining: &Joining, steps: &mut Steps) {
    let said = if joining.is_nothing() {
        say!(
            "Nothing of it is new here. Sides that are here already: {known}.",
            joining.known
        )
    } else {
        say!(
            "New here: sides {sides}, batches of grind {batches}, bought-in pieces {pieces}, weighings with a report {reports}. Sides that are here already: {known}.",
            joining.sides,
            joining.batches,
            joining.pieces,
            joining.reports,
            joining.known
        )
    };
    steps.holding("p", &[], &said);
    if !joining.clashing.is_empty() {
        let codes = joining.clashing.join(", ");
        let said = say!(
            "Batches that stay in the file, since another batch here has their code or the log is full: {codes}.",
            codes
        );
        trouble(steps, "p", &said);
    }
    if joining.left > 0 {
        let said = say!(
            "What stays in the file since it was not closed or cannot be read: {left}.",
            joining.left
        );
        note(steps, &said);
    }
    if !joining.is_nothing() {
        button(steps, "quiet", JOIN, text!("Add them to what is here"));
        note(
            steps,
            text!("What is here stays as it is, and so do the settings of this device."),
        );
    }
}

fn join(ledger: &mut Ledger, visit: &mut Visit) -> Result<Done, Refusal> {
    let items = read(visit.entries.text(FILE)).map_err(|why| Refusal::at(FILE, why))?;
    let joining = Joining::of(ledger, &items);
    if ledger.kept.bytes() + joining.bytes() > ROOM {
        return Err(Refusal::at(FILE, too_much()));
    }
    visit.entries.set(JOINED, &joining.sides.to_string());
    visit.entries.clear(FILE);
    ledger.join(joining.into_texts());
    Ok(Done::Shown)
}

/// Says no more that a file was added.
pub(crate) fn forget_joined(visit: &mut Visit) {
    visit.entries.clear(JOINED);
}

/// Empties all fields: what stands there is about what is gone.
fn clear_fields(visit: &mut Visit) {
    visit.entries.clear_under("");
    record::open(visit, Part::Kept);
}

fn take_in(ledger: &mut Ledger, visit: &mut Visit) -> Result<Done, Refusal> {
    let items = read(visit.entries.text(FILE)).map_err(|why| Refusal::at(FILE, why))?;
    ledger.replace(items);
    // A form that is open there would write on a side of the other record.
    clear_fields(visit);
    Ok(Done::Shown)
}

/// The view.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    heading(steps, text!("The records of the scale as a file"));
    note(
        steps,
        text!(
            "Sides, weighings, settings and the grinding log as one file, to keep elsewhere and to take in again here or on another phone; under Saved, “Keep in a file” has the saved plans in it as well. All is kept in this browser and nowhere else, and a browser may clear it."
        ),
    );
    button(
        steps,
        "quiet",
        FILE_ALL,
        text!("Save the records as a file"),
    );
    fold(steps, "take-in", text!("Take records in"), |steps| {
        let about = Field {
            name: FILE,
            label: text!("A file of everything, or of the records"),
            takes: Takes::File,
            usual: "",
            note: "",
        };
        field(steps, visit, &about);
        match visit.entries.exact(FILE).map(read) {
            None => match visit.entries.text(JOINED) {
                "" => steps.nothing(),
                sides => {
                    let said = say!("It is added. New sides: {sides}.", sides);
                    steps.holding("p", &[("class", "finding")], &said);
                }
            },
            Some(Err(why)) => trouble(steps, "p", &why),
            Some(Ok(items)) => coming(ledger, visit, &items, steps),
        }
    });
    unreadable(ledger, steps);
    archive::written(ledger, visit, steps);
}

/// What cannot be read, with why.
fn unreadable(ledger: &Ledger, steps: &mut Steps) {
    if ledger.unreadable.is_empty() {
        return;
    }
    heading(steps, text!("What cannot be read"));
    note(
        steps,
        text!(
            "It stays where it is and goes into the file of everything; a newer version of this app may read it."
        ),
    );
    steps.element("ul", &[("class", "tests")], |steps| {
        for item in &ledger.unreadable {
            let name = match item.key.strip_prefix(TEST) {
                Some(number) => say!("Cutting test {number}", number),
                None if item.key.starts_with(PIECE) => {
                    let number = item.key.trim_start_matches(PIECE);
                    say!("Bought-in piece {number}", number)
                }
                None if item.key.ends_with("grinding") => text!("Grinding log").to_owned(),
                None => item.key.clone(),
            };
            steps.element("li", &[("class", "test"), ("key", &item.key)], |steps| {
                steps.holding("strong", &[], &name);
                if !item.why.is_empty() {
                    steps.holding("p", &[], &item.why);
                }
            });
        }
    });
}
