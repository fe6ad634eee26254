//! Reading a board from a file: all of it or nothing, with every line that is
//! wrong named at once.

use core::fmt;
use std::collections::BTreeMap;
use wording::{say, text};

use carcass::{Catalogue, Kind, ProductId};
use quantity::{Currency, UnitPrice};

use super::line_count::LineCount;
use super::price_cells::price;
use super::{COLUMNS, CURRENCY, DATE, NAME, OWN, PRICES, PRODUCT};
use crate::calendar_date::CalendarDate;
use crate::shop::PriceBoard;
use crate::spreadsheet_text::without_guard;

/// The largest file that is read, in bytes.
pub const LARGEST_FILE: usize = 256 * 1024;
/// The most lines below the header that are read.
pub const MOST_LINES: usize = 500;

/// A fault of a file: what is wrong, where, and what would be right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileFault {
    /// Line in the file, from 1; `None` where the file as a whole is meant.
    pub line: Option<u64>,
    /// What is wrong and what would be right.
    pub message: String,
}

impl fmt::Display for FileFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => f.write_str(&say!("Line {line}: {message}", line, self.message)),
            None => write!(f, "{}", self.message),
        }
    }
}

impl core::error::Error for FileFault {}

/// What a file says of the board.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ReadBoard {
    /// The shop's own prices, in product order.
    pub own: Vec<(ProductId, UnitPrice)>,
    /// Products that the file leaves at the sample price.
    pub samples: Vec<ProductId>,
    /// The day of the board: the earliest that any line gives.
    pub date: Option<CalendarDate>,
    /// The currency of its prices, where the header names one.
    pub currency: Option<Currency>,
}

impl ReadBoard {
    /// Puts every line of the file on `board`; products that the file does not
    /// name stay as they are.
    pub fn put_on(&self, board: &mut PriceBoard) {
        for &(product, price) in &self.own {
            board.set(product, price);
        }
        for &product in &self.samples {
            board.clear(product);
        }
    }
}

/// Reads a board from the bytes of a file.
///
/// The header is required and names the columns in any order: `product`, at
/// least one of the three prices, with the code of their currency where it is known,
/// and `name`, `date` and `own` where wanted.
/// Fields are parted by commas, semicolons or tabs, whichever the header uses.
/// A line marked as not own whose price is not the sample's was edited and is
/// taken as own.
///
/// # Errors
/// Every [`FileFault`] of the file, in the order of its lines.
pub fn read_board(catalogue: &Catalogue, file: &[u8]) -> Result<ReadBoard, Vec<FileFault>> {
    let whole = |message: String| {
        vec![FileFault {
            line: None,
            message,
        }]
    };
    if file.len() > LARGEST_FILE {
        return Err(whole(say!(
            "The file is larger than {size} KiB: keep one line for each product.",
            LARGEST_FILE / 1024
        )));
    }
    if file.contains(&0) {
        return Err(whole(no_text()));
    }
    let text = String::from_utf8_lossy(file);
    let text = text.trim_start_matches('\u{feff}');
    let mut records = csv::ReaderBuilder::new()
        .delimiter(separator(text))
        .has_headers(false)
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());

    let mut columns = None;
    let mut line_count = LineCount::new(text);
    let mut lines = Lines::new(catalogue);
    let mut faults = Vec::new();
    for record in records.records() {
        let record = record.map_err(|_| whole(no_text()))?;
        if record.iter().all(str::is_empty) {
            continue;
        }
        let line = line_count.at(record.position().map_or(0, csv::Position::byte));
        let read = match &columns {
            None => Columns::named_by(&record).map(|(named, currency)| {
                columns = Some(named);
                lines.board.currency = currency;
            }),
            Some(columns) => lines.read(line, &record, columns),
        };
        if let Err(message) = read {
            faults.push(FileFault {
                line: Some(line),
                message,
            });
            if columns.is_none() {
                return Err(faults);
            }
        }
        if lines.count > MOST_LINES {
            return Err(whole(say!(
                "The file has more than {most_lines} lines: keep one line for each product.",
                MOST_LINES
            )));
        }
    }
    if columns.is_none() {
        return Err(whole(say!(
            "The file is empty: its first line must name the columns, such as {product},{price}.",
            PRODUCT,
            PRICES[0].0
        )));
    }
    if faults.is_empty() {
        Ok(lines.board)
    } else {
        Err(faults)
    }
}

fn no_text() -> String {
    text!("The file is not plain text: save it from the spreadsheet as CSV.").to_owned()
}

