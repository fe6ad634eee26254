//! The cost sheet as a file that a spreadsheet opens: CSV by RFC 4180, one line
//! for each cut and by-product and one for all together. Units stand in the
//! heading, with the code of the currency where it is known; figures are plain
//! numbers, at the digits that the sheet shows. Each line says whether its price is a
//! sample, and whether its weight rests on yields of the shop's own. No cell is run
//! as a formula.

use carcass::{Catalogue, Stock};
use quantity::{Currency, Decimal, MassUnit, Money, PriceUnit, Rounding, Share};

use crate::CostSheet;
use crate::shop::PriceBoard;
use crate::spreadsheet_text::guarded;
use crate::yields::Yields;

/// What a sheet is written with beside its figures.
#[derive(Clone, Copy, Debug)]
pub struct Terms<'a> {
    /// The board whose prices it has.
    pub board: &'a PriceBoard,
    /// The stock that its yields are of.
    pub stock: Stock,
    /// The unit of its weights.
    pub mass: MassUnit,
    /// The unit of its prices.
    pub price: PriceUnit,
    /// The currency of its amounts, where it is known.
    pub currency: Option<Currency>,
}

/// Writes the sheet.
pub fn write_sheet(catalogue: &Catalogue, sheet: &CostSheet, terms: &Terms) -> String {
    // Memory takes every write, so the way out is never taken.
    written(catalogue, sheet, terms).unwrap_or_default()
}

fn written(catalogue: &Catalogue, sheet: &CostSheet, terms: &Terms) -> Option<String> {
    let Terms {
        board, mass, price, ..
    } = *terms;
    let mut file = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    let code = terms.currency.map(Currency::code).unwrap_or_default();
    let money = |what: &str| match &*code {
        "" => what.to_owned(),
        code => format!("{what} ({code})"),
    };
    let each = |what: &str| format!("{what} ({code}{})", price.symbol());
    file.write_record([
        "cut",
        "product id",
        "kind",
        &format!("weight ({})", mass.symbol()),
        "share of side (%)",
        &money("cost"),
        &each("cost"),
        &each("board price"),
        "board price is a sample",
        &money("sales"),
        "margin (%)",
        &each("suggested price"),
        "yield is the shop's own",
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
            match Yields::of(catalogue, &sheet.breakdown, terms.stock, row.product) {
                Yields::Published => "no",
                Yields::Own => "yes",
                Yields::Both => "partly",
            },
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
        "",
    ])
    .ok()?;
    String::from_utf8(file.into_inner().ok()?).ok()
}

#[cfg(test)]
mod tests {
    use carcass::StockEnd;
    use proptest::prelude::*;

    use super::*;
    use crate::any_side::{AnySide, CATALOGUE, any_side, plain_side};
    use crate::price_side;

    #[test]
    fn every_line_says_whether_its_yield_is_the_shops_own() {
        let mut own = CATALOGUE.clone();
        let rib = own.part_id("rib").expect("a part");
        for way in own[rib].ways.clone() {
            let shares: Vec<_> = own[way].shares_at(StockEnd::Grain).collect();
            own.set_own_shares(way, StockEnd::Grain, &shares)
                .expect("they sum up");
        }
        let lines = |catalogue: &Catalogue, stock| {
            let AnySide {
                mut deal,
                plan,
                shop,
            } = plain_side();
            deal.stock = stock;
            let sheet = price_side(catalogue, &deal, &plan, &shop).expect("a sheet");
            let terms = Terms {
                board: &shop.board,
                stock,
                mass: MassUnit::Kilogram,
                price: PriceUnit::PerKilogram,
                currency: None,
            };
            write_sheet(catalogue, &sheet, &terms)
        };
        let said = |text: &str, product: &str| {
            let id = format!(",{product},");
            let line = text.lines().find(|line| line.contains(&id));
            let (_, last) = line.expect("a line").rsplit_once(',').expect("cells");
            last.to_owned()
        };
        let published = lines(&CATALOGUE, Stock::GRAIN);
        let (heading, _) = published.split_once("\r\n").expect("lines");
        assert!(heading.ends_with(",yield is the shop's own"), "{heading}");
        assert!(heading.contains(",cost,cost (/kg),"), "{heading}");
        let learnt = lines(&own, Stock::GRAIN);
        for (text, short_ribs, ground) in [
            (&published, "no", "no"),
            // Trim comes off other parts too.
            (&learnt, "yes", "partly"),
            (&lines(&own, Stock::GRASS), "no", "no"),
        ] {
            assert_eq!(said(text, "rib-short-ribs"), short_ribs);
            assert_eq!(said(text, "ground-beef"), ground);
        }
    }

    proptest! {
        #[test]
        fn it_reads_back_and_the_total_is_the_sum(side in any_side()) {
            let Ok(sheet) = price_side(&CATALOGUE, &side.deal, &side.plan, &side.shop) else {
                return Ok(());
            };
            let terms = Terms {
                board: &side.shop.board,
                stock: side.deal.stock,
                mass: MassUnit::Kilogram,
                price: PriceUnit::PerKilogram,
                currency: "CAD".parse().ok(),
            };
            let text = write_sheet(&CATALOGUE, &sheet, &terms);
            let mut reader = csv::Reader::from_reader(text.as_bytes());
            let heading = reader.headers().expect("a heading").clone();
            prop_assert_eq!(heading.get(3), Some("weight (kg)"));
            prop_assert_eq!(heading.get(5), Some("cost (CAD)"));
            prop_assert_eq!(heading.get(7), Some("board price (CAD/kg)"));
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
