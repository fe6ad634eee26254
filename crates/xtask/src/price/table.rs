//! The sheet in columns, for a person to read.

use std::fmt::Write;

use pricing::{Outcome, Row};
use quantity::{Mass, MassUnit, Minutes, Money, PriceUnit, Rounding, Share};

use super::Priced;

/// Columns of the sheet, the first aligned left, the others right.
const COLUMNS: usize = 8;

/// Writes the sheet, the side's totals and the verdict.
pub fn write(priced: &Priced) -> String {
    let mut text = heading(priced);
    text.push('\n');
    text.push_str(&aligned(&rows(priced)));
    if priced.sheet.rows.iter().any(|row| is_sample(priced, row)) {
        text.push_str("* an invented sample price, not the shop's own\n");
    }
    text.push('\n');
    text.push_str(&aligned(&totals(priced)));
    text.push('\n');
    let derived = derived(priced);
    if !derived.is_empty() {
        text.push_str(&derived.join("\n"));
        text.push_str("\n\n");
    }
    text.push_str(&verdict(priced));
    text
}

/// What follows from something else the plan says: the loss in the cooler, the
/// yield of a graded carcass, what could be ground, prices that are held.
fn derived(priced: &Priced) -> Vec<String> {
    let mut lines = Vec::new();
    let share = |share: Share| Rounding::HalfEven.fixed(share.percent(), 2);
    if let Some(loss) = priced.resolved.derived_shrink {
        lines.push(format!(
            "Cooler loss from the days hung: {} %.",
            share(loss.lost)
        ));
    }
    if let Some(expected) = &priced.resolved.expected_yield {
        lines.push(format!(
            "Expected saleable share by yield grade: {} %, {} to {} % by the published slopes.",
            share(expected.saleable),
            share(expected.saleable_low),
            share(expected.saleable_high),
        ));
    }
    let unit = priced.mass_unit;
    let weight = |mass: Mass| {
        let figure = Rounding::HalfEven.fixed(mass.in_unit(unit), 2);
        format!("{figure} {}", unit.symbol())
    };
    for ground in priced.sheet.breakdown.ground() {
        let mut line = format!(
            "{}: {} of {} made, {} % fat",
            priced.catalogue[ground.product].name,
            weight(ground.weight),
            weight(ground.wanted),
            ground.fat.map_or_else(|| "–".to_owned(), share),
        );
        // Writing into a string cannot fail.
        let _ = match (ground.lean_lacking, ground.leanest) {
            (Some(lacking), Some(leanest)) => write!(
                line,
                "; {} more lean of {} % fat would make the rest",
                weight(lacking),
                share(leanest)
            ),
            _ if ground.ran_out.is_some() => write!(line, "; no trim here is lean enough"),
            _ => Ok(()),
        };
        line.push('.');
        lines.push(line);
    }
    if matches!(&priced.sheet.board, Ok(board) if board.is_met_by_held_prices) {
        lines.push(
            "The prices that are held pay for the side: the target asks nothing of the others."
                .to_owned(),
        );
    }
    lines
}

fn heading(priced: &Priced) -> String {
    let deal = &priced.document.deal;
    let name = match priced.document.name.trim() {
        "" => "Side without a name",
        name => name,
    };
    format!(
        "{name}\n{} {} at ${}{}, {} % of the way to grass-fed, plan {}{}\n",
        deal.weight.amount,
        deal.weight.unit,
        deal.price.amount,
        deal.price.unit,
        deal.grass_percent,
        priced.plan_name(),
        match priced.document.plan.ways.len() {
            0 => String::new(),
            1 => " with 1 part cut another way".to_owned(),
            more => format!(" with {more} parts cut another way"),
        },
    )
}

fn is_sample(priced: &Priced, row: &Row) -> bool {
    priced.resolved.shop.board.is_sample(row.product)
}

