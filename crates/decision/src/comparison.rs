//! Two cases side by side: saved plans, deals, stocks.

use std::collections::BTreeMap;

use carcass::ProductId;
use pricing::{CostSheet, PricingError, Row, Totals};
use quantity::{Mass, Money, Share, UnitPrice};

use crate::case::Case;
use crate::what_if::Reading;

/// A cut or by-product in both cases.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Compared {
    /// What it is.
    pub product: ProductId,
    /// Whether it is a by-product.
    pub is_by_product: bool,
    /// Its row in the first case, where that gives it.
    pub first: Option<Row>,
    /// Its row in the second case.
    pub second: Option<Row>,
}

/// What the second case has more than the first; below nothing, less.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Difference {
    /// Weight; a case that does not give the product gives nothing of it.
    pub weight: Mass,
    /// Cost to the cent.
    pub cost: Money,
    /// Sales.
    pub sales: Money,
    /// Cost for each weight; `None` unless both cases have one.
    pub cost_per_mass: Option<UnitPrice>,
    /// Margin; `None` unless both cases have one.
    pub margin: Option<Share>,
    /// Exact suggested price; `None` unless both cases have one.
    pub suggested: Option<UnitPrice>,
}

impl Compared {
    /// The second less the first.
    pub fn difference(&self) -> Difference {
        let [first, second] = [&self.first, &self.second].map(Option::as_ref);
        let both =
            |of: fn(&Row) -> Option<UnitPrice>| Some(second.and_then(of)? - first.and_then(of)?);
        let margin = |row: Option<&Row>| row.and_then(|row| row.margin);
        let money =
            |of: fn(&Row) -> Money| second.map_or(Money::ZERO, of) - first.map_or(Money::ZERO, of);
        let weight = |row: Option<&Row>| row.map_or(Mass::ZERO, |row| row.weight);
        Difference {
            weight: weight(second) - weight(first),
            cost: money(|row| row.cost),
            sales: money(|row| row.sales),
            cost_per_mass: both(|row| row.cost_per_mass),
            margin: margin(second)
                .zip(margin(first))
                .map(|(second, first)| second - first),
            suggested: both(|row| row.suggested),
        }
    }
}

/// One side of a comparison as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Whole {
    /// Its totals.
    pub totals: Totals,
    /// What it says.
    pub reading: Reading,
}

impl Whole {
    fn of(sheet: &CostSheet) -> Self {
        Self {
            totals: sheet.totals,
            reading: Reading::of(&sheet.verdict),
        }
    }
}

/// Two cases side by side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Comparison {
    /// The first case.
    pub first: Whole,
    /// The second case.
    pub second: Whole,
    /// The totals of the second less those of the first.
    pub more: Totals,
    /// Margin of the second less that of the first.
    pub margin: Share,
    /// Walk-away price of the second less that of the first.
    pub walk_away: UnitPrice,
    /// Every product that either gives: cuts in the order of the first sheet,
    /// then those that only the second gives; by-products in the same way.
    pub rows: Vec<Compared>,
}

/// Compares two cases made of one catalogue.
///
/// # Errors
/// As [`Case::sheet`], for either case.
pub fn compare(first: &Case, second: &Case) -> Result<Comparison, PricingError> {
    Ok(compare_sheets(&first.sheet()?, &second.sheet()?))
}

/// Compares two sheets made of one catalogue.
pub fn compare_sheets(first: &CostSheet, second: &CostSheet) -> Comparison {
    let mut left: BTreeMap<ProductId, &Row> =
        second.rows.iter().map(|row| (row.product, row)).collect();
    let mut rows: Vec<Compared> = first
        .rows
        .iter()
        .map(|row| Compared {
            product: row.product,
            is_by_product: row.is_by_product,
            first: Some(row.clone()),
            second: left.remove(&row.product).cloned(),
        })
        .collect();
    rows.extend(
        second
            .rows
            .iter()
            .filter(|row| left.contains_key(&row.product))
            .map(|row| Compared {
                product: row.product,
                is_by_product: row.is_by_product,
                first: None,
                second: Some(row.clone()),
            }),
    );
    rows.sort_by_key(|row| row.is_by_product);
    let [first, second] = [first, second].map(Whole::of);
    Comparison {
        more: totals_more(&first.totals, &second.totals),
        margin: second.reading.margin - first.reading.margin,
        walk_away: second.reading.walk_away - first.reading.walk_away,
        first,
        second,
        rows,
    }
}

