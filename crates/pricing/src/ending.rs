//! Price endings: which cents a price on a card may end on, and how a price is
//! taken to one of them.
//!
//! 9 is the commonest last digit of shop prices (Levy et al., *Review of
//! Economics and Statistics* 93(4), 2011). Whether an ending is wise is the
//! shop's to say; here it is only kept.

use core::fmt;
use wording::{say, text};

use quantity::{Decimal, PriceUnit, Rounding, UnitPrice};

/// The cents that a price may end on: at least one of 0 to 99.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Endings(u128);

/// Why a list of endings is refused.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EndingsError {
    /// The list is empty.
    Empty,
    /// An entry is not two digits.
    NotTwoDigits {
        /// What was typed.
        typed: String,
    },
}

impl fmt::Display for EndingsError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str(text!(
                "No ending is entered: type the cents in two digits, such as 49, 99."
            )),
            Self::NotTwoDigits { typed } => f.write_str(&say!(
                "“{typed}” is not an ending: type the cents in two digits, such as 49, 99.",
                typed
            )),
        }
    }
}

impl core::error::Error for EndingsError {}

/// How many cents there are to end on.
const CENTS: u8 = 100;

impl Endings {
    /// Every cent: no ending is asked for.
    pub const EVERY_CENT: Self = Self((1 << CENTS) - 1);
    /// `.99`
    pub const NINETY_NINE: Self = Self(1 << 99);
    /// `.95`
    pub const NINETY_FIVE: Self = Self(1 << 95);
    /// `.49`
    pub const FORTY_NINE: Self = Self(1 << 49);

    /// Endings typed as two-digit cents: `49, 99`, `.49 .99`.
    ///
    /// # Errors
    /// [`EndingsError`] says what was typed and what would be right.
    pub fn typed(text: &str) -> Result<Self, EndingsError> {
        let mut endings = 0_u128;
        for entry in text
            .split(|c: char| c.is_whitespace() || c == ',' || c == ';')
            .filter(|entry| !entry.is_empty())
        {
            let digits = entry.strip_prefix('.').unwrap_or(entry);
            let is_two_digits = digits.len() == 2 && digits.bytes().all(|b| b.is_ascii_digit());
            let cents: u8 = match digits.parse() {
                Ok(cents) if is_two_digits => cents,
                _ => {
                    return Err(EndingsError::NotTwoDigits {
                        typed: entry.chars().take(CENTS.into()).collect(),
                    });
                }
            };
            endings |= 1 << cents;
        }
        if endings == 0 {
            return Err(EndingsError::Empty);
        }
        Ok(Self(endings))
    }

    /// The cents, lowest first.
    pub fn cents(self) -> impl Iterator<Item = u8> {
        (0..CENTS).filter(move |cents| self.0 & (1 << cents) != 0)
    }

    /// The largest number with an allowed ending that is `number` or less and
    /// above nothing.
    fn at_or_below(self, number: Decimal) -> Option<Decimal> {
        let cents = whole_cents(number, Rounding::Down)?;
        let up_to_here = self.0 & ((2 << cents.over) - 1);
        let (units, ending) = if up_to_here == 0 {
            (cents.units.checked_sub(Decimal::ONE)?, self.0)
        } else {
            (cents.units, up_to_here)
        };
        joined(units, u128::BITS - 1 - ending.leading_zeros())
            .filter(|below| *below > Decimal::ZERO)
    }

    /// The smallest number with an allowed ending that is `number` or more and
    /// above nothing; `None` past the range of a decimal.
    fn at_or_above(self, number: Decimal) -> Option<Decimal> {
        let cents = whole_cents(number.max(Decimal::new(1, 2)), Rounding::Up)?;
        let from_here = self.0 & !((1 << cents.over) - 1);
        let (units, ending) = if from_here == 0 {
            (cents.units.checked_add(Decimal::ONE)?, self.0)
        } else {
            (cents.units, from_here)
        };
        joined(units, ending.trailing_zeros())
    }
}

impl Default for Endings {
    fn default() -> Self {
        Self::EVERY_CENT
    }
}

/// As [`Endings::typed`] reads it: `.49 .99`.
impl fmt::Display for Endings {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, cents) in self.cents().enumerate() {
            let gap = if index == 0 { "" } else { " " };
            write!(f, "{gap}.{cents:02}")?;
        }
        Ok(())
    }
}

impl fmt::Debug for Endings {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{self}")
    }
}

/// A number as whole units and cents.
struct WholeCents {
    units: Decimal,
    over: u32,
}

/// Decimal places at which a price is compared with an allowed one. A price
/// that was computed to be 9.99 can be off in its last of 28 digits and must
/// not jump to 10.99 for it. A price typed with up to nine decimals in any
/// unit lies on an allowed one or more than 10⁻¹⁷ from it, so no typed bound
/// is ever crossed.
const PRICE_PLACES: u32 = 20;

