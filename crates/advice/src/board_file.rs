//! What a price board in a file would change, before anything is changed.

use carcass::Catalogue;
use notation::Units;
use pricing::board_file::{FileFault, ReadBoard, read_board};
use pricing::shop::PriceBoard;
use quantity::{Currency, PriceUnit, Rounding, UnitPrice};
use wording::{say, text};

use crate::answer::Write;
use crate::block::{Block, Tone};

/// The most faults that are listed one by one.
const MOST_FAULTS: usize = 12;

/// What the file says against the board in force, with the offer to take it
/// over; or every fault with its line, and then nothing is offered. Where its prices
/// are in another currency than those in force, `currency`, that is said first.
pub fn blocks(
    catalogue: &Catalogue,
    board: &PriceBoard,
    currency: Option<Currency>,
    units: Units,
    file: &str,
) -> Vec<Block> {
    let read = match read_board(catalogue, file.as_bytes()) {
        Err(faults) => return told(&faults),
        Ok(read) => read,
    };
    let mut blocks = Vec::new();
    if let (Some(own), Some(theirs)) = (currency, read.currency)
        && own != theirs
    {
        let mixed = say!(
            "The prices of this file are in {theirs}, yours are in {own}: nothing is converted.",
            theirs,
            own
        );
        blocks.push(Block::Text(Tone::Trouble, mixed));
    }
    blocks.extend(changes(catalogue, board, units, &read));
    blocks
}

fn told(faults: &[FileFault]) -> Vec<Block> {
    let mut blocks: Vec<Block> = faults
        .iter()
        .take(MOST_FAULTS)
        .map(|fault| Block::Text(Tone::Trouble, fault.to_string()))
        .collect();
    let more = faults.len().saturating_sub(MOST_FAULTS);
    if more > 0 {
        blocks.push(Block::Text(Tone::Trouble, say!("And {more} more.", more)));
    }
    blocks.push(Block::Text(
        Tone::Note,
        text!("Nothing has been changed. Mend the file and choose it again.").to_owned(),
    ));
    blocks
}

fn changes(
    catalogue: &Catalogue,
    board: &PriceBoard,
    units: Units,
    read: &ReadBoard,
) -> Vec<Block> {
    let unit = units.price();
    let written = |price: UnitPrice| notation::price(price, unit, Rounding::HalfEven);
    let mut after = board.clone();
    read.put_on(&mut after);
    let mut rows = Vec::new();
    let mut writes = Vec::new();
    for (id, product) in catalogue.products() {
        let (old, new) = (board.price(catalogue, id), after.price(catalogue, id));
        if old == new && board.is_sample(id) == after.is_sample(id) {
            continue;
        }
        let is_sample = after.is_sample(id);
        let mut text = written(new);
        if is_sample {
            text = say!("{price} (sample)", text);
        }
        rows.push(vec![product.name.clone(), written(old), text]);
        let typed = if is_sample { String::new() } else { exact(new) };
        writes.push(Write::Field(format!("price-{}", product.id), typed));
    }
    if let Some(date) = read.date {
        writes.push(Write::Field("board-date".to_owned(), date.to_string()));
    }
    let of_day = read
        .date
        .map(|date| say!(" Board of {date}.", date))
        .unwrap_or_default();
    let finding = match rows.len() {
        0 => say!(
            "The file has the prices that are on the board now.{of_day}",
            of_day
        ),
        1 => say!("The file changes 1 price.{of_day}", of_day),
        more => say!("The file changes {more} prices.{of_day}", more, of_day),
    };
    let mut blocks = vec![Block::Text(Tone::Finding, finding)];
    if !rows.is_empty() {
        let heads = vec![
            text!("Cut").to_owned(),
            say!("Now, {currency} {per}", notation::currency(), unit.symbol()),
            say!(
                "In the file, {currency} {per}",
                notation::currency(),
                unit.symbol()
            ),
        ];
        blocks.push(Block::Table(
            text!("What it changes").to_owned(),
            heads,
            rows,
        ));
    }
    if !writes.is_empty() {
        blocks.push(Block::Offer(
            text!("Put these on the board").to_owned(),
            writes,
        ));
    }
    blocks
}

/// A price as it is typed, exact: of the units in which it ends, the first.
fn exact(price: UnitPrice) -> String {
    let ends = |unit: &PriceUnit| {
        let number = price.in_unit(*unit).normalize();
        number.scale() <= 9
    };
    let unit = [PriceUnit::PerKilogram, PriceUnit::PerPound]
        .into_iter()
        .find(ends)
        .unwrap_or(PriceUnit::PerPound);
    format!("{}{}", price.in_unit(unit).normalize(), unit.symbol())
}

