//! A Firefox and the driver that steers it.

use std::env;
use std::path::PathBuf;

use anyhow::{Result, bail};

use super::{debian, tools};
use crate::workshop::{Workshop, on_path};

/// Names under which a Firefox is found, in the order of preference.
const BROWSERS: [&str; 2] = ["firefox-esr", "firefox"];

/// A Firefox and its driver.
pub struct Firefox {
    /// The browser's program.
    pub program: PathBuf,
    /// The driver's program.
    pub driver: PathBuf,
}

/// Finds Firefox or brings Debian's, and brings its driver.
///
/// # Errors
/// Says what is missing.
pub fn ensure(workshop: &mut Workshop) -> Result<Firefox> {
    let program = if let Some(found) = firefox(workshop) {
        found
    } else {
        if !debian::is_debian() {
            bail!("The browser tests need Firefox: put it on PATH, or set FIREFOX to it.");
        }
        debian::ensure(workshop, &["firefox-esr"], "a second browser to test in")?;
        match firefox(workshop) {
            Some(found) => found,
            None => bail!("Firefox was installed but does not answer `firefox-esr --version`."),
        }
    };
    let driver = match env::var_os("GECKODRIVER") {
        Some(set) => PathBuf::from(set),
        None => tools::ensure_geckodriver(workshop)?,
    };
    Ok(Firefox { program, driver })
}

/// The Firefox named by the environment, else the one on `PATH`, if it answers.
fn firefox(workshop: &Workshop) -> Option<PathBuf> {
    let found = match env::var_os("FIREFOX") {
        Some(set) => PathBuf::from(set),
        None => BROWSERS.into_iter().find_map(on_path)?,
    };
    workshop.answer(&found, &["--version"]).map(|_| found)
}
