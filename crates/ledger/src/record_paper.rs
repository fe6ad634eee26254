//! The record on paper: the sides that were cut with their tags, and the grinding
//! log with the lots of every batch.

use advice::steps::Steps;
use notation::mass_with_unit;
use wording::text;

use crate::grinding::batch_lines;
use crate::ledger::Ledger;
use crate::tests_kept::title;
use crate::trace::tag_lines;
use crate::visit::Visit;

/// What can be put on paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum RecordPaper {
    /// The sides.
    Sides,
    /// The grinding log.
    Log,
}

/// The paper as a piece of the page, the oldest line first.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, paper: RecordPaper) -> String {
    let mut steps = Steps::default();
    let (name, lines) = match paper {
        RecordPaper::Sides => (text!("Sides that were cut"), sides(ledger, visit)),
        RecordPaper::Log => (text!("Grinding log"), batches(ledger, visit)),
    };
    steps.element("div", &[("class", "paper-head")], |steps| {
        steps.holding("h3", &[], name);
        steps.holding("p", &[], &visit.today.0.to_string());
    });
    steps.element("table", &[("class", "paper-costs record")], |steps| {
        steps.element("tbody", &[], |steps| {
            for (head, line) in lines {
                steps.element("tr", &[], |steps| {
                    steps.holding("th", &[("scope", "row")], &head);
                    steps.holding("td", &[], &line);
                });
            }
        });
    });
    steps.written()
}

fn sides(ledger: &Ledger, visit: &Visit) -> Vec<(String, String)> {
    let tests = ledger.tests().iter();
    tests
        .map(|(_, test)| {
            let mut lines = tag_lines(&test.tag);
            lines.insert(0, mass_with_unit(test.chilled, visit.units));
            (title(test), lines.join(" · "))
        })
        .collect()
}

fn batches(ledger: &Ledger, visit: &Visit) -> Vec<(String, String)> {
    let batches = ledger.log().batches().iter();
    batches
        .map(|batch| {
            let mut lines = batch_lines(ledger, visit, batch);
            lines.extend(
                batch.lots.iter().map(|(lot, weight)| {
                    format!("{lot}: {}", mass_with_unit(*weight, visit.units))
                }),
            );
            (batch.code.clone(), lines.join(" · "))
        })
        .collect()
}