fn totals_more(first: &Totals, second: &Totals) -> Totals {
    Totals {
        chilled: second.chilled - first.chilled,
        saleable: second.saleable - first.saleable,
        time: second.time - first.time,
        saw_time: second.saw_time - first.saw_time,
        side: second.side - first.side,
        charges: second.charges - first.charges,
        labour: second.labour - first.labour,
        overhead: second.overhead - first.overhead,
        packaging: second.packaging - first.packaging,
        sales: second.sales - first.sales,
        by_products: second.by_products - first.by_products,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use quantity::Decimal;

    use super::*;
    use crate::any_case::{CATALOGUE, any_case, plain_case};

    #[test]
    fn two_plans_name_what_only_one_of_them_gives() {
        let boneless = plain_case();
        let mut bone_in = plain_case();
        bone_in.plan = CATALOGUE.plan("bone-in").expect("a plan").plan.clone();
        let comparison = compare(&boneless, &bone_in).expect("a comparison");
        let row = |id: &str| {
            let product = CATALOGUE.product_id(id).expect("a product");
            comparison
                .rows
                .iter()
                .find(|row| row.product == product)
                .expect("a row")
        };
        let t_bone = row("t-bone-steak");
        assert!(t_bone.first.is_none());
        let there = t_bone.second.as_ref().expect("a row");
        assert_eq!(t_bone.difference().weight, there.weight);
        assert_eq!(t_bone.difference().cost, there.cost);
        assert_eq!(t_bone.difference().margin, None);
        let grind = row("ground-beef");
        assert!(grind.first.is_some() && grind.second.is_some());
        assert!(grind.difference().suggested.is_some());
        assert!(comparison.rows.is_sorted_by_key(|row| row.is_by_product));
        assert!(comparison.more.saleable.is_positive());
    }

    #[test]
    fn a_case_differs_from_itself_by_nothing() {
        let case = plain_case();
        let same = compare(&case, &case).expect("a comparison");
        assert_eq!(same.more, Totals::default());
        assert_eq!(same.margin, Share::ZERO);
        assert!(same.walk_away.is_zero());
        for row in same.rows {
            let difference = row.difference();
            assert!(difference.weight.is_zero() && difference.cost.is_zero());
            assert!(difference.suggested.is_none_or(UnitPrice::is_zero));
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(32))]

        #[test]
        fn rows_hold_every_row_of_both_and_add_up(first in any_case(), second in any_case()) {
            let sheets = [&first, &second].map(|case| case.sheet().expect("a sheet"));
            let comparison = compare(&first, &second).expect("a comparison");
            let rows = &comparison.rows;
            prop_assert_eq!(rows.iter().filter(|row| row.first.is_some()).count(), sheets[0].rows.len());
            prop_assert_eq!(rows.iter().filter(|row| row.second.is_some()).count(), sheets[1].rows.len());
            let weight: Mass = rows
                .iter()
                .filter(|row| !row.is_by_product)
                .map(|row| row.difference().weight)
                .sum();
            prop_assert_eq!(weight, comparison.more.saleable);
            let sales: Money = rows.iter().map(|row| row.difference().sales).sum();
            let expected = comparison.more.sales + comparison.more.by_products;
            prop_assert!((sales - expected).units().abs() < Decimal::new(1, 15));
            let profit = sheets[0].totals.profit() + comparison.more.profit();
            let apart = profit - sheets[1].totals.profit();
            prop_assert!(apart.units().abs() < Decimal::new(1, 15));
        }
    }
}
