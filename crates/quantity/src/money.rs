//! Money, in the user's one currency, unrounded until [`crate::rounding`] is
//! asked.

use core::fmt;

use rust_decimal::Decimal;

use crate::linear::linear;
use crate::{Mass, UnitPrice};

/// An amount of money. Negative amounts are losses or charges.
#[derive(Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Money(Decimal);

linear!(Money);

impl Money {
    /// An amount in units of the currency (dollars, euros, …).
    pub const fn from_units(amount: Decimal) -> Self {
        Self(amount)
    }

    /// An amount in hundredths of the unit.
    pub fn from_cents(cents: i64) -> Self {
        Self(Decimal::new(cents, 2))
    }

    /// Units of the currency.
    pub const fn units(self) -> Decimal {
        self.0
    }

    /// The price per mass at which `mass` costs this amount; `None` when
    /// there is no mass to carry it.
    pub fn per(self, mass: Mass) -> Option<UnitPrice> {
        UnitPrice::from_ratio(self, mass)
    }
}

impl fmt::Debug for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "${}", self.0.normalize())
    }
}
