//! From typed text to a quantity.
//!
//! Accepts what a person types in a hurry: a comma or a point, spaces between
//! groups of three digits, a currency sign, a unit. Refuses what could be
//! read in two ways: `1,234.5` is refused and not guessed at.

use core::fmt;
use wording::{say, text};

use rust_decimal::Decimal;

use crate::{LabourRate, Mass, MassUnit, Minutes, Money, PriceUnit, Share, UnitPrice};

/// The largest number that any field takes. It leaves room for every product
/// and sum that the costing forms within the range of a decimal.
pub const LARGEST: Decimal = Decimal::from_parts(1_000_000_000, 0, 0, false, 0);

/// The most decimal places that any field takes.
pub const MOST_PLACES: u32 = 9;

/// The most characters that are read; longer text is refused unread.
const LONGEST_TEXT: usize = 64;

/// Why typed text is not a quantity. Each message names what was typed and
/// says what would be right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TypedError {
    /// Nothing was typed.
    Empty,
    /// It does not start with a plain number.
    NotANumber {
        /// What was typed.
        typed: String,
    },
    /// Two separators: which one is the decimal sign cannot be known.
    TwoSeparators {
        /// What was typed.
        typed: String,
    },
    /// A space that does not part a group of three digits.
    OddSpace {
        /// What was typed.
        typed: String,
    },
    /// Above [`LARGEST`] or with more than [`MOST_PLACES`] decimal places.
    OutOfRange {
        /// What was typed.
        typed: String,
    },
    /// Below zero.
    Negative {
        /// What was typed.
        typed: String,
    },
    /// A unit that this field does not know.
    UnknownUnit {
        /// What was typed.
        typed: String,
        /// The part of it that was taken for a unit.
        unit: String,
        /// The units that would be right.
        known: &'static str,
    },
}

impl fmt::Display for TypedError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str(text!("Nothing is entered: type a number, such as 12.5.")),
            Self::NotANumber { typed } => f.write_str(&say!("“{typed}” is not a number: type digits with at most one point or comma, such as 12.5.", typed)),
            Self::TwoSeparators { typed } => f.write_str(&say!("“{typed}” has two separators: type one point or comma for the decimals and none for the thousands.", typed)),
            Self::OddSpace { typed } => f.write_str(&say!("“{typed}” has a space inside the number: type the digits together, such as 1234.5.", typed)),
            Self::OutOfRange { typed } => f.write_str(&say!("“{typed}” is out of range: type a number up to {largest} with at most {most_places} decimals.", typed, LARGEST, MOST_PLACES)),
            Self::Negative { typed } => {
                f.write_str(&say!("“{typed}” is below zero: type zero or more.", typed))
            }
            Self::UnknownUnit { typed, unit, known } => f.write_str(&say!("“{typed}”: “{unit}” is not a unit known here; leave it out or use {known}.", typed, unit, known)),
        }
    }
}

impl core::error::Error for TypedError {}

/// A plain number that is zero or more, with nothing before or behind it.
///
/// # Errors
/// [`TypedError`] says what was typed and what would be right.
pub fn number(text: &str) -> Result<Decimal, TypedError> {
    let split = Split::of(text)?;
    split.no_currency()?;
    split.unit_or(text!("no unit"), |_| None, || ())?;
    Ok(split.number)
}

/// A mass: `195`, `195 kg`, `430 lb`. Without a unit the text is read in
/// `assumed`; the unit it was read in comes back with it.
///
/// # Errors
/// [`TypedError`] says what was typed and what would be right.
pub fn mass(text: &str, assumed: MassUnit) -> Result<(Mass, MassUnit), TypedError> {
    let split = Split::of(text)?;
    split.no_currency()?;
    let unit = split.unit_or(text!("kg, lb or g"), MassUnit::from_symbol, || assumed)?;
    Ok((Mass::from_unit(split.number, unit), unit))
}

