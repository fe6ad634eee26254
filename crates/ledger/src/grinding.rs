//! The grinding log: a batch is written down with the lots that went in, when
//! and by whom, and leads back to them from then on.

use advice::steps::Steps;
use notation::mass_with_unit;
use scale::{Batch, GrindingLog};
use wording::{say, text};

use crate::batch_form;
use crate::batch_lots::{self, AT_ONCE, GRIND};
use crate::cautions::cautions;
use crate::controls::{button, button_surely, heading, note};
use crate::ledger::Ledger;
use crate::trace::{lot_button, moment_said, product_named};
use crate::visit::{Done, Outcome, Refusal, Visit};

/// The entry of how many batches are listed.
const LISTED: &str = "record.batches";

/// So many batches are listed at first, and more at each asking.
const FEW: usize = 12;

/// Cautions of the catalogue that belong beside a grinder.
const CAUTIONS: [&str; 3] = ["grinding", "cold-chain", "young-workers"];

/// Does what is asked about the grinding log.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    match verb {
        "grind" => return Some(write_down(ledger, visit)),
        "ungrind" => {
            let mut log = ledger.log().clone();
            // Another tab may have written one more down meanwhile.
            if log.batches().last().is_some_and(|last| last.code == about) {
                log.take_back_last();
                ledger.put_log(log);
            }
        }
        "new-log" => ledger.put_log(GrindingLog::default()),
        "more-batches" => visit.entries.set(LISTED, about),
        _ => return batch_lots::press(ledger, visit, verb, about),
    }
    Some(Ok(Done::Shown))
}

fn write_down(ledger: &mut Ledger, visit: &mut Visit) -> Result<Done, Refusal> {
    let batch = batch_form::read(ledger, visit)?;
    let mut log = ledger.log().clone();
    log.add(batch).map_err(batch_form::refusal)?;
    ledger.put_log(log);
    visit.entries.clear_under(GRIND);
    visit.entries.clear_under(AT_ONCE);
    Ok(Done::Shown)
}

/// The view.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    batch_form::written(ledger, visit, steps);
    cautions(ledger, &CAUTIONS, steps);
    batches(ledger, visit, steps);
}

/// The batches, the last one first.
fn batches(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    let all = ledger.log().batches();
    heading(steps, text!("Batches"));
    let Some(last) = all.last() else {
        note(steps, text!("No batch was written down yet."));
        return;
    };
    let listed = visit.entries.text(LISTED).parse().unwrap_or(FEW);
    steps.element("ul", &[("class", "batches")], |steps| {
        for batch in all.iter().rev().take(listed) {
            steps.element("li", &[("key", &batch.code)], |steps| {
                one_batch(ledger, visit, batch, steps);
            });
        }
    });
    if all.len() > listed {
        let more = format!("more-batches {}", listed.saturating_add(FEW));
        button(steps, "quiet", &more, text!("More of them"));
    }
    let code = &last.code;
    let sure = say!(
        "The batch {code} is taken out of the log. A log that is changed later proves nothing: take back only a slip that you have just seen.",
        code
    );
    button_surely(
        steps,
        visit,
        &format!("ungrind {code}"),
        [text!("Take the last batch back"), &sure, text!("Keep it")],
    );
    let count = all.len();
    let sure = say!(
        "Batches deleted here for good: {count}. Lots can no longer be traced through them. This cannot be undone: save the log as a file first, and keep the file as long as local codes ask.",
        count
    );
    button_surely(
        steps,
        visit,
        "new-log",
        [text!("Begin a new log"), &sure, text!("Keep the log")],
    );
}

/// What is known of a batch but for its lots.
pub(crate) fn batch_lines(ledger: &Ledger, visit: &Visit, batch: &Batch) -> Vec<String> {
    let catalogue = ledger.catalogues().published;
    let mut said = vec![
        product_named(catalogue, &batch.product).to_owned(),
        moment_said(batch.ground),
        mass_with_unit(batch.weight(), visit.units),
    ];
    if !batch.by.is_empty() {
        said.push(batch.by.clone());
    }
    if let Some(cleaned) = batch.cleaned {
        said.push(say!("grinder cleaned {moment}", moment_said(cleaned)));
    }
    said
}

fn one_batch(ledger: &Ledger, visit: &Visit, batch: &Batch, steps: &mut Steps) {
    lot_button(steps, &batch.code, &batch.code);
    let said = batch_lines(ledger, visit, batch);
    steps.holding("p", &[], &said.join(" · "));
    steps.element("ul", &[("class", "readings")], |steps| {
        for (lot, weight) in &batch.lots {
            steps.element("li", &[], |steps| {
                lot_button(steps, lot, lot);
                let weight = mass_with_unit(*weight, visit.units);
                steps.holding("span", &[], &weight);
            });
        }
    });
}
