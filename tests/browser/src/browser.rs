//! Which browser a visit is made with, and how its driver is told to start it.

use std::env;
use std::path::PathBuf;

use anyhow::{Context, Result};
use serde_json::{Value, json};
use thirtyfour::Capabilities;

use crate::Screen;

/// Keeps Chromium from doing anything but showing the page.
const QUIET: [&str; 7] = [
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
];

/// A browser with its driver.
#[derive(Clone, Debug)]
pub enum Browser {
    /// Chromium, Chrome and their kin.
    Chromium {
        /// The browser's program; the driver's own choice without it.
        program: Option<PathBuf>,
        /// The driver's program.
        driver: PathBuf,
    },
}

impl Browser {
    /// The browser named by the environment, else the one on `PATH`.
    pub fn from_environment() -> Self {
        let set = |name: &str| env::var_os(name).map(PathBuf::from);
        Self::Chromium {
            program: set("CHROME"),
            driver: set("CHROMEDRIVER").unwrap_or_else(|| PathBuf::from("chromedriver")),
        }
    }

    /// The driver's program and what it is called with, so that it listens on a port of its own
    /// choice.
    pub(crate) fn driver(&self) -> (&PathBuf, &'static [&'static str]) {
        match self {
            Self::Chromium { driver, .. } => (driver, &["--port=0"]),
        }
    }

    /// The port in a line that the driver prints, once it says that it listens.
    pub(crate) fn port(&self, line: &str) -> Option<u16> {
        match self {
            Self::Chromium { .. } => {
                let (_, port) = line.split_once("started successfully on port ")?;
                port.trim_end_matches('.').parse().ok()
            }
        }
    }

    /// What a session on this screen asks of the driver.
    ///
    /// # Errors
    /// A program whose path is no text cannot be named to the driver.
    pub(crate) fn capabilities(&self, screen: Screen) -> Result<Capabilities> {
        let wanted = match self {
            Self::Chromium { program, .. } => {
                let mut options = json!({
                    "args": QUIET,
                    "mobileEmulation": { "deviceMetrics": {
                        "width": screen.width(),
                        "height": screen.height(),
                        "pixelRatio": screen.density(),
                        "touch": screen.is_touched(),
                        "mobile": screen.is_touched(),
                    }},
                });
                if let Some(program) = program {
                    let path = program.to_str().context("CHROME is no plain text.")?;
                    options["binary"] = Value::from(path);
                }
                json!({
                    "browserName": "chrome",
                    "goog:chromeOptions": options,
                    "goog:loggingPrefs": { "browser": "ALL" },
                })
            }
        };
        match wanted {
            Value::Object(wanted) => Ok(Capabilities::from(wanted)),
            _ => anyhow::bail!("Capabilities are a JSON object."),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_port_is_read_from_the_line_that_names_it() {
        let chromium = Browser::Chromium {
            program: None,
            driver: PathBuf::new(),
        };
        let starting = "Starting ChromeDriver 156.0.8078.79 (a21ce95c) on port 0";
        assert_eq!(chromium.port(starting), None);
        let started = "ChromeDriver was started successfully on port 42607.";
        assert_eq!(chromium.port(started), Some(42607));
    }
}
