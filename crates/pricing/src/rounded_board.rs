//! The whole board with price endings, which still brings what the target asks
//! and as little more as can be found.
//!
//! 1. A bound between two allowed prices is worth the allowed one inside it,
//!    so caps come down and floors go up to one. The exact prices are then
//!    solved anew ([`suggest_prices`]): a line that an ending holds back is
//!    made good by the others, and every exact price has an allowed price on
//!    either side that keeps its bounds.
//! 2. Rounding up takes each line to the allowed price at or above its exact
//!    one; that is the only choice, so its excess is the least.
//! 3. Rounding to the nearest lets each line take the allowed price on either
//!    side. All lower ones fall short by a need; a line that takes its upper
//!    one adds `step · weight`; lines are chosen that cover the need with the
//!    least excess. With up to 20 lines to choose among every choice is tried
//!    and the excess is proven the least. With more the 20 that add least are
//!    tried wholly after the others are settled one by one, and the excess is
//!    the least found, proven only where it is nothing.
//!
//! Sums are compared in whole units of 10⁻¹² of the currency, each addition
//! cut down and the need taken up, so that a board that is let through never
//! falls short; a proof holds to that unit for each line.
//!
//! Pinned prices stand as typed, and a line without weight goes to the
//! neighbour its rounding names. Nothing reads a clock or a random source.

use quantity::{Decimal, Money, Rounding, UnitPrice};

use crate::ending::{PriceRounding, RoundTo};
use crate::least_cover::{Cover, least_cover};
use crate::price_rule::{PriceRule, PricedLine, refuse_unsound};
use crate::suggestion::{Suggestion, suggest_prices};
use crate::suggestion_error::SuggestionError;

/// A board with price endings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RoundedBoard {
    /// The price of every line, in the order of the lines.
    pub prices: Vec<UnitPrice>,
    /// What they bring.
    pub sales: Money,
    /// What they bring above what is asked.
    pub excess: Money,
    /// Whether no other choice of neighbouring allowed prices brings less
    /// excess.
    pub is_proven_least: bool,
    /// The exact prices that were rounded.
    pub exact: Suggestion,
}

/// Solves the prices of `lines` for `required` and rounds them for the card.
///
/// # Errors
/// [`SuggestionError`] names the lines that stand in the way: those of
/// [`suggest_prices`], and lines that no allowed price fits.
pub fn round_board(
    lines: &[PricedLine],
    required: Money,
    rounding: &PriceRounding,
) -> Result<RoundedBoard, SuggestionError> {
    refuse_unsound(lines)?;
    let lines = lines
        .iter()
        .enumerate()
        .map(|(index, line)| {
            with_allowed_bounds(line, rounding)
                .ok_or(SuggestionError::NoEndingBetween { line: index })
        })
        .collect::<Result<Vec<_>, _>>()?;
    let exact = suggest_prices(&lines, required)?;

    let choices: Vec<Choice> = lines
        .iter()
        .zip(&exact.prices)
        .map(|(line, &price)| Choice::of(line, price, rounding))
        .collect();
    let lower: Vec<UnitPrice> = choices.iter().map(|choice| choice.lower).collect();
    let at_least = sales_of(&lines, &lower);
    let need = required - at_least;
    if !need.is_positive() {
        return Ok(RoundedBoard {
            prices: lower,
            sales: at_least,
            excess: at_least - required,
            is_proven_least: true,
            exact,
        });
    }
    let additions: Vec<Money> = choices
        .iter()
        .zip(&lines)
        .map(|(choice, line)| (choice.upper - choice.lower) * line.weight)
        .collect();
    let cover = cover_need(&additions, need);
    let prices: Vec<UnitPrice> = choices
        .iter()
        .zip(&cover.taken)
        .map(|(choice, &taken)| if taken { choice.upper } else { choice.lower })
        .collect();
    let sales = sales_of(&lines, &prices);
    Ok(RoundedBoard {
        prices,
        sales,
        excess: sales - required,
        is_proven_least: cover.is_proven_least,
        exact,
    })
}

