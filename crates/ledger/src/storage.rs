//! How much is kept and what to do when there is no room: everything as one
//! file, taking such a file in, deleting what is old or everything.

use std::collections::BTreeMap;

use advice::steps::Steps;
use notation::number;
use pricing::CalendarDate;
use quantity::{Decimal, Rounding};
use shelf::file::{read_file, write_file};
use wording::{say, text};

use crate::controls::{Field, Takes, button, button_surely, field, fold, heading, note, trouble};
use crate::kept::ROOM;
use crate::ledger::{Ledger, TEST};
use crate::paper::Paper;
use crate::record::{self, Part};
use crate::visit::{Done, File, Outcome, Refusal, Visit};
use crate::waiting::OF_THE_SIDE;

/// The entry of the day before which sides are deleted.
const BEFORE: &str = "at.record.before";

/// The entry of the text of a file that is taken in.
const FILE: &str = "file.record";

/// What the button says that takes the records of a file in.
pub const TAKE_IN: &str = "take-record";

/// Does what is asked about what is kept.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    match verb {
        "file-all" => {
            return Some(Ok(Done::File(File {
                name: "sideworth-scale.json".to_owned(),
                media_type: "application/json",
                content: write_file([], ledger.all_kept()),
            })));
        }
        TAKE_IN => return Some(take_in(ledger, visit)),
        "delete-before" => {
            if let Ok(day) = about.parse() {
                let numbers = received_before(ledger, day);
                for number in &numbers {
                    Paper::drop(&mut ledger.kept, *number);
                }
                ledger.drop_tests(&numbers);
                visit.entries.clear(BEFORE);
            }
        }
        "delete-all" => {
            ledger.clear();
            // What is typed and not handed in yet is kept too.
            visit.entries.clear_under("");
            record::open(visit, Part::Kept);
        }
        _ => return None,
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
fn coming(visit: &Visit, items: &BTreeMap<String, String>, steps: &mut Steps) {
    steps.holding("p", &[("class", "finding")], &held(items));
    button_surely(
        steps,
        visit,
        TAKE_IN,
        [text!("Take the records in"), replaces(), text!("Leave it")],
    );
}

fn take_in(ledger: &mut Ledger, visit: &mut Visit) -> Result<Done, Refusal> {
    let items = read(visit.entries.text(FILE)).map_err(|why| Refusal::at(FILE, why))?;
    ledger.replace(items);
    visit.entries.clear_under("record.");
    visit.entries.clear(FILE);
    // What stands there is about a side that is gone.
    for fields in OF_THE_SIDE {
        visit.entries.clear_under(fields);
    }
    Ok(Done::Shown)
}

/// The numbers of sides that were received before a day. What has no day of
/// receipt is not among them.
fn received_before(ledger: &Ledger, day: CalendarDate) -> Vec<u32> {
    let tests = ledger.tests().iter();
    tests
        .filter(|(_, test)| test.tag.received.is_some_and(|received| received < day))
        .map(|(number, _)| *number)
        .collect()
}

/// Bytes in millions.
fn megabytes(bytes: usize) -> String {
    let bytes = Decimal::from(bytes) / Decimal::from(1_000_000);
    format!("{} MB", number(bytes, 2, Rounding::HalfEven))
}

/// Says so where the room runs out.
pub(crate) fn warning(ledger: &Ledger, steps: &mut Steps) {
    let bytes = ledger.kept.bytes();
    if bytes > ROOM / 3 * 2 {
        let said = say!(
            "{used} of about {room} are taken. Under “Files and storage”, save everything as a file, then delete the oldest sides.",
            megabytes(bytes),
            megabytes(ROOM)
        );
        trouble(steps, "p", &said);
    } else {
        steps.nothing();
    }
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
        "file-all",
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
            None => steps.nothing(),
            Some(Err(why)) => trouble(steps, "p", &why),
            Some(Ok(items)) => coming(visit, &items, steps),
        }
    });
    unreadable(ledger, steps);
    room(ledger, visit, steps);
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

/// What room there is, and how to make some.
fn room(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    heading(steps, text!("Room"));
    let said = say!(
        "{used} of about {room} are taken.",
        megabytes(ledger.kept.bytes()),
        megabytes(ROOM)
    );
    steps.holding("p", &[("class", "finding")], &said);
    let about = Field {
        name: BEFORE,
        label: text!("Delete sides received before"),
        takes: Takes::Day,
        usual: "",
        note: text!(
            "Their weighings, reports and lots go, and what was learnt from them. How long records must be kept, local codes decide."
        ),
    };
    field(steps, visit, &about);
    let typed = visit.entries.text(BEFORE);
    if let Ok(day) = typed.parse::<CalendarDate>() {
        let count = received_before(ledger, day).len();
        if count == 0 {
            note(steps, text!("No side was received before that day."));
        } else {
            let sure = say!(
                "Sides received before {day} and deleted for good: {count}. This cannot be undone: save everything as a file first.",
                day,
                count
            );
            button_surely(
                steps,
                visit,
                &format!("delete-before {day}"),
                [text!("Delete these sides"), &sure, text!("Keep them")],
            );
        }
    }
    button_surely(
        steps,
        visit,
        "delete-all",
        [
            text!("Delete everything kept here"),
            text!(
                "All sides, closed or not, own yields, settings and the grinding log are deleted for good. This cannot be undone: save everything as a file first."
            ),
            text!("Keep everything"),
        ],
    );
}
