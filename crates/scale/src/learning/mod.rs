//! The shop's own yields, learnt from its cutting tests.
//!
//! # Model
//!
//! What a way gives is a composition: its shares sum to one. Take the shares
//! `x` that side `k` gave and the published ones `p` at that side's stock; what
//! is learnt is the shop's mean deviation from the published yields, one for
//! each end of the stock, from `d = x − p`, which sums to nothing. The whole
//! vector is normal between sides on the plane on which it sums to nothing,
//! with a normal–inverse-Wishart prior around no deviation at all (Gelman et
//! al., *Bayesian Data Analysis*, 3rd ed., 3.6, from memory). With `κ₀` and `ν₀`
//! the strength of the published yields and of the published spread, in sides,
//! `w` the sides of a test times how near its stock lies to the end, and `f`
//! that nearness alone:
//!
//! ```text
//! κ = κ₀ + Σ w          m = Σ w·d ⁄ κ         own yield  = p + m
//! ν = ν₀ + Σ f          S = ν₀σ₀² + Σ w·d² − κ·m²        deviation = √(S ⁄ ν)
//! 90 % interval of the yield: p + m ± t(ν; 0.95) · √(S ⁄ (ν·κ))
//! ```
//!
//! The last two lines are those of one output, whose margin is the normal model
//! with unknown mean and variance (*ibid.*, 3.3); the mean is that of the whole
//! vector, so yields sum to one by themselves. `σ₀` is the published coefficient
//! of variation of the product's group times its published share; a part varies
//! as what comes off it, by its reference way, varies together.
//!
//! # Why this one
//!
//! - **The mean is that of a Dirichlet.** `p + m = (κ₀·p + Σ w·x) ⁄ (κ₀ + Σ w)`:
//!   the published yields count like `κ₀` sides (*ibid.*, 3.4, the multinomial
//!   with a Dirichlet prior). But one concentration would tie the spread of every
//!   cut to its size, with a cut of 1 % spreading nine times as far, of itself,
//!   as one of 45 %; published coefficients of variation are 3 to 11 % whatever
//!   the size of the cut (Judge et al. 2019). So every output keeps its own
//!   spread.
//! - **Shares, not their logarithms.** Money is linear in the shares, so a plan
//!   needs their mean; the mean of log-ratios gives back a geometric one, and has
//!   no answer for a cut that a side did not give.
//! - **Sums alone.** `Σ w`, `Σ w·d` and `Σ w·d²` are exact, so neither
//!   the order of the tests nor how they are gathered changes a digit, and a test
//!   is left out by leaving it out of the sums.
//!
//! A test of stock between the ends counts at both, by its nearness (a power of
//! its likelihood); deviations of a shop that buys one stock between the ends
//! thus add up on the line between them to what it saw.
//!
//! # What is a model here
//!
//! The strengths are estimates: no published figure says how far the long-run
//! yields of one shop lie from published ones. Where a product that comes off
//! several parts was weighed in one tray, it was divided among them as planned,
//! so the side is learnt right and single parts less so.

mod expected;
mod interval;
mod odd;
mod spread;
mod sums;
mod way_yield;

use litemap::LiteMap;

use carcass::{Catalogue, Output, PartId, Stock, StockEnd, WayId};
use quantity::{Decimal, Rounding, Share};

use crate::composition::{WayWeights, billionths};

pub use interval::Interval;
pub use odd::{Odd, OddLevel};
pub use spread::{OwnSpread, SpreadOf};
pub use way_yield::{OutputYield, WayYield};

pub(crate) use expected::Expected;
pub(crate) use interval::{float, student};
pub(crate) use spread::side_shares;
use sums::{Seen, Sums};

/// How much the published figures count for, in sides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Prior {
    yields: Decimal,
    spread: Decimal,
}

