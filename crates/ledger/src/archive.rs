//! What room there is, and how to make some: old sides go into a file and out of
//! the browser. What takes room of a side are its weighings and its plan, kept for
//! the last ones, and the test itself. The former can go alone: the tag, the lot
//! codes and what was learnt rest on the test.

use advice::steps::Steps;
use notation::number;
use pricing::CalendarDate;
use quantity::{Decimal, Rounding};
use wording::{say, text};

use crate::controls::{
    ASK_FIRST, Field, SURE, Takes, button, button_surely, field, heading, note, trouble,
};
use crate::kept::ROOM;
use crate::ledger::Ledger;
use crate::paper::Paper;
use crate::visit::{Done, Outcome, Refusal, Visit};

/// The entry of the day before which sides are archived.
const BEFORE: &str = "at.record.before";

/// What the button says that hands everything out as a file.
pub(crate) const FILE_ALL: &str = "file-all";

/// Does what is asked about old sides.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    if !matches!(verb, "archive-before" | "delete-before") {
        return None;
    }
    let Ok(day) = about.parse() else {
        return Some(Ok(Done::Shown));
    };
    if !ledger.is_handed_out() {
        return Some(Err(Refusal::at(BEFORE, file_first())));
    }
    let old = Old::before(ledger, day);
    for number in &old.numbers {
        Paper::drop(&mut ledger.kept, *number);
    }
    if verb == "delete-before" {
        ledger.drop_tests(&old.numbers);
        visit.entries.clear(BEFORE);
    }
    // What was handed out holds what is gone now: the rest may follow it.
    ledger.note_handed_out();
    Some(Ok(Done::Shown))
}

fn file_first() -> &'static str {
    text!("Save the records as a file first: what goes from here is in that file alone.")
}

/// Sides that were received before a day. What has no day of receipt is not among
/// them.
struct Old {
    numbers: Vec<u32>,
    /// Of how many the weighings and the plan are kept.
    with_paper: usize,
    /// How many count in the own yields.
    learnt: usize,
}

impl Old {
    fn before(ledger: &Ledger, day: CalendarDate) -> Self {
        let mut old = Self {
            numbers: Vec::new(),
            with_paper: 0,
            learnt: 0,
        };
        for (number, test) in ledger.tests() {
            if test.tag.received.is_some_and(|received| received < day) {
                old.numbers.push(*number);
                old.with_paper += usize::from(Paper::is_kept(&ledger.kept, *number));
                old.learnt += usize::from(!test.is_left_out);
            }
        }
        old
    }
}

/// Bytes in millions.
pub(crate) fn megabytes(bytes: usize) -> String {
    let bytes = Decimal::from(bytes) / Decimal::from(1_000_000);
    format!("{} MB", number(bytes, 2, Rounding::HalfEven))
}

/// Says so where the room runs out.
pub(crate) fn warning(ledger: &Ledger, steps: &mut Steps) {
    let bytes = ledger.kept.bytes();
    if bytes <= ROOM / 3 * 2 {
        steps.nothing();
        return;
    }
    steps.element("div", &[("class", "settings"), ("key", "room")], |steps| {
        let said = say!(
            "{used} of about {room} are taken. Save everything as a file, then archive the oldest sides.",
            megabytes(bytes),
            megabytes(ROOM)
        );
        trouble(steps, "p", &said);
        let kept = "record-part kept";
        button(steps, "quiet", kept, text!("Files and storage"));
    });
}

/// What room there is, and how to make some.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    heading(steps, text!("Room"));
    let said = say!(
        "{used} of about {room} are taken.",
        megabytes(ledger.kept.bytes()),
        megabytes(ROOM)
    );
    steps.holding("p", &[("class", "finding")], &said);
    let about = Field {
        name: BEFORE,
        label: text!("Archive sides received before"),
        takes: Takes::Day,
        usual: "",
        note: text!(
            "First into a file, then out of this browser; the file brings them back. How long records must be kept, local codes decide."
        ),
    };
    field(steps, visit, &about);
    if let Ok(day) = visit.entries.text(BEFORE).parse::<CalendarDate>() {
        let old = Old::before(ledger, day);
        if old.numbers.is_empty() {
            note(steps, text!("No side was received before that day."));
        } else {
            steps.element(
                "div",
                &[("class", "settings"), ("key", "archive")],
                |steps| {
                    old_sides(ledger, visit, day, &old, steps);
                },
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
                "All sides, closed or not, own yields, bought-in pieces, settings and the grinding log are deleted for good. This cannot be undone: save everything as a file first."
            ),
            text!("Keep everything"),
        ],
    );
}

/// What can become of old sides.
fn old_sides(ledger: &Ledger, visit: &Visit, day: CalendarDate, old: &Old, steps: &mut Steps) {
    let count = old.numbers.len();
    let said = say!(
        "Sides received before {day}: {count}. With weighings and a report: {papers}.",
        day,
        count,
        old.with_paper
    );
    steps.holding("p", &[("class", "finding")], &said);
    let save = text!("Save the records as a file");
    button(steps, "quiet", FILE_ALL, save);
    // Handing the file out draws nothing anew, so whether it was is asked where
    // someone goes on.
    let mut surely = |pressed: &str, said: [&str; 3]| {
        if visit.entries.text(SURE) == pressed && !ledger.is_handed_out() {
            trouble(steps, "p", file_first());
            button(steps, "quiet", &format!("{ASK_FIRST}{pressed}"), said[0]);
        } else {
            button_surely(steps, visit, pressed, said);
        }
    };
    if old.with_paper > 0 {
        let sure = say!(
            "Sides whose weighings, plan and so report go from this browser: {papers}. Their tags, their lot codes and what was learnt from them stay.",
            old.with_paper
        );
        let drop = text!("Drop their weighings and reports");
        let pressed = format!("archive-before {day}");
        surely(&pressed, [drop, &sure, text!("Keep them")]);
    }
    let sure = say!(
        "Sides deleted here: {count}. Sides that stop counting in your own yields: {learnt}. Their lot codes lead nowhere here any more.",
        count,
        old.learnt
    );
    let pressed = format!("delete-before {day}");
    let delete = text!("Delete these sides");
    surely(&pressed, [delete, &sure, text!("Keep them")]);
}
