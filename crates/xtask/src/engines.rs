//! Tests the app in three browsers of different make: what holds in one need not in another.

use anyhow::Result;

use crate::bundle;
use crate::results::Suite;
use crate::setup::{self, Browsers};
use crate::suites::{absent, run};
use crate::workshop::{Workshop, say};

/// What a person does, done in a browser.
pub const BROWSER: &str = "browser-tests";

/// The tests of that package which run in any browser.
const APP: &str = "app";

/// What is done in `WebKit`: the app is loaded, typed into, saved, handed on, used offline.
const IN_WEBKIT: [&str; 7] = [
    "counter::",
    "keeping::",
    "links::",
    "offline::",
    "saved::",
    "scale::",
    "units::",
];

/// Builds the app and runs its tests in one browser after the other.
///
/// # Errors
/// When the tests cannot be started.
pub fn test(workshop: &mut Workshop, browsers: &Browsers) -> Result<Vec<Suite>> {
    let dist = match bundle::build(workshop) {
        Ok(dist) => dist,
        Err(error) => {
            say(&format!("{error:#}"));
            return Ok(vec![Suite::broken("chromium", "the app was not built")]);
        }
    };
    let axe = setup::ensure_axe(workshop)?;
    let mut suites = Vec::new();
    let mut stage = |name: &str, packages: &[&str], command: &mut std::process::Command| {
        say(&format!("testing the app in a browser: {name}"));
        let command = command
            .env("SIDEWORTH_DIST", &dist)
            .env("SIDEWORTH_BROWSER", name)
            .env("AXE", &axe)
            .envs(browsers.scanner.iter().map(|found| ("PDFTOPPM", found)));
        let ran = run(name, command)?;
        suites.extend(absent(name, packages, &ran));
        suites.extend(ran);
        Ok::<_, anyhow::Error>(())
    };

    let all = ["test", "--no-fail-fast", "-p", BROWSER];
    let short = ["--lib", "--bins", "--test", APP];
    let without_kills: &[&str] = if browsers.others.is_some() {
        &[]
    } else {
        &short
    };
    stage(
        "chromium",
        &[BROWSER],
        workshop
            .command("cargo")
            .args(all)
            .args(without_kills)
            .env("CHROME", &browsers.chromium.chrome)
            .env("CHROMEDRIVER", &browsers.chromium.chromedriver),
    )?;
    let Some(others) = &browsers.others else {
        return Ok(suites);
    };
    let app = [&all[..], &["--test", APP]].concat();
    stage(
        "firefox",
        &[APP],
        workshop
            .command("cargo")
            .args(&app)
            .env("FIREFOX", &others.firefox.program)
            .env("GECKODRIVER", &others.firefox.driver),
    )?;
    match &others.webkit {
        Some(webkit) => stage(
            "webkit",
            &[APP],
            workshop
                .command(&webkit.screen)
                .args(["-a", "-s", "-screen 0 1600x1200x24", "cargo"])
                .args(&app)
                .arg("--")
                .args(IN_WEBKIT)
                .env("MINIBROWSER", &webkit.program)
                .env("WEBKITDRIVER", &webkit.driver),
        )?,
        None => suites.push(Suite::left_out(
            "webkit",
            "this machine has no WebKitWebDriver; on Debian it would be brought",
        )),
    }
    Ok(suites)
}
