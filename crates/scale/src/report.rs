//! Planned against actual: every cut, every part, and where the money went.
//!
//! The planned sheet is the plan's own. The actual one has what the scale said,
//! what is charged and paid now, and the minutes that were taken. Between them
//! stand two more, each of which changes one thing alone, so that what each
//! change is worth adds up to the whole difference ([`crate::variance`]).

use carcass::{Breakdown, Catalogue, PartId, ProductId, WayId, What};
use litemap::LiteMap;
use pricing::{CostSheet, Deal, LabourTime, PricingError, Shop, WorkingTime, price_breakdown};
use quantity::{Decimal, Mass, Minutes, Money, Share};

use crate::closing::ClosedWeights;
use crate::composition::products;
use crate::variance::Variance;

/// A side as it was planned: what [`pricing::price_side`] makes of it.
#[derive(Clone, Copy, Debug)]
pub struct Planned<'a> {
    /// The deal.
    pub deal: &'a Deal,
    /// The shop.
    pub shop: &'a Shop,
    /// The sheet of both.
    pub sheet: &'a CostSheet,
}

/// What came of it beside the weights.
#[derive(Clone, Copy, Debug)]
pub struct Outcome<'a> {
    /// The deal as it was paid. Its weight, basis and stock are those of the
    /// plan; its time is not read.
    pub deal: &'a Deal,
    /// The shop with what it charged and what an hour cost it.
    pub shop: &'a Shop,
    /// Minutes by way, all pieces together; a way without keeps the plan's.
    pub minutes: &'a LiteMap<WayId, Minutes>,
}

/// Planned and actual of one thing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Pair<T> {
    /// By the plan.
    pub planned: T,
    /// By the scale, the till and the clock.
    pub actual: T,
}

/// A cut or by-product.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CutLine {
    /// What it is.
    pub product: ProductId,
    /// Weight.
    pub weight: Pair<Mass>,
    /// Share of the chilled side.
    pub share: Pair<Share>,
    /// Cost with packaging, exact.
    pub cost: Pair<Money>,
    /// What it sells for or brings, unsold weight taken off.
    pub sales: Pair<Money>,
    /// Share of its sales left after its cost; `None` without sales.
    pub margin: Pair<Option<Share>>,
    /// What the other weight is worth at the planned price, packaging and
    /// by-products counted, before the side is paid.
    pub by_yield: Money,
    /// What the other price is worth on the actual weight.
    pub by_price: Money,
}

/// A part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PartLine {
    /// The part.
    pub part: PartId,
    /// The way it was broken.
    pub way: WayId,
    /// Weight.
    pub weight: Pair<Mass>,
    /// Share of the chilled side.
    pub share: Pair<Share>,
    /// Cost when it came off.
    pub cost: Pair<Money>,
    /// Time to break it.
    pub minutes: Pair<Minutes>,
    /// Labour and overhead of breaking it.
    pub labour: Pair<Money>,
    /// What its cuts sell for.
    pub sales: Pair<Money>,
}

/// A closed side held against its plan.
#[derive(Clone, Debug)]
pub struct Report {
    /// Every cut and by-product of either, the planned ones in the order of the
    /// planned sheet.
    pub cuts: Vec<CutLine>,
    /// Every part, the side first.
    pub parts: Vec<PartLine>,
    /// Losses of the plan, and what of them was there.
    pub losses: Vec<(ProductId, Pair<Mass>)>,
    /// Where the difference in money comes from.
    pub variance: Variance,
    /// The sheet of what came of it.
    pub actual: CostSheet,
}

