//! The price board as a file that a spreadsheet opens: CSV by RFC 4180.
//!
//! | column | holds |
//! |---|---|
//! | `product` | id of the product |
//! | `name` | its name, for the reader alone |
//! | `price_per_kg (CAD)`, `price_per_100g (CAD)`, `price_per_lb (CAD)` | the price, three times over, with the code of its currency where it is known |
//! | `date` | day of the board, `2026-03-09` |
//! | `own` | `yes` for the shop's own price, `no` for a sample |
//!
//! Numbers reopen exactly. A price per pound always ends, so `price_per_lb` is
//! written in full; the other two are written in full where they end as well,
//! and to twelve places where they do not. Reading takes the one with the fewest
//! decimals, where that could have been typed, with nine or fewer, and else the
//! one per pound: so a file comes back exactly from a spreadsheet that saved it
//! again, with the digits that it shows. Such a file may part its fields by
//! semicolons and have commas for the decimals.
//!
//! No cell is run as a formula by a spreadsheet.

mod line_count;
mod price_cells;
mod reading;
mod writing;

use quantity::PriceUnit;

pub use reading::{FileFault, LARGEST_FILE, MOST_LINES, ReadBoard, read_board};
pub use writing::write_board;

/// The columns, in the order in which they are written.
const COLUMNS: [&str; 7] = [
    PRODUCT,
    NAME,
    PRICES[0].0,
    PRICES[1].0,
    PRICES[2].0,
    DATE,
    OWN,
];
const PRODUCT: &str = "product";
const NAME: &str = "name";
const DATE: &str = "date";
const OWN: &str = "own";
/// The price columns, in the order in which they are believed.
const PRICES: [(&str, PriceUnit); 3] = [
    ("price_per_kg", PriceUnit::PerKilogram),
    ("price_per_100g", PriceUnit::Per100Gram),
    ("price_per_lb", PriceUnit::PerPound),
];

/// Stands between the name of a price column and the code of its currency.
const CURRENCY: &str = " (";

