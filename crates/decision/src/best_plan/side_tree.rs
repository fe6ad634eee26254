//! The tree of a side: every way at every spot where its part can lie, with its
//! weights, its money and its time.
//!
//! What a part weighs depends on the ways above it and on nothing beside it, so
//! a few plans that together take every way at every spot, each broken down
//! exactly, give the weights of all plans.
//!
//! With the board fixed, the profit of a plan is a sum over its ways: what the
//! cuts coming off sell for, less their packaging, with by-products credited,
//! less the minutes of the way at wage and overhead.
//!
//! Where the deal gives one time for the whole side, labour costs the same
//! whatever the plan. The minutes that are compared and limited are then the
//! planned ones at the shop's own speed: the total over the planned time of the
//! present plan.

use std::collections::{BTreeMap, BTreeSet};

use carcass::{
    Breakdown, Catalogue, CutPlan, GrindPlan, Kind, Output, PartId, ProductId, Role, WayId, What,
    break_down,
};
use pricing::{Deal, LabourTime, WorkingTime};
use quantity::{Decimal, Mass, Minutes, Money, Share};

use super::BestPlanError;
use super::limits::Limits;
use super::problem::{Branch, Problem, Row};
use crate::Case;

/// A way at one spot.
#[derive(Clone, Debug)]
pub(super) struct WayThere {
    pub part: PartId,
    pub way: WayId,
    /// Spots of the parts it gives.
    below: Vec<usize>,
    /// What it adds to the profit.
    profit: f64,
    bench: f64,
    saw: f64,
    /// Kilograms of the products that come off it.
    products: Vec<(ProductId, f64)>,
}

/// Every way at every spot.
#[derive(Clone, Debug)]
pub(super) struct SideTree {
    spots: Vec<Vec<usize>>,
    ways: Vec<WayThere>,
    /// What the side itself adds to the profit of any plan.
    fixed: f64,
    /// Classes of grind that the present plan asks for.
    classes: BTreeSet<ProductId>,
    part_ranks: BTreeMap<PartId, usize>,
    way_ranks: BTreeMap<WayId, usize>,
}

/// The shop's speed against the planned time: one, but where the deal gives the
/// time for the whole side.
pub(super) fn speed(case: &Case) -> Share {
    let LabourTime::Total(total) = case.deal.labour else {
        return Share::WHOLE;
    };
    let breakdown = broken_down(case, &case.plan);
    total
        .ratio_to(planned(case, &breakdown).total)
        .unwrap_or(Share::WHOLE)
}

/// The planned time of a breakdown.
pub(super) fn planned(case: &Case, breakdown: &Breakdown) -> WorkingTime {
    let labour = &case.shop.labour;
    WorkingTime::of(case.catalogue, breakdown, LabourTime::PlanEstimate, labour)
}

fn broken_down(case: &Case, plan: &CutPlan) -> Breakdown {
    let Deal { sides, stock, .. } = case.deal;
    let chilled = case.deal.basis.chilled(case.deal.weight);
    break_down(case.catalogue, chilled, sides, plan, stock)
}

pub(super) fn float(decimal: Decimal) -> f64 {
    f64::try_from(decimal).unwrap_or(0.0)
}

impl SideTree {
    /// The tree of a case.
    pub fn of(case: &Case) -> Result<Self, BestPlanError> {
        let catalogue = case.catalogue;
        no_part_twice(catalogue)?;
        let charges = case.deal.side_cost() + case.deal.charges_total();
        let labour = match case.deal.labour {
            LabourTime::PlanEstimate => Money::ZERO,
            LabourTime::Total(total) => {
                case.shop.labour.wages(total) + case.shop.labour.overhead(total)
            }
        };
        let grind = Grind::of(case)?;
        let mut tree = Self {
            classes: grind.classes.clone(),
            spots: Vec::new(),
            ways: Vec::new(),
            fixed: -float((charges + labour).units()),
            part_ranks: ranks(
                catalogue
                    .parts()
                    .map(|(part, data)| (data.id.as_str(), part)),
            ),
            way_ranks: ranks(catalogue.ways().map(|(way, data)| (data.id.as_str(), way))),
        };
        let speed = speed(case);
        let mut spots = BTreeMap::new();
        for choices in covering(catalogue, catalogue.root()) {
            let mut plan = case.plan.clone();
            plan.grind = GrindPlan::default();
            for (part, way) in choices {
                plan.choose(part, way);
            }
            tree.add(case, &plan, speed, &grind, &mut spots);
        }
        Ok(tree)
    }

