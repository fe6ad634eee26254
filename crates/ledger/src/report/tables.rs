//! The tables of a report: cut by cut, part by part, and what was lost.

use advice::{Block, Question};
use carcass::Catalogue;
use notation::{Units, mass, money, percent};
use quantity::{Mass, Money, Share, rounding};
use scale::{CutLine, Pair, PartLine, Report};
use wording::{say, text};

use super::{Shown, signed};
use crate::unexplained;

fn pair<T: Copy>(pair: Pair<T>, said: impl Fn(T) -> String) -> [String; 2] {
    [said(pair.planned), said(pair.actual)]
}

/// Where a row has nothing to say.
fn nothing() -> String {
    "–".to_owned()
}

fn margin(margin: Option<Share>) -> String {
    margin.map_or_else(nothing, percent)
}

/// Amounts of all lines to the cent, so that they add up to what is shown.
fn tied<T>(lines: &[T], amount: impl Fn(&T) -> Money, shown: Money) -> Vec<Money> {
    let amounts: Vec<Money> = lines.iter().map(amount).collect();
    rounding::tie_to_total(&amounts, shown)
}

/// Costs of all cuts, planned and actual, to the cent, with their sums.
fn costs(cuts: &[CutLine]) -> [(Vec<Money>, Money); 2] {
    let of: [fn(&CutLine) -> Money; 2] = [|cut| cut.cost.planned, |cut| cut.cost.actual];
    of.map(|of| {
        let amounts: Vec<Money> = cuts.iter().map(of).collect();
        let tied = rounding::tie_to_cents(&amounts);
        let sum = tied.iter().copied().sum();
        (tied, sum)
    })
}

/// What of the side the losses are by the plan and by the scale.
fn lost(report: &Report) -> Pair<Mass> {
    let sum = |of: fn(&Pair<Mass>) -> Mass| report.losses.iter().map(|(_, loss)| of(loss)).sum();
    Pair {
        planned: sum(|loss| loss.planned),
        actual: sum(|loss| loss.actual),
    }
}

/// A row of weights and shares alone, with dashes up to `columns`.
fn weights_alone(
    name: &str,
    weight: Pair<Mass>,
    share: Pair<Share>,
    (units, columns): (Units, usize),
) -> Vec<String> {
    let mut row = vec![name.to_owned()];
    row.extend(pair(weight, |weight| mass(weight, units)));
    row.extend(pair(share, notation::share));
    row.resize(columns, nothing());
    row
}

fn weight_heads(name: &str, units: Units) -> Vec<String> {
    let unit = units.mass().symbol();
    vec![
        name.to_owned(),
        say!("Plan {unit}", unit),
        say!("Actual {unit}", unit),
    ]
}

/// The heads that cuts and parts have both.
fn heads(name: &str, units: Units) -> Vec<String> {
    let mut heads = weight_heads(name, units);
    heads.extend(
        [
            text!("Plan share"),
            text!("Actual share"),
            text!("Plan cost"),
            text!("Actual cost"),
            text!("Plan margin"),
            text!("Actual margin"),
        ]
        .map(str::to_owned),
    );
    heads
}

