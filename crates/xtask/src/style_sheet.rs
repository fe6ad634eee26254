//! Joins the style sheets into one, so that a page that is cut up by idea is
//! still asked for in one go.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

/// Where the sheets lie.
const FOLDER: &str = "web/style";

/// The sheets in the order in which one may overrule another: what holds for
/// the whole page first, what bends it to a screen last.
const SHEETS: [&str; 16] = [
    "paper",
    "frame",
    "verdict",
    "fields",
    "tables",
    "behind",
    "cost-sheet",
    "plan",
    "what-if",
    "scale",
    "saved",
    "foot",
    "offline",
    "shell",
    "screens",
    "print",
];

/// The joined sheet in `dist/`.
const JOINED: &str = "style.css";

/// Writes the joined sheet.
///
/// # Errors
/// When a sheet cannot be read or a file lies in the folder that no place in
/// the order has been given to.
pub fn join(root: &Path, dist: &Path) -> Result<()> {
    let folder = root.join(FOLDER);
    let there = fs::read_dir(&folder)
        .with_context(|| format!("{FOLDER} should hold the style sheets."))?
        .count();
    anyhow::ensure!(
        there == SHEETS.len(),
        "{FOLDER} holds {there} files, and {} are named in the order of the style sheets.",
        SHEETS.len()
    );
    let mut joined = String::new();
    for sheet in SHEETS {
        let path = folder.join(format!("{sheet}.css"));
        let text = fs::read_to_string(&path)
            .with_context(|| format!("{FOLDER}/{sheet}.css cannot be read."))?;
        joined.push_str(&text);
    }
    fs::write(dist.join(JOINED), joined)?;
    Ok(())
}
