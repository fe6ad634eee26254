//! The sources of the standard library, with which the app gets one of its own.
//!
//! The library that comes with the compiler is built for speed and carries what
//! a panic prints. Built anew together with the app, for size and with panics
//! that only stop, it makes the app about a tenth smaller. This needs switches
//! that the compiler does not promise to keep, so it is never needed: without
//! the sources, or when a compiler no longer knows a switch, the app is built
//! with the library as it came.

use std::path::Path;

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

/// Whether the sources are there, brought by rustup where it can.
pub fn ensure(workshop: &Workshop) -> bool {
    if has_sources(workshop) {
        return true;
    }
    if workshop.toolchain.is_none() && workshop.answer("rustup", &["--version"]).is_some() {
        say("adding the sources of the standard library with rustup");
        let _ = workshop
            .command("rustup")
            .args(["component", "add", "rust-src"])
            .status();
    }
    let there = has_sources(workshop);
    if !there {
        say("no sources of the standard library: the app will be about a tenth larger");
    }
    there
}

fn has_sources(workshop: &Workshop) -> bool {
    workshop
        .answer("rustc", &["--print", "sysroot"])
        .is_some_and(|sysroot| {
            Path::new(&sysroot)
                .join("lib/rustlib/src/rust/library/std/Cargo.toml")
                .exists()
        })
}
