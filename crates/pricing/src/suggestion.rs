//! Suggested prices: the board lifted by one factor until the side's sales
//! reach what the target asks, with prices that are pinned, floored or capped.
//!
//! With `b` the board price and `w` the weight sold of a line, the factor `λ`
//! is the least `λ ≥ 0` for which
//!
//! `Σ pinned·w + Σ clamp(λ·b, floor, cap)·w = required`
//!
//! The left side never falls as `λ` rises and is straight between the factors
//! at which a line leaves its floor or reaches its cap. Those factors are
//! sorted, the stretch that holds the answer is found, and there `λ` is one
//! quotient: no iteration and no tolerance. The method is derived here; the
//! board's relations are kept because a customer knows them.

use quantity::{Decimal, Money, Rounding, Share, UnitPrice};

use crate::course::{Course, Place, Stretch, sales_at, sales_without_moving};
use crate::price_rule::{PriceRule, PricedLine, refuse_unsound};
use crate::suggestion_error::{HeldLine, Hold, SuggestionError};

/// Prices at which a side brings what the target asks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Suggestion {
    /// The factor on the board price of every line that is free to follow it.
    pub factor: Decimal,
    /// The price of every line, in the order of the lines; exact.
    pub prices: Vec<UnitPrice>,
    /// What pins and floors alone bring above what is asked, the other lines
    /// then being given away; nothing where the sales are what is asked.
    pub surplus: Money,
}

impl Suggestion {
    /// Whether pins and floors alone bring what is asked, so that the target
    /// asks nothing of the lines that follow the board: their prices of
    /// nothing are then no advice.
    pub fn is_met_by_held_prices(&self) -> bool {
        self.factor.is_zero()
    }
}

/// Finds the prices at which `lines` bring `required`.
///
/// Where pins and floors alone bring more, the factor is nothing, lines
/// without a floor are given away and the rest is the surplus. A line without
/// a board price stays at its floor. A line without weight follows the factor
/// and changes nothing.
///
/// # Errors
/// [`SuggestionError`] names the lines that stand in the way.
pub fn suggest_prices(
    lines: &[PricedLine],
    required: Money,
) -> Result<Suggestion, SuggestionError> {
    refuse_unsound(lines)?;
    let courses: Vec<Course> = lines.iter().map(Course::of).collect();
    let least: Money = courses.iter().map(|course| course.at_floor).sum();
    if least >= required {
        return Ok(Suggestion {
            factor: Decimal::ZERO,
            prices: lines.iter().map(|line| line.rule.floor()).collect(),
            surplus: least - required,
        });
    }

    let mut turns: Vec<Decimal> = courses
        .iter()
        .flat_map(|course| [Some(course.leaves_floor), course.reaches_cap])
        .flatten()
        .collect();
    turns.sort_unstable();
    turns.dedup();
    let above = turns.partition_point(|&turn| sales_at(&courses, turn) < required);
    let stretch = Stretch {
        from: above
            .checked_sub(1)
            .and_then(|below| turns.get(below))
            .copied()
            .unwrap_or_default(),
        to: turns.get(above).copied(),
    };

    let slope: Money = courses
        .iter()
        .filter(|course| stretch.place(course) == Place::Moving)
        .map(|course| course.slope)
        .sum();
    let rest = required - sales_without_moving(&courses, stretch);
    if !slope.is_positive() {
        // Only past the last turn does nothing move: before it sales rise.
        return at_the_highest(lines, rest, stretch.from);
    }
    let factor = rest.ratio_to(slope).map_or(Decimal::MAX, Share::fraction);
    let prices = lines
        .iter()
        .zip(&courses)
        .map(|(line, course)| match stretch.place(course) {
            Place::Floor => line.rule.floor(),
            Place::Cap => highest_price(line).unwrap_or_else(|| line.rule.floor()),
            Place::Moving => {
                let price = lift(line.board, rest, slope, factor).max(line.rule.floor());
                line.rule.cap().map_or(price, |cap| price.min(cap))
            }
        })
        .collect();
    Ok(Suggestion {
        factor,
        prices,
        surplus: Money::ZERO,
    })
}

