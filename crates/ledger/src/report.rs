//! The report of a closed test: planned against actual, and where the money
//! went.

use advice::steps::Steps;
use advice::{Bar, Block, Figure, Question, Tone, blocks};
use carcass::Catalogue;
use notation::{mass, money, percent};
use quantity::{Decimal, Money, Share, UnitPrice, typed};
use scale::{KeptMoney, Outcome as Came, Pair, Planned, Report};
use wording::{say, text};

use crate::bench;
use crate::controls::{Field, Takes, button, choice, field, heading, note, trouble};
use crate::ledger::Ledger;
use crate::paper::{Paper, Settled};
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

fn press_back(steps: &mut Steps) {
    button(steps, "quiet", "report-close", text!("← All cutting tests"));
}

fn all(question: &Question, report: &Report, visit: &Visit) -> Vec<Block> {
    let variance = &report.variance;
    let mut all = vec![
        Block::Text(Tone::Finding, verdict(variance.total())),
        Block::Figures(vec![
            figure(
                text!("Margin as planned"),
                money(variance.planned),
                String::new(),
            ),
            figure(
                text!("Margin that came of it"),
                money(variance.actual),
                String::new(),
            ),
        ]),
        money_bars(report),
    ];
    let heads = [text!("Where it comes from"), text!("Money")];
    let rows = parts_of(report)
        .into_iter()
        .chain([(text!("All together"), variance.total())])
        .map(|(name, amount)| vec![name.to_owned(), signed(amount)])
        .collect();
    let heads = heads.map(str::to_owned).to_vec();
    all.push(Block::FoldedTable(
        text!("Where the money went, in figures").to_owned(),
        heads,
        rows,
    ));
    all.push(cuts(question, report, visit));
    all.push(parts(question.case.catalogue, report, visit));
    all.push(losses(question.case.catalogue, report, visit));
    all.push(Block::Text(
        Tone::Note,
        text!(
            "By yield: other weights at the planned prices. By price: the actual weights at the other prices. By labour: the minutes and the rate. One after the other, so that they add up to the whole difference to the last digit (variance analysis of standard costing; Horngren et al., Cost Accounting, from memory)."
        )
        .to_owned(),
    ));
    all
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

fn parts_of(report: &Report) -> [(&'static str, Money); 4] {
    let variance = &report.variance;
    [
        (text!("By yield"), variance.by_yield),
        (text!("By price, at the till"), variance.by_board),
        (text!("By price, at the supplier's"), variance.by_purchase),
        (text!("By labour"), variance.by_labour),
    ]
}

/// Every variance as a bar from the line of nothing.
fn money_bars(report: &Report) -> Block {
    let parts = parts_of(report);
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

fn pair<T: Copy>(pair: &Pair<T>, said: impl Fn(T) -> String) -> [String; 2] {
    [said(pair.planned), said(pair.actual)]
}

fn cuts(question: &Question, report: &Report, visit: &Visit) -> Block {
    let unit = visit.units.mass().symbol();
    let heads = vec![
        text!("Cut").to_owned(),
        say!("Plan {unit}", unit),
        say!("Actual {unit}", unit),
        text!("Plan share").to_owned(),
        text!("Actual share").to_owned(),
        text!("Plan cost").to_owned(),
        text!("Actual cost").to_owned(),
        text!("Plan margin").to_owned(),
        text!("Actual margin").to_owned(),
        text!("By yield").to_owned(),
        text!("By price").to_owned(),
    ];
    let margin = |margin: Option<Share>| margin.map_or_else(|| "–".to_owned(), percent);
    let rows = report
        .cuts
        .iter()
        .map(|line| {
            let mut row = vec![question.name(line.product)];
            row.extend(pair(&line.weight, |weight| mass(weight, visit.units)));
            row.extend(pair(&line.share, notation::share));
            row.extend(pair(&line.cost, money));
            row.extend(pair(&line.margin, margin));
            row.push(signed(line.by_yield));
            row.push(signed(line.by_price));
            row
        })
        .collect();
    Block::FoldedTable(text!("Cut by cut").to_owned(), heads, rows)
}

fn parts(catalogue: &Catalogue, report: &Report, visit: &Visit) -> Block {
    let unit = visit.units.mass().symbol();
    let heads = vec![
        text!("Part").to_owned(),
        say!("Plan {unit}", unit),
        say!("Actual {unit}", unit),
        text!("Plan share").to_owned(),
        text!("Actual share").to_owned(),
        text!("Plan cost").to_owned(),
        text!("Actual cost").to_owned(),
        text!("Plan minutes").to_owned(),
        text!("Actual minutes").to_owned(),
        text!("Plan labour").to_owned(),
        text!("Actual labour").to_owned(),
    ];
    let rows = report
        .parts
        .iter()
        .map(|line| {
            let mut row = vec![catalogue[line.part].name.clone()];
            row.extend(pair(&line.weight, |weight| mass(weight, visit.units)));
            row.extend(pair(&line.share, notation::share));
            row.extend(pair(&line.cost, money));
            row.extend(pair(&line.minutes, notation::minutes));
            row.extend(pair(&line.labour, money));
            row
        })
        .collect();
    Block::FoldedTable(text!("Part by part").to_owned(), heads, rows)
}

fn losses(catalogue: &Catalogue, report: &Report, visit: &Visit) -> Block {
    let unit = visit.units.mass().symbol();
    let heads = vec![
        text!("Loss").to_owned(),
        say!("Plan {unit}", unit),
        say!("Actual {unit}", unit),
    ];
    let rows = report
        .losses
        .iter()
        .map(|(product, weight)| {
            let mut row = vec![catalogue[*product].name.clone()];
            row.extend(pair(weight, |weight| mass(weight, visit.units)));
            row
        })
        .collect();
    Block::FoldedTable(text!("Losses").to_owned(), heads, rows)
}
