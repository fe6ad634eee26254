//! The cost of every piece, by two passes over the tree of the plan.
//!
//! Up: what a piece is worth is what its cuts sell for, less the labour and
//! packaging spent below it; by-products below count against those costs.
//! Down: a part's cost and the labour of breaking it, less what its
//! by-products bring, is divided over what comes off it.
//!
//! By-products carry a cost equal to what they bring (Horngren et al., *Cost
//! Accounting*, ch. 16, production method), so they neither earn nor lose. A
//! by-product that costs money to be rid of brings less than nothing and so
//! raises the cost of the cuts. A part that gives no cut at all is itself a
//! by-product. Losses carry nothing.

use carcass::{Breakdown, Catalogue, Kind, What};
use quantity::Money;

use crate::allocation::{AllocationMethod, JointProduct, allocate};
use crate::deal::Deal;
use crate::shop::Shop;
use crate::working_time::WorkingTime;

/// What a piece is in the division of cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Role {
    /// A cut, or a part that gives one.
    Main,
    /// A by-product, or a part that gives nothing else.
    ByProduct,
    /// Weight that nobody pays for.
    Loss,
}

/// Value and cost of one piece, in the order of [`Breakdown::nodes`].
#[derive(Clone, Debug)]
pub struct NodeCost {
    role: Role,
    /// What the cuts in it sell for, unsold weight taken off.
    pub sales: Money,
    /// What the by-products in it bring.
    pub by_products: Money,
    /// Packaging of the cuts in it.
    pub packaging: Money,
    /// Labour and overhead of breaking it; nothing for a product.
    pub labour: Money,
    /// Labour, packaging and by-products (against it) from here down.
    separable: Money,
    /// Cost when it comes off its parent. For a cut, packaging excluded.
    pub cost: Money,
}

impl NodeCost {
    /// Whether it gives no cut and so carries the cost of what it brings.
    pub fn is_by_product(&self) -> bool {
        self.role == Role::ByProduct
    }

    fn net_realisable_value(&self) -> Money {
        self.sales - self.separable
    }

    /// Cost with its own packaging: what the cut costs in the case.
    pub fn full_cost(&self) -> Money {
        self.cost + self.packaging
    }
}

/// What every piece is worth and what is spent from it down; no cost yet.
pub(crate) fn value_up(
    catalogue: &Catalogue,
    breakdown: &Breakdown,
    time: &WorkingTime,
    shop: &Shop,
) -> Vec<NodeCost> {
    let nodes = breakdown.nodes();
    let labour = &shop.labour;
    let usually_kept = shop.losses.kept();
    let kept = |product| {
        shop.own_losses
            .get(&product)
            .map_or(usually_kept, |own| own.kept())
    };
    let mut costs: Vec<NodeCost> = nodes
        .iter()
        .enumerate()
        .map(|(index, node)| {
            let mut cost = NodeCost {
                role: Role::Loss,
                sales: Money::ZERO,
                by_products: Money::ZERO,
                packaging: Money::ZERO,
                labour: Money::ZERO,
                separable: Money::ZERO,
                cost: Money::ZERO,
            };
            match node.what {
                What::Part { .. } => {
                    let minutes = time.of_piece(index);
                    cost.labour = labour.wages(minutes) + labour.overhead(minutes);
                    cost.separable = cost.labour;
                }
                What::Product(product) => {
                    let value = || shop.board.price(catalogue, product) * node.weight;
                    match catalogue[product].kind {
                        Kind::Cut => {
                            cost.role = Role::Main;
                            cost.sales = value() * kept(product);
                            cost.packaging = shop.packaging.cost_of(node.weight);
                            cost.separable = cost.packaging;
                        }
                        Kind::Fat | Kind::Bone => {
                            cost.role = Role::ByProduct;
                            cost.by_products = value();
                            cost.separable = Money::ZERO - cost.by_products;
                        }
                        Kind::Loss => {}
                    }
                }
            }
            cost
        })
        .collect();

    // Children stand behind their parents, so from the back every piece is
    // complete before it is added to its parent.
    for index in (1..nodes.len()).rev() {
        let (before, from) = costs.split_at_mut(index);
        let parent = nodes
            .get(index)
            .and_then(|node| node.parent)
            .and_then(|parent| before.get_mut(parent));
        if let (Some(parent), Some(child)) = (parent, from.first()) {
            parent.sales += child.sales;
            parent.by_products += child.by_products;
            parent.packaging += child.packaging;
            parent.separable += child.separable;
            parent.role = match (parent.role, child.role) {
                (Role::Main, _) | (_, Role::Main) => Role::Main,
                (Role::ByProduct, _) | (_, Role::ByProduct) => Role::ByProduct,
                (Role::Loss, Role::Loss) => Role::Loss,
            };
        }
    }
    costs
}

/// The side in the order in which its cost is divided: the same for every
/// method.
pub(crate) struct Division<'a> {
    breakdown: &'a Breakdown,
    /// What comes off each piece.
    children: Vec<Vec<usize>>,
    joint: Money,
}

impl<'a> Division<'a> {
    /// The side and what it costs before it is cut.
    pub fn of(breakdown: &'a Breakdown, deal: &Deal) -> Self {
        let nodes = breakdown.nodes();
        let mut children: Vec<Vec<usize>> = vec![Vec::new(); nodes.len()];
        for (index, node) in nodes.iter().enumerate() {
            if let Some(siblings) = node.parent.and_then(|parent| children.get_mut(parent)) {
                siblings.push(index);
            }
        }
        Self {
            breakdown,
            children,
            joint: deal.side_cost() + deal.charges_total(),
        }
    }

