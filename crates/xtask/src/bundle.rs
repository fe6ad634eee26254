//! Builds the app into `dist/`: Trunk compiles and collects, wasm-opt shrinks.

use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result};
use xtask::offline_files;

use crate::function_order;
use crate::import_names;
use crate::setup::{self, Shrinkers, lean_std};
use crate::style_sheet;
use crate::texts;
use crate::workshop::{Workshop, run, say};

/// What is compiled in `dist/`: the app, and its worker.
const COMPILED: [&str; 2] = ["sideworth_bg.wasm", "reckoner_bg.wasm"];

/// What is written in `dist/` and read by browsers alone. Not the service worker, which is written
/// into last of all.
const WRITTEN: [&str; 4] = ["sideworth.js", "reckoner.js", "style.css", "answers.css"];

/// The scripts that start the app and its worker, which take those in that they import.
const STARTING: [&str; 2] = ["boot.js", "reckoner-boot.js"];

/// The scripts that are taken in: a browser would ask for each only when it has read another.
const TAKEN_IN: [&str; 2] = ["language.js", "offline.js"];

/// For size above all, with the features that every current browser has and the compiler uses. Laying
/// the code out flat and building it up anew, twice, before it is shrunk takes another hundredth; the
/// lowest kilobyte holds the end of the stack and no data. A function with one caller stays by
/// itself unless it is short: put into its caller it is as long, but compresses worse.
const SHRINK: [&str; 15] = [
    "--low-memory-unused",
    "--flatten",
    "--rereloop",
    "-Oz",
    "--flatten",
    "--rereloop",
    "-Oz",
    "-Oz",
    "--one-caller-inline-max-function-size=80",
    "--enable-bulk-memory",
    "--enable-nontrapping-float-to-int",
    "--enable-sign-ext",
    "--enable-mutable-globals",
    "--enable-reference-types",
    "--enable-multivalue",
];

/// Brings what is missing, builds, and says where the app now is.
///
/// # Errors
/// When a tool cannot be brought or the app does not compile.
pub fn build(workshop: &mut Workshop) -> Result<PathBuf> {
    let shrinkers = setup::for_building(workshop)?;
    let dist = workshop.root.join("dist");
    say("fetching the crates that are missing");
    run(
        workshop.command("cargo").args(["fetch", "--quiet"]),
        "Is the crate registry within reach?",
    )?;
    if !build_lean(workshop) {
        say("building the app with Trunk");
        run(
            &mut trunk(workshop),
            "The messages above say why the app was not built.",
        )?;
    }
    style_sheet::join(&workshop.root, &dist)?;
    texts::write(&dist)?;
    if let Some(shrinkers) = shrinkers {
        for name in COMPILED {
            shrink(workshop, &shrinkers, &dist.join(name))?;
        }
        for name in WRITTEN {
            minify(workshop, &shrinkers, &dist.join(name), &[])?;
        }
        for name in STARTING {
            let taken_in = [
                "--bundle",
                "--format=esm",
                "--external:./sideworth.js",
                "--external:./reckoner.js",
            ];
            minify(workshop, &shrinkers, &dist.join(name), &taken_in)?;
        }
        for name in TAKEN_IN {
            fs::remove_file(dist.join(name))?;
        }
        let page = dist.join("index.html");
        fs::write(&page, without_comments(&fs::read_to_string(&page)?))?;
        for name in ["sideworth", "reckoner"] {
            shorten(&dist, name)?;
        }
    }
    // Last: it lists the files as they are from here on.
    let build = offline_files::write(&dist)?;
    say(&format!("the app is in {}, build {build}", dist.display()));
    Ok(dist)
}

fn trunk(workshop: &Workshop) -> Command {
    let mut trunk = workshop.command("trunk");
    trunk
        .args(["build", "--release", "--offline"])
        // Trunk takes NO_COLOR for a switch of its own and does not know every value of it.
        .env_remove("NO_COLOR")
        // The compiler has said all there is to say.
        .env_remove("RUST_BACKTRACE");
    trunk
}

