//! A part in the division of cost: what comes off it, what it counts in its own
//! parent, and the rate at which its cost goes down.

use std::array::from_fn;

use pricing::AllocationMethod;

use super::lanes::{LANES, Lanes};

/// What a piece is in the division of cost, as in [`pricing::cost`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Role {
    #[default]
    Loss,
    ByProduct,
    Main,
}

/// What the draws make of a part.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Part {
    /// All that comes off it.
    pub weight: Lanes,
    /// What of it carries cost.
    pub main: Counts,
    /// Separable cost of what does not carry any.
    pub separable: Lanes,
    /// What its by-products bring.
    pub by_products: Lanes,
    pub labour: Lanes,
    pub cost: Lanes,
}

/// What a piece counts when the cost of its part is divided.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Counts {
    pub weight: Lanes,
    pub sales: Lanes,
    pub separable: Lanes,
    pub basis: Lanes,
}

impl Counts {
    pub(super) fn add(&mut self, it: &Self) {
        self.weight += it.weight;
        self.sales += it.sales;
        self.separable += it.separable;
        self.basis += it.basis;
    }
}

/// How the cost of a part goes to what comes off it. A draw has either a rate
/// for what the method counts, or one for sales, from which separable cost then
/// goes off, or one for weight, or the same for each.
#[derive(Clone, Copy, Debug)]
pub(super) enum Rate {
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
    pub(super) fn cost(&self, part: f64, it: &Counts) -> Lanes {
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

impl Part {
    pub(super) fn add_part(&mut self, role: Role, it: &Counts) {
        self.weight += it.weight;
        match role {
            Role::Main => self.main.add(it),
            Role::ByProduct => {
                self.separable += it.separable;
                self.by_products -= it.separable;
            }
            Role::Loss => self.separable += it.separable,
        }
    }

    /// What the part counts in its own parent, complete with its labour. All
    /// that sells carries cost.
    pub(super) fn counts(&self, method: AllocationMethod) -> Counts {
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
    pub(super) fn rate(&self, method: AllocationMethod, outputs: f64) -> Rate {
        let pool = self.cost + self.labour - self.by_products;
        let with_separable = pool + self.main.separable;
        let by_sales = method == AllocationMethod::ConstantGrossMargin;
        if by_sales && self.main.sales.0.iter().all(|sales| *sales != 0.0) {
            return Rate::Sales(with_separable / self.main.sales);
        }
        if !by_sales && self.main.basis.0.iter().all(|basis| *basis > 0.0) {
            return Rate::Basis(pool / self.main.basis);
        }
        let first: [Option<usize>; LANES] = from_fn(|lane| {
            let counts = [
                by_sales && self.main.sales.lane(lane) != 0.0,
                self.main.basis.lane(lane) > 0.0,
                self.main.weight.lane(lane) > 0.0,
                outputs > 0.0,
            ];
            counts.iter().position(|counts| *counts)
        });
        let where_first = |place: usize, above: Lanes, below: Lanes| {
            let Lanes(mut rates) = above / below;
            for (rate, first) in rates.iter_mut().zip(first) {
                if first != Some(place) {
                    *rate = 0.0;
                }
            }
            Lanes(rates)
        };
        let one = Lanes::all(1.0);
        Rate::Mixed {
            sales: where_first(0, with_separable, self.main.sales),
            separable: where_first(0, one, one),
            basis: where_first(1, pool, self.main.basis),
            weight: where_first(2, pool, self.main.weight),
            each: where_first(3, pool, Lanes::all(outputs)),
        }
    }
}
