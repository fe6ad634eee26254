//! The rows: English, French (Canada), Spanish. A row without one of them does
//! not compile, nor does one whose places for figures differ.

mod faults;
mod files;
mod page;
mod records;
mod weigh_in;
mod worker;

use crate::template::{is_within, placeholders, shown};

/// One text in every language.
pub type Row = [&'static str; 3];

/// The parts of the catalogue in the order of their rows. The page is in need of
/// the first two; the worker, which tells what is folded away, of all.
pub(crate) const PARTS: [&[Row]; 6] = [
    page::ROWS,
    faults::ROWS,
    worker::ROWS,
    weigh_in::ROWS,
    records::ROWS,
    files::ROWS,
];

/// How many parts the page is in need of.
pub(crate) const PAGE_PARTS: usize = 2;

/// Which row the English text has.
///
/// # Panics
/// While compiling, where there is no such row or where it has another number
/// of places than what is given.
pub const fn row(english: &str, given: usize) -> u16 {
    assert!(
        placeholders(english) == given,
        "a text has as many places as are given"
    );
    let mut number = 0;
    let mut part = 0;
    while part < PARTS.len() {
        let mut at = 0;
        while at < PARTS[part].len() {
            if is_equal(PARTS[part][at][0], english) {
                return number;
            }
            number += 1;
            at += 1;
        }
        part += 1;
    }
    panic!("this text is not in the catalogue of texts")
}

/// A text in every language, by its English form: for what is read that was
/// written in another language than the one in force.
///
/// # Panics
/// While compiling, where there is no such row.
pub const fn in_every_language(english: &str) -> Row {
    let mut part = 0;
    while part < PARTS.len() {
        let mut at = 0;
        while at < PARTS[part].len() {
            if is_equal(PARTS[part][at][0], english) {
                return PARTS[part][at];
            }
            at += 1;
        }
        part += 1;
    }
    panic!("this text is not in the catalogue of texts")
}

/// The English text of a row, for a program that no files come with.
#[cfg(not(target_arch = "wasm32"))]
pub(crate) fn english(row: u16) -> &'static str {
    let mut rows = PARTS.iter().flat_map(|part| part.iter());
    rows.nth(row.into()).map_or("", |row| shown(row[0]))
}

/// The app starts only with the texts of a language, so that it carries none.
#[cfg(target_arch = "wasm32")]
pub(crate) fn english(_: u16) -> &'static str {
    ""
}

const fn is_equal(one: &str, other: &str) -> bool {
    let (one, other) = (one.as_bytes(), other.as_bytes());
    if one.len() != other.len() {
        return false;
    }
    let mut at = 0;
    while at < one.len() {
        if one[at] != other[at] {
            return false;
        }
        at += 1;
    }
    true
}

/// Every row has a text in every language, with the same places for figures.
#[allow(
    long_running_const_eval,
    reason = "all rows are looked at, each time the catalogue is compiled"
)]
const _: () = {
    let mut part = 0;
    while part < PARTS.len() {
        let mut at = 0;
        while at < PARTS[part].len() {
            let row = PARTS[part][at];
            let english = shown(row[0]);
            let mut column = 1;
            while column < row.len() {
                assert!(!row[column].is_empty(), "a text is missing");
                assert!(
                    is_within(english, row[column]) && is_within(row[column], english),
                    "the places for figures differ"
                );
                column += 1;
            }
            at += 1;
        }
        part += 1;
    }
};
