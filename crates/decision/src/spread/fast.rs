//! The costing of a draw in floats: the whole of [`pricing::sheet`] but the
//! suggested prices, on a case that has been flattened once.
//!
//! Draws are costed a few at a time ([`super::lanes`]).
//! A draw gives every product a factor for its weight. Sales, by-products,
//! packaging and working time are then sums over the products, since all of
//! them are linear in the weights; the cost of every cut takes the same two
//! passes over the tree of the plan as [`pricing::cost`], over arrays. The exact
//! path stays the measure: both agree to 1e-9 of an amount.

use carcass::{Kind, Node, ProductId, What};
use pricing::{AllocationMethod, LabourTime, Packaging};
use quantity::{Decimal, Mass};

use super::float::float;
use super::lanes::Lanes;
use super::model::{FURTHEST, Market, Piece};
use super::tree::{Scratch, Tree};
use crate::case::Case;

/// A product with all that its weight decides.
#[derive(Clone, Copy, Debug)]
struct Line {
    is_cut: bool,
    /// Kilograms by the plan.
    mass: f64,
    /// Price of the board for a kilogram.
    price: f64,
    /// Share of the full value that is taken in.
    kept: f64,
    /// What of it one unsold share more takes away.
    kept_by_unsold: f64,
    /// The furthest that the unsold share can go either way.
    room: f64,
    /// Packaging of a kilogram.
    packaging: f64,
    /// Minutes that its weight takes, by the plan.
    minutes: f64,
}

/// What a product brings and costs, draw by draw.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Drawn {
    /// Kilograms over the plan's.
    pub factor: Lanes,
    /// Kilograms.
    pub mass: Lanes,
    /// Sales; nothing for a by-product.
    pub sales: Lanes,
    /// Packaging less what a by-product brings.
    pub separable: Lanes,
    /// What it counts when cost is divided.
    pub basis: Lanes,
    /// Cost in the case, packaging included.
    pub cost: Lanes,
}

/// The side as a whole, draw by draw, in money.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct DrawnSide {
    pub sales: Lanes,
    pub by_products: Lanes,
    pub packaging: Lanes,
    /// Wages, on-costs and overhead.
    pub labour: Lanes,
    /// Everything paid out.
    pub spend: Lanes,
    pub profit: Lanes,
    /// Share of sales.
    pub margin: Lanes,
    /// For a kilogram of the priced weight.
    pub walk_away: Lanes,
}

/// A case as arrays.
#[derive(Clone, Debug)]
pub(super) struct FlatCase {
    /// The products in the order of their ids, so that neither the order of the
    /// parts nor that of the data decides what is drawn for which.
    pub products: Vec<ProductId>,
    lines: Vec<Line>,
    tree: Tree,
    method: AllocationMethod,
    /// Minutes that do not depend on a weight.
    fixed_minutes: f64,
    /// One time for the side in place of the planned one.
    total_minutes: Option<f64>,
    /// Money for a minute.
    minute: f64,
    /// Side and charges.
    joint: f64,
    charges: f64,
    /// Share of the sales that the target leaves.
    affordable: f64,
    priced_kg: f64,
}

impl FlatCase {
    pub(super) fn new(case: &Case, nodes: &[Node]) -> Self {
        let catalogue = case.catalogue;
        let products = products_of(case, nodes);
        let mut lines: Vec<Line> = products.iter().map(|it| line(case, *it)).collect();
        let labour = &case.shop.labour;
        let own_time = |index: usize| match nodes.get(index).map(|node| node.what) {
            Some(What::Part { way, .. }) => labour.own_times.get(&way),
            _ => None,
        };

        // Minutes for each kilogram of every part, and those that it takes
        // whatever it weighs.
        let mut fixed_minutes = 0.0;
        let mut fixed = vec![0.0; nodes.len()];
        let mut per_kg = vec![0.0; nodes.len()];
        let mut per_kg_down = vec![0.0; nodes.len()];
        for (index, node) in nodes.iter().enumerate() {
            if let What::Part { way, .. } = node.what {
                let way = &catalogue[way];
                let (minutes, each_kg) = match own_time(index) {
                    Some(own) => (own.times(node.pieces), 0.0),
                    None => (
                        way.per_piece.times(node.pieces),
                        float(way.per_kg.minutes()),
                    ),
                };
                let minutes = float(minutes.minutes());
                fixed_minutes += minutes;
                put(&mut fixed, index, minutes);
                put(&mut per_kg, index, each_kg);
            }
            let above = node.parent.map_or(0.0, |parent| at(&per_kg_down, parent));
            put(&mut per_kg_down, index, above + at(&per_kg, index));
            if let What::Product(product) = node.what {
                let place = products.iter().position(|it| *it == product);
                let line = place.and_then(|place| lines.get_mut(place));
                if let Some(line) = line {
                    let mass = float(node.weight.kg());
                    line.mass += mass;
                    line.minutes += mass * above;
                }
            }
        }
        let hour = labour.rate.per_hour() * (Decimal::ONE + labour.on_cost.fraction())
            + labour.overhead.per_hour();
        let joint = case.deal.side_cost() + case.deal.charges_total();
        Self {
            tree: Tree::new(
                nodes,
                &products,
                &lines_kinds(case, &products),
                &fixed,
                &per_kg,
            ),
            lines,
            products,
            method: case.shop.method,
            fixed_minutes,
            total_minutes: match case.deal.labour {
                LabourTime::PlanEstimate => None,
                LabourTime::Total(total) => Some(float(total.minutes())),
            },
            minute: float(hour) / 60.0,
            joint: float(joint.units()),
            charges: float(case.deal.charges_total().units()),
            affordable: float(case.shop.target_margin.complement().fraction()),
            priced_kg: float(case.deal.weight.kg()),
        }
    }