fn rows(priced: &Priced) -> Vec<[String; COLUMNS]> {
    let per = format!("${}", priced.price_unit.symbol());
    let mut lines = vec![[
        "cut".to_owned(),
        priced.mass_unit.symbol().to_owned(),
        "share %".to_owned(),
        "cost $".to_owned(),
        format!("cost {per}"),
        format!("price {per}"),
        "margin %".to_owned(),
        format!("suggested {per}"),
    ]];
    let absent = || "–".to_owned();
    for row in &priced.sheet.rows {
        let product = &priced.catalogue[row.product];
        let price = Rounding::HalfEven.fixed(row.price.in_unit(priced.price_unit), 2);
        let mark = if is_sample(priced, row) { "*" } else { " " };
        let kind = if row.is_by_product {
            " (by-product)"
        } else {
            ""
        };
        lines.push([
            format!("{}{kind}", product.name),
            Rounding::HalfEven.fixed(row.weight.in_unit(priced.mass_unit), 2),
            Rounding::HalfEven.fixed(row.share.percent(), 2),
            Rounding::HalfEven.fixed(row.cost.units(), 2),
            row.cost_per_mass.map_or_else(absent, |cost| {
                Rounding::HalfEven.fixed(cost.in_unit(priced.price_unit), 2)
            }),
            format!("{price}{mark}"),
            // A by-product earns nothing: what it brings is its cost.
            row.margin
                .filter(|_| !row.is_by_product)
                .map_or_else(absent, percent),
            row.suggested.map_or_else(absent, |price| {
                Rounding::Up.fixed(price.in_unit(priced.price_unit), 2)
            }),
        ]);
    }
    lines
}

/// Cut down, so that a margin just under the target does not look like the target.
fn percent(share: Share) -> String {
    Rounding::Down.fixed(share.percent(), 1)
}

fn money(money: Money) -> String {
    Rounding::HalfEven.fixed(money.units(), 2)
}

fn minutes(time: Minutes) -> String {
    Rounding::HalfEven.fixed(time.minutes(), 1)
}

fn totals(priced: &Priced) -> Vec<[String; 2]> {
    let totals = &priced.sheet.totals;
    let unit = priced.mass_unit;
    let line = |what: &str, figure: String| [what.to_owned(), figure];
    vec![
        line(
            &format!("Chilled side, {}", unit.symbol()),
            Rounding::HalfEven.fixed(totals.chilled.in_unit(unit), 2),
        ),
        line(
            &format!("Saleable, {}", unit.symbol()),
            Rounding::HalfEven.fixed(totals.saleable.in_unit(unit), 2),
        ),
        line("Work, min", minutes(totals.time)),
        line("of it saw, min", minutes(totals.saw_time)),
        line("Side, $", money(totals.side)),
        line("Charges, $", money(totals.charges)),
        line("Labour, $", money(totals.labour)),
        line("Packaging, $", money(totals.packaging)),
        line("Spend, $", money(totals.spend())),
        line("By-products, $", money(totals.by_products)),
        line("Sales of cuts, $", money(totals.sales)),
        line("Left over, $", money(totals.profit())),
    ]
}

fn verdict(priced: &Priced) -> String {
    let verdict = &priced.sheet.verdict;
    let word = match verdict.outcome {
        Outcome::Pays => "Pays",
        Outcome::Thin => "Thin",
        Outcome::FallsShort => "Falls short",
    };
    let mut text = format!(
        "{word}: margin {} %, target {} %, before labour and packaging {} %.\n",
        percent(verdict.margin),
        percent(priced.resolved.shop.target_margin),
        percent(verdict.meat_margin),
    );
    let offer = |unit: PriceUnit| {
        let price = Rounding::Down.fixed(verdict.walk_away.in_unit(unit), 2);
        format!("${price}{}", unit.symbol())
    };
    let (first, second) = match priced.mass_unit {
        MassUnit::Pound | MassUnit::Ounce => (PriceUnit::PerPound, PriceUnit::PerKilogram),
        MassUnit::Kilogram | MassUnit::Gram => (PriceUnit::PerKilogram, PriceUnit::PerPound),
    };
    // Writing into a string cannot fail.
    let _ = if verdict.walk_away.is_positive() {
        writeln!(
            text,
            "Walk-away price: {}, which is {}.",
            offer(first),
            offer(second)
        )
    } else {
        writeln!(text, "No price makes the target with this plan and board.")
    };
    text
}

/// Columns under each other, two spaces between them.
fn aligned<const N: usize>(lines: &[[String; N]]) -> String {
    let mut widths = [0; N];
    for line in lines {
        for (width, cell) in widths.iter_mut().zip(line) {
            *width = (*width).max(cell.chars().count());
        }
    }
    let mut text = String::new();
    for line in lines {
        let cells = line.iter().zip(widths).enumerate();
        let padded: Vec<String> = cells
            .map(|(index, (cell, width))| match index {
                0 => format!("{cell:width$}"),
                _ => format!("{cell:>width$}"),
            })
            .collect();
        text.push_str(padded.join("  ").trim_end());
        text.push('\n');
    }
    text
}

