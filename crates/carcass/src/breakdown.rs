//! From a chilled side to the weight of everything that comes off it.

use quantity::{Decimal, Mass, Minutes, Rounding, Share};

use crate::catalogue::{Catalogue, Output, PartId, ProductId, Role, Way, WayId};
use crate::grind_plan::GrindPlan;
use crate::grinding::{GroundClass, grind};
use crate::plan::CutPlan;
use crate::stock::Stock;

/// Decimal places of a share of the side. With them a share times a weight of
/// up to fourteen digits stays exact.
pub(crate) const PLACES: u32 = 14;

/// What a node of the breakdown is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// A part, broken in this way.
    Part {
        /// The part.
        part: PartId,
        /// The way it is broken.
        way: WayId,
    },
    /// A cut, by-product or loss.
    Product(ProductId),
}

/// A piece of the side with its weight.
#[derive(Clone, Debug)]
pub struct Node {
    /// What it is.
    pub what: What,
    /// Index of the node it comes off; `None` for the side itself.
    pub parent: Option<usize>,
    /// Steps from the side.
    pub depth: usize,
    /// Share of the chilled side.
    pub share: Share,
    /// Weight.
    pub weight: Mass,
    /// Fat content, where it is a trim.
    pub fat: Option<Share>,
    /// How many pieces of it there are: one for each side, less where only a
    /// share of them goes by its way.
    pub pieces: Decimal,
    /// The plan's own estimate of the time to break it; zero for a product.
    pub labour: Minutes,
}

/// A side broken down: every piece in pre-order, a parent always before what
/// comes off it. Weights of the pieces off one parent sum to the parent's
/// exactly.
#[derive(Clone, Debug)]
pub struct Breakdown {
    pub(crate) nodes: Vec<Node>,
    pub(crate) ground: Vec<GroundClass>,
    /// What its plan asks for, to tell of the classes anew.
    pub(crate) grind: GrindPlan,
}

impl Breakdown {
    /// Every piece, parents first.
    pub fn nodes(&self) -> &[Node] {
        &self.nodes
    }

    /// The classes of grind that the plan asks for, leanest first, with what
    /// could be made of each.
    pub fn ground(&self) -> &[GroundClass] {
        &self.ground
    }

    /// The plan's own estimate of the labour, all parts together.
    pub fn labour(&self) -> Minutes {
        self.nodes.iter().map(|node| node.labour).sum()
    }

    /// Total share of the side of the products that `wanted` picks.
    pub fn share_of(&self, wanted: impl Fn(ProductId) -> bool) -> Share {
        self.nodes
            .iter()
            .filter(|node| matches!(node.what, What::Product(product) if wanted(product)))
            .map(|node| node.share)
            .sum()
    }
}

/// Breaks `sides` chilled sides, together of `weight`, by `plan`.
///
/// The shares of a way lie on the straight line between its grain-fed and its
/// grass-fed shares. Each piece's share of the side is cut to fourteen places
/// and the heaviest piece of a way takes what is left of the parent, so that
/// nothing is lost and nothing made. A part that two ways share stands there
/// twice, once by each.
///
/// What a dry-aged part loses comes off it first and the rest is cut as
/// planned; it is the published loss of what could be sold, taken off all of
/// the part. Its time is that of the part before ageing: the crust is cut away
/// too. Trim that the plan wants in a class of grind stands as that class
/// where it comes off ([`crate::grind_plan`]).
pub fn break_down(
    catalogue: &Catalogue,
    weight: Mass,
    sides: u32,
    plan: &CutPlan,
    stock: Stock,
) -> Breakdown {
    let mut breaking = Breaking {
        catalogue,
        plan,
        stock,
        weight,
        nodes: Vec::new(),
    };
    breaking.part(
        catalogue.root(),
        &Place {
            parent: None,
            depth: 0,
            share: Share::WHOLE,
            fat: None,
            pieces: Decimal::from(sides),
        },
    );
    let (nodes, ground) = grind(catalogue, &plan.grind, weight, breaking.nodes);
    Breakdown {
        nodes,
        ground,
        grind: plan.grind.clone(),
    }
}

struct Breaking<'a> {
    catalogue: &'a Catalogue,
    plan: &'a CutPlan,
    stock: Stock,
    weight: Mass,
    nodes: Vec<Node>,
}

