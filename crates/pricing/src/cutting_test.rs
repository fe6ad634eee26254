//! The cutting test of one bought-in piece (the handbooks' *yield test*).
//!
//! value of the usable part = cost − value of the other parts; cost per usable
//! weight = that ÷ usable weight; cost factor = cost per usable weight ÷ price
//! paid per weight (Dittmer & Keefe, *Principles of Food, Beverage and Labor
//! Cost Controls*, ch. 6). While trim and bone keep their relation to the
//! price, the factor turns any new price into the new cost per usable weight.

use quantity::{Decimal, Mass, MassUnit, Money, Share, UnitPrice};

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

    /// What a portion of this weight costs; `None` when nothing is usable.
    pub fn portion_cost(&self, portion: Mass) -> Option<Money> {
        self.cost_per_usable().map(|price| price * portion)
    }

    /// What the price paid per `unit` is multiplied by to give the cost of a
    /// portion (the handbooks' *portion cost factor*): the cost factor times the
    /// portion in that unit.
    pub fn portion_factor(&self, portion: Mass, unit: MassUnit) -> Option<Decimal> {
        self.cost_factor()?.checked_mul(portion.in_unit(unit))
    }

    /// What a portion of this weight costs at a new `price`, by the cost factor.
    pub fn repriced_portion(&self, price: UnitPrice, portion: Mass) -> Option<Money> {
        self.repriced(price).map(|price| price * portion)
    }

    /// Usable share of what was bought; `None` when nothing was.
    pub fn usable_share(&self, bought: Mass) -> Option<Share> {
        self.usable.ratio_to(bought)
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
    fn what_trim_brings_is_taken_off_before_the_usable_weight_carries_the_rest() {
        // Invented: 10 kg at 6 a kilogram, trim worth 12, 8 kg usable at 6 each.
        let per_kg = |price: i64| UnitPrice::from_per_kg(Decimal::from(price));
        let test = CuttingTest {
            cost: Money::from_cents(6000),
            price: per_kg(6),
            other_parts: Money::from_cents(1200),
            usable: Mass::from_kg(Decimal::from(8)),
        };
        assert_eq!(test.usable_value(), Money::from_cents(4800));
        assert_eq!(test.cost_per_usable(), Some(per_kg(6)));
        assert_eq!(test.cost_factor(), Some(Decimal::ONE));
        assert_eq!(test.repriced(per_kg(7)), Some(per_kg(7)));
        let untrimmed = CuttingTest {
            other_parts: Money::ZERO,
            ..test
        };
        assert_eq!(untrimmed.cost_factor(), Some(Decimal::new(125, 2)));
        assert_eq!(untrimmed.repriced(per_kg(4)), Some(per_kg(5)));
        let portion = Mass::from_g(Decimal::from(200));
        assert_eq!(
            untrimmed.portion_cost(portion),
            Some(Money::from_cents(150))
        );
        assert_eq!(
            untrimmed.portion_factor(portion, MassUnit::Kilogram),
            Some(Decimal::new(25, 2))
        );
        assert_eq!(
            untrimmed.repriced_portion(per_kg(4), portion),
            Some(Money::from_cents(100))
        );
        let bought = Mass::from_kg(Decimal::TEN);
        assert_eq!(
            untrimmed.usable_share(bought),
            Some(Share::from_percent(Decimal::from(80)))
        );
    }

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
        assert_eq!(test.portion_cost(Mass::from_kg(Decimal::ONE)), None);
    }
}
