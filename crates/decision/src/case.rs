//! What is decided on.

use carcass::{Breakdown, Catalogue, CutPlan, break_down};
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
}

impl Case<'_> {
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
