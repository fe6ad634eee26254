//! A name and its value as bytes.
//!
//! A name is the place of its word plus one, and the place of the word after it
//! where it is made of two; or a zero and the name as text. A value begins with
//! a byte that says what it is:
//!
//! | byte | value |
//! |---|---|
//! | 0 | a text: its length, its bytes |
//! | 1 | a word: its place |
//! | 2 | a whole number |
//! | 16 and up | typed digits, in bits: `0001 dddd` and a number for `12.50` with `dddd` digits after the point; 32 for a comma, 64 for pounds, 128 for a sample |
//!
//! Typed text that is not written so digit for digit is a text.

use crate::bytes::{Bytes, push_number};
use crate::words::{place, split, word};

const TEXT: u8 = 0;
const WORD: u8 = 1;
const WHOLE: u8 = 2;
const DIGITS: u8 = 16;
const COMMA: u8 = 32;
const POUNDS: u8 = 64;
const SAMPLE: u8 = 128;

/// Writes a pair.
pub fn write_pair(bytes: &mut Vec<u8>, name: &str, value: &str) {
    if let Some(place) = place(name).filter(|_| !is_beginning(name)) {
        push_number(bytes, place + 1);
    } else if let Some((beginning, rest)) = split(name) {
        push_number(bytes, beginning + 1);
        push_number(bytes, rest);
    } else {
        bytes.push(0);
        push_text(bytes, name);
    }
    if let Some(place) = place(value) {
        bytes.push(WORD);
        push_number(bytes, place);
    } else if let Some(number) = whole(value) {
        bytes.push(WHOLE);
        push_number(bytes, number);
    } else if let Some((kind, number)) = digits(value) {
        bytes.push(kind);
        push_number(bytes, number);
    } else {
        bytes.push(TEXT);
        push_text(bytes, value);
    }
}

/// Whether another word comes after this one in a name.
fn is_beginning(word: &str) -> bool {
    word.ends_with(['-', '.'])
}

/// Reads a pair; `None` where it is none.
pub fn read_pair(bytes: &mut Bytes) -> Option<(String, String)> {
    let name = match bytes.number()?.checked_sub(1) {
        None => text(bytes)?,
        Some(place) => {
            let first = word(place)?;
            if is_beginning(first) {
                format!("{first}{}", word(bytes.number()?)?)
            } else {
                first.to_owned()
            }
        }
    };
    let value = match bytes.byte()? {
        TEXT => text(bytes)?,
        WORD => word(bytes.number()?)?.to_owned(),
        WHOLE => bytes.number()?.to_string(),
        kind if kind & DIGITS != 0 => typed(kind, bytes.number()?),
        _ => return None,
    };
    Some((name, value))
}

fn push_text(bytes: &mut Vec<u8>, text: &str) {
    push_number(bytes, text.len() as u64);
    bytes.extend(text.as_bytes());
}

fn text(bytes: &mut Bytes) -> Option<String> {
    let length = usize::try_from(bytes.number()?).ok()?;
    String::from_utf8(bytes.take(length)?.to_vec()).ok()
}

/// A whole number, where it is written as numbers are.
fn whole(value: &str) -> Option<u64> {
    let number: u64 = value.parse().ok()?;
    (number.to_string() == value).then_some(number)
}

/// Typed digits with their units, where they come back digit for digit.
fn digits(value: &str) -> Option<(u8, u64)> {
    let (units, text) = value.split_once(' ')?;
    let (units, sample) = match units.strip_suffix('?') {
        Some(units) => (units, SAMPLE),
        None => (units, 0),
    };
    let pounds = match units {
        "kg" => 0,
        "lb" => POUNDS,
        _ => return None,
    };
    let (point, comma) = match text.find(['.', ',']) {
        Some(at) if text.get(at..=at) == Some(",") => (Some(at), COMMA),
        at => (at, 0),
    };
    let after = point.map_or(0, |at| text.len() - at - 1);
    let after = u8::try_from(after).ok().filter(|after| *after < DIGITS)?;
    let number: u64 = text.replace([',', '.'], "").parse().ok()?;
    let kind = DIGITS | after | comma | pounds | sample;
    (typed(kind, number) == value).then_some((kind, number))
}

fn typed(kind: u8, number: u64) -> String {
    let units = if kind & POUNDS == 0 { "kg" } else { "lb" };
    let sample = if kind & SAMPLE == 0 { "" } else { "?" };
    let after = usize::from(kind & (DIGITS - 1));
    // At least one digit before the point.
    let mut text = format!("{number:0width$}", width = after + 1);
    if after > 0 {
        let point = if kind & COMMA == 0 { '.' } else { ',' };
        text.insert(text.len() - after, point);
    }
    format!("{units}{sample} {text}")
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn length(name: &str, value: &str) -> usize {
        let mut bytes = Vec::new();
        write_pair(&mut bytes, name, value);
        let mut reader = Bytes::new(&bytes);
        let read = read_pair(&mut reader);
        assert_eq!(read, Some((name.to_owned(), value.to_owned())));
        assert!(reader.is_empty());
        bytes.len()
    }

    #[test]
    fn what_is_usual_takes_few_bytes() {
        assert!(length("price-ground-beef", "kg 16.99") <= 7);
        assert!(length("side-weight", "lb 430,5") <= 4);
        assert!(length("draft.method", "net-realisable-value") <= 4);
        assert!(length("draft.grass-percent", "65") <= 3);
    }

    #[test]
    fn what_is_unusual_comes_back_too() {
        for value in [
            "kg 007",
            "kg 1.",
            "kg .5",
            "kg 1,234.5",
            "kg 1e9",
            "lb? 0.00",
            "kg −5",
            "kg",
            "kg ",
            "kg 99999999999999999999999",
            "kg 0.1234567890123456789",
            "stone 5",
            "",
        ] {
            length("side-price", value);
            length("no such name", value);
        }
    }

    proptest! {
        #[test]
        fn every_pair_comes_back(name in "\\PC{0,30}|price-[a-z-]{0,12}", value in "(kg|lb)\\??( [0-9]{1,9}[.,]?[0-9]{0,9})?|\\PC{0,30}") {
            length(&name, &value);
        }

        #[test]
        fn no_bytes_panic(bytes in prop::collection::vec(any::<u8>(), 0..40)) {
            let mut reader = Bytes::new(&bytes);
            while let Some(pair) = read_pair(&mut reader) {
                prop_assert!(pair.0.len() + pair.1.len() < 200);
            }
        }
    }
}
