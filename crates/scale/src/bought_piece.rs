//! A cutting test of one bought-in piece, as it lies on the scale: what was
//! bought, each part that came off with its value, and what can be used.
//!
//! What it costs to use is the handbooks' yield test ([`pricing::CuttingTest`]);
//! here its parts are weighed and held against what was bought.

use pricing::CuttingTest;
use quantity::{Decimal, Mass, Money, Rounding, Share, UnitPrice};

use crate::learning::float;
use crate::unit_slip::balances;

/// Something that came off and is not what the piece was bought for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OtherPart {
    /// What it is: trim, bone, fat, a loss.
    pub name: String,
    /// What it weighs.
    pub weight: Mass,
    /// What it is worth; below nothing where its removal costs.
    pub value: Money,
}

/// A piece that was bought and taken apart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BoughtPiece {
    /// Weight as purchased.
    pub bought: Mass,
    /// Price paid per weight.
    pub price: UnitPrice,
    /// All that came off beside the usable part, losses too.
    pub others: Vec<OtherPart>,
    /// Weight that can be sold or served.
    pub usable: Mass,
}

impl BoughtPiece {
    /// What was bought and did not come back on the scale; below nothing where
    /// more did.
    pub fn difference(&self) -> Mass {
        let others: Mass = self.others.iter().map(|part| part.weight).sum();
        self.bought - others - self.usable
    }

    /// Whether it balances within `tolerance` of what was bought.
    pub fn is_within(&self, tolerance: Share) -> bool {
        balances(self.difference(), self.bought, tolerance.max(Share::ZERO))
    }

    /// The share of what was bought that `weight` is; `None` when nothing was
    /// bought.
    pub fn share_of(&self, weight: Mass) -> Option<Share> {
        weight.ratio_to(self.bought)
    }

    /// Its cutting test: cost per usable weight, cost factor, portions, new
    /// prices.
    pub fn test(&self) -> CuttingTest {
        CuttingTest {
            cost: self.price * self.bought,
            price: self.price,
            other_parts: self.others.iter().map(|part| part.value).sum(),
            usable: self.usable,
        }
    }
}

/// Decimal places of a spread, which is reckoned in floats.
const PLACES: u32 = 9;

/// Fewer pieces than these say nothing of what such a piece gives.
pub const FEWEST_PIECES: usize = 3;

/// What pieces of one kind gave.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UsableShares {
    /// The mean of their usable shares.
    pub mean: Share,
    /// Their standard deviation, with n − 1 below.
    pub spread: Share,
    /// The least and the most of them.
    pub ends: [Share; 2],
}

impl UsableShares {
    /// What these usable shares say; `None` where they are too few.
    pub fn of(shares: &[Share]) -> Option<Self> {
        if shares.len() < FEWEST_PIECES {
            return None;
        }
        let count = Decimal::from(shares.len());
        let sum: Decimal = shares.iter().map(|share| share.fraction()).sum();
        let mean = sum.checked_div(count)?;
        let squares: f64 = shares
            .iter()
            .map(|share| float(share.fraction() - mean).powi(2))
            .sum();
        let variance = squares / float(count - Decimal::ONE);
        let spread = Decimal::try_from(variance.sqrt()).ok()?;
        Some(Self {
            mean: Share::from_fraction(mean),
            spread: Share::from_fraction(Rounding::HalfEven.to_places(spread, PLACES)),
            ends: [*shares.iter().min()?, *shares.iter().max()?],
        })
    }
}

#[cfg(test)]
mod tests {
    use quantity::MassUnit;

    use super::*;
    use crate::closing::USUAL_TOLERANCE;

    fn pounds(tenths: i64) -> Mass {
        Mass::from_lb(Decimal::new(tenths, 1))
    }

    /// Lamb loin, Dittmer & Keefe, *Principles of Food, Beverage and Labor Cost
    /// Controls*, ch. 6, example 6.3: 12 lb at 6.65; usable part worth 66.80,
    /// 11.13 a pound, a portion of 5 oz 3.48, factors 1.67 and 0.52, shares 25,
    /// 8.33, 12.5, 4.17 and 50 %.
    #[test]
    fn lamb_loin_of_the_handbook() {
        let part = |name: &str, tenths, cents| OtherPart {
            name: name.to_owned(),
            weight: pounds(tenths),
            value: Money::from_cents(cents),
        };
        let mut loin = BoughtPiece {
            bought: pounds(120),
            price: UnitPrice::from_per_lb(Decimal::new(665, 2)),
            others: vec![
                part("fat", 30, 0),
                part("kidneys", 10, 610),
                part("flank", 15, 690),
                part("loss", 5, 0),
            ],
            usable: pounds(60),
        };
        assert!(loin.difference().is_zero() && loin.is_within(Share::ZERO));
        let to_cent = |number: Decimal| number.round_dp(2).to_string();
        let test = loin.test();
        assert_eq!(to_cent(test.cost.units()), "79.80");
        assert_eq!(to_cent(test.usable_value().units()), "66.80");
        assert_eq!(
            to_cent(test.cost_per_usable().expect("usable").per_lb()),
            "11.13"
        );
        let portion = Mass::from_lb(Decimal::from(5) / Decimal::from(16));
        assert_eq!(
            to_cent(test.portion_cost(portion).expect("usable").units()),
            "3.48"
        );
        assert_eq!(to_cent(test.cost_factor().expect("usable")), "1.67");
        let factor = test.portion_factor(portion, MassUnit::Pound);
        assert_eq!(to_cent(factor.expect("usable")), "0.52");
        let shares: Vec<String> = loin
            .others
            .iter()
            .map(|part| part.weight)
            .chain([loin.usable])
            .filter_map(|weight| loin.share_of(weight))
            .map(|share| to_cent(share.percent()))
            .collect();
        assert_eq!(shares, ["25.00", "8.33", "12.50", "4.17", "50.00"]);

        // A kidney that was lost on the way to the scale is told.
        loin.others.remove(1);
        assert_eq!(loin.difference(), pounds(10));
        assert!(!loin.is_within(USUAL_TOLERANCE));
    }

    #[test]
    fn three_pieces_have_a_mean_and_a_spread_and_two_have_none() {
        let percent = |percent: i64| Share::from_percent(Decimal::from(percent));
        let shares = [78, 74, 82].map(percent);
        assert_eq!(UsableShares::of(&shares[..2]), None);
        let of = UsableShares::of(&shares).expect("three");
        // Deviations of 0, −4 and 4 points: √(32 ⁄ 2) = 4.
        assert_eq!((of.mean, of.spread), (percent(78), percent(4)));
        assert_eq!(of.ends, [percent(74), percent(82)]);
        let same = UsableShares::of(&[percent(78); 3]).expect("three");
        assert_eq!(same.spread, Share::ZERO);
    }
}
