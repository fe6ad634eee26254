//! What a shop keeps of the sides it has cut, and what the page is shown of
//! it: the weigh-in at the block, closed tests, own yields, suppliers, and the
//! record of lots.
//!
//! The worker holds a [`Ledger`]. A page hands it what the browser keeps, tells
//! it what was typed and which button was pressed ([`wire`]), and gets back a
//! piece of the page, what to keep from now on, and what changed in its fields.
//! Dates, times and the draft come with every request; nothing here reads a
//! clock or storage.

#![forbid(unsafe_code)]

mod archive;
mod batch_form;
mod batch_lots;
mod bench;
mod block_time;
mod bought;
mod bought_entries;
mod bought_kept;
mod cautions;
mod closing;
mod controls;
mod entries;
mod grinding;
mod joining;
mod kept;
mod ledger;
mod own_spread;
mod own_yields;
mod paper;
mod printing;
mod record;
mod record_paper;
mod report;
mod settings;
mod stamp;
mod standing;
mod storage;
mod tag_correction;
mod tag_form;
mod tests_kept;
mod trace;
mod unexplained;
mod view;
mod visit;
mod waiting;
mod weigh_in;
mod weighing_lines;
pub mod wire;

pub use kept::{PREFIX, YIELDS};
pub use ledger::{IN_VIEW, Ledger};
pub use storage::{TAKE_IN, would_take};
