//! Writing the board to a file.

use carcass::{Catalogue, Kind};
use quantity::{Currency, Decimal, PriceUnit, Rounding, UnitPrice};

use super::{COLUMNS, CURRENCY, PLACES, PRICES};
use crate::calendar_date::CalendarDate;
use crate::shop::PriceBoard;
use crate::spreadsheet_text::guarded;

/// The price in force of every product that has one, in the order of the
/// catalogue; `date` is the day of the board and `currency` that of its prices, where
/// they are known.
pub fn write_board(
    catalogue: &Catalogue,
    board: &PriceBoard,
    date: Option<CalendarDate>,
    currency: Option<Currency>,
) -> String {
    // Memory takes every write, so the way out is never taken.
    written(catalogue, board, date, currency).unwrap_or_default()
}

fn written(
    catalogue: &Catalogue,
    board: &PriceBoard,
    date: Option<CalendarDate>,
    currency: Option<Currency>,
) -> Option<String> {
    let mut file = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    let is_price = |name: &str| PRICES.iter().any(|(price, _)| *price == name);
    file.write_record(COLUMNS.map(|name| match currency {
        Some(currency) if is_price(name) => format!("{name}{CURRENCY}{currency})"),
        _ => name.to_owned(),
    }))
    .ok()?;
    let date = date.map(|date| date.to_string()).unwrap_or_default();
    let sold = catalogue
        .products()
        .filter(|(_, product)| product.kind != Kind::Loss);
    for (id, product) in sold {
        let price = board.price(catalogue, id);
        let [per_kg, per_100g, per_lb] = PRICES.map(|(_, unit)| number(price, unit));
        file.write_record([
            guarded(&product.id).as_str(),
            &guarded(&product.name),
            &per_kg,
            &per_100g,
            &per_lb,
            &date,
            if board.is_sample(id) { "no" } else { "yes" },
        ])
        .ok()?;
    }
    String::from_utf8(file.into_inner().ok()?).ok()
}

/// The number that stands before `unit`: in full where it gives back the price,
/// else cut to [`PLACES`], zeros kept, which tells a reader that it was cut.
fn number(price: UnitPrice, unit: PriceUnit) -> String {
    let exact = price.in_unit(unit).normalize();
    if exact.is_zero() {
        return Decimal::ZERO.to_string();
    }
    if unit == PriceUnit::PerPound
        || (exact.scale() <= PLACES && UnitPrice::from_unit(exact, unit) == price)
    {
        return exact.to_string();
    }
    let places = usize::try_from(PLACES).unwrap_or_default();
    format!("{:.places$}", Rounding::HalfEven.to_places(exact, PLACES))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::any_side::CATALOGUE;

    #[test]
    fn a_line_holds_the_price_in_all_three_units() {
        let product = CATALOGUE.product_id("ground-beef").expect("a product");
        let mut board = PriceBoard::default();
        let line = |board: &PriceBoard| {
            let date = "2026-03-09".parse().ok();
            let file = write_board(&CATALOGUE, board, date, None);
            let line = file
                .split("\r\n")
                .find(|line| line.starts_with("ground-beef,"));
            line.expect("a line").to_owned()
        };
        for (price, numbers) in [
            (
                UnitPrice::from_per_kg(Decimal::new(1299, 2)),
                "12.99,1.299,5.8921648863",
            ),
            (
                UnitPrice::from_per_lb(Decimal::new(499, 2)),
                // 4.99 ⁄ 0.45359237 does not end.
                "11.001066883025,1.100106688303,4.99",
            ),
            (UnitPrice::ZERO, "0,0,0"),
            (
                -UnitPrice::from_per_kg(Decimal::new(5, 1)),
                "-0.5,-0.05,-0.226796185",
            ),
        ] {
            board.set(product, price);
            assert_eq!(
                line(&board),
                format!("ground-beef,Ground beef,{numbers},2026-03-09,yes")
            );
        }
        board.clear(product);
        assert!(line(&board).ends_with(",2026-03-09,no"));
    }

    #[test]
    fn every_product_that_is_sold_has_a_line() {
        let file = write_board(&CATALOGUE, &PriceBoard::default(), None, None);
        let (header, lines) = file.split_once("\r\n").expect("lines");
        assert_eq!(
            header,
            "product,name,price_per_kg,price_per_100g,price_per_lb,date,own"
        );
        let of_a_currency =
            write_board(&CATALOGUE, &PriceBoard::default(), None, "CAD".parse().ok());
        assert_eq!(
            of_a_currency.split_once("\r\n"),
            Some((
                "product,name,price_per_kg (CAD),price_per_100g (CAD),price_per_lb (CAD),date,own",
                lines
            ))
        );
        let sold = CATALOGUE
            .products()
            .filter(|(_, product)| product.kind != Kind::Loss);
        assert_eq!(lines.matches("\r\n").count(), sold.count());
    }
}
