//! What the answer rests on, how sure it is, and which plan is best: what-ifs,
//! spread and the search for the best plan, all on top of [`pricing`].
//!
//! Nothing here reads a clock, a random source or storage: seeds are arguments.

pub mod case;

pub use case::Case;
