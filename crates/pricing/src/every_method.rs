//! A side by every method of dividing its cost, to hold the methods against each
//! other.

use carcass::{Breakdown, Catalogue, ProductId};
use litemap::LiteMap;
use quantity::UnitPrice;

use crate::PricingError;
use crate::allocation::AllocationMethod;
use crate::cost::Division;
use crate::deal::Deal;
use crate::judged::Valued;
use crate::sheet::{Row, round_costs, suggest};
use crate::shop::Shop;
use crate::uncosted_rows::UncostedRows;

/// The rows of a side by each method of dividing its cost, to hold the methods
/// against each other. Weights, values and suggested prices are the same by
/// all, and are worked out once.
///
/// # Errors
/// As [`crate::price_side`].
pub fn rows_by_every_method(
    catalogue: &Catalogue,
    breakdown: &Breakdown,
    deal: &Deal,
    shop: &Shop,
) -> Result<[(AllocationMethod, Vec<Row>); 4], PricingError> {
    let Valued { values, totals, .. } = Valued::of(catalogue, breakdown, deal, shop)?;
    let division = Division::of(breakdown, deal);
    let uncosted = UncostedRows::of(catalogue, breakdown, &values, shop);
    let mut suggested: Option<LiteMap<ProductId, SuggestedPrices>> = None;
    Ok(AllocationMethod::ALL.map(|method| {
        let mut costs = values.clone();
        division.divide(&mut costs, method);
        let mut rows = uncosted.clone().costed(&costs);
        round_costs(&mut rows, totals.spend());
        if let Some(suggested) = &suggested {
            for row in &mut rows {
                if let Some(prices) = suggested.get(&row.product) {
                    (row.suggested, row.card) = *prices;
                }
            }
        } else {
            // What stands in the way is told by the sheet itself.
            let _ = suggest(&mut rows, &totals, shop);
            let prices = |row: &Row| (row.product, (row.suggested, row.card));
            suggested = Some(rows.iter().map(prices).collect());
        }
        (method, rows)
    }))
}

/// The exact suggested price and the one on the card.
type SuggestedPrices = (Option<UnitPrice>, Option<UnitPrice>);

#[cfg(test)]
mod tests {
    use carcass::break_down;
    use proptest::prelude::*;

    use super::*;
    use crate::any_side::{CATALOGUE, any_side};

    proptest! {
        #[test]
        fn every_method_beside_the_others_says_what_its_sheet_says(side in any_side()) {
            let deal = &side.deal;
            let chilled = deal.basis.chilled(deal.weight);
            let breakdown = break_down(&CATALOGUE, chilled, deal.sides, &side.plan, deal.stock);
            let all = rows_by_every_method(&CATALOGUE, &breakdown, deal, &side.shop);
            let mut by_one = side.clone();
            for (index, method) in AllocationMethod::ALL.into_iter().enumerate() {
                by_one.shop.method = method;
                match (&all, by_one.price()) {
                    (Ok(all), Ok(sheet)) => {
                        prop_assert_eq!(all[index].0, method);
                        prop_assert_eq!(&all[index].1, &sheet.rows);
                    }
                    (Err(one), Err(other)) => prop_assert_eq!(one, &other),
                    (all, one) => prop_assert!(false, "{:?} {:?}", all.is_ok(), one.err()),
                }
            }
        }
    }
}