impl Prior {
    /// The least and the most sides that the published yields can count for.
    pub const YIELDS: [Decimal; 2] = [
        Decimal::from_parts(1, 0, 0, false, 1),
        Decimal::from_parts(1000, 0, 0, false, 0),
    ];
    /// The least and the most sides that the published spread can count for.
    pub const SPREAD: [Decimal; 2] = [Decimal::ONE, Decimal::from_parts(1000, 0, 0, false, 0)];

    /// Published yields that count for so many sides, published spread for so
    /// many; what lies outside the bounds is taken to the nearer one, digits
    /// past the third are dropped.
    pub fn new(yields: Decimal, spread: Decimal) -> Self {
        let within = |number: Decimal, [least, most]: [Decimal; 2]| {
            Rounding::HalfEven.to_places(number.clamp(least, most), 3)
        };
        Self {
            yields: within(yields, Self::YIELDS),
            spread: within(spread, Self::SPREAD),
        }
    }

    /// How many sides the published yields count for.
    pub const fn yields(self) -> Decimal {
        self.yields
    }

    /// How many sides the published spread counts for.
    pub const fn spread(self) -> Decimal {
        self.spread
    }
}

impl Default for Prior {
    /// Three sides for the yields: trim and cutting style move a cut about as
    /// far between shops as sides differ in one shop. Ten for the spread, which
    /// was measured on hundreds of animals, but on others. Both are estimates.
    fn default() -> Self {
        Self {
            yields: Decimal::from_parts(3, 0, 0, false, 0),
            spread: Decimal::TEN,
        }
    }
}

/// A side that was cut and weighed, as far as learning goes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TestedSide {
    /// How the animal was finished.
    pub stock: Stock,
    /// How many sides were weighed together.
    pub sides: u32,
    /// What came off every way.
    pub ways: Vec<WayWeights>,
}

/// What a catalogue and some cutting tests say together.
#[derive(Clone, Debug)]
pub struct Learning<'a> {
    catalogue: &'a Catalogue,
    prior: Prior,
    sums: LiteMap<(WayId, StockEnd), Sums>,
    /// Coefficient of variation of every part, as it is published.
    part_cv: LiteMap<PartId, Decimal>,
    sides: Decimal,
    tests: usize,
}

impl<'a> Learning<'a> {
    /// What the tests say; `catalogue` is the published one. Tests that are to
    /// be left out are left out by the caller.
    pub fn of<'b>(
        catalogue: &'a Catalogue,
        prior: Prior,
        tests: impl IntoIterator<Item = &'b TestedSide>,
    ) -> Self {
        let mut learning = Self {
            catalogue,
            prior,
            sums: LiteMap::new(),
            part_cv: part_variation(catalogue),
            sides: Decimal::ZERO,
            tests: 0,
        };
        let mut published = Published::default();
        for test in tests {
            let published = published.at(test.stock);
            learning.tests += 1;
            learning.sides += Decimal::from(test.sides);
            let ends = StockEnd::BOTH.map(|end| (end, nearness(test.stock, end)));
            for way in &test.ways {
                let deviations = published.deviations(catalogue, way);
                let Some(deviations) = deviations else {
                    continue;
                };
                let mut seen = Seen {
                    nearness: 0,
                    sides: test.sides,
                    deviations,
                };
                for (end, nearness) in ends.into_iter().filter(|(_, near)| *near > 0) {
                    seen.nearness = nearness;
                    learning.add((way.way, end), &seen);
                }
            }
        }
        learning
    }

    fn add(&mut self, of: (WayId, StockEnd), seen: &Seen) {
        if let Some(sums) = self.sums.get_mut(&of) {
            sums.add(seen);
        } else {
            let mut sums = Sums::of(seen.deviations.len());
            sums.add(seen);
            self.sums.insert(of, sums);
        }
    }

    /// The catalogue that the deviations are taken from.
    pub const fn catalogue(&self) -> &'a Catalogue {
        self.catalogue
    }

    /// How much the published figures count for.
    pub const fn prior(&self) -> Prior {
        self.prior
    }

    /// How many tests count.
    pub const fn tests(&self) -> usize {
        self.tests
    }

    /// How many sides were weighed in them.
    pub const fn sides(&self) -> Decimal {
        self.sides
    }

    /// Every way with an end of the stock that some test says something about.
    pub fn learnt(&self) -> impl Iterator<Item = (WayId, StockEnd)> {
        self.sums.keys().copied()
    }

    /// The published standard deviation between sides of each output of `way`
    /// at `end`, as a share of the part.
    fn published_deviations(&self, way: WayId, end: StockEnd) -> Vec<f64> {
        let catalogue = self.catalogue;
        let way = &catalogue[way];
        way.outputs
            .iter()
            .zip(way.shares_at(end))
            .map(|(output, share)| {
                let cv = match output.output {
                    Output::Part(part) => self.part_cv.get(&part).copied().unwrap_or_default(),
                    Output::Product(product) => catalogue
                        .spread_of(product)
                        .map_or(Decimal::ZERO, |group| group.cv.fraction()),
                };
                float(share.fraction() * cv)
            })
            .collect()
    }
}

