//! The draw model: how the weights of one side differ from the plan's.
//!
//! The weight of the side is known, so a draw moves shares and conserves mass.
//! A product is made of tissues: a cut of lean and of its bone, suet and fat
//! trim of fat, bones and losses of bone (as in the stock presets, where bone
//! includes waste). With the plan's totals `L + F + B = 1`:
//!
//! 1. **Fatness first.** `z₁` says how fat the side is, `z₂` what else moves
//!    lean, both standard normal; `σ` is the standard deviation of the saleable
//!    share, `ρ` the correlation of meat with fat, −0.94 (Koch et al.):
//!
//!    ```text
//!    ΔF = −ρ σ z₁ · (s + b) ⁄ s          s, b: saleable and bone per yield grade
//!    ΔL =  ρ σ z₁ + √(1 − ρ²) σ z₂       (Kansas State University 1976, 1996)
//!    ΔB = −ΔF − ΔL
//!    ```
//!
//!    so saleable and bone absorb fat in the published slope, the saleable
//!    share spreads by `σ` and goes with fat by `ρ`, and what lean has beyond
//!    fatness is paid by bone. At σ = 3.85 on a grain-fed side fat spreads by
//!    23 % and bone by 11 % of themselves; published for groups of one kind are
//!    25.1 % and 8.7 % (Koch et al.).
//! 2. **Cuts on top.** Within each tissue every product varies by the published
//!    coefficient of variation of its group (Judge et al. 2019; Koch et al.),
//!    given that the tissue's total is what step 1 made it: independent normal
//!    deviations `dᵢ` conditioned on summing to nothing,
//!    `dᵢ − vᵢ ⁄ Σv · Σd` with `vᵢ` the variance of `dᵢ` (conditional normal
//!    distribution, Bishop, *Pattern Recognition and Machine Learning*, 2.3.1).
//! 3. **Price and unsold share, if wished.** One factor for all board prices of
//!    cuts, one shift of all unsold shares, both normal.
//!
//! No share falls below nothing: a deviation that would take one there is cut
//! short, and the deviation in the opposite direction by as much. Every
//! deviation is therefore as likely as its opposite, and the mean of the draws
//! is the plan itself.
//!
//! **What is a model here.** The normal shape; that genetic correlation stands
//! in for the correlation between sides; that the cuts of a side vary
//! independently of one another; that all lean moves with fatness in
//! proportion, though some cuts are known to follow it more than others. A
//! published spread of a cut includes what moves all cuts together, so on top
//! of step 1 the bands of single cuts are rather too wide than too narrow.

use carcass::{Catalogue, Kind, Spread};
use quantity::Share;

use super::float::float;
use super::lanes::{LANES, Lanes};

/// What is known of the side, which decides how far it can be off the plan.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum KnownOfSide {
    /// Nothing but that it was fed as said.
    #[default]
    Unknown,
    /// It is of a herd whose yields are known.
    Herd,
    /// Its fat depth and weight are known.
    FatAndWeight,
}

impl KnownOfSide {
    /// All of them, the least first.
    pub const ALL: [Self; 3] = [Self::Unknown, Self::Herd, Self::FatAndWeight];

    /// The published standard deviation of the saleable share.
    pub const fn figure(self, spread: &Spread) -> &carcass::SpreadFigure {
        match self {
            Self::Unknown => &spread.unknown,
            Self::Herd => &spread.herd,
            Self::FatAndWeight => &spread.known,
        }
    }
}

/// How far a draw can be off the plan. What is below nothing counts as nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DrawModel {
    /// Standard deviation of the saleable share of the chilled side.
    pub saleable: Share,
    /// How much of the published spread of single cuts is drawn: the whole, or
    /// nothing for a side that differs in fatness alone.
    pub cuts: Share,
    /// Standard deviation of all board prices of cuts together, as a share of
    /// them.
    pub prices: Share,
    /// Standard deviation of the unsold share of every cut.
    pub unsold: Share,
}

impl DrawModel {
    /// The published spread, prices and unsold shares as on the board.
    pub fn published(catalogue: &Catalogue, known: KnownOfSide) -> Self {
        Self {
            saleable: known.figure(catalogue.spread()).value,
            cuts: Share::WHOLE,
            prices: Share::ZERO,
            unsold: Share::ZERO,
        }
    }

    /// No spread at all: every draw is the plan.
    pub const NONE: Self = Self {
        saleable: Share::ZERO,
        cuts: Share::ZERO,
        prices: Share::ZERO,
        unsold: Share::ZERO,
    };
}

/// A product as the model sees it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    pub kind: Kind,
    /// Share of the side by the plan.
    pub share: f64,
    /// Share of its weight that is bone, for a cut.
    pub bone: f64,
    /// Coefficient of variation.
    pub cv: f64,
}

