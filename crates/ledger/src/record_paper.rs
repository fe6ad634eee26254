//! The record on paper: the sides that were cut with their tags, the grinding log
//! with the lots of every batch, and where a lot came from and went.

use advice::steps::Steps;
use notation::mass_with_unit;
use quantity::Mass;
use scale::{Lot, Tag, Trace};
use wording::{say, text};

use crate::grinding::batch_lines;
use crate::ledger::Ledger;
use crate::tests_kept::title;
use crate::trace::{cut_said, forward, sellers, tag_lines, trace_of};
use crate::visit::Visit;

/// What a line is of, and what there is to say.
type Line = (String, String);

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
    head(visit, name, &mut steps);
    table(&lines, &mut steps);
    steps.written()
}

/// What a lot is, where it came from and where it went, as a piece of the page: of
/// each lot what is known of it, the tag of its side with it.
pub(crate) fn trace(ledger: &Ledger, visit: &Visit, code: &str) -> String {
    let mut steps = Steps::default();
    let trace = trace_of(ledger);
    head(visit, &say!("Lot {code}", code), &mut steps);
    let of = |code: &str| known(ledger, visit, &trace, code);
    let mut is: Vec<Line> = of(code)
        .into_iter()
        .map(|said| (code.to_owned(), said))
        .collect();
    if is.is_empty() {
        is.push((code.to_owned(), say!("No lot here is called {code}.", code)));
    }
    table(&is, &mut steps);
    let lines = |lots: Vec<(String, Option<Mass>)>| -> Vec<Line> {
        lots.into_iter()
            .map(|(lot, weight)| {
                let mut said = of(&lot);
                if let Some(weight) = weight {
                    said.insert(0, mass_with_unit(weight, visit.units));
                }
                let name = if lot.is_empty() {
                    text!("Side without a number").to_owned()
                } else {
                    lot
                };
                (name, said.join(" · "))
            })
            .collect()
    };
    let sold = sellers(&trace, code).into_iter();
    let mut back: Vec<Line> = sold
        .map(|seller| (text!("Supplier").to_owned(), seller.to_owned()))
        .collect();
    back.extend(lines(trace.back(code)));
    let ahead = lines(forward(&trace, code));
    for (name, nothing, lines) in [
        (
            text!("One step back"),
            text!("Nothing before it is recorded here."),
            back,
        ),
        (
            text!("One step forward"),
            text!("Nothing after it is recorded here: it is here still, or was sold."),
            ahead,
        ),
    ] {
        steps.holding("h3", &[], name);
        if lines.is_empty() {
            steps.holding("p", &[], nothing);
        }
        table(&lines, &mut steps);
    }
    steps.written()
}

/// All that is known of what a code stands for, a text for each lot that has it.
fn known(ledger: &Ledger, visit: &Visit, trace: &Trace, code: &str) -> Vec<String> {
    let catalogue = ledger.catalogues().published;
    let lots = trace.what(code).into_iter();
    lots.map(|lot| match lot {
        Lot::Side(tag) => tagged(text!("A side.").to_owned(), tag),
        Lot::Cut(tag, product) => tagged(cut_said(catalogue, tag, product), tag),
        Lot::Batch(batch) => batch_lines(ledger, visit, batch).join(" · "),
        Lot::Unknown => text!("Nothing but its code is known here.").to_owned(),
    })
    .collect()
}

fn tagged(said: String, tag: &Tag) -> String {
    let mut lines = tag_lines(tag);
    lines.insert(0, said);
    lines.join(" · ")
}

fn head(visit: &Visit, name: &str, steps: &mut Steps) {
    let (day, time) = visit.today;
    steps.element("div", &[("class", "paper-head")], |steps| {
        steps.holding("h3", &[], name);
        steps.holding("p", &[], &format!("{day} {time}"));
    });
}

fn table(lines: &[Line], steps: &mut Steps) {
    steps.element("table", &[("class", "paper-costs record")], |steps| {
        steps.element("tbody", &[], |steps| {
            for (head, line) in lines {
                steps.element("tr", &[], |steps| {
                    steps.holding("th", &[("scope", "row")], head);
                    steps.holding("td", &[], line);
                });
            }
        });
    });
}

fn sides(ledger: &Ledger, visit: &Visit) -> Vec<Line> {
    let tests = ledger.tests().iter();
    tests
        .map(|(_, test)| {
            let mut lines = tag_lines(&test.tag);
            lines.insert(0, mass_with_unit(test.chilled, visit.units));
            (title(test), lines.join(" · "))
        })
        .collect()
}

fn batches(ledger: &Ledger, visit: &Visit) -> Vec<Line> {
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