/// Where a piece comes off and how much of it there is.
struct Place {
    parent: Option<usize>,
    depth: usize,
    share: Share,
    fat: Option<Share>,
    pieces: Decimal,
}

impl Breaking<'_> {
    fn part(&mut self, part: PartId, place: &Place) {
        let ways = self.plan.ways_of(self.catalogue, part);
        let mut left = place.share;
        let mut ways = ways.into_iter().peekable();
        while let Some((way, of_part)) = ways.next() {
            // The last way takes what is left, so that a split closes.
            let share = match ways.peek() {
                Some(_) => cut(place.share * of_part),
                None => left,
            };
            left = left - share;
            self.way(
                part,
                way,
                &Place {
                    share,
                    pieces: place.pieces * of_part.fraction(),
                    ..*place
                },
            );
        }
    }

    fn way(&mut self, part: PartId, way_id: WayId, place: &Place) {
        let way = &self.catalogue[way_id];
        let index = self.nodes.len();
        let weight = self.weight * place.share;
        self.nodes.push(Node {
            what: What::Part { part, way: way_id },
            parent: place.parent,
            depth: place.depth,
            share: place.share,
            weight,
            fat: place.fat,
            pieces: place.pieces,
            labour: planned_time(way, place.pieces, weight),
        });
        let below = |share: Share, fat: Option<Share>| Place {
            parent: Some(index),
            depth: place.depth + 1,
            share,
            fat,
            pieces: place.pieces,
        };
        let mut whole = place.share;
        if let Some(aged) = self.plan.ageing_of(part)
            && let Some(loss) = self.catalogue.product_in_role(Role::AgeingLoss)
        {
            let lost = cut(whole * aged.loss.saleable_lost);
            whole = whole - lost;
            self.product(loss, &below(lost, None));
        }
        for (output, share) in way.outputs.iter().zip(self.pieces(part, way, whole)) {
            let below = below(share, output.fat);
            match output.output {
                Output::Part(part) => self.part(part, &below),
                Output::Product(product) => self.product(product, &below),
            }
        }
    }

    fn product(&mut self, product: ProductId, place: &Place) {
        self.nodes.push(Node {
            what: What::Product(product),
            parent: place.parent,
            depth: place.depth,
            share: place.share,
            weight: self.weight * place.share,
            fat: place.fat,
            pieces: place.pieces,
            labour: Minutes::ZERO,
        });
    }

    /// The shares of the side that the outputs of `way` take of `whole`.
    fn pieces(&self, part: PartId, way: &Way, whole: Share) -> Vec<Share> {
        let own = self
            .plan
            .own_yield_of(part)
            .and_then(|own| self.catalogue.rendered(way, own));
        let mut pieces: Vec<Share> = match own {
            Some(rendered) => rendered.map(|of_part| cut(whole * of_part)).to_vec(),
            None => way
                .outputs
                .iter()
                .map(|output| cut(whole * self.stock.between(output.grain, output.grass)))
                .collect(),
        };
        give_rest_to_largest(&mut pieces, whole);
        pieces
    }
}

/// The plan's own estimate of the time to break `pieces`, together of `weight`.
pub(crate) fn planned_time(way: &Way, pieces: Decimal, weight: Mass) -> Minutes {
    way.per_piece.times(pieces) + way.per_kg.times(weight.kg())
}

/// A share of the side at the places it is kept at.
pub(crate) fn cut(share: Share) -> Share {
    Share::from_fraction(Rounding::HalfEven.to_places(share.fraction(), PLACES))
}

/// Makes `pieces` sum to `whole` exactly by changing the largest one.
pub(crate) fn give_rest_to_largest(pieces: &mut [Share], whole: Share) {
    let sum: Share = pieces.iter().copied().sum();
    if let Some(largest) = pieces.iter_mut().max() {
        *largest = *largest + (whole - sum);
    }
}

