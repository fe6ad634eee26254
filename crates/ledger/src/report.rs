//! The report of a closed test: planned against actual, and where the money
//! went.

mod tables;

use advice::steps::Steps;
use advice::{Bar, Block, Figure, Question, Tone, blocks};
use notation::money;
use quantity::{Decimal, Money, Rounding, UnitPrice, rounding, typed};
use scale::{KeptMoney, Outcome as Came, Planned, Report};
use wording::{say, text};

use crate::bench;
use crate::controls::{Field, Takes, button, choice, field, heading, note, trouble};
use crate::ledger::Ledger;
use crate::paper::{Paper, Settled};
use crate::unexplained;
use crate::visit::{Done, Outcome, Refusal, Visit};

/// The entry of the number of the test whose report is shown.
pub(crate) const SHOWN: &str = "report.test";

/// The entry that says what prices it is held against.
const PRICES: &str = "at.report.prices";

/// The entry of what was paid for the side.
const PAID: &str = "at.report.paid";

/// Does what is asked about a report.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    let number = about.parse::<u32>().ok();
    match (verb, number) {
        ("report", Some(number)) => {
            visit.entries.clear_under("report.");
            visit.entries.clear_under("at.report.");
            visit.entries.set(SHOWN, &number.to_string());
            Some(Ok(Done::Shown))
        }
        ("report-close", _) => {
            visit.entries.clear_under("report.");
            visit.entries.clear_under("at.report.");
            Some(Ok(Done::Shown))
        }
        ("keep-money", Some(number)) => Some(keep_money(ledger, visit, number)),
        _ => None,
    }
}

/// Keeps with the test what the report says it paid.
fn keep_money(ledger: &mut Ledger, visit: &Visit, number: u32) -> Result<Done, Refusal> {
    let Some(paper) = Paper::of_test(&ledger.kept, number) else {
        return Ok(Done::Shown);
    };
    let catalogue = paper.catalogue(ledger.catalogues().published);
    let question = paper
        .question(&catalogue, visit.units)
        .map_err(Refusal::new)?;
    let settled = paper.settled(&question).map_err(Refusal::new)?;
    let (report, paid) = of(ledger, visit, &question, &settled)?;
    if let Some(test) = ledger.test(number) {
        let mut test = test.clone();
        test.money = Some(KeptMoney::of(paid, &report.actual.verdict));
        ledger.put_test(number, test);
    }
    Ok(Done::Shown)
}

/// The report by the prices that are asked for, and what was paid.
fn of(
    ledger: &Ledger,
    visit: &Visit,
    question: &Question,
    settled: &Settled,
) -> Result<(Report, UnitPrice), Refusal> {
    let case = &question.case;
    let now = match (visit.entries.text(PRICES), &visit.draft) {
        ("now", Some(draft)) => {
            let now = bench::question(draft, ledger.catalogues().own, visit.units);
            Some(now.map_err(|why| Refusal::at(PRICES, why))?)
        }
        _ => None,
    };
    let shop = now.as_ref().map_or(&case.shop, |now| &now.case.shop);
    let mut deal = case.deal.clone();
    match visit.entries.text(PAID) {
        "" => {}
        text => {
            let paid = typed::unit_price(text, visit.units.price());
            deal.price = paid.map_err(|error| Refusal::at(PAID, error))?.0;
        }
    }
    let planned = Planned {
        deal: &case.deal,
        shop: &case.shop,
        sheet: &question.sheet,
    };
    let outcome = Came {
        deal: &deal,
        shop,
        minutes: &settled.minutes,
    };
    let report = scale::report(case.catalogue, &planned, &settled.weights, &outcome);
    Ok((report.map_err(Refusal::new)?, deal.price))
}

/// The report of a test.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, number: u32, steps: &mut Steps) {
    press_back(steps);
    accepted(ledger, number, steps);
    let Some(paper) = Paper::of_test(&ledger.kept, number) else {
        note(
            steps,
            text!("The weighings behind this test are no longer kept; what was learnt from it is."),
        );
        return;
    };
    let catalogue = paper.catalogue(ledger.catalogues().published);
    let question = match paper.question(&catalogue, visit.units) {
        Ok(question) => question,
        Err(why) => return trouble(steps, "p", &why),
    };
    let settled = match paper.settled(&question) {
        Ok(settled) => settled,
        Err(why) => return trouble(steps, "p", &why),
    };
    heading(steps, text!("Planned against actual"));
    choice(
        steps,
        visit,
        (
            PRICES,
            text!("Prices and labour rate"),
            text!("What the cuts were sold at and what an hour cost."),
        ),
        &[
            ("", text!("As planned").to_owned()),
            ("now", text!("As they stand in the app now").to_owned()),
        ],
    );
    let unit = visit.units.price();
    let planned_price = notation::in_field(question.case.deal.price.in_unit(unit), 2);
    field(
        steps,
        visit,
        &Field {
            name: PAID,
            label: text!("Price paid for the side"),
            takes: Takes::Number(unit.symbol()),
            usual: &planned_price,
            note: "",
        },
    );
    match of(ledger, visit, &question, &settled) {
        Ok((report, _)) => {
            steps.raw(&blocks(&all(&question, &report, visit)));
            button(
                steps,
                "quiet",
                &format!("keep-money {number}"),
                text!("Keep these prices with the test"),
            );
        }
        Err(refusal) => trouble(steps, "p", &refusal.why),
    }
}