/// Decimal places of a price that does not end, more than anybody types.
const PLACES: u32 = 12;

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use quantity::{Decimal, UnitPrice};

    use super::*;
    use crate::any_side::{CATALOGUE, any_side};
    use crate::shop::PriceBoard;

    fn reopened(board: &PriceBoard) -> PriceBoard {
        let date = "2026-03-09".parse().expect("a date");
        let currency = "CAD".parse().ok();
        let file = write_board(&CATALOGUE, board, Some(date), currency);
        let read = read_board(&CATALOGUE, file.as_bytes()).expect("own file");
        assert_eq!(read.date, Some(date));
        assert_eq!(read.currency, currency);
        let mut reopened = PriceBoard::default();
        read.put_on(&mut reopened);
        reopened
    }

    /// What a spreadsheet of a place with decimal commas makes of a file: semicolons,
    /// no more than eleven signs a number, accents marked as such.
    fn saved_again(file: &str) -> String {
        let mut records = csv::Reader::from_reader(file.as_bytes());
        let mut writer = csv::WriterBuilder::new()
            .delimiter(b';')
            .from_writer(Vec::new());
        writer
            .write_record(records.headers().expect("a header"))
            .expect("memory");
        for record in records.records() {
            let record = record.expect("a record");
            let cells = record.iter().map(|cell| match cell.parse::<Decimal>() {
                Ok(number) => {
                    let whole = number.trunc().to_string().len();
                    let places = u32::try_from(10_usize.saturating_sub(whole)).expect("few");
                    number
                        .round_dp(places)
                        .normalize()
                        .to_string()
                        .replace('.', ",")
                }
                Err(_) => cell.to_owned(),
            });
            writer.write_record(cells).expect("memory");
        }
        let saved = writer.into_inner().expect("memory");
        format!("\u{feff}{}", String::from_utf8(saved).expect("text"))
    }

    #[test]
    fn a_long_number_with_a_comma_is_read() {
        let product = CATALOGUE.product_id("ground-beef").expect("a product");
        let file = "product;price_per_kg;price_per_lb\nground-beef;11,001066883025;4,99\n";
        let read = read_board(&CATALOGUE, file.as_bytes()).expect("a board");
        let price = UnitPrice::from_per_lb(Decimal::new(499, 2));
        assert_eq!(read.own, [(product, price)]);
    }

    #[test]
    fn a_board_that_a_spreadsheet_saved_again_reopens_exactly() {
        let currency = "EUR".parse().ok();
        let cuts: Vec<_> = CATALOGUE
            .products()
            .filter(|(_, product)| product.kind == carcass::Kind::Cut)
            .map(|(id, _)| id)
            .collect();
        let every_cent: Vec<i64> = (1..6_000).collect();
        for (_, unit) in PRICES {
            for cents in every_cent.chunks(cuts.len()) {
                let mut board = PriceBoard::default();
                for (product, cents) in cuts.iter().zip(cents) {
                    let price = UnitPrice::from_unit(Decimal::new(*cents, 2), unit);
                    board.set(*product, price);
                }
                let file = saved_again(&write_board(&CATALOGUE, &board, None, currency));
                let read = read_board(&CATALOGUE, file.as_bytes()).expect(&file);
                assert_eq!(read.currency, currency);
                let mut reopened = PriceBoard::default();
                read.put_on(&mut reopened);
                assert_eq!(reopened, board);
            }
        }
    }

    #[test]
    fn reading_puts_every_line_as_the_file_has_it() {
        let product = CATALOGUE.product_id("ground-beef").expect("a product");
        let file = write_board(&CATALOGUE, &PriceBoard::default(), None, None);
        let read = read_board(&CATALOGUE, file.as_bytes()).expect("own file");
        assert!(read.own.is_empty() && read.date.is_none());
        let mut board = PriceBoard::default();
        board.set(product, UnitPrice::from_per_kg(Decimal::ONE));
        read.put_on(&mut board);
        assert_eq!(
            board,
            PriceBoard::default(),
            "a sample line is a sample again"
        );
    }

    #[test]
    fn an_own_price_that_equals_the_sample_stays_own() {
        let product = CATALOGUE.product_id("ground-beef").expect("a product");
        let mut board = PriceBoard::default();
        board.set(product, CATALOGUE.sample_price(product));
        assert_eq!(reopened(&board), board);
    }

    #[test]
    fn a_price_a_hair_from_a_round_one_reopens_exactly() {
        let product = CATALOGUE.product_id("ground-beef").expect("a product");
        // Below a dollar a pound has a digit more than what it makes a kilogram.
        let round = UnitPrice::from_per_kg(Decimal::TWO);
        let mut board = PriceBoard::default();
        for digit in 1..10 {
            let hair = UnitPrice::from_per_lb(Decimal::new(digit, 28));
            board.set(product, round + hair);
            assert_eq!(reopened(&board), board);
        }
    }

    proptest! {
        #[test]
        fn any_board_reopens_exactly(side in any_side()) {
            let board = side.shop.board;
            prop_assert_eq!(reopened(&board), board);
        }

        #[test]
        fn a_price_of_any_length_reopens_exactly(
            digits in prop::collection::vec(0_i64..10_000_000_000_000_000, 40),
            places in prop::collection::vec(5_u32..28, 40),
            unit in 0_usize..3,
        ) {
            let mut board = PriceBoard::default();
            let products = CATALOGUE.products().filter(|(_, product)| product.kind != carcass::Kind::Loss);
            for ((product, _), (digits, places)) in products.zip(digits.into_iter().zip(places)) {
                let seventh = Decimal::new(digits, places) / Decimal::from(7);
                let (_, unit) = PRICES[unit];
                let price = if places < 10 {
                    UnitPrice::from_unit(Decimal::new(digits % 10_000_000_000, places), unit)
                } else {
                    UnitPrice::from_unit(seventh, unit)
                };
                board.set(product, price);
            }
            prop_assert_eq!(reopened(&board), board);
        }
    }
}
