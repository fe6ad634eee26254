//! Does the side pay, and what is the most it is worth?
//!
//! With `W` the priced weight, `R` the sales after unsold weight, `B` what the
//! by-products bring, `k` packaging, `L` labour, `K` charges and `m` the target
//! margin on sales, the walk-away price is
//!
//! `P = ((1 − m)·R + B − k − L − K) ⁄ W`
//!
//! It is linear in the price, so putting it back as the side's price gives the
//! target margin exactly; one more minute of labour lowers it by the cost of
//! that minute over `W`.

use quantity::{Money, Share, UnitPrice};

use crate::PricingError;
use crate::deal::Deal;
use crate::sheet::Totals;
use crate::shop::Shop;

/// What the margin means for the deal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Outcome {
    /// The side makes the target margin or more.
    Pays,
    /// The side covers its costs and stays below the target.
    Thin,
    /// The side costs more than it brings.
    FallsShort,
}

/// The answer at the counter.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verdict {
    /// What the margin means.
    pub outcome: Outcome,
    /// Share of sales left after side, charges, labour and packaging,
    /// by-products credited.
    pub margin: Share,
    /// Share of sales left before labour and packaging.
    pub meat_margin: Share,
    /// The margin in money.
    pub profit: Money,
    /// The highest price of the priced weight that still makes the target
    /// margin; below zero when no price does.
    pub walk_away: UnitPrice,
    /// Walk-away price less the price asked: room to pay more, or below zero
    /// what the price must come down by.
    pub room: UnitPrice,
}

/// Judges the totals of a side.
///
/// # Errors
/// [`PricingError::NoSales`] without sales, [`PricingError::NoWeight`] without
/// weight.
pub fn judge(deal: &Deal, shop: &Shop, totals: &Totals) -> Result<Verdict, PricingError> {
    let before_labour = totals.sales + totals.by_products - totals.side - totals.charges;
    let profit = totals.profit();
    let margin = profit.ratio_to(totals.sales).ok_or(PricingError::NoSales)?;
    let meat_margin = before_labour
        .ratio_to(totals.sales)
        .ok_or(PricingError::NoSales)?;

    let affordable = totals.sales * shop.target_margin.complement() + totals.by_products
        - totals.packaging
        - totals.labour
        - totals.charges;
    let walk_away = affordable.per(deal.weight).ok_or(PricingError::NoWeight)?;
    let outcome = if deal.price <= walk_away {
        Outcome::Pays
    } else if profit >= Money::ZERO {
        Outcome::Thin
    } else {
        Outcome::FallsShort
    };
    Ok(Verdict {
        outcome,
        margin,
        meat_margin,
        profit,
        walk_away,
        room: walk_away - deal.price,
    })
}