/// Holds a closed side against its plan.
///
/// # Errors
/// As [`pricing::price_breakdown`], when what came of it cannot be priced.
pub fn report(
    catalogue: &Catalogue,
    planned: &Planned,
    weights: &ClosedWeights,
    outcome: &Outcome,
) -> Result<Report, PricingError> {
    let breakdown = &planned.sheet.breakdown;
    let weighed = reshared(catalogue, breakdown, weights);
    let planned_minutes = minutes_by_way(breakdown, &planned.sheet.time);

    // The plan's time stands until labour has its turn: heavier parts do not by
    // themselves take longer than they were planned to.
    let held = |shop: &Shop, minutes: &LiteMap<WayId, Minutes>| {
        let mut shop = shop.clone();
        shop.labour.own_times = per_piece(&weighed, minutes);
        shop
    };
    let at_plan_time = |deal: &Deal| Deal {
        labour: LabourTime::PlanEstimate,
        ..deal.clone()
    };
    let by_yield = price_breakdown(
        catalogue,
        weighed.clone(),
        &at_plan_time(planned.deal),
        &held(planned.shop, &planned_minutes),
    )?;
    let actual_deal = at_plan_time(&Deal {
        sides: planned.deal.sides,
        weight: planned.deal.weight,
        basis: planned.deal.basis,
        stock: planned.deal.stock,
        ..outcome.deal.clone()
    });
    let charged = Shop {
        labour: planned.shop.labour.clone(),
        ..outcome.shop.clone()
    };
    let by_price = price_breakdown(
        catalogue,
        weighed.clone(),
        &actual_deal,
        &held(&charged, &planned_minutes),
    )?;
    let mut minutes = planned_minutes;
    for (way, spent) in outcome.minutes.iter() {
        if minutes.contains_key(way) {
            minutes.insert(*way, *spent);
        }
    }
    let actual = price_breakdown(
        catalogue,
        weighed.clone(),
        &actual_deal,
        &held(outcome.shop, &minutes),
    )?;
    let variance = Variance::of([
        &planned.sheet.totals,
        &by_yield.totals,
        &by_price.totals,
        &actual.totals,
    ]);
    Ok(Report {
        cuts: cut_lines(planned.sheet, [&by_yield, &by_price], &actual),
        parts: part_lines(planned.sheet, &actual),
        losses: losses(catalogue, planned.sheet, &actual),
        variance,
        actual,
    })
}

/// The breakdown with the weights of a closed side. Shares of a weight end
/// within fourteen digits, so pieces can be off by as much as that.
pub fn reshared(
    catalogue: &Catalogue,
    breakdown: &Breakdown,
    weights: &ClosedWeights,
) -> Breakdown {
    let whole: Mass = weights.pieces.iter().copied().sum();
    let shares: Vec<Share> = weights
        .pieces
        .iter()
        .map(|piece| piece.ratio_to(whole).unwrap_or_default())
        .collect();
    breakdown.reshared(catalogue, &shares)
}

/// The time of every way, all its pieces together.
fn minutes_by_way(breakdown: &Breakdown, time: &WorkingTime) -> LiteMap<WayId, Minutes> {
    let mut minutes = LiteMap::new();
    for (index, node) in breakdown.nodes().iter().enumerate() {
        if let What::Part { way, .. } = node.what {
            let before = minutes.get(&way).copied().unwrap_or(Minutes::ZERO);
            minutes.insert(way, before + time.of_piece(index));
        }
    }
    minutes
}

/// Minutes by way as the shop's own time for each piece.
fn per_piece(breakdown: &Breakdown, minutes: &LiteMap<WayId, Minutes>) -> LiteMap<WayId, Minutes> {
    minutes
        .iter()
        .filter_map(|(way, minutes)| {
            let pieces: Decimal = breakdown
                .nodes()
                .iter()
                .filter(|node| matches!(node.what, What::Part { way: it, .. } if it == *way))
                .map(|node| node.pieces)
                .sum();
            let of_piece = minutes.minutes().checked_div(pieces)?;
            Some((*way, Minutes::from_minutes(of_piece)))
        })
        .collect()
}

