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

/// What the draws make of a part.
#[derive(Clone, Copy, Debug, Default)]
struct Part {
    /// All that comes off it.
    weight: Lanes,
    /// What of it carries cost.
    main: Counts,
    /// Separable cost of what does not carry any.
    separable: Lanes,
    /// What its by-products bring.
    by_products: Lanes,
    labour: Lanes,
    cost: Lanes,
    rate: Rate,
}

/// What a piece counts when the cost of its part is divided.
#[derive(Clone, Copy, Debug, Default)]
struct Counts {
    weight: Lanes,
    sales: Lanes,
    separable: Lanes,
    basis: Lanes,
}

/// How the cost of a part goes to what comes off it. A draw has either a rate
/// for what the method counts, or one for sales, from which separable cost then
/// goes off, or one for weight, or the same for each.
#[derive(Clone, Copy, Debug)]
enum Rate {
    /// For what counts by the method, in every draw.
    Basis(Lanes),
    /// Sales times this, less separable cost, in every draw.
    Sales(Lanes),
    /// Draws differ.
    Mixed {
        basis: Lanes,
        sales: Lanes,
        separable: Lanes,
        weight: Lanes,
        each: Lanes,
    },
}

impl Default for Rate {
    fn default() -> Self {
        Self::Basis(Lanes::default())
    }
}

impl Rate {
    /// The cost of `part` of what counts this much; one piece of it.
    #[inline]
    fn cost(&self, part: f64, it: &Counts) -> Lanes {
        match self {
            Self::Basis(rate) => it.basis * *rate * part,
            Self::Sales(rate) => (it.sales * *rate - it.separable) * part,
            Self::Mixed {
                basis,
                sales,
                separable,
                weight,
                each,
            } => {
                (it.basis * *basis + it.sales * *sales - it.separable * *separable
                    + it.weight * *weight)
                    * part
                    + *each
            }
        }
    }
}

/// Room for the parts.
#[derive(Clone, Debug, Default)]
pub(super) struct Scratch {
    parts: Vec<Part>,
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
        tree.mains = tree.leaves.clone();
        tree.mains.retain(|leaf| leaf.role == Role::Main);
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
        let parts = scratch.parts.as_mut_slice();
        self.value_up(method, minute, drawn, parts);
        if let Some(side) = parts.first_mut() {
            side.cost = joint;
        }
        self.cost_down(method, parts);
        for leaves in self.mains.chunk_by(|one, next| one.product == next.product) {
            let product = leaves.first().map_or(0, |leaf| leaf.product);
            let Some(it) = drawn.get_mut(product) else {
                continue;
            };
            let counts = it.counts();
            let mut cost = Lanes::default();
            for leaf in leaves {
                if let Some(part) = parts.get(leaf.part) {
                    cost += part.rate.cost(leaf.of_product, &counts);
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
        for leaf in &self.leaves {
            if let (Some(it), Some(part)) = (drawn.get(leaf.product), parts.get_mut(leaf.part)) {
                part.add_leaf(leaf, it);
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

    fn cost_down(&self, method: AllocationMethod, parts: &mut [Part]) {
        for (index, branch) in self.branches.iter().enumerate() {
            let Some((before, from)) = parts.split_at_mut_checked(index) else {
                continue;
            };
            let Some(part) = from.first_mut() else {
                continue;
            };
            // What has no cut in it divides nothing.
            if branch.role != Role::Main {
                continue;
            }
            if index > 0
                && let Some(parent) = before.get(branch.parent)
            {
                part.cost = parent.rate.cost(1.0, &part.counts(method));
            }
            part.rate = part.rate(method, branch.main_outputs);
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
    #[inline]
    fn add_leaf(&mut self, leaf: &Leaf, it: &Drawn) {
        let weight = it.mass * leaf.of_product;
        self.weight += weight;
        match leaf.role {
            Role::Main => {
                self.main.weight += weight;
                self.main.sales += it.sales * leaf.of_product;
                self.main.separable += it.separable * leaf.of_product;
                self.main.basis += it.basis * leaf.of_product;
            }
            Role::ByProduct => {
                let separable = it.separable * leaf.of_product;
                self.separable += separable;
                self.by_products -= separable;
            }
            Role::Loss => {}
        }
    }

    fn add_part(&mut self, role: Role, it: &Counts) {
        self.weight += it.weight;
        match role {
            Role::Main => {
                self.main.weight += it.weight;
                self.main.sales += it.sales;
                self.main.separable += it.separable;
                self.main.basis += it.basis;
            }
            Role::ByProduct => {
                self.separable += it.separable;
                self.by_products -= it.separable;
            }
            Role::Loss => self.separable += it.separable,
        }
    }

    /// What the part counts in its own parent, complete with its labour. All
    /// that sells carries cost.
    fn counts(&self, method: AllocationMethod) -> Counts {
        let sales = self.main.sales;
        let separable = self.main.separable + self.separable + self.labour;
        Counts {
            weight: self.weight,
            sales,
            separable,
            basis: match method {
                AllocationMethod::PhysicalWeight => self.weight,
                AllocationMethod::SalesValueAtSplitOff => sales.at_least_nothing(),
                AllocationMethod::NetRealisableValue | AllocationMethod::ConstantGrossMargin => {
                    (sales - separable).at_least_nothing()
                }
            },
        }
    }

    /// The rules of [`pricing::allocation`]: what the method counts, else the
    /// weights, else the same for each; constant margin without sales divides
    /// like net realisable value.
    fn rate(&self, method: AllocationMethod, outputs: f64) -> Rate {
        let pool = self.cost + self.labour - self.by_products;
        let with_separable = pool + self.main.separable;
        let by_sales = method == AllocationMethod::ConstantGrossMargin;
        if by_sales && self.main.sales.0.iter().all(|sales| *sales != 0.0) {
            return Rate::Sales(with_separable / self.main.sales);
        }
        if !by_sales && self.main.basis.0.iter().all(|basis| *basis > 0.0) {
            return Rate::Basis(pool / self.main.basis);
        }
        let first = Lanes::each(|lane| {
            let counts = [
                by_sales && self.main.sales.lane(lane) != 0.0,
                self.main.basis.lane(lane) > 0.0,
                self.main.weight.lane(lane) > 0.0,
                outputs > 0.0,
            ];
            (0_u8..)
                .zip(counts)
                .find(|(_, counts)| *counts)
                .map_or(4.0, |(place, _)| f64::from(place))
        });
        let where_first = |place: f64, above: Lanes, below: Lanes| {
            Lanes::each(|lane| {
                if first.lane(lane) == place {
                    above.lane(lane) / below.lane(lane)
                } else {
                    0.0
                }
            })
        };
        let one = Lanes::all(1.0);
        Rate::Mixed {
            sales: where_first(0.0, with_separable, self.main.sales),
            separable: where_first(0.0, one, one),
            basis: where_first(1.0, pool, self.main.basis),
            weight: where_first(2.0, pool, self.main.weight),
            each: where_first(3.0, pool, Lanes::all(outputs)),
        }
    }
}
