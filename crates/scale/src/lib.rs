//! What a side weighed, held against its plan, and what the shop learns from
//! it.
//!
//! Nothing here reads a clock, a random source or storage: dates, times and
//! seeds are arguments.

pub mod composition;
pub mod learning;
pub mod overlay;

#[cfg(test)]
mod any_side;

pub use composition::{WayWeights, piece_weights, products, way_weights};
pub use learning::{Learning, OddLevel, Prior, TestedSide};
pub use overlay::overlay;
