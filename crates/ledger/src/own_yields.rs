//! Stub.

use advice::steps::Steps;

use crate::ledger::Ledger;
use crate::visit::{Outcome, Visit};

/// Does what was asked.
pub(crate) fn press(_: &mut Ledger, _: &mut Visit, _: &str, _: &str) -> Outcome {
    None
}

/// The view.
pub(crate) fn written(_: &Ledger, _: &Visit, _: &mut Steps) {}
