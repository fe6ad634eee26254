//! How far the shop's own sides differ from one another.
//!
//! The draws of a side want two kinds of figure: how far the saleable share of
//! the side differs, and how far each group of cuts does of itself. Both are
//! learnt at the side, as they are published: what every test gave of a group,
//! over what the published yields give at its stock by the same ways, is
//! `1 + r`; the saleable share less the published one is `r` itself. For each
//! series of `r`, by the model of [`crate::learning`] with `f = 1`:
//!
//! ```text
//! m = Σ w·r ⁄ (κ₀ + Σ w)        S = ν₀σ₀² + Σ w·r² − (κ₀ + Σ w)·m²
//! deviation = √(S ⁄ (ν₀ + tests)); of a group, that over 1 + m
//! ```
//!
//! The tests alone say `√(Σ w·(r − r̄)² ⁄ (tests − 1))`, which is shown beside it.
//!
//! Whether a shop's sides are on the whole heavier in a cut (`m`) is thus told
//! from how far they differ. Simulation takes these figures, so they are floats;
//! tests are summed in one order, whatever order they come in.

use carcass::{Catalogue, Kind, ProductId};
use litemap::LiteMap;
use quantity::{Decimal, Share};

use super::expected::Expected;
use super::interval::{float, share_of};
use super::{Learning, Prior, TestedSide};

/// How far sides differ in one thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SpreadOf {
    /// As it is published.
    pub published: Share,
    /// In the tests alone; `None` with fewer than two.
    pub own: Option<Share>,
    /// Both together.
    pub used: Share,
    /// How many sides were weighed in the tests that say something of it.
    pub sides: Decimal,
}

/// The spread that draws use after the shop's tests.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnSpread {
    /// Standard deviation of the saleable share of the side.
    pub saleable: SpreadOf,
    /// Coefficient of variation of each group that a test gave something of,
    /// told by one product of the group.
    pub groups: Vec<(ProductId, SpreadOf)>,
    /// How many tests count.
    pub tests: usize,
}

impl Learning<'_> {
    /// The spread that `tests` say, together with the published one.
    pub fn spread<'b>(&self, tests: impl IntoIterator<Item = &'b TestedSide>) -> OwnSpread {
        let groups = Groups::of(self.catalogue);
        let mut expected = Expected::default();
        let mut residuals: Vec<Residuals> = tests
            .into_iter()
            .map(|test| Residuals::of(self.catalogue, &groups, test, &mut expected))
            .collect();
        residuals.sort_by(Residuals::in_order);
        let spread = self.catalogue.spread();
        let series = |pick: &dyn Fn(&Residuals) -> Option<f64>, published: Share| {
            Series::of(
                self.prior,
                residuals
                    .iter()
                    .filter_map(|residual| Some((residual.sides, pick(residual)?))),
                published,
            )
        };
        let saleable = series(&|residual| Some(residual.saleable), spread.unknown.value);
        let own_groups = groups
            .first_products
            .iter()
            .enumerate()
            .filter_map(|(group, product)| {
                let published = self.catalogue.spread_of(*product)?.cv;
                let series = series(
                    &|residual| residual.groups.get(group).copied().flatten(),
                    published,
                );
                (series.tests > 0).then(|| (*product, series.relative()))
            })
            .collect();
        OwnSpread {
            saleable: saleable.absolute(),
            groups: own_groups,
            tests: residuals.len(),
        }
    }
}

/// What one series of residuals says.
struct Series {
    published: Share,
    tests: usize,
    sides: f64,
    /// Mean and deviation with the published spread.
    used: [f64; 2],
    /// Those of the tests alone.
    own: Option<[f64; 2]>,
}

impl Series {
    fn of(prior: Prior, residuals: impl Iterator<Item = (f64, f64)>, published: Share) -> Self {
        let (mut tests, mut sides, mut first, mut second) = (0_usize, 0.0, 0.0, 0.0);
        for (weight, residual) in residuals {
            tests += 1;
            sides += weight;
            first += weight * residual;
            second += weight * residual * residual;
        }
        let strength = float(prior.spread());
        let all = float(prior.yields()) + sides;
        let mean = first / all;
        let before = float(published.fraction());
        let square = strength * before * before + second - all * mean * mean;
        let count = u32::try_from(tests).map_or(f64::from(u32::MAX), f64::from);
        let deviation = (square.max(0.0) / (strength + count)).sqrt();
        let own = (tests > 1).then(|| {
            let mean = first / sides;
            let square = second - sides * mean * mean;
            [mean, (square.max(0.0) / (count - 1.0)).sqrt()]
        });
        Self {
            published,
            tests,
            sides,
            used: [mean, deviation],
            own,
        }
    }

