//! Time at the bench and what an hour of it costs.

use core::fmt;
use core::ops::Mul;

use rust_decimal::Decimal;

use crate::Money;
use crate::arithmetic::{product, quotient};
use crate::linear::linear;

/// Minutes in an hour.
const MINUTES_PER_HOUR: Decimal = Decimal::from_parts(60, 0, 0, false, 0);

/// Working time in minutes.
#[derive(Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Minutes(Decimal);

linear!(Minutes);

impl Minutes {
    /// Working time in minutes.
    pub const fn from_minutes(minutes: Decimal) -> Self {
        Self(minutes)
    }

    /// Working time in hours.
    pub fn from_hours(hours: Decimal) -> Self {
        Self(product(hours, MINUTES_PER_HOUR))
    }

    /// Minutes.
    pub const fn minutes(self) -> Decimal {
        self.0
    }
}

impl fmt::Debug for Minutes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} min", self.0.normalize())
    }
}

/// What an hour of labour costs, on-costs included.
#[derive(Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LabourRate(Decimal);

linear!(LabourRate);

impl LabourRate {
    /// Money per hour.
    pub const fn from_per_hour(amount: Decimal) -> Self {
        Self(amount)
    }

    /// Money per hour.
    pub const fn per_hour(self) -> Decimal {
        self.0
    }
}

impl Mul<Minutes> for LabourRate {
    type Output = Money;

    fn mul(self, time: Minutes) -> Money {
        // Multiply first: a rate per minute would not end in most cases.
        let rate_minutes = product(self.0, time.0);
        Money::from_units(quotient(rate_minutes, MINUTES_PER_HOUR).unwrap_or(Decimal::MAX))
    }
}

impl fmt::Debug for LabourRate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "${}/h", self.0.normalize())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ninety_minutes_at_thirty_an_hour() {
        let cost =
            LabourRate::from_per_hour(Decimal::from(30)) * Minutes::from_hours(Decimal::new(15, 1));
        assert_eq!(cost, Money::from_cents(4500));
    }
}
