//! All text of the interface, in every language it speaks.
//!
//! A text is named by its English form: `text!("Side weight")`. Which row of the
//! catalogue that is, is found while compiling, so a text that has no row, or a
//! row that lacks a language or one of the places for figures, does not compile.
//! In a browser the texts are no part of the program: those of the language in
//! use come as files ([`Language::page`], [`Language::rest`]) and are put in force
//! once, before anything is written ([`speak`]). Elsewhere the program holds the
//! English ones.
//!
//! Where one English text wants two translations, its rows are told apart by a
//! word behind a bar that is never shown: `text!("Side|on the sheet")`.

#![forbid(unsafe_code)]

mod catalogue;
mod file;
mod language;
mod template;

use std::sync::OnceLock;

use catalogue::english;

pub use catalogue::{in_every_language, row};
pub use file::FileError;
pub use language::Language;
pub use template::{Given, fill, placeholders, shown};

/// The language that was put in force, and its texts.
static SPOKEN: OnceLock<(Language, Vec<&'static str>)> = OnceLock::new();

/// Puts a language in force for the rest of the program, from the texts of its
/// files, one file after the other ([`Language::page`], [`Language::rest`]).
///
/// # Errors
/// [`FileError`] when the texts are not those of this build; nothing is put in
/// force.
pub fn speak(language: Language, files: &[&str]) -> Result<(), FileError> {
    let texts = file::texts(files)?;
    SPOKEN
        .set((language, texts))
        .map_err(|_| FileError::SetAlready)
}

/// The language in force.
pub fn spoken() -> Language {
    SPOKEN
        .get()
        .map_or(Language::English, |(language, _)| *language)
}

/// The text of a row in the language in force. What [`text!`] calls.
#[inline(never)]
pub fn in_force(row: u16) -> &'static str {
    SPOKEN
        .get()
        .and_then(|(_, texts)| texts.get(usize::from(row)).copied())
        .unwrap_or_else(|| english(row))
}

/// A text that is yet to be said, for lists and choices that are put together
/// while compiling: `key!("Side weight")`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Text {
    row: u16,
}

impl Text {
    /// The text of a row. What [`key!`] calls.
    pub const fn new(row: u16) -> Self {
        Self { row }
    }

    /// The text in the language in force.
    pub fn said(self) -> &'static str {
        in_force(self.row)
    }
}

/// A text to be said later, as a constant [`Text`], by its English form.
#[macro_export]
macro_rules! key {
    ($english:expr) => {
        const { $crate::Text::new($crate::row($english, 0)) }
    };
}

/// A text in the language in force, as `&'static str`, by its English form.
#[macro_export]
macro_rules! text {
    ($english:expr) => {{
        const ROW: u16 = $crate::row($english, 0);
        $crate::in_force(ROW)
    }};
}

/// A text with figures in it, as `String`: `say!("{weight} at {price}", weight,
/// price)`. What is given stands in the order in which the places for it come
/// in the English form.
#[macro_export]
macro_rules! say {
    ($english:expr $(, $given:expr)* $(,)?) => {{
        const GIVEN: usize = $crate::count!($($given),*);
        const ROW: u16 = $crate::row($english, GIVEN);
        $crate::fill($crate::in_force(ROW), &[$(&$given as $crate::Given<'_>),*])
    }};
}

/// How many expressions there are.
#[doc(hidden)]
#[macro_export]
macro_rules! count {
    () => { 0 };
    ($first:expr $(, $rest:expr)*) => { 1 + $crate::count!($($rest),*) };
}
