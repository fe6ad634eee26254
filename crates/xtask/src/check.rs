//! Holds the sources to the rules that a machine can check: format, lints, documentation.

use anyhow::Result;

use crate::workshop::{Workshop, run, say};
use crate::{fuzz, setup};

/// What runs in the browser.
const IN_THE_BROWSER: [&str; 10] = [
    "quantity",
    "carcass",
    "pricing",
    "decision",
    "scale",
    "ledger",
    "document",
    "notation",
    "advice",
    "sideworth",
];

/// Checks everything.
///
/// # Errors
/// The first rule that is broken.
pub fn check(workshop: &mut Workshop) -> Result<()> {
    let mut formatter = setup::for_checking(workshop)?;

    say("checking the format");
    run(
        formatter.args(["--all", "--check"]),
        "`cargo fmt --all` puts it right.",
    )?;
    run(
        formatter.args(["--manifest-path", fuzz::MANIFEST]),
        "`cargo fmt --manifest-path crates/link/fuzz/Cargo.toml` puts it right.",
    )?;

    let mend = "The messages above name the places to mend.";
    say("linting for this machine");
    cargo(
        workshop,
        &[
            "clippy",
            "--workspace",
            "--all-targets",
            "--",
            "-D",
            "warnings",
        ],
        mend,
    )?;

    say("linting for the browser");
    let mut app = vec!["clippy", "--target", setup::WASM_TARGET];
    app.extend(IN_THE_BROWSER.iter().flat_map(|name| ["-p", name]));
    app.extend(["--", "-D", "warnings"]);
    cargo(workshop, &app, mend)?;
    // Apart from the others, whose own tests run on this machine only.
    cargo(
        workshop,
        &[
            "clippy",
            "--target",
            setup::WASM_TARGET,
            "-p",
            "published-checks",
            "--tests",
            "--",
            "-D",
            "warnings",
        ],
        mend,
    )?;

    say("checking the documentation");
    run(
        workshop
            .command("cargo")
            .args([
                "doc",
                "--workspace",
                "--no-deps",
                "--document-private-items",
            ])
            .env("RUSTDOCFLAGS", "-D warnings"),
        mend,
    )?;

    println!("Format, lints and documentation are in order.");
    Ok(())
}

fn cargo(workshop: &Workshop, arguments: &[&str], otherwise: &str) -> Result<()> {
    run(workshop.command("cargo").args(arguments), otherwise)
}
