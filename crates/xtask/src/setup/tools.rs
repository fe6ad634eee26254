//! The programs that turn compiled wasm into a web page's files: Trunk, wasm-bindgen, wasm-opt,
//! esbuild.
//!
//! Each lies in a folder of its own, named with its version, so that two checkouts with different
//! needs can share the cache.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail, ensure};

use crate::workshop::{Workshop, run, say};

/// The newest Trunk that the oldest supported compiler builds.
const TRUNK: &str = "0.21.14";

/// The newest wasm-opt on npm; Debian's is too old for what the compiler emits.
const BINARYEN: &str = "132";

/// The esbuild that shrinks scripts and style sheets.
const ESBUILD: &str = "0.28.2";

/// The axe-core that looks over the pages.
const AXE: &str = "4.14.1";

/// The Lighthouse that judges the app.
const LIGHTHOUSE: &str = "12.2.1";

/// What compiles and starts a fuzzer.
const CARGO_FUZZ: &str = "0.13.2";

/// The newest driver of Firefox that the oldest supported compiler builds.
const GECKODRIVER: &str = "0.37.1";

/// The programs that make the files of the app smaller.
pub struct Shrinkers {
    /// For wasm: wasm-opt, a script that Node runs.
    pub wasm: PathBuf,
    /// For scripts and style sheets: esbuild.
    pub text: PathBuf,
}

/// Sees to it that Trunk and wasm-bindgen are there in the right versions, and that the workshop
/// finds them.
///
/// # Errors
/// When cargo cannot build them.
pub fn ensure_cargo_tools(workshop: &mut Workshop) -> Result<()> {
    // Without its default features Trunk cannot download anything, and here it must not.
    ensure_cargo_tool(
        workshop,
        "trunk",
        "trunk",
        TRUNK,
        &["--locked", "--no-default-features"],
    )?;

    let lock = fs::read_to_string(workshop.root.join("Cargo.lock"))
        .context("Cargo.lock is missing: run `cargo generate-lockfile`.")?;
    let version = locked_version(&lock, "wasm-bindgen")
        .context("Cargo.lock names no wasm-bindgen, so the app's glue cannot be made.")?;
    // Not --locked: the lock that comes with it names a crate version that was withdrawn.
    ensure_cargo_tool(workshop, "wasm-bindgen-cli", "wasm-bindgen", version, &[])
}

/// Sees to it that `cargo fuzz` is there, and that the workshop finds it.
///
/// # Errors
/// When cargo cannot build it.
pub fn ensure_cargo_fuzz(workshop: &mut Workshop) -> Result<()> {
    let package = "cargo-fuzz";
    ensure_cargo_tool(workshop, package, package, CARGO_FUZZ, &["--locked"])
}

/// The driver of Firefox.
///
/// # Errors
/// When cargo cannot build it.
pub fn ensure_geckodriver(workshop: &mut Workshop) -> Result<PathBuf> {
    let name = "geckodriver";
    ensure_cargo_tool(workshop, name, name, GECKODRIVER, &["--locked"])?;
    let folder = format!("{name}-{GECKODRIVER}");
    let programs = workshop.cache.join("tools").join(folder).join("bin");
    Ok(programs.join(format!("{name}{}", std::env::consts::EXE_SUFFIX)))
}

fn ensure_cargo_tool(
    workshop: &mut Workshop,
    package: &str,
    program: &str,
    version: &str,
    options: &[&str],
) -> Result<()> {
    let folder = workshop
        .cache
        .join("tools")
        .join(format!("{package}-{version}"));
    let programs = folder.join("bin");
    let is_there = |workshop: &Workshop| {
        workshop
            .answer(programs.join(program), &["--version"])
            .is_some_and(|said| says_version(&said, version))
    };
    if !is_there(workshop) {
        say(&format!(
            "building {package} {version} (a few minutes, once)"
        ));
        let bench = workshop.cache.join("tool-build").join(package);
        run(
            workshop
                .command("cargo")
                .current_dir(std::env::temp_dir())
                .args(["install", package, "--version", version, "--force"])
                .args(options)
                .arg("--root")
                .arg(&folder)
                // Kept until it is done, so that a run that was cut short goes on where it was.
                .env("CARGO_TARGET_DIR", &bench)
                // A tool that runs for a second need not be optimised for minutes.
                .env("CARGO_PROFILE_RELEASE_LTO", "off")
                .env("CARGO_PROFILE_RELEASE_CODEGEN_UNITS", "16")
                .env("CARGO_PROFILE_RELEASE_OPT_LEVEL", "1")
                .env("CARGO_PROFILE_RELEASE_DEBUG", "0"),
            &format!("{package} could not be built; is the crate registry within reach?"),
        )?;
        if !is_there(workshop) {
            bail!(
                "{package} was built but does not answer as version {version}; remove {} and \
                 start again.",
                folder.display()
            );
        }
        fs::remove_dir_all(bench)?;
    }
    workshop.program_folders.push(programs);
    Ok(())
}

