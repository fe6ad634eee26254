//! How amounts are written on a screen: the units in force, digits, signs.
//!
//! Exact amounts are rounded once, here, by a named rule.

mod units;
mod written;

pub use units::Units;
pub use written::{
    in_field, mass, mass_with_unit, minutes, money, number, percent, price, price_with_unit,
};