/// What parts the fields of the header line.
fn separator(text: &str) -> u8 {
    let header = text.lines().find(|line| !line.trim().is_empty());
    let header = header.unwrap_or_default();
    match header.chars().find(|c| matches!(c, ',' | ';' | '\t')) {
        Some(';') => b';',
        Some('\t') => b'\t',
        _ => b',',
    }
}

/// Which column of the file holds what.
struct Columns(Vec<&'static str>);

impl Columns {
    /// With the currency that the price columns name.
    fn named_by(header: &csv::StringRecord) -> Result<(Self, Option<Currency>), String> {
        let mut columns: Vec<&'static str> = Vec::new();
        let mut currency = None;
        for field in header {
            let (name, named) = parted(without_guard(field));
            if let (Some(before), Some(named)) = (currency, named)
                && before != named
            {
                return Err(say!(
                    "The columns name two currencies, {first} and {second}: a board has one for all of its prices.",
                    before,
                    named
                ));
            }
            currency = currency.or(named);
            let name = name.to_lowercase();
            let Some(column) = COLUMNS.into_iter().find(|column| *column == name) else {
                return Err(say!(
                    "“{field}” is not a column: the first line names the columns, of {columns}.",
                    short(field),
                    COLUMNS.join(", ")
                ));
            };
            if columns.contains(&column) {
                return Err(say!(
                    "The column “{column}” is there twice: keep one.",
                    column
                ));
            }
            columns.push(column);
        }
        let has_price = PRICES.iter().any(|(column, _)| columns.contains(column));
        if !columns.contains(&PRODUCT) || !has_price {
            return Err(say!(
                "The first line must name the column {product} and one of {prices}.",
                PRODUCT,
                PRICES.map(|(column, _)| column).join(", ")
            ));
        }
        Ok((Self(columns), currency))
    }

    /// The text of `column`; empty where the file has no such column.
    fn text<'record>(&self, record: &'record csv::StringRecord, column: &str) -> &'record str {
        let place = self.0.iter().position(|name| *name == column);
        let field = place.and_then(|place| record.get(place));
        without_guard(field.unwrap_or_default()).trim()
    }
}

/// The name of a price column and the currency that it names.
fn parted(field: &str) -> (&str, Option<Currency>) {
    let named = field.split_once(CURRENCY).and_then(|(name, code)| {
        let code = code.strip_suffix(')')?.parse().ok()?;
        let is_price = PRICES
            .iter()
            .any(|(price, _)| price.eq_ignore_ascii_case(name.trim()));
        is_price.then_some((name.trim(), Some(code)))
    });
    named.unwrap_or((field, None))
}

/// The lines read so far.
struct Lines<'catalogue> {
    catalogue: &'catalogue Catalogue,
    board: ReadBoard,
    seen: BTreeMap<ProductId, u64>,
    count: usize,
}

impl<'catalogue> Lines<'catalogue> {
    fn new(catalogue: &'catalogue Catalogue) -> Self {
        Self {
            catalogue,
            board: ReadBoard::default(),
            seen: BTreeMap::new(),
            count: 0,
        }
    }

    fn read(
        &mut self,
        line: u64,
        record: &csv::StringRecord,
        columns: &Columns,
    ) -> Result<(), String> {
        self.count += 1;
        if record.len() != columns.0.len() {
            return Err(say!(
                "{fields} fields where the first line names {columns}: put a text with a separator in it between double quotes.",
                record.len(),
                columns.0.len()
            ));
        }
        let text = |column| columns.text(record, column);
        let product = product(self.catalogue, text(PRODUCT), text(NAME))?;
        let first = *self.seen.entry(product).or_insert(line);
        if first != line {
            return Err(say!(
                "“{id}” is on line {first} already: keep one of the two.",
                self.catalogue[product].id,
                first
            ));
        }
        let price = price(&PRICES.map(|(column, unit)| (column, unit, text(column))))?;
        if price < UnitPrice::ZERO && !self.catalogue[product].kind.is_by_product() {
            return Err(text!(
                "The price of a cut is below zero: only a by-product can cost to be rid of."
            )
            .to_owned());
        }
        let marked_own = own(text(OWN))?;
        let date = Some(text(DATE)).filter(|date| !date.is_empty());
        let date: Option<CalendarDate> = date
            .map(str::parse)
            .transpose()
            .map_err(|error: crate::calendar_date::DateError| error.to_string())?;

        self.board.date = self.board.date.into_iter().chain(date).min();
        if marked_own || price != self.catalogue.sample_price(product) {
            self.board.own.push((product, price));
        } else {
            self.board.samples.push(product);
        }
        Ok(())
    }
}

