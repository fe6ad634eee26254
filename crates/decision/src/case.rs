//! What is decided on.

use carcass::{Breakdown, Catalogue, CutPlan, Stock, break_down};
use pricing::{CostSheet, Deal, PricingError, Shop, price_side};

/// A deal, the way it is cut, and the shop that sells it.
#[derive(Clone, Debug)]
pub struct Case<'a> {
    /// The data that the plan is made of.
    pub catalogue: &'a Catalogue,
    /// The side as offered.
    pub deal: Deal,
    /// How it is cut.
    pub plan: CutPlan,
    /// Who sells it.
    pub shop: Shop,
    /// The days that the side hung, where its loss in the cooler follows from
    /// them and so from the stock.
    pub days_hung: Option<u32>,
}

impl Case<'_> {
    /// Takes another stock, and the loss in the cooler that it then has.
    pub fn set_stock(&mut self, stock: Stock) {
        let deal = &mut self.deal;
        deal.stock = stock;
        // More days than the model reaches are refused where they are typed.
        if let Some(days) = self.days_hung
            && let Ok(loss) = self.catalogue.cooler_shrink(stock).after(days)
        {
            deal.basis = deal.basis.with_shrink(loss.lost);
        }
    }

    /// The side broken down as planned: what its sheet is made from.
    pub fn breakdown(&self) -> Breakdown {
        let deal = &self.deal;
        let chilled = deal.basis.chilled(deal.weight);
        break_down(self.catalogue, chilled, deal.sides, &self.plan, deal.stock)
    }

    /// The exact cost sheet of the case.
    ///
    /// # Errors
    /// As [`price_side`].
    pub fn sheet(&self) -> Result<CostSheet, PricingError> {
        price_side(self.catalogue, &self.deal, &self.plan, &self.shop)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use crate::any_case::any_case;

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(24))]

        #[test]
        fn the_breakdown_is_the_one_that_is_priced(case in any_case()) {
            let sheet = case.sheet().expect("a sheet");
            prop_assert_eq!(format!("{:?}", case.breakdown()), format!("{:?}", sheet.breakdown));
        }
    }
}
