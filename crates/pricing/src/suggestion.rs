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

use quantity::{Decimal, Money, Rounding, UnitPrice};

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
        .filter(|turn| !turn.is_zero())
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
    let factor = rest
        .ratio_to(slope)
        .map_or(Decimal::MAX, |share| share.fraction());
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

/// How the sales of a line follow the factor: level at the floor, rising with
/// it, level at the cap.
struct Course {
    at_floor: Money,
    at_cap: Money,
    /// What it brings for each unit of the factor while it rises.
    slope: Money,
    /// The factor at which it leaves its floor.
    leaves_floor: Decimal,
    /// The factor at which it reaches its cap.
    reaches_cap: Option<Decimal>,
}

impl Course {
    fn of(line: &PricedLine) -> Self {
        let floor = line.rule.floor();
        let at_floor = floor * line.weight;
        // A bound that no factor within a decimal's range reaches.
        let factor_at = |price: UnitPrice| {
            price
                .ratio_to(line.board)
                .map_or(Decimal::MAX, |share| share.fraction())
        };
        if line.board.is_zero() || matches!(line.rule, PriceRule::Pinned(_)) {
            return Self {
                at_floor,
                at_cap: at_floor,
                slope: Money::ZERO,
                leaves_floor: Decimal::ZERO,
                reaches_cap: Some(Decimal::ZERO),
            };
        }
        Self {
            at_floor,
            at_cap: line.rule.cap().map_or(at_floor, |cap| cap * line.weight),
            slope: line.board * line.weight,
            leaves_floor: factor_at(floor),
            reaches_cap: line.rule.cap().map(factor_at),
        }
    }
}

/// Where a line stands on a stretch of factors.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    Floor,
    Moving,
    Cap,
}

/// The factors between two neighbouring turns, or all above the last one.
#[derive(Clone, Copy)]
struct Stretch {
    from: Decimal,
    to: Option<Decimal>,
}

impl Stretch {
    fn place(self, course: &Course) -> Place {
        if course.reaches_cap.is_some_and(|cap| cap <= self.from) {
            Place::Cap
        } else if self.to.is_some_and(|to| to <= course.leaves_floor) {
            Place::Floor
        } else {
            Place::Moving
        }
    }
}

fn sales_at(courses: &[Course], factor: Decimal) -> Money {
    courses
        .iter()
        .map(|course| {
            if course.reaches_cap.is_some_and(|cap| cap <= factor) {
                course.at_cap
            } else if factor <= course.leaves_floor {
                course.at_floor
            } else {
                course.slope.times(factor)
            }
        })
        .sum()
}

fn sales_without_moving(courses: &[Course], stretch: Stretch) -> Money {
    courses
        .iter()
        .map(|course| match stretch.place(course) {
            Place::Floor => course.at_floor,
            Place::Moving => Money::ZERO,
            Place::Cap => course.at_cap,
        })
        .sum()
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
