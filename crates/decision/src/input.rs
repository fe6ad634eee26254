//! What can be moved in a case, each with its unit and how far it goes.
//!
//! An input is one plain number, so that any of them can be put on a slider,
//! on a bar, on an axis or into the question of where the side stops paying.

use carcass::{Kind, ProductId};
use pricing::{Packaging, WorkingTime};
use quantity::{Decimal, typed};

use crate::case::Case;
use crate::saleable_shift::saleable_share;

/// Something of a case that can be moved.
///
/// They are moved in this order, so that a total of minutes is one of the
/// moved weight and the price of one cut stands over a move of the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Input {
    /// The priced weight, all sides together, in kilograms.
    Weight,
    /// How the animal was finished, in percent of the way from grain-fed to
    /// grass-fed.
    Stock,
    /// Price of the priced weight, per kilogram.
    SidePrice,
    /// Money charged on top of the charges planned.
    Charges,
    /// Working time of all sides together, in minutes.
    LabourMinutes,
    /// Wage for an hour.
    LabourRate,
    /// Cost of packaging: of a kilogram, or of a pack where packs are counted.
    Packaging,
    /// Percent of the cut weight that is never sold. Cuts with losses of their
    /// own keep them.
    Unsold,
    /// Percent by which the prices of all cuts are raised; the prices of
    /// by-products stay.
    Board,
    /// Price of one product, per kilogram.
    Price(ProductId),
    /// Points of the chilled side by which the saleable share is raised.
    Saleable,
    /// Percent by which the weight of one product is raised.
    Yield(ProductId),
}

/// What the number of an input counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Kilograms.
    Kilograms,
    /// Money for a kilogram.
    MoneyPerKilogram,
    /// Money for a pack.
    MoneyPerPack,
    /// Money for an hour.
    MoneyPerHour,
    /// Money.
    Money,
    /// Minutes.
    Minutes,
    /// Percent of a whole.
    Percent,
    /// Percent of what was planned, more (or, below nothing, less) than that.
    PercentMore,
    /// Points of a percentage, more (or, below nothing, less) than planned.
    PointsMore,
}

/// The least and the most that is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bounds {
    /// The least.
    pub least: Decimal,
    /// The most.
    pub most: Decimal,
}

/// How many times the planned weight is looked at.
const HEAVIEST: Decimal = Decimal::TEN;

/// The least weight looked at, in kilograms.
const LIGHTEST: Decimal = Decimal::ONE;

impl Input {
    /// What its number counts in `case`.
    pub fn unit(self, case: &Case) -> Unit {
        match self {
            Self::Weight => Unit::Kilograms,
            Self::SidePrice | Self::Price(_) => Unit::MoneyPerKilogram,
            Self::Charges => Unit::Money,
            Self::LabourMinutes => Unit::Minutes,
            Self::LabourRate => Unit::MoneyPerHour,
            Self::Packaging => match case.shop.packaging {
                Packaging::PerWeight(_) => Unit::MoneyPerKilogram,
                Packaging::PerPack { .. } => Unit::MoneyPerPack,
            },
            Self::Stock | Self::Unsold => Unit::Percent,
            Self::Board | Self::Yield(_) => Unit::PercentMore,
            Self::Saleable => Unit::PointsMore,
        }
    }

    /// Its number as `case` has it; nothing for one that counts a difference
    /// from the plan.
    pub fn planned(self, case: &Case) -> Decimal {
        match self {
            Self::Weight => case.deal.weight.kg(),
            Self::Stock => case.deal.stock.share_of_grass().percent(),
            Self::SidePrice => case.deal.price.per_kg(),
            Self::LabourMinutes => WorkingTime::of(
                case.catalogue,
                &case.breakdown(),
                case.deal.labour,
                &case.shop.labour,
            )
            .total
            .minutes(),
            Self::LabourRate => case.shop.labour.rate.per_hour(),
            Self::Packaging => match case.shop.packaging {
                Packaging::PerWeight(price) => price.per_kg(),
                Packaging::PerPack { cost, .. } => cost.units(),
            },
            Self::Unsold => case.shop.losses.unsold.percent(),
            Self::Price(product) => case.shop.board.price(case.catalogue, product).per_kg(),
            Self::Charges | Self::Board | Self::Saleable | Self::Yield(_) => Decimal::ZERO,
        }
    }

    /// Between what it is looked at where the question is how far it may go:
    /// all that a field takes, all that there is of a share, and up to ten
    /// times the planned weight.
    pub fn bounds(self, case: &Case) -> Bounds {
        let (least, most) = match self {
            Self::Weight => {
                let planned = case.deal.weight.kg();
                (
                    LIGHTEST.min(planned),
                    planned.saturating_mul(HEAVIEST).max(LIGHTEST),
                )
            }
            Self::Stock => (Decimal::ZERO, Decimal::ONE_HUNDRED),
            Self::SidePrice | Self::LabourMinutes | Self::LabourRate | Self::Packaging => {
                (Decimal::ZERO, typed::LARGEST)
            }
            Self::Charges => (-typed::LARGEST, typed::LARGEST),
            Self::Price(product) => match case.catalogue[product].kind {
                Kind::Cut => (Decimal::ZERO, typed::LARGEST),
                Kind::Fat | Kind::Bone | Kind::Loss => (-typed::LARGEST, typed::LARGEST),
            },
            Self::Unsold => (
                Decimal::ZERO,
                case.shop.losses.marked_down.complement().percent(),
            ),
            Self::Board => (-Decimal::ONE_HUNDRED, typed::LARGEST),
            Self::Saleable => {
                let breakdown = case.breakdown();
                let cuts = saleable_share(case.catalogue, &breakdown);
                let lost = breakdown.share_of(|product| case.catalogue[product].kind == Kind::Loss);
                (-cuts.percent(), (cuts + lost).complement().percent())
            }
            Self::Yield(_) => (-Decimal::ONE_HUNDRED, Decimal::ONE_HUNDRED),
        };
        Bounds { least, most }
    }

    /// Whether what is left above the target is a straight line in it.
    ///
    /// With the terms of [`pricing::verdict`] what is left is
    /// `(1 − m)·R + B − k − L − K − P·W`, and each of these is a straight line
    /// in every price, rate, time and share sold. A moved yield bends where
    /// trim runs out, the stock multiplies shares by shares, and what is asked
    /// for in kilograms does not follow the weight.
    pub const fn is_linear(self) -> bool {
        match self {
            Self::SidePrice
            | Self::Charges
            | Self::LabourMinutes
            | Self::LabourRate
            | Self::Packaging
            | Self::Unsold
            | Self::Board
            | Self::Price(_) => true,
            Self::Weight | Self::Stock | Self::Saleable | Self::Yield(_) => false,
        }
    }

    /// Whether it can be kept as part of a deal or a shop. A moved yield
    /// cannot: it is a difference from the plan's yields.
    pub const fn can_be_kept(self) -> bool {
        !matches!(self, Self::Saleable | Self::Yield(_))
    }
}
