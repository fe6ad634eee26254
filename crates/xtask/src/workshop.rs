//! Where the work is done and how other programs are called from there.

use std::env;
use std::ffi::{OsStr, OsString};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};

/// The project's folders, the compiler in use and the programs found or brought so far.
pub struct Workshop {
    /// The project's top folder.
    pub root: PathBuf,
    /// Kept between runs and shared by all checkouts: tools that were brought.
    pub cache: PathBuf,
    /// The name of the rustup toolchain that every cargo call uses, if not the machine's default.
    pub toolchain: Option<String>,
    /// Folders searched for programs before those of `PATH`.
    pub program_folders: Vec<PathBuf>,
}

impl Workshop {
    /// Finds the folders.
    ///
    /// # Errors
    /// When the machine names no folder to keep tools in.
    pub fn open() -> Result<Self> {
        let root = Path::new(env!("CARGO_MANIFEST_DIR"))
            .ancestors()
            .nth(2)
            .context("xtask has moved: it expects to live in crates/xtask")?
            .to_path_buf();
        let cache = cache_folder(|name| env::var_os(name).filter(|value| !value.is_empty()))
            .context("Set SIDEWORTH_CACHE to a folder in which the build tools can be kept.")?;
        Ok(Self {
            root,
            cache,
            toolchain: None,
            program_folders: Vec::new(),
        })
    }

    /// Where cargo puts what it builds.
    pub fn target(&self) -> PathBuf {
        env::var_os("CARGO_TARGET_DIR").map_or_else(
            || self.root.join("target"),
            // A relative setting is meant from where cargo was called.
            |folder| env::current_dir().unwrap_or_default().join(folder),
        )
    }

    /// A program that is about to be called in the project's top folder, with the right compiler
    /// and without what the outer cargo left in the environment.
    pub fn command(&self, program: impl AsRef<OsStr>) -> Command {
        let mut command = Command::new(program);
        command.current_dir(&self.root).stdin(Stdio::null());
        for (name, _) in env::vars_os() {
            if left_by_cargo(&name.to_string_lossy()) {
                command.env_remove(name);
            }
        }
        if env::var_os("CARGO_TARGET_DIR").is_some() {
            command.env("CARGO_TARGET_DIR", self.target());
        }
        if let Some(toolchain) = &self.toolchain {
            command.env("RUSTUP_TOOLCHAIN", toolchain);
            if let Some(found) = env::var_os("LD_LIBRARY_PATH") {
                // The outer cargo put its own compiler's libraries here; another compiler has others.
                let kept = env::split_paths(&found)
                    .filter(|folder| !folder.iter().any(|part| part == "toolchains"));
                command.env("LD_LIBRARY_PATH", env::join_paths(kept).unwrap_or_default());
            }
        }
        let path = env::var_os("PATH").unwrap_or_default();
        let folders = self.program_folders.iter().cloned();
        if let Ok(joined) = env::join_paths(folders.chain(env::split_paths(&path))) {
            command.env("PATH", joined);
        }
        command
    }

    /// What a program prints when called with these arguments; nothing if it cannot be called or
    /// fails.
    pub fn answer(&self, program: impl AsRef<OsStr>, arguments: &[&str]) -> Option<String> {
        let output = self
            .command(program)
            .args(arguments)
            .stderr(Stdio::null())
            .output()
            .ok()?;
        let text = String::from_utf8_lossy(&output.stdout).trim().to_owned();
        output.status.success().then_some(text)
    }
}

/// The first file of `PATH` that is a program of this name.
pub fn on_path(name: &str) -> Option<PathBuf> {
    let file = format!("{name}{}", env::consts::EXE_SUFFIX);
    env::split_paths(&env::var_os("PATH")?)
        .map(|folder| folder.join(&file))
        .find(|path| path.is_file())
}

/// Says what is being done now.
pub fn say(line: &str) {
    eprintln!("» {line}");
}

/// Runs a command to its end, its output shown as it comes.
///
/// # Errors
/// When it cannot be started or fails, with `otherwise` saying what to do about it.
pub fn run(command: &mut Command, otherwise: &str) -> Result<()> {
    let program = command.get_program().to_string_lossy().into_owned();
    let status = command
        .status()
        .with_context(|| format!("`{program}` could not be started. {otherwise}"))?;
    if !status.success() {
        bail!("`{program}` failed ({status}). {otherwise}");
    }
    Ok(())
}

/// Cargo tells a program that it runs about that program's own package; a cargo called from there
/// would take some of it for its own.
fn left_by_cargo(name: &str) -> bool {
    matches!(name, "CARGO" | "OUT_DIR")
        || [
            "CARGO_PKG_",
            "CARGO_MANIFEST_",
            "CARGO_BIN_",
            "CARGO_CRATE_",
        ]
        .iter()
        .any(|start| name.starts_with(start))
}

fn cache_folder(variable: impl Fn(&str) -> Option<OsString>) -> Option<PathBuf> {
    if let Some(folder) = variable("SIDEWORTH_CACHE") {
        return Some(PathBuf::from(folder));
    }
    variable("XDG_CACHE_HOME")
        .or_else(|| variable("LOCALAPPDATA"))
        .map(PathBuf::from)
        .or_else(|| Some(PathBuf::from(variable("HOME")?).join(".cache")))
        .map(|folder| folder.join("sideworth"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cache_with(set: &[(&str, &str)]) -> Option<PathBuf> {
        cache_folder(|name| {
            let (_, value) = set.iter().find(|(key, _)| *key == name)?;
            Some(OsString::from(value))
        })
    }

    #[test]
    fn the_cache_is_where_the_person_said_else_where_the_system_says() {
        let all = [
            ("SIDEWORTH_CACHE", "/kept"),
            ("XDG_CACHE_HOME", "/xdg"),
            ("HOME", "/people/b"),
        ];
        assert_eq!(cache_with(&all), Some(PathBuf::from("/kept")));
        assert_eq!(cache_with(&all[1..]), Some(PathBuf::from("/xdg/sideworth")));
        assert_eq!(
            cache_with(&all[2..]),
            Some(PathBuf::from("/people/b/.cache/sideworth"))
        );
        assert_eq!(cache_with(&[]), None);
    }

    #[test]
    fn only_what_cargo_left_is_taken_away() {
        assert!(left_by_cargo("CARGO"));
        assert!(left_by_cargo("CARGO_PKG_NAME"));
        assert!(!left_by_cargo("CARGO_HOME"));
        assert!(!left_by_cargo("CARGO_TARGET_DIR"));
        assert!(!left_by_cargo("RUSTFLAGS"));
    }
}
