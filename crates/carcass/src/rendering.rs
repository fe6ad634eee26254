//! Fat rendered by the shop: what a kettle gives is a matter of its heat and of
//! how the fat was ground, so the shop's own yield takes the place of the one in
//! the data.
//!
//! A way renders where it gives one product and what rendering loses. An own
//! yield is the product's share of what goes in; the loss is the rest.

use quantity::Share;

use crate::catalogue::{Catalogue, Output, PartId, Role, Way, WayId};
use crate::plan::CutPlan;

impl Catalogue {
    /// The yield of a way that renders, from the data; `None` where it does not
    /// render.
    pub fn rendering_yield(&self, way: WayId) -> Option<Share> {
        let way = &self[way];
        let kept = self.kept_in_rendering(way)?;
        way.outputs.get(kept).map(|output| output.grain)
    }

    /// The place among the outputs of what a rendering way keeps.
    fn kept_in_rendering(&self, way: &Way) -> Option<usize> {
        let [one, other] = way.outputs.as_slice() else {
            return None;
        };
        let is_lost = |output: Output| match output {
            Output::Product(product) => self[product].role == Some(Role::RenderingLoss),
            Output::Part(_) => false,
        };
        match (is_lost(one.output), is_lost(other.output)) {
            (false, true) => Some(0),
            (true, false) => Some(1),
            _ => None,
        }
    }

    /// The shares that the outputs of `way` take of its part by an own `yield_`;
    /// `None` where it does not render.
    pub(crate) fn rendered(&self, way: &Way, yield_: Share) -> Option<[Share; 2]> {
        let kept = self.kept_in_rendering(way)?;
        let mut shares = [yield_.complement(); 2];
        *shares.get_mut(kept)? = yield_;
        Some(shares)
    }
}

impl CutPlan {
    /// Takes the shop's own yield where `part` is rendered, from nothing to all
    /// of it; a share beyond that is brought to the nearer end. `None` goes back
    /// to the yield in the data.
    pub fn render(&mut self, part: PartId, own: Option<Share>) {
        match own {
            Some(own) => {
                let own = own.clamp(Share::ZERO, Share::WHOLE);
                self.rendering.insert(part, own);
            }
            None => {
                self.rendering.remove(&part);
            }
        }
    }

    /// The shop's own yield where `part` is rendered.
    pub fn own_yield_of(&self, part: PartId) -> Option<Share> {
        self.rendering.get(&part).copied()
    }
}

#[cfg(test)]
mod tests {
    use quantity::{Decimal, Mass};

    use super::*;
    use crate::{Stock, What, break_down};

    fn percent(percent: i64) -> Share {
        Share::from_percent(Decimal::from(percent))
    }

    /// The weights of tallow and rendering loss of a side of 200 kg.
    fn rendered(catalogue: &Catalogue, plan: &CutPlan) -> [Mass; 2] {
        let weight = Mass::from_kg(Decimal::from(200));
        let side = break_down(catalogue, weight, 1, plan, Stock::GRAIN);
        ["tallow", "rendering-loss"].map(|id| {
            let product = catalogue.product_id(id).expect("a product");
            side.nodes()
                .iter()
                .filter(|node| node.what == What::Product(product))
                .map(|node| node.weight)
                .sum()
        })
    }

    #[test]
    fn an_own_yield_parts_the_suet_and_touches_nothing_else() {
        let catalogue = Catalogue::published().expect("published data");
        let part = catalogue.part_id("kidney-fat").expect("a part");
        let way = catalogue.way_id("kidney-fat-tallow").expect("a way");
        assert_eq!(catalogue.rendering_yield(way), Some(percent(80)));
        let mut plan = catalogue.plan("boneless").expect("a plan").plan.clone();
        plan.choose(part, way);
        let [tallow, lost] = rendered(&catalogue, &plan);
        assert_eq!(tallow, lost.times(Decimal::from(4)));
        plan.render(part, Some(percent(75)));
        let [own, own_lost] = rendered(&catalogue, &plan);
        assert_eq!(own + own_lost, tallow + lost);
        assert_eq!(own, own_lost.times(Decimal::from(3)));
        for (yield_, none) in [(0, 0), (100, 1), (140, 1)] {
            plan.render(part, Some(percent(yield_)));
            assert_eq!(rendered(&catalogue, &plan)[none], Mass::ZERO);
        }
        plan.render(part, None);
        assert_eq!(rendered(&catalogue, &plan), [tallow, lost]);
    }

    #[test]
    fn what_is_sold_raw_has_no_yield() {
        let catalogue = Catalogue::published().expect("published data");
        let part = catalogue.part_id("kidney-fat").expect("a part");
        let raw = catalogue.way_id("kidney-fat-raw").expect("a way");
        assert_eq!(catalogue.rendering_yield(raw), None);
        let mut plan = CutPlan::default();
        plan.choose(part, raw);
        let before = rendered(&catalogue, &plan);
        plan.render(part, Some(percent(50)));
        assert_eq!(rendered(&catalogue, &plan), before);
    }
}
