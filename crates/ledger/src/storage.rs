//! How much is kept and what to do when there is no room: everything as one
//! file, taking such a file in, deleting what is old or everything.

use advice::steps::Steps;
use form_urlencoded::Serializer;
use notation::number;
use pricing::CalendarDate;
use quantity::{Decimal, Rounding};
use wording::{say, text};

use crate::controls::{Field, Takes, button, button_surely, field, fold, heading, note, trouble};
use crate::kept::ROOM;
use crate::ledger::{Ledger, TEST};
use crate::paper::Paper;
use crate::record::{self, Part};
use crate::visit::{Done, File, Outcome, Refusal, Visit};
use crate::wire;

/// The entry of the day before which sides are deleted.
const BEFORE: &str = "at.record.before";

/// The entry of the text of a file that is taken in.
const FILE: &str = "file.record";

/// The first name in a file of everything, with its version.
const HEAD: (&str, &str) = ("sideworth-record", "1");

/// The last name in it, with how many things stand between.
const END: &str = "end";

/// Does what is asked about what is kept.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    match verb {
        "file-all" => {
            return Some(Ok(Done::File(File {
                name: "sideworth-record.txt".to_owned(),
                media_type: "text/plain",
                content: everything(ledger),
            })));
        }
        "take-record" => return Some(take_in(ledger, visit)),
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

/// All that is kept as one line in the encoding of web forms.
fn everything(ledger: &Ledger) -> String {
    let mut text = Serializer::new(String::new());
    text.append_pair(HEAD.0, HEAD.1);
    let mut count = 0_usize;
    for (key, item) in ledger.kept.all() {
        text.append_pair(key, item);
        count += 1;
    }
    text.append_pair(END, &count.to_string());
    text.finish()
}

/// What a file of everything holds; `None` where it is none, or was cut off.
fn read(text: &str) -> Option<Vec<(String, String)>> {
    let mut pairs = wire::pairs(text);
    let (end, count) = pairs.pop()?;
    let count: usize = count.parse().ok()?;
    let is_head = |(name, version): &(String, String)| name == HEAD.0 && version == HEAD.1;
    let is_whole = end == END && pairs.first().is_some_and(is_head) && pairs.len() == count + 1;
    is_whole.then(|| pairs.split_off(1))
}

fn no_file() -> &'static str {
    text!("This is no file of everything, or not all of it. Nothing was changed.")
}

/// What a file would bring, before it is taken in.
fn coming(visit: &Visit, items: &[(String, String)], steps: &mut Steps) {
    let tests = items
        .iter()
        .filter(|(key, _)| key.starts_with(TEST))
        .count();
    let bytes: usize = items.iter().map(|(key, text)| key.len() + text.len()).sum();
    let said = say!(
        "The file holds {tests} cutting tests, in all {size}.",
        tests,
        megabytes(bytes)
    );
    steps.holding("p", &[("class", "finding")], &said);
    button_surely(
        steps,
        visit,
        "take-record",
        [
            text!("Take it in"),
            text!(
                "It takes the place of everything that is kept here. This cannot be undone: save what is here as a file first."
            ),
            text!("Leave it"),
        ],
    );
}

fn take_in(ledger: &mut Ledger, visit: &mut Visit) -> Result<Done, Refusal> {
    let items = read(visit.entries.text(FILE)).ok_or_else(|| Refusal::at(FILE, no_file()))?;
    let bytes: usize = items.iter().map(|(key, text)| key.len() + text.len()).sum();
    if bytes > ROOM {
        let why = text!("It holds more than a browser keeps.");
        return Err(Refusal::at(FILE, why));
    }
    ledger.replace(items);
    visit.entries.clear_under("record.");
    visit.entries.clear(FILE);
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
    heading(steps, text!("Everything as one file"));
    note(
        steps,
        text!(
            "Sides, weighings, settings and the grinding log in one line of text, to keep elsewhere and to take in again here or on another phone. All is kept in this browser and nowhere else, and a browser may clear it."
        ),
    );
    button(
        steps,
        "quiet",
        "file-all",
        text!("Save everything as a file"),
    );
    fold(
        steps,
        "take-in",
        text!("Take a file of everything in"),
        |steps| {
            let about = Field {
                name: FILE,
                label: text!("A file of everything"),
                takes: Takes::File,
                usual: "",
                note: "",
            };
            field(steps, visit, &about);
            match visit.entries.exact(FILE).map(read) {
                None => steps.nothing(),
                Some(None) => trouble(steps, "p", no_file()),
                Some(Some(items)) => coming(visit, &items, steps),
            }
        },
    );
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
                "The side at the block, all closed sides, own yields, settings and the grinding log are deleted for good. This cannot be undone: save everything as a file first."
            ),
            text!("Keep everything"),
        ],
    );
}
