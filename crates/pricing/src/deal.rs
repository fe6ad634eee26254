//! The side as offered.

use carcass::Stock;
use quantity::{Mass, Minutes, Money, Share, UnitPrice};

/// What the priced weight is a weight of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum WeightBasis {
    /// The chilled side as it lies on the block.
    #[default]
    Cold,
    /// The side on the rail before the cooler.
    Hot {
        /// Loss of weight in the cooler.
        shrink: Share,
    },
    /// Half of the live animal.
    Live {
        /// Carcass weight as a share of live weight.
        dressing: Share,
        /// Loss of weight in the cooler.
        shrink: Share,
    },
}

impl WeightBasis {
    /// The chilled side that `priced` weight gives.
    pub fn chilled(self, priced: Mass) -> Mass {
        match self {
            Self::Cold => priced,
            Self::Hot { shrink } => priced * shrink.complement(),
            Self::Live { dressing, shrink } => priced * dressing * shrink.complement(),
        }
    }

    /// The basis with another loss of weight in the cooler, where it has one.
    #[must_use]
    pub fn with_shrink(self, shrink: Share) -> Self {
        match self {
            Self::Cold => Self::Cold,
            Self::Hot { .. } => Self::Hot { shrink },
            Self::Live { dressing, .. } => Self::Live { dressing, shrink },
        }
    }

    /// Whether every share in it leaves some weight and makes none.
    pub fn is_sound(self) -> bool {
        let leaves_some = |loss: Share| loss >= Share::ZERO && loss < Share::WHOLE;
        match self {
            Self::Cold => true,
            Self::Hot { shrink } => leaves_some(shrink),
            Self::Live { dressing, shrink } => {
                leaves_some(shrink) && dressing > Share::ZERO && dressing <= Share::WHOLE
            }
        }
    }
}

/// What a charge is counted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChargeAmount {
    /// Once for the side.
    Flat(Money),
    /// For each unit of the priced weight.
    PerWeight(UnitPrice),
}

/// A cost that comes with the side: kill, inspection, haul, cut-and-wrap. A
/// rebate is a charge below zero.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Charge {
    /// What it is for.
    pub what: String,
    /// How much.
    pub amount: ChargeAmount,
}

/// Where the working time comes from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LabourTime {
    /// The plan's own estimate, way by way.
    #[default]
    PlanEstimate,
    /// One figure for the side, spread over the ways as the estimate is.
    Total(Minutes),
}

/// The most sides that are priced at once.
pub const MOST_SIDES: u32 = 20;

/// How old the animal was; decides what may be done with the back bone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Age {
    /// Under thirty months.
    Under30Months,
    /// Thirty months and over.
    Over30Months,
    /// Not known, which is treated like thirty months and over.
    #[default]
    Unknown,
}

impl Age {
    /// Whether the rules for older cattle hold.
    pub const fn counts_as_older(self) -> bool {
        !matches!(self, Self::Under30Months)
    }
}

/// The side as offered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deal {
    /// How many sides are bought together.
    pub sides: u32,
    /// The weight that is paid for, all sides together.
    pub weight: Mass,
    /// What that weight is a weight of.
    pub basis: WeightBasis,
    /// Price of that weight.
    pub price: UnitPrice,
    /// What comes on top.
    pub charges: Vec<Charge>,
    /// How the animal was finished.
    pub stock: Stock,
    /// How old the animal was.
    pub age: Age,
    /// The time it takes to cut it.
    pub labour: LabourTime,
}

impl Deal {
    /// What the supplier is paid for the weight.
    pub fn side_cost(&self) -> Money {
        self.price * self.weight
    }

    /// All charges together.
    pub fn charges_total(&self) -> Money {
        self.charges
            .iter()
            .map(|charge| match charge.amount {
                ChargeAmount::Flat(money) => money,
                ChargeAmount::PerWeight(price) => price * self.weight,
            })
            .sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::any_side::plain_side;
    use quantity::Decimal;

    fn percent(percent: i64) -> Share {
        Share::from_percent(Decimal::from(percent))
    }

    #[test]
    fn live_weight_dresses_and_then_shrinks() {
        let live = Mass::from_kg(Decimal::from(300));
        let basis = WeightBasis::Live {
            dressing: percent(60),
            shrink: percent(2),
        };
        assert_eq!(basis.chilled(live), Mass::from_kg(Decimal::new(1764, 1)));
        let hot = WeightBasis::Hot { shrink: percent(2) };
        assert_eq!(hot.chilled(live), Mass::from_kg(Decimal::from(294)));
        assert_eq!(WeightBasis::Cold.chilled(live), live);
    }

    #[test]
    fn an_unknown_age_counts_as_older() {
        assert!(!Age::Under30Months.counts_as_older());
        assert!(Age::Over30Months.counts_as_older());
        assert!(Age::default().counts_as_older());
    }

    #[test]
    fn a_charge_per_weight_counts_the_priced_weight_and_a_rebate_counts_back() {
        let mut deal = plain_side().deal;
        deal.weight = Mass::from_kg(Decimal::from(300));
        deal.basis = WeightBasis::Hot { shrink: percent(2) };
        for amount in [
            ChargeAmount::Flat(Money::from_cents(5000)),
            ChargeAmount::PerWeight(UnitPrice::from_per_kg(Decimal::new(15, 1))),
            ChargeAmount::Flat(Money::from_cents(-2000)),
        ] {
            deal.charges.push(Charge {
                what: String::new(),
                amount,
            });
        }
        assert_eq!(deal.charges_total(), Money::from_cents(48_000));
    }
}
