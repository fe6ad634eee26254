//! Planned against actual: every cut, every part, and where the money went.
//!
//! The planned sheet is the plan's own. The actual one has what the scale said,
//! what is charged and paid now, and the minutes that were taken. Between them
//! stand two more, each of which changes one thing alone, so that what each
//! change is worth adds up to the whole difference ([`crate::variance`]).
//!
//! Weights and shares are those that the scale said. Money is reckoned with the
//! weights of the closed side, which are the same but for what is unexplained
//! ([`ClosedWeights`]).
//!
//! Money won or lost is told for every cut and for every part. To a part belongs
//! what comes off it at once and the labour of breaking it; what comes off a part
//! of it belongs to that one, and what the side was bought for to none. So the
//! amounts of all cuts, and those of all parts, sum to those of the side exactly:
//! they are cut to the places of these, and the largest takes what division
//! leaves. No cut has minutes of its own, so labour stands at the parts alone.

mod lines;

use carcass::{Breakdown, Catalogue, PartId, ProductId, WayId, What};
use litemap::LiteMap;
use pricing::{CostSheet, Deal, LabourTime, PricingError, Shop, WorkingTime, price_breakdown};
use quantity::{Decimal, Mass, Minutes, Money, Share};

use crate::closing::{ClosedWeights, Settlement};
use crate::composition::piece_weights;
use crate::variance::Variance;
use lines::Sheets;

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
    /// Share of that left after all that its cuts cost; `None` without sales.
    pub margin: Pair<Option<Share>>,
    /// What other weights of what comes off it at once are worth at the planned
    /// prices.
    pub by_yield: Money,
    /// What other prices of these are worth on the actual weights, at the till.
    pub by_price: Money,
    /// What other minutes and another rate of breaking it are worth.
    pub by_labour: Money,
}

/// A closed side held against its plan.
#[derive(Clone, Debug)]
pub struct Report {
    /// Every cut and by-product of either, the planned ones in the order of the
    /// planned sheet.
    pub cuts: Vec<CutLine>,
    /// Every part, the side first.
    pub parts: Vec<PartLine>,
    /// Losses of the plan, and what of them was weighed.
    pub losses: Vec<(ProductId, Pair<Mass>)>,
    /// What the scale did not find; below nothing where it found too much.
    pub unexplained: Mass,
    /// What became of that in the money.
    pub settlement: Settlement,
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
    let sheets = Sheets {
        planned: planned.sheet,
        by_yield: &by_yield,
        by_price: &by_price,
        actual: &actual,
        weighed: &piece_weights(breakdown, &weights.weighed),
    };
    Ok(Report {
        cuts: sheets.cut_lines(&variance),
        parts: sheets.part_lines(catalogue, &variance),
        losses: sheets.losses(catalogue),
        unexplained: weights.unexplained,
        settlement: weights.settlement,
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
