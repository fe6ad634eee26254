//! Brings what a machine lacks. Every step looks first and does nothing where nothing is missing.

mod browser;
mod debian;
mod tools;
mod wasm_target;

use anyhow::Result;

pub use browser::Browser;
pub use tools::WasmOpt;

use crate::workshop::Workshop;

/// Brings the wasm target alone: enough to compile for the browser, not to bundle.
///
/// # Errors
/// A step that the machine does not allow says what to do by hand.
pub fn for_compiling(workshop: &mut Workshop) -> Result<()> {
    wasm_target::ensure(workshop)
}

/// Brings what building the app takes. Without npm there is no `WasmOpt`, and the app is larger.
///
/// # Errors
/// A step that the machine does not allow says what to do by hand.
pub fn for_building(workshop: &mut Workshop) -> Result<Option<WasmOpt>> {
    for_compiling(workshop)?;
    tools::ensure_cargo_tools(workshop)?;
    tools::ensure_wasm_opt(workshop)
}

/// Brings what building and testing take.
///
/// # Errors
/// A step that the machine does not allow says what to do by hand.
pub fn for_tests(workshop: &mut Workshop) -> Result<Browser> {
    for_building(workshop)?;
    browser::ensure(workshop)
}