/// One product's amount of a tissue.
#[derive(Clone, Copy, Debug)]
struct Amount {
    product: usize,
    /// Amount of the tissue in it over the weight of the product.
    of_product: f64,
    cv: f64,
    /// Standard deviation of the amount, as a share of the side.
    own: f64,
    /// What it gives up of a surplus of the tissue, over its amount.
    absorbs: f64,
}

/// A tissue and the products that hold some of it.
#[derive(Clone, Debug)]
struct Tissue {
    total: f64,
    amounts: Vec<Amount>,
}

impl Tissue {
    fn of(pieces: &[Piece], cuts: f64, part: impl Fn(&Piece) -> f64) -> Self {
        let mut amounts = Vec::new();
        let (mut total, mut variance) = (0.0, 0.0);
        for (product, piece) in pieces.iter().enumerate() {
            let of_product = part(piece);
            let amount = piece.share * of_product;
            if amount > 0.0 {
                let cv = piece.cv * cuts;
                let own = amount * cv;
                total += amount;
                variance += own * own;
                amounts.push(Amount {
                    product,
                    of_product,
                    cv,
                    own,
                    absorbs: own * cv,
                });
            }
        }
        if variance > 0.0 {
            for amount in &mut amounts {
                amount.absorbs /= variance;
            }
        }
        Self { total, amounts }
    }

    /// Adds to `factors` what this tissue makes of each product, when its total
    /// has grown by `growth` of itself. `deviates` are those of the products.
    fn draw(&self, growth: Lanes, deviates: &[Lanes], factors: &mut [Lanes]) {
        let deviate = |amount: &Amount| deviates.get(amount.product).copied().unwrap_or_default();
        let mut surplus = Lanes::default();
        for amount in &self.amounts {
            surplus += deviate(amount) * amount.own;
        }
        let off = |amount: &Amount| deviate(amount) * amount.cv - surplus * amount.absorbs;
        let mut farthest = Lanes::default();
        for amount in &self.amounts {
            farthest = farthest.max(off(amount).abs());
        }
        // Of the two directions the one with less room decides for both.
        let kept = Lanes::each(|lane| {
            let (farthest, room) = (farthest.lane(lane), 1.0 - growth.lane(lane).abs());
            if farthest > room {
                room / farthest
            } else {
                1.0
            }
        });
        let grown = growth + 1.0;
        for amount in &self.amounts {
            if let Some(factor) = factors.get_mut(amount.product) {
                // Nothing may come out as a last digit below nothing.
                *factor += (grown + kept * off(amount)).at_least_nothing() * amount.of_product;
            }
        }
    }
}

/// The model of one plan, ready to draw from.
#[derive(Clone, Debug)]
pub(super) struct Composition {
    lean: Tissue,
    fat: Tissue,
    bone: Tissue,
    /// Change of fat for one deviate of fatness.
    fat_by_fatness: f64,
    lean_by_fatness: f64,
    lean_beside: f64,
    prices: f64,
    unsold: f64,
}

/// The deviates that do not belong to a product: fatness, what else moves lean,
/// prices, unsold share.
pub(super) const COMMON: usize = 4;

/// The furthest that prices and unsold shares go: short of nothing left to sell.
pub(super) const FURTHEST: f64 = 0.99;

/// How prices and losses of the draws differ from the board's.
#[derive(Clone, Copy, Debug)]
pub(super) struct Market {
    /// Factor of all prices of cuts.
    pub price: Lanes,
    /// Shift of the unsold share, as far as there is room for it.
    pub unsold: Lanes,
}

impl Market {
    /// The board itself.
    pub(super) const BOARD: Self = Self {
        price: Lanes::all(1.0),
        unsold: Lanes::all(0.0),
    };
}

impl Composition {
    pub(super) fn new(pieces: &[Piece], spread: &Spread, model: &DrawModel) -> Self {
        let size = |share: Share| float(share.fraction()).max(0.0);
        let cuts = size(model.cuts);
        let correlation = float(spread.lean_fat_correlation).clamp(-1.0, 1.0);
        let (saleable, bone) = (
            float(spread.saleable_per_grade.fraction()),
            float(spread.bone_per_grade.fraction()),
        );
        let fat_for_lean = if saleable > 0.0 {
            (saleable + bone) / saleable
        } else {
            0.0
        };
        let sigma = size(model.saleable);
        Self {
            lean: Tissue::of(pieces, cuts, |piece| match piece.kind {
                Kind::Cut => 1.0 - piece.bone,
                _ => 0.0,
            }),
            fat: Tissue::of(pieces, cuts, |piece| match piece.kind {
                Kind::Fat => 1.0,
                _ => 0.0,
            }),
            bone: Tissue::of(pieces, cuts, |piece| match piece.kind {
                Kind::Cut => piece.bone,
                Kind::Bone | Kind::Loss => 1.0,
                Kind::Fat => 0.0,
            }),
            fat_by_fatness: -correlation * sigma * fat_for_lean,
            lean_by_fatness: correlation * sigma,
            lean_beside: libm::sqrt(1.0 - correlation * correlation) * sigma,
            prices: size(model.prices),
            unsold: size(model.unsold),
        }
    }

