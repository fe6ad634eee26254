//! A panel a file: the question, what can be set about it, the answer.

pub mod bars;
pub mod best_plan;
pub mod break_even;
pub mod comparison;
pub mod grid;
pub mod spread;
pub mod stocks;
pub mod trial;
