//! A run of draws that goes on for as long as it is asked to.
//!
//! A run is advanced by so many draws at a time; what it has found can be read
//! after any of them, and dropping it ends it. A draw depends on the seed and
//! its number alone, so neither the size of the steps nor when the run is read
//! changes a figure.

use pricing::PricingError;
use quantity::{PriceUnit, Share, UnitPrice};

use super::fast::{Drawn, DrawnSide, FlatCase};
use super::float::float;
use super::histogram::Histogram;
use super::lanes::{LANES, Lanes};
use super::model::{COMMON, Composition, DrawModel, Market};
use super::normal::normal_lanes;
use super::summary::{Summary, Tally};
use super::tree::Scratch;
use crate::case::Case;

/// The most draws of one run: beyond it a figure would change by less than it is
/// shown with.
pub const MOST_DRAWS: u32 = 1_000_000;

/// Draws from the model of one case.
#[derive(Clone, Debug)]
pub struct Run {
    flat: FlatCase,
    composition: Composition,
    seed: u64,
    tally: Tally,
    block: Block,
}

/// Draws side by side with the room they are made in.
#[derive(Clone, Debug)]
struct Block {
    deviates: Vec<Lanes>,
    factors: Vec<Lanes>,
    drawn: Vec<Drawn>,
    scratch: Scratch,
}

impl Run {
    /// A run that has made no draw yet.
    ///
    /// # Errors
    /// As [`Case::sheet`]: what cannot be priced cannot be drawn.
    pub fn new(case: &Case, model: &DrawModel, seed: u64) -> Result<Self, PricingError> {
        let sheet = case.sheet()?;
        let flat = FlatCase::new(case, sheet.breakdown.nodes());
        let pieces = flat.pieces(case);
        let cuts = pieces
            .iter()
            .zip(&flat.products)
            .enumerate()
            .filter(|(_, (piece, _))| piece.kind == carcass::Kind::Cut && piece.share > 0.0)
            .map(|(place, (_, product))| (place, *product));
        Ok(Self {
            composition: Composition::new(&pieces, case.catalogue.spread(), model),
            tally: Tally::new(float(case.deal.price.per_kg()), cuts),
            block: Block {
                deviates: vec![Lanes::default(); COMMON + pieces.len()],
                factors: vec![Lanes::default(); pieces.len()],
                drawn: vec![Drawn::default(); pieces.len()],
                scratch: Scratch::default(),
            },
            flat,
            seed,
        })
    }

    /// The same run from its beginning with another seed.
    #[must_use]
    pub fn reseeded(&self, seed: u64) -> Self {
        Self {
            seed,
            tally: self.tally.emptied(),
            ..self.clone()
        }
    }

    /// Makes so many draws more, up to [`MOST_DRAWS`] in all, and says how many
    /// there are now.
    pub fn advance(&mut self, draws: u32) -> u32 {
        let end = self.done().saturating_add(draws).min(MOST_DRAWS);
        while self.done() < end {
            let first = self.done();
            let side = self.draw_block(first);
            let count = usize::try_from(end - first).map_or(LANES, |left| left.min(LANES));
            self.tally.count(count, &side, &self.block.drawn);
        }
        end
    }

    /// How many draws have been made.
    pub fn done(&self) -> u32 {
        self.tally.draws()
    }

    /// What the draws so far say, with the offer of which one can be as `sure`
    /// as this; `None` before the first.
    pub fn summary(&self, sure: Share) -> Option<Summary> {
        self.tally.summary(sure)
    }

    /// The draws so far by margin, in percent of sales.
    pub fn margins(&self) -> Histogram {
        Histogram::of(self.tally.margins(), 100.0)
    }

    /// The draws so far by walk-away price in `unit`.
    pub fn walk_aways(&self, unit: PriceUnit) -> Histogram {
        let one = UnitPrice::from_per_kg(quantity::Decimal::ONE).in_unit(unit);
        Histogram::of(self.tally.walk_aways(), float(one))
    }

    /// Makes the draws from number `first` on, which are left in `self.block`.
    fn draw_block(&mut self, first: u32) -> DrawnSide {
        let market = self.compose(first);
        self.flat
            .cost(market, &mut self.block.drawn, &mut self.block.scratch)
    }

    /// The weights and the market of the draws from number `first` on.
    fn compose(&mut self, first: u32) -> Market {
        let block = &mut self.block;
        normal_lanes(self.seed, first, &mut block.deviates);
        let market = self.composition.draw(&block.deviates, &mut block.factors);
        for (drawn, factor) in block.drawn.iter_mut().zip(&block.factors) {
            drawn.factor = *factor;
        }
        market
    }
}

/// The side of one draw.
#[cfg(test)]
#[derive(Clone, Copy, Debug)]
pub(super) struct OneSide {
    pub sales: f64,
    pub by_products: f64,
    pub packaging: f64,
    pub labour: f64,
    pub spend: f64,
    pub profit: f64,
    pub margin: f64,
    pub walk_away: f64,
}

#[cfg(test)]
impl Run {
    /// The same run over other arrays.
    pub(super) fn with_flat(&self, flat: FlatCase) -> Self {
        Self {
            flat,
            ..self.clone()
        }
    }

    /// Makes the draw with this number.
    pub(super) fn draw(&mut self, index: u32) -> OneSide {
        let side = self.draw_block(index);
        OneSide {
            sales: side.sales.lane(0),
            by_products: side.by_products.lane(0),
            packaging: side.packaging.lane(0),
            labour: side.labour.lane(0),
            spend: side.spend.lane(0),
            profit: side.profit.lane(0),
            margin: side.margin.lane(0),
            walk_away: side.walk_away.lane(0),
        }
    }

    /// Price factor and unsold shift of the draw with this number.
    pub(super) fn market_of(&self, index: u32) -> (f64, f64) {
        let market = self.clone().compose(index);
        (market.price.lane(0), market.unsold.lane(0))
    }

    /// Kilograms of every product by the plan.
    pub(super) fn planned(&self) -> Vec<(carcass::ProductId, f64)> {
        let mut plan = self.clone();
        for drawn in &mut plan.block.drawn {
            drawn.factor = Lanes::all(1.0);
        }
        plan.flat.cost(
            Market::BOARD,
            &mut plan.block.drawn,
            &mut plan.block.scratch,
        );
        plan.products().collect()
    }

    /// Kilograms of every product in the last draw.
    pub(super) fn products(&self) -> impl Iterator<Item = (carcass::ProductId, f64)> {
        let weights = self.block.drawn.iter().map(|drawn| drawn.mass.lane(0));
        self.flat.products.iter().copied().zip(weights)
    }

    /// Cost of a product in the last draw.
    pub(super) fn cost_of(&self, product: carcass::ProductId) -> Option<f64> {
        let place = self.flat.products.iter().position(|it| *it == product)?;
        self.block.drawn.get(place).map(|drawn| drawn.cost.lane(0))
    }

    /// Kilograms of everything that leaves the block in the last draw, in the
    /// order of the breakdown.
    pub(super) fn weights(&self) -> Vec<f64> {
        self.flat.weights(&self.block.drawn)
    }

    /// Draws in a histogram.
    pub(super) fn histograms_hold(&self) -> u32 {
        self.margins().counts.iter().sum()
    }
}
