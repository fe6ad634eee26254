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
        - totals.overhead
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

#[cfg(test)]
mod tests {
    use carcass::Kind;
    use proptest::prelude::*;
    use quantity::{Decimal, Mass, Minutes};

    use super::*;
    use crate::LabourTime;
    use crate::any_side::{CATALOGUE, any_side, plain_side};

    /// Where division leaves the last of 28 digits open.
    fn last_digits() -> Decimal {
        Decimal::new(1, 18)
    }

    #[test]
    fn the_three_outcomes_meet_at_the_walk_away_price_and_at_no_profit() {
        let mut side = plain_side();
        let cent = UnitPrice::from_per_kg(Decimal::new(1, 2));
        let verdict = side.sheet().verdict;
        let no_profit = side.deal.price + verdict.profit.per(side.deal.weight).expect("a weight");
        for (price, outcome) in [
            (verdict.walk_away, Outcome::Pays),
            (verdict.walk_away + cent, Outcome::Thin),
            (no_profit - cent, Outcome::Thin),
            (no_profit + cent, Outcome::FallsShort),
        ] {
            side.deal.price = price;
            let at_price = side.sheet().verdict;
            assert_eq!(at_price.outcome, outcome, "{price:?}");
            assert_eq!(at_price.walk_away, verdict.walk_away);
            assert_eq!(at_price.room, verdict.walk_away - price);
        }
    }

    #[test]
    fn totals_without_sales_or_a_deal_without_weight_have_no_verdict() {
        let mut side = plain_side();
        let totals = side.sheet().totals;
        assert_eq!(
            judge(&side.deal, &side.shop, &Totals::default()),
            Err(PricingError::NoSales)
        );
        side.deal.weight = Mass::ZERO;
        assert_eq!(
            judge(&side.deal, &side.shop, &totals),
            Err(PricingError::NoWeight)
        );
    }

    proptest! {
        #[test]
        fn the_walk_away_price_makes_the_target_margin(mut side in any_side()) {
            side.deal.price = side.sheet().verdict.walk_away;
            let verdict = side.sheet().verdict;
            let missed = verdict.margin - side.shop.target_margin;
            prop_assert!(missed.fraction().abs() <= last_digits(), "{missed:?}");
            prop_assert_eq!(verdict.walk_away, side.deal.price);
            prop_assert_eq!(verdict.outcome, Outcome::Pays);
            prop_assert!(verdict.room.is_zero());
        }

        // costing: dP/dL = −1/W.
        #[test]
        fn labour_lowers_the_walk_away_price_by_its_cost_over_the_weight(
            mut side in any_side(),
            tenths in 0_i64..6000,
            more in 0_i64..6000,
        ) {
            let mut verdict_at = |tenths: i64| {
                let minutes = Minutes::from_minutes(Decimal::new(tenths, 1));
                side.deal.labour = LabourTime::Total(minutes);
                let labour = &side.shop.labour;
                let cost = labour.wages(minutes) + labour.overhead(minutes);
                (side.sheet().verdict, cost)
            };
            let (less_work, less_cost) = verdict_at(tenths);
            let (more_work, more_cost) = verdict_at(tenths + more);
            prop_assert!(more_work.walk_away <= less_work.walk_away);
            prop_assert!(more_work.margin <= less_work.margin);
            prop_assert_eq!(more_work.meat_margin, less_work.meat_margin);
            let fall = (less_work.walk_away - more_work.walk_away) * side.deal.weight;
            let apart = (fall - (more_cost - less_cost)).units().abs();
            prop_assert!(apart <= last_digits(), "{apart}");
        }

        // costing: dP/dp = (1 − m)·w·(1 − u)/W for the price p of one cut.
        #[test]
        fn a_dearer_cut_raises_the_walk_away_price_by_its_part(
            mut side in any_side(),
            choice in any::<prop::sample::Index>(),
            cents in 1_i64..5000,
        ) {
            let before = side.sheet();
            let cuts: Vec<_> = before
                .rows
                .iter()
                .filter(|row| CATALOGUE[row.product].kind == Kind::Cut)
                .collect();
            let cut = *choice.get(&cuts);
            let dearer_by = UnitPrice::from_per_kg(Decimal::new(cents, 2));
            side.shop.board.set(cut.product, cut.price + dearer_by);
            let after = side.sheet();
            let rise = (after.verdict.walk_away - before.verdict.walk_away) * side.deal.weight;
            let expected = dearer_by
                * cut.weight
                * side.shop.losses_of(cut.product).kept()
                * side.shop.target_margin.complement();
            prop_assert!((rise - expected).units().abs() <= last_digits());
        }

        #[test]
        fn the_margin_of_the_meat_is_what_is_left_before_labour_and_packs(side in any_side()) {
            let sheet = side.sheet();
            let totals = sheet.totals;
            let before = totals.sales * sheet.verdict.meat_margin;
            let after = totals.sales * sheet.verdict.margin;
            let apart = before - after - totals.labour - totals.overhead - totals.packaging;
            prop_assert!(apart.units().abs() <= Decimal::new(1, 15), "{apart:?}");
        }

        #[test]
        fn the_outcome_says_what_the_margin_says(side in any_side()) {
            let verdict = side.sheet().verdict;
            let digits = last_digits();
            match verdict.outcome {
                Outcome::Pays => prop_assert!(
                    (verdict.margin - side.shop.target_margin).fraction() >= -digits
                ),
                Outcome::Thin => {
                    prop_assert!((verdict.margin - side.shop.target_margin).fraction() <= digits);
                    prop_assert!(verdict.profit >= Money::ZERO);
                }
                Outcome::FallsShort => prop_assert!(verdict.profit < Money::ZERO),
            }
        }
    }
}
