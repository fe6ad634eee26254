//! Any board lines that a shop could meet, for the property tests.

use proptest::prelude::*;
use quantity::{Decimal, Mass, Money, PriceUnit, UnitPrice};

use crate::price_rule::{PriceRule, PricedLine};

/// A price as it is typed, in any unit; nothing now and then.
pub(crate) fn any_typed_price() -> impl Strategy<Value = UnitPrice> {
    let typed = (1_i64..6000, 0_usize..3).prop_map(|(cents, unit)| {
        let unit = [
            PriceUnit::PerKilogram,
            PriceUnit::PerPound,
            PriceUnit::Per100Gram,
        ][unit];
        // Prices of one size, whatever the unit.
        let places = if unit == PriceUnit::Per100Gram { 3 } else { 2 };
        UnitPrice::from_unit(Decimal::new(cents, places), unit)
    });
    prop_oneof![1 => Just(UnitPrice::ZERO), 15 => typed]
}

/// Free, pinned or kept between bounds.
pub(crate) fn any_rule() -> impl Strategy<Value = PriceRule> {
    let bound = || prop::option::of(any_typed_price());
    prop_oneof![
        4 => Just(PriceRule::Free),
        1 => any_typed_price().prop_map(PriceRule::Pinned),
        3 => (bound(), bound()).prop_map(|(a, b)| match (a, b) {
            (Some(a), Some(b)) => PriceRule::Between {
                floor: Some(a.min(b)),
                cap: Some(a.max(b)),
            },
            (floor, cap) => PriceRule::Between { floor, cap },
        }),
    ]
}

/// A line; without weight now and then.
pub(crate) fn any_line() -> impl Strategy<Value = PricedLine> {
    let weight = prop_oneof![1 => Just(0_i64), 11 => 1_i64..60_000];
    (weight, any_typed_price(), any_rule()).prop_map(|(grams, board, rule)| PricedLine {
        weight: Mass::from_g(Decimal::from(grams)),
        board,
        rule,
    })
}

/// Lines, and sales from nothing to three times what their board brings.
pub(crate) fn any_lines(most: usize) -> impl Strategy<Value = (Vec<PricedLine>, Money)> {
    (
        prop::collection::vec(any_line(), 0..=most),
        0_i64..3_000_000,
    )
        .prop_map(|(lines, millionths)| {
            let on_board: Money = lines.iter().map(|line| line.board * line.weight).sum();
            let required = on_board.times(Decimal::new(millionths, 6));
            (lines, required)
        })
}

/// What `prices` bring.
pub(crate) fn sales(lines: &[PricedLine], prices: &[UnitPrice]) -> Money {
    lines
        .iter()
        .zip(prices)
        .map(|(line, price)| *price * line.weight)
        .sum()
}
