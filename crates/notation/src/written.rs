//! Figures as they are shown: rounded once, here, by a named rule.

use quantity::{Decimal, Mass, Minutes, Money, PriceUnit, Rounding, Share, UnitPrice};

use crate::Units;

/// Parts groups of three digits; a narrow space, as ISO 80000-1 has it, since
/// a comma is a decimal sign to half of the world.
const GROUP_SPACE: char = '\u{202f}';

/// A number with a fixed count of decimals, a true minus sign and grouped
/// digits from ten thousand on.
pub fn number(number: Decimal, places: u32, rounding: Rounding) -> String {
    let rounded = rounding.to_places(number, places);
    let plain = format!("{:.*}", places as usize, rounded.abs());
    let (whole, decimals) = plain.split_once('.').unwrap_or((&plain, ""));
    let mut text = String::new();
    if rounded.is_sign_negative() && !rounded.is_zero() {
        text.push('−');
    }
    for (index, digit) in whole.chars().enumerate() {
        let behind = whole.len() - index;
        if index > 0 && behind % 3 == 0 && whole.len() > 4 {
            text.push(GROUP_SPACE);
        }
        text.push(digit);
    }
    if !decimals.is_empty() {
        text.push('.');
        text.push_str(decimals);
    }
    text
}

/// A mass with two decimals, without its unit.
pub fn mass(mass: Mass, units: Units) -> String {
    number(mass.in_unit(units.mass()), 2, Rounding::HalfEven)
}

/// A mass with its unit.
pub fn mass_with_unit(amount: Mass, units: Units) -> String {
    format!("{} {}", mass(amount, units), units.mass().symbol())
}

/// Money to the cent.
pub fn money(money: Money) -> String {
    signed_currency(&number(money.units(), 2, Rounding::HalfEven))
}

/// A price to the cent, without its unit.
pub fn price(price: UnitPrice, unit: PriceUnit, rounding: Rounding) -> String {
    signed_currency(&number(price.in_unit(unit), 2, rounding))
}

/// A price to the cent with its unit.
pub fn price_with_unit(amount: UnitPrice, unit: PriceUnit, rounding: Rounding) -> String {
    format!("{}{}", price(amount, unit, rounding), unit.symbol())
}

/// A share in percent with one decimal. Cut down and not to the nearest: a
/// margin just under the target must not look like the target.
pub fn percent(share: Share) -> String {
    format!("{} %", number(share.percent(), 1, Rounding::Down))
}

/// Minutes without decimals.
pub fn minutes(minutes: Minutes) -> String {
    number(minutes.minutes(), 0, Rounding::HalfEven)
}

/// The currency sign goes behind the minus sign.
fn signed_currency(number: &str) -> String {
    match number.strip_prefix('−') {
        Some(number) => format!("−${number}"),
        None => format!("${number}"),
    }
}

/// A number to stand in a field: no more decimals than it has, at most
/// `places`, no grouping, so that it can be typed on.
pub fn in_field(number: Decimal, places: u32) -> String {
    Rounding::HalfEven
        .to_places(number, places)
        .normalize()
        .to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_grouped_and_signed() {
        let shown = |text: &str, places| number(text.parse().unwrap(), places, Rounding::HalfEven);
        assert_eq!(shown("1234.5", 2), "1234.50");
        assert_eq!(shown("1234567.005", 2), "1\u{202f}234\u{202f}567.00");
        assert_eq!(shown("-0.004", 2), "0.00");
        assert_eq!(shown("-12.346", 2), "−12.35");
        assert_eq!(shown("12345", 0), "12\u{202f}345");
    }

    #[test]
    fn a_margin_just_under_the_target_stays_under_it() {
        let share = Share::from_percent("27.99".parse().unwrap());
        assert_eq!(percent(share), "27.9 %");
    }

    #[test]
    fn money_below_zero_has_its_sign_first() {
        assert_eq!(money(Money::from_cents(-1250)), "−$12.50");
    }
}