    fn add(
        &mut self,
        case: &Case,
        plan: &CutPlan,
        speed: Share,
        grind: &Grind,
        spots: &mut BTreeMap<(Option<usize>, PartId), usize>,
    ) {
        let breakdown = broken_down(case, plan);
        let time = planned(case, &breakdown);
        let is_by_plan = case.deal.labour == LabourTime::PlanEstimate;
        // Of each node its way there, and whether that is new.
        let mut there: Vec<Option<(usize, bool)>> = Vec::new();
        for (index, node) in breakdown.nodes().iter().enumerate() {
            let parent = node
                .parent
                .and_then(|parent| there.get(parent).copied().flatten());
            match node.what {
                What::Part { part, way } => {
                    let above = parent.map(|(parent, _)| parent);
                    let spot = *spots.entry((above, part)).or_insert_with(|| {
                        self.spots.push(Vec::new());
                        let spot = self.spots.len() - 1;
                        if let Some(above) = above {
                            self.ways[above].below.push(spot);
                        }
                        spot
                    });
                    let known = self.spots[spot].iter().copied();
                    let known = known.clone().find(|&known| self.ways[known].way == way);
                    let at = known.unwrap_or_else(|| {
                        let minutes = time.of_piece(index) * speed;
                        let saw = minutes * case.catalogue[way].saw;
                        let labour = &case.shop.labour;
                        let paid = labour.wages(minutes) + labour.overhead(minutes);
                        self.ways.push(WayThere {
                            part,
                            way,
                            below: Vec::new(),
                            profit: if is_by_plan {
                                -float(paid.units())
                            } else {
                                0.0
                            },
                            bench: float((minutes - saw).minutes()),
                            saw: float(saw.minutes()),
                            products: Vec::new(),
                        });
                        self.spots[spot].push(self.ways.len() - 1);
                        self.ways.len() - 1
                    });
                    there.push(Some((at, known.is_none())));
                }
                What::Product(product) => {
                    there.push(None);
                    if let Some((above, true)) = parent {
                        let above = &mut self.ways[above];
                        above.profit += float(grind.brings(case, product, node.weight).units());
                        above.products.push((product, float(node.weight.kg())));
                    }
                }
            }
        }
    }

    /// Whether grind is priced on average, which leaves the search an estimate.
    pub fn averages_grind(&self) -> bool {
        !self.classes.is_empty()
    }

    /// What the side itself adds to the profit of any plan.
    pub fn fixed(&self) -> f64 {
        self.fixed
    }

    /// The ways, by the branches of [`SideTree::problem`].
    pub fn way(&self, branch: usize) -> &WayThere {
        &self.ways[branch]
    }

    /// Minutes at the bench of a way there.
    pub fn bench(&self, branch: usize) -> f64 {
        self.ways[branch].bench
    }

    /// The question in the search's terms: worth is profit.
    pub fn problem(&self, limits: &Limits) -> Problem {
        let is_open = |way: &WayThere| {
            let has_forbidden = way
                .products
                .iter()
                .any(|(product, kg)| *kg > 0.0 && limits.must_not.contains(product));
            !limits.closed.contains(&way.way) && !has_forbidden
        };
        let open_ways = |spot: &Vec<usize>| -> Vec<usize> {
            let ways = spot.iter().copied();
            ways.filter(|&way| is_open(&self.ways[way])).collect()
        };
        Problem {
            places: self.spots.iter().map(open_ways).collect(),
            branches: self
                .ways
                .iter()
                .map(|there| Branch {
                    places: there.below.clone(),
                    worth: there.profit,
                    minutes: there.bench + there.saw,
                    key: (
                        self.part_ranks.get(&there.part).copied().unwrap_or(0),
                        self.way_ranks.get(&there.way).copied().unwrap_or(0),
                    ),
                })
                .collect(),
            rows: self.rows(limits),
        }
    }

    fn rows(&self, limits: &Limits) -> Vec<Row> {
        let row = |most: Decimal, uses: &dyn Fn(&WayThere) -> f64| Row {
            most: float(most),
            uses: self.ways.iter().map(uses).collect(),
        };
        let mut rows = Vec::new();
        if let Some(bench) = limits.bench {
            rows.push(row(bench.minutes(), &|there| there.bench));
        }
        if let Some(saw) = limits.saw {
            rows.push(row(saw.minutes(), &|there| there.saw));
        }
        if let Some(grind) = &limits.grind {
            let gives = |there: &WayThere| -> f64 {
                let products = there.products.iter();
                let grind = products.filter(|(product, _)| grind.products.contains(product));
                -grind.map(|(_, kg)| kg).sum::<f64>()
            };
            rows.push(row(-grind.weight.kg(), &gives));
        }
        for (product, most) in &limits.most {
            rows.push(row(most.kg(), &|there| there.weight_of(*product)));
        }
        for product in limits.must.difference(&self.classes) {
            let is_there = |there: &WayThere| -f64::from(there.weight_of(*product) > 0.0);
            rows.push(row(Decimal::NEGATIVE_ONE, &is_there));
        }
        rows
    }
}

impl WayThere {
    fn weight_of(&self, product: ProductId) -> f64 {
        let products = self.products.iter();
        products
            .filter(|(other, _)| *other == product)
            .map(|(_, kg)| kg)
            .sum()
    }
}

