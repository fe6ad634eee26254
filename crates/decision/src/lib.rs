//! What the answer rests on, how sure it is, and which plan is best: what-ifs,
//! spread and the search for the best plan, all on top of [`pricing`].
//!
//! Nothing here reads a clock, a random source or storage: seeds are arguments.

pub mod case;
pub mod cut_shift;
pub mod saleable_shift;

#[cfg(test)]
mod any_case;

pub use case::Case;
pub use cut_shift::shift_cut;
pub use saleable_shift::{saleable_share, shift_saleable};
