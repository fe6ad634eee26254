//! The standard library for `wasm32-unknown-unknown`, and a compiler that has it.
//!
//! rustup brings it wherever it can reach its own server. Where only package registries are
//! reachable, Debian has a compiler that can build the library from source.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use super::debian;
use crate::workshop::{Workshop, run, say};

/// The target that browsers run.
pub const TARGET: &str = "wasm32-unknown-unknown";

/// What rustup calls Debian's compiler once it knows about it.
const LINKED: &str = "sideworth-web";

/// What the compiler calls to link wasm.
const LINKER: &str = "rust-lld";

/// Lies beside the library that was built here and says which compiler built it.
const STAMP: &str = "built-by-sideworth.txt";

/// An empty library: cargo builds the standard library only for something that uses it.
const EMPTY_CRATE: &str = r#"[package]
name = "std-build"
version = "0.0.0"
edition = "2021"

[lib]
crate-type = ["cdylib"]
path = "lib.rs"

[workspace]
"#;

/// Sees to it that the workshop's compiler can build for the browser.
///
/// # Errors
/// Says what to do where neither rustup nor Debian can bring the target.
pub fn ensure(workshop: &mut Workshop) -> Result<()> {
    if has_std(workshop) {
        return Ok(());
    }
    let rustup = workshop.answer("rustup", &["--version"]).is_some();
    if rustup {
        if knows_linked(workshop) {
            workshop.toolchain = Some(LINKED.to_owned());
            if has_std(workshop) && stamp_matches(workshop) {
                return Ok(());
            }
            workshop.toolchain = None;
        } else {
            say(&format!("adding the {TARGET} target with rustup"));
            let added = workshop
                .command("rustup")
                .args(["target", "add", TARGET])
                .status();
            if added.is_ok_and(|status| status.success()) && has_std(workshop) {
                return Ok(());
            }
        }
    }
    say("rustup cannot bring the target here; taking Debian's compiler instead");
    from_debian(workshop, rustup)
}

fn from_debian(workshop: &mut Workshop, rustup: bool) -> Result<()> {
    if !debian::is_debian() {
        bail!(
            "The {TARGET} target is missing and rustup could not add it. On a machine that reaches \
             rustup's server, `rustup target add {TARGET}` does; without rustup, install the \
             target with the compiler's own packages."
        );
    }
    debian::ensure(
        workshop,
        &["rustc-web", "cargo-web", "rust-web-src", "rust-web-llvm"],
        "a compiler that can build for the browser",
    )?;
    if workshop.answer(LINKER, &["--version"]).is_none() {
        // The linker is only a link to LLVM's, whose package, of the same name as its program, the
        // compiler's packages do not ask for.
        let llvms = fs::read_link(Path::new("/usr/bin").join(LINKER))
            .context("Debian's rust-web-llvm should have brought a linker for wasm.")?;
        debian::ensure(workshop, &[&llvms.to_string_lossy()], "a linker for wasm")?;
    }
    if rustup {
        if !knows_linked(workshop) {
            run(
                workshop
                    .command("rustup")
                    .args(["toolchain", "link", LINKED, "/usr"]),
                "rustup should be able to take Debian's compiler under /usr as a toolchain.",
            )?;
        }
        workshop.toolchain = Some(LINKED.to_owned());
    } else {
        workshop.program_folders.push(PathBuf::from("/usr/bin"));
    }
    if has_std(workshop) && stamp_matches(workshop) {
        return Ok(());
    }
    build_std(workshop)
}

fn build_std(workshop: &Workshop) -> Result<()> {
    say("building the standard library for the browser (about a minute, once)");
    let bench = workshop.cache.join("std-build");
    let built = bench.join("target");
    fs::create_dir_all(&bench)
        .with_context(|| format!("The folder {} cannot be made.", bench.display()))?;
    fs::write(bench.join("Cargo.toml"), EMPTY_CRATE)?;
    fs::write(bench.join("lib.rs"), "")?;
    run(
        workshop
            .command("cargo")
            .current_dir(&bench)
            .args(["build", "--release", "--target", TARGET])
            // `test` is what wasm tests link against.
            .arg("-Zbuild-std=std,panic_abort,test")
            .env("CARGO_TARGET_DIR", &built)
            .env("RUSTC_BOOTSTRAP", "1")
            // Link-time optimisation of the whole program needs the library's bitcode.
            .env("RUSTFLAGS", "-Cembed-bitcode=yes")
            .env_remove("CARGO_ENCODED_RUSTFLAGS"),
        "Building the standard library needs the crate registry and Debian's rust-web-src.",
    )?;

    let libraries = libraries_folder(workshop)
        .context("The compiler does not say where its libraries belong.")?;
    fs::create_dir_all(&libraries)
        .with_context(|| format!("The folder {} cannot be made.", libraries.display()))?;
    for old in rlibs(&libraries)? {
        fs::remove_file(old)?;
    }
    for library in rlibs(&built.join(TARGET).join("release/deps"))? {
        if let Some(name) = library.file_name() {
            fs::copy(&library, libraries.join(name))
                .with_context(|| format!("{} cannot be written to.", libraries.display()))?;
        }
    }
    fs::write(libraries.join(STAMP), compiler(workshop))?;
    fs::remove_dir_all(&bench)?;

    // What was compiled against the library before does not fit the new one.
    let stale = workshop.target().join(TARGET);
    if stale.exists() {
        fs::remove_dir_all(stale)?;
    }
    if !has_std(workshop) {
        bail!("The standard library was built but the compiler does not see it.");
    }
    Ok(())
}

fn knows_linked(workshop: &Workshop) -> bool {
    workshop
        .answer("rustup", &["toolchain", "list"])
        .is_some_and(|list| {
            list.lines()
                .any(|line| line.split_whitespace().next() == Some(LINKED))
        })
}

fn compiler(workshop: &Workshop) -> String {
    workshop.answer("rustc", &["-vV"]).unwrap_or_default()
}

/// After an upgrade of the compiler its old library no longer fits.
fn stamp_matches(workshop: &Workshop) -> bool {
    libraries_folder(workshop)
        .and_then(|folder| fs::read_to_string(folder.join(STAMP)).ok())
        .is_some_and(|stamp| stamp == compiler(workshop))
}

fn libraries_folder(workshop: &Workshop) -> Option<PathBuf> {
    workshop
        .answer("rustc", &["--print", "target-libdir", "--target", TARGET])
        .map(PathBuf::from)
}

fn has_std(workshop: &Workshop) -> bool {
    libraries_folder(workshop)
        .and_then(|folder| rlibs(&folder).ok())
        .is_some_and(|files| {
            files.iter().any(|file| {
                file.file_name()
                    .is_some_and(|name| name.to_string_lossy().starts_with("libstd-"))
            })
        })
}

fn rlibs(folder: &Path) -> std::io::Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path
            .extension()
            .is_some_and(|extension| extension == "rlib")
        {
            found.push(path);
        }
    }
    Ok(found)
}
