//! What makes pictures of printed pages: pdftoppm of Poppler.

use std::env;
use std::path::PathBuf;

use anyhow::Result;

use super::debian;
use crate::workshop::{Workshop, on_path};

/// Finds it or brings Debian's; `None` on a machine that is not Debian's and has none. The tests
/// that need it leave themselves out there.
///
/// # Errors
/// Says what cannot be brought.
pub fn ensure(workshop: &Workshop) -> Result<Option<PathBuf>> {
    let find = || {
        env::var_os("PDFTOPPM")
            .map(PathBuf::from)
            .or_else(|| on_path("pdftoppm"))
    };
    if find().is_none() && debian::is_debian() {
        debian::ensure(
            workshop,
            &["poppler-utils"],
            "a look at the pages that are printed",
        )?;
    }
    Ok(find())
}
