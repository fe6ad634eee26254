//! The sources of the standard library, with which the app gets one of its own.
//!
//! The library that comes with the compiler is built for speed and carries what
//! a panic prints. Built anew together with the app, for size and with panics
//! that only stop, it makes the app about a tenth smaller. This needs switches
//! that the compiler does not promise to keep, so it is never needed: without
//! the sources, or when a compiler no longer knows a switch, the app is built
//! with the library as it came.

use std::path::PathBuf;

use super::WASM_TARGET;
use crate::workshop::{Workshop, say};

/// What cargo and the compiler are told so that they build the library too.
pub const SWITCHES: [(&str, &str); 4] = [
    // Lets a released compiler take the switches below.
    ("RUSTC_BOOTSTRAP", "1"),
    ("CARGO_UNSTABLE_BUILD_STD", "std,panic_abort"),
    ("CARGO_UNSTABLE_BUILD_STD_FEATURES", "optimize_for_size"),
    // For the app alone: what runs while it is built keeps its messages.
    (
        "CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS",
        "-Zunstable-options -Cpanic=immediate-abort -Zfmt-debug=none -Zlocation-detail=none",
    ),
];

/// Whether the library can be built: its sources and the crates that they use in turn are there,
/// brought where that can be done.
pub fn ensure(workshop: &Workshop) -> bool {
    let Some(sources) = sources(workshop).or_else(|| bring_sources(workshop)) else {
        say("no sources of the standard library: the app will be about a tenth larger");
        return false;
    };
    // Trunk lets cargo fetch nothing, and fetching for the app does not bring what only the
    // library uses.
    let fetched = workshop
        .command("cargo")
        .args(["fetch", "--quiet", "--locked", "--target", WASM_TARGET])
        .arg("--manifest-path")
        .arg(sources.join("Cargo.toml"))
        // The library says in words of the unreleased language what it is made of.
        .env("RUSTC_BOOTSTRAP", "1")
        .status()
        .is_ok_and(|status| status.success());
    if !fetched {
        say(
            "the crates that the standard library uses cannot be fetched: the app will be about \
             a tenth larger",
        );
    }
    fetched
}

fn bring_sources(workshop: &Workshop) -> Option<PathBuf> {
    if workshop.toolchain.is_some() || workshop.answer("rustup", &["--version"]).is_none() {
        return None;
    }
    say("adding the sources of the standard library with rustup");
    let _ = workshop
        .command("rustup")
        .args(["component", "add", "rust-src"])
        .status();
    sources(workshop)
}

/// The folder of the sources, if they are there.
fn sources(workshop: &Workshop) -> Option<PathBuf> {
    let sysroot = workshop.answer("rustc", &["--print", "sysroot"])?;
    let library = PathBuf::from(sysroot).join("lib/rustlib/src/rust/library");
    library.join("std/Cargo.toml").exists().then_some(library)
}
