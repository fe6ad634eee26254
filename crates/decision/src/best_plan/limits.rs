//! What a plan must keep to.

use std::collections::{BTreeMap, BTreeSet};

use carcass::{Catalogue, ProductId, WayId};
use quantity::{Mass, Minutes};

/// A least weight of several products together.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LeastGrind {
    /// What counts as grind.
    pub products: BTreeSet<ProductId>,
    /// The least of it, all together.
    pub weight: Mass,
}

/// What a plan must keep to. A limit counts as kept to within a billionth of a
/// minute or of a kilogram.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Limits {
    /// The most time at the bench: all that is not spent at the saw.
    pub bench: Option<Minutes>,
    /// The most time at the band saw.
    pub saw: Option<Minutes>,
    /// The most of a cut that the counter can sell.
    pub most: BTreeMap<ProductId, Mass>,
    /// Cuts that must be there.
    pub must: BTreeSet<ProductId>,
    /// Cuts that must not be there.
    pub must_not: BTreeSet<ProductId>,
    /// Ways that must not be taken.
    pub closed: BTreeSet<WayId>,
    /// A least weight of grind.
    pub grind: Option<LeastGrind>,
}

/// One limit, by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Limit {
    /// Time at the bench.
    Bench,
    /// Time at the band saw.
    Saw,
    /// The least weight of grind.
    Grind,
    /// The most of a cut.
    Most(ProductId),
    /// A cut that must be there.
    Must(ProductId),
    /// A cut that must not be there.
    MustNot(ProductId),
    /// A way that must not be taken.
    Closed(WayId),
}

impl Limits {
    /// Closes every way that triggers a caution: back bone of older cattle, say.
    pub fn close_caution(&mut self, catalogue: &Catalogue, caution: &str) {
        for (way, _) in catalogue.ways() {
            if catalogue.cautions_of(way).any(|found| found.id == caution) {
                self.closed.insert(way);
            }
        }
    }

    /// Every limit, in a fixed order.
    pub fn all(&self) -> Vec<Limit> {
        let times = [
            self.bench.map(|_| Limit::Bench),
            self.saw.map(|_| Limit::Saw),
            self.grind.as_ref().map(|_| Limit::Grind),
        ];
        times
            .into_iter()
            .flatten()
            .chain(self.most.keys().copied().map(Limit::Most))
            .chain(self.must.iter().copied().map(Limit::Must))
            .chain(self.must_not.iter().copied().map(Limit::MustNot))
            .chain(self.closed.iter().copied().map(Limit::Closed))
            .collect()
    }

    /// These limits without one of them.
    #[must_use]
    pub fn without(&self, limit: Limit) -> Self {
        let mut limits = self.clone();
        match limit {
            Limit::Bench => limits.bench = None,
            Limit::Saw => limits.saw = None,
            Limit::Grind => limits.grind = None,
            Limit::Most(product) => {
                limits.most.remove(&product);
            }
            Limit::Must(product) => {
                limits.must.remove(&product);
            }
            Limit::MustNot(product) => {
                limits.must_not.remove(&product);
            }
            Limit::Closed(way) => {
                limits.closed.remove(&way);
            }
        }
        limits
    }
}
