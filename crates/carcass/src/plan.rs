//! A cut plan: one way for every part that is reached.

use std::collections::BTreeMap;

use crate::catalogue::{Catalogue, PartId, WayId};

/// Which way each part is broken. A part without an entry takes its reference
/// way, so every plan is complete.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CutPlan {
    ways: BTreeMap<PartId, WayId>,
}

impl CutPlan {
    /// Chooses `way` for `part` and returns the way chosen before, if any.
    pub fn choose(&mut self, part: PartId, way: WayId) -> Option<WayId> {
        self.ways.insert(part, way)
    }

    /// The way `part` is broken. A way that is not one of the part's own
    /// counts as none chosen.
    pub fn way_of(&self, catalogue: &Catalogue, part: PartId) -> Option<WayId> {
        self.ways
            .get(&part)
            .copied()
            .filter(|&way| catalogue[way].part == part)
            .or_else(|| catalogue.reference_way(part))
    }

    /// Every choice made, in part order.
    pub fn choices(&self) -> impl Iterator<Item = (PartId, WayId)> {
        self.ways.iter().map(|(&part, &way)| (part, way))
    }
}
