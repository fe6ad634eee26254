//! A cut plan: one way for every part that is reached, or two that share it.

use litemap::LiteMap;

use quantity::Share;

use crate::catalogue::{Catalogue, PartId, WayId};
use crate::dry_ageing::AgeingLoss;
use crate::grind_plan::GrindPlan;
use crate::hanging::HangingError;
use crate::packing::packed;

/// How one part is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Choice {
    /// The way.
    pub way: WayId,
    /// A second way and the share of the part that goes by it: two strip
    /// loins boneless, two as T-bones.
    pub split: Option<(WayId, Share)>,
}

/// How long a part is dry-aged before it is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ageing {
    /// Days.
    pub days: u32,
    /// What it loses in them.
    pub loss: AgeingLoss,
}

/// Which way each part is broken, which parts are dry-aged before it, what
/// rendering gives, and what classes their trim is ground to. A part without an entry takes its
/// reference way, so every plan is complete.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CutPlan {
    choices: LiteMap<PartId, Choice>,
    ageing: LiteMap<PartId, Ageing>,
    /// The shop's own yield in rendering.
    pub(crate) rendering: LiteMap<PartId, Share>,
    /// The classes that trim is ground to.
    pub grind: GrindPlan,
}

packed!(Choice { way, split });
packed!(CutPlan { choices }, ageing: LiteMap::new(), rendering: LiteMap::new(), grind: GrindPlan::default());

impl CutPlan {
    /// Chooses `way` for all of `part` and returns the choice made before, if
    /// any.
    pub fn choose(&mut self, part: PartId, way: WayId) -> Option<Choice> {
        self.choices.insert(part, Choice { way, split: None })
    }

    /// Sends `share` of `part` by `second` and the rest by the way it has. A
    /// share of nothing, or more than the whole, undoes the split.
    pub fn split(&mut self, catalogue: &Catalogue, part: PartId, second: WayId, share: Share) {
        if let Some((way, _)) = self.ways_of(catalogue, part).first().copied() {
            let is_split = share > Share::ZERO && share < Share::WHOLE;
            let split = is_split.then_some((second, share));
            self.choices.insert(part, Choice { way, split });
        }
    }

    /// The ways `part` is broken with the share that goes by each; the shares
    /// sum to one. A way that is not one of the part's own counts as none
    /// chosen. The whole side is never split: it has no second side to split
    /// it with.
    pub fn ways_of(&self, catalogue: &Catalogue, part: PartId) -> Vec<(WayId, Share)> {
        let own = |way: &WayId| catalogue[*way].part == part;
        let choice = self.choices.get(&part);
        let Some(way) = choice
            .map(|choice| choice.way)
            .filter(own)
            .or_else(|| catalogue.reference_way(part))
        else {
            return Vec::new();
        };
        let split = choice
            .and_then(|choice| choice.split)
            .filter(|(second, _)| own(second) && part != catalogue.root());
        match split {
            None => vec![(way, Share::WHOLE)],
            Some((second, share)) => vec![(way, share.complement()), (second, share)],
        }
    }

    /// Dry-ages `part` for `days` before it is broken, with the shop's `own`
    /// loss in place of the published one. No days and no own loss undo it.
    ///
    /// # Errors
    /// [`HangingError`] when the days are beyond what is published for the
    /// part, nothing is, or the own loss leaves nothing.
    pub fn age(
        &mut self,
        catalogue: &Catalogue,
        part: PartId,
        days: u32,
        own: Option<Share>,
    ) -> Result<(), HangingError> {
        let loss = match own {
            Some(own) => AgeingLoss::own(own)?,
            None if days == 0 => {
                self.ageing.remove(&part);
                return Ok(());
            }
            None => catalogue.ageing_loss(part, days)?,
        };
        self.ageing.insert(part, Ageing { days, loss });
        Ok(())
    }

    /// How `part` is dry-aged, where it is.
    pub fn ageing_of(&self, part: PartId) -> Option<Ageing> {
        self.ageing.get(&part).copied()
    }

    /// Every choice made, in part order.
    pub fn choices(&self) -> impl Iterator<Item = (PartId, Choice)> {
        self.choices.iter().map(|(&part, &choice)| (part, choice))
    }
}

#[cfg(test)]
mod tests {
    use quantity::Decimal;

    use super::*;

    #[test]
    fn a_split_sends_each_share_by_its_way() {
        let catalogue = Catalogue::published().expect("published data");
        let part = catalogue.part_id("short-loin").expect("a short loin");
        let [first, second] = catalogue[part].ways[..2] else {
            panic!("two ways");
        };
        let quarter = Share::from_percent(Decimal::from(25));
        let mut plan = CutPlan::default();
        plan.split(&catalogue, part, second, quarter);
        assert_eq!(
            plan.ways_of(&catalogue, part),
            [(first, quarter.complement()), (second, quarter)]
        );
        plan.split(&catalogue, part, second, Share::ZERO);
        assert_eq!(plan.ways_of(&catalogue, part), [(first, Share::WHOLE)]);
    }

    #[test]
    fn a_part_is_aged_until_that_is_undone() {
        let catalogue = Catalogue::published().expect("published data");
        let part = catalogue.part_id("strip-loin").expect("a strip loin");
        let mut plan = CutPlan::default();
        assert!(plan.age(&catalogue, part, 36, None).is_err());
        assert_eq!(plan.age(&catalogue, part, 21, None), Ok(()));
        let aged = plan.ageing_of(part).expect("aged");
        assert_eq!(Ok(aged.loss), catalogue.ageing_loss(part, 21));
        let own = Share::from_percent(Decimal::from(12));
        assert_eq!(plan.age(&catalogue, part, 60, Some(own)), Ok(()));
        assert_eq!(
            plan.ageing_of(part).map(|aged| aged.loss.saleable_lost),
            Some(own)
        );
        assert!(plan.age(&catalogue, part, 60, Some(Share::WHOLE)).is_err());
        assert_eq!(plan.age(&catalogue, part, 0, None), Ok(()));
        assert_eq!(plan, CutPlan::default());
    }

    #[test]
    fn a_foreign_way_and_a_split_side_count_as_none() {
        let catalogue = Catalogue::published().expect("published data");
        let loin = catalogue.part_id("short-loin").expect("a short loin");
        let foreign = catalogue[catalogue.part_id("rib").expect("a rib")].ways[0];
        let mut plan = CutPlan::default();
        plan.choose(loin, foreign);
        assert_eq!(plan.ways_of(&catalogue, loin)[0].0, catalogue[loin].ways[0]);
        let root = catalogue.root();
        let half = Share::from_percent(Decimal::from(50));
        plan.split(&catalogue, root, catalogue[root].ways[1], half);
        assert_eq!(plan.ways_of(&catalogue, root).len(), 1);
    }
}
