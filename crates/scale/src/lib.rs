//! What a side weighed, held against its plan, and what the shop learns from
//! it.
//!
//! Nothing here reads a clock, a random source or storage: dates, times and
//! seeds are arguments.

pub mod bought_piece;
pub mod closed_test;
pub mod closing;
pub mod composition;
pub mod divided;
pub mod form;
pub mod grinding_log;
pub mod kept_way;
pub mod learning;
pub mod lot_code;
pub mod overlay;
pub mod record_file;
pub mod report;
pub mod standing;
pub mod tag;
pub mod trace;
pub mod unit_slip;
pub mod variance;
pub mod weigh_in_form;
pub mod weighing;

#[cfg(test)]
mod any_record;
#[cfg(test)]
mod any_side;

pub use bought_piece::{BoughtPiece, FEWEST_PIECES, OtherPart, UsableShares};
pub use closed_test::{ClosedTest, KeptMoney};
pub use closing::{
    Cause, ClosedWeights, Closing, NotClosed, Settlement, USUAL_TOLERANCE, Unexplained, close,
};
pub use composition::{WayWeights, piece_weights, products, way_weights};
pub use divided::{Divided, divide};
pub use form::{Fault, FormError};
pub use grinding_log::{Batch, BatchError, GrindingLog, TimeOfDay};
pub use kept_way::{KeptWay, KnownWays};
pub use learning::{Learning, OddLevel, OwnSpread, Prior, SpreadOf, TestedSide};
pub use lot_code::{LotScheme, SchemeError};
pub use overlay::overlay;
pub use record_file::{write_grinding_log, write_lots, write_sides};
pub use report::{CutLine, Outcome, Pair, PartLine, Planned, Report, report};
pub use standing::{By, Call, Difference, Group, Measure, Standing, standing};
pub use tag::{Claim, Half, Tag};
pub use trace::{Lot, Trace};
pub use unit_slip::{UnitSlip, unit_slips};
pub use variance::Variance;
pub use weigh_in_form::ReadBack;
pub use weighing::{Line, PlannedLine, Spent, WeighIn, Weighing, WeighingError, planned_lines};
