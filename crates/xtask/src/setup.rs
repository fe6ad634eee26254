//! Brings what a machine lacks. Every step looks first and does nothing where nothing is missing.

mod browser;
mod debian;
mod firefox;
pub mod lean_std;
mod linters;
mod scanner;
mod tools;
mod wasm_target;
mod webkit;

use std::path::PathBuf;
use std::process::Command;

use anyhow::Result;

pub use browser::Browser;
pub use firefox::Firefox;
pub use tools::{Shrinkers, ensure_axe, ensure_lighthouse};
pub use wasm_target::TARGET as WASM_TARGET;
pub use webkit::WebKit;

use crate::workshop::Workshop;

/// Brings what checking takes, and says how to call the formatter.
///
/// # Errors
/// A step that the machine does not allow says what to do by hand.
pub fn for_checking(workshop: &mut Workshop) -> Result<Command> {
    wasm_target::ensure(workshop)?;
    linters::ensure_clippy(workshop)?;
    linters::formatter(workshop)
}

/// Brings what building the app takes. Without npm there are no `Shrinkers`, and the app is larger.
///
/// # Errors
/// A step that the machine does not allow says what to do by hand.
pub fn for_building(workshop: &mut Workshop) -> Result<Option<Shrinkers>> {
    wasm_target::ensure(workshop)?;
    tools::ensure_cargo_tools(workshop)?;
    tools::ensure_shrinkers(workshop)
}

/// Brings what fuzzing takes.
///
/// # Errors
/// A step that the machine does not allow says what to do by hand.
pub fn for_fuzzing(workshop: &mut Workshop) -> Result<()> {
    tools::ensure_cargo_fuzz(workshop)?;
    if workshop.answer("c++", &["--version"]).is_none() {
        debian::ensure(workshop, &["g++"], "a compiler for the fuzzer's own C++")?;
    }
    Ok(())
}

/// Brings what looking at a built app takes: the program of a browser.
///
/// # Errors
/// A step that the machine does not allow says what to do by hand.
pub fn for_looking(workshop: &Workshop) -> Result<PathBuf> {
    browser::ensure(workshop).map(|browser| browser.chrome)
}

/// Brings what building and measuring take.
///
/// # Errors
/// A step that the machine does not allow says what to do by hand.
pub fn for_measuring(workshop: &mut Workshop) -> Result<Browser> {
    for_building(workshop)?;
    browser::ensure(workshop)
}

/// The browsers that the app is tested in.
pub struct Browsers {
    /// Chromium, in which also the wasm tests run.
    pub chromium: Browser,
    /// The others, where they are wanted.
    pub others: Option<Others>,
    /// What makes pictures of what they print, where there is such a thing.
    pub scanner: Option<PathBuf>,
}

/// Browsers of another make than Chromium.
pub struct Others {
    /// Firefox.
    pub firefox: Firefox,
    /// `WebKit`, where there is one for this machine.
    pub webkit: Option<WebKit>,
}

/// Brings what building and testing take; Chromium alone of the browsers, where
/// the tests are to be short.
///
/// # Errors
/// A step that the machine does not allow says what to do by hand.
pub fn for_tests(workshop: &mut Workshop, is_short: bool) -> Result<Browsers> {
    let chromium = for_measuring(workshop)?;
    let others = if is_short {
        None
    } else {
        Some(Others {
            firefox: firefox::ensure(workshop)?,
            webkit: webkit::ensure(workshop)?,
        })
    };
    Ok(Browsers {
        chromium,
        others,
        scanner: scanner::ensure(workshop)?,
    })
}
