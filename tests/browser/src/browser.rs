//! Which browser a visit is made with, and how its driver is told to start it.

use std::env;
use std::net::{Ipv4Addr, TcpListener};
use std::path::PathBuf;

use anyhow::{Context, Result, bail};
use serde_json::{Value, json};
use thirtyfour::Capabilities;

use crate::Screen;

/// Keeps Chromium from doing anything but showing the page.
pub(crate) const QUIET: [&str; 7] = [
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
];

/// The makes of browser.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Make {
    /// Chromium, Chrome and their kin.
    Chromium,
    /// Firefox.
    Firefox,
    /// The small browser of `WebKitGTK`.
    WebKit,
}

impl Make {
    /// The make named by the environment; Chromium where it names none.
    ///
    /// # Panics
    /// When it names one that is not known: tests must never run elsewhere than was asked.
    pub fn from_environment() -> Self {
        let Some(name) = env::var_os("SIDEWORTH_BROWSER") else {
            return Self::Chromium;
        };
        [Self::Chromium, Self::Firefox, Self::WebKit]
            .into_iter()
            .find(|make| name == make.name())
            .unwrap_or_else(|| panic!("SIDEWORTH_BROWSER is chromium, firefox or webkit"))
    }

    /// Its name, as in the environment.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Chromium => "chromium",
            Self::Firefox => "firefox",
            Self::WebKit => "webkit",
        }
    }
}

/// A browser with its driver.
#[derive(Clone, Debug)]
pub struct Browser {
    /// Which.
    pub make: Make,
    /// The browser's program; the driver's own choice without it.
    pub program: Option<PathBuf>,
    /// The driver's program.
    pub driver: PathBuf,
}

/// How a driver is started.
pub(crate) struct Start {
    /// What it is called with.
    pub arguments: Vec<String>,
    /// What it finds in the environment besides what is there.
    pub environment: &'static [(&'static str, &'static str)],
    /// The port that it will listen on; it says which where none is given.
    pub port: Option<u16>,
}

impl Browser {
    /// The browser and the driver named by the environment, else those on `PATH`.
    pub fn from_environment() -> Self {
        let make = Make::from_environment();
        let (program, driver, otherwise) = match make {
            Make::Chromium => ("CHROME", "CHROMEDRIVER", "chromedriver"),
            Make::Firefox => ("FIREFOX", "GECKODRIVER", "geckodriver"),
            Make::WebKit => ("MINIBROWSER", "WEBKITDRIVER", "WebKitWebDriver"),
        };
        let set = |name: &str| env::var_os(name).map(PathBuf::from);
        Self {
            make,
            program: set(program),
            driver: set(driver).unwrap_or_else(|| PathBuf::from(otherwise)),
        }
    }

    /// How its driver is started so that it listens on a port that nobody else has.
    ///
    /// # Errors
    /// When this machine has no free port.
    pub(crate) fn start(&self) -> Result<Start> {
        let words = |words: &[&str]| words.iter().map(|&word| word.to_owned()).collect();
        Ok(match self.make {
            Make::Chromium => Start {
                arguments: words(&["--port=0"]),
                environment: &[],
                port: None,
            },
            Make::Firefox => Start {
                arguments: words(&[
                    "--port=0",
                    "--websocket-port=0",
                    // For what a page may not do: see `page/firefox.rs`.
                    "--allow-system-access",
                ]),
                environment: &[],
                port: None,
            },
            Make::WebKit => {
                // It takes no zero for an answer.
                let free = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
                let port = free.local_addr()?.port();
                Start {
                    arguments: vec![format!("--port={port}")],
                    environment: &[
                        // Its own walls cannot be put up within a container's.
                        ("WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS", "1"),
                        // It takes the language of its pages from here.
                        ("LANG", "en_US.UTF-8"),
                        ("LANGUAGE", "en_US"),
                    ],
                    port: Some(port),
                }
            }
        })
    }

    /// The port in a line that the driver prints, once it says that it listens.
    pub(crate) fn port(&self, line: &str) -> Option<u16> {
        match self.make {
            Make::Chromium => {
                let (_, port) = line.split_once("started successfully on port ")?;
                port.trim_end_matches('.').parse().ok()
            }
            Make::Firefox => {
                let (_, address) = line.split_once("Listening on ")?;
                let (_, port) = address.trim_end().rsplit_once(':')?;
                port.parse().ok()
            }
            Make::WebKit => None,
        }
    }

    /// What a session on this screen asks of the driver.
    ///
    /// # Errors
    /// A program whose path is no text cannot be named to the driver.
    pub(crate) fn capabilities(&self, screen: Screen) -> Result<Capabilities> {
        let mut wanted = match self.make {
            Make::Chromium => json!({
                "browserName": "chrome",
                "goog:chromeOptions": {
                    "args": QUIET,
                    "mobileEmulation": { "deviceMetrics": {
                        "width": screen.width(),
                        "height": screen.height(),
                        "pixelRatio": screen.density(),
                        "touch": screen.is_touched(),
                        "mobile": screen.is_touched(),
                    }},
                },
                "goog:loggingPrefs": { "browser": "ALL" },
            }),
            Make::Firefox => json!({
                "browserName": "firefox",
                "moz:firefoxOptions": {
                    "args": ["-headless"],
                    "prefs": {
                        "intl.accept_languages": "en-US, en",
                        "dom.w3c_touch_events.enabled": i32::from(screen.is_touched()),
                        "ui.useOverlayScrollbars": i32::from(screen.is_touched()),
                        // What it would do besides showing the page.
                        "app.normandy.enabled": false,
                        "browser.newtabpage.enabled": false,
                        "dom.ipc.processPrelaunch.enabled": false,
                        "messaging-system.rsexperimentloader.enabled": false,
                    },
                },
            }),
            Make::WebKit => json!({
                "webkitgtk:browserOptions": { "args": ["--automation"] },
            }),
        };
        if let Some(program) = &self.program {
            let path = program.to_str().context("The browser's path is no text.")?;
            let options = match self.make {
                Make::Chromium => "goog:chromeOptions",
                Make::Firefox => "moz:firefoxOptions",
                Make::WebKit => "webkitgtk:browserOptions",
            };
            wanted[options]["binary"] = Value::from(path);
        }
        match wanted {
            Value::Object(wanted) => Ok(Capabilities::from(wanted)),
            _ => bail!("Capabilities are a JSON object."),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_port_is_read_from_the_line_that_names_it() {
        let port = |make, line| {
            let browser = Browser {
                make,
                program: None,
                driver: PathBuf::new(),
            };
            browser.port(line)
        };
        let starting = "Starting ChromeDriver 156.0.8078.79 (a21ce95c) on port 0";
        assert_eq!(port(Make::Chromium, starting), None);
        let started = "ChromeDriver was started successfully on port 42607.";
        assert_eq!(port(Make::Chromium, started), Some(42607));
        let listening = "1795712931012\tgeckodriver\tINFO\tListening on 127.0.0.1:42607";
        assert_eq!(port(Make::Firefox, listening), Some(42607));
        assert_eq!(port(Make::Firefox, starting), None);
    }
}
