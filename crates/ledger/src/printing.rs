//! Papers of the side at the block, the cutting sheet and the price cards, and the
//! price cards of one that is closed, with the lot code of every cut.

use std::collections::BTreeMap;

use advice::Question;
use advice::printed::{Heading, Paper, written as paper};
use advice::steps::Steps;
use carcass::ProductId;
use scale::{LotScheme, Tag, planned_lines};
use wording::text;

use crate::bench::Bench;
use crate::controls::{button, fold, note};
use crate::ledger::Ledger;
use crate::paper::Paper as Cut;
use crate::tag_form::{self, TAG};
use crate::visit::{Done, Outcome, Refusal, Visit};

/// The papers with the words that their buttons say.
const PAPERS: [(Paper, &str); 2] = [(Paper::Cutting, "cutting"), (Paper::Cards, "cards")];

/// Writes the paper that is asked for.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    match verb {
        "print" => {
            let (which, _) = PAPERS.into_iter().find(|(_, word)| *word == about)?;
            Some(printed(ledger, visit, which))
        }
        "print-side" => Some(cards_of(ledger, visit, about)),
        _ => None,
    }
}

fn printed(ledger: &Ledger, visit: &Visit, which: Paper) -> Result<Done, Refusal> {
    let own = ledger.catalogues().own;
    let Ok(bench) = Bench::of(&ledger.kept, own) else {
        return Ok(Done::Shown);
    };
    let question = bench.question(own, visit.units).map_err(Refusal::new)?;
    let tag = tag_form::read(visit, TAG, question.case.deal.age)?;
    let heading = heading(ledger, visit, &question, &tag);
    Ok(Done::Paper(paper(&question, &bench.draft, which, &heading)))
}

/// Price cards of a side that is closed, by the plan that it was cut by.
fn cards_of(ledger: &Ledger, visit: &Visit, number: &str) -> Result<Done, Refusal> {
    let number = number.parse().ok();
    let closed = number.and_then(|number| {
        let cut = Cut::of_test(&ledger.kept, number)?;
        Some((ledger.test(number)?, cut))
    });
    // Another tab may have deleted it.
    let Some((test, cut)) = closed else {
        return Ok(Done::Shown);
    };
    let catalogue = cut.catalogue(ledger.catalogues().published);
    let question = cut.question(&catalogue, visit.units);
    let question = question.map_err(Refusal::new)?;
    let heading = heading(ledger, visit, &question, &test.tag);
    let cards = paper(&question, &cut.draft, Paper::Cards, &heading);
    Ok(Done::Paper(cards))
}

/// What stands on a paper of a side with this tag.
fn heading(ledger: &Ledger, visit: &Visit, question: &Question, tag: &Tag) -> Heading {
    let claims: Vec<&str> = tag.claims.iter().map(|claim| claim.what.as_str()).collect();
    Heading {
        title: [tag.supplier.as_str(), &tag.farm]
            .into_iter()
            .filter(|name| !name.is_empty())
            .collect::<Vec<_>>()
            .join(", "),
        lot: tag.lot.clone(),
        claim: claims.join(" · "),
        date: visit.today.0.to_string(),
        address: visit.address.clone(),
        codes: codes(question, &ledger.settings.scheme, tag),
    }
}

/// The lot code of every cut and by-product of a side; none where the side has
/// no number that they could lead back to.
fn codes(question: &Question, scheme: &LotScheme, tag: &Tag) -> BTreeMap<ProductId, String> {
    if tag.lot.is_empty() {
        return BTreeMap::new();
    }
    let catalogue = question.case.catalogue;
    planned_lines(catalogue, &question.sheet.breakdown)
        .into_iter()
        .map(|line| (line.product, scheme.code(catalogue, tag, line.product)))
        .collect()
}

/// The button for the price cards of a closed side, as long as its plan is kept.
pub(crate) fn of_closed(ledger: &Ledger, key: &str, steps: &mut Steps) {
    let number = key.parse().ok();
    if number.is_some_and(|number| Cut::is_kept(&ledger.kept, number)) {
        let print = format!("print-side {key}");
        button(steps, "quiet", &print, text!("Print its price cards"));
    }
}

/// The buttons.
pub(crate) fn written(steps: &mut Steps) {
    fold(steps, "print", text!("Print"), |steps| {
        steps.element("div", &[("class", "actions")], |steps| {
            for (which, word) in PAPERS {
                button(steps, "", &format!("print {word}"), which.name());
            }
        });
        note(
            steps,
            text!("With the lot code of every cut, once the side has a number in its tag."),
        );
    });
}
