//! Runs every test: on this machine, compiled to wasm in a browser, and with the app in a browser.

use std::fs;
use std::io::{BufRead, BufReader, pipe};
use std::path::PathBuf;
use std::process::Command;

use anyhow::{Context, Result, bail};
use serde_json::{Value, json};

use crate::engines::{self, BROWSER};
use crate::results::{Reader, Suite, failed, table};
use crate::setup::{self, Browser};
use crate::workshop::{Workshop, say};

/// Packages without which a run on this machine would not be worth its name.
const NATIVE: [&str; 15] = [
    "wording",
    "quantity",
    "carcass",
    "pricing",
    "decision",
    "scale",
    "ledger",
    "document",
    "draft",
    "shelf",
    "link",
    "notation",
    "advice",
    "published-checks",
    "xtask",
];

/// The same goldens are held in wasm as on this machine.
const PUBLISHED: &str = "published-checks";

/// Keeps the browser from doing anything but showing the page.
const QUIET_BROWSER: [&str; 7] = [
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
];

/// Runs all suites and prints the totals.
///
/// # Errors
/// When any test failed or any suite did not run.
pub fn test(workshop: &mut Workshop, is_short: bool) -> Result<()> {
    let browsers = setup::for_tests(workshop, is_short)?;

    say("testing on this machine");
    let mut suites = run(
        "native",
        workshop
            .command("cargo")
            .args(["test", "--workspace", "--no-fail-fast"])
            .args(["--exclude", BROWSER]),
    )?;
    suites.extend(absent("native", &NATIVE, &suites));

    say("testing in wasm, in a browser");
    suites.extend(in_wasm(workshop, &browsers.chromium)?);

    suites.extend(engines::test(workshop, &browsers)?);

    println!("\n{}", table(&suites));
    match failed(&suites) {
        0 => Ok(()),
        _ => bail!("Not everything held."),
    }
}

fn in_wasm(workshop: &Workshop, browser: &Browser) -> Result<Vec<Suite>> {
    let mut packages = packages_tested_in_wasm(workshop)?;
    if !packages.iter().any(|package| package == PUBLISHED) {
        packages.push(PUBLISHED.to_owned());
    }
    let mut command = workshop.command("cargo");
    command
        .args(["test", "--tests", "--no-fail-fast"])
        .args(["--target", setup::WASM_TARGET])
        .args(packages.iter().flat_map(|name| ["-p", name]))
        .env(
            "CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER",
            "wasm-bindgen-test-runner",
        )
        .env("CHROMEDRIVER", &browser.chromedriver)
        .env(
            "WASM_BINDGEN_TEST_WEBDRIVER_JSON",
            browser_settings(workshop, browser)?,
        )
        // A test that ran under Node would not show what a phone does.
        .env("WASM_BINDGEN_TEST_ONLY_WEB", "1")
        // Seconds; the default gives up too early on a machine that is busy.
        .env("WASM_BINDGEN_TEST_DRIVER_TIMEOUT", "120")
        .env("WASM_BINDGEN_TEST_TIMEOUT", "300");
    let suites = run("wasm", &mut command)?;
    let absent = absent(
        "wasm",
        &packages.iter().map(String::as_str).collect::<Vec<_>>(),
        &suites,
    );
    Ok(suites.into_iter().chain(absent).collect())
}

/// Runs a command that tests, shows its output as it comes, and reads the results from it.
///
/// # Errors
/// When it cannot be started.
pub fn run(stage: &str, command: &mut Command) -> Result<Vec<Suite>> {
    // Both streams through one pipe: which program a result belongs to is told by their order.
    let (output, input) = pipe().context("No pipe could be made.")?;
    let mut child = command
        .stdout(input.try_clone()?)
        .stderr(input)
        .spawn()
        .context("cargo could not be started.")?;
    // The command holds its own copies of the pipe's end; as long as it does, the pipe stays open.
    command.stdout(std::process::Stdio::null());
    command.stderr(std::process::Stdio::null());
    let mut reader = Reader::new(stage);
    let mut output = BufReader::new(output);
    let mut line = Vec::new();
    while output.read_until(b'\n', &mut line)? > 0 {
        let text = String::from_utf8_lossy(&line);
        print!("{text}");
        reader.line(&text);
        line.clear();
    }
    let succeeded = child.wait()?.success();
    Ok(reader.finish(succeeded))
}