/// The published shares of the ways in billionths, stock by stock, as far as they
/// were asked for.
#[derive(Default)]
struct Published(LiteMap<Stock, PublishedAt>);

impl Published {
    /// Those at a stock.
    fn at(&mut self, stock: Stock) -> &mut PublishedAt {
        self.0.entry(stock).or_insert_with(|| PublishedAt {
            stock,
            ways: LiteMap::new(),
        })
    }
}

/// The published shares of the ways at one stock.
struct PublishedAt {
    stock: Stock,
    ways: LiteMap<WayId, Vec<i64>>,
}

impl PublishedAt {
    /// The shares seen less the published ones: together exactly nothing. `None`
    /// where nothing came off the way, or it does not give as many things as were
    /// weighed.
    fn deviations(&mut self, catalogue: &Catalogue, seen: &WayWeights) -> Option<Vec<i64>> {
        let stock = self.stock;
        let published = self.ways.entry(seen.way).or_insert_with(|| {
            let shares = catalogue[seen.way].shares(stock).map(Share::fraction);
            billionths(shares).unwrap_or_default()
        });
        if published.len() != seen.outputs.len() {
            return None;
        }
        let mut shares = billionths(seen.outputs.iter().map(|output| output.kg()))?;
        for (share, published) in shares.iter_mut().zip(published) {
            *share -= *published;
        }
        Some(shares)
    }
}

/// How near `stock` lies to `end`, in ten-thousandths.
fn nearness(stock: Stock, end: StockEnd) -> i64 {
    let near = end.part_of(stock).fraction() * Decimal::from(10_000);
    i64::try_from(Rounding::HalfEven.to_places(near, 0)).unwrap_or_default()
}

/// The coefficient of variation of every part: the mean of those of what comes
/// off it by its reference way, grain-fed, each by its share.
fn part_variation(catalogue: &Catalogue) -> LiteMap<PartId, Decimal> {
    fn of(catalogue: &Catalogue, part: PartId, known: &mut LiteMap<PartId, Decimal>) -> Decimal {
        if let Some(known) = known.get(&part) {
            return *known;
        }
        let outputs = catalogue
            .reference_way(part)
            .map_or(&[][..], |way| &catalogue[way].outputs);
        let cv = outputs
            .iter()
            .map(|output| {
                let cv = match output.output {
                    Output::Part(part) => of(catalogue, part, known),
                    Output::Product(product) => catalogue
                        .spread_of(product)
                        .map_or(Decimal::ZERO, |group| group.cv.fraction()),
                };
                cv * output.grain.fraction()
            })
            .sum();
        known.insert(part, cv);
        cv
    }
    let mut known = LiteMap::new();
    for (part, _) in catalogue.parts() {
        of(catalogue, part, &mut known);
    }
    known
}

#[cfg(test)]
mod coverage;
#[cfg(test)]
mod tests;
