//! Opens links that a fuzzer made up, until one of them breaks something or the time is over.

use std::fs;

use anyhow::{Context, Result};

use crate::setup;
use crate::workshop::{Workshop, run, say};

/// Where the fuzzer's targets are.
const FOLDER: &str = "crates/link/fuzz";

/// What cargo knows them by.
pub const MANIFEST: &str = "crates/link/fuzz/Cargo.toml";

/// Any text; then only such as gets past the sum.
const TARGETS: [&str; 2] = ["decode", "decode_sealed"];

/// Links that are read today, where the fuzzer begins.
const GOLDEN: &str = "crates/link/tests/golden";

/// The longest text in letters, above what is looked at; the most memory in megabytes and the most
/// seconds that one may take; short ones first.
const BOUNDS: [&str; 4] = [
    "-max_len=20000",
    "-rss_limit_mb=512",
    "-timeout=10",
    "-len_control=100",
];

/// Runs every target for so many seconds.
///
/// # Errors
/// When a link breaks something: the fuzzer prints which, and where it is kept.
pub fn fuzz(workshop: &mut Workshop, seconds: u32) -> Result<()> {
    setup::for_fuzzing(workshop)?;
    let folder = workshop.root.join(FOLDER);
    // The very crates that the app is built from.
    fs::copy(workshop.root.join("Cargo.lock"), folder.join("Cargo.lock"))
        .context("Cargo.lock is missing: run `cargo generate-lockfile`.")?;
    for target in TARGETS {
        let corpus = folder.join("corpus").join(target);
        fs::create_dir_all(&corpus)
            .with_context(|| format!("{} cannot be made.", corpus.display()))?;
        say(&format!("fuzzing {target} for {seconds} seconds"));
        run(
            workshop
                .command("cargo")
                .args(["fuzz", "run", "--fuzz-dir", FOLDER])
                // Sanitizers look for what only unsafe code can do, at several times the time.
                .args(["--sanitizer", "none", target])
                .arg(&corpus)
                .arg(GOLDEN)
                .arg("--")
                .args(BOUNDS)
                .args(["-verbosity=0", "-print_final_stats=1"])
                .arg(format!("-max_total_time={seconds}"))
                // cargo-fuzz passes switches that a released compiler keeps to itself.
                .env("RUSTC_BOOTSTRAP", "1"),
            "The link that broke it is kept in the file named above; make a test of it.",
        )?;
    }
    println!("No link broke anything.");
    Ok(())
}