/// What `lines` bring at `prices`.
fn sales_of(lines: &[PricedLine], prices: &[UnitPrice]) -> Money {
    lines
        .iter()
        .zip(prices)
        .map(|(line, price)| *price * line.weight)
        .sum()
}

/// `line` with its floor and cap on allowed prices; `None` where none fits.
fn with_allowed_bounds(line: &PricedLine, rounding: &PriceRounding) -> Option<PricedLine> {
    let PriceRule::Between { floor, cap } = line.rule else {
        return Some(*line);
    };
    let floor = match floor.filter(|floor| floor.is_positive()) {
        Some(floor) => Some(rounding.at_or_above(floor)?),
        None => None,
    };
    let stays_at_nothing = floor.is_none() && line.board.is_zero();
    let cap = match cap.filter(|cap| cap.is_positive() && !stays_at_nothing) {
        Some(cap) => Some(rounding.at_or_below(cap)?),
        None => cap,
    };
    if cap.is_some_and(|cap| cap < floor.unwrap_or_default()) {
        return None;
    }
    Some(PricedLine {
        rule: PriceRule::Between { floor, cap },
        ..*line
    })
}

/// The prices a line may take: one, or the two on either side of its exact one.
struct Choice {
    lower: UnitPrice,
    upper: UnitPrice,
}

impl Choice {
    fn of(line: &PricedLine, exact: UnitPrice, rounding: &PriceRounding) -> Self {
        let only = |price| Self {
            lower: price,
            upper: price,
        };
        if matches!(line.rule, PriceRule::Pinned(_)) {
            return only(exact);
        }
        if rounding.to == RoundTo::Up || line.weight.is_zero() {
            return only(rounding.round(exact));
        }
        let upper = rounding.at_or_above(exact).unwrap_or(exact);
        Self {
            lower: rounding.at_or_below(exact).unwrap_or(upper),
            upper,
        }
    }
}

/// Decimal places of the unit in which sums are compared.
const PLACES: u32 = 12;

/// Which of `additions` to take to cover `need`.
fn cover_need(additions: &[Money], need: Money) -> Cover {
    // Weights beyond any shop's leave room for fewer places.
    (0..=PLACES)
        .rev()
        .find_map(|places| in_whole_units(additions, need, places))
        .map_or_else(
            || Cover {
                taken: vec![true; additions.len()],
                is_proven_least: false,
            },
            |(additions, need)| cover_with_some(&additions, need),
        )
}

/// The additions cut down and the need taken up to units of `places` decimal
/// places; `None` where they are too many to count.
fn in_whole_units(additions: &[Money], need: Money, places: u32) -> Option<(Vec<u64>, u64)> {
    let units = |amount: Money, rounding: Rounding| -> Option<u64> {
        let unit = Decimal::new(1, places);
        let units = rounding
            .to_places(amount.units(), places)
            .checked_div(unit)?;
        u64::try_from(units.trunc()).ok()
    };
    let additions: Vec<u64> = additions
        .iter()
        .map(|addition| units(*addition, Rounding::Down))
        .collect::<Option<_>>()?;
    additions
        .iter()
        .try_fold(0_u64, |sum, addition| sum.checked_add(*addition))?;
    Some((additions, units(need, Rounding::Up)?))
}