/// A price per mass: `8.40`, `$8.40/kg`, `3,81 $/lb`. Without a unit the text
/// is read in `assumed`; the unit it was read in comes back with it.
///
/// # Errors
/// [`TypedError`] says what was typed and what would be right.
pub fn unit_price(text: &str, assumed: PriceUnit) -> Result<(UnitPrice, PriceUnit), TypedError> {
    let split = Split::of(text)?;
    let unit = split.unit_or(
        text!("/kg, /lb or /100 g"),
        |symbol| {
            let behind = symbol
                .strip_prefix('/')
                .or_else(|| symbol.strip_prefix("per "))
                .or_else(|| symbol.strip_prefix("a "))
                .unwrap_or(symbol);
            PriceUnit::from_symbol(behind.trim())
        },
        || assumed,
    )?;
    Ok((UnitPrice::from_unit(split.number, unit), unit))
}

/// An amount of money: `250`, `$250`, `250,50 €`.
///
/// # Errors
/// [`TypedError`] says what was typed and what would be right.
pub fn money(text: &str) -> Result<Money, TypedError> {
    let split = Split::of(text)?;
    split.unit_or(text!("a currency sign"), |_| None, || ())?;
    Ok(Money::from_units(split.number))
}

/// A percentage: `30`, `30 %`.
///
/// # Errors
/// [`TypedError`] says what was typed and what would be right.
pub fn percent(text: &str) -> Result<Share, TypedError> {
    let split = Split::of(text)?;
    split.no_currency()?;
    split.unit_or("%", |symbol| (symbol == "%").then_some(()), || ())?;
    Ok(Share::from_percent(split.number))
}

/// Working time: `150`, `150 min`, `2.5 h`.
///
/// # Errors
/// [`TypedError`] says what was typed and what would be right.
pub fn minutes(text: &str) -> Result<Minutes, TypedError> {
    let split = Split::of(text)?;
    split.no_currency()?;
    let make: fn(Decimal) -> Minutes = split.unit_or(
        text!("min or h"),
        |symbol| match symbol {
            "min" | "mins" | "m" | "minutes" | "'" => Some(Minutes::from_minutes as fn(_) -> _),
            "h" | "hr" | "hrs" | "hour" | "hours" => Some(Minutes::from_hours as fn(_) -> _),
            _ => None,
        },
        || Minutes::from_minutes as fn(_) -> _,
    )?;
    Ok(make(split.number))
}

/// A labour rate: `32`, `$32/h`.
///
/// # Errors
/// [`TypedError`] says what was typed and what would be right.
pub fn labour_rate(text: &str) -> Result<LabourRate, TypedError> {
    let split = Split::of(text)?;
    split.unit_or(
        "/h",
        |symbol| {
            matches!(
                symbol,
                "/h" | "/hr" | "/hour" | "per hour" | "an hour" | "h" | "hr"
            )
            .then_some(())
        },
        || (),
    )?;
    Ok(LabourRate::from_per_hour(split.number))
}

/// Typed text taken apart: the number, whether a currency sign stood by it,
/// and what is left, in lower case.
struct Split {
    typed: String,
    number: Decimal,
    has_currency: bool,
    unit: String,
}

impl Split {
    fn of(text: &str) -> Result<Self, TypedError> {
        let text = text.trim();
        if text.is_empty() {
            return Err(TypedError::Empty);
        }
        if text.chars().nth(LONGEST_TEXT).is_some() {
            let mut typed: String = text.chars().take(LONGEST_TEXT / 2).collect();
            typed.push('…');
            return Err(TypedError::NotANumber { typed });
        }
        let typed = text.to_owned();

        let (rest, currency_before) = strip_currency(text);
        let rest = rest.trim_start();
        let (rest, negative) = match rest.strip_prefix(['-', '−', '–']) {
            Some(rest) => (rest.trim_start(), true),
            None => (rest.strip_prefix('+').unwrap_or(rest), false),
        };
        let (rest, currency_inside) = strip_currency(rest);
        let (digits, rest) = scan(rest.trim_start(), &typed)?;

        let (rest, currency_behind) = strip_currency(rest.trim_start());
        // Units are ASCII; full case folding would bring its tables along.
        let unit = rest.trim().to_ascii_lowercase();
        // `1e30` is a number to a machine and a slip to a person.
        if unit.starts_with('e') && unit[1..].starts_with(|c: char| c.is_ascii_digit() || c == '+')
        {
            return Err(TypedError::NotANumber { typed });
        }
        let places = digits.split('.').nth(1).map_or(0, str::len);
        let number = if digits.len() > 28 {
            None
        } else {
            Decimal::from_str_exact(&digits).ok()
        };
        let number = match number {
            Some(number) if number <= LARGEST && places <= MOST_PLACES as usize => number,
            _ => return Err(TypedError::OutOfRange { typed }),
        };
        if negative && !number.is_zero() {
            return Err(TypedError::Negative { typed });
        }
        Ok(Self {
            typed,
            number,
            has_currency: currency_before || currency_inside || currency_behind,
            unit,
        })
    }

