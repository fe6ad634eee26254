//! What the packs cost.

use quantity::{Mass, Money, UnitPrice};

/// How packaging is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Packaging {
    /// For each weight of cuts.
    PerWeight(UnitPrice),
    /// For each pack of a usual weight; part packs count by their weight.
    PerPack {
        /// Cost of one pack.
        cost: Money,
        /// Weight that goes into it.
        holds: Mass,
    },
}

impl Packaging {
    /// What the packs for `weight` cost; nothing where a pack holds nothing.
    pub fn cost_of(self, weight: Mass) -> Money {
        match self {
            Self::PerWeight(price) => price * weight,
            Self::PerPack { cost, holds } => weight
                .ratio_to(holds)
                .map_or(Money::ZERO, |packs| cost * packs),
        }
    }
}

#[cfg(test)]
mod tests {
    use quantity::Decimal;

    use super::*;

    #[test]
    fn packs_and_weight_agree() {
        let weight = Mass::from_kg(Decimal::from(12));
        let pack = Packaging::PerPack {
            cost: Money::from_cents(30),
            holds: Mass::from_kg(Decimal::new(75, 2)),
        };
        let by_weight = Packaging::PerWeight(UnitPrice::from_per_kg(Decimal::new(4, 1)));
        assert_eq!(pack.cost_of(weight), Money::from_cents(480));
        assert_eq!(by_weight.cost_of(weight), Money::from_cents(480));
        let holds = Mass::ZERO;
        let cost = Money::from_cents(30);
        assert_eq!(
            Packaging::PerPack { cost, holds }.cost_of(weight),
            Money::ZERO
        );
    }
}