    /// The products as the model sees them, in their order.
    pub(super) fn pieces(&self, case: &Case) -> Vec<Piece> {
        let whole: f64 = self.lines.iter().map(|line| line.mass).sum();
        self.products
            .iter()
            .zip(&self.lines)
            .map(|(product, line)| Piece {
                kind: case.catalogue[*product].kind,
                share: line.mass / whole,
                bone: float(case.catalogue[*product].bone.fraction()),
                cv: case
                    .catalogue
                    .spread_of(*product)
                    .map_or(0.0, |group| float(group.cv.fraction())),
            })
            .collect()
    }

    /// Kilograms of everything that leaves the block, in the order of the nodes.
    #[cfg(test)]
    pub(super) fn weights(&self, drawn: &[Drawn]) -> Vec<f64> {
        self.tree.weights(drawn)
    }

    /// Costs the draws. `drawn` comes with the factors and goes with the rest;
    /// `scratch` is room for the parts.
    pub(super) fn cost(
        &self,
        market: Market,
        drawn: &mut [Drawn],
        scratch: &mut Scratch,
    ) -> DrawnSide {
        let mut side = DrawnSide::default();
        let mut planned = Lanes::all(self.fixed_minutes);
        let method = self.method;
        for (line, drawn) in self.lines.iter().zip(drawn.iter_mut()) {
            let mass = drawn.factor * line.mass;
            planned += drawn.factor * line.minutes;
            drawn.mass = mass;
            if line.is_cut {
                let kept = market.unsold.map(|unsold| {
                    line.kept - line.kept_by_unsold * unsold.clamp(-line.room, line.room)
                });
                drawn.sales = mass * (market.price * line.price * kept);
                drawn.separable = mass * line.packaging;
                side.sales += drawn.sales;
                side.packaging += drawn.separable;
            } else {
                drawn.sales = Lanes::default();
                drawn.separable = mass * -line.price;
                side.by_products -= drawn.separable;
            }
            drawn.basis = match method {
                AllocationMethod::PhysicalWeight => mass,
                AllocationMethod::SalesValueAtSplitOff => drawn.sales.at_least_nothing(),
                AllocationMethod::NetRealisableValue | AllocationMethod::ConstantGrossMargin => {
                    (drawn.sales - drawn.separable).at_least_nothing()
                }
            };
        }
        let minutes = self.total_minutes.map_or(planned, Lanes::all);
        side.labour = minutes * self.minute;
        side.spend = side.labour + side.packaging + self.joint;
        side.profit = side.sales + side.by_products - side.spend;
        side.margin = side.profit / side.sales;
        side.walk_away = (side.sales * self.affordable + side.by_products
            - side.packaging
            - side.labour
            - self.charges)
            / Lanes::all(self.priced_kg);

        // A total is spread over the parts as their planned time is; without
        // any it falls on the side as a whole.
        let (minute, first) = match self.total_minutes {
            None => (Lanes::all(self.minute), Lanes::default()),
            Some(total) => {
                let cost = total * self.minute;
                let unplanned = |planned| planned == 0.0;
                (
                    planned.map(|planned| {
                        if unplanned(planned) {
                            0.0
                        } else {
                            cost / planned
                        }
                    }),
                    planned.map(|planned| if unplanned(planned) { cost } else { 0.0 }),
                )
            }
        };
        self.tree
            .cost(method, first + self.joint, minute, drawn, scratch);
        for (line, drawn) in self.lines.iter().zip(drawn.iter_mut()) {
            if line.is_cut {
                drawn.cost += drawn.separable;
            } else {
                drawn.cost = -drawn.separable;
            }
        }
        side
    }
}

fn at(list: &[f64], index: usize) -> f64 {
    list.get(index).copied().unwrap_or(0.0)
}

fn put(list: &mut [f64], index: usize, value: f64) {
    if let Some(place) = list.get_mut(index) {
        *place = value;
    }
}

fn products_of(case: &Case, nodes: &[Node]) -> Vec<ProductId> {
    let mut products: Vec<ProductId> = nodes
        .iter()
        .filter_map(|node| match node.what {
            What::Product(product) => Some(product),
            What::Part { .. } => None,
        })
        .collect();
    products.sort_unstable_by_key(|product| &case.catalogue[*product].id);
    products.dedup();
    products
}

fn lines_kinds(case: &Case, products: &[ProductId]) -> Vec<Kind> {
    products
        .iter()
        .map(|product| case.catalogue[*product].kind)
        .collect()
}

fn line(case: &Case, product: ProductId) -> Line {
    let shop = &case.shop;
    let kind = case.catalogue[product].kind;
    let loss = shop.losses_of(product);
    let price = match kind {
        Kind::Loss => 0.0,
        _ => float(shop.board.price(case.catalogue, product).per_kg()),
    };
    let packaging = match shop.packaging {
        Packaging::PerWeight(price) => float(price.per_kg()),
        pack @ Packaging::PerPack { .. } => {
            float(pack.cost_of(Mass::from_kg(Decimal::ONE)).units())
        }
    };
    let unsold = float(loss.unsold.fraction());
    let still_sold = 1.0 - unsold - float(loss.marked_down.fraction());
    Line {
        is_cut: kind == Kind::Cut,
        mass: 0.0,
        price,
        kept: float(loss.kept().fraction()),
        kept_by_unsold: float(loss.purge.complement().fraction()),
        room: (unsold.min(still_sold) * FURTHEST).max(0.0),
        packaging: if kind == Kind::Cut { packaging } else { 0.0 },
        minutes: 0.0,
    }
}
