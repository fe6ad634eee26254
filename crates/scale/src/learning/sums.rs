//! What is kept of the tests of one way at one end of the stock: exact sums.

use quantity::{Decimal, Share};

use super::Prior;
use super::interval::{float, share_of};

/// What one test says of a way at one end.
#[derive(Clone, Debug)]
pub(super) struct Seen {
    /// How near the stock lies to the end, 0 to 1.
    pub nearness: Decimal,
    /// How many sides were weighed together.
    pub sides: Decimal,
    /// The shares seen less the published ones.
    pub deviations: Vec<Decimal>,
}

/// Sums of deviations and of their squares.
#[derive(Clone, Debug)]
pub(super) struct Sums {
    /// `Σ f`: tests, each by its nearness.
    pub tests: Decimal,
    /// `Σ w`: sides, each by its nearness.
    pub sides: Decimal,
    /// `Σ w·d` and `Σ w·d²` of each output.
    outputs: Vec<[Decimal; 2]>,
}

impl Sums {
    pub fn of(outputs: usize) -> Self {
        Self {
            tests: Decimal::ZERO,
            sides: Decimal::ZERO,
            outputs: vec![[Decimal::ZERO; 2]; outputs],
        }
    }

    pub fn add(&mut self, seen: &Seen) {
        self.gather(seen, Decimal::ONE);
    }

    /// The sums without a test that was added.
    pub fn without(&self, seen: &Seen) -> Self {
        let mut sums = self.clone();
        sums.gather(seen, Decimal::NEGATIVE_ONE);
        sums
    }

    fn gather(&mut self, seen: &Seen, sign: Decimal) {
        let weight = seen.nearness * seen.sides * sign;
        self.tests += seen.nearness * sign;
        self.sides += weight;
        for ([first, second], deviation) in self.outputs.iter_mut().zip(&seen.deviations) {
            let of_one = weight * *deviation;
            *first += of_one;
            *second += of_one * *deviation;
        }
    }

    /// What the sums say of each output whose published deviation between sides
    /// is `published`.
    pub fn posterior(&self, prior: Prior, published: &[Decimal]) -> Vec<Posterior> {
        let sides = prior.yields() + self.sides;
        let tests = prior.spread() + self.tests;
        self.outputs
            .iter()
            .zip(published)
            .map(|([first, second], published)| {
                // No strength is below a tenth of a side.
                let mean = first.checked_div(sides).unwrap_or_default();
                let square = prior.spread() * *published * *published + *second - *first * mean;
                Posterior {
                    mean,
                    sides,
                    tests,
                    square: square.max(Decimal::ZERO),
                }
            })
            .collect()
    }

    /// The mean deviation of each output in the tests alone; `None` without any.
    pub fn means(&self) -> Option<Vec<Decimal>> {
        self.outputs
            .iter()
            .map(|[first, _]| first.checked_div(self.sides))
            .collect()
    }
}

/// What is known of one output: normal–inverse-χ².
#[derive(Clone, Copy, Debug)]
pub(super) struct Posterior {
    /// `m`, the shop's mean deviation from the published share.
    pub mean: Decimal,
    /// `κ`, in sides.
    pub sides: Decimal,
    /// `ν`, degrees of freedom.
    pub tests: Decimal,
    /// `S`.
    pub square: Decimal,
}

impl Posterior {
    /// Variance between sides.
    pub fn variance(&self) -> f64 {
        float(self.square) / float(self.tests)
    }

    /// Standard deviation between sides.
    pub fn deviation(&self) -> Share {
        share_of(self.variance().sqrt())
    }

    /// Standard deviation of the mean.
    pub fn of_mean(&self) -> f64 {
        (self.variance() / float(self.sides)).sqrt()
    }
}
