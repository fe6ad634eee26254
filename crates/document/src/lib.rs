//! The saved form of a plan.
//!
//! A document is JSON with a version. Reading is strict: an unknown field, a
//! missing one, an amount out of range or an id that the catalogue does not
//! know is refused with a sentence that says where; a newer version is refused
//! by its number before anything else is read.
//!
//! Amounts are kept as text in the unit the user chose, so what was typed in
//! pounds comes back in pounds to the last digit.

pub mod amount;
pub mod as_map;
mod carcass_form;
mod currency_form;
pub mod error;
pub mod format;
pub mod json_fault;
mod plan_form;
pub mod resolve;
mod sample;
pub mod wrong;

#[cfg(test)]
mod any_document;

pub use amount::{MassAmount, PriceAmount};
pub use error::DocumentError;
pub use format::{Document, LARGEST_BYTES, VERSION};
pub use json_fault::JsonFault;
pub use resolve::Resolved;
pub use wrong::Wrong;