/// Sees to it that the shrinkers are there, where there is npm to bring them.
///
/// # Errors
/// When npm is there but fails.
pub fn ensure_shrinkers(workshop: &Workshop) -> Result<Option<Shrinkers>> {
    let wasm = ensure_npm_tool(workshop, "binaryen", BINARYEN, "bin/wasm-opt", Some("node"))?;
    let text = ensure_npm_tool(workshop, "esbuild", ESBUILD, "bin/esbuild", None)?;
    let shrinkers = wasm.zip(text).map(|(wasm, text)| Shrinkers { wasm, text });
    if shrinkers.is_none() {
        say("there is no npm to bring what shrinks the app: it will be larger than it need be");
    }
    Ok(shrinkers)
}

/// What looks over a page for what keeps people out of it, for the browser tests: axe-core.
///
/// # Errors
/// When npm is not there or fails.
pub fn ensure_axe(workshop: &Workshop) -> Result<PathBuf> {
    let folder = workshop.cache.join("tools").join(format!("axe-core-{AXE}"));
    let script = folder.join("node_modules/axe-core/axe.min.js");
    if !script.is_file() {
        let brought = bring_by_npm(workshop, "axe-core", AXE, &folder)?;
        ensure!(
            brought && script.is_file(),
            "The browser tests need npm to bring axe-core."
        );
    }
    Ok(script)
}

/// What judges a page as a phone gets it: Lighthouse, a script that Node runs.
///
/// # Errors
/// When npm is not there or fails.
pub fn ensure_lighthouse(workshop: &Workshop) -> Result<PathBuf> {
    let program = "cli/index.js";
    ensure_npm_tool(workshop, "lighthouse", LIGHTHOUSE, program, Some("node"))?
        .context("Judging the app needs npm to bring Lighthouse.")
}

/// The program of an npm package, brought where it is missing; `None` where there is no npm.
fn ensure_npm_tool(
    workshop: &Workshop,
    package: &str,
    version: &str,
    program: &str,
    runs_on: Option<&str>,
) -> Result<Option<PathBuf>> {
    let folder = workshop
        .cache
        .join("tools")
        .join(format!("{package}-{version}"));
    let program = folder.join("node_modules").join(package).join(program);
    let is_there = || {
        let path = program.to_str()?;
        let said = match runs_on {
            Some(runs_on) => workshop.answer(runs_on, &[path, "--version"])?,
            None => workshop.answer(path, &["--version"])?,
        };
        says_version(&said, version).then_some(())
    };
    if is_there().is_none() {
        if !bring_by_npm(workshop, package, version, &folder)? {
            return Ok(None);
        }
        is_there().with_context(|| {
            format!(
                "npm brought {package}, but it does not answer as version {version}; remove {} \
                 and start again.",
                folder.display()
            )
        })?;
    }
    Ok(Some(program))
}

/// Brings an npm package into a folder; whether there is an npm to bring it.
fn bring_by_npm(workshop: &Workshop, package: &str, version: &str, folder: &Path) -> Result<bool> {
    let npm = if cfg!(windows) { "npm.cmd" } else { "npm" };
    if workshop.answer(npm, &["--version"]).is_none() {
        return Ok(false);
    }
    say(&format!("bringing {package} {version} with npm"));
    fs::create_dir_all(folder)
        .with_context(|| format!("The folder {} cannot be made.", folder.display()))?;
    run(
        workshop
            .command(npm)
            .current_dir(folder)
            .args(["install", "--no-save", "--no-audit", "--no-fund"])
            .arg("--prefix")
            .arg(folder)
            .arg(format!("{package}@{version}")),
        "Is the npm registry within reach?",
    )?;
    Ok(true)
}

/// The version that a Cargo.lock holds a package to.
fn locked_version<'a>(lock: &'a str, package: &str) -> Option<&'a str> {
    let name = format!("name = \"{package}\"");
    let mut lines = lock.lines();
    lines.find(|line| *line == name)?;
    lines
        .next()?
        .strip_prefix("version = \"")?
        .strip_suffix('"')
}

/// Whether a program's answer to `--version` names this version.
fn says_version(said: &str, version: &str) -> bool {
    said.split_whitespace().any(|word| word == version)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_lock_is_read_by_whole_names() {
        let lock = "[[package]]\nname = \"wasm-bindgen-futures\"\nversion = \"0.4.1\"\n\n\
                    [[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.130\"\n";
        assert_eq!(locked_version(lock, "wasm-bindgen"), Some("0.2.130"));
        assert_eq!(locked_version(lock, "wasm"), None);
    }

    #[test]
    fn a_version_is_told_from_its_neighbours() {
        assert!(says_version("trunk 0.21.14", "0.21.14"));
        assert!(!says_version("trunk 0.21.1", "0.21.14"));
        assert!(!says_version("trunk 0.21.14", "0.21.1"));
        assert!(says_version("wasm-opt version 132 (version_132)", "132"));
        assert!(!says_version("wasm-opt version 108 (version_108)", "132"));
    }
}