#[cfg(test)]
mod tests {
    use document::format::{BasisForm, GrindAmountForm, GrindForm};
    use document::{Document, MassAmount};
    use quantity::{Decimal, Mass};

    use super::*;

    fn sample() -> Priced {
        Priced::from_document(Document::sample()).expect("the sample can be priced")
    }

    #[test]
    fn a_line_for_each_cut_in_columns_that_stand_under_each_other() {
        let priced = sample();
        let lines = rows(&priced);
        assert_eq!(lines.len(), priced.sheet.rows.len() + 1);
        let text = aligned(&lines);
        let ends: Vec<usize> = text.lines().map(|line| line.chars().count()).collect();
        assert!(ends.iter().all(|end| *end == ends[0]), "{text}");
        assert!(text.contains("price $/kg"), "{text}");
    }

    #[test]
    fn the_costs_of_the_lines_are_the_spend() {
        let priced = sample();
        let sum: Decimal = rows(&priced)
            .iter()
            .skip(1)
            .map(|line| line[3].parse::<Decimal>().expect("a cost"))
            .sum();
        let spend = totals(&priced)
            .into_iter()
            .find(|[what, _]| what == "Spend, $")
            .map(|[_, figure]| figure);
        assert_eq!(spend, Some(sum.to_string()));
    }

    #[test]
    fn samples_are_marked_until_the_shop_has_its_own_price() {
        assert!(write(&sample()).contains("* an invented sample price"));
        let priced = sample();
        let mut document = Document::sample();
        for row in &priced.sheet.rows {
            document.shop.board.insert(
                priced.catalogue[row.product].id.clone(),
                document::PriceAmount::new(row.price, PriceUnit::PerKilogram),
            );
        }
        let own = Priced::from_document(document).expect("own prices");
        assert!(!write(&own).contains('*'));
        assert_eq!(own.sheet.verdict, priced.sheet.verdict);
    }

    #[test]
    fn a_plan_in_pounds_is_written_in_pounds() {
        let mut document = Document::sample();
        document.deal.weight = MassAmount::new(Mass::from_lb(Decimal::from(430)), MassUnit::Pound);
        document.deal.price.amount = "4.20".to_owned();
        document.deal.price.unit = "/lb".to_owned();
        let text = write(&Priced::from_document(document).expect("priced"));
        assert!(text.contains("430 lb at $4.20/lb"), "{text}");
        assert!(text.contains("Chilled side, lb   430.00"), "{text}");
        assert!(text.contains("cost $/lb"), "{text}");
    }

    #[test]
    fn what_is_ground_hung_and_graded_is_said() {
        let plain = write(&sample());
        assert!(!plain.contains("made,") && !plain.contains("Cooler loss"));
        let mut document = Document::sample();
        document.deal.basis = BasisForm::Hot {
            shrink_percent: None,
            days_hung: Some(14),
        };
        document.plan.grind = Some(GrindForm {
            classes: [(
                "extra-lean".to_owned(),
                GrindAmountForm::SharePercent("100".to_owned()),
            )]
            .into_iter()
            .collect(),
            with_fat_trim: false,
            margin_points: "0".to_owned(),
        });
        let text = write(&Priced::from_document(document).expect("priced"));
        assert!(
            text.contains("Cooler loss from the days hung: 4."),
            "{text}"
        );
        let line = text
            .lines()
            .find(|line| line.starts_with("Extra lean ground beef: "))
            .expect("a class");
        assert!(line.contains("more lean of"), "{line}");
    }

    #[test]
    fn the_verdict_is_said_in_words() {
        let mut document = Document::sample();
        document.deal.price.amount = "99".to_owned();
        let dear = write(&Priced::from_document(document.clone()).expect("priced"));
        assert!(dear.contains("\nFalls short: margin -"), "{dear}");
        document.shop.target_margin_percent = "99".to_owned();
        let hopeless = write(&Priced::from_document(document).expect("priced"));
        assert!(hopeless.contains("No price makes the target"), "{hopeless}");
    }
}
