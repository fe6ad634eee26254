//! The tree of a plan as arrays, and the two passes of cost over it.
//!
//! Up: weight, sales and separable cost of every part. Down: the cost of a part
//! and of breaking it, less what its by-products bring, over what comes off it.
//! A product's share of its part's cost is its weight times a rate, and the rate
//! is the same for all of them, so a part is divided with one division.

use carcass::{Kind, Node, ProductId, What};
use pricing::AllocationMethod;

use super::fast::Drawn;
use super::float::float;
use super::lanes::Lanes;
use super::part::{Counts, Part, Rate, Role};

/// A product where it comes off a part.
#[derive(Clone, Copy, Debug)]
struct Leaf {
    part: usize,
    product: usize,
    /// Kilograms of it here over all kilograms of the product.
    of_product: f64,
    role: Role,
}

/// A part by its way; a parent stands before what comes off it.
#[derive(Clone, Copy, Debug)]
struct Branch {
    parent: usize,
    role: Role,
    fixed_minutes: f64,
    minutes_per_kg: f64,
    /// How many cuts and parts with cuts come off it.
    main_outputs: f64,
}

/// Room for the parts.
#[derive(Clone, Debug, Default)]
pub(super) struct Scratch {
    parts: Vec<Part>,
    rates: Vec<Rate>,
}

/// The tree of a plan.
#[derive(Clone, Debug)]
pub(super) struct Tree {
    /// In the order of the nodes.
    leaves: Vec<Leaf>,
    /// Those that carry cost, product by product.
    mains: Vec<Leaf>,
    branches: Vec<Branch>,
}

impl Tree {
    /// The tree of `nodes`, its products in this order and of these
    /// `kinds`, its parts with these minutes, node by node.
    pub(super) fn new(
        nodes: &[Node],
        products: &[ProductId],
        kinds: &[Kind],
        fixed_minutes: &[f64],
        minutes_per_kg: &[f64],
    ) -> Self {
        let mut tree = Self {
            leaves: Vec::new(),
            mains: Vec::new(),
            branches: Vec::new(),
        };
        let mut totals = vec![0.0; kinds.len()];
        let mut part_of_node = vec![0; nodes.len()];
        let minutes = fixed_minutes.iter().zip(minutes_per_kg);
        for ((index, node), (fixed, per_kg)) in nodes.iter().enumerate().zip(minutes) {
            let parent = node
                .parent
                .and_then(|parent| part_of_node.get(parent).copied())
                .unwrap_or(0);
            match node.what {
                What::Part { .. } => {
                    if let Some(part) = part_of_node.get_mut(index) {
                        *part = tree.branches.len();
                    }
                    tree.branches.push(Branch {
                        parent,
                        role: Role::Loss,
                        fixed_minutes: *fixed,
                        minutes_per_kg: *per_kg,
                        main_outputs: 0.0,
                    });
                }
                What::Product(product) => {
                    let place = products.iter().position(|it| *it == product).unwrap_or(0);
                    let weight = float(node.weight.kg());
                    if let Some(total) = totals.get_mut(place) {
                        *total += weight;
                    }
                    tree.leaves.push(Leaf {
                        part: parent,
                        product: place,
                        of_product: weight,
                        role: match kinds.get(place) {
                            Some(Kind::Cut) => Role::Main,
                            Some(Kind::Fat | Kind::Bone) => Role::ByProduct,
                            Some(Kind::Loss) | None => Role::Loss,
                        },
                    });
                }
            }
        }
        for leaf in &mut tree.leaves {
            leaf.of_product = match totals.get(leaf.product) {
                Some(total) if *total > 0.0 => leaf.of_product / total,
                _ => 0.0,
            };
        }
        tree.settle_roles();
        let mains = tree.leaves.iter().filter(|leaf| leaf.role == Role::Main);
        tree.mains = mains.copied().collect();
        tree.mains.sort_by_key(|leaf| leaf.product);
        tree
    }

    /// A part with a cut in it carries cost, one with by-products alone is one.
    fn settle_roles(&mut self) {
        for leaf in &self.leaves {
            if let Some(branch) = self.branches.get_mut(leaf.part) {
                branch.role = branch.role.max(leaf.role);
                branch.main_outputs += f64::from(u8::from(leaf.role == Role::Main));
            }
        }
        for index in (1..self.branches.len()).rev() {
            let (before, from) = self.branches.split_at_mut(index);
            if let Some(child) = from.first()
                && let Some(parent) = before.get_mut(child.parent)
            {
                parent.role = parent.role.max(child.role);
                parent.main_outputs += f64::from(u8::from(child.role == Role::Main));
            }
        }
    }