/// Leaves out the lines that have no choice: they would take the place of
/// those that have one.
fn cover_with_some(additions: &[u64], need: u64) -> Cover {
    let open: Vec<(usize, u64)> = additions
        .iter()
        .copied()
        .enumerate()
        .filter(|(_, addition)| *addition > 0)
        .collect();
    let amounts: Vec<u64> = open.iter().map(|(_, addition)| *addition).collect();
    let of_open = least_cover(&amounts, need);
    let mut taken = vec![false; additions.len()];
    for ((index, _), is_taken) in open.iter().zip(of_open.taken) {
        if let Some(taken) = taken.get_mut(*index) {
            *taken = is_taken;
        }
    }
    Cover { taken, ..of_open }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use quantity::{Mass, PriceUnit};

    use super::*;
    use crate::any_lines::{any_lines, sales};
    use crate::ending::Endings;

    fn per_kg(cents: i64) -> UnitPrice {
        UnitPrice::from_per_kg(Decimal::new(cents, 2))
    }

    fn line(grams: i64, board_cents: i64, rule: PriceRule) -> PricedLine {
        PricedLine {
            weight: Mass::from_g(Decimal::from(grams)),
            board: per_kg(board_cents),
            rule,
        }
    }

    fn ninety_nine(to: RoundTo) -> PriceRounding {
        PriceRounding {
            endings: Endings::NINETY_NINE,
            to,
            unit: PriceUnit::PerKilogram,
        }
    }

    #[test]
    fn the_line_that_adds_least_above_the_need_goes_up() {
        // By hand: at 12.49 a kilogram 11.99 leaves 0.50 · 10 = 5.00 to find;
        // one dollar more on 6 kg finds 6.00, on 4 kg only 4.00.
        let lines = [
            line(6000, 1249, PriceRule::Free),
            line(4000, 1249, PriceRule::Free),
        ];
        let required = Money::from_cents(12_490);
        let board = round_board(&lines, required, &ninety_nine(RoundTo::Nearest)).expect("a board");
        assert_eq!(board.prices, [per_kg(1299), per_kg(1199)]);
        assert_eq!(board.excess, Money::from_cents(100));
        assert!(board.is_proven_least);
        let board = round_board(&lines, required, &ninety_nine(RoundTo::Up)).expect("a board");
        assert_eq!(board.prices, [per_kg(1299); 2]);
        assert_eq!(board.excess, Money::from_cents(500));
        assert!(board.is_proven_least);
    }

    #[test]
    fn what_an_ending_takes_from_a_capped_line_the_others_make_good() {
        // 12.50 is no card price, so the cap is worth 11.99 and the other line
        // has to bring 250.00 − 119.90 = 130.10.
        let capped = PriceRule::Between {
            floor: None,
            cap: Some(per_kg(1250)),
        };
        let lines = [
            line(10_000, 1250, capped),
            line(10_000, 1250, PriceRule::Free),
        ];
        for to in [RoundTo::Up, RoundTo::Nearest] {
            let board =
                round_board(&lines, Money::from_cents(25_000), &ninety_nine(to)).expect("a board");
            assert_eq!(board.prices, [per_kg(1199), per_kg(1399)]);
            assert_eq!(board.excess, Money::from_cents(980));
        }
    }

    #[test]
    fn pins_stand_as_typed_and_nothing_stays_nothing() {
        let lines = [
            line(1000, 1000, PriceRule::Pinned(per_kg(1234))),
            line(1000, 0, PriceRule::Free),
            line(1000, 1000, PriceRule::Free),
            line(0, 1070, PriceRule::Free),
        ];
        let board = round_board(
            &lines,
            Money::from_cents(2234),
            &ninety_nine(RoundTo::Nearest),
        );
        let prices = board.expect("a board").prices;
        assert_eq!(
            prices,
            [per_kg(1234), UnitPrice::ZERO, per_kg(1099), per_kg(1099)]
        );
    }

    #[test]
    fn lines_without_a_choice_leave_room_to_try_the_others() {
        let pin = PriceRule::Pinned(per_kg(1250));
        let mut lines = vec![line(1000, 1250, pin); 40];
        lines.extend((1..=12).map(|step| line(777 * step, 1250, PriceRule::Free)));
        let rounding = ninety_nine(RoundTo::Nearest);
        let board = round_board(&lines, Money::from_cents(130_000), &rounding).expect("a board");
        assert!(board.is_proven_least);
    }

    #[test]
    fn additions_are_cut_down_and_the_need_is_taken_up() {
        let money = |units: i64, places| Money::from_units(Decimal::new(units, places));
        let additions = [money(10_000_000_000_019, 13), money(5, 1)];
        assert_eq!(
            in_whole_units(&additions, money(10_000_000_000_011, 13), 12),
            Some((vec![1_000_000_000_001, 500_000_000_000], 1_000_000_000_002))
        );
        assert_eq!(in_whole_units(&[money(i64::MAX, 0)], money(1, 0), 1), None);
    }

    #[test]
    fn a_board_that_is_right_already_stays() {
        // A factor of one that lost its last digit must not cost a dollar.
        let lines: Vec<PricedLine> = (1..=30)
            .map(|step| line(1357 * step, 999 + 100 * step, PriceRule::Free))
            .collect();
        let on_board: Vec<UnitPrice> = lines.iter().map(|line| line.board).collect();
        let hair = Money::from_units(Decimal::new(1, 22));
        for required in [sales(&lines, &on_board), sales(&lines, &on_board) + hair] {
            for to in [RoundTo::Up, RoundTo::Nearest] {
                let board = round_board(&lines, required, &ninety_nine(to)).expect("a board");
                assert_eq!(board.prices, on_board);
                assert!(board.is_proven_least);
            }
        }
    }

    #[test]
    fn bounds_without_a_card_price_between_them_are_named() {
        let narrow = |floor: i64, cap: i64| PriceRule::Between {
            floor: Some(per_kg(floor)),
            cap: Some(per_kg(cap)),
        };
        let free = line(1000, 1000, PriceRule::Free);
        let round = |rule| {
            round_board(
                &[free, line(1000, 1000, rule)],
                Money::from_cents(100),
                &ninety_nine(RoundTo::Up),
            )
        };
        let error = SuggestionError::NoEndingBetween { line: 1 };
        assert!(error.to_string().starts_with("Line 2: "));
        let refused = Err(error);
        assert_eq!(round(narrow(1000, 1050)), refused);
        assert_eq!(round(narrow(0, 50)), refused);
        assert!(round(narrow(1000, 1099)).is_ok());
        assert!(round(narrow(0, 0)).is_ok());
        // A line that stays at nothing needs no card price.
        let unpriced = line(1000, 0, narrow(0, 50));
        let board = round_board(
            &[free, unpriced],
            Money::from_cents(100),
            &ninety_nine(RoundTo::Up),
        );
        assert_eq!(
            board.expect("a board").prices,
            [per_kg(199), UnitPrice::ZERO]
        );
    }

    fn any_rounding() -> impl Strategy<Value = PriceRounding> {
        let endings =
            prop::sample::select(vec!["99", "49 99", "95", "09 19 29 39 49 59 69 79 89 99"]);
        let unit = prop::sample::select(vec![
            PriceUnit::PerKilogram,
            PriceUnit::Per100Gram,
            PriceUnit::PerPound,
        ]);
        let every_cent = prop::bool::weighted(0.2);
        let to = prop::sample::select(vec![RoundTo::Up, RoundTo::Nearest, RoundTo::Nearest]);
        (endings, every_cent, unit, to).prop_map(|(endings, every_cent, unit, to)| PriceRounding {
            endings: if every_cent {
                Endings::EVERY_CENT
            } else {
                Endings::typed(endings).expect("endings")
            },
            to,
            unit,
        })
    }

    /// The least excess of every choice of neighbours, tried one by one.
    fn least_by_trying_all(
        lines: &[PricedLine],
        required: Money,
        board: &RoundedBoard,
        rounding: &PriceRounding,
    ) -> Money {
        let mut sums = vec![-required];
        for (line, &exact) in lines.iter().zip(&board.exact.prices) {
            let neighbours = match line.rule {
                PriceRule::Pinned(price) => vec![price],
                _ if exact.is_zero() => vec![exact],
                _ if rounding.to == RoundTo::Up => vec![rounding.round(exact)],
                _ => [rounding.at_or_below(exact), rounding.at_or_above(exact)]
                    .into_iter()
                    .flatten()
                    .collect(),
            };
            sums = sums
                .iter()
                .flat_map(|sum| neighbours.iter().map(|price| *sum + *price * line.weight))
                .collect();
        }
        let missing = |sum: &Money| sum.units() >= -Decimal::new(1, 15);
        sums.into_iter()
            .filter(missing)
            .min()
            .expect("the upper neighbours")
    }

    proptest! {
        #[test]
        fn no_board_falls_short_and_every_rule_is_kept(
            (lines, required) in any_lines(45),
            rounding in any_rounding(),
        ) {
            let Ok(board) = round_board(&lines, required, &rounding) else {
                return Ok(());
            };
            let brought = sales(&lines, &board.prices);
            prop_assert_eq!(brought, board.sales);
            prop_assert_eq!(board.excess, board.sales - required);
            prop_assert!(board.excess.units() >= -Decimal::new(1, 15), "{:?}", board.excess);
            for ((line, &price), &exact) in lines.iter().zip(&board.prices).zip(&board.exact.prices) {
                prop_assert!(price >= line.rule.floor());
                prop_assert!(line.rule.cap().is_none_or(|cap| price <= cap));
                match line.rule {
                    PriceRule::Pinned(pin) => prop_assert_eq!(price, pin),
                    _ if exact.is_zero() => prop_assert!(price.is_zero()),
                    _ => {
                        prop_assert_eq!(rounding.round(price), price);
                        let neighbours = [rounding.at_or_below(exact), rounding.at_or_above(exact)];
                        prop_assert!(neighbours.contains(&Some(price)));
                        if rounding.to == RoundTo::Up {
                            prop_assert_eq!(Some(price), neighbours[1]);
                        }
                    }
                }
            }
        }

        #[test]
        fn the_excess_of_a_small_board_is_the_least(
            (lines, required) in any_lines(12),
            rounding in any_rounding(),
        ) {
            if let Ok(board) = round_board(&lines, required, &rounding) {
                prop_assert!(board.is_proven_least);
                let least = least_by_trying_all(&lines, required, &board, &rounding);
                let off = board.excess - least;
                prop_assert!(off.units().abs() <= Decimal::new(1, 10), "{off:?}");
            }
        }

        #[test]
        fn a_whole_board_comes_within_a_cent_of_what_is_asked(
            lines in prop::collection::vec((200_i64..20_000, 500_i64..6000), 30..70),
            percent in 50_i64..150,
        ) {
            let lines: Vec<PricedLine> = lines
                .into_iter()
                .map(|(grams, cents)| line(grams, cents, PriceRule::Free))
                .collect();
            let on_board: Money = lines.iter().map(|line| line.board * line.weight).sum();
            let required = on_board.times(Decimal::new(percent, 2));
            let board = round_board(&lines, required, &ninety_nine(RoundTo::Nearest)).expect("a board");
            prop_assert!(board.excess < Money::from_cents(1), "{:?}", board.excess);
        }

        #[test]
        fn the_ends_of_every_range_do_not_panic(
            (mut lines, _) in any_lines(30),
            rounding in any_rounding(),
            ends in prop::collection::vec(0_usize..6, 60),
        ) {
            let ends: Vec<Decimal> = ends
                .into_iter()
                .map(|end| [
                    Decimal::ZERO,
                    Decimal::new(1, 9),
                    Decimal::new(1, 28),
                    Decimal::from(1_000_000_000),
                    Decimal::MAX,
                    Decimal::MIN,
                ][end])
                .collect();
            for (line, ends) in lines.iter_mut().zip(ends.chunks(2)) {
                line.weight = Mass::from_kg(ends[0]);
                line.board = UnitPrice::from_per_lb(ends[1]);
            }
            for required in &ends {
                let _ = round_board(&lines, Money::from_units(*required), &rounding);
            }
        }
    }
}
