//! How sure the answer is: draws of the side that conserve its weight, the
//! figures of each, and what they say together.
//!
//! ```
//! use decision::Case;
//! use decision::spread::{DrawModel, KnownOfSide, Run};
//! use pricing::PricingError;
//! use quantity::{Decimal, Share};
//!
//! fn most_to_offer(case: &Case, seed: u64) -> Result<(), PricingError> {
//!     let model = DrawModel::published(case.catalogue, KnownOfSide::Unknown);
//!     let mut run = Run::new(case, &model, seed)?;
//!     let sure = Share::from_percent(Decimal::from(90));
//!     while run.advance(500) < 10_000 {
//!         let Some(so_far) = run.summary(sure) else { continue };
//!         println!("{:?} of {} draws pay", so_far.chance, so_far.draws);
//!     }
//!     if let Some(summary) = run.summary(sure) {
//!         println!("to be {sure:?} sure, offer at most {:?}", summary.offer);
//!     }
//!     Ok(())
//! }
//! ```
//!
//! Everything in between is float, for speed; what goes in and comes out is
//! not, but for histograms. The same seed gives the same bits natively and in
//! every browser: the arithmetic is that of IEEE 754, functions beyond it come
//! from `libm`.

mod cut_band;
mod draws;
mod fast;
mod float;
mod histogram;
mod lanes;
mod model;
mod normal;
mod part;
mod summary;
mod tree;

#[cfg(test)]
mod against_exact;
#[cfg(test)]
mod over_draws;

pub use draws::{MOST_DRAWS, Run};
pub use histogram::Histogram;
pub use model::{DrawModel, KnownOfSide};
pub use normal::normal_deviates;
pub use summary::{Band, CutBand, Summary};
