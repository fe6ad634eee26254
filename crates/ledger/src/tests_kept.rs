//! Closed cutting tests: how they went over time, each with its report; one can
//! be left out of what is learnt, or deleted.

use advice::steps::Steps;
use advice::{Block, Column, Tone, blocks};
use carcass::{Catalogue, Kind, Output};
use notation::{mass_with_unit, percent};
use quantity::{Decimal, Mass, Share};
use scale::{ClosedTest, KnownWays};
use wording::{say, text};

use crate::controls::{button, button_surely, heading, note};
use crate::ledger::Ledger;
use crate::paper::Paper;
use crate::report::{self, SHOWN};
use crate::unexplained;
use crate::view::{GO, View};
use crate::visit::{Done, Outcome, Visit};

/// The entry that says how many tests are listed.
const LISTED: &str = "tests.listed";

/// So many tests are listed at first, and more at each asking.
const FEW: usize = 12;

/// So many columns a picture of the history has at most.
const MOST_COLUMNS: usize = 60;

/// Does what is asked about closed tests.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    let number = about.parse::<u32>().ok();
    match (verb, number) {
        ("leave-out", Some(number)) => {
            if let Some(test) = ledger.test(number) {
                let mut test = test.clone();
                test.is_left_out = !test.is_left_out;
                ledger.put_test(number, test);
            }
        }
        ("delete-test", Some(number)) => {
            ledger.drop_tests(&[number]);
            Paper::drop(&mut ledger.kept, number);
            if visit.entries.text(SHOWN) == about {
                visit.entries.clear_under("report.");
                visit.entries.clear_under("at.report.");
            }
        }
        ("more-tests", Some(listed)) => visit.entries.set(LISTED, &listed.to_string()),
        _ => return None,
    }
    Some(Ok(Done::Shown))
}

/// The view.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    if let Ok(number) = visit.entries.text(SHOWN).parse::<u32>()
        && let Some(test) = ledger.test(number)
    {
        heading(steps, &title(test));
        report::written(ledger, visit, number, steps);
        return;
    }
    let tests = ledger.tests();
    if tests.is_empty() {
        note(steps, text!("No side was closed yet."));
        button(
            steps,
            "offer",
            &format!("{GO}{}", View::WeighIn.id()),
            text!("Weigh-in"),
        );
        return;
    }
    let catalogue = ledger.catalogues().published;
    let known = KnownWays::of(catalogue);
    steps.raw(&blocks(&history(catalogue, &known, ledger)));
    let listed = visit.entries.text(LISTED).parse().unwrap_or(FEW);
    steps.element("ul", &[("class", "tests")], |steps| {
        for (number, test) in tests.iter().rev().take(listed) {
            one(ledger, &known, visit, (*number, test), steps);
        }
    });
    if tests.len() > listed {
        let more = listed.saturating_add(FEW);
        button(
            steps,
            "quiet",
            &format!("more-tests {more}"),
            text!("More of them"),
        );
    }
}

/// What a test is called.
pub(crate) fn title(test: &ClosedTest) -> String {
    let lot = if test.tag.lot.is_empty() {
        text!("Side without a number").to_owned()
    } else {
        test.tag.lot.clone()
    };
    let day = test.tag.received.map(|day| day.to_string());
    let parts = [Some(lot), day, Some(test.tag.supplier.clone())];
    let parts: Vec<String> = parts
        .into_iter()
        .flatten()
        .filter(|part| !part.is_empty())
        .collect();
    parts.join(" · ")
}

/// What of a test can be sold as cuts, as a share of the side; `None` where the
/// catalogue does not know how it was cut.
fn saleable(catalogue: &Catalogue, known: &KnownWays, test: &ClosedTest) -> Option<Share> {
    let mut cuts = Mass::ZERO;
    for kept in &test.ways {
        let weighed = kept.resolved(known)?;
        for (output, weight) in catalogue[weighed.way].outputs.iter().zip(&weighed.outputs) {
            if let Output::Product(product) = output.output
                && catalogue[product].kind == Kind::Cut
            {
                cuts += *weight;
            }
        }
    }
    cuts.ratio_to(test.chilled)
}