/// `board · rest ⁄ slope`, multiplied first: a third of nine is then three and
/// not a digit less. Only amounts beyond any shop's leave no room for it.
fn lift(board: UnitPrice, rest: Money, slope: Money, factor: Decimal) -> UnitPrice {
    board
        .per_lb()
        .checked_mul(rest.units())
        .and_then(|product| product.checked_div(slope.units()))
        .map_or_else(|| board.times(factor), UnitPrice::from_per_lb)
}

/// Decimal places at which sums of money are told apart; division leaves the
/// last of 28 digits open.
const PLACES: u32 = 18;

/// The highest price a factor takes `line` to; `None` where there is no bound.
fn highest_price(line: &PricedLine) -> Option<UnitPrice> {
    if line.board.is_zero() {
        return Some(line.rule.floor());
    }
    line.rule.cap()
}

/// Every line at the highest price allowed, which leaves sales `short`.
fn at_the_highest(
    lines: &[PricedLine],
    short: Money,
    factor: Decimal,
) -> Result<Suggestion, SuggestionError> {
    let highest = |line: &PricedLine| {
        highest_price(line).unwrap_or_else(|| line.rule.floor().max(line.board.times(factor)))
    };
    if Rounding::HalfEven
        .to_places(short.units(), PLACES)
        .is_zero()
    {
        return Ok(Suggestion {
            factor,
            prices: lines.iter().map(highest).collect(),
            surplus: Money::ZERO,
        });
    }
    let held = lines
        .iter()
        .enumerate()
        .filter(|(_, line)| line.weight.is_positive())
        .map(|(index, line)| {
            let price = highest(line);
            HeldLine {
                line: index,
                hold: match line.rule {
                    PriceRule::Pinned(_) => Hold::Pinned,
                    _ if line.rule.cap() == Some(price) => Hold::Capped,
                    _ => Hold::NoBoardPrice,
                },
                price,
                price_if_released: short.per(line.weight).map(|more| price + more),
            }
        })
        .collect();
    Err(SuggestionError::OutOfReach { short, held })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use quantity::{Mass, typed};

    use super::*;
    use crate::any_lines::{any_lines, any_typed_price, sales};

    fn per_kg(price: i64) -> UnitPrice {
        UnitPrice::from_per_kg(Decimal::from(price))
    }

    fn money(units: i64) -> Money {
        Money::from_units(Decimal::from(units))
    }

    fn line(kg: i64, board: i64, rule: PriceRule) -> PricedLine {
        PricedLine {
            weight: Mass::from_kg(Decimal::from(kg)),
            board: per_kg(board),
            rule,
        }
    }

    fn between(floor: Option<i64>, cap: Option<i64>) -> PriceRule {
        PriceRule::Between {
            floor: floor.map(per_kg),
            cap: cap.map(per_kg),
        }
    }

    /// Where division leaves the last of 28 digits open.
    fn last_digits() -> Decimal {
        Decimal::new(1, 18)
    }

    #[test]
    fn what_a_pin_and_a_cap_hold_back_the_free_lines_make_good() {
        // Worked by hand: 10 · 8 pinned + 5 · 30 capped leave 600 − 230 = 370
        // to 20 kg on the board at 10.
        let lines = [
            line(10, 12, PriceRule::Pinned(per_kg(8))),
            line(5, 25, between(None, Some(30))),
            line(20, 10, PriceRule::Free),
        ];
        let suggestion = suggest_prices(&lines, money(600)).expect("within reach");
        assert_eq!(suggestion.factor, Decimal::new(185, 2));
        assert_eq!(
            suggestion.prices,
            [
                per_kg(8),
                per_kg(30),
                UnitPrice::from_per_kg(Decimal::new(185, 1))
            ]
        );
        assert_eq!(suggestion.surplus, Money::ZERO);
    }

    #[test]
    fn thirds_come_out_whole() {
        let lines = [line(3, 9, PriceRule::Free), line(6, 3, PriceRule::Free)];
        let suggestion = suggest_prices(&lines, money(15)).expect("within reach");
        assert_eq!(suggestion.prices, [per_kg(3), per_kg(1)]);
    }

    #[test]
    fn a_floor_holds_while_the_rest_of_the_board_falls() {
        let lines = [
            line(10, 10, between(Some(9), None)),
            line(10, 10, PriceRule::Free),
        ];
        let suggestion = suggest_prices(&lines, money(120)).expect("within reach");
        assert_eq!(suggestion.prices, [per_kg(9), per_kg(3)]);
        assert_eq!(suggestion.factor, Decimal::new(3, 1));
    }

    #[test]
    fn of_all_factors_that_bring_what_is_asked_the_least_is_taken() {
        // Between the factors 1.2 and 2 the one stands at its cap and the other
        // still at its floor.
        let lines = [
            line(10, 10, between(None, Some(12))),
            line(10, 10, between(Some(20), Some(50))),
        ];
        let suggestion = suggest_prices(&lines, money(320)).expect("within reach");
        assert_eq!(suggestion.factor, Decimal::new(12, 1));
        assert_eq!(suggestion.prices, [per_kg(12), per_kg(20)]);
        let at_the_floor = suggest_prices(&lines[1..], money(200)).expect("within reach");
        assert_eq!(at_the_floor.factor, Decimal::ZERO);
        assert_eq!(at_the_floor.prices, [per_kg(20)]);
    }

    #[test]
    fn pins_that_bring_more_than_is_asked_leave_a_surplus() {
        let lines = [
            line(10, 10, PriceRule::Pinned(per_kg(10))),
            line(10, 10, between(Some(2), None)),
            line(10, 10, PriceRule::Free),
        ];
        let suggestion = suggest_prices(&lines, money(90)).expect("within reach");
        assert_eq!(suggestion.surplus, money(30));
        assert_eq!(suggestion.prices, [per_kg(10), per_kg(2), UnitPrice::ZERO]);
        assert_eq!(suggestion.factor, Decimal::ZERO);
        assert!(suggestion.is_met_by_held_prices());
        let more = suggest_prices(&lines, money(121)).expect("within reach");
        assert!(!more.is_met_by_held_prices());
        // By-products that pay for the whole side ask for less than nothing.
        let suggestion = suggest_prices(&lines[2..], money(-5)).expect("within reach");
        assert_eq!(suggestion.surplus, money(5));
    }

    #[test]
    fn what_is_out_of_reach_names_what_holds_it_and_what_each_would_need() {
        let lines = [
            line(10, 10, PriceRule::Pinned(per_kg(8))),
            line(5, 20, between(None, Some(22))),
            line(2, 0, between(Some(1), Some(50))),
            line(0, 10, between(None, Some(1))),
        ];
        let error = suggest_prices(&lines, money(202)).expect_err("held");
        let held = |line, hold, price, released| HeldLine {
            line,
            hold,
            price: per_kg(price),
            price_if_released: Some(per_kg(released)),
        };
        assert_eq!(
            error,
            SuggestionError::OutOfReach {
                short: money(10),
                held: vec![
                    held(0, Hold::Pinned, 8, 9),
                    held(1, Hold::Capped, 22, 24),
                    held(2, Hold::NoBoardPrice, 1, 6),
                ],
            }
        );
        let said = error.to_string();
        assert!(said.contains("10.00") && said.contains("3 "), "{said}");
        // With nothing missing every line stands at its highest.
        let most = suggest_prices(&lines, money(192)).expect("just within reach");
        assert_eq!(most.prices[..3], [per_kg(8), per_kg(22), per_kg(1)]);
    }

    #[test]
    fn what_makes_no_sense_is_refused_by_line() {
        let good = line(1, 1, PriceRule::Free);
        for bad in [
            line(-1, 1, PriceRule::Free),
            line(1, -1, PriceRule::Free),
            line(1, 1, PriceRule::Pinned(per_kg(-1))),
            line(1, 1, between(Some(-1), None)),
            line(1, 1, between(None, Some(-1))),
        ] {
            assert_eq!(
                suggest_prices(&[good, bad], money(1)),
                Err(SuggestionError::BelowZero { line: 1 }),
                "{bad:?}"
            );
        }
        let crossed = line(1, 1, between(Some(3), Some(2)));
        assert_eq!(
            suggest_prices(&[good, crossed], money(1)),
            Err(SuggestionError::FloorAboveCap { line: 1 })
        );
    }

    #[test]
    fn without_lines_only_nothing_is_within_reach() {
        let nothing = suggest_prices(&[], Money::ZERO).expect("nothing is asked");
        assert!(nothing.prices.is_empty());
        let error = suggest_prices(&[], money(1)).expect_err("nothing is sold");
        assert_eq!(
            error,
            SuggestionError::OutOfReach {
                short: money(1),
                held: vec![],
            }
        );
        assert!(error.to_string().contains("Nothing is sold"));
    }

    /// The factor found by halving in `f64`, and the prices at it.
    fn by_halving(lines: &[PricedLine], required: f64) -> Vec<f64> {
        let float = |decimal: Decimal| decimal.to_string().parse::<f64>().expect("a number");
        let prices = |factor: f64| -> Vec<f64> {
            let price = |line: &PricedLine| {
                let lifted = match line.rule {
                    PriceRule::Pinned(price) => float(price.per_kg()),
                    _ => factor * float(line.board.per_kg()),
                };
                let floored = lifted.max(float(line.rule.floor().per_kg()));
                line.rule
                    .cap()
                    .map_or(floored, |cap| floored.min(float(cap.per_kg())))
            };
            lines.iter().map(price).collect()
        };
        let sales = |factor: f64| -> f64 {
            let prices = prices(factor);
            let weights = lines.iter().map(|line| float(line.weight.kg()));
            prices
                .iter()
                .zip(weights)
                .map(|(price, weight)| price * weight)
                .sum()
        };
        let (mut low, mut high) = (0.0_f64, 1e9);
        for _ in 0..200 {
            let middle = f64::midpoint(low, high);
            if sales(middle) < required {
                low = middle;
            } else {
                high = middle;
            }
        }
        prices(high)
    }

    proptest! {
        #[test]
        fn the_required_sales_are_met_within_every_rule((lines, required) in any_lines(40)) {
            match suggest_prices(&lines, required) {
                Ok(suggestion) => {
                    let missed = sales(&lines, &suggestion.prices) - required - suggestion.surplus;
                    prop_assert!(missed.units().abs() <= last_digits(), "{missed:?}");
                    prop_assert!(suggestion.surplus >= Money::ZERO);
                    for (line, price) in lines.iter().zip(&suggestion.prices) {
                        prop_assert!(*price >= line.rule.floor());
                        prop_assert!(line.rule.cap().is_none_or(|cap| *price <= cap));
                        if suggestion.surplus.is_zero() && line.rule == PriceRule::Free {
                            let off = *price - line.board.times(suggestion.factor);
                            prop_assert!(off.per_kg().abs() <= last_digits());
                        }
                    }
                }
                Err(SuggestionError::OutOfReach { short, held }) => {
                    prop_assert!(short.is_positive());
                    // Releasing any one held line brings exactly what is missing.
                    let mut at_most = lines.clone();
                    for held in &held {
                        at_most[held.line].rule = PriceRule::Pinned(held.price);
                    }
                    for held in &held {
                        let mut released = at_most.clone();
                        let price = held.price_if_released.expect("a price");
                        released[held.line].rule = PriceRule::Pinned(price);
                        let again = suggest_prices(&released, required);
                        let off = again.expect("within reach").surplus;
                        prop_assert!(off.units() <= last_digits(), "{off:?}");
                    }
                    let with_weight = lines.iter().filter(|line| line.weight.is_positive());
                    prop_assert_eq!(held.len(), with_weight.count());
                    let lift = |line: &PricedLine| {
                        line.weight.is_positive() && line.board.is_positive() && line.rule.cap().is_none()
                    };
                    prop_assert!(!lines.iter().any(lift), "a free line can always be lifted");
                }
                Err(other) => prop_assert!(false, "{other}"),
            }
        }

        #[test]
        fn more_required_never_lowers_a_price(
            (lines, required) in any_lines(20),
            more_cents in 0_i64..1_000_000,
        ) {
            let more = required + Money::from_cents(more_cents);
            if let (Ok(less), Ok(more)) = (suggest_prices(&lines, required), suggest_prices(&lines, more)) {
                prop_assert!(more.factor >= less.factor);
                for (less, more) in less.prices.iter().zip(&more.prices) {
                    prop_assert!((*more - *less).per_kg() >= -last_digits());
                }
            }
        }

        #[test]
        fn the_order_of_the_lines_does_not_matter(
            ((lines, required), order) in any_lines(20).prop_flat_map(|(lines, required)| {
                let order = Just((0..lines.len()).collect::<Vec<_>>()).prop_shuffle();
                (Just((lines, required)), order)
            })
        ) {
            let shuffled: Vec<PricedLine> = order.iter().map(|&index| lines[index]).collect();
            match (suggest_prices(&lines, required), suggest_prices(&shuffled, required)) {
                (Ok(straight), Ok(shuffled)) => {
                    for (&index, price) in order.iter().zip(&shuffled.prices) {
                        let off = *price - straight.prices[index];
                        prop_assert!(off.per_kg().abs() <= last_digits());
                    }
                }
                (Err(_), Err(_)) => {}
                (straight, shuffled) => prop_assert!(false, "{straight:?} {shuffled:?}"),
            }
        }

        #[test]
        fn halving_in_floats_finds_the_same_prices((lines, required) in any_lines(8)) {
            if let Ok(suggestion) = suggest_prices(&lines, required) {
                prop_assume!(suggestion.surplus.is_zero());
                let float = |decimal: Decimal| decimal.to_string().parse::<f64>().expect("a number");
                let halved = by_halving(&lines, float(required.units()));
                for ((price, halved), line) in suggestion.prices.iter().zip(&halved).zip(&lines) {
                    // Without weight the price changes nothing.
                    if line.weight.is_positive() {
                        let off = float(price.per_kg()) - halved;
                        prop_assert!(off.abs() < 1e-6 * (1.0 + halved), "{price:?} {halved}");
                    }
                }
            }
        }

        #[test]
        fn the_ends_of_every_range_do_not_panic(
            (mut lines, _) in any_lines(12),
            price in any_typed_price(),
            ends in prop::collection::vec(0_usize..6, 40),
        ) {
            let ends: Vec<Decimal> = ends
                .into_iter()
                .map(|end| [
                    Decimal::ZERO,
                    Decimal::new(1, typed::MOST_PLACES),
                    Decimal::new(1, 28),
                    typed::LARGEST,
                    Decimal::MAX,
                    Decimal::MIN,
                ][end])
                .collect();
            for (line, ends) in lines.iter_mut().zip(ends.chunks(3)) {
                line.weight = Mass::from_kg(ends[0]);
                line.board = UnitPrice::from_per_lb(ends[1]);
                line.rule = PriceRule::Between {
                    floor: Some(price),
                    cap: Some(UnitPrice::from_per_lb(ends[2])),
                };
            }
            for required in &ends {
                let required = Money::from_units(*required);
                if let Err(error) = suggest_prices(&lines, required) {
                    prop_assert!(!error.to_string().is_empty());
                }
            }
        }
    }
}
