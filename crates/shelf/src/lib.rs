//! Plans saved by name. A saved plan is the whole of what was typed and chosen:
//! the deal, the cut plan and the shop.
//!
//! [`Saved`] is one of them, which writes itself down and takes itself up
//! again; [`Shelf`] is all of them in a [`Store`], each under a key of its own,
//! so that damage to one is no damage to another.

#![forbid(unsafe_code)]

pub mod file;
pub mod plan_file;
mod saved;
mod shelf;

pub use saved::{LONGEST_NAME, Saved, Unreadable, tidy};
pub use shelf::{KEY, Order, Put, Refused, Shelf, Store, add, remove, replace};
