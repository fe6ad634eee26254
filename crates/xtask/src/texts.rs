//! The files of the languages, of which the app loads those of the one in use.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use carcass::{Catalogue, NamesIn};
use wording::Language;

/// The folder in `dist/`.
const FOLDER: &str = "texts";

/// The file of a language in `dist/`.
fn file(language: Language, which: &str) -> String {
    format!("{FOLDER}/{}-{which}.txt", language.primary())
}

/// What a first visit in a language loads of it, as files in `dist/`.
pub fn with_the_page(language: Language) -> String {
    file(language, "page")
}

/// Writes the files of every language.
///
/// # Errors
/// Where a name is missing in the data, or nothing can be written.
pub fn write(dist: &Path) -> Result<()> {
    let folder = dist.join(FOLDER);
    fs::create_dir_all(&folder).with_context(|| format!("No folder {}.", folder.display()))?;
    let catalogue = Catalogue::published()?;
    for language in Language::ALL {
        let names = match language {
            Language::English => catalogue.own_names(),
            Language::French => catalogue.names_in(NamesIn::French)?,
            Language::Spanish => catalogue.names_in(NamesIn::Spanish)?,
        };
        // In one file they are shorter, since many of their words are the same. `web/language.js`
        // parts them at the form feed.
        for (which, text) in [
            ("page", [language.page(), names.names].join("\x0c")),
            ("rest", [language.rest(), names.uses].join("\x0c")),
        ] {
            let file = dist.join(file(language, which));
            fs::write(&file, text)
                .with_context(|| format!("{} is not written.", file.display()))?;
        }
    }
    Ok(())
}
