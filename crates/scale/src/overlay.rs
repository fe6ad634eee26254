//! The shop's own yields in the place of the published ones: a catalogue that
//! everything else takes its figures from.

use std::collections::BTreeSet;

use carcass::{Catalogue, WayId};

use crate::learning::{Learning, OwnSpread};

/// Lays what was learnt over the published catalogue.
///
/// Every way that some test says something about has the learnt shares at that
/// end of the stock; `as_published` are the ways that the shop has put back to
/// the defaults. The result tells itself what is own and what is published
/// ([`carcass::Way::own`], [`carcass::Mark::Own`]). Draws take `spread`, where it
/// is given and rests on any test.
pub fn overlay(
    learning: &Learning,
    as_published: &BTreeSet<WayId>,
    spread: Option<&OwnSpread>,
) -> Catalogue {
    let mut own = learning.catalogue().clone();
    for (way, end) in learning.learnt() {
        if !as_published.contains(&way) {
            let shares = learning.way(way, end).used();
            // Learnt shares are a whole, one for each output.
            let is_set = own.set_own_shares(way, end, &shares);
            debug_assert_eq!(is_set, Ok(()));
        }
    }
    if let Some(spread) = spread.filter(|spread| spread.tests > 0) {
        own.set_own_saleable_spread(spread.saleable);
        for (product, cv) in &spread.groups {
            own.set_own_group_spread(*product, *cv);
        }
    }
    own
}
