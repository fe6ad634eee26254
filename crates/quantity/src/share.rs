//! A share of a whole: a yield, a margin, a loss.

use core::fmt;
use core::ops::{Add, Mul, Sub};

use rust_decimal::Decimal;

use crate::arithmetic::{difference, product, quotient, sum};

/// A share, held as a fraction (`0.25`) and read as such or in percent (`25`).
/// A margin can be negative and a markup above one, so the range is open.
#[derive(Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Share(Decimal);

impl Share {
    /// Nothing of it.
    pub const ZERO: Self = Self(Decimal::ZERO);
    /// All of it.
    pub const WHOLE: Self = Self(Decimal::ONE);

    /// A share given as a fraction of one.
    pub const fn from_fraction(fraction: Decimal) -> Self {
        Self(fraction)
    }

    /// A share given in percent.
    pub fn from_percent(percent: Decimal) -> Self {
        Self(quotient(percent, Decimal::ONE_HUNDRED).unwrap_or(Decimal::MAX))
    }

    /// The fraction of one.
    pub const fn fraction(self) -> Decimal {
        self.0
    }

    /// The percentage.
    pub fn percent(self) -> Decimal {
        product(self.0, Decimal::ONE_HUNDRED)
    }

    /// What is left of the whole.
    #[must_use]
    pub fn complement(self) -> Self {
        Self(difference(Decimal::ONE, self.0))
    }

    /// Whether the share lies in `0 ..= 1`.
    pub fn is_part_of_whole(self) -> bool {
        self.0 >= Decimal::ZERO && self.0 <= Decimal::ONE
    }

    /// This margin on sales as a markup on cost, `k = m ⁄ (1 − m)`; `None` at
    /// a margin of one, which no markup reaches.
    pub fn margin_to_markup(self) -> Option<Self> {
        quotient(self.0, self.complement().0).map(Self)
    }
}

impl Add for Share {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(sum(self.0, other.0))
    }
}

impl Sub for Share {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(difference(self.0, other.0))
    }
}

impl Mul for Share {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self(product(self.0, other.0))
    }
}

impl core::iter::Sum for Share {
    fn sum<I: Iterator<Item = Self>>(shares: I) -> Self {
        shares.fold(Self::ZERO, |sum, share| sum + share)
    }
}

impl fmt::Debug for Share {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} %", self.percent().normalize())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_third_of_sales_is_half_on_cost() {
        // Meat Retailing: cost 10 ¢ at 33⅓ % of the sale sells at 15 ¢.
        let third = Share::from_fraction(Decimal::ONE / Decimal::from(3));
        let markup = third.margin_to_markup().unwrap();
        assert_eq!(markup.fraction().round_dp(20), Decimal::new(5, 1));
        assert_eq!(Share::WHOLE.margin_to_markup(), None);
    }

    #[test]
    fn percent_and_complement() {
        let quarter = Share::from_percent(Decimal::from(25));
        assert_eq!(quarter.complement().percent(), Decimal::from(75));
        assert!(quarter.is_part_of_whole());
        assert!(!(quarter - Share::WHOLE).is_part_of_whole());
    }
}