    /// The factors by which the weight of each product differs from the plan's,
    /// and the market, draw by draw. `deviates` are the common ones, then one
    /// for each product.
    pub(super) fn draw(&self, deviates: &[Lanes], factors: &mut [Lanes]) -> Market {
        let (common, own) = deviates.split_at_checked(COMMON).unwrap_or_default();
        let &[fatness, beside, price, unsold] = common else {
            return Market::BOARD;
        };
        let (mut lean, mut fat, mut bone) = Default::default();
        for lane in 0..LANES {
            let growth = self.growth(fatness.lane(lane), beside.lane(lane));
            for (tissue, growth) in [&mut lean, &mut fat, &mut bone].into_iter().zip(growth) {
                let Lanes(tissue) = tissue;
                if let Some(place) = tissue.get_mut(lane) {
                    *place = growth;
                }
            }
        }
        factors.fill(Lanes::default());
        self.lean.draw(lean, own, factors);
        self.fat.draw(fat, own, factors);
        self.bone.draw(bone, own, factors);
        Market {
            price: (price * self.prices).map(|change| 1.0 + change.clamp(-FURTHEST, FURTHEST)),
            unsold: unsold * self.unsold,
        }
    }

    /// By how much of themselves lean, fat and bone have grown. Each limit is
    /// the same in both directions.
    fn growth(&self, fatness: f64, beside: f64) -> [f64; 3] {
        let limited = |change: f64, total: f64| change.clamp(-total, total);
        let fat = limited(self.fat_by_fatness * fatness, self.fat.total);
        let lean = self.lean_by_fatness * fatness + self.lean_beside * beside;
        let bone = limited(-fat - lean, self.bone.total);
        let lean = -fat - bone;
        let kept = if lean.abs() > self.lean.total {
            self.lean.total / lean.abs()
        } else {
            1.0
        };
        [
            (lean, self.lean.total),
            (fat, self.fat.total),
            (bone, self.bone.total),
        ]
        .map(|(change, total)| {
            if total > 0.0 {
                (kept * change / total).clamp(-1.0, 1.0)
            } else {
                0.0
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::any_case::CATALOGUE;
    use crate::spread::normal::normal_lanes;

    // The grain-fed preset as three products.
    const SIDE: [Piece; 3] = [
        piece(Kind::Cut, 0.66),
        piece(Kind::Fat, 0.195),
        piece(Kind::Bone, 0.145),
    ];

    const fn piece(kind: Kind, share: f64) -> Piece {
        Piece {
            kind,
            share,
            bone: 0.0,
            cv: 0.1,
        }
    }

    // Saleable SD as chosen, correlation of meat and fat −0.94 (Koch et al.),
    // slope of Kansas State University: 5.3 points of fat for 4.3 of saleable.
    #[test]
    fn the_spread_of_the_tissues_is_the_published_one() {
        for known in KnownOfSide::ALL {
            let model = DrawModel::published(&CATALOGUE, known);
            let composition = Composition::new(&SIDE, CATALOGUE.spread(), &model);
            let draws = 40_000_u32;
            let (mut lean, mut fat, mut both) = (0.0, 0.0, 0.0);
            for first in (0..draws).step_by(LANES) {
                let mut deviates = [Lanes::default(); COMMON + 3];
                normal_lanes(5, first, &mut deviates);
                let mut factors = [Lanes::default(); 3];
                composition.draw(&deviates, &mut factors);
                for lane in 0..LANES {
                    let change = |product: usize| factors[product].lane(lane) - 1.0;
                    let (l, f) = (0.66 * change(0), 0.195 * change(1));
                    lean += l * l;
                    fat += f * f;
                    both += l * f;
                }
            }
            let sigma = float(model.saleable.fraction());
            let deviation = (lean / f64::from(draws)).sqrt();
            assert!(
                (deviation / sigma - 1.0).abs() < 0.02,
                "{known:?}: {deviation}"
            );
            let correlation = both / (lean * fat).sqrt();
            assert!((correlation + 0.94).abs() < 0.004, "{correlation}");
            let slope = both / fat;
            assert!((slope + 4.3 / 5.3).abs() < 0.01, "{slope}");
        }
    }
}
