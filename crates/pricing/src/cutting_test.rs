//! The cutting test of one bought-in piece (the handbooks' *yield test*).
//!
//! value of the usable part = cost − value of the other parts; cost per usable
//! weight = that ÷ usable weight; cost factor = cost per usable weight ÷ price
//! paid per weight (Dittmer & Keefe, *Principles of Food, Beverage and Labor
//! Cost Controls*, ch. 6). While trim and bone keep their relation to the
//! price, the factor turns any new price into the new cost per usable weight.

use quantity::{Decimal, Mass, Money, UnitPrice};

/// What one piece cost and what it gave.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CuttingTest {
    /// Paid for the piece.
    pub cost: Money,
    /// Price paid per weight.
    pub price: UnitPrice,
    /// What trim, bone and fat are worth together.
    pub other_parts: Money,
    /// Weight that can be sold or served.
    pub usable: Mass,
}

impl CuttingTest {
    /// What the usable weight must carry.
    pub fn usable_value(&self) -> Money {
        self.cost - self.other_parts
    }

    /// Cost per usable weight; `None` when nothing is usable.
    pub fn cost_per_usable(&self) -> Option<UnitPrice> {
        self.usable_value().per(self.usable)
    }

    /// Cost per usable weight over the price paid; `None` when nothing is
    /// usable or nothing was paid.
    pub fn cost_factor(&self) -> Option<Decimal> {
        self.cost_per_usable()?
            .ratio_to(self.price)
            .map(quantity::Share::fraction)
    }

    /// Cost per usable weight at a new `price`, by the cost factor.
    pub fn repriced(&self, price: UnitPrice) -> Option<UnitPrice> {
        Some(price.times(self.cost_factor()?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_usable_has_no_cost_per_weight() {
        let test = CuttingTest {
            cost: Money::from_cents(100),
            price: UnitPrice::from_per_kg(Decimal::ONE),
            other_parts: Money::ZERO,
            usable: Mass::ZERO,
        };
        assert_eq!(test.cost_per_usable(), None);
        assert_eq!(test.repriced(test.price), None);
    }
}
