//! The files of the languages other than English, which the app loads on demand.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use carcass::{Catalogue, NamesIn};
use wording::Language;

/// The folder in `dist/`.
const FOLDER: &str = "texts";

/// The languages with the names that go with them.
const LANGUAGES: [(Language, NamesIn); 2] = [
    (Language::French, NamesIn::French),
    (Language::Spanish, NamesIn::Spanish),
];

/// Writes the files of every language.
///
/// # Errors
/// Where a name is missing in the data, or nothing can be written.
pub fn write(dist: &Path) -> Result<()> {
    let folder = dist.join(FOLDER);
    fs::create_dir_all(&folder).with_context(|| format!("No folder {}.", folder.display()))?;
    let catalogue = Catalogue::published()?;
    for (language, names_in) in LANGUAGES {
        let names = catalogue.names_in(names_in)?;
        for (which, text) in [
            ("page", language.page()),
            ("rest", language.rest()),
            ("names", names.names),
            ("uses", names.uses),
        ] {
            let file = folder.join(format!("{}-{which}.txt", language.primary()));
            fs::write(&file, text)
                .with_context(|| format!("{} is not written.", file.display()))?;
        }
    }
    Ok(())
}