/// Every cut and by-product, then what makes them up to the side.
pub(super) fn cuts(question: &Question, report: &Report, shown: &Shown, units: Units) -> Block {
    let mut heads = heads(text!("Cut"), units);
    heads.extend([text!("By yield"), text!("By price")].map(str::to_owned));
    let columns = heads.len();
    let cuts = &report.cuts;
    let [(planned, planned_sum), (actual, actual_sum)] = costs(cuts);
    let by_yield = tied(cuts, |cut| cut.by_yield, shown.by_yield);
    let by_price = tied(cuts, |cut| cut.by_price, shown.by_board);
    let amounts = planned
        .iter()
        .zip(&actual)
        .zip(by_yield.iter().zip(&by_price));
    let mut rows: Vec<Vec<String>> = cuts
        .iter()
        .zip(amounts)
        .map(|(line, ((planned, actual), (by_yield, by_price)))| {
            let mut row = vec![question.name(line.product)];
            row.extend(pair(line.weight, |weight| mass(weight, units)));
            row.extend(pair(line.share, notation::share));
            row.extend([money(*planned), money(*actual)]);
            row.extend(pair(line.margin, margin));
            row.extend([signed(*by_yield), signed(*by_price)]);
            row
        })
        .collect();
    let chilled = question.sheet.totals.chilled;
    let share = |weight: Mass| weight.ratio_to(chilled).unwrap_or_default();
    let shares = |weight: Pair<Mass>| Pair {
        planned: share(weight.planned),
        actual: share(weight.actual),
    };
    let lost = lost(report);
    let room = (units, columns);
    rows.push(weights_alone(text!("Losses"), lost, shares(lost), room));
    if unexplained::is_told(report.unexplained, units) {
        let off = Pair {
            planned: Mass::ZERO,
            actual: report.unexplained,
        };
        let name = text!("Unexplained");
        rows.push(weights_alone(name, off, shares(off), room));
    }
    let side = Pair {
        planned: chilled,
        actual: chilled,
    };
    let mut all = weights_alone(text!("All together"), side, shares(side), (units, 5));
    all.extend([money(planned_sum), money(actual_sum)]);
    let of_side = report.parts.first().map(|side| side.margin);
    all.extend(pair(of_side.unwrap_or_default(), margin));
    all.extend([signed(shown.by_yield), signed(shown.by_board)]);
    rows.push(all);
    Block::FoldedTable(text!("Cut by cut").to_owned(), heads, rows)
}

/// Every part, then what the side was bought for and the sum.
pub(super) fn parts(catalogue: &Catalogue, report: &Report, shown: &Shown, units: Units) -> Block {
    let mut heads = heads(text!("Part"), units);
    heads.extend(
        [
            text!("Plan minutes"),
            text!("Actual minutes"),
            text!("Plan labour"),
            text!("Actual labour"),
            text!("By yield"),
            text!("By price"),
            text!("By labour"),
        ]
        .map(str::to_owned),
    );
    let columns = heads.len();
    let parts = &report.parts;
    let amounts = [
        tied(parts, |part| part.by_yield, shown.by_yield),
        tied(parts, |part| part.by_price, shown.by_board),
        tied(parts, |part| part.by_labour, shown.by_labour),
    ];
    let mut rows: Vec<Vec<String>> = parts
        .iter()
        .enumerate()
        .map(|(place, line)| {
            let mut row = part_row(catalogue, line, units);
            row.extend(amounts.iter().map(|amounts| {
                amounts
                    .get(place)
                    .map_or_else(nothing, |amount| signed(*amount))
            }));
            row
        })
        .collect();
    let money_alone = |name: &str, [by_yield, by_price, by_labour]: [String; 3]| {
        let mut row = vec![name.to_owned()];
        row.resize(columns - 3, nothing());
        row.extend([by_yield, by_price, by_labour]);
        row
    };
    rows.push(money_alone(
        text!("By price, at the supplier's"),
        [nothing(), signed(shown.by_purchase), nothing()],
    ));
    rows.push(money_alone(
        text!("All together"),
        [
            signed(shown.by_yield),
            signed(shown.by_board + shown.by_purchase),
            signed(shown.by_labour),
        ],
    ));
    Block::FoldedTable(text!("Part by part").to_owned(), heads, rows)
}

fn part_row(catalogue: &Catalogue, line: &PartLine, units: Units) -> Vec<String> {
    let mut row = vec![catalogue[line.part].name.clone()];
    row.extend(pair(line.weight, |weight| mass(weight, units)));
    row.extend(pair(line.share, notation::share));
    row.extend(pair(line.cost, money));
    row.extend(pair(line.margin, margin));
    row.extend(pair(line.minutes, notation::minutes));
    row.extend(pair(line.labour, money));
    row
}

/// Every loss of the plan, and what the scale did not find.
pub(super) fn losses(catalogue: &Catalogue, report: &Report, units: Units) -> Block {
    let mut rows: Vec<Vec<String>> = report
        .losses
        .iter()
        .map(|(product, weight)| {
            let mut row = vec![catalogue[*product].name.clone()];
            row.extend(pair(*weight, |weight| mass(weight, units)));
            row
        })
        .collect();
    if unexplained::is_told(report.unexplained, units) {
        rows.push(vec![
            text!("Unexplained").to_owned(),
            nothing(),
            mass(report.unexplained, units),
        ]);
    }
    let heads = weight_heads(text!("Loss"), units);
    Block::FoldedTable(text!("Losses").to_owned(), heads, rows)
}