#[cfg(test)]
mod tests {
    use pricing::board_file::write_board;
    use quantity::typed;

    use super::*;

    fn catalogue() -> Catalogue {
        Catalogue::published().expect("published data")
    }

    fn offers(blocks: &[Block]) -> Vec<Write> {
        blocks
            .iter()
            .find_map(|block| match block {
                Block::Offer(_, writes) => Some(writes.clone()),
                _ => None,
            })
            .unwrap_or_default()
    }

    #[test]
    fn a_board_that_was_written_changes_nothing_when_read() {
        let catalogue = catalogue();
        let mut board = PriceBoard::default();
        let id = catalogue.product_id("ribeye-steak").expect("a product");
        let (price, _) = typed::unit_price("61.37", PriceUnit::PerKilogram).expect("a price");
        board.set(id, price);
        let file = write_board(&catalogue, &board, None, None);
        let blocks = blocks(&catalogue, &board, None, Units::Kilograms, &file);
        assert_eq!(blocks.len(), 1);
        assert!(offers(&blocks).is_empty());
    }

    #[test]
    fn what_a_file_changes_is_shown_and_offered_exactly() {
        let catalogue = catalogue();
        let mut board = PriceBoard::default();
        let stays = catalogue.product_id("t-bone-steak").expect("a product");
        let (price, _) = typed::unit_price("33", PriceUnit::PerKilogram).expect("a price");
        board.set(stays, price);
        let sample = PriceBoard::default()
            .price(&catalogue, stays)
            .in_unit(PriceUnit::PerPound);
        let file = format!(
            "product,price_per_kg,price_per_lb,own,date\n\
             ribeye-steak,61.37,,yes,2026-03-09\nt-bone-steak,,{sample},no,\n"
        );
        let blocks = blocks(&catalogue, &board, None, Units::Pounds, &file);
        let Block::Table(_, _, rows) = &blocks[1] else {
            panic!("no table: {blocks:?}")
        };
        let is_sample: Vec<bool> = rows
            .iter()
            .map(|row| row[2].ends_with(" (sample)"))
            .collect();
        assert_eq!(is_sample.iter().filter(|is| **is).count(), 1, "{rows:?}");
        let field = |id: &str, text: &str| Write::Field(id.to_owned(), text.to_owned());
        let mut writes = offers(&blocks);
        assert!(!writes.is_empty(), "{blocks:?}");
        writes.sort_by_key(|write| format!("{write:?}"));
        assert_eq!(
            writes,
            [
                field("board-date", "2026-03-09"),
                field("price-ribeye-steak", "61.37/kg"),
                field("price-t-bone-steak", ""),
            ]
        );
    }

    #[test]
    fn a_board_in_another_currency_says_so_and_is_offered_as_it_is() {
        let catalogue = catalogue();
        let said = |header: &str, own: Option<&str>| {
            let file = format!("product,{header}\nribeye-steak,61.37\n");
            let own = own.map(|code| code.parse().expect("a currency"));
            let board = PriceBoard::default();
            let blocks = blocks(&catalogue, &board, own, Units::Kilograms, &file);
            let price = Write::Field("price-ribeye-steak".to_owned(), "61.37/kg".to_owned());
            assert_eq!(offers(&blocks), [price]);
            blocks.first().cloned()
        };
        let warning = "The prices of this file are in USD, yours are in CAD: nothing is converted.";
        assert_eq!(
            said("price_per_kg (USD)", Some("CAD")),
            Some(Block::Text(Tone::Trouble, warning.to_owned()))
        );
        for (header, own) in [
            ("price_per_kg (CAD)", Some("CAD")),
            // As files were before they named a currency.
            ("price_per_kg", Some("CAD")),
            ("price_per_kg (USD)", None),
        ] {
            let first = said(header, own);
            assert!(
                matches!(first, Some(Block::Text(Tone::Finding, _))),
                "{first:?}"
            );
        }
    }

    #[test]
    fn a_fault_names_its_line_and_nothing_is_offered() {
        let file = "product,price_per_kg\nribeye-steak,dear\nno-such-cut,3\n";
        let blocks = blocks(
            &catalogue(),
            &PriceBoard::default(),
            None,
            Units::Kilograms,
            file,
        );
        assert!(matches!(&blocks[0], Block::Text(Tone::Trouble, text) if text.contains("Line 2")));
        assert!(matches!(&blocks[1], Block::Text(Tone::Trouble, text) if text.contains("Line 3")));
        assert!(offers(&blocks).is_empty());
    }
}
