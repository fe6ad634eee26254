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
/// is given and rests on any test; a shop that has put its spread back to the
/// published one gives none.
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
        own.set_own_saleable_spread(spread.saleable.used);
        for (product, of_group) in &spread.groups {
            own.set_own_group_spread(*product, of_group.used);
        }
    }
    own
}

#[cfg(test)]
mod tests {
    use carcass::{Mark, Stock, StockEnd, break_down};
    use decision::best_plan::{Question, best_plan};
    use decision::spread::{DrawModel, KnownOfSide, Run};
    use decision::{Case, Input, WhatIf};
    use quantity::{Decimal, Mass, Share};

    use super::*;
    use crate::any_side::{CATALOGUE, deal, shop};
    use crate::composition::{products, way_weights};
    use crate::learning::{Prior, TestedSide};

    /// The way by which the boneless plan breaks the strip loin.
    fn strip_loin() -> WayId {
        let part = CATALOGUE.part_id("strip-loin").expect("a part");
        let plan = &CATALOGUE.plan("boneless").expect("a plan").plan;
        plan.ways_of(&CATALOGUE, part)[0].0
    }

    /// Five hundred sides of a shop that gets a third less steak of the strip
    /// loin, all else as published.
    fn tests() -> Vec<TestedSide> {
        let way = strip_loin();
        let mut other = CATALOGUE.clone();
        let mut shares: Vec<Share> = other[way].shares_at(StockEnd::Grain).collect();
        let lost = Share::from_fraction((shares[0].fraction() / Decimal::from(3)).round_dp(9));
        shares[0] = shares[0] - lost;
        shares[1] = shares[1] + lost;
        other
            .set_own_shares(way, StockEnd::Grain, &shares)
            .expect("a whole");
        let plan = &CATALOGUE.plan("boneless").expect("a plan").plan;
        let weight = Mass::from_kg(Decimal::from(3600));
        let side = break_down(&other, weight, 20, plan, Stock::GRAIN);
        let pieces: Vec<Mass> = products(&side).map(|(_, _, node)| node.weight).collect();
        let test = TestedSide {
            stock: Stock::GRAIN,
            sides: 20,
            ways: way_weights(&CATALOGUE, &side, &pieces),
        };
        vec![test; 25]
    }

    fn case(catalogue: &Catalogue) -> Case<'_> {
        Case {
            catalogue,
            deal: deal(),
            plan: CATALOGUE.plan("boneless").expect("a plan").plan.clone(),
            shop: shop(),
            days_hung: None,
        }
    }

    #[test]
    fn every_answer_takes_the_own_yields() {
        let tests = tests();
        let learning = Learning::of(&CATALOGUE, Prior::default(), &tests);
        let spread = learning.spread(&tests);
        let own = overlay(&learning, &BTreeSet::new(), Some(&spread));
        let (published, learnt) = (case(&CATALOGUE), case(&own));
        let profit = |case: &Case| case.sheet().expect("priced").totals.profit();
        let lost = profit(&published) - profit(&learnt);
        assert!(lost > quantity::Money::from_cents(1000), "{lost:?}");

        let none = WhatIf::default();
        let adjusted = none.with(Input::Weight, Decimal::from(180));
        let what_if = profit(&adjusted.adjusted(&learnt));
        assert_eq!(what_if, profit(&learnt));

        let found = best_plan(&learnt, &Question::default()).expect("an answer");
        assert_eq!(found.present.totals.profit(), profit(&learnt));

        let middle = |case: &Case| {
            let model = DrawModel::published(case.catalogue, KnownOfSide::Unknown);
            let mut run = Run::new(case, &model, 3).expect("priced");
            run.advance(4000);
            run.summary(Share::from_percent(Decimal::from(90)))
                .expect("draws")
                .profit
        };
        let [drawn, drawn_own] = [&published, &learnt].map(middle);
        let apart = (drawn.middle - drawn_own.middle - lost).units().abs();
        // Five hundred sides without any spread leave little of it.
        assert!(apart < lost.units() * Decimal::new(2, 1), "{apart}");
        let width = |band: decision::spread::Band<quantity::Money>| (band.high - band.low).units();
        assert!(width(drawn_own) < width(drawn));
    }

    #[test]
    fn own_and_published_are_told_apart_and_a_way_can_go_back() {
        let tests = tests();
        let learning = Learning::of(&CATALOGUE, Prior::default(), &tests);
        let way = strip_loin();
        let own = overlay(&learning, &BTreeSet::new(), None);
        assert!(own[way].own.grain && !own[way].own.grass);
        assert!(
            own[way]
                .outputs
                .iter()
                .all(|output| output.mark == Mark::Own)
        );
        let uncut = CATALOGUE.way_id("kidney-fat-tallow").expect("a way");
        assert!(!own[uncut].own.grain && own[uncut].outputs[0].mark != Mark::Own);
        assert_eq!(own.spread(), CATALOGUE.spread());

        let back = overlay(&learning, &BTreeSet::from([way]), None);
        assert!(!back[way].own.grain);
        let shares = |catalogue: &Catalogue| -> Vec<Share> {
            catalogue[way].shares_at(StockEnd::Grain).collect()
        };
        assert_eq!(shares(&back), shares(&CATALOGUE));
        assert_ne!(shares(&own), shares(&CATALOGUE));
    }
}
