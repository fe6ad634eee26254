//! The linter and the formatter.

use std::process::Command;

use anyhow::Result;

use super::debian;
use crate::workshop::{Workshop, run, say};

/// Sees to it that the compiler in use has its linter.
///
/// # Errors
/// Says how to get it where it cannot be brought.
pub fn ensure_clippy(workshop: &Workshop) -> Result<()> {
    if workshop.answer("cargo", &["clippy", "--version"]).is_some() {
        return Ok(());
    }
    if is_debians(workshop) {
        return debian::ensure(workshop, &["rust-web-clippy"], "the linter");
    }
    component(workshop, "clippy")
}

/// `cargo fmt`, of the machine's default compiler if that has it: the one that people use while they
/// work, so that what they see is what is checked.
///
/// # Errors
/// Says how to get a formatter where it cannot be brought.
pub fn formatter(workshop: &Workshop) -> Result<Command> {
    let formatter = |own: bool| {
        let mut command = workshop.command("cargo");
        if own {
            command.env_remove("RUSTUP_TOOLCHAIN");
        }
        command.arg("fmt");
        command
    };
    let answers = |own: bool| {
        let said = formatter(own).arg("--version").output();
        said.is_ok_and(|said| said.status.success())
    };
    if answers(true) {
        return Ok(formatter(true));
    }
    if !answers(false) {
        if is_debians(workshop) {
            debian::ensure(workshop, &["rustfmt-web"], "the formatter")?;
        } else {
            component(workshop, "rustfmt")?;
        }
    }
    Ok(formatter(false))
}

fn component(workshop: &Workshop, name: &str) -> Result<()> {
    say(&format!("adding {name} with rustup"));
    run(
        workshop.command("rustup").args(["component", "add", name]),
        &format!("Install {name} for this compiler and start again."),
    )
}

/// Whether the compiler in use is the one that Debian packaged.
fn is_debians(workshop: &Workshop) -> bool {
    workshop
        .answer("rustc", &["--print", "sysroot"])
        .is_some_and(|sysroot| sysroot == "/usr")
}
