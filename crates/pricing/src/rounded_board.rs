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
//!    one adds `step · weight`; [`least_cover`](crate::least_cover) chooses
//!    lines that cover the need with the least excess. With up to 24 lines
//!    that is proven; with more the 24 that add least are tried wholly after
//!    the others are settled, and the excess is found, not proven.
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
    let sales = |prices: &mut dyn Iterator<Item = UnitPrice>| -> Money {
        prices
            .zip(&lines)
            .map(|(price, line)| price * line.weight)
            .sum()
    };
    let need = required - sales(&mut choices.iter().map(|choice| choice.lower));
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
    let sales = sales(&mut prices.iter().copied());
    Ok(RoundedBoard {
        prices,
        sales,
        excess: sales - required,
        is_proven_least: cover.is_proven_least,
        exact,
    })
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
/// Places below which a need is what division left over.
const LEFT_OVER_PLACES: u32 = 15;

/// Which of `additions` to take to cover `need`.
fn cover_need(additions: &[Money], need: Money) -> Cover {
    let need = Rounding::HalfEven.to_places(need.units(), LEFT_OVER_PLACES);
    if need <= Decimal::ZERO {
        return Cover {
            taken: vec![false; additions.len()],
            is_proven_least: true,
        };
    }
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
fn in_whole_units(additions: &[Money], need: Decimal, places: u32) -> Option<(Vec<u64>, u64)> {
    let units = |amount: Decimal, rounding: Rounding| -> Option<u64> {
        let unit = Decimal::new(1, places);
        let units = rounding.to_places(amount, places).checked_div(unit)?;
        u64::try_from(units.trunc()).ok()
    };
    let additions: Vec<u64> = additions
        .iter()
        .map(|addition| units(addition.units(), Rounding::Down))
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
