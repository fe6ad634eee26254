//! What a run of draws says: the chance that the side pays, percentiles, the
//! offer to be sure of, the cost bands of the cuts.
//!
//! Percentiles of the side are those of all its draws, by linear interpolation
//! between order statistics (Hyndman and Fan 1996, type 7). For the cuts that
//! would be a number for each cut and draw, so they are counted in fine bins
//! ([`super::cut_band`]).

use carcass::ProductId;
use quantity::{Money, Share, UnitPrice};

use super::cut_band::CutCounts;
use super::fast::{Drawn, DrawnSide};
use super::float::{float, money, per_kg, share};

/// 5th, 50th and 95th percentile.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Band<T> {
    /// One draw in twenty lies below.
    pub low: T,
    /// As many lie below as above.
    pub middle: T,
    /// One draw in twenty lies above.
    pub high: T,
}

impl<T> Band<T> {
    pub(super) fn of(at: impl Fn(f64) -> T) -> Self {
        Self {
            low: at(0.05),
            middle: at(0.5),
            high: at(0.95),
        }
    }
}

/// What a cut costs, over all draws.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CutBand {
    /// The cut.
    pub product: ProductId,
    /// Its cost with packaging, for each weight cut.
    pub cost: Band<UnitPrice>,
}

/// What a run of draws says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Summary {
    /// How many draws it rests on.
    pub draws: u32,
    /// Chance that the side makes the target margin at the price asked.
    pub chance: Share,
    /// Standard error of the chance, from the number of draws:
    /// `√(p(1 − p) ⁄ n)`, with one draw more on either side so that a chance of
    /// nothing or all is not said to be exact.
    pub chance_error: Share,
    /// Share of sales left.
    pub margin: Band<Share>,
    /// The margin in money.
    pub profit: Band<Money>,
    /// The highest price of the priced weight that makes the target margin.
    pub walk_away: Band<UnitPrice>,
    /// How sure one wants to be that the side pays.
    pub sure: Share,
    /// The most to offer for it: the `1 − sure` quantile of the walk-away
    /// price. Below zero when no price is that sure.
    pub offer: UnitPrice,
    /// The cuts, in the order of their ids.
    pub cuts: Vec<CutBand>,
}

/// How far the two paths of costing may be apart, as a share of an amount: a
/// side within it of its walk-away price still pays.
const AGREEMENT: f64 = 1e-9;

/// What has been drawn so far.
#[derive(Clone, Debug)]
pub(super) struct Tally {
    /// Price asked for a kilogram.
    asked: f64,
    paying: u32,
    draws: u32,
    margins: Vec<f64>,
    profits: Vec<f64>,
    walk_aways: Vec<f64>,
    cuts: Vec<(usize, ProductId, CutCounts)>,
}

impl Tally {
    /// Nothing drawn yet. `cuts` are the places of the cuts among the products.
    pub(super) fn new(asked: f64, cuts: impl Iterator<Item = (usize, ProductId)>) -> Self {
        Self {
            asked,
            paying: 0,
            draws: 0,
            margins: Vec::new(),
            profits: Vec::new(),
            walk_aways: Vec::new(),
            cuts: cuts
                .map(|(place, product)| (place, product, CutCounts::default()))
                .collect(),
        }
    }

    /// The same with nothing drawn.
    pub(super) fn emptied(&self) -> Self {
        let cuts = self
            .cuts
            .iter()
            .map(|(place, product, _)| (*place, *product));
        Self::new(self.asked, cuts)
    }

    /// Counts the first `count` of the draws in the lanes.
    pub(super) fn count(&mut self, count: usize, side: &DrawnSide, drawn: &[Drawn]) {
        for walk_away in side.walk_away.0.into_iter().take(count) {
            let slack = AGREEMENT * self.asked.abs().max(walk_away.abs());
            self.paying += u32::from(walk_away + slack >= self.asked);
            self.draws += 1;
        }
        for (all, these) in [
            (&mut self.margins, side.margin),
            (&mut self.profits, side.profit),
            (&mut self.walk_aways, side.walk_away),
        ] {
            all.extend(these.0.into_iter().take(count));
        }
        for (place, _, counts) in &mut self.cuts {
            if let Some(it) = drawn.get(*place) {
                let costs = it.cost / it.mass;
                for (cost, mass) in costs.0.into_iter().zip(it.mass.0).take(count) {
                    if mass > 0.0 {
                        counts.count(cost);
                    }
                }
            }
        }
    }

    pub(super) const fn draws(&self) -> u32 {
        self.draws
    }

    pub(super) fn margins(&self) -> &[f64] {
        &self.margins
    }

    pub(super) fn walk_aways(&self) -> &[f64] {
        &self.walk_aways
    }

    pub(super) fn summary(&self, sure: Share) -> Option<Summary> {
        if self.draws == 0 {
            return None;
        }
        let sure = sure.clamp(Share::ZERO, Share::WHOLE);
        let walk_aways = sorted(&self.walk_aways);
        let margins = sorted(&self.margins);
        let profits = sorted(&self.profits);
        let (paying, draws) = (f64::from(self.paying), f64::from(self.draws));
        let guarded = (paying + 1.0) / (draws + 2.0);
        Some(Summary {
            draws: self.draws,
            chance: share(paying / draws),
            chance_error: share(libm::sqrt(guarded * (1.0 - guarded) / draws)),
            margin: Band::of(|at| share(quantile(&margins, at))),
            profit: Band::of(|at| money(quantile(&profits, at))),
            walk_away: Band::of(|at| per_kg(quantile(&walk_aways, at))),
            sure,
            offer: per_kg(quantile(&walk_aways, 1.0 - float(sure.fraction()))),
            cuts: self
                .cuts
                .iter()
                .filter_map(|(_, product, counts)| {
                    let cost = counts.band()?;
                    Some(CutBand {
                        product: *product,
                        cost: Band {
                            low: per_kg(cost.low),
                            middle: per_kg(cost.middle),
                            high: per_kg(cost.high),
                        },
                    })
                })
                .collect(),
        })
    }
}

/// Digit by digit, since a standard library built for size sorts slowly.
pub(super) fn sorted(values: &[f64]) -> Vec<f64> {
    let mut sorted = values.to_vec();
    radsort::sort(&mut sorted);
    sorted
}

/// The `at` quantile of values in order; nothing of none.
#[allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss
)]
pub(super) fn quantile(sorted: &[f64], at: f64) -> f64 {
    let place = at.clamp(0.0, 1.0) * sorted.len().saturating_sub(1) as f64;
    let below = place as usize;
    let get = |index| sorted.get(index).copied();
    match (get(below), get(below + 1)) {
        (Some(low), Some(high)) => low + (high - low) * (place - below as f64),
        (Some(low), None) => low,
        _ => 0.0,
    }
}