/// How grind is priced in the search. What of it goes into which class rests on
/// all trim of a plan together and is no sum over its ways, so where the present
/// plan asks for classes all lean trim is priced at what a kilogram of its grind
/// brings on average. Without classes this is not needed and nothing is lost.
struct Grind {
    classes: BTreeSet<ProductId>,
    lean_trim: Option<ProductId>,
    /// What the classes and the trim that stays weigh and bring together.
    present: Option<(Mass, Money)>,
}

impl Grind {
    fn of(case: &Case) -> Result<Self, BestPlanError> {
        let classes: BTreeSet<ProductId> = case
            .catalogue
            .products()
            .map(|(product, _)| product)
            .filter(|product| case.plan.grind.amount_of(*product).is_some())
            .collect();
        let lean_trim = case.catalogue.product_in_role(Role::LeanTrim);
        let mut present = None;
        if !classes.is_empty() {
            let rows = case.sheet()?.rows;
            let rows = rows
                .iter()
                .filter(|row| classes.contains(&row.product) || Some(row.product) == lean_trim);
            let (mut weight, mut money) = (Mass::ZERO, Money::ZERO);
            for row in rows {
                weight += row.weight;
                money += brings(case, row.product, row.weight);
            }
            present = weight.is_positive().then_some((weight, money));
        }
        Ok(Self {
            classes,
            lean_trim,
            present,
        })
    }

    /// What a weight of a product adds to the profit.
    fn brings(&self, case: &Case, product: ProductId, weight: Mass) -> Money {
        match self.present {
            Some((all, money)) if Some(product) == self.lean_trim => weight
                .ratio_to(all)
                .map_or(Money::ZERO, |share| money * share),
            _ => brings(case, product, weight),
        }
    }
}

/// What a weight of a product adds to the profit at its price on the board.
fn brings(case: &Case, product: ProductId, weight: Mass) -> Money {
    let shop = &case.shop;
    let value = shop.board.price(case.catalogue, product) * weight;
    match case.catalogue[product].kind {
        Kind::Cut => value * shop.losses_of(product).kept() - shop.packaging.cost_of(weight),
        Kind::Fat | Kind::Bone => value,
        Kind::Loss => Money::ZERO,
    }
}

/// The place of each id in the order of the names.
fn ranks<'a, Id: Copy + Ord>(ids: impl Iterator<Item = (&'a str, Id)>) -> BTreeMap<Id, usize> {
    let names: BTreeMap<&str, Id> = ids.collect();
    names
        .into_values()
        .enumerate()
        .map(|(rank, id)| (id, rank))
        .collect()
}

/// Plans that together take every way of `part` and of all that comes off it,
/// wherever it can lie: as few as the part with the most ways asks for.
fn covering(catalogue: &Catalogue, part: PartId) -> Vec<Vec<(PartId, WayId)>> {
    let mut plans = Vec::new();
    for &way in &catalogue[part].ways {
        let below: Vec<_> = parts_of(catalogue, way)
            .map(|part| covering(catalogue, part))
            .filter(|plans| !plans.is_empty())
            .collect();
        let most = below.iter().map(Vec::len).max().unwrap_or(1);
        plans.extend((0..most).map(|turn| {
            let choices = below.iter().flat_map(|plans| &plans[turn % plans.len()]);
            core::iter::once((part, way))
                .chain(choices.copied())
                .collect()
        }));
    }
    plans
}

fn parts_of(catalogue: &Catalogue, way: WayId) -> impl Iterator<Item = PartId> {
    catalogue[way]
        .outputs
        .iter()
        .filter_map(|output| match output.output {
            Output::Part(part) => Some(part),
            Output::Product(_) => None,
        })
}

/// One way is chosen for a part wherever it lies, so a plan that meets a part
/// twice is no tree of free choices.
fn no_part_twice(catalogue: &Catalogue) -> Result<(), BestPlanError> {
    parts_within(catalogue, catalogue.root()).map(drop)
}

fn parts_within(catalogue: &Catalogue, part: PartId) -> Result<BTreeSet<PartId>, BestPlanError> {
    let mut all = BTreeSet::from([part]);
    for &way in &catalogue[part].ways {
        let mut of_way = BTreeSet::from([part]);
        for below in parts_of(catalogue, way) {
            for part in parts_within(catalogue, below)? {
                if !of_way.insert(part) {
                    return Err(BestPlanError::PartTwice { part });
                }
            }
        }
        all.extend(of_way);
    }
    Ok(all)
}

/// Bench and saw minutes of a breakdown at the shop's speed.
pub(super) fn bench_and_saw(
    case: &Case,
    breakdown: &Breakdown,
    speed: Share,
) -> (Minutes, Minutes) {
    let time = planned(case, breakdown);
    ((time.total - time.at_saw) * speed, time.at_saw * speed)
}
