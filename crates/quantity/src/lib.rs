//! Quantities of the trade as exact decimals that cannot be mixed up.
//!
//! Every type wraps a [`rust_decimal::Decimal`] in one fixed unit and is made
//! and read through named constructors and accessors, so a kilogram is never
//! added to a dollar and a pound is never read as a kilogram.
//!
//! Operators exist only where they mean something (`Mass × UnitPrice =
//! Money`). They saturate instead of panicking: [`typed`] refuses anything
//! above [`typed::LARGEST`], fourteen orders of magnitude below the point at
//! which saturation could begin, so saturation is a guard and not a path.
//!
//! Nothing here rounds but [`rounding`], and that only when asked by name.

mod arithmetic;
mod linear;

pub mod currency;
pub mod labour;
pub mod mass;
pub mod money;
pub mod rounding;
pub mod share;
pub mod typed;
pub mod unit_price;

pub use currency::{Currency, NotACurrency};
pub use labour::{LabourRate, Minutes};
pub use mass::{Mass, MassUnit};
pub use money::Money;
pub use rounding::Rounding;
pub use rust_decimal::Decimal;
pub use share::Share;
pub use typed::TypedError;
pub use unit_price::{PriceUnit, UnitPrice};
