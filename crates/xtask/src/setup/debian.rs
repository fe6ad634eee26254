//! Packages of a Debian machine.

use std::path::Path;

use anyhow::{Result, bail};

use crate::workshop::{Workshop, run, say};

/// Sees to it that these packages are there; `why` ends the sentence "Debian's … for …".
///
/// # Errors
/// On a machine that is not Debian's, or where this user may not install, the error says which
/// packages are wanted and how to get them.
pub fn ensure(workshop: &Workshop, packages: &[&str], why: &str) -> Result<()> {
    let missing: Vec<_> = packages
        .iter()
        .copied()
        .filter(|package| !is_installed(workshop, package))
        .collect();
    if missing.is_empty() {
        return Ok(());
    }
    let list = missing.join(" ");
    if !is_debian() {
        bail!("This machine lacks {why}, and only on Debian is it known how to bring that.");
    }
    if workshop.answer("id", &["-u"]).as_deref() != Some("0") {
        bail!(
            "This machine lacks {why}. Run\n  sudo apt-get update\n  sudo apt-get install -y \
             --no-install-recommends {list}\nand start again."
        );
    }
    say(&format!("installing Debian's {list} for {why}"));
    // A stale list names packages that are no longer served. If it cannot be renewed, the
    // installation may still work.
    let renewed = workshop
        .command("apt-get")
        .args(["-q", "-o", "DPkg::Lock::Timeout=300", "update"])
        .status();
    if !renewed.is_ok_and(|status| status.success()) {
        say("the package lists could not be renewed; trying with those that are here");
    }
    run(
        workshop
            .command("apt-get")
            .args(["-q", "-o", "DPkg::Lock::Timeout=300"])
            .args(["install", "-y", "--no-install-recommends"])
            .args(&missing)
            .env("DEBIAN_FRONTEND", "noninteractive"),
        &format!("Install {list} by hand and start again."),
    )
}

/// Whether this is a machine whose packages come from Debian.
pub fn is_debian() -> bool {
    Path::new("/etc/debian_version").exists()
}

fn is_installed(workshop: &Workshop, package: &str) -> bool {
    workshop
        .answer("dpkg-query", &["-W", "-f=${Status}", package])
        .is_some_and(|status| status == "install ok installed")
}