/// One row of a sheet, or one that is empty where it has none.
#[derive(Clone, Copy, Default)]
struct Cell {
    weight: Mass,
    share: Share,
    cost: Money,
    sales: Money,
    margin: Option<Share>,
    /// What it brings before its share of the side: packaging taken off.
    worth: Money,
}

fn cell(sheet: &CostSheet, product: ProductId) -> Cell {
    let Some(row) = sheet.rows.iter().find(|row| row.product == product) else {
        return Cell::default();
    };
    let packaging = sheet
        .breakdown
        .nodes()
        .iter()
        .zip(&sheet.costs)
        .filter(|(node, _)| node.what == What::Product(product))
        .map(|(_, cost)| cost.packaging)
        .sum();
    Cell {
        weight: row.weight,
        share: row.share,
        cost: row.exact_cost,
        sales: row.sales,
        margin: row.margin,
        worth: row.sales - packaging,
    }
}

fn cut_lines(
    planned: &CostSheet,
    [by_yield, by_price]: [&CostSheet; 2],
    actual: &CostSheet,
) -> Vec<CutLine> {
    let mut cuts: Vec<ProductId> = planned.rows.iter().map(|row| row.product).collect();
    for row in &actual.rows {
        if !cuts.contains(&row.product) {
            cuts.push(row.product);
        }
    }
    cuts.into_iter()
        .map(|product| {
            let (before, after) = (cell(planned, product), cell(actual, product));
            let worth = |sheet| cell(sheet, product).worth;
            let weighed = worth(by_yield);
            CutLine {
                product,
                weight: Pair {
                    planned: before.weight,
                    actual: after.weight,
                },
                share: Pair {
                    planned: before.share,
                    actual: after.share,
                },
                cost: Pair {
                    planned: before.cost,
                    actual: after.cost,
                },
                sales: Pair {
                    planned: before.sales,
                    actual: after.sales,
                },
                margin: Pair {
                    planned: before.margin,
                    actual: after.margin,
                },
                by_yield: weighed - before.worth,
                by_price: worth(by_price) - weighed,
            }
        })
        .collect()
}

fn part_lines(planned: &CostSheet, actual: &CostSheet) -> Vec<PartLine> {
    // Both have the same pieces in the same order.
    let of_planned = planned.breakdown.nodes().iter().zip(&planned.costs);
    let of_actual = actual.breakdown.nodes().iter().zip(&actual.costs);
    of_planned
        .zip(of_actual)
        .enumerate()
        .filter_map(|(index, ((node, cost), (weighed, costed)))| {
            let What::Part { part, way } = node.what else {
                return None;
            };
            Some(PartLine {
                part,
                way,
                weight: Pair {
                    planned: node.weight,
                    actual: weighed.weight,
                },
                share: Pair {
                    planned: node.share,
                    actual: weighed.share,
                },
                cost: Pair {
                    planned: cost.cost,
                    actual: costed.cost,
                },
                minutes: Pair {
                    planned: planned.time.of_piece(index),
                    actual: actual.time.of_piece(index),
                },
                labour: Pair {
                    planned: cost.labour,
                    actual: costed.labour,
                },
                sales: Pair {
                    planned: cost.sales,
                    actual: costed.sales,
                },
            })
        })
        .collect()
}

fn losses(
    catalogue: &Catalogue,
    planned: &CostSheet,
    actual: &CostSheet,
) -> Vec<(ProductId, Pair<Mass>)> {
    let mut losses: LiteMap<ProductId, Pair<Mass>> = LiteMap::new();
    let pieces = products(&planned.breakdown).zip(products(&actual.breakdown));
    for ((_, product, node), (_, _, weighed)) in pieces {
        if catalogue[product].kind == carcass::Kind::Loss {
            let before = losses.get(&product).copied().unwrap_or_default();
            losses.insert(
                product,
                Pair {
                    planned: before.planned + node.weight,
                    actual: before.actual + weighed.weight,
                },
            );
        }
    }
    losses.into_iter().collect()
}