    fn no_currency(&self) -> Result<(), TypedError> {
        if self.has_currency {
            return Err(TypedError::NotANumber {
                typed: self.typed.clone(),
            });
        }
        Ok(())
    }

    /// What `read` makes of the unit, or `missing()` where none was typed.
    fn unit_or<T>(
        &self,
        known: &'static str,
        read: impl Fn(&str) -> Option<T>,
        missing: impl Fn() -> T,
    ) -> Result<T, TypedError> {
        if self.unit.is_empty() {
            return Ok(missing());
        }
        read(&self.unit).ok_or_else(|| TypedError::UnknownUnit {
            typed: self.typed.clone(),
            unit: self.unit.clone(),
            known,
        })
    }
}

/// The text behind a leading currency sign or code, and whether there was one.
fn strip_currency(text: &str) -> (&str, bool) {
    for sign in [
        "CA$", "US$", "C$", "A$", "NZ$", "$", "€", "£", "CAD", "USD", "EUR", "GBP",
    ] {
        if let Some(rest) = text.strip_prefix(sign) {
            return (rest, true);
        }
    }
    (text, false)
}

/// Reads digits with one separator from the start of `text`: the number with
/// a point for its separator, and the text behind it.
fn scan<'text>(text: &'text str, typed: &str) -> Result<(String, &'text str), TypedError> {
    let mut digits = String::new();
    let mut separator_seen = false;
    let mut group: Option<usize> = None;
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let behind = &rest[c.len_utf8()..];
        match c {
            '0'..='9' => {
                digits.push(c);
                group = group.map(|length| length + 1);
            }
            '.' | ',' => {
                if separator_seen {
                    return Err(TypedError::TwoSeparators {
                        typed: typed.to_owned(),
                    });
                }
                close_group(group.take(), typed)?;
                separator_seen = true;
                digits.push('.');
            }
            space if space.is_whitespace() => {
                if !behind.starts_with(|c: char| c.is_ascii_digit()) {
                    break;
                }
                if separator_seen || digits.is_empty() {
                    return Err(TypedError::OddSpace {
                        typed: typed.to_owned(),
                    });
                }
                close_group(group, typed)?;
                group = Some(0);
            }
            _ => break,
        }
        rest = behind;
    }
    close_group(group, typed)?;

    if !digits.contains(|c: char| c.is_ascii_digit()) {
        return Err(TypedError::NotANumber {
            typed: typed.to_owned(),
        });
    }
    // `.5` and `5.` are read as people mean them.
    if digits.starts_with('.') {
        digits.insert(0, '0');
    }
    if digits.ends_with('.') {
        digits.pop();
    }
    Ok((digits, rest))
}

