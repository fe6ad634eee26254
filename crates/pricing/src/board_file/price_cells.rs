//! The price of a line from up to three cells, one for each unit.

use quantity::{Decimal, PriceUnit, UnitPrice, typed};
use wording::say;

use super::{PLACES, PRICES};

/// The price that the price columns give between them.
pub(super) fn price(columns: &[(&str, PriceUnit, &str)]) -> Result<UnitPrice, String> {
    let mut filled: Vec<(&str, PriceUnit, Decimal)> = Vec::new();
    for &(column, unit, text) in columns {
        if !text.is_empty() {
            let number =
                number(text).map_err(|message| say!("{place}: {fault}", column, message))?;
            filled.push((column, unit, number));
        }
    }
    // A spreadsheet that saves the file again cuts long numbers to what it shows: the
    // one with the fewest decimals is the one that was typed.
    let could_be_typed = |(_, _, number): &&(_, _, Decimal)| number.scale() <= typed::MOST_PLACES;
    let shortest = filled
        .iter()
        .filter(could_be_typed)
        .min_by_key(|(_, _, number)| number.scale());
    let Some(&(column, unit, number)) = shortest.or_else(|| filled.last()) else {
        return Err(say!(
            "There is no price: fill one of {columns}, or leave the line out.",
            PRICES.map(|(column, _)| column).join(", ")
        ));
    };
    let price = UnitPrice::from_unit(number, unit);
    let largest = UnitPrice::from_per_100g(typed::LARGEST);
    if price > largest || price < -largest {
        return Err(say!(
            "{column}: {number} is out of range: write a price up to {largest}.",
            column,
            number,
            typed::LARGEST
        ));
    }
    for &(other, other_unit, other_number) in &filled {
        // As near as its own decimals can say, but never nearer than a cent is
        // wide nor than the twelve places that are written.
        let width = Decimal::new(1, other_number.scale().clamp(2, PLACES));
        let apart = price.in_unit(other_unit).saturating_sub(other_number).abs();
        if apart > width {
            return Err(say!(
                "{column} {price} and {other} {other_price} are not the same price: keep the one that is right and empty the other, or its whole column.",
                column,
                number.normalize(),
                other,
                other_number.normalize()
            ));
        }
    }
    Ok(price)
}

/// A number in a cell: plain digits of any length with a point or a comma for the
/// decimals, or what any field takes; below zero with a sign in front.
fn number(text: &str) -> Result<Decimal, String> {
    let (digits, is_negative) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(digits) => (digits.trim_start(), true),
        None => (text, false),
    };
    let (whole, decimals) = digits.split_once(['.', ',']).unwrap_or((digits, "0"));
    let is_plain = [whole, decimals].iter().all(|digits| {
        let is_digit = |byte: u8| byte.is_ascii_digit();
        !digits.is_empty() && digits.bytes().all(is_digit)
    });
    let number = match Decimal::from_str_exact(&digits.replace(',', ".")) {
        Ok(number) if is_plain => number,
        _ => typed::money(digits)
            .map_err(|error| error.to_string())?
            .units(),
    };
    Ok(if is_negative { -number } else { number })
}
