//! A Chromium and the driver that steers it, of the same major version.

use std::env;
use std::path::PathBuf;

use anyhow::{Result, bail};

use super::debian;
use crate::workshop::{Workshop, on_path};

/// Names under which a Chromium is found, in the order of preference.
const BROWSERS: [&str; 5] = [
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
];

/// A browser and its driver.
pub struct Browser {
    /// The browser's program.
    pub chrome: PathBuf,
    /// The driver's program.
    pub chromedriver: PathBuf,
}

/// Finds a browser and its driver, or brings Debian's.
///
/// # Errors
/// Says what is missing, or that the two do not go together.
pub fn ensure(workshop: &Workshop) -> Result<Browser> {
    let found = chrome(workshop).zip(driver(workshop));
    let (chrome, chromedriver) = if let Some(pair) = found {
        pair
    } else {
        if !debian::is_debian() {
            bail!(
                "The browser tests need Chromium or Chrome and the chromedriver of the same \
                 version: put both on PATH, or set CHROME and CHROMEDRIVER to them."
            );
        }
        debian::ensure(
            workshop,
            &["chromium", "chromium-driver"],
            "a browser to test in",
        )?;
        match chrome(workshop).zip(driver(workshop)) {
            Some(pair) => pair,
            None => bail!("Chromium was installed but does not answer `chromium --version`."),
        }
    };
    if chrome.major != chromedriver.major {
        bail!(
            "The browser {} is of version {} and the driver {} of version {}; they must be the \
             same. Set CHROME and CHROMEDRIVER to a pair that is.",
            chrome.program.display(),
            chrome.major,
            chromedriver.program.display(),
            chromedriver.major,
        );
    }
    Ok(Browser {
        chrome: chrome.program,
        chromedriver: chromedriver.program,
    })
}

struct Program {
    program: PathBuf,
    major: u32,
}

fn chrome(workshop: &Workshop) -> Option<Program> {
    match env::var_os("CHROME") {
        Some(set) => program(workshop, PathBuf::from(set)),
        None => BROWSERS
            .iter()
            .find_map(|name| program(workshop, on_path(name)?)),
    }
}

fn driver(workshop: &Workshop) -> Option<Program> {
    let set = env::var_os("CHROMEDRIVER").map(PathBuf::from);
    program(workshop, set.or_else(|| on_path("chromedriver"))?)
}

fn program(workshop: &Workshop, program: PathBuf) -> Option<Program> {
    let major = major_version(&workshop.answer(&program, &["--version"])?)?;
    Some(Program { program, major })
}

/// The first number of the first version in an answer to `--version`.
fn major_version(said: &str) -> Option<u32> {
    said.split_whitespace()
        .filter_map(|word| word.split_once('.'))
        .find_map(|(major, _)| major.parse().ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_are_read_from_what_the_programs_say() {
        let browser = "Chromium 156.0.8078.79 built on Debian GNU/Linux 12 (bookworm)";
        assert_eq!(major_version(browser), Some(156));
        let driver = "ChromeDriver 156.0.8078.79 (f3a1 refs/branch-heads/8078@{#1})";
        assert_eq!(major_version(driver), Some(156));
        assert_eq!(major_version("command not found"), None);
    }
}