/// Builds the app with a standard library of its own, where that can be done.
fn build_lean(workshop: &Workshop) -> bool {
    if !lean_std::ensure(workshop) {
        return false;
    }
    let succeeds = |mut command: Command| {
        command
            .envs(lean_std::SWITCHES)
            .status()
            .is_ok_and(|status| status.success())
    };
    say("building the app and its standard library with Trunk");
    let mut fetch = workshop.command("cargo");
    fetch.args(["fetch", "--quiet"]);
    let built = succeeds(fetch) && succeeds(trunk(workshop));
    if !built {
        say("that did not work; taking the standard library as it came");
    }
    built
}

/// Shrinks a compiled file in place, or takes what the last run made of the very same input in the
/// same manner.
fn shrink(workshop: &Workshop, shrinkers: &Shrinkers, wasm: &Path) -> Result<()> {
    let name = wasm.file_stem().unwrap_or_default();
    let bench = workshop.target().join("shrunk").join(name);
    let (before, after) = (bench.join("before.wasm"), bench.join("after.wasm"));
    let manner = bench.join("manner");
    let compiled =
        fs::read(wasm).with_context(|| format!("Trunk should have written {}.", wasm.display()))?;
    let known = fs::read(&before).is_ok_and(|known| known == compiled)
        && fs::read_to_string(&manner).is_ok_and(|known| known == SHRINK.join(" "))
        && after.exists();
    if !known {
        say(&format!("shrinking {} with wasm-opt", name.display()));
        fs::create_dir_all(&bench)?;
        // Written last, so that a run that was cut short leaves no pair that does not match.
        let _ = fs::remove_file(&before);
        run(
            workshop
                .command("node")
                .arg(&shrinkers.wasm)
                .args(SHRINK)
                .arg(wasm)
                .arg("-o")
                .arg(&after),
            "wasm-opt could not read what the compiler made.",
        )?;
        fs::write(&manner, SHRINK.join(" "))?;
        fs::write(&before, &compiled)?;
    }
    fs::copy(&after, wasm)?;
    Ok(())
}

/// Gives a compiled file and its script short names for what one takes from the other, and its
/// functions an order that compresses well.
fn shorten(dist: &Path, name: &str) -> Result<()> {
    let (wasm, script) = (
        dist.join(format!("{name}_bg.wasm")),
        dist.join(format!("{name}.js")),
    );
    let (short_wasm, short_script) =
        import_names::shortened(&fs::read(&wasm)?, &fs::read_to_string(&script)?)?;
    fs::write(&wasm, function_order::reordered(&short_wasm)?)?;
    fs::write(&script, short_script)?;
    Ok(())
}

/// Takes what only people read out of a script or a style sheet.
fn minify(workshop: &Workshop, shrinkers: &Shrinkers, file: &Path, options: &[&str]) -> Result<()> {
    let mut outfile = OsString::from("--outfile=");
    outfile.push(file);
    run(
        workshop
            .command(&shrinkers.text)
            .args(["--minify", "--log-level=warning", "--allow-overwrite"])
            .args(options)
            .arg(file)
            .arg(outfile),
        "esbuild could not read a script or style sheet of the app.",
    )
}

/// A page without what only people read in it.
fn without_comments(page: &str) -> String {
    let mut parts = page.split("<!--");
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |page, part| {
        let behind = part.split_once("-->").map_or("", |(_, behind)| behind);
        page + behind.strip_prefix('\n').unwrap_or(behind)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_loses_its_comments_and_nothing_else() {
        assert_eq!(
            without_comments("<!doctype html>\n<!-- a -->\n<p>b</p><!-- c\n-->d\n"),
            "<!doctype html>\n<p>b</p>d\n"
        );
        assert_eq!(without_comments("<p>b</p>"), "<p>b</p>");
    }
}
