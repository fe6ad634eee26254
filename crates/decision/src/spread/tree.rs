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

/// What a piece is in the division of cost, as in [`pricing::cost`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
enum Role {
    #[default]
    Loss,
    ByProduct,
    Main,
}

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

/// What a draw makes of a part.
#[derive(Clone, Copy, Debug, Default)]
struct Part {
    weight: f64,
    sales: f64,
    separable: f64,
    labour: f64,
    /// Of what carries cost: weight, sales, separable cost, and what it counts
    /// by the method.
    main_weight: f64,
    main_sales: f64,
    main_separable: f64,
    main_basis: f64,
    /// What its by-products bring.
    by_products: f64,
    cost: f64,
    rate: Rate,
}

/// How the cost of a part goes to what comes off it.
#[derive(Clone, Copy, Debug)]
enum Rate {
    /// For what it counts by the method.
    Basis(f64),
    /// Sales times this, less separable cost.
    Sales(f64),
    /// For its net realisable value.
    Net(f64),
    /// For its weight.
    Weight(f64),
    /// The same for each.
    Each(f64),
}

impl Default for Rate {
    fn default() -> Self {
        Self::Each(0.0)
    }
}

impl Rate {
    fn cost(self, it: &Counts) -> f64 {
        match self {
            Self::Basis(rate) => it.basis * rate,
            Self::Sales(rate) => it.sales * rate - it.separable,
            Self::Net(rate) => (it.sales - it.separable).max(0.0) * rate,
            Self::Weight(rate) => it.weight * rate,
            Self::Each(rate) => rate,
        }
    }
}

/// What a piece counts when the cost of its part is divided.
struct Counts {
    weight: f64,
    sales: f64,
    separable: f64,
    basis: f64,
}

/// Room for the parts of one draw.
#[derive(Clone, Debug, Default)]
pub(super) struct Scratch {
    parts: Vec<Part>,
}

/// The tree of a plan.
#[derive(Clone, Debug)]
pub(super) struct Tree {
    leaves: Vec<Leaf>,
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
                    .map_or(0.0, |it| it.mass * leaf.of_product)
            })
            .collect()
    }

    /// Adds to `drawn` the cost of every product, packaging excluded. The side
    /// comes with `joint`; working time costs `minute` a minute.
    pub(super) fn cost(
        &self,
        method: AllocationMethod,
        joint: f64,
        minute: f64,
        drawn: &mut [Drawn],
        scratch: &mut Scratch,
    ) {
        scratch.parts.clear();
        scratch.parts.resize(self.branches.len(), Part::default());
        let parts = scratch.parts.as_mut_slice();
        self.value_up(method, minute, drawn, parts);
        if let Some(side) = parts.first_mut() {
            side.cost = joint;
        }
        self.cost_down(method, parts);
        for leaf in &self.leaves {
            if let (Some(it), Some(part)) = (drawn.get_mut(leaf.product), parts.get(leaf.part)) {
                let mass = it.mass * leaf.of_product;
                it.cost += match leaf.role {
                    Role::Main => part.rate.cost(&Counts {
                        weight: mass,
                        sales: mass * it.sales,
                        separable: mass * it.separable,
                        basis: mass * it.basis,
                    }),
                    Role::ByProduct => -mass * it.separable,
                    Role::Loss => 0.0,
                };
            }
        }
    }

    fn value_up(&self, method: AllocationMethod, minute: f64, drawn: &[Drawn], parts: &mut [Part]) {
        for leaf in &self.leaves {
            if let (Some(it), Some(part)) = (drawn.get(leaf.product), parts.get_mut(leaf.part)) {
                let mass = it.mass * leaf.of_product;
                part.add(
                    leaf.role,
                    &Counts {
                        weight: mass,
                        sales: mass * it.sales,
                        separable: mass * it.separable,
                        basis: mass * it.basis,
                    },
                );
            }
        }
        for (index, branch) in self.branches.iter().enumerate().rev() {
            let Some((before, from)) = parts.split_at_mut_checked(index) else {
                continue;
            };
            let Some(part) = from.first_mut() else {
                continue;
            };
            part.labour = minute * (branch.fixed_minutes + branch.minutes_per_kg * part.weight);
            part.separable += part.labour;
            if index > 0
                && let Some(parent) = before.get_mut(branch.parent)
            {
                parent.add(branch.role, &part.counts(method));
            }
        }
    }

    fn cost_down(&self, method: AllocationMethod, parts: &mut [Part]) {
        for (index, branch) in self.branches.iter().enumerate() {
            let Some((before, from)) = parts.split_at_mut_checked(index) else {
                continue;
            };
            let Some(part) = from.first_mut() else {
                continue;
            };
            if index > 0
                && let Some(parent) = before.get(branch.parent)
            {
                part.cost = match branch.role {
                    Role::Main => parent.rate.cost(&part.counts(method)),
                    Role::ByProduct => part.sales - part.separable,
                    Role::Loss => 0.0,
                };
            }
            part.rate = part.rate(method, branch.main_outputs);
        }
    }
}

impl Part {
    fn add(&mut self, role: Role, it: &Counts) {
        self.weight += it.weight;
        self.sales += it.sales;
        self.separable += it.separable;
        match role {
            Role::Main => {
                self.main_weight += it.weight;
                self.main_sales += it.sales;
                self.main_separable += it.separable;
                self.main_basis += it.basis;
            }
            Role::ByProduct => self.by_products += it.sales - it.separable,
            Role::Loss => {}
        }
    }

    /// What the part counts in its own parent, complete with its labour.
    fn counts(&self, method: AllocationMethod) -> Counts {
        Counts {
            weight: self.weight,
            sales: self.sales,
            separable: self.separable,
            basis: match method {
                AllocationMethod::PhysicalWeight => self.weight,
                AllocationMethod::SalesValueAtSplitOff => self.sales.max(0.0),
                AllocationMethod::NetRealisableValue | AllocationMethod::ConstantGrossMargin => {
                    (self.sales - self.separable).max(0.0)
                }
            },
        }
    }

    /// The rules of [`pricing::allocation`]: what the method counts, else the
    /// weights, else the same for each; constant margin without sales divides
    /// like net realisable value.
    fn rate(&self, method: AllocationMethod, outputs: f64) -> Rate {
        let pool = self.cost + self.labour - self.by_products;
        if method == AllocationMethod::ConstantGrossMargin && self.main_sales != 0.0 {
            return Rate::Sales((pool + self.main_separable) / self.main_sales);
        }
        if self.main_basis > 0.0 {
            return match method {
                AllocationMethod::ConstantGrossMargin => Rate::Net(pool / self.main_basis),
                _ => Rate::Basis(pool / self.main_basis),
            };
        }
        if self.main_weight > 0.0 {
            Rate::Weight(pool / self.main_weight)
        } else if outputs > 0.0 {
            Rate::Each(pool / outputs)
        } else {
            Rate::default()
        }
    }
}
