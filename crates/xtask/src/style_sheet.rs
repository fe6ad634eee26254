//! Joins the style sheets into one, so that a page that is cut up by idea is
//! still asked for in one go.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

/// Where the sheets lie.
const FOLDER: &str = "web/style";

/// The sheets in the order in which one may overrule another: what holds for
/// the whole page first, what bends it to a screen last.
const SHEETS: [&str; 14] = [
    "paper",
    "frame",
    "verdict",
    "fields",
    "tables",
    "behind",
    "cost-sheet",
    "plan",
    "what-if",
    "saved",
    "foot",
    "offline",
    "shell",
    "screens",
];

/// The sheets of what the worker writes: the page asks for them with its first
/// question, so that no first visit waits for them.
const ANSWERS: [&str; 3] = ["answers", "scale", "print"];

/// The joined sheets in `dist/`.
const JOINED: [(&str, &[&str]); 2] = [("style.css", &SHEETS), ("answers.css", &ANSWERS)];

/// Writes the joined sheets.
///
/// # Errors
/// When a sheet cannot be read or a file lies in the folder that no place in
/// the order has been given to.
pub fn join(root: &Path, dist: &Path) -> Result<()> {
    let folder = root.join(FOLDER);
    let there = fs::read_dir(&folder)
        .with_context(|| format!("{FOLDER} should hold the style sheets."))?
        .count();
    let named: usize = JOINED.iter().map(|(_, sheets)| sheets.len()).sum();
    anyhow::ensure!(
        there == named,
        "{FOLDER} holds {there} files, and {named} are named in the order of the style sheets."
    );
    for (file, sheets) in JOINED {
        let mut joined = String::new();
        for sheet in sheets {
            let path = folder.join(format!("{sheet}.css"));
            let text = fs::read_to_string(&path)
                .with_context(|| format!("{FOLDER}/{sheet}.css cannot be read."))?;
            joined.push_str(&text);
        }
        fs::write(dist.join(file), joined)?;
    }
    Ok(())
}