    fn told(&self, deviation: impl Fn([f64; 2]) -> f64) -> SpreadOf {
        SpreadOf {
            published: self.published,
            own: self.own.map(|own| share_of(deviation(own))),
            used: share_of(deviation(self.used)),
            // Sides are whole numbers.
            sides: Decimal::try_from(self.sides).unwrap_or_default(),
        }
    }

    /// As a share of the side.
    fn absolute(&self) -> SpreadOf {
        self.told(|[_, deviation]| deviation)
    }

    /// As a share of what sides give on the whole.
    fn relative(&self) -> SpreadOf {
        self.told(|[mean, deviation]| deviation / (1.0 + mean).max(0.1))
    }
}

/// The groups that products move with.
struct Groups {
    /// The first product of each.
    first_products: Vec<ProductId>,
    of_product: LiteMap<ProductId, usize>,
}

impl Groups {
    fn of(catalogue: &Catalogue) -> Self {
        let mut names: Vec<&str> = Vec::new();
        let mut first_products = Vec::new();
        let mut of_product = LiteMap::new();
        for (product, _) in catalogue.products() {
            let Some(group) = catalogue.spread_of(product) else {
                continue;
            };
            let place = names
                .iter()
                .position(|name| *name == group.name)
                .unwrap_or_else(|| {
                    names.push(&group.name);
                    first_products.push(product);
                    names.len() - 1
                });
            of_product.insert(product, place);
        }
        Self {
            first_products,
            of_product,
        }
    }
}

/// The share of the side that products of these kinds have in a test, and the
/// one that the published yields give by the same ways; `None` where nothing was
/// weighed.
pub(crate) fn side_shares(
    catalogue: &Catalogue,
    test: &TestedSide,
    kinds: &[Kind],
    expected: &mut Expected,
) -> Option<[f64; 2]> {
    let (mut of_kinds, mut expected_of_kinds, mut total) = (0.0, 0.0, 0.0);
    for (product, weight, expected) in expected.products(catalogue, test) {
        total += weight;
        if kinds.contains(&catalogue[product].kind) {
            of_kinds += weight;
            expected_of_kinds += expected;
        }
    }
    (total > 0.0).then(|| [of_kinds / total, expected_of_kinds])
}

/// How one test differs from the published yields.
struct Residuals {
    sides: f64,
    saleable: f64,
    groups: Vec<Option<f64>>,
}

impl Residuals {
    fn of(
        catalogue: &Catalogue,
        groups: &Groups,
        test: &TestedSide,
        expected: &mut Expected,
    ) -> Self {
        let (mut seen, mut published) = (
            vec![0.0; groups.first_products.len()],
            vec![0.0; groups.first_products.len()],
        );
        let (mut saleable_seen, mut saleable_published, mut total) = (0.0, 0.0, 0.0);
        for (product, weight, expected) in expected.products(catalogue, test) {
            total += weight;
            if catalogue[product].kind == Kind::Cut {
                saleable_seen += weight;
                saleable_published += expected;
            }
            if let Some(group) = groups.of_product.get(&product) {
                if let Some(sum) = seen.get_mut(*group) {
                    *sum += weight;
                }
                if let Some(sum) = published.get_mut(*group) {
                    *sum += expected;
                }
            }
        }
        let whole = if total > 0.0 { total } else { 1.0 };
        Self {
            sides: f64::from(test.sides),
            saleable: saleable_seen / whole - saleable_published,
            groups: seen
                .iter()
                .zip(&published)
                .map(|(seen, published)| (*published > 0.0).then(|| seen / whole / published - 1.0))
                .collect(),
        }
    }

    /// The order in which tests are summed.
    fn in_order(&self, other: &Self) -> core::cmp::Ordering {
        let key = |residuals: &Self| (residuals.sides, residuals.saleable);
        let (one, two) = (key(self), key(other));
        one.0
            .total_cmp(&two.0)
            .then(one.1.total_cmp(&two.1))
            .then_with(|| {
                let groups = self.groups.iter().zip(&other.groups);
                groups
                    .map(|(one, two)| one.unwrap_or(-1.0).total_cmp(&two.unwrap_or(-1.0)))
                    .find(|order| order.is_ne())
                    .unwrap_or(core::cmp::Ordering::Equal)
            })
    }
}
