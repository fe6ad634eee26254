//! How amounts are written on a screen: the units in force, digits, signs.
//!
//! Exact amounts are rounded once, here, by a named rule.

mod manner;
mod units;
mod written;

pub use manner::{Manner, currency, write_by};
pub use units::Units;
pub use written::{
    as_typed, in_field, mass, mass_with_unit, minutes, money, number, percent, plain, price,
    price_with_unit, share,
};