/// The saleable share of the last tests as a picture.
fn history(catalogue: &Catalogue, known: &KnownWays, ledger: &Ledger) -> Vec<Block> {
    let seen: Vec<(String, Share)> = ledger
        .tests()
        .iter()
        .rev()
        .take(MOST_COLUMNS)
        .filter_map(|(_, test)| Some((title(test), saleable(catalogue, known, test)?)))
        .collect();
    // One or two are no history.
    if seen.len() < 3 {
        return Vec::new();
    }
    let (Some(least), Some(most)) = (
        seen.iter().map(|(_, share)| *share).min(),
        seen.iter().map(|(_, share)| *share).max(),
    ) else {
        return Vec::new();
    };
    // From just below the least to the most: shares of sides differ by little.
    let room = (most.fraction() - least.fraction()).max(Decimal::new(1, 3));
    let height = |share: Share| {
        let above = (share.fraction() - least.fraction()).checked_div(room);
        let height = Decimal::from(200) + above.unwrap_or_default() * Decimal::from(780);
        u16::try_from(height.round()).unwrap_or(1000)
    };
    let end = |end: Option<&(String, Share)>| {
        end.map_or_else(String::new, |(title, share)| {
            format!("{title}: {}", notation::share(*share))
        })
    };
    let ends = [end(seen.last()), end(seen.first())];
    let columns = seen
        .iter()
        .rev()
        .map(|(_, share)| Column {
            height: height(*share),
            falls_short: false,
        })
        .collect();
    let rows = seen
        .iter()
        .map(|(title, share)| vec![title.clone(), notation::share(*share)])
        .collect();
    let caption = text!("Saleable share of the side, test by test");
    let heads = [text!("Cutting test"), text!("Saleable share")];
    vec![
        Block::Columns(caption.to_owned(), ends, columns),
        Block::Text(
            Tone::Note,
            say!(
                "From {least} to {most}; the foot of the columns is not nothing.",
                notation::share(least),
                notation::share(most)
            ),
        ),
        Block::FoldedTable(caption.to_owned(), heads.map(str::to_owned).to_vec(), rows),
    ]
}

fn one(
    ledger: &Ledger,
    known: &KnownWays,
    visit: &Visit,
    (number, test): (u32, &ClosedTest),
    steps: &mut Steps,
) {
    let class = if test.is_left_out {
        "test is-left-out"
    } else {
        "test"
    };
    steps.element("li", &[("class", class), ("key", &number.to_string())], |steps| {
        steps.holding("strong", &[], &title(test));
        let mut said = vec![mass_with_unit(test.chilled, visit.units)];
        if let Some(share) = saleable(ledger.catalogues().published, known, test) {
            said.push(say!("{share} saleable", notation::share(share)));
        }
        if let Some(money) = test.money {
            said.push(say!("margin {margin}", percent(money.margin)));
        }
        steps.holding("p", &[], &said.join(" · "));
        if let Some(said) = unexplained::of_test(test, visit.units) {
            note(steps, &said);
        }
        if test.is_left_out {
            note(steps, text!("Left out of your own yields."));
        }
        let (_, unknown) = test.tested(known);
        if !unknown.is_empty() {
            let ways = unknown.join(", ");
            note(steps, &say!("Some of it is cut in a way that this version does not know, and is not learnt from: {ways}.", ways));
        }
        button(steps, "quiet", &format!("report {number}"), text!("Report"));
        let word = if test.is_left_out {
            text!("Learn from it again")
        } else {
            text!("Leave out of own yields")
        };
        button(steps, "quiet", &format!("leave-out {number}"), word);
        button_surely(
            steps,
            visit,
            &format!("delete-test {number}"),
            [
                text!("Delete"),
                text!("The test, its weighings and its place in the record are deleted. This cannot be undone."),
                text!("Keep it"),
            ],
        );
    });
}
