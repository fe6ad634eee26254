//! How the sales of a line follow the factor on the board, and where it stands
//! between two factors at which any line turns.

use quantity::{Decimal, Money, Share, UnitPrice};

use crate::price_rule::{PriceRule, PricedLine};

/// How the sales of a line follow the factor: level at the floor, rising with
/// it, level at the cap.
pub(crate) struct Course {
    /// What it brings at its floor.
    pub at_floor: Money,
    /// What it brings at its cap; at its floor where no factor moves it.
    pub at_cap: Money,
    /// What it brings for each unit of the factor while it rises.
    pub slope: Money,
    /// The factor at which it leaves its floor.
    pub leaves_floor: Decimal,
    /// The factor at which it reaches its cap.
    pub reaches_cap: Option<Decimal>,
}

impl Course {
    /// The course of `line`.
    pub fn of(line: &PricedLine) -> Self {
        let floor = line.rule.floor();
        let at_floor = floor * line.weight;
        // A bound that no factor within a decimal's range reaches.
        let factor_at = |price: UnitPrice| {
            price
                .ratio_to(line.board)
                .map_or(Decimal::MAX, Share::fraction)
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
pub(crate) enum Place {
    /// At its floor.
    Floor,
    /// Following the factor.
    Moving,
    /// At its cap, or where no factor moves it.
    Cap,
}

/// The factors between two neighbouring turns, or all above the last one.
#[derive(Clone, Copy)]
pub(crate) struct Stretch {
    /// Its lower end.
    pub from: Decimal,
    /// Its upper end; `None` past the last turn.
    pub to: Option<Decimal>,
}

impl Stretch {
    /// Where `course` stands all along it.
    pub fn place(self, course: &Course) -> Place {
        if course.reaches_cap.is_some_and(|cap| cap <= self.from) {
            Place::Cap
        } else if self.to.is_some_and(|to| to <= course.leaves_floor) {
            Place::Floor
        } else {
            Place::Moving
        }
    }
}

/// What all lines bring at `factor`.
pub(crate) fn sales_at(courses: &[Course], factor: Decimal) -> Money {
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

/// What the lines bring that stand at a bound all along `stretch`.
pub(crate) fn sales_without_moving(courses: &[Course], stretch: Stretch) -> Money {
    courses
        .iter()
        .map(|course| match stretch.place(course) {
            Place::Floor => course.at_floor,
            Place::Moving => Money::ZERO,
            Place::Cap => course.at_cap,
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use quantity::Mass;

    use super::*;

    /// Ten kilograms at `board` a kilogram, from `floor` up.
    fn course(board: i64, floor: i64) -> Course {
        let per_kg = |price: i64| UnitPrice::from_per_kg(Decimal::from(price));
        Course::of(&PricedLine {
            weight: Mass::from_kg(Decimal::TEN),
            board: per_kg(board),
            rule: PriceRule::Between {
                floor: Some(per_kg(floor)),
                cap: None,
            },
        })
    }

    #[test]
    fn a_line_without_a_board_price_stays_at_its_floor_at_every_factor() {
        let courses = [course(0, 3)];
        let at_floor = Money::from_units(Decimal::from(30));
        let beyond = Stretch {
            from: Decimal::MAX,
            to: None,
        };
        assert_eq!(sales_without_moving(&courses, beyond), at_floor);
        for factor in [Decimal::ZERO, Decimal::ONE, Decimal::MAX] {
            assert_eq!(sales_at(&courses, factor), at_floor);
        }
    }

    #[test]
    fn a_line_leaves_its_floor_where_its_board_price_reaches_it() {
        let courses = [course(2, 3)];
        for (tenths, sales) in [(10, 30), (15, 30), (16, 32), (20, 40)] {
            assert_eq!(
                sales_at(&courses, Decimal::new(tenths, 1)),
                Money::from_units(Decimal::from(sales)),
                "{tenths}"
            );
        }
    }
}
