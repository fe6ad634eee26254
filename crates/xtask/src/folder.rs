//! The files of a folder.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

/// Every file of a folder and the folders in it, by its address relative to the folder.
///
/// # Errors
/// When one of the folders cannot be read.
pub fn files_below(folder: &Path) -> Result<BTreeSet<String>> {
    let mut found = BTreeSet::new();
    let mut waiting = vec![PathBuf::new()];
    while let Some(below) = waiting.pop() {
        let here = folder.join(&below);
        let entries = fs::read_dir(&here)
            .with_context(|| format!("{} cannot be read; build first.", here.display()))?;
        for entry in entries {
            let entry = entry?;
            let path = below.join(entry.file_name());
            if entry.file_type()?.is_dir() {
                waiting.push(path);
            } else {
                found.insert(path.to_string_lossy().replace('\\', "/"));
            }
        }
    }
    Ok(found)
}
