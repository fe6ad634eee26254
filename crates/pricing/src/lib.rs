//! Cost, price and decision: whether a side pays at a price, what every cut of
//! it costs, and the most it is worth.
//!
//! [`price_side`] runs the whole chain, each stage a pure function of the one
//! before: `carcass::break_down` → [`cost`] → [`sheet`] → [`verdict`].
//! Nothing here reads a clock, a random source or storage.

pub mod allocation;
pub mod board_file;
pub mod calendar_date;
pub mod cost;
pub mod cost_trail;
mod course;
pub mod cutting_test;
pub mod deal;
pub mod ending;
pub mod every_method;
pub mod judged;
mod least_cover;
pub mod packaging;
pub mod price_rule;
pub mod rounded_board;
pub mod sale_loss;
pub mod sheet;
pub mod sheet_file;
pub mod shop;
pub mod spreadsheet_text;
pub mod suggestion;
pub mod suggestion_error;
mod uncosted_rows;
pub mod verdict;
pub mod working_time;
pub mod yields;

#[cfg(test)]
mod any_lines;
#[cfg(test)]
mod any_side;
#[cfg(test)]
mod held_prices;

use core::fmt;
use wording::{Text, say};

pub use allocation::{AllocationMethod, JointProduct, allocate};
pub use calendar_date::CalendarDate;
pub use cost_trail::{CostTrail, TrailStep};
pub use cutting_test::CuttingTest;
pub use deal::{Age, Charge, ChargeAmount, Deal, LabourTime, WeightBasis};
pub use ending::{Endings, PriceRounding, RoundTo};
pub use every_method::rows_by_every_method;
pub use judged::{Judged, judge_breakdown};
pub use packaging::Packaging;
pub use price_rule::PriceRule;
pub use sale_loss::SaleLoss;
pub use sheet::{CostSheet, Row, Totals, price_breakdown, price_side};
pub use shop::{PriceBoard, Shop};
pub use suggestion_error::SuggestionError;
pub use verdict::{Outcome, Verdict};
pub use working_time::{Labour, WorkingTime};

/// Why a side cannot be priced. Each message says what would be right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PricingError {
    /// The side weighs nothing.
    NoWeight,
    /// No side, or more than can be priced at once.
    SidesOutOfRange,
    /// The target margin is not below the whole of sales.
    MarginTooHigh,
    /// A share that must lie between nothing and the whole does not.
    ShareOutOfRange {
        /// Which share.
        what: Text,
    },
    /// The board gives nothing for any cut of this plan.
    NoSales,
}

impl fmt::Display for PricingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match self {
            Self::NoWeight => say!("The side weighs nothing: enter a weight above 0."),
            Self::SidesOutOfRange => say!("Enter from 1 to {most} sides.", deal::MOST_SIDES),
            Self::MarginTooHigh => say!(
                "A margin of 100 % or more leaves nothing to pay for the side: enter one below 100 %."
            ),
            Self::ShareOutOfRange { what } => say!(
                "{what}: it must be 0 % or more and below 100 %.",
                what.said()
            ),
            Self::NoSales => {
                say!("No cut of this plan has a price above 0: enter a price on the board.")
            }
        })
    }
}

impl core::error::Error for PricingError {}