    /// Kilograms of everything that leaves the block, in the order of the nodes.
    #[cfg(test)]
    pub(super) fn weights(&self, drawn: &[Drawn]) -> Vec<f64> {
        self.leaves
            .iter()
            .map(|leaf| {
                drawn
                    .get(leaf.product)
                    .map_or(0.0, |it| it.mass.lane(0) * leaf.of_product)
            })
            .collect()
    }

    /// Sets in `drawn` the cost of every cut, packaging excluded. The side comes
    /// with `joint`; working time costs `minute` a minute.
    pub(super) fn cost(
        &self,
        method: AllocationMethod,
        joint: Lanes,
        minute: Lanes,
        drawn: &mut [Drawn],
        scratch: &mut Scratch,
    ) {
        scratch.parts.clear();
        scratch.parts.resize(self.branches.len(), Part::default());
        scratch.rates.resize(self.branches.len(), Rate::default());
        let parts = scratch.parts.as_mut_slice();
        let rates = scratch.rates.as_mut_slice();
        self.value_up(method, minute, drawn, parts);
        if let Some(side) = parts.first_mut() {
            side.cost = joint;
        }
        self.cost_down(method, parts, rates);
        for leaves in self.mains.chunk_by(|one, next| one.product == next.product) {
            let product = leaves.first().map_or(0, |leaf| leaf.product);
            let Some(it) = drawn.get_mut(product) else {
                continue;
            };
            let counts = it.counts();
            let mut cost = Lanes::default();
            for leaf in leaves {
                if let Some(rate) = rates.get(leaf.part) {
                    cost += rate.cost(leaf.of_product, &counts);
                }
            }
            it.cost = cost;
        }
    }

    fn value_up(
        &self,
        method: AllocationMethod,
        minute: Lanes,
        drawn: &[Drawn],
        parts: &mut [Part],
    ) {
        for leaves in self.leaves.chunk_by(|one, next| one.part == next.part) {
            let index = leaves.first().map_or(0, |leaf| leaf.part);
            if let Some(part) = parts.get_mut(index) {
                part.add_leaves(leaves, drawn);
            }
        }
        for (index, branch) in self.branches.iter().enumerate().rev() {
            let Some((before, from)) = parts.split_at_mut_checked(index) else {
                continue;
            };
            let Some(part) = from.first_mut() else {
                continue;
            };
            part.labour = minute * (part.weight * branch.minutes_per_kg + branch.fixed_minutes);
            if index > 0
                && let Some(parent) = before.get_mut(branch.parent)
            {
                parent.add_part(branch.role, &part.counts(method));
            }
        }
    }

    fn cost_down(&self, method: AllocationMethod, parts: &mut [Part], rates: &mut [Rate]) {
        for (index, (branch, part)) in self.branches.iter().zip(parts).enumerate() {
            // What has no cut in it divides nothing.
            if branch.role != Role::Main {
                continue;
            }
            if index > 0
                && let Some(above) = rates.get(branch.parent)
            {
                part.cost = above.cost(1.0, &part.counts(method));
            }
            if let Some(rate) = rates.get_mut(index) {
                *rate = part.rate(method, branch.main_outputs);
            }
        }
    }
}

impl Drawn {
    const fn counts(&self) -> Counts {
        Counts {
            weight: self.mass,
            sales: self.sales,
            separable: self.separable,
            basis: self.basis,
        }
    }
}

impl Part {
    fn add_leaves(&mut self, leaves: &[Leaf], drawn: &[Drawn]) {
        let mut main = Counts::default();
        let (mut others, mut separable) = (Lanes::default(), Lanes::default());
        for leaf in leaves {
            let Some(it) = drawn.get(leaf.product) else {
                continue;
            };
            let weight = it.mass * leaf.of_product;
            match leaf.role {
                Role::Main => {
                    main.weight += weight;
                    main.sales += it.sales * leaf.of_product;
                    main.separable += it.separable * leaf.of_product;
                    main.basis += it.basis * leaf.of_product;
                }
                Role::ByProduct => {
                    others += weight;
                    separable += it.separable * leaf.of_product;
                }
                Role::Loss => others += weight,
            }
        }
        self.weight += others + main.weight;
        self.main.add(&main);
        self.separable += separable;
        self.by_products -= separable;
    }
}
