//! How the cost of a cut came about, step by step.
//!
//! From the side down to the cut: at every part the cost it came with, the
//! labour of breaking it, what its by-products take off, and the share of the
//! rest that goes on towards the cut. The cost handed on by one step is the
//! cost that the next one starts from, and the last one with the packaging is
//! the cost of the cut.

use carcass::{Breakdown, PartId, ProductId, WayId, What};
use quantity::{Mass, Money, Share};

use crate::cost::NodeCost;

/// What happens to cost where one part is broken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TrailStep {
    /// The part.
    pub part: PartId,
    /// How it is broken.
    pub way: WayId,
    /// Weight of the part.
    pub weight: Mass,
    /// Cost it came with.
    pub came_with: Money,
    /// Labour and overhead of breaking it.
    pub labour: Money,
    /// What its by-products bring, which the rest need not carry.
    pub by_products: Money,
    /// Share of the rest that goes on towards the cut; `None` where there is
    /// no rest.
    pub share: Option<Share>,
    /// Cost that goes on towards the cut.
    pub handed_on: Money,
}

/// The way of cost to one place where a cut comes off. A cut that comes off in
/// several places, like grind, has a trail for each.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CostTrail {
    /// Weight that comes off there.
    pub weight: Mass,
    /// From the side down.
    pub steps: Vec<TrailStep>,
    /// Packaging of that weight.
    pub packaging: Money,
    /// All of it.
    pub cost: Money,
}

/// The trails of `product`, heaviest place first. `costs` belong to the nodes
/// of `breakdown`, as a [`crate::CostSheet`] has them.
pub fn trails_of(breakdown: &Breakdown, costs: &[NodeCost], product: ProductId) -> Vec<CostTrail> {
    let nodes = breakdown.nodes();
    let mut trails: Vec<CostTrail> = nodes
        .iter()
        .zip(costs)
        .enumerate()
        .filter(|(_, (node, _))| node.what == What::Product(product))
        .map(|(index, (node, cost))| CostTrail {
            weight: node.weight,
            steps: steps_to(breakdown, costs, index),
            packaging: cost.packaging,
            cost: cost.full_cost(),
        })
        .collect();
    trails.sort_unstable_by_key(|trail| core::cmp::Reverse(trail.weight));
    trails
}

fn steps_to(breakdown: &Breakdown, costs: &[NodeCost], leaf: usize) -> Vec<TrailStep> {
    let nodes = breakdown.nodes();
    let mut steps = Vec::new();
    let mut child = leaf;
    while let Some(parent) = nodes.get(child).and_then(|node| node.parent) {
        let (Some(node), Some(cost), Some(handed)) =
            (nodes.get(parent), costs.get(parent), costs.get(child))
        else {
            break;
        };
        if let What::Part { part, way } = node.what {
            let by_products: Money = nodes
                .iter()
                .zip(costs)
                .filter(|(node, _)| node.parent == Some(parent))
                .filter(|(_, cost)| cost.is_by_product())
                .map(|(_, cost)| cost.cost)
                .sum();
            steps.push(TrailStep {
                part,
                way,
                weight: node.weight,
                came_with: cost.cost,
                labour: cost.labour,
                by_products,
                share: handed.cost.ratio_to(cost.cost + cost.labour - by_products),
                handed_on: handed.cost,
            });
        }
        child = parent;
    }
    steps.reverse();
    steps
}

#[cfg(test)]
mod tests {
    use carcass::{Kind, Node};
    use proptest::prelude::*;
    use quantity::{Decimal, UnitPrice};

    use super::*;
    use crate::any_side::{CATALOGUE, any_side, plain_side};

    #[test]
    fn a_step_takes_off_what_fat_and_bone_of_that_part_bring() {
        let mut side = plain_side();
        let product = |id| CATALOGUE.product_id(id).expect("a product");
        let by_products = [("fat-trim", 50), ("soup-bones", 300)]
            .map(|(id, cents)| (product(id), UnitPrice::from_per_kg(Decimal::new(cents, 2))));
        for (product, price) in by_products {
            side.shop.board.set(product, price);
        }
        let sheet = side.sheet();
        let trails = sheet.trails_of(product("stew-beef"));
        let [side_step, chuck_step] = trails[0].steps.as_slice() else {
            panic!("stew comes off the chuck, which comes off the side");
        };
        assert_eq!(CATALOGUE[chuck_step.part].id, "chuck");
        let nodes = sheet.breakdown.nodes();
        let place = |part: PartId| {
            let is_part =
                |node: &Node| matches!(node.what, What::Part { part: of, .. } if of == part);
            nodes.iter().position(is_part).expect("a node")
        };
        let brought: Money = by_products
            .into_iter()
            .map(|(product, price)| {
                let off_chuck = nodes.iter().find(|node| {
                    node.parent == Some(place(chuck_step.part))
                        && node.what == What::Product(product)
                });
                price * off_chuck.expect("fat and bone").weight
            })
            .sum();
        assert!(brought.is_positive());
        assert_eq!(chuck_step.by_products, brought);
        // The suet is all that the side gives away at the first step.
        let suet = sheet.rows.iter().find(|row| row.product == product("suet"));
        let kidney_fat = &sheet.costs[place(CATALOGUE.part_id("kidney-fat").expect("a part"))];
        assert_eq!(suet.expect("suet").sales, kidney_fat.by_products);
        assert_eq!(
            side_step.by_products,
            kidney_fat.by_products - kidney_fat.labour
        );
        for step in [side_step, chuck_step] {
            let share = step.share.expect("a rest to share");
            assert!(share > Share::ZERO && share < Share::WHOLE, "{share:?}");
        }
    }

    proptest! {
        #[test]
        fn every_step_starts_from_what_the_one_before_handed_on(side in any_side()) {
            let sheet = side.sheet();
            let last_digit = Decimal::new(1, 15);
            for row in &sheet.rows {
                let trails = sheet.trails_of(row.product);
                let cost: Money = trails.iter().map(|trail| trail.cost).sum();
                prop_assert!((cost - row.exact_cost).units().abs() <= last_digit);
                let weight: Mass = trails.iter().map(|trail| trail.weight).sum();
                prop_assert!((weight - row.weight).kg().abs() <= last_digit);
                if CATALOGUE[row.product].kind != Kind::Cut {
                    continue;
                }
                for trail in trails {
                    let paid = side.deal.side_cost() + side.deal.charges_total();
                    prop_assert_eq!(trail.steps[0].came_with, paid);
                    for pair in trail.steps.windows(2) {
                        prop_assert_eq!(pair[0].handed_on, pair[1].came_with);
                    }
                    let last = trail.steps.last().expect("a step");
                    prop_assert_eq!(last.handed_on + trail.packaging, trail.cost);
                    for step in &trail.steps {
                        let rest = step.came_with + step.labour - step.by_products;
                        prop_assert_eq!(step.share.is_none(), rest.is_zero());
                        if let Some(share) = step.share {
                            let off = rest * share - step.handed_on;
                            prop_assert!(off.units().abs() <= last_digit, "{off:?}");
                        }
                    }
                }
            }
        }
    }
}
