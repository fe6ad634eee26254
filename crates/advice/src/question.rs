//! A request with its plan read: what every panel answers from.

use carcass::Catalogue;
use decision::Case;
use document::Document;
use notation::Units;
use pricing::CostSheet;
use quantity::{PriceUnit, Rounding, Share, UnitPrice};
use wording::text;

use crate::request::Request;

/// The plan in question and what its sheet says.
pub struct Question<'a> {
    /// The plan.
    pub case: Case<'a>,
    /// Its sheet.
    pub sheet: CostSheet,
    /// The units to answer in.
    pub units: Units,
}

impl<'a> Question<'a> {
    /// Reads the plan of a request.
    ///
    /// # Errors
    /// A sentence that says what is wrong with it.
    pub fn read(catalogue: &'a Catalogue, request: &Request) -> Result<Self, String> {
        Self::about(catalogue, &request.document, request.units)
    }

    /// Reads a plan, to answer in `units`.
    ///
    /// # Errors
    /// A sentence that says what is wrong with it.
    pub fn about(
        catalogue: &'a Catalogue,
        document: &Document,
        units: Units,
    ) -> Result<Self, String> {
        let resolved = document
            .resolve(catalogue)
            .map_err(|error| error.to_string())?;
        let case = Case {
            catalogue,
            deal: resolved.deal,
            plan: resolved.plan,
            shop: resolved.shop,
            days_hung: resolved.derived_shrink.map(|loss| loss.days),
        };
        let sheet = case.sheet().map_err(|error| error.to_string())?;
        Ok(Self { case, sheet, units })
    }

    /// The unit that prices are written in.
    pub fn price_unit(&self) -> PriceUnit {
        self.units.price()
    }

    /// A price with its unit, to the nearest cent.
    pub fn price(&self, price: UnitPrice) -> String {
        notation::price_with_unit(price, self.price_unit(), Rounding::HalfEven)
    }

    /// A walk-away price: cut down to the cent, since an offer at the figure
    /// shown must still make the target.
    pub fn offer(&self, price: UnitPrice) -> String {
        if price.is_positive() {
            notation::price_with_unit(price, self.price_unit(), Rounding::Down)
        } else {
            text!("none|no price pays").to_owned()
        }
    }

    /// A walk-away price without its unit.
    pub fn bare_offer(&self, price: UnitPrice) -> String {
        if price.is_positive() {
            notation::price(price, self.price_unit(), Rounding::Down)
        } else {
            text!("none|no price pays").to_owned()
        }
    }

    /// A price without its unit, for a column whose head names it; a dash for
    /// none.
    pub fn bare_price(&self, price: Option<UnitPrice>) -> String {
        price.map_or_else(
            || "–".to_owned(),
            |price| notation::price(price, self.price_unit(), Rounding::HalfEven),
        )
    }

    /// The symbol of prices: “/kg”.
    pub fn per(&self) -> &'static str {
        self.price_unit().symbol()
    }

    /// The symbol of weights: “kg”.
    pub fn weight_unit(&self) -> &'static str {
        self.units.mass().symbol()
    }

    /// The name of a cut or by-product.
    pub fn name(&self, product: carcass::ProductId) -> String {
        self.case.catalogue[product].name.clone()
    }
}

/// A margin; a dash for none.
pub fn margin(margin: Option<Share>) -> String {
    margin.map_or_else(|| "–".to_owned(), notation::percent)
}

#[cfg(test)]
mod tests {
    use decision::{Input, WhatIf};
    use document::format::BasisForm;
    use quantity::Decimal;

    use super::*;

    #[test]
    fn another_stock_tried_is_that_stock_typed_where_days_hung_tell_the_loss() {
        let catalogue = Catalogue::published().expect("published data");
        let mut document = Document::sample();
        document.deal.basis = BasisForm::Hot {
            shrink_percent: None,
            days_hung: Some(14),
        };
        let mut about = |grass: &str| {
            grass.clone_into(&mut document.deal.grass_percent);
            Question::about(&catalogue, &document, Units::Kilograms).expect("a plan")
        };
        let (grain, typed) = (about("0"), about("100"));
        let tried = WhatIf::default()
            .with(Input::Stock, Decimal::ONE_HUNDRED)
            .apply(&grain.case)
            .expect("a sheet");
        assert_eq!(tried.totals, typed.sheet.totals);
        assert_eq!(tried.verdict, typed.sheet.verdict);
        assert_ne!(tried.totals.chilled, grain.sheet.totals.chilled);
    }
}