/// A failure for each package of which no test ran, unless it is known already that the stage broke.
pub fn absent(stage: &str, packages: &[&str], suites: &[Suite]) -> Vec<Suite> {
    if suites.iter().any(|suite| suite.name == stage) {
        return Vec::new();
    }
    packages
        .iter()
        .filter(|package| {
            let name = format!("{stage} · {package}");
            let spaced = format!("{name} ");
            !suites.iter().any(|suite| {
                (suite.name == name || suite.name.starts_with(&spaced))
                    && suite.passed + suite.failed > 0
            })
        })
        .map(|package| Suite::broken(&format!("{stage} · {package}"), "has no test that ran"))
        .collect()
}

/// The packages that bring tests for wasm, told by what they depend on.
fn packages_tested_in_wasm(workshop: &Workshop) -> Result<Vec<String>> {
    let text = workshop
        .answer("cargo", &["metadata", "--no-deps", "--format-version", "1"])
        .context("`cargo metadata` failed; is every Cargo.toml in order?")?;
    let metadata: Value = serde_json::from_str(&text)?;
    Ok(depending_on(&metadata, "wasm-bindgen-test"))
}

fn depending_on(metadata: &Value, dependency: &str) -> Vec<String> {
    let packages = metadata["packages"].as_array();
    packages
        .into_iter()
        .flatten()
        .filter(|package| {
            let dependencies = package["dependencies"].as_array();
            dependencies
                .into_iter()
                .flatten()
                .any(|known| known["name"] == dependency)
        })
        .filter_map(|package| package["name"].as_str().map(str::to_owned))
        .collect()
}

/// Writes down for the wasm test runner which browser to start and how.
fn browser_settings(workshop: &Workshop, browser: &Browser) -> Result<PathBuf> {
    let folder = workshop.target().join("webdriver");
    let file = folder.join("webdriver.json");
    let settings = json!({
        "goog:chromeOptions": {
            "binary": browser.chrome,
            "args": QUIET_BROWSER,
        }
    });
    fs::create_dir_all(&folder)
        .and_then(|()| fs::write(&file, settings.to_string()))
        .with_context(|| format!("{} cannot be written.", file.display()))?;
    Ok(file)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn suite(name: &str, passed: u64) -> Suite {
        Suite {
            name: name.to_owned(),
            passed,
            failed: 0,
            ignored: 0,
            remark: None,
            left_out: Vec::new(),
        }
    }

    #[test]
    fn a_package_without_a_test_that_ran_is_a_failure() {
        let suites = [
            suite("native · quantity", 0),
            suite("native · quantity docs", 2),
            suite("native · carcass", 0),
            suite("native · carcass-more", 7),
        ];
        let names: Vec<_> = absent("native", &["quantity", "carcass", "pricing"], &suites)
            .into_iter()
            .map(|suite| (suite.name, suite.failed))
            .collect();
        assert_eq!(
            names,
            [
                ("native · carcass".to_owned(), 1),
                ("native · pricing".to_owned(), 1)
            ]
        );
    }

    #[test]
    fn a_broken_stage_is_told_once() {
        let broken = [Suite::broken("wasm", "did not compile")];
        assert_eq!(absent("wasm", &["quantity"], &broken), []);
    }

    #[test]
    fn wasm_tests_are_found_by_their_dependency() {
        let metadata = json!({ "packages": [
            { "name": "a", "dependencies": [{ "name": "wasm-bindgen-test", "kind": "dev" }] },
            { "name": "b", "dependencies": [{ "name": "wasm-bindgen", "kind": null }] },
        ]});
        assert_eq!(depending_on(&metadata, "wasm-bindgen-test"), ["a"]);
    }

    #[test]
    fn output_and_outcome_of_a_call_are_both_read() {
        let mut lines = Command::new("sh");
        lines.args([
            "-c",
            "echo 'Running unittests src/lib.rs (deps/q-1)' >&2; \
             echo 'test result: ok. 4 passed; 0 failed; 0 ignored'; exit 3",
        ]);
        if cfg!(unix) {
            let suites = run("stage", &mut lines).expect("sh runs");
            assert_eq!(suites.len(), 2, "the exit code is a failure of its own");
            assert_eq!((suites[0].passed, suites[1].failed), (4, 1));
        }
    }
}
