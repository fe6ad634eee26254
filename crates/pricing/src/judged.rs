//! The totals and the verdict of a side without its sheet: for a question that
//! is asked many times over, such as where the side stops paying.
//!
//! What a sheet adds, the cost of each cut and the suggested prices, takes most
//! of its time and changes neither. Both come from the same functions.

use carcass::{Breakdown, Catalogue, Kind, What};
use quantity::Share;
use wording::key;

use crate::PricingError;
use crate::cost::{NodeCost, value_up};
use crate::deal::{Deal, MOST_SIDES};
use crate::sheet::Totals;
use crate::shop::Shop;
use crate::verdict::{Verdict, judge};
use crate::working_time::WorkingTime;

/// A side as a whole and the answer at the counter: what a
/// [`crate::CostSheet`] says of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judged {
    /// The side as a whole.
    pub totals: Totals,
    /// The answer at the counter.
    pub verdict: Verdict,
}

/// Judges a side that has been broken down, as [`crate::price_breakdown`] does.
///
/// # Errors
/// As [`crate::price_side`].
pub fn judge_breakdown(
    catalogue: &Catalogue,
    breakdown: &Breakdown,
    deal: &Deal,
    shop: &Shop,
) -> Result<Judged, PricingError> {
    let Valued { totals, .. } = Valued::of(catalogue, breakdown, deal, shop)?;
    Ok(Judged {
        verdict: judge(deal, shop, &totals)?,
        totals,
    })
}

/// A side before its cost is divided: what all methods of dividing it share.
pub(crate) struct Valued {
    /// The time of every piece.
    pub time: WorkingTime,
    /// What every piece is worth; no cost yet.
    pub values: Vec<NodeCost>,
    /// The side as a whole.
    pub totals: Totals,
}

impl Valued {
    /// Values a side that has been broken down.
    pub fn of(
        catalogue: &Catalogue,
        breakdown: &Breakdown,
        deal: &Deal,
        shop: &Shop,
    ) -> Result<Self, PricingError> {
        refuse_unsound(deal, shop)?;
        let time = WorkingTime::of(catalogue, breakdown, deal.labour, &shop.labour);
        let values = value_up(catalogue, breakdown, &time, shop);
        let totals = total_up(catalogue, breakdown, &time, &values, deal, shop);
        if totals.sales.is_positive() {
            Ok(Self {
                time,
                values,
                totals,
            })
        } else {
            Err(PricingError::NoSales)
        }
    }
}

fn refuse_unsound(deal: &Deal, shop: &Shop) -> Result<(), PricingError> {
    if !deal.weight.is_positive() {
        return Err(PricingError::NoWeight);
    }
    if !(1..=MOST_SIDES).contains(&deal.sides) {
        return Err(PricingError::SidesOutOfRange);
    }
    if shop.target_margin >= Share::WHOLE {
        return Err(PricingError::MarginTooHigh);
    }
    for (what, sound) in [
        (key!("Target margin"), shop.target_margin >= Share::ZERO),
        (
            key!("Between block and till"),
            shop.losses.is_sound() && shop.own_losses.values().all(|loss| loss.is_sound()),
        ),
        (key!("On-costs"), shop.labour.on_cost >= Share::ZERO),
        (key!("Shrink or dressing share"), deal.basis.is_sound()),
    ] {
        if !sound {
            return Err(PricingError::ShareOutOfRange { what });
        }
    }
    Ok(())
}

/// The side as a whole. Of `costs` only what they sell for and what packs them
/// is read.
fn total_up(
    catalogue: &Catalogue,
    breakdown: &Breakdown,
    time: &WorkingTime,
    costs: &[NodeCost],
    deal: &Deal,
    shop: &Shop,
) -> Totals {
    let mut totals = Totals {
        time: time.total,
        saw_time: time.at_saw,
        side: deal.side_cost(),
        charges: deal.charges_total(),
        labour: shop.labour.wages(time.total),
        overhead: shop.labour.overhead(time.total),
        ..Totals::default()
    };
    for (node, cost) in breakdown.nodes().iter().zip(costs) {
        let What::Product(product) = node.what else {
            if node.parent.is_none() {
                totals.chilled = node.weight;
            }
            continue;
        };
        match catalogue[product].kind {
            Kind::Loss => {}
            Kind::Cut => {
                totals.saleable += node.weight;
                totals.sales += cost.sales;
                totals.packaging += cost.packaging;
            }
            Kind::Fat | Kind::Bone => totals.by_products += cost.by_products,
        }
    }
    totals
}

#[cfg(test)]
mod tests {
    use carcass::break_down;
    use proptest::prelude::*;

    use super::*;
    use crate::any_side::{AnySide, CATALOGUE, any_extreme_side, any_side};

    fn judged(side: &AnySide) -> Result<Judged, PricingError> {
        let deal = &side.deal;
        let chilled = deal.basis.chilled(deal.weight);
        let breakdown = break_down(&CATALOGUE, chilled, deal.sides, &side.plan, deal.stock);
        judge_breakdown(&CATALOGUE, &breakdown, deal, &side.shop)
    }

    fn on_the_sheet(side: &AnySide) -> Result<Judged, PricingError> {
        side.price().map(|sheet| Judged {
            totals: sheet.totals,
            verdict: sheet.verdict,
        })
    }

    proptest! {
        #[test]
        fn it_says_what_the_sheet_says(side in any_side()) {
            prop_assert_eq!(judged(&side), on_the_sheet(&side));
        }

        #[test]
        fn it_refuses_what_the_sheet_refuses(side in any_extreme_side()) {
            prop_assert_eq!(judged(&side), on_the_sheet(&side));
        }
    }
}