    /// The cost of every piece, down from the side; `costs` hold what each is
    /// worth.
    pub fn divide(&self, costs: &mut [NodeCost], method: AllocationMethod) {
        if let Some(side) = costs.first_mut() {
            side.cost = self.joint;
        }
        let nodes = self.breakdown.nodes();
        for (index, children) in self.children.iter().enumerate() {
            let Some(part) = costs.get(index) else {
                continue;
            };
            let mut pool = part.cost + part.labour;
            let mut main = Vec::new();
            for &child in children {
                let Some(cost) = costs.get_mut(child) else {
                    continue;
                };
                match cost.role {
                    Role::Main => main.push(child),
                    Role::ByProduct => {
                        cost.cost = cost.net_realisable_value();
                        pool = pool - cost.cost;
                    }
                    Role::Loss => {}
                }
            }
            let products: Vec<JointProduct> = main
                .iter()
                .filter_map(|&child| {
                    let cost = costs.get(child)?;
                    Some(JointProduct {
                        weight: nodes.get(child)?.weight,
                        split_off_value: cost.sales,
                        sales: cost.sales,
                        separable: cost.separable,
                    })
                })
                .collect();
            let parts = allocate(method, pool, &products);
            for (child, part) in main.into_iter().zip(parts) {
                if let Some(cost) = costs.get_mut(child) {
                    cost.cost = part;
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use carcass::break_down;
    use proptest::prelude::*;
    use quantity::Decimal;

    use super::*;
    use crate::any_side::{AnySide, CATALOGUE, any_side, plain_side};

    fn pieces(side: &AnySide) -> (Breakdown, Vec<NodeCost>) {
        let chilled = side.deal.basis.chilled(side.deal.weight);
        let deal = &side.deal;
        let breakdown = break_down(&CATALOGUE, chilled, deal.sides, &side.plan, deal.stock);
        let time = WorkingTime::of(&CATALOGUE, &breakdown, deal.labour, &side.shop.labour);
        let mut costs = value_up(&CATALOGUE, &breakdown, &time, &side.shop);
        Division::of(&breakdown, deal).divide(&mut costs, side.shop.method);
        (breakdown, costs)
    }

    #[test]
    fn a_part_that_gives_no_cut_is_worth_what_it_brings_less_its_labour() {
        let mut side = plain_side();
        side.shop.board.set(
            CATALOGUE.product_id("suet").expect("a product"),
            quantity::UnitPrice::from_per_kg(Decimal::from(3)),
        );
        let kidney_fat = CATALOGUE.part_id("kidney-fat").expect("a part");
        let (breakdown, costs) = pieces(&side);
        let (node, cost) = breakdown
            .nodes()
            .iter()
            .zip(&costs)
            .find(|(node, _)| matches!(node.what, What::Part { part, .. } if part == kidney_fat))
            .expect("kidney fat");
        assert_eq!(cost.role, Role::ByProduct);
        assert!(cost.by_products.is_positive() && cost.labour.is_positive());
        assert_eq!(cost.labour, side.shop.labour.wages(node.labour));
        assert_eq!(cost.cost, cost.by_products - cost.labour);
    }

    #[test]
    fn disposal_raises_the_cost_of_the_cuts() {
        let cost_of_cuts = |bones: i64| {
            let mut side = plain_side();
            side.shop.board.set(
                CATALOGUE.product_id("soup-bones").expect("a product"),
                quantity::UnitPrice::from_per_kg(Decimal::from(bones)),
            );
            let sheet = side.sheet();
            let cuts: Money = sheet
                .rows
                .iter()
                .filter(|row| !row.is_by_product)
                .map(|row| row.exact_cost)
                .sum();
            (cuts, sheet.totals)
        };
        let (sold, totals) = cost_of_cuts(1);
        let (given, _) = cost_of_cuts(0);
        let (hauled, _) = cost_of_cuts(-1);
        assert!(sold < given && given < hauled);
        let apart = (hauled - given) - (given - sold);
        assert!(apart.units().abs() <= Decimal::new(1, 18), "{apart:?}");
        let apart = sold - totals.net_spend();
        assert!(apart.units().abs() <= Decimal::new(1, 18), "{apart:?}");
    }

    proptest! {
        #[test]
        fn every_part_hands_on_its_cost_and_its_labour(side in any_side()) {
            let (breakdown, costs) = pieces(&side);
            for (index, (node, cost)) in breakdown.nodes().iter().zip(&costs).enumerate() {
                if matches!(node.what, What::Product(_)) || cost.role == Role::Loss {
                    continue;
                }
                let handed_on: Money = breakdown
                    .nodes()
                    .iter()
                    .zip(&costs)
                    .filter(|(child, _)| child.parent == Some(index))
                    .map(|(_, child)| child.cost)
                    .sum();
                let lost = (cost.cost + cost.labour - handed_on).units().abs();
                prop_assert!(lost <= Decimal::new(1, 18), "{node:?} loses {lost}");
            }
        }

        #[test]
        fn labour_of_all_parts_is_the_labour_of_the_side(side in any_side()) {
            let (breakdown, costs) = pieces(&side);
            let parts: Money = costs.iter().map(|cost| cost.labour).sum();
            let labour = &side.shop.labour;
            let time = WorkingTime::of(&CATALOGUE, &breakdown, side.deal.labour, labour).total;
            let whole = labour.wages(time) + labour.overhead(time);
            prop_assert!((parts - whole).units().abs() <= Decimal::new(1, 18));
        }

        #[test]
        fn losses_carry_nothing(side in any_side()) {
            let (breakdown, costs) = pieces(&side);
            for (node, cost) in breakdown.nodes().iter().zip(&costs) {
                if cost.role == Role::Loss {
                    prop_assert!(cost.full_cost().is_zero(), "{node:?}");
                }
            }
        }
    }
}
