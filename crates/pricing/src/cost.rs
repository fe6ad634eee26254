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
use quantity::{Minutes, Money, Share};

use crate::allocation::{JointProduct, allocate};
use crate::deal::{Deal, LabourTime};
use crate::shop::Shop;

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
    /// Labour of breaking it; nothing for a product.
    pub labour: Money,
    /// Labour, packaging and by-products (against it) from here down.
    separable: Money,
    /// Cost when it comes off its parent. For a cut, packaging excluded.
    pub cost: Money,
}

impl NodeCost {
    fn net_realisable_value(&self) -> Money {
        self.sales - self.separable
    }

    /// Cost with its own packaging: what the cut costs in the case.
    pub fn full_cost(&self) -> Money {
        self.cost + self.packaging
    }
}

/// The cost of every piece of `breakdown`; the pieces that leave the block
/// sum to side, charges, labour and packaging.
pub fn cost_pieces(
    catalogue: &Catalogue,
    breakdown: &Breakdown,
    deal: &Deal,
    shop: &Shop,
) -> Vec<NodeCost> {
    let mut costs = value_up(catalogue, breakdown, shop, labour_scale(breakdown, deal));
    let mut joint = deal.side_cost() + deal.charges_total();
    if let LabourTime::Total(minutes) = deal.labour
        && breakdown.labour().is_zero()
    {
        // No estimate to spread it by: it falls on the side as a whole.
        joint += shop.labour_rate * minutes;
    }
    if let Some(side) = costs.first_mut() {
        side.cost = joint;
    }
    cost_down(breakdown, &mut costs, shop);
    costs
}

/// The working time of the whole side.
pub fn labour_time(breakdown: &Breakdown, deal: &Deal) -> Minutes {
    match deal.labour {
        LabourTime::PlanEstimate => breakdown.labour(),
        LabourTime::Total(minutes) => minutes,
    }
}

/// What the estimate is multiplied by to give the time the user entered.
fn labour_scale(breakdown: &Breakdown, deal: &Deal) -> Share {
    labour_time(breakdown, deal)
        .ratio_to(breakdown.labour())
        .unwrap_or(Share::ZERO)
}

fn value_up(
    catalogue: &Catalogue,
    breakdown: &Breakdown,
    shop: &Shop,
    labour_scale: Share,
) -> Vec<NodeCost> {
    let nodes = breakdown.nodes();
    let mut costs: Vec<NodeCost> = nodes
        .iter()
        .map(|node| {
            let mut cost = NodeCost {
                role: Role::Loss,
                sales: Money::ZERO,
                by_products: Money::ZERO,
                packaging: Money::ZERO,
                labour: shop.labour_rate * (node.labour * labour_scale),
                separable: Money::ZERO,
                cost: Money::ZERO,
            };
            if let What::Product(product) = node.what {
                let value = shop.board.price(catalogue, product) * node.weight;
                match catalogue[product].kind {
                    Kind::Cut => {
                        cost.role = Role::Main;
                        cost.sales = value * shop.unsold.complement();
                        cost.packaging = shop.packaging * node.weight;
                    }
                    Kind::Fat | Kind::Bone => {
                        cost.role = Role::ByProduct;
                        cost.by_products = value;
                    }
                    Kind::Loss => {}
                }
            }
            cost.separable = cost.labour + cost.packaging - cost.by_products;
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

fn cost_down(breakdown: &Breakdown, costs: &mut [NodeCost], shop: &Shop) {
    let nodes = breakdown.nodes();
    let mut children: Vec<Vec<usize>> = vec![Vec::new(); nodes.len()];
    for (index, node) in nodes.iter().enumerate() {
        if let Some(siblings) = node.parent.and_then(|parent| children.get_mut(parent)) {
            siblings.push(index);
        }
    }
    for (index, children) in children.iter().enumerate() {
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
        let parts = allocate(shop.method, pool, &products);
        for (child, part) in main.into_iter().zip(parts) {
            if let Some(cost) = costs.get_mut(child) {
                cost.cost = part;
            }
        }
    }
}
