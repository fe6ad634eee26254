//! Why no prices can be suggested, and which lines stand in the way.

use core::fmt;

use quantity::{Money, Rounding, UnitPrice};

/// What keeps the price of a line from rising with the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Hold {
    /// Its price is pinned.
    Pinned,
    /// Its price is at its cap.
    Capped,
    /// It has no price on the board that a factor could lift.
    NoBoardPrice,
}

/// A line that holds sales below what is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HeldLine {
    /// Its place among the lines.
    pub line: usize,
    /// What holds it.
    pub hold: Hold,
    /// The price it is held at.
    pub price: UnitPrice,
    /// The price at which this line alone would bring what is missing; `None`
    /// where no decimal holds it.
    pub price_if_released: Option<UnitPrice>,
}

/// Why no prices can be suggested. A line is named by its place, from 0.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SuggestionError {
    /// A weight or price is below zero.
    BelowZero {
        /// The line.
        line: usize,
    },
    /// The floor of a line is above its cap.
    FloorAboveCap {
        /// The line.
        line: usize,
    },
    /// No price with an allowed ending lies between the floor and the cap of a
    /// line.
    NoEndingBetween {
        /// The line.
        line: usize,
    },
    /// Pins and caps hold the sales below what is asked.
    OutOfReach {
        /// What is missing at the highest prices allowed.
        short: Money,
        /// The lines that hold it there, in the order of the lines; none where
        /// nothing is sold at all.
        held: Vec<HeldLine>,
    },
}

impl SuggestionError {
    /// The same with every line named by the place that `place` has for it.
    pub(crate) fn at(mut self, place: impl Fn(usize) -> usize) -> Self {
        match &mut self {
            Self::BelowZero { line }
            | Self::FloorAboveCap { line }
            | Self::NoEndingBetween { line } => *line = place(*line),
            Self::OutOfReach { held, .. } => {
                for held in held.iter_mut() {
                    held.line = place(held.line);
                }
                held.sort_unstable_by_key(|held| held.line);
            }
        }
        self
    }
}

impl fmt::Display for SuggestionError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BelowZero { line } => write!(
                f,
                "Line {}: a weight or price is below zero: enter zero or more.",
                line.saturating_add(1)
            ),
            Self::FloorAboveCap { line } => write!(
                f,
                "Line {}: the lowest price is above the highest: enter a lowest price at or below the highest.",
                line.saturating_add(1)
            ),
            Self::NoEndingBetween { line } => write!(
                f,
                "Line {}: no price between the lowest and the highest ends as asked: move one of them, allow another ending or pin the price.",
                line.saturating_add(1)
            ),
            Self::OutOfReach { short, held } if held.is_empty() => write!(
                f,
                "Nothing is sold, so no price brings the {:.2} that is missing: enter a weight.",
                Rounding::Up.to_cent(short.units())
            ),
            Self::OutOfReach { short, held } => write!(
                f,
                "Sales stay {:.2} below what the target asks, held by {} pinned, capped or unpriced {}: raise or release one of them.",
                Rounding::Up.to_cent(short.units()),
                held.len(),
                if held.len() == 1 { "line" } else { "lines" }
            ),
        }
    }
}

impl core::error::Error for SuggestionError {}
