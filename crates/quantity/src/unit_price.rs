//! Money per mass, kept per pound.
//!
//! Per pound and not per kilogram because only that direction is finite:
//! `$/lb = $/kg × 0.45359237` ends after eight more digits, while its inverse
//! never ends. A price given in either unit is thus held exactly, and read
//! back in the unit it was given in without a change.

use core::fmt;
use core::ops::Mul;

use rust_decimal::Decimal;

use crate::arithmetic::{product, quotient};
use crate::linear::linear;
use crate::mass::KG_PER_LB;
use crate::{Mass, Money};

/// A price, cost or charge per mass.
#[derive(Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct UnitPrice(Decimal);

linear!(UnitPrice);

impl UnitPrice {
    /// Money per pound.
    pub const fn from_per_lb(amount: Decimal) -> Self {
        Self(amount)
    }

    /// Money per kilogram.
    pub fn from_per_kg(amount: Decimal) -> Self {
        Self(product(amount, KG_PER_LB))
    }

    /// Money per 100 g.
    pub fn from_per_100g(amount: Decimal) -> Self {
        Self::from_per_kg(product(amount, Decimal::TEN))
    }

    /// Money given per `unit`.
    pub fn from_unit(amount: Decimal, unit: PriceUnit) -> Self {
        match unit {
            PriceUnit::PerKilogram => Self::from_per_kg(amount),
            PriceUnit::PerPound => Self::from_per_lb(amount),
            PriceUnit::Per100Gram => Self::from_per_100g(amount),
        }
    }

    /// The price at which `mass` costs `money`; `None` when `mass` is zero.
    pub fn from_ratio(money: Money, mass: Mass) -> Option<Self> {
        // Money × (kg/lb) first: the product ends, the quotient may not.
        quotient(product(money.units(), KG_PER_LB), mass.kg()).map(Self)
    }

    /// Money per pound.
    pub const fn per_lb(self) -> Decimal {
        self.0
    }

    /// Money per kilogram.
    pub fn per_kg(self) -> Decimal {
        quotient(self.0, KG_PER_LB).unwrap_or(Decimal::MAX)
    }

    /// Money per 100 g.
    pub fn per_100g(self) -> Decimal {
        quotient(self.per_kg(), Decimal::TEN).unwrap_or(Decimal::MAX)
    }

    /// The number that stands before `unit`.
    pub fn in_unit(self, unit: PriceUnit) -> Decimal {
        match unit {
            PriceUnit::PerKilogram => self.per_kg(),
            PriceUnit::PerPound => self.per_lb(),
            PriceUnit::Per100Gram => self.per_100g(),
        }
    }
}

impl Mul<Mass> for UnitPrice {
    type Output = Money;

    fn mul(self, mass: Mass) -> Money {
        let kg_times_price = product(self.0, mass.kg());
        Money::from_units(quotient(kg_times_price, KG_PER_LB).unwrap_or(Decimal::MAX))
    }
}

impl Mul<UnitPrice> for Mass {
    type Output = Money;

    fn mul(self, price: UnitPrice) -> Money {
        price * self
    }
}

impl fmt::Debug for UnitPrice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "${}/kg", self.per_kg().normalize())
    }
}

/// A unit that a price per mass is typed or shown in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum PriceUnit {
    /// Per kilogram.
    #[default]
    PerKilogram,
    /// Per pound.
    PerPound,
    /// Per 100 g.
    Per100Gram,
}

impl PriceUnit {
    /// The symbol as it is printed behind the currency: `/kg`, `/lb`,
    /// `/100 g`.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::PerKilogram => "/kg",
            Self::PerPound => "/lb",
            Self::Per100Gram => "/100 g",
        }
    }

    /// The unit for what stands behind the slash (`kg`, `lb`, `100 g`, `100g`).
    pub fn from_symbol(symbol: &str) -> Option<Self> {
        match symbol {
            "100g" | "100 g" => Some(Self::Per100Gram),
            other => match crate::MassUnit::from_symbol(other)? {
                crate::MassUnit::Kilogram => Some(Self::PerKilogram),
                crate::MassUnit::Pound => Some(Self::PerPound),
                crate::MassUnit::Gram | crate::MassUnit::Ounce => None,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::Rounding;

    #[test]
    fn equivalents_are_those_of_the_regulator() {
        // Measurement Canada guidance: $10/kg = $4.54/lb, $1.26/kg = $0.57/lb.
        for (per_kg, per_lb) in [("10", "4.54"), ("1.26", "0.57")] {
            let price = UnitPrice::from_per_kg(per_kg.parse().unwrap());
            assert_eq!(
                Rounding::HalfEven.to_cent(price.per_lb()),
                per_lb.parse::<Decimal>().unwrap()
            );
        }
    }

    #[test]
    fn no_mass_has_no_price() {
        assert_eq!(Money::from_cents(100).per(Mass::ZERO), None);
    }

    proptest! {
        #[test]
        fn every_unit_round_trips_exactly(cents in 0_i64..100_000_000, unit in 0_usize..3) {
            let unit = [
                PriceUnit::PerKilogram,
                PriceUnit::PerPound,
                PriceUnit::Per100Gram,
            ][unit];
            let amount = Decimal::new(cents, 3);
            prop_assert_eq!(UnitPrice::from_unit(amount, unit).in_unit(unit), amount);
        }

        #[test]
        fn like_units_multiply_exactly(cents in 0_i64..10_000_000, tenths in 0_i64..1_000_000) {
            let product = Decimal::new(cents, 2) * Decimal::new(tenths, 1);
            let pounds = UnitPrice::from_per_lb(Decimal::new(cents, 2))
                * Mass::from_lb(Decimal::new(tenths, 1));
            let kilos = UnitPrice::from_per_kg(Decimal::new(cents, 2))
                * Mass::from_kg(Decimal::new(tenths, 1));
            prop_assert_eq!(pounds.units(), product);
            prop_assert_eq!(kilos.units(), product);
        }
    }
}
