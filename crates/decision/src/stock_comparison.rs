//! Grass against grain: the same deal once as grain-fed and once as grass-fed.
//!
//! Both have the deal's weight, price, charges and plan; only the shares of
//! the side change, by the model of [`carcass::stock`], and its loss in the
//! cooler where that follows from the days hung. Who buys by live
//! weight gives the dressing share that fits the animal: it is part of the
//! deal and stays as typed.
//!
//! With `W` the priced weight, a price higher by `d` costs `d · W`. From that
//! the two differences:
//!
//! ```text
//! same money:  d = (profit of grass − profit of grain) ⁄ W
//! same margin: d = (profit of grass − margin of grain · sales of grass) ⁄ W
//! ```
//!
//! Same money asks what the two leave from one side of this weight; same
//! margin what they leave of each unit sold.

use carcass::Stock;
use pricing::{CostSheet, PricingError};
use quantity::UnitPrice;

use crate::case::Case;
use crate::comparison::{Comparison, compare_sheets};

/// Grain-fed first, grass-fed second.
#[derive(Clone, Debug)]
pub struct StockComparison {
    /// The deal as grain-fed.
    pub grain: CostSheet,
    /// The deal as grass-fed.
    pub grass: CostSheet,
    /// Both side by side, with the difference of their walk-away prices.
    pub comparison: Comparison,
    /// How much dearer grass-fed may be for the same margin in money.
    pub same_profit: UnitPrice,
    /// How much dearer grass-fed may be for the same margin on sales.
    pub same_margin: UnitPrice,
}

/// Compares the two stocks for one deal.
///
/// # Errors
/// As [`Case::sheet`].
pub fn compare_stocks(case: &Case) -> Result<StockComparison, PricingError> {
    let of = |stock: Stock| {
        let mut case = case.clone();
        case.set_stock(stock);
        case.sheet()
    };
    let (grain, grass) = (of(Stock::GRAIN)?, of(Stock::GRASS)?);
    let per_weight =
        |money: quantity::Money| money.per(case.deal.weight).ok_or(PricingError::NoWeight);
    let profit = grass.totals.profit();
    Ok(StockComparison {
        same_profit: per_weight(profit - grain.totals.profit())?,
        same_margin: per_weight(profit - grass.totals.sales * grain.verdict.margin)?,
        comparison: compare_sheets(&grain, &grass),
        grain,
        grass,
    })
}

#[cfg(test)]
mod tests {
    use pricing::WeightBasis;
    use proptest::prelude::*;
    use quantity::{Decimal, Share};

    use super::*;
    use crate::any_case::{any_case, plain_case};

    fn last_digits() -> Decimal {
        Decimal::new(1, 15)
    }

    #[test]
    fn grass_gives_more_to_sell_and_is_worth_more_per_weight() {
        let stocks = compare_stocks(&plain_case()).expect("a comparison");
        assert!(stocks.comparison.more.saleable.is_positive());
        assert!(stocks.comparison.walk_away.is_positive());
        assert!(stocks.same_profit.is_positive());
        assert!(stocks.same_margin.is_positive());
        assert!(stocks.same_margin < stocks.same_profit);
    }

    #[test]
    fn each_stock_has_the_loss_in_the_cooler_of_its_own() {
        let mut case = plain_case();
        case.days_hung = Some(14);
        case.deal.basis = WeightBasis::Hot {
            shrink: Share::ZERO,
        };
        let stocks = compare_stocks(&case).expect("a comparison");
        for (stock, sheet) in [(Stock::GRAIN, stocks.grain), (Stock::GRASS, stocks.grass)] {
            let shrink = case.catalogue.cooler_shrink(stock);
            let lost = shrink.after(14).expect("a loss").lost;
            let chilled = case.deal.weight * lost.complement();
            assert_eq!(sheet.totals.chilled, chilled, "{stock:?}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(32))]

        #[test]
        fn put_back_they_earn_the_same(case in any_case()) {
            let stocks = compare_stocks(&case).expect("a comparison");
            let mut grass = case.clone();
            grass.set_stock(Stock::GRASS);
            grass.deal.price = case.deal.price + stocks.same_profit;
            let profit = grass.sheet().expect("a sheet").totals.profit();
            let apart = profit - stocks.grain.totals.profit();
            prop_assert!(apart.units().abs() < last_digits(), "{apart:?}");

            grass.deal.price = case.deal.price + stocks.same_margin;
            let margin = grass.sheet().expect("a sheet").verdict.margin;
            let apart = margin - stocks.grain.verdict.margin;
            prop_assert!(apart.fraction().abs() < last_digits(), "{apart:?}");
        }
    }
}
