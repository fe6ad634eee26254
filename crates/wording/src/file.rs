//! The files of a language: one text to a line, in the order of the rows.

use core::fmt;

use crate::Language;
use crate::catalogue::{PAGE_PARTS, PARTS, Row};
use crate::template::shown;

/// How many texts the page needs, and how many there are. Worked out while
/// compiling, so that the rows themselves stay out of the app.
const ENDS: [usize; 2] = [rows_of(PAGE_PARTS), rows_of(PARTS.len())];

const fn rows_of(parts: usize) -> usize {
    let mut rows = 0;
    let mut part = 0;
    while part < parts {
        rows += PARTS[part].len();
        part += 1;
    }
    rows
}

/// Why the files of a language cannot be used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileError {
    /// Not as many lines as the catalogue has rows: files of another build.
    OtherBuild {
        /// The lines that are there.
        lines: usize,
    },
    /// A language is in force already.
    SetAlready,
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OtherBuild { lines } => write!(f, "{lines} texts are not those of this build"),
            Self::SetAlready => f.write_str("a language is in force already"),
        }
    }
}

impl std::error::Error for FileError {}

impl Language {
    /// The file of what the page itself says. The build writes it.
    pub fn page(self) -> String {
        self.lines(&PARTS[..PAGE_PARTS])
    }

    /// The file of what is said beyond that. The build writes it.
    pub fn rest(self) -> String {
        self.lines(&PARTS[PAGE_PARTS..])
    }

    fn lines(self, parts: &[&[Row]]) -> String {
        parts
            .iter()
            .flat_map(|rows| rows.iter())
            .map(|row| numbered(shown(row[0]), row[self.column()]) + "\n")
            .collect()
    }
}

/// The text with its places by number, as [`crate::fill`] takes them in a text
/// whose places come in another order than in English.
fn numbered(english: &str, text: &str) -> String {
    let mut names: Vec<&str> = Vec::new();
    for place in english.split('{').skip(1) {
        let name = place.split('}').next().unwrap_or_default();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let mut text = shown_again(text);
    for (number, name) in names.iter().enumerate() {
        text = text.replace(&format!("{{{name}}}"), &format!("{{{number}}}"));
    }
    text
}

/// English itself may be written to a file too, without what is behind a bar.
fn shown_again(text: &str) -> String {
    text.split('|').next().unwrap_or_default().to_owned()
}

/// The texts of the files, kept for as long as the program runs.
pub(crate) fn texts(files: &[&str]) -> Result<Vec<&'static str>, FileError> {
    let mut texts = Vec::new();
    for file in files {
        let file: &'static str = Box::leak((*file).into());
        texts.extend(file.lines());
    }
    if ENDS.contains(&texts.len()) {
        Ok(texts)
    } else {
        Err(FileError::OtherBuild { lines: texts.len() })
    }
}
