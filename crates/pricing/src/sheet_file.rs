//! The cost sheet as a file that a spreadsheet opens: CSV by RFC 4180, one line
//! for each cut and by-product and one for all together. Units stand in the
//! heading; figures are plain numbers, at the digits that the sheet shows. No
//! cell is run as a formula.

use carcass::Catalogue;
use quantity::{Decimal, MassUnit, Money, PriceUnit, Rounding, Share};

use crate::CostSheet;
use crate::shop::PriceBoard;
use crate::spreadsheet_text::guarded;

/// Writes the sheet with its weights and prices in these units.
pub fn write_sheet(
    catalogue: &Catalogue,
    sheet: &CostSheet,
    board: &PriceBoard,
    units: (MassUnit, PriceUnit),
) -> String {
    // Memory takes every write, so the way out is never taken.
    written(catalogue, sheet, board, units).unwrap_or_default()
}

fn written(
    catalogue: &Catalogue,
    sheet: &CostSheet,
    board: &PriceBoard,
    (mass, price): (MassUnit, PriceUnit),
) -> Option<String> {
    let mut file = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    let per = format!("${}", price.symbol());
    file.write_record([
        "cut",
        "product id",
        "kind",
        &format!("weight ({})", mass.symbol()),
        "share of side (%)",
        "cost ($)",
        &format!("cost ({per})"),
        &format!("board price ({per})"),
        "board price is a sample",
        "sales ($)",
        "margin (%)",
        &format!("suggested price ({per})"),
    ])
    .ok()?;
    let percent =
        |share: Share, places, rounding: Rounding| rounding.fixed(share.percent(), places);
    let to_cent = |number: Decimal, rounding: Rounding| rounding.fixed(number, 2);
    let money = |money: Money| to_cent(money.units(), Rounding::HalfEven);
    for row in &sheet.rows {
        let product = &catalogue[row.product];
        file.write_record([
            guarded(&product.name).as_str(),
            &guarded(&product.id),
            if row.is_by_product {
                "by-product"
            } else {
                "cut"
            },
            &Rounding::HalfEven.fixed(row.weight.in_unit(mass), 3),
            &percent(row.share, 3, Rounding::HalfEven),
            &money(row.cost),
            &row.cost_per_mass.map_or_else(String::new, |cost| {
                to_cent(cost.in_unit(price), Rounding::HalfEven)
            }),
            &to_cent(row.price.in_unit(price), Rounding::HalfEven),
            if board.is_sample(row.product) {
                "yes"
            } else {
                "no"
            },
            &money(row.sales),
            &row.margin
                .filter(|_| !row.is_by_product)
                .map_or_else(String::new, |margin| percent(margin, 1, Rounding::Down)),
            &row.suggested.map_or_else(String::new, |suggested| {
                to_cent(suggested.in_unit(price), Rounding::Up)
            }),
        ])
        .ok()?;
    }
    let totals = &sheet.totals;
    file.write_record([
        "All together",
        "",
        "total",
        &Rounding::HalfEven.fixed(totals.chilled.in_unit(mass), 3),
        &percent(Share::WHOLE, 3, Rounding::HalfEven),
        &money(totals.spend()),
        "",
        "",
        "",
        &money(totals.sales + totals.by_products),
        &percent(sheet.verdict.margin, 1, Rounding::Down),
        "",
    ])
    .ok()?;
    String::from_utf8(file.into_inner().ok()?).ok()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::any_side::{CATALOGUE, any_side};
    use crate::price_side;

    proptest! {
        #[test]
        fn it_reads_back_and_the_total_is_the_sum(side in any_side()) {
            let Ok(sheet) = price_side(&CATALOGUE, &side.deal, &side.plan, &side.shop) else {
                return Ok(());
            };
            let units = (MassUnit::Kilogram, PriceUnit::PerKilogram);
            let text = write_sheet(&CATALOGUE, &sheet, &side.shop.board, units);
            let mut reader = csv::Reader::from_reader(text.as_bytes());
            let heading = reader.headers().expect("a heading").clone();
            prop_assert_eq!(heading.get(3), Some("weight (kg)"));
            prop_assert_eq!(heading.get(7), Some("board price ($/kg)"));
            let lines: Vec<csv::StringRecord> = reader
                .records()
                .collect::<Result<_, _>>()
                .expect("lines of one length");
            let (total, cuts) = lines.split_last().expect("lines");
            prop_assert_eq!(cuts.len(), sheet.rows.len());
            let number = |line: &csv::StringRecord, at: usize| -> Decimal {
                line.get(at).expect("a cell").parse().expect("a number")
            };
            let cost: Decimal = cuts.iter().map(|cut| number(cut, 5)).sum();
            prop_assert_eq!(cost, number(total, 5));
            let sales: Decimal = cuts.iter().map(|cut| number(cut, 9)).sum();
            let apart = (sales - number(total, 9)).abs();
            // Each is rounded to the cent on its own.
            prop_assert!(apart <= Decimal::new(5, 3) * Decimal::from(cuts.len() + 1));
        }
    }
}
