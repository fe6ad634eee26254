//! Two inputs moved together: margin and walk-away price in every cell, and
//! the line where the side stops paying.

use pricing::PricingError;
use quantity::Decimal;

use crate::break_even::{BreakEven, break_even};
use crate::case::Case;
use crate::input::Input;
use crate::what_if::{Reading, WhatIf};

/// An input and the numbers it is put to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Axis {
    /// What is moved.
    pub input: Input,
    /// Where to, in its unit.
    pub values: Vec<Decimal>,
}

impl Axis {
    /// So many numbers at even steps from `first` to `last`, both among them.
    pub fn even(input: Input, first: Decimal, last: Decimal, count: u32) -> Self {
        let whole = last.saturating_sub(first);
        let steps = Decimal::from(count.saturating_sub(1));
        let values = (0..count)
            .map(|step| {
                let way = whole.saturating_mul(Decimal::from(step));
                first.saturating_add(way.checked_div(steps).unwrap_or_default())
            })
            .collect();
        Self { input, values }
    }
}

/// One row of the grid.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GridRow {
    /// Number of the input of the rows.
    pub value: Decimal,
    /// What the side says at each number of the columns, in their order; why
    /// there is nothing to say where it cannot be priced.
    pub cells: Vec<Result<Reading, PricingError>>,
    /// Where in the input of the columns the side stops paying.
    pub line: Result<BreakEven, PricingError>,
}

/// Every row against every column. Where both axes move the same input, the
/// column stands.
///
/// One verdict for each cell and, for the line, two for each row where the input
/// of the columns is linear ([`Input::is_linear`]) and some fifty elsewhere.
pub fn grid(case: &Case, what_if: &WhatIf, rows: &Axis, columns: &Axis) -> Vec<GridRow> {
    rows.values
        .iter()
        .map(|&value| {
            let row = what_if.with(rows.input, value);
            GridRow {
                value,
                cells: columns
                    .values
                    .iter()
                    .map(|&value| row.with(columns.input, value).reading(case))
                    .collect(),
                line: break_even(case, &row, columns.input),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use pricing::Outcome;
    use proptest::prelude::*;
    use proptest::sample::Index;
    use quantity::{Share, UnitPrice};

    use super::*;
    use crate::any_case::{CATALOGUE, any_case, plain_case};
    use crate::saleable_shift::shift_saleable;
    use crate::what_if::tests::{any_cut, inputs};

    fn axis(input: Input, values: [i64; 3]) -> Axis {
        Axis {
            input,
            values: values.map(Decimal::from).to_vec(),
        }
    }

    #[test]
    fn even_steps_hold_both_ends() {
        let axis = Axis::even(Input::SidePrice, Decimal::from(8), Decimal::TEN, 5);
        let tenths: Vec<Decimal> = [80, 85, 90, 95, 100].map(|n| Decimal::new(n, 1)).to_vec();
        assert_eq!(axis.values, tenths);
        let one = Axis::even(Input::SidePrice, Decimal::TEN, Decimal::TEN, 1);
        assert_eq!(one.values, [Decimal::TEN]);
    }

    /// Price × yield, each cell worked out by hand from the stages below.
    #[test]
    fn cells_equal_the_exact_path() {
        let case = plain_case();
        let rows = axis(Input::Saleable, [-3, 0, 3]);
        let columns = axis(Input::SidePrice, [7, 9, 12]);
        for row in grid(&case, &WhatIf::default(), &rows, &columns) {
            let by = Share::from_percent(row.value);
            for (price, cell) in columns.values.iter().zip(row.cells) {
                let mut deal = case.deal.clone();
                deal.price = UnitPrice::from_per_kg(*price);
                let breakdown = shift_saleable(&CATALOGUE, &case.breakdown(), by);
                let sheet = pricing::price_breakdown(&CATALOGUE, breakdown, &deal, &case.shop)
                    .expect("a sheet");
                assert_eq!(cell, Ok(Reading::of(&sheet.verdict)));
            }
            let Ok(BreakEven::AtMost(line)) = row.line else {
                panic!("{:?}", row.line);
            };
            let at_line = WhatIf::default()
                .with(Input::Saleable, row.value)
                .with(Input::SidePrice, line);
            let missed = at_line.reading(&case).expect("a sheet").margin - case.shop.target_margin;
            assert!(missed.fraction().abs() < Decimal::new(1, 15));
        }
    }

    #[test]
    fn a_cell_that_cannot_be_priced_says_why_and_leaves_the_others() {
        let case = plain_case();
        let rows = axis(Input::Weight, [0, 100, 200]);
        let columns = axis(Input::SidePrice, [7, 9, 12]);
        let rows = grid(&case, &WhatIf::default(), &rows, &columns);
        assert_eq!(rows[0].cells[0], Err(PricingError::NoWeight));
        assert_eq!(rows[0].line, Err(PricingError::NoWeight));
        assert!(rows[1].cells.iter().all(Result::is_ok));
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(4))]

        #[test]
        fn the_line_parts_what_pays_from_what_does_not(
            case in any_case(),
            choice in any::<Index>(),
            which in any::<Index>(),
        ) {
            let sheet = case.sheet().expect("a sheet");
            let input = *which.get(&inputs(any_cut(&sheet, choice)));
            let planned = input.planned(&case);
            let rows = Axis::even(input, planned, planned + Decimal::ONE, 2);
            let price = sheet.verdict.walk_away.per_kg();
            let columns = Axis::even(
                Input::SidePrice,
                price - Decimal::ONE,
                price + Decimal::ONE,
                3,
            );
            for row in grid(&case, &WhatIf::default(), &rows, &columns) {
                for (price, cell) in columns.values.iter().zip(&row.cells) {
                    let Ok(cell) = cell else { continue };
                    let pays = match row.line {
                        Ok(BreakEven::AtMost(line)) => *price <= line,
                        Ok(BreakEven::Always) => true,
                        Ok(BreakEven::Never) => continue,
                        ref other => panic!("{other:?}"),
                    };
                    let is_on_line = matches!(row.line, Ok(BreakEven::AtMost(line))
                        if (line - price).abs() < Decimal::new(1, 15));
                    prop_assert!(is_on_line || pays == (cell.outcome == Outcome::Pays));
                }
            }
        }
    }
}
