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
use super::{Learning, Published, TestedSide, nearness};
use crate::composition::PLACES;

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

impl Learning<'_> {
    /// What is odd about each of `tests`, in their order. Each is taken to be
    /// one of those that were learnt from; one that was left out is held
    /// against all of them with [`Learning::odd_beside`].
    pub fn odd<'b>(
        &self,
        level: OddLevel,
        tests: impl IntoIterator<Item = &'b TestedSide>,
    ) -> Vec<Vec<Odd>> {
        let mut asked = Asked::default();
        tests
            .into_iter()
            .map(|test| self.odd_in(level, test, true, &mut asked))
            .collect()
    }

    /// What is odd about a test that was not learnt from.
    pub fn odd_beside(&self, level: OddLevel, test: &TestedSide) -> Vec<Odd> {
        self.odd_in(level, test, false, &mut Asked::default())
    }

    fn odd_in(
        &self,
        level: OddLevel,
        test: &TestedSide,
        was_learnt: bool,
        asked: &mut Asked,
    ) -> Vec<Odd> {
        let nearer = if StockEnd::Grass.part_of(test.stock) > StockEnd::Grain.part_of(test.stock) {
            StockEnd::Grass
        } else {
            StockEnd::Grain
        };
        let near = nearness(test.stock, nearer);
        let published = asked.published.at(test.stock);
        let seen: Vec<(WayId, Seen)> = test
            .ways
            .iter()
            .filter_map(|way| {
                let seen = Seen {
                    nearness: near,
                    sides: test.sides,
                    deviations: published.deviations(self.catalogue, way)?,
                };
                Some((way.way, seen))
            })
            .collect();
        let shares: usize = seen.iter().map(|(_, seen)| seen.deviations.len()).sum();
        let mut odd = Vec::new();
        for (way, seen) in &seen {
            let Some(sums) = self.sums.get(&(*way, nearer)) else {
                continue;
            };
            let spread = asked.spreads.get(&(*way, nearer)).cloned();
            let spread = spread.unwrap_or_else(|| {
                let spread = self.published_deviations(*way, nearer);
                asked.spreads.insert((*way, nearer), spread.clone());
                spread
            });
            let without = was_learnt.then_some(seen);
            let posteriors = sums.posterior(self.prior, &spread, without);
            for (place, (posterior, deviation)) in posteriors.zip(&seen.deviations).enumerate() {
                let t = asked.quantile(level, (posterior.tests, shares));
                let of_mean = posterior.of_mean();
                let one_more = posterior.variance() / f64::from(seen.sides.max(1));
                let half = t * (one_more + of_mean * of_mean).sqrt();
                let deviation = Decimal::new(*deviation, PLACES);
                if (float(deviation) - posterior.mean).abs() > half {
                    let data = &self.catalogue[*way];
                    let published = data.shares_at(nearer).nth(place).unwrap_or_default();
                    odd.extend(data.outputs.get(place).map(|output| Odd {
                        way: *way,
                        output: output.output,
                        seen: published + Share::from_fraction(deviation),
                        expected: published + share_of(posterior.mean),
                        half_width: share_of(half),
                    }));
                }
            }
        }
        odd
    }
}

/// What was reckoned before and is asked for again.
#[derive(Default)]
struct Asked {
    published: Published,
    spreads: LiteMap<(WayId, StockEnd), Vec<f64>>,
    /// Quantiles by degrees of freedom and shares of a test.
    quantiles: Vec<((f64, usize), f64)>,
}

impl Asked {
    /// How far out a share is odd.
    fn quantile(&mut self, level: OddLevel, of: (f64, usize)) -> f64 {
        let is_it =
            |(known, _): &&((f64, usize), f64)| known.0.total_cmp(&of.0).is_eq() && known.1 == of.1;
        // The last one asked for is most often the one that is asked for next.
        if let Some((_, t)) = self.quantiles.iter().rev().find(is_it) {
            return *t;
        }
        let t = student(of.0, float(level.0.fraction()) / divisor(of.1));
        self.quantiles.push((of, t));
        t
    }
}

fn divisor(shares: usize) -> f64 {
    u32::try_from(shares.max(1)).map_or(f64::from(u32::MAX), f64::from)
}