/// A weight with enough digits to trip any rounding, for tests.
#[cfg(test)]
pub(crate) fn awkward_weight() -> Mass {
    Mass::from_lb(quantity::Decimal::new(430_777, 3))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Kind;
    use proptest::prelude::*;

    fn catalogue() -> Catalogue {
        Catalogue::published().expect("published data")
    }

    #[test]
    fn nothing_is_lost_and_nothing_made() {
        let catalogue = catalogue();
        for named in catalogue.plans() {
            for stock in [Stock::GRAIN, Stock::GRASS] {
                let broken = break_down(&catalogue, awkward_weight(), 1, &named.plan, stock);
                let products: Mass = broken
                    .nodes()
                    .iter()
                    .filter(|node| matches!(node.what, What::Product(_)))
                    .map(|node| node.weight)
                    .sum();
                assert_eq!(products, awkward_weight(), "{}", named.id);
            }
        }
    }

    #[test]
    fn bone_in_sells_more_weight_than_boneless() {
        let catalogue = catalogue();
        let saleable = |plan: &str| {
            let plan = &catalogue.plan(plan).expect("a named plan").plan;
            break_down(&catalogue, awkward_weight(), 1, plan, Stock::GRAIN)
                .share_of(|product| catalogue[product].kind == Kind::Cut)
        };
        assert!(saleable("bone-in") > saleable("boneless"));
    }

    #[test]
    fn what_ageing_takes_comes_off_the_part_and_no_other() {
        let catalogue = catalogue();
        let part = catalogue.part_id("ribeye-roll").expect("a part");
        let mut plan = catalogue.plan("boneless").expect("a plan").plan.clone();
        let side = |plan: &CutPlan| break_down(&catalogue, awkward_weight(), 1, plan, Stock::GRAIN);
        let fresh = side(&plan);
        plan.age(&catalogue, part, 28, None).expect("published");
        let aged = side(&plan);
        assert_eq!(aged.nodes().len(), fresh.nodes().len() + 1);
        let product = catalogue
            .product_in_role(Role::AgeingLoss)
            .expect("a product");
        let ribeye = |broken: &Breakdown| {
            broken
                .nodes()
                .iter()
                .position(|node| matches!(node.what, What::Part { part: it, .. } if it == part))
                .expect("a ribeye")
        };
        let (at, lost) = (ribeye(&aged), &aged.nodes()[ribeye(&aged) + 1]);
        assert_eq!((lost.what, lost.parent), (What::Product(product), Some(at)));
        assert_eq!(
            aged.nodes()[at].weight,
            fresh.nodes()[ribeye(&fresh)].weight
        );
        assert_eq!(aged.labour(), fresh.labour());
        let kept = plan
            .ageing_of(part)
            .expect("aged")
            .loss
            .saleable_lost
            .complement();
        for (old, new) in fresh.nodes().iter().zip(
            aged.nodes()
                .iter()
                .filter(|node| node.what != What::Product(product)),
        ) {
            let of_ribeye = old.parent == Some(ribeye(&fresh));
            let expected = if of_ribeye {
                old.share * kept
            } else {
                old.share
            };
            let off = (new.share - expected).fraction().abs();
            assert!(off <= Decimal::new(1, 13), "{old:?} {new:?}");
        }
    }

    proptest! {
        #[test]
        fn any_plan_closes_at_any_stock(
            choices in proptest::collection::vec(any::<prop::sample::Index>(), 64),
            grass in 0_i64..=1000,
            grams in 1_i64..1_000_000,
            sides in 1_u32..=20,
            split in 0_i64..=100,
            aged in 0_i64..100,
        ) {
            let catalogue = catalogue();
            let mut plan = CutPlan::default();
            for ((part, data), choice) in catalogue.parts().zip(choices.iter().cycle()) {
                plan.choose(part, *choice.get(&data.ways));
                let second = *choice.get(&data.ways[..data.ways.len().min(2)]);
                plan.split(&catalogue, part, second, Share::from_percent(Decimal::from(split)));
                if catalogue.dry_ageing_of_part(part).is_some() {
                    let own = Share::from_percent(Decimal::from(aged));
                    plan.age(&catalogue, part, 30, Some(own)).expect("sound");
                }
            }
            let stock = Stock::grass_share(Share::from_fraction(Decimal::new(grass, 3)));
            let weight = Mass::from_g(Decimal::from(grams));
            let broken = break_down(&catalogue, weight, sides, &plan, stock);

            let nodes = broken.nodes();
            for (index, node) in nodes.iter().enumerate() {
                prop_assert!(node.share >= Share::ZERO);
                let children = nodes.iter().filter(|child| child.parent == Some(index));
                if matches!(node.what, What::Part { .. }) {
                    let sum: Mass = children.map(|child| child.weight).sum();
                    prop_assert_eq!(sum, node.weight);
                }
            }
            prop_assert_eq!(broken.share_of(|_| true), Share::WHOLE);
        }
    }
}
