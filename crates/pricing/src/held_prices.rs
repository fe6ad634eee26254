//! Prices that a shop holds, through the whole chain from the deal to the card:
//! held prices stay, every bound is kept, and the target is still made.

use carcass::{CutPlan, ProductId};
use proptest::prelude::*;
use quantity::{Decimal, Money, PriceUnit, UnitPrice};

use crate::any_lines::any_rule;
use crate::any_side::{AnySide, CATALOGUE, any_side};
use crate::price_rule::{PriceRule, PricedLine};
use crate::suggestion_error::SuggestionError;
use crate::{CostSheet, Endings, PriceRounding, RoundTo, Row};

/// Where division leaves the last of 28 digits open.
fn last_digits() -> Decimal {
    Decimal::new(1, 15)
}

fn any_rounding() -> impl Strategy<Value = PriceRounding> {
    let endings = prop::sample::select(vec![
        Endings::EVERY_CENT,
        Endings::NINETY_NINE,
        Endings::typed("49 99").expect("endings"),
    ]);
    let unit = prop::sample::select(vec![
        PriceUnit::PerKilogram,
        PriceUnit::Per100Gram,
        PriceUnit::PerPound,
    ]);
    let to = prop::sample::select(vec![RoundTo::Up, RoundTo::Nearest]);
    (endings, to, unit).prop_map(|(endings, to, unit)| PriceRounding { endings, to, unit })
}

/// Any side of a shop that holds any of its prices.
fn any_held_side() -> impl Strategy<Value = AnySide> {
    let rules = prop::collection::vec(any_rule(), CATALOGUE.products().count());
    (any_side(), rules, any_rounding()).prop_map(|(mut side, rules, rounding)| {
        let products = CATALOGUE.products().zip(rules);
        side.shop.rules = products
            .map(|((product, _), rule)| (product, rule))
            .collect();
        side.shop.rounding = rounding;
        side
    })
}

/// A side of which all that can be is ground, so that few cuts are left; every
/// bound is a price that a card can show, so that none is moved to one.
fn any_small_side() -> impl Strategy<Value = AnySide> {
    any_held_side().prop_map(|mut side| {
        let rounding = PriceRounding::default();
        side.shop.rounding = rounding;
        for (_, rule) in side.shop.rules.iter_mut() {
            if let PriceRule::Between { floor, cap } = rule {
                *floor = floor.map(|floor| rounding.round(floor));
                *cap = cap.map(|cap| rounding.round(cap));
            }
        }
        side.plan = CutPlan::default();
        for (part, data) in CATALOGUE.parts() {
            let ground = data
                .ways
                .iter()
                .find(|way| CATALOGUE[**way].id.ends_with("-grind"));
            if let Some(way) = ground.or(data.ways.first()) {
                side.plan.choose(part, *way);
            }
        }
        side
    })
}

fn rule_of(side: &AnySide, product: ProductId) -> PriceRule {
    side.shop.rules.get(&product).copied().unwrap_or_default()
}

fn cuts(sheet: &CostSheet) -> impl Iterator<Item = &Row> {
    sheet.rows.iter().filter(|row| !row.is_by_product)
}

/// What the target asks of the sales.
fn required(side: &AnySide, sheet: &CostSheet) -> Money {
    let kept = side.shop.target_margin.complement().fraction();
    Money::from_units(sheet.totals.net_spend().units() / kept)
}

/// What a line does: it stays at its floor or at its cap, or follows a factor.
#[derive(Clone, Copy, PartialEq)]
enum Stand {
    Floor,
    Cap,
    Follows,
}

/// The stands that the rule of a line leaves it.
fn stands_of(line: &PricedLine) -> Vec<Stand> {
    match line.rule {
        PriceRule::Pinned(_) => vec![Stand::Floor],
        PriceRule::Free => vec![Stand::Follows],
        PriceRule::Between { floor, cap } => floor
            .map(|_| Stand::Floor)
            .into_iter()
            .chain(cap.map(|_| Stand::Cap))
            .chain([Stand::Follows])
            .collect(),
    }
}

/// Every choice of stands for `lines`.
fn every_stand(lines: &[PricedLine]) -> Vec<Vec<Stand>> {
    lines.iter().fold(vec![Vec::new()], |choices, line| {
        let stands = stands_of(line);
        choices
            .iter()
            .flat_map(|choice| {
                stands
                    .iter()
                    .map(|&stand| [choice.as_slice(), &[stand]].concat())
            })
            .collect()
    })
}