/// `number` cut to the cent; `None` below zero or past the range of a decimal.
fn whole_cents(number: Decimal, rounding: Rounding) -> Option<WholeCents> {
    let number = Rounding::HalfEven.to_places(number, PRICE_PLACES);
    let number = rounding.to_cent(number);
    let over = number.fract().checked_mul(Decimal::ONE_HUNDRED)?;
    Some(WholeCents {
        units: number.trunc(),
        over: u32::try_from(over).ok()?,
    })
}

fn joined(units: Decimal, cents: u32) -> Option<Decimal> {
    units.checked_add(Decimal::new(cents.into(), 2))
}

/// Which neighbour a price is taken to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum RoundTo {
    /// The one at or above it.
    #[default]
    Up,
    /// The nearer one, the upper of two that are as near.
    Nearest,
}

/// How prices are rounded for the card.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct PriceRounding {
    /// What a price may end on.
    pub endings: Endings,
    /// Which neighbour it is taken to.
    pub to: RoundTo,
    /// The unit in which the price ends so.
    pub unit: PriceUnit,
}

impl PriceRounding {
    /// `price` taken to a price with an allowed ending. Nothing stays nothing,
    /// and a price above nothing never becomes nothing.
    pub fn round(&self, price: UnitPrice) -> UnitPrice {
        let Some(above) = self.at_or_above(price) else {
            return price;
        };
        match self.to {
            RoundTo::Up => above,
            RoundTo::Nearest => self
                .at_or_below(price)
                .filter(|below| price - *below < above - price)
                .unwrap_or(above),
        }
    }

    /// The highest allowed price that is `price` or less and above nothing.
    pub fn at_or_below(&self, price: UnitPrice) -> Option<UnitPrice> {
        self.endings
            .at_or_below(price.in_unit(self.unit))
            .map(|number| UnitPrice::from_unit(number, self.unit))
    }

