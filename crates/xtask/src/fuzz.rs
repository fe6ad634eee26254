//! Opens links that a fuzzer made up, until one of them breaks something or the time is over.

use std::fs;
use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, ensure};

use crate::setup;
use crate::workshop::{Workshop, say};

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
        let mut fuzzer = workshop.command("cargo");
        fuzzer
            .args(["fuzz", "run", "--fuzz-dir", FOLDER])
            // Sanitizers look for what only unsafe code can do, and cost most of the speed.
            .args(["--sanitizer", "none", target])
            .arg(&corpus)
            .arg(GOLDEN)
            .arg("--")
            .args(BOUNDS)
            .arg("-print_final_stats=1")
            .arg(format!("-max_total_time={seconds}"))
            // cargo-fuzz passes switches that a released compiler keeps to itself.
            .env("RUSTC_BOOTSTRAP", "1");
        let held = without_chatter(&mut fuzzer)?;
        ensure!(
            held,
            "Unless the build failed, the link that broke it is kept in the file named above; make \
             a test of it."
        );
    }
    println!("No link broke anything.");
    Ok(())
}

/// Runs a fuzzer, leaves out of what it says each small find on the way, and tells whether all held.
fn without_chatter(fuzzer: &mut Command) -> Result<bool> {
    let mut child = fuzzer
        .stderr(Stdio::piped())
        .spawn()
        .context("cargo could not be started.")?;
    let mut said = BufReader::new(child.stderr.take().context("no pipe")?);
    let mut line = Vec::new();
    while said.read_until(b'\n', &mut line)? > 0 {
        let text = String::from_utf8_lossy(&line);
        if !is_chatter(&text) {
            eprint!("{text}");
        }
        line.clear();
    }
    Ok(child.wait()?.success())
}

/// Whether a line tells of a single find, or of a word that the fuzzer thinks useful.
fn is_chatter(line: &str) -> bool {
    let mut words = line.split_whitespace();
    let (first, second) = (words.next().unwrap_or_default(), words.next());
    first.starts_with("NEW_FUNC")
        || first.starts_with('"')
        || first == "######"
        || matches!(second, Some("NEW" | "REDUCE"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn small_finds_are_left_out_and_all_else_is_shown() {
        for line in [
            "#1713\tNEW    cov: 6218 ft: 16276 corp: 586/124Kb",
            "#5\tREDUCE cov: 4812",
            "\tNEW_FUNC[1/3]: 0x562b01aad171",
            "\"side-weight\" # Uses: 74",
            "###### Recommended dictionary. ######",
        ] {
            assert!(is_chatter(line), "{line}");
        }
        for line in [
            "#32768\tpulse  cov: 6218",
            "#49370\tDONE   cov: 6218 ft: 16276",
            "thread '<unnamed>' panicked at src/lib.rs:3:5:",
            "stat::number_of_executed_units: 49370",
            "",
        ] {
            assert!(!is_chatter(line), "{line}");
        }
    }
}