/// A group of digits behind a space is a group of three.
fn close_group(length: Option<usize>, typed: &str) -> Result<(), TypedError> {
    match length {
        None | Some(3) => Ok(()),
        Some(_) => Err(TypedError::OddSpace {
            typed: typed.to_owned(),
        }),
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[track_caller]
    fn reads(text: &str, expected: &str) {
        assert_eq!(number(text), Ok(expected.parse().unwrap()), "{text:?}");
    }

    #[test]
    fn numbers_as_people_type_them() {
        reads("195", "195");
        reads(" 195,5 ", "195.5");
        reads("195.50", "195.5");
        reads("1 234,5", "1234.5");
        reads("1\u{202f}234\u{a0}567", "1234567");
        reads(".5", "0.5");
        reads("5.", "5");
        reads("+5", "5");
        reads("-0", "0");
    }

    #[test]
    fn what_cannot_be_read_is_refused_by_name() {
        let typed = |text: &str| text.to_owned();
        assert_eq!(number("  "), Err(TypedError::Empty));
        for text in ["abc", ".", "1e30", "1E+5", "kg", "$5", "٣"] {
            assert_eq!(
                number(text),
                Err(TypedError::NotANumber { typed: typed(text) }),
                "{text:?}"
            );
        }
        for text in ["1,234.5", "1.2.3", "1,,2", "1..2"] {
            assert_eq!(
                number(text),
                Err(TypedError::TwoSeparators { typed: typed(text) })
            );
        }
        for text in ["12 5", "1 2345", "1,5 5", "1234 56.7"] {
            assert_eq!(
                number(text),
                Err(TypedError::OddSpace { typed: typed(text) })
            );
        }
        for text in [
            "1000000000000000000000000000000",
            "1000000001",
            "0.0000000001",
        ] {
            assert_eq!(
                number(text),
                Err(TypedError::OutOfRange { typed: typed(text) })
            );
        }
        assert_eq!(
            number("-5"),
            Err(TypedError::Negative { typed: typed("-5") })
        );
        assert!(number("5 kg").unwrap_err().to_string().contains("“kg”"));
    }

    #[test]
    fn a_typed_unit_wins_over_the_assumed_one() {
        let pounds = Mass::from_lb(Decimal::from(430));
        assert_eq!(
            mass("430 LB", MassUnit::Kilogram),
            Ok((pounds, MassUnit::Pound))
        );
        assert_eq!(mass("430", MassUnit::Pound), Ok((pounds, MassUnit::Pound)));
        let price = UnitPrice::from_per_lb("3.81".parse().unwrap());
        for text in [
            "$3.81/lb",
            "3,81 $/lb",
            "CA$3.81 per lb",
            "3.81 / lb",
            "3.81 lb",
        ] {
            assert_eq!(
                unit_price(text, PriceUnit::PerKilogram),
                Ok((price, PriceUnit::PerPound)),
                "{text:?}"
            );
        }
        assert!(mass("12 stone", MassUnit::Kilogram).is_err());
        assert!(mass("$12", MassUnit::Kilogram).is_err());
    }

    #[test]
    fn money_percent_minutes_and_rates() {
        assert_eq!(money("$1 250,50"), Ok(Money::from_cents(125_050)));
        assert_eq!(money("12 €"), Ok(Money::from_cents(1200)));
        assert_eq!(percent("30 %"), Ok(Share::from_percent(Decimal::from(30))));
        assert_eq!(minutes("2.5 h"), minutes("150"));
        assert_eq!(
            labour_rate("$32/h"),
            Ok(LabourRate::from_per_hour(Decimal::from(32)))
        );
    }

    proptest! {
        #[test]
        fn no_text_panics_any_reader(text in ".{0,80}", kg in any::<bool>()) {
            let unit = if kg { MassUnit::Kilogram } else { MassUnit::Pound };
            let _ = mass(&text, unit);
            let _ = unit_price(&text, PriceUnit::PerPound);
            let _ = money(&text);
            let _ = percent(&text);
            let _ = minutes(&text);
            let _ = labour_rate(&text);
            if let Ok(number) = number(&text) {
                prop_assert!(number >= Decimal::ZERO && number <= LARGEST);
            }
        }

        #[test]
        fn likely_text_never_panics(text in "[-+$€0-9., eE/kglb%\u{a0}]{0,20}") {
            let _ = mass(&text, MassUnit::Pound);
            let _ = unit_price(&text, PriceUnit::PerKilogram);
            let _ = minutes(&text);
        }

        #[test]
        fn comma_and_point_are_one(units in 0_u32..1_000_000, cents in 0_u32..100) {
            prop_assert_eq!(
                number(&format!("{units}.{cents:02}")),
                number(&format!("{units},{cents:02}"))
            );
        }
    }
}
