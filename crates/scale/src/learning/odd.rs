//! Tests that do not fit the others. They are named, never dropped: it is the
//! shop that knows whether the scale slipped or the side was such a one.
//!
//! The rule: each share that a test saw is held against what the published
//! yields and all *other* tests together let expect of one more such test,
//! Student's t with mean `m` and variance `S ⁄ ν · (1 ⁄ w + 1 ⁄ κ)` (Gelman et
//! al., *Bayesian Data Analysis*, 3rd ed., 3.3: posterior predictive
//! distribution, from memory). A share is odd where it lies so far out that an
//! ordinary test would show any such share at all with a stated chance only, which
//! is divided by how many shares the test has (Bonferroni). Of a stock between the
//! ends, the nearer end decides.

use carcass::{Output, StockEnd, WayId};
use litemap::LiteMap;
use quantity::{Decimal, Share};

use super::interval::{float, share_of, student};
use super::sums::Seen;
use super::{Learning, TestedSide, seen_in};

/// A share of a test that does not fit the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Odd {
    /// The way.
    pub way: WayId,
    /// The output of it.
    pub output: Output,
    /// Its share of the part in this test.
    pub seen: Share,
    /// What was to be expected.
    pub expected: Share,
    /// How far off it could have been.
    pub half_width: Share,
}

/// Of how many ordinary tests one is called odd.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OddLevel(Share);

impl OddLevel {
    /// A chance between one in a million and one half; what lies outside is
    /// taken to the nearer end.
    pub fn new(chance: Share) -> Self {
        let least = Share::from_fraction(Decimal::new(1, 6));
        let most = Share::from_fraction(Decimal::new(5, 1));
        Self(chance.clamp(least, most))
    }
}

impl Default for OddLevel {
    /// One ordinary test in five hundred, were every share normal. Small shares
    /// of fat lean to one side, so that it is about two in a hundred of simulated
    /// sides; a test counts them.
    fn default() -> Self {
        Self(Share::from_fraction(Decimal::new(2, 3)))
    }
}

/// Quantiles that were asked for before: degrees of freedom and shares of a
/// test.
type Quantiles = LiteMap<(Decimal, usize), f64>;

impl Learning<'_> {
    /// What is odd about each of `tests`, in their order. Each is taken to be
    /// one of those that were learnt from; one that was left out is held
    /// against all of them with [`Learning::odd_beside`].
    pub fn odd<'b>(
        &self,
        level: OddLevel,
        tests: impl IntoIterator<Item = &'b TestedSide>,
    ) -> Vec<Vec<Odd>> {
        let mut quantiles = Quantiles::new();
        tests
            .into_iter()
            .map(|test| self.odd_in(level, test, true, &mut quantiles))
            .collect()
    }

    /// What is odd about a test that was not learnt from.
    pub fn odd_beside(&self, level: OddLevel, test: &TestedSide) -> Vec<Odd> {
        self.odd_in(level, test, false, &mut Quantiles::new())
    }

    fn odd_in(
        &self,
        level: OddLevel,
        test: &TestedSide,
        was_learnt: bool,
        quantiles: &mut Quantiles,
    ) -> Vec<Odd> {
        let nearer = if StockEnd::Grass.part_of(test.stock) > StockEnd::Grain.part_of(test.stock) {
            StockEnd::Grass
        } else {
            StockEnd::Grain
        };
        let seen: Vec<(WayId, Seen)> = seen_in(self.catalogue, test)
            .filter(|(_, end, _)| *end == nearer)
            .map(|(way, _, seen)| (way, seen))
            .collect();
        let shares: usize = seen.iter().map(|(_, seen)| seen.deviations.len()).sum();
        let mut odd = Vec::new();
        for (way, seen) in &seen {
            let Some(sums) = self.sums.get(&(*way, nearer)) else {
                continue;
            };
            let others = if was_learnt {
                sums.without(seen)
            } else {
                sums.clone()
            };
            let published = self.published_deviations(*way, nearer);
            let data = &self.catalogue[*way];
            let posteriors = others.posterior(self.prior, &published);
            let Some(freedom) = posteriors.first().map(|posterior| posterior.tests) else {
                continue;
            };
            let t = quantile(quantiles, level, (freedom, shares));
            for (place, posterior) in posteriors.iter().enumerate() {
                let (Some(output), Some(deviation)) =
                    (data.outputs.get(place), seen.deviations.get(place))
                else {
                    continue;
                };
                let one_more = posterior.variance() / float(seen.sides.max(Decimal::ONE));
                let of_mean = posterior.of_mean();
                let half = share_of(t * (one_more + of_mean * of_mean).sqrt());
                let off = Share::from_fraction((*deviation - posterior.mean).abs());
                if off > half {
                    let published = data.shares_at(nearer).nth(place).unwrap_or_default();
                    odd.push(Odd {
                        way: *way,
                        output: output.output,
                        seen: published + Share::from_fraction(*deviation),
                        expected: published + Share::from_fraction(posterior.mean),
                        half_width: half,
                    });
                }
            }
        }
        odd
    }
}

/// How far out a share is odd, from what was asked for before or anew.
fn quantile(quantiles: &mut Quantiles, level: OddLevel, of: (Decimal, usize)) -> f64 {
    if let Some(t) = quantiles.get(&of) {
        return *t;
    }
    let (freedom, shares) = of;
    let t = student(float(freedom), float(level.0.fraction()) / divisor(shares));
    quantiles.insert(of, t);
    t
}

fn divisor(shares: usize) -> f64 {
    u32::try_from(shares.max(1)).map_or(f64::from(u32::MAX), f64::from)
}