/// The first characters of what stands in the file, for a message.
fn short(text: &str) -> String {
    text.chars().take(40).collect()
}

fn product(catalogue: &Catalogue, id: &str, name: &str) -> Result<ProductId, String> {
    let Some(product) = catalogue.product_id(id) else {
        let alike = catalogue.products().find(|(_, product)| {
            product.id.eq_ignore_ascii_case(&id.replace(' ', "-"))
                || product.name.eq_ignore_ascii_case(id)
                || product.name.eq_ignore_ascii_case(name)
        });
        return Err(if let Some((_, product)) = alike {
            say!(
                "“{typed}” is not a product: write “{id}”.",
                short(id),
                product.id
            )
        } else {
            say!(
                "“{typed}” is not a product: write its id as an exported board has it, or leave the line out.",
                short(id)
            )
        });
    };
    if catalogue[product].kind == Kind::Loss {
        return Err(say!(
            "“{id}” is a loss, which nobody pays for: leave the line out.",
            id
        ));
    }
    Ok(product)
}

fn own(text: &str) -> Result<bool, String> {
    match text.to_lowercase().as_str() {
        "" | "yes" | "true" | "1" => Ok(true),
        "no" | "false" | "0" => Ok(false),
        _ => Err(say!(
            "{column}: “{typed}” is neither yes nor no: write one of them.",
            OWN,
            short(text)
        )),
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use quantity::{Decimal, typed};

    use super::*;
    use crate::any_side::CATALOGUE;

    fn id(name: &str) -> ProductId {
        CATALOGUE.product_id(name).expect("a product")
    }

    fn read(file: &str) -> Result<ReadBoard, Vec<String>> {
        read_board(&CATALOGUE, file.as_bytes())
            .map_err(|faults| faults.iter().map(ToString::to_string).collect())
    }

    fn one_fault(file: &str) -> String {
        let faults = read(file).expect_err(file);
        assert_eq!(faults.len(), 1, "{faults:?}");
        faults[0].clone()
    }

    /// The price that a file of one line gives ground beef.
    fn price_of(columns: &str, numbers: &str) -> UnitPrice {
        let file = format!("product,{columns}\nground-beef,{numbers}\n");
        read(&file).expect(&file).own[0].1
    }

    #[test]
    fn any_one_price_column_will_do() {
        let cents = |amount| Decimal::new(amount, 2);
        for (columns, numbers, price) in [
            ("price_per_kg", "12.99", UnitPrice::from_per_kg(cents(1299))),
            (
                "price_per_100g",
                "1.29",
                UnitPrice::from_per_100g(cents(129)),
            ),
            ("price_per_lb", "5.89", UnitPrice::from_per_lb(cents(589))),
            // The one per kilogram is believed where all agree to the cent.
            (
                "price_per_lb,price_per_kg",
                "5.89,12.99",
                UnitPrice::from_per_kg(cents(1299)),
            ),
            (
                "price_per_kg,price_per_lb",
                ",5.89",
                UnitPrice::from_per_lb(cents(589)),
            ),
            (
                "price_per_kg",
                "$12.99",
                UnitPrice::from_per_kg(cents(1299)),
            ),
            (
                "price_per_kg",
                "\"12,99\"",
                UnitPrice::from_per_kg(cents(1299)),
            ),
            (
                "Price_per_KG , own",
                "12.99,YES",
                UnitPrice::from_per_kg(cents(1299)),
            ),
        ] {
            assert_eq!(price_of(columns, numbers), price, "{columns} {numbers}");
        }
    }

    #[test]
    fn prices_agree_as_nearly_as_their_decimals_say() {
        let file = |columns: &str, numbers: &str| {
            read(&format!("product,{columns}\nground-beef,{numbers}\n"))
        };
        for (columns, numbers, agree) in [
            ("price_per_kg,price_per_100g", "10.00,1.01", true),
            ("price_per_kg,price_per_100g", "10.00,1.011", false),
            ("price_per_kg,price_per_lb", "13.00,5", false),
            ("price_per_kg,price_per_lb", "13.00,5.9", true),
            ("price_per_kg,price_per_lb", "12.99,5.892164886", true),
            ("price_per_kg,price_per_lb", "12.99,5.892164884", false),
        ] {
            assert_eq!(file(columns, numbers).is_ok(), agree, "{columns} {numbers}");
        }
    }

    #[test]
    fn files_as_spreadsheets_save_them_are_read() {
        let own = vec![(
            id("ground-beef"),
            UnitPrice::from_per_kg(Decimal::new(1299, 2)),
        )];
        for file in [
            "\u{feff}product,price_per_kg\r\nground-beef,12.99\r\n",
            "product;price_per_kg\nground-beef;12,99\n;\n",
            "product\tprice_per_kg\nground-beef\t12.99",
            "product,price_per_kg,own\n\n\"ground-beef\",\" 12.99 \",TRUE\n,,\n",
            "product,name,price_per_kg\nground-beef,'=1+1,12.99\n",
        ] {
            assert_eq!(read(file).expect(file).own, own, "{file}");
        }
    }

    #[test]
    fn the_currency_stands_in_the_header() {
        let currency = |header: &str| {
            let cells = header.split(',').skip(1).map(|_| ",1").collect::<String>();
            read(&format!("{header}\nground-beef{cells}\n")).map(|read| read.currency)
        };
        for (header, code) in [
            ("product,price_per_kg", None),
            ("product,price_per_kg (CAD)", Some("CAD")),
            ("product,Price_per_KG (EUR)", Some("EUR")),
        ] {
            let code = code.map(|code| code.parse().expect("a currency"));
            assert_eq!(currency(header), Ok(code), "{header}");
        }
        for (header, said) in [
            (
                "product,price_per_kg (CAD),price_per_lb (USD)",
                "two currencies, CAD and USD",
            ),
            ("product,price_per_kg (dollars)", "is not a column"),
            ("product (CAD),price_per_kg", "is not a column"),
        ] {
            let faults = currency(header).expect_err(header);
            assert!(faults[0].contains(said), "{faults:?}");
        }
    }

    #[test]
    fn the_board_is_as_old_as_its_oldest_price() {
        let file = "product,price_per_kg,date\nground-beef,9,2026-03-09\nstew-beef,9,2025-12-31\nkebab-cubes,9,\n";
        assert_eq!(read(file).expect("a board").date, "2025-12-31".parse().ok());
    }

    #[test]
    fn a_sample_that_was_edited_is_own() {
        let sample = CATALOGUE.sample_price(id("ground-beef")).per_kg();
        let file = format!("product,price_per_kg,own\nground-beef,{sample},no\nstew-beef,1,no\n");
        let board = read(&file).expect("a board");
        assert_eq!(board.samples, [id("ground-beef")]);
        assert_eq!(
            board.own,
            [(id("stew-beef"), UnitPrice::from_per_kg(Decimal::ONE))]
        );
    }

    #[test]
    fn a_by_product_may_cost_to_be_rid_of_and_a_cut_may_not() {
        let by_product = CATALOGUE
            .products()
            .find(|(_, product)| product.kind == Kind::Bone);
        let (bone, product) = by_product.expect("bones");
        for minus in ["-", "- $", "\u{2212}"] {
            let file = format!("product,price_per_kg\n{},{minus}0.25\n", product.id);
            let price = UnitPrice::from_per_kg(Decimal::new(-25, 2));
            assert_eq!(read(&file).expect("a board").own, [(bone, price)]);
        }
        let most = UnitPrice::from_per_100g(typed::LARGEST);
        for (sign, price) in [("", most), ("-", -most)] {
            let file = |column, digits: Decimal| {
                read(&format!(
                    "product,{column}\n{},{sign}{digits}\n",
                    product.id
                ))
            };
            let own = file("price_per_100g", typed::LARGEST)
                .expect("the largest")
                .own;
            assert_eq!(own, [(bone, price)]);
            let beyond = file("price_per_kg", typed::LARGEST * Decimal::TEN + Decimal::ONE);
            assert!(beyond.expect_err("beyond")[0].contains("out of range"));
        }
        assert_eq!(price_of("price_per_kg", "0"), UnitPrice::ZERO);
        let said = one_fault("product,price_per_kg\nground-beef,-0.25\n");
        assert!(
            said.starts_with("Line 2: ") && said.contains("below zero"),
            "{said}"
        );
    }

    #[test]
    fn every_bad_line_is_named_with_what_would_be_right() {
        let loss = CATALOGUE
            .products()
            .find(|(_, product)| product.kind == Kind::Loss);
        let file = format!(
            "product,name,price_per_kg,price_per_lb,date,own\n\
             Ground beef,,12.99,,,\n\
             no-such-cut,Stewing beef,12.99,,,\n\
             no-such-cut,,12.99,,,\n\
             stew-beef,,,,,\n\
             \n\
             kebab-cubes,,12.99,9.99,,\n\
             ground-beef,,abc,,,\n\
             ground-beef,,12.99,,2026-02-30,\n\
             {},,1,,,\n\
             flank-steak,,1,,,perhaps\n\
             flank-steak,,1,,,yes\n\
             flank-steak,,1,,,,,\n\
             flank-steak,,99999999999,,,\n",
            loss.expect("a loss").1.id
        );
        let faults = read(&file).expect_err("bad lines");
        let expected = [
            (2, "write “ground-beef”"),
            (3, "write “stew-beef”"),
            (4, "exported board"),
            (5, "There is no price"),
            (7, "not the same price"),
            (8, "price_per_kg: “abc” is not a number"),
            (9, "on line 8 already"),
            (10, "a loss"),
            (11, "neither yes nor no"),
            (12, "on line 11 already"),
            (13, "8 fields where the first line names 6"),
            (14, "on line 11 already"),
        ];
        assert_eq!(faults.len(), expected.len(), "{faults:#?}");
        for (fault, (line, words)) in faults.iter().zip(expected) {
            assert!(fault.starts_with(&format!("Line {line}: ")), "{fault}");
            assert!(fault.contains(words), "{fault}");
        }
        for (line, words) in [
            ("Stewing beef,1,", "write “stew-beef”"),
            ("ground-beef,1,2026-02-30", "no day of the calendar"),
            ("ground-beef,1,09.03.2026", "not a date"),
            ("ground-beef,99999999999,", "out of range"),
            ("ground-beef,1e5,", "is not"),
            ("ground-beef,1_000,", "is not"),
            ("ground-beef,1.2.3,", "two separators"),
        ] {
            let said = one_fault(&format!("product,price_per_kg,date\n{line}\n"));
            assert!(
                said.starts_with("Line 2: ") && said.contains(words),
                "{said}"
            );
        }
    }

    #[test]
    fn lines_are_counted_as_an_editor_counts_them() {
        for (file, line) in [
            ("product,price_per_kg\r\nno,1\r\n", 2),
            ("product,price_per_kg\r\n\r\n\r\nno,1\r\n", 4),
            ("\r\nproduct,price_per_kg\r\nno,1", 3),
            ("product,price_per_kg\rground-beef,1\rno,1\r", 3),
            ("product,price_per_kg\n\"\nno\",1\n", 2),
            (
                "product,name,price_per_kg\nground-beef,\"two\nlines\",1\nno,,1\n",
                4,
            ),
            (
                "\u{feff}product,name,price_per_kg\n,,\nground-beef,é,1\nno,,1\n",
                4,
            ),
        ] {
            let said = one_fault(file);
            assert!(
                said.starts_with(&format!("Line {line}: ")),
                "{file:?} {said}"
            );
        }
    }

    #[test]
    fn a_header_that_does_not_say_what_is_in_the_file_is_refused() {
        for (file, words) in [
            ("", "empty"),
            ("\n\n", "empty"),
            ("ground-beef,12.99\n", "“ground-beef” is not a column"),
            ("product,name\nground-beef,Ground beef\n", "price_per_kg"),
            ("price_per_kg\n12.99\n", "must name the column product"),
            ("product,price_per_kg,product\n", "there twice"),
            ("product,price_per_kg,colour\n", "“colour” is not a column"),
            ("p\0r\0o\0d", "not plain text"),
        ] {
            let said = one_fault(file);
            assert!(said.contains(words), "{said}");
        }
    }

    #[test]
    fn a_file_of_any_size_is_read_or_refused_at_once() {
        let header = "product,price_per_kg\n";
        let lines = |count| format!("{header}{}", "no-such-cut,1\n".repeat(count));
        assert_eq!(
            read(&lines(MOST_LINES)).expect_err("unknown").len(),
            MOST_LINES
        );
        assert!(one_fault(&lines(MOST_LINES + 1)).contains("500 lines"));
        let padded = |bytes: usize| format!("{header}{}", " ".repeat(bytes - header.len()));
        assert_eq!(read(&padded(LARGEST_FILE)), Ok(ReadBoard::default()));
        assert!(one_fault(&padded(LARGEST_FILE + 1)).contains("256 KiB"));
    }

    proptest! {
        #[test]
        fn no_file_panics(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
            let _ = read_board(&CATALOGUE, &bytes);
        }

        #[test]
        fn no_cell_panics(cells in prop::collection::vec("[-0-9.,$€\"';=e ]{0,34}|.{0,9}", 6)) {
            let file = format!(
                "product,price_per_kg,price_per_100g,price_per_lb,date,own\nground-beef,{}\n",
                cells[..5].join(",")
            );
            let _ = read(&file);
            let file = format!("product,price_per_kg\n{}\n", cells.join(","));
            let _ = read(&file);
        }
    }
}
