//! What a test may need of a browser that not every driver gives.

use std::io::Write;
use std::{io, thread};

use crate::Make;

/// What a test may need.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Feature {
    /// A script that runs before the page does ([`crate::Visit::before`]).
    ScriptBeforeLoad,
    /// A screen of exactly the size that was asked for.
    ExactScreen,
    /// A light, a dark and a paper look on request.
    Looks,
    /// Less motion and forced colours on request ([`crate::Page::media`]).
    Media,
    /// Letters as large as a person sets them in the browser.
    Letters,
    /// What a printer would get.
    Print,
    /// What the browser's console was told.
    Console,
}

impl Feature {
    /// Why a browser does not give it; `None` where it does.
    pub const fn lacking(self, make: Make) -> Option<&'static str> {
        match (make, self) {
            (Make::Firefox, Self::Media) => {
                Some("its driver cannot ask for less motion or forced colours")
            }
            (Make::Chromium | Make::Firefox, _) => None,
            (Make::WebKit, _) => Some(match self {
                Self::ScriptBeforeLoad => "its driver runs no script before the page",
                Self::ExactScreen => "its windows are at least 447 pixels wide",
                Self::Looks => "its driver cannot ask for dark or paper",
                Self::Media => "its driver cannot ask for less motion or forced colours",
                Self::Letters => "its driver cannot set the size of letters",
                Self::Print => "its driver does not print",
                Self::Console => "its driver does not tell what is on the console",
            }),
        }
    }
}

/// Whether the browser in use gives all of this. If not, the test is to leave off at once: a line
/// with its name and the reason goes out, by which `cargo xtask test` counts it as ignored and lists
/// it at the end.
#[must_use]
pub fn needs(features: &[Feature]) -> bool {
    let make = Make::from_environment();
    let lacking = features.iter().find_map(|feature| feature.lacking(make));
    let Some(reason) = lacking else {
        return true;
    };
    leave_out(reason);
    false
}

/// Says that the test in hand is left out, and why.
pub fn leave_out(reason: &str) {
    let thread = thread::current();
    let test = thread.name().unwrap_or("a test");
    // Past what the test harness holds back of tests that pass; in one piece and on a line of its
    // own, whatever stands before it.
    let line = format!("\nleft out: {test}: {reason}\n");
    let _ = io::stdout().lock().write_all(line.as_bytes());
}
