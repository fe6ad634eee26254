//! What is kept of the tests of one way at one end of the stock: exact sums.

use quantity::{Decimal, Share};

use super::Prior;
use super::interval::{float, share_of};
use crate::composition::PLACES;

/// Digits of how near a stock lies to an end.
pub(super) const NEARNESS_PLACES: u32 = 4;

/// What one test says of a way at one end.
#[derive(Clone, Debug)]
pub(super) struct Seen {
    /// How near the stock lies to the end, in ten-thousandths.
    pub nearness: i64,
    /// How many sides were weighed together.
    pub sides: u32,
    /// The shares seen less the published ones, in billionths: together nothing.
    pub deviations: Vec<i64>,
}

/// Sums of deviations and of their squares, in whole numbers, so that they are
/// exact: with a million sides they are a thousandth of what a number holds.
#[derive(Clone, Debug)]
pub(super) struct Sums {
    /// `Σ f`: tests, each by its nearness, in ten-thousandths.
    tests: i64,
    /// `Σ w`: sides, each by its nearness, in ten-thousandths.
    sides: i64,
    /// `Σ w·d` and `Σ w·d²` of each output.
    outputs: Vec<[i128; 2]>,
}

/// A whole number as a float.
#[expect(
    clippy::cast_precision_loss,
    reason = "digits beyond the sixteenth do not matter to a distribution"
)]
const fn whole(number: i128) -> f64 {
    number as f64
}

/// `Σ w·d` counts in parts of this.
const FIRST: f64 = 1e13;
/// `Σ w·d²` counts in parts of this.
const SECOND: f64 = 1e22;

impl Sums {
    pub fn of(outputs: usize) -> Self {
        Self {
            tests: 0,
            sides: 0,
            outputs: vec![[0; 2]; outputs],
        }
    }

    pub fn add(&mut self, seen: &Seen) {
        let weight = seen.nearness.saturating_mul(i64::from(seen.sides));
        self.tests = self.tests.saturating_add(seen.nearness);
        self.sides = self.sides.saturating_add(weight);
        for ([first, second], deviation) in self.outputs.iter_mut().zip(&seen.deviations) {
            let of_one = i128::from(weight) * i128::from(*deviation);
            *first = first.saturating_add(of_one);
            *second = second.saturating_add(of_one * i128::from(*deviation));
        }
    }

    /// Sides, each by its nearness.
    pub fn sides(&self) -> Decimal {
        Decimal::new(self.sides, NEARNESS_PLACES)
    }

    /// What the sums say of each output whose published deviation between sides
    /// is `published`; `without` is a test among them that is not to count.
    pub fn posterior<'a>(
        &'a self,
        prior: Prior,
        published: &'a [f64],
        without: Option<&'a Seen>,
    ) -> impl Iterator<Item = Posterior> + 'a {
        let nearness = without.map_or(0, |seen| seen.nearness);
        let weight = without.map_or(0, |seen| seen.nearness * i64::from(seen.sides));
        let parts = |number: i64| whole(i128::from(number)) / 1e4;
        let strength = float(prior.spread());
        let sides = float(prior.yields()) + parts(self.sides - weight);
        let tests = strength + parts(self.tests - nearness);
        self.outputs.iter().zip(published).enumerate().map(
            move |(place, ([first, second], published))| {
                let gone = without
                    .and_then(|seen| seen.deviations.get(place))
                    .map_or(0, |deviation| i128::from(*deviation));
                let of_gone = i128::from(weight) * gone;
                let first = whole(first - of_gone) / FIRST;
                let second = whole(second - of_gone * gone) / SECOND;
                // No strength is below a tenth of a side.
                let mean = first / sides;
                let square = strength * published * published + second - first * mean;
                Posterior {
                    mean,
                    sides,
                    tests,
                    square: square.max(0.0),
                }
            },
        )
    }

    /// The mean deviation of each output with the prior's sides, exact but for
    /// the last digit of a quotient.
    pub fn learnt(&self, prior: Prior) -> Vec<Decimal> {
        self.quotients(prior.yields() + self.sides())
            .unwrap_or_default()
    }

    /// The mean deviation of each output in the tests alone; `None` without any.
    pub fn means(&self) -> Option<Vec<Decimal>> {
        self.quotients(self.sides())
    }

    fn quotients(&self, sides: Decimal) -> Option<Vec<Decimal>> {
        self.outputs
            .iter()
            .map(|[first, _]| {
                let first =
                    Decimal::try_from_i128_with_scale(*first, NEARNESS_PLACES + PLACES).ok()?;
                first.checked_div(sides)
            })
            .collect()
    }
}

/// What is known of one output: normal–inverse-χ².
#[derive(Clone, Copy, Debug)]
pub(super) struct Posterior {
    /// `m`, the shop's mean deviation from the published share.
    pub mean: f64,
    /// `κ`, in sides.
    pub sides: f64,
    /// `ν`, degrees of freedom.
    pub tests: f64,
    /// `S`.
    pub square: f64,
}

impl Posterior {
    /// Variance between sides.
    pub fn variance(&self) -> f64 {
        self.square / self.tests
    }

    /// Standard deviation between sides.
    pub fn deviation(&self) -> Share {
        share_of(self.variance().sqrt())
    }

    /// Standard deviation of the mean.
    pub fn of_mean(&self) -> f64 {
        (self.variance() / self.sides).sqrt()
    }
}
