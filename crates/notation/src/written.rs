//! Figures as they are shown: rounded once, here, by a named rule.

use quantity::{Decimal, Mass, Minutes, Money, PriceUnit, Rounding, Share, UnitPrice};

use crate::Units;
use crate::manner::{Manner, in_force};

/// A number with a fixed count of decimals, a true minus sign and grouped
/// digits.
pub fn number(number: Decimal, places: u32, rounding: Rounding) -> String {
    in_force(|manner| number_by(manner, number, places, rounding))
}

fn number_by(manner: &Manner, number: Decimal, places: u32, rounding: Rounding) -> String {
    let rounded = rounding.to_places(number, places);
    let plain = format!("{:.*}", places as usize, rounded.abs());
    let (whole, decimals) = plain.split_once('.').unwrap_or((&plain, ""));
    let mut text = String::new();
    if rounded.is_sign_negative() && !rounded.is_zero() {
        text.push('−');
    }
    let is_grouped = whole.len() >= usize::from(manner.grouped_from);
    for (index, digit) in whole.chars().enumerate() {
        let behind = whole.len() - index;
        if index > 0 && behind % 3 == 0 && is_grouped {
            text.push_str(&manner.group);
        }
        text.push(digit);
    }
    if !decimals.is_empty() {
        text.push_str(&manner.decimal);
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
    with_currency(&number(money.units(), 2, Rounding::HalfEven))
}

/// A price to the cent, without its unit.
pub fn price(price: UnitPrice, unit: PriceUnit, rounding: Rounding) -> String {
    with_currency(&number(price.in_unit(unit), 2, rounding))
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

/// A share of a weight with one decimal, rounded to the nearest: unlike a margin,
/// nobody is safer for seeing less of it.
pub fn share(share: Share) -> String {
    format!("{} %", number(share.percent(), 1, Rounding::HalfEven))
}

/// Minutes without decimals.
pub fn minutes(minutes: Minutes) -> String {
    number(minutes.minutes(), 0, Rounding::HalfEven)
}

/// The minus sign goes before all of it.
fn with_currency(number: &str) -> String {
    in_force(|manner| with_currency_by(manner, number))
}

fn with_currency_by(manner: &Manner, number: &str) -> String {
    let (sign, number) = match number.strip_prefix('−') {
        Some(number) => ("−", number),
        None => ("", number),
    };
    format!("{sign}{}{number}{}", manner.before, manner.behind)
}

/// A number to stand in a field: no more decimals than it has, at most
/// `places`, no grouping, so that it can be typed on.
pub fn in_field(number: Decimal, places: u32) -> String {
    as_typed(&plain(number, places))
}

/// A plain number as it is typed here.
pub fn as_typed(plain: &str) -> String {
    in_force(|manner| plain.replace('.', &manner.decimal))
}

/// The same with a point, as the attributes of the page have numbers.
pub fn plain(number: Decimal, places: u32) -> String {
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
    fn a_locale_has_its_own_signs() {
        let french = Manner {
            decimal: ",".to_owned(),
            group: "\u{a0}".to_owned(),
            grouped_from: 4,
            before: String::new(),
            behind: "\u{a0}$".to_owned(),
        };
        let shown = number_by(&french, "-1234.5".parse().unwrap(), 2, Rounding::HalfEven);
        assert_eq!(shown, "−1\u{a0}234,50");
        assert_eq!(with_currency_by(&french, &shown), "−1\u{a0}234,50\u{a0}$");
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
