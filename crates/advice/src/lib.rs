//! Questions about a plan, answered ready to be shown.
//!
//! A page asks with a [`Request`]: a panel, the plan, and what was typed into
//! the panel. A [`Desk`] works it off in small steps and gives [`Answer`]s made
//! of [`Block`]s: sentences, figures, tables, charts. All that a page has to do
//! is to draw them, so a page stays small and the work can stand in a worker
//! of its own.

mod answer;
mod behind;
mod block;
mod board_file;
mod desk;
mod field_name;
mod form;
mod grind;
mod inputs;
mod methods;
mod panels;
pub mod printed;
mod question;
mod request;
mod saved_file;
mod share;
pub mod steps;
mod unfit;
pub mod wire;
mod worked_out;
mod written;

pub use answer::{Answer, Control, ControlKind, Write};
pub use block::{Bar, Block, Cell, Column, Figure, GridRow, Tone};
pub use desk::Desk;
pub use grind::lacking;
pub use question::Question;
pub use request::{Panel, Request};
pub use written::blocks;
