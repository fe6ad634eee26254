//! Mass, kept in kilograms.
//!
//! A pound is 0.45359237 kg exactly (Weights and Measures Act, Canada,
//! Schedule II; the same figure is the international avoirdupois pound), so a
//! weight given in pounds is held without any rounding.

use core::fmt;

use rust_decimal::Decimal;

use crate::arithmetic::{product, quotient};
use crate::linear::linear;

/// Kilograms in one pound, exactly.
pub const KG_PER_LB: Decimal = Decimal::from_parts(45_359_237, 0, 0, false, 8);

/// Kilograms in one ounce, a sixteenth of a pound, exactly: 0.028349523125.
const KG_PER_OZ: Decimal = Decimal::from_parts(2_579_719_349, 6, 0, false, 12);

/// Grams in one kilogram.
const G_PER_KG: Decimal = Decimal::ONE_THOUSAND;

/// A mass. Zero and negative masses can be held: a difference of two weights
/// is a mass as well.
#[derive(Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Mass(Decimal);

linear!(Mass);

impl Mass {
    /// A mass in kilograms.
    pub const fn from_kg(kg: Decimal) -> Self {
        Self(kg)
    }

    /// A mass in avoirdupois pounds.
    pub fn from_lb(lb: Decimal) -> Self {
        Self(product(lb, KG_PER_LB))
    }

    /// A mass in grams.
    pub fn from_g(g: Decimal) -> Self {
        Self(quotient(g, G_PER_KG).unwrap_or(Decimal::MAX))
    }

    /// A mass in avoirdupois ounces, sixteen to the pound.
    pub fn from_oz(oz: Decimal) -> Self {
        Self(product(oz, KG_PER_OZ))
    }

    /// A mass given in `unit`.
    pub fn from_unit(amount: Decimal, unit: MassUnit) -> Self {
        match unit {
            MassUnit::Kilogram => Self::from_kg(amount),
            MassUnit::Pound => Self::from_lb(amount),
            MassUnit::Gram => Self::from_g(amount),
            MassUnit::Ounce => Self::from_oz(amount),
        }
    }

    /// Kilograms.
    pub const fn kg(self) -> Decimal {
        self.0
    }

    /// Pounds: exact where the quotient ends within 28 digits, as it does for
    /// every weight that was given in pounds.
    pub fn lb(self) -> Decimal {
        quotient(self.0, KG_PER_LB).unwrap_or(Decimal::MAX)
    }

    /// Grams.
    pub fn g(self) -> Decimal {
        product(self.0, G_PER_KG)
    }

    /// Ounces: exact where the quotient ends within 28 digits.
    pub fn oz(self) -> Decimal {
        quotient(self.0, KG_PER_OZ).unwrap_or(Decimal::MAX)
    }

    /// The number that stands before `unit`.
    pub fn in_unit(self, unit: MassUnit) -> Decimal {
        match unit {
            MassUnit::Kilogram => self.kg(),
            MassUnit::Pound => self.lb(),
            MassUnit::Gram => self.g(),
            MassUnit::Ounce => self.oz(),
        }
    }
}

impl fmt::Debug for Mass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} kg", self.0.normalize())
    }
}

/// A unit that a mass is typed or shown in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum MassUnit {
    /// Kilogram.
    #[default]
    Kilogram,
    /// Avoirdupois pound.
    Pound,
    /// Gram.
    Gram,
    /// Avoirdupois ounce.
    Ounce,
}

impl MassUnit {
    /// The symbol as it is printed: `kg`, `lb`, `g`, `oz`.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Kilogram => "kg",
            Self::Pound => "lb",
            Self::Gram => "g",
            Self::Ounce => "oz",
        }
    }

    /// The unit with this symbol or one of its usual spellings.
    pub fn from_symbol(symbol: &str) -> Option<Self> {
        match symbol {
            "kg" | "kgs" | "kilo" | "kilos" => Some(Self::Kilogram),
            "lb" | "lbs" | "lb." | "lbs." | "#" | "pound" | "pounds" => Some(Self::Pound),
            "g" | "gr" | "gram" | "grams" => Some(Self::Gram),
            "oz" | "oz." | "ounce" | "ounces" => Some(Self::Ounce),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_pound_is_the_pound_of_the_act() {
        assert_eq!(
            Mass::from_lb(Decimal::ONE).kg().to_string(),
            "0.45359237",
            "Weights and Measures Act, Canada, Schedule II"
        );
        assert_eq!(
            Mass::from_oz(Decimal::from(16)),
            Mass::from_lb(Decimal::ONE),
            "the same: an ounce is 1/16 of a pound"
        );
        assert_eq!(Mass::from_lb(Decimal::ONE).oz(), Decimal::from(16));
        assert_eq!(
            Mass::from_g(Decimal::from(1500)),
            Mass::from_kg(Decimal::new(15, 1))
        );
    }

    #[test]
    fn ends_of_the_range_do_not_panic() {
        let most = Mass::from_kg(Decimal::MAX);
        assert_eq!(most + most, most);
        assert_eq!(most.times(Decimal::TWO), most);
        assert_eq!(most.lb(), Decimal::MAX);
        assert_eq!(Mass::from_kg(Decimal::ONE).ratio_to(Mass::ZERO), None);
    }

    proptest! {
        #[test]
        fn every_unit_round_trips_exactly(hundredths in 0_i64..1_000_000_000, unit in 0_usize..3) {
            let unit = [MassUnit::Kilogram, MassUnit::Pound, MassUnit::Gram, MassUnit::Ounce][unit];
            let amount = Decimal::new(hundredths, 2);
            prop_assert_eq!(Mass::from_unit(amount, unit).in_unit(unit), amount);
            prop_assert_eq!(MassUnit::from_symbol(unit.symbol()), Some(unit));
        }
    }
}
