//! Which limits clash when no plan keeps them all.
//!
//! Limits are dropped one by one; one without which there is still no plan is
//! left out for good, one without which there is a plan is put back. What is
//! left clashes, and would not without any one of them (the deletion filter of
//! J. W. Chinneck and E. W. Dravnieks, “Locating minimal infeasible constraint
//! sets in linear programs”, ORSA Journal on Computing 3, 1991; from memory).
//! There may be other such sets; the order of [`Limits::all`] decides which is
//! told.

use super::limits::{Limit, Limits};
use super::search::{Budget, Within, any_within};
use super::side_tree::SideTree;

/// Limits that no plan keeps all of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clash {
    /// The limits.
    pub limits: Vec<Limit>,
    /// Whether dropping any one of them is proven to leave a plan.
    pub is_minimal: bool,
}

/// The clash of `limits`, which no plan keeps all of.
pub(super) fn find(tree: &SideTree, limits: &Limits, most_work: u64) -> Clash {
    let mut clashing = limits.clone();
    let mut is_minimal = true;
    for limit in limits.all() {
        let without = clashing.without(limit);
        let mut budget = Budget::new(most_work);
        match any_within(tree.problem(&without), &mut budget) {
            Within::None => clashing = without,
            Within::Some(_) => {}
            Within::CutOff => is_minimal = false,
        }
    }
    Clash {
        limits: clashing.all(),
        is_minimal,
    }
}
