//! What the answer rests on, how sure it is, and which plan is best: what-ifs,
//! spread and the search for the best plan, all on top of [`pricing`].
//!
//! Nothing here reads a clock, a random source or storage: seeds are arguments.

pub mod best_plan;
pub mod break_even;
pub mod case;
pub mod comparison;
pub mod cut_shift;
pub mod grid;
pub mod input;
pub mod saleable_shift;
pub mod sensitivity;
pub mod spread;
pub mod stated_spread;
pub mod stock_comparison;
pub mod what_if;

#[cfg(test)]
mod any_case;

pub use best_plan::best_plan;
pub use break_even::{BreakEven, break_even};
pub use case::Case;
pub use comparison::{Compared, Comparison, Difference, Whole, compare, compare_sheets};
pub use cut_shift::shift_cut;
pub use grid::{Axis, GridRow, grid};
pub use input::{Bounds, Input, Unit};
pub use saleable_shift::{saleable_share, shift_saleable};
pub use sensitivity::{Bar, Bars, End, bars};
pub use stated_spread::{InputSpread, StatedSpread, stated_spread};
pub use stock_comparison::{StockComparison, compare_stocks};
pub use what_if::{Reading, WhatIf, WrittenBack};