    /// The lowest allowed price that is `price` or more; `None` for a price
    /// that is not above nothing or that no allowed one reaches.
    pub fn at_or_above(&self, price: UnitPrice) -> Option<UnitPrice> {
        if !price.is_positive() {
            return None;
        }
        self.endings
            .at_or_above(price.in_unit(self.unit))
            .map(|number| UnitPrice::from_unit(number, self.unit))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::any_lines::any_typed_price;

    fn rounding(endings: Endings, to: RoundTo, unit: PriceUnit) -> PriceRounding {
        PriceRounding { endings, to, unit }
    }

    #[test]
    fn prices_go_to_the_endings_of_the_card() {
        let pair = Endings::typed("49, 99").expect("endings");
        let nine = Endings::typed("09 19 29 39 49 59 69 79 89 99").expect("endings");
        for (endings, price, up, nearest) in [
            (Endings::NINETY_NINE, "12.50", "12.99", "12.99"),
            (Endings::NINETY_NINE, "12.48", "12.99", "11.99"),
            // Half way goes up.
            (Endings::NINETY_NINE, "12.49", "12.99", "12.99"),
            (Endings::NINETY_NINE, "12.99", "12.99", "12.99"),
            (Endings::NINETY_NINE, "12.991", "13.99", "12.99"),
            (Endings::NINETY_FIVE, "13", "13.95", "12.95"),
            (Endings::FORTY_NINE, "12.50", "13.49", "12.49"),
            (pair, "12.20", "12.49", "11.99"),
            (pair, "12.30", "12.49", "12.49"),
            (pair, "13.10", "13.49", "12.99"),
            (nine, "12.34", "12.39", "12.39"),
            (nine, "12.32", "12.39", "12.29"),
            (Endings::EVERY_CENT, "12.341", "12.35", "12.34"),
            (Endings::EVERY_CENT, "12.345", "12.35", "12.35"),
            // Above nothing never becomes nothing.
            (Endings::NINETY_NINE, "0.01", "0.99", "0.99"),
            (Endings::EVERY_CENT, "0.0000001", "0.01", "0.01"),
            (Endings::typed("00").expect("endings"), "0.20", "1", "1"),
            (
                Endings::EVERY_CENT,
                "0.0000000000000000000000001",
                "0.01",
                "0.01",
            ),
            (Endings::NINETY_NINE, "0", "0", "0"),
            (Endings::NINETY_NINE, "-3.20", "-3.20", "-3.20"),
        ] {
            for unit in [
                PriceUnit::PerKilogram,
                PriceUnit::Per100Gram,
                PriceUnit::PerPound,
            ] {
                let in_unit =
                    |text: &str| UnitPrice::from_unit(text.parse().expect("a number"), unit);
                for (to, expected) in [(RoundTo::Up, up), (RoundTo::Nearest, nearest)] {
                    assert_eq!(
                        rounding(endings, to, unit).round(in_unit(price)),
                        in_unit(expected),
                        "{price} {endings} {to:?} {unit:?}"
                    );
                }
            }
        }
    }

    #[test]
    fn a_last_digit_lost_in_division_moves_no_price() {
        let hair = UnitPrice::from_per_lb(Decimal::new(1, 27));
        let price = UnitPrice::from_per_lb(Decimal::new(999, 2));
        let up = rounding(Endings::NINETY_NINE, RoundTo::Up, PriceUnit::PerPound);
        assert_eq!(up.round(price + hair), price);
        assert_eq!(up.round(price - hair), price);
        assert_eq!(up.at_or_below(price - hair), Some(price));
    }

    #[test]
    fn endings_are_read_as_typed_and_written_back() {
        for (text, shown) in [
            ("99", ".99"),
            (".99 .49", ".49 .99"),
            ("95;09, 95", ".09 .95"),
            ("00", ".00"),
        ] {
            let endings = Endings::typed(text).expect(text);
            assert_eq!(endings.to_string(), shown);
            assert_eq!(format!("{endings:?}"), shown);
            assert_eq!(Endings::typed(shown), Ok(endings));
        }
        assert_eq!(
            Endings::typed("49 99")
                .expect("two")
                .cents()
                .collect::<Vec<_>>(),
            [49, 99]
        );
        let all = Endings::EVERY_CENT.to_string();
        assert_eq!(Endings::typed(&all), Ok(Endings::EVERY_CENT));
        assert_eq!(Endings::default(), Endings::EVERY_CENT);
        for text in ["", " ", ",", " ; "] {
            assert_eq!(Endings::typed(text), Err(EndingsError::Empty));
        }
        for text in ["9", "100", "0.99", "..99", "ab", "+9", "9.", "९९"] {
            let error = Endings::typed(text).expect_err(text);
            assert_eq!(
                error,
                EndingsError::NotTwoDigits {
                    typed: text.to_owned()
                }
            );
            assert!(error.to_string().contains(text));
        }
    }

    fn any_endings() -> impl Strategy<Value = Endings> {
        prop_oneof![
            Just(Endings::EVERY_CENT),
            Just(Endings::NINETY_NINE),
            prop::collection::vec(0_u8..100, 1..5).prop_map(|cents| {
                let text: Vec<String> = cents.iter().map(|cents| format!("{cents:02}")).collect();
                Endings::typed(&text.join(",")).expect("two digits")
            }),
        ]
    }

    fn any_unit() -> impl Strategy<Value = PriceUnit> {
        prop::sample::select(vec![
            PriceUnit::PerKilogram,
            PriceUnit::Per100Gram,
            PriceUnit::PerPound,
        ])
    }

    proptest! {
        #[test]
        fn neighbours_are_the_nearest_allowed_prices(
            endings in any_endings(),
            unit in any_unit(),
            price in any_typed_price(),
        ) {
            prop_assume!(price.is_positive());
            let rounding = rounding(endings, RoundTo::Up, unit);
            // Every price with an allowed ending, the plain way.
            let allowed = |units: i64| endings.cents().map(move |cents| {
                UnitPrice::from_unit(Decimal::new(units * 100 + i64::from(cents), 2), unit)
            });
            let whole = i64::try_from(price.in_unit(unit).trunc()).expect("a small number");
            let near: Vec<UnitPrice> = (whole - 1..=whole + 2)
                .filter(|units| *units >= 0)
                .flat_map(allowed)
                .filter(|allowed| allowed.is_positive())
                .collect();
            let below = near.iter().copied().filter(|allowed| *allowed <= price).max();
            let above = near.iter().copied().filter(|allowed| *allowed >= price).min();
            prop_assert_eq!(rounding.at_or_below(price), below);
            prop_assert_eq!(rounding.at_or_above(price), above);
            prop_assert_eq!(Some(rounding.round(price)), above);
        }

        #[test]
        fn rounding_twice_changes_nothing(
            endings in any_endings(),
            unit in any_unit(),
            price in any_typed_price(),
            nearest in any::<bool>(),
        ) {
            let to = if nearest { RoundTo::Nearest } else { RoundTo::Up };
            let rounding = rounding(endings, to, unit);
            let once = rounding.round(price);
            prop_assert_eq!(rounding.round(once), once);
            prop_assert_eq!(once.is_zero(), price.is_zero());
        }

        #[test]
        fn the_ends_of_the_range_do_not_panic(
            endings in any_endings(),
            unit in any_unit(),
            digits in any::<i64>(),
            places in 0_u32..29,
        ) {
            for number in [Decimal::new(digits, places), Decimal::MAX, Decimal::MIN] {
                let price = UnitPrice::from_per_lb(number);
                let rounding = rounding(endings, RoundTo::Nearest, unit);
                let _ = (rounding.round(price), rounding.at_or_below(price));
            }
        }

        #[test]
        fn no_list_panics(text in "[0-9., ;]{0,12}|.{0,12}") {
            if let Ok(endings) = Endings::typed(&text) {
                prop_assert!(endings.cents().count() > 0);
            }
        }
    }
}
