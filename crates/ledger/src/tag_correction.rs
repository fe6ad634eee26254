//! The tag of a closed side is put right: a supplier that was mistyped, a document
//! that came later.

use advice::steps::Steps;
use pricing::Age;
use scale::{ClosedTest, GrindingLog, Tag};
use wording::{say, text};

use crate::controls::{button, choice, form, note};
use crate::ledger::Ledger;
use crate::tag_form::{self, age_said};
use crate::trace::trace_of_those;
use crate::visit::{Done, Outcome, Refusal, Visit};

/// Before the names of its fields.
const RETAG: &str = "retag.";

/// The entry of the number of the side whose tag is put right.
const OPEN: &str = "retag.side";

/// The entry of how old the animal was.
const AGE: &str = "retag.age";

/// Ages with what stands in their field.
const AGES: [(Age, &str); 3] = [
    (Age::Unknown, ""),
    (Age::Under30Months, "under"),
    (Age::Over30Months, "over"),
];

/// Does what is asked about the tag of a closed side.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    match verb {
        "retag" => {
            visit.entries.clear_under(RETAG);
            let number = about.parse().ok();
            if let Some(test) = number.and_then(|number| ledger.test(number)) {
                tag_form::fill(visit, RETAG, &test.tag);
                visit.entries.set(AGE, value(test.tag.age));
                visit.entries.set(OPEN, about);
            }
            Some(Ok(Done::Shown))
        }
        "set-tag" => Some(set(ledger, visit, about)),
        _ => None,
    }
}

fn set(ledger: &mut Ledger, visit: &mut Visit, about: &str) -> Result<Done, Refusal> {
    let number = about.parse().ok();
    let kept = number.and_then(|number| Some((number, ledger.test(number)?)));
    // Another tab may have deleted it.
    if let Some((number, test)) = kept {
        let typed = visit.entries.text(AGE).to_owned();
        let age = AGES.iter().find(|(_, value)| *value == typed);
        let age = age.map_or(Age::Unknown, |(age, _)| *age);
        let mut corrected = test.clone();
        corrected.tag = tag_form::read(visit, RETAG, age)?;
        if let Some((batch, code)) = led_astray(ledger, test, &corrected) {
            let why = say!(
                "The batch {batch} names {code}, which would lead nowhere then. Leave the lot number, the days and the side as they are.",
                batch,
                code
            );
            return Err(Refusal::at(format!("{RETAG}lot"), why));
        }
        ledger.put_test(number, corrected);
    }
    visit.entries.clear_under(RETAG);
    Ok(Done::Shown)
}

/// A batch of grind, and a lot in it, that would not be found to come from this
/// side any more, by whichever scheme its code was made: the log itself is never
/// rewritten.
fn led_astray(ledger: &Ledger, was: &ClosedTest, is: &ClosedTest) -> Option<(String, String)> {
    let nothing_ground = GrindingLog::default();
    let alone = |test| trace_of_those(ledger, [test], &nothing_ground);
    let (was, is) = (alone(was), alone(is));
    ledger.log().batches().iter().find_map(|batch| {
        let is_lost = |lot: &str| !was.what(lot).is_empty() && is.what(lot).is_empty();
        let (lot, _) = batch.lots.iter().find(|(lot, _)| is_lost(lot))?;
        Some((batch.code.clone(), lot.clone()))
    })
}

fn value(age: Age) -> &'static str {
    let known = AGES.iter().find(|(known, _)| *known == age);
    known.map_or("", |(_, value)| value)
}

/// A button that opens the fields, or the fields.
pub(crate) fn written(visit: &Visit, key: &str, tag: &Tag, steps: &mut Steps) {
    if visit.entries.text(OPEN) != key {
        let retag = format!("retag {key}");
        if tag.lot.is_empty() {
            button(steps, "offer", &retag, text!("Give it its number"));
        } else {
            button(steps, "quiet", &retag, text!("Correct the tag"));
        }
        return;
    }
    let set = format!("set-tag {key}");
    form(steps, "settings", &set, text!("Set"), |steps| {
        tag_form::written(visit, RETAG, steps);
        let ages = AGES.map(|(age, value)| (value, age_said(age).to_owned()));
        choice(steps, visit, (AGE, text!("Age of the animal"), ""), &ages);
        note(
            steps,
            text!(
                "Where the lot number, a day or the side changes, labels that are printed already do not lead back here."
            ),
        );
    });
    button(steps, "quiet", "retag ", text!("Leave the tag as it was"));
}