/// That more was accepted than the tolerance, with the way to leave the test out.
fn accepted(ledger: &Ledger, number: u32, steps: &mut Steps) {
    let Some(test) = ledger.test(number).filter(|test| test.was_accepted) else {
        return;
    };
    let (said, word) = if test.is_left_out {
        (
            text!("Left out of your own yields."),
            text!("Learn from it again"),
        )
    } else {
        (
            text!(
                "More than the tolerance was accepted as unexplained, and own yields learn from this side with it: from its share of loss where weight is missing, from smaller cuts where there was too much."
            ),
            text!("Leave out of own yields"),
        )
    };
    note(steps, said);
    button(steps, "quiet", &format!("leave-out {number}"), word);
}

fn press_back(steps: &mut Steps) {
    button(steps, "quiet", "report-close", text!("← All cutting tests"));
}

fn all(question: &Question, report: &Report, visit: &Visit) -> Vec<Block> {
    let shown = Shown::of(report);
    let mut all = vec![
        Block::Text(Tone::Finding, verdict(shown.total())),
        Block::Figures(vec![
            figure(
                text!("Margin as planned"),
                money(shown.planned),
                String::new(),
            ),
            figure(
                text!("Margin that came of it"),
                money(shown.actual),
                String::new(),
            ),
        ]),
    ];
    all.extend(unexplained::said(report, visit.units).map(|said| Block::Text(Tone::Note, said)));
    all.push(money_bars(&shown));
    let heads = [text!("Where it comes from"), text!("Money")];
    let rows = shown
        .parts()
        .into_iter()
        .chain([(text!("All together"), shown.total())])
        .map(|(name, amount)| vec![name.to_owned(), signed(amount)])
        .collect();
    let heads = heads.map(str::to_owned).to_vec();
    all.push(Block::FoldedTable(
        text!("Where the money went, in figures").to_owned(),
        heads,
        rows,
    ));
    all.push(tables::cuts(question, report, &shown, visit.units));
    all.push(tables::parts(
        question.case.catalogue,
        report,
        &shown,
        visit.units,
    ));
    all.push(tables::losses(question.case.catalogue, report, visit.units));
    for said in [
        text!(
            "By yield: other weights at the planned prices. By price: the actual weights at the other prices. By labour: the minutes and the rate. One after the other, so that they add up to the whole difference to the last digit (variance analysis of standard costing; Horngren et al., Cost Accounting, from memory)."
        ),
        text!(
            "Money won or lost stands at the part that a cut came off; what comes off a part of it stands at that one, and what was paid for the side in a row of its own. Labour stands at the parts alone, since no cut has minutes of its own. Cent by cent, cuts and parts add up to what is shown above; a margin takes in all that comes off a part."
        ),
    ] {
        all.push(Block::Text(Tone::Note, said.to_owned()));
    }
    all
}

/// The money of a report to the cent. What each thing is worth is tied to what
/// is shown of the whole difference by largest remainder.
struct Shown {
    planned: Money,
    actual: Money,
    by_yield: Money,
    by_board: Money,
    by_purchase: Money,
    by_labour: Money,
}

impl Shown {
    fn of(report: &Report) -> Self {
        let variance = &report.variance;
        let cent = |amount: Money| Money::from_units(Rounding::HalfEven.to_cent(amount.units()));
        let (planned, actual) = (cent(variance.planned), cent(variance.actual));
        let amounts = [
            variance.by_yield,
            variance.by_board,
            variance.by_purchase,
            variance.by_labour,
        ];
        let mut tied = rounding::tie_to_total(&amounts, actual - planned).into_iter();
        let mut next = || tied.next().unwrap_or_default();
        Self {
            planned,
            actual,
            by_yield: next(),
            by_board: next(),
            by_purchase: next(),
            by_labour: next(),
        }
    }

    fn total(&self) -> Money {
        self.actual - self.planned
    }

    fn parts(&self) -> [(&'static str, Money); 4] {
        [
            (text!("By yield"), self.by_yield),
            (text!("By price, at the till"), self.by_board),
            (text!("By price, at the supplier's"), self.by_purchase),
            (text!("By labour"), self.by_labour),
        ]
    }
}

fn verdict(total: Money) -> String {
    let amount = money(if total < Money::ZERO {
        Money::ZERO - total
    } else {
        total
    });
    if total.is_zero() {
        text!("The side brought exactly what was planned.").to_owned()
    } else if total < Money::ZERO {
        say!("The side brought {amount} less than planned.", amount)
    } else {
        say!("The side brought {amount} more than planned.", amount)
    }
}

fn figure(label: &str, text: String, beside: String) -> Figure {
    Figure {
        label: label.to_owned(),
        text,
        beside,
    }
}

/// Money with its sign, where it is no whole by itself but a difference.
fn signed(amount: Money) -> String {
    if amount.is_positive() {
        format!("+{}", money(amount))
    } else {
        money(amount)
    }
}

/// Every variance as a bar from the line of nothing.
fn money_bars(shown: &Shown) -> Block {
    let parts = shown.parts();
    let largest = parts
        .iter()
        .map(|(_, amount)| amount.units().abs())
        .max()
        .unwrap_or_default();
    let base = 500_u16;
    let place = |amount: Money| {
        let share = amount.units().checked_div(largest).unwrap_or_default();
        let place = Decimal::from(base) + (share * Decimal::from(480)).round();
        u16::try_from(place).unwrap_or(base)
    };
    let bars = parts
        .into_iter()
        .map(|(name, amount)| {
            let end = place(amount);
            let text = signed(amount);
            Bar {
                label: name.to_owned(),
                ends: [end.min(base), end.max(base)],
                texts: if amount < Money::ZERO {
                    [text, String::new()]
                } else {
                    [String::new(), text]
                },
            }
        })
        .collect();
    Block::Bars(
        text!("Money won and lost against the plan").to_owned(),
        base,
        bars,
    )
}