/// The prices of `lines` that bring `required`, found by trying every stand of
/// every line: the stands are right where the factor that follows from them
/// bears each of them out. `None` where no stands are.
fn by_trying_every_stand(lines: &[PricedLine], required: Money) -> Option<Vec<UnitPrice>> {
    every_stand(lines).into_iter().find_map(|stands| {
        let with_stands = || lines.iter().zip(&stands);
        let fixed: Money = with_stands()
            .map(|(line, stand)| match stand {
                Stand::Floor => line.rule.floor() * line.weight,
                Stand::Cap => line.rule.cap().unwrap_or_default() * line.weight,
                Stand::Follows => Money::ZERO,
            })
            .sum();
        let slope: Money = with_stands()
            .filter(|(_, stand)| **stand == Stand::Follows)
            .map(|(line, _)| line.board * line.weight)
            .sum();
        let factor = (required - fixed).ratio_to(slope)?.fraction();
        let hair = UnitPrice::from_per_kg(last_digits());
        let prices = with_stands().map(|(line, stand)| {
            let lifted = line.board.times(factor);
            let (floor, cap) = (line.rule.floor(), line.rule.cap());
            match stand {
                Stand::Floor if matches!(line.rule, PriceRule::Pinned(_)) => Some(floor),
                Stand::Floor => (lifted <= floor + hair).then_some(floor),
                Stand::Cap => cap.filter(|cap| lifted + hair >= *cap),
                Stand::Follows => (lifted + hair >= floor
                    && cap.is_none_or(|cap| lifted <= cap + hair))
                .then_some(lifted),
            }
        });
        prices.collect()
    })
}

/// Whole sides take long to price, so fewer of them are tried.
fn fewer() -> ProptestConfig {
    let usual = ProptestConfig::default();
    ProptestConfig {
        cases: usual.cases.div_ceil(4),
        ..usual
    }
}

proptest! {
    #![proptest_config(fewer())]

    #[test]
    fn pins_stand_and_bounds_are_kept_on_every_card(side in any_held_side()) {
        let sheet = side.sheet();
        if sheet.board.is_err() {
            prop_assert!(cuts(&sheet).all(|row| row.suggested.is_none() && row.card.is_none()));
            return Ok(());
        }
        for row in cuts(&sheet) {
            let (suggested, card) = (row.suggested.expect("a price"), row.card.expect("a card"));
            let rule = rule_of(&side, row.product);
            if let PriceRule::Pinned(pin) = rule {
                prop_assert_eq!((suggested, card), (pin, pin));
            }
            for price in [suggested, card] {
                prop_assert!(price >= rule.floor(), "{:?} {:?}", price, rule);
                prop_assert!(rule.cap().is_none_or(|cap| price <= cap), "{:?} {:?}", price, rule);
            }
        }
    }

    #[test]
    fn the_cards_on_the_board_make_the_target(mut side in any_held_side()) {
        let sheet = side.sheet();
        let Ok(board) = sheet.board else {
            return Ok(());
        };
        let required = required(&side, &sheet);
        for row in cuts(&sheet) {
            side.shop.board.set(row.product, row.card.expect("a card"));
        }
        // Where by-products pay for the whole side the cards may be for nothing.
        let Ok(again) = side.price() else {
            prop_assert!(!required.is_positive());
            return Ok(());
        };
        let more = again.totals.sales - required;
        prop_assert!(more.units() >= -last_digits(), "{:?}", more);
        prop_assert!((more - board.excess).units().abs() <= last_digits());
        prop_assert!(again.verdict.room.per_kg() >= -last_digits());
    }

    #[test]
    fn the_prices_of_a_small_side_are_those_that_trying_every_stand_finds(
        side in any_small_side(),
    ) {
        let sheet = side.sheet();
        let lines: Vec<PricedLine> = cuts(&sheet)
            .map(|row| PricedLine {
                weight: row.weight * side.shop.losses_of(row.product).kept(),
                board: row.price,
                rule: rule_of(&side, row.product),
            })
            .collect();
        let choices: usize = lines.iter().map(|line| stands_of(line).len()).product();
        prop_assume!(choices <= 3000);
        let required = required(&side, &sheet);
        let held: Money = lines.iter().map(|line| line.rule.floor() * line.weight).sum();
        match &sheet.board {
            Ok(_) if held >= required => {
                for (row, line) in cuts(&sheet).zip(&lines) {
                    prop_assert_eq!(row.suggested, Some(line.rule.floor()));
                }
            }
            Ok(_) => {
                let tried = by_trying_every_stand(&lines, required).expect("a way to reach it");
                for (row, price) in cuts(&sheet).zip(tried) {
                    let apart = row.suggested.expect("a price") - price;
                    prop_assert!(apart.per_kg().abs() <= Decimal::new(1, 12), "{:?}", apart);
                }
            }
            Err(SuggestionError::OutOfReach { short, .. }) => {
                prop_assert!(by_trying_every_stand(&lines, required).is_none());
                let most: Money = lines
                    .iter()
                    .map(|line| match line.rule.cap() {
                        Some(cap) if line.board.is_positive() => cap * line.weight,
                        _ => line.rule.floor() * line.weight,
                    })
                    .sum();
                prop_assert!((required - most - *short).units().abs() <= last_digits());
            }
            Err(other) => prop_assert!(false, "{}", other),
        }
    }
}
