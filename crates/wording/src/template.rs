//! Texts with places for figures: `{weight} at {price}`.

use core::fmt::{Display, Write};

/// What is put in a place.
pub type Given<'a> = &'a dyn Display;

/// The text without the word behind the bar that tells its rows apart.
pub const fn shown(english: &'static str) -> &'static str {
    let bytes = english.as_bytes();
    let mut at = 0;
    while at < bytes.len() {
        if bytes[at] == b'|' {
            return english.split_at(at).0;
        }
        at += 1;
    }
    english
}

/// How many different places a text has.
pub const fn placeholders(text: &str) -> usize {
    let bytes = text.as_bytes();
    let mut count = 0;
    let mut at = 0;
    while at < bytes.len() {
        if bytes[at] == b'{' && is_first(bytes, at) {
            count += 1;
        }
        at += 1;
    }
    count
}

/// Whether all places of `text` are in `other`.
pub(crate) const fn is_within(text: &str, other: &str) -> bool {
    let (bytes, other) = (text.as_bytes(), other.as_bytes());
    let mut at = 0;
    while at < bytes.len() {
        if bytes[at] == b'{' {
            let mut there = 0;
            while there < other.len() && !is_same(bytes, at, other, there) {
                there += 1;
            }
            if there == other.len() {
                return false;
            }
        }
        at += 1;
    }
    true
}

/// Whether no place with this name comes before.
const fn is_first(bytes: &[u8], at: usize) -> bool {
    let mut before = 0;
    while before < at {
        if is_same(bytes, at, bytes, before) {
            return false;
        }
        before += 1;
    }
    true
}

/// Whether the places that begin at `at` and `there` have one name.
const fn is_same(bytes: &[u8], at: usize, other: &[u8], there: usize) -> bool {
    let mut step = 0;
    loop {
        if at + step >= bytes.len() || there + step >= other.len() {
            return false;
        }
        if bytes[at + step] != other[there + step] || (step == 0 && bytes[at] != b'{') {
            return false;
        }
        if bytes[at + step] == b'}' {
            return true;
        }
        step += 1;
    }
}

/// The text with what is given in its places: in the order in which their
/// names first come, or by number where the place has one (`{0}`), as the
/// files of other languages do.
#[inline(never)]
pub fn fill(template: &str, given: &[Given<'_>]) -> String {
    let mut text = String::with_capacity(template.len() + 8 * given.len());
    let mut names: Vec<&str> = Vec::new();
    let mut rest = template;
    while let Some((before, behind)) = rest.split_once('{') {
        text.push_str(before);
        let (name, behind) = behind.split_once('}').unwrap_or((behind, ""));
        rest = behind;
        let index = name.parse().unwrap_or_else(|_| {
            let known = names.iter().position(|known| *known == name);
            known.unwrap_or_else(|| {
                names.push(name);
                names.len() - 1
            })
        });
        if let Some(given) = given.get(index) {
            // Writing to a string cannot fail.
            let _ = write!(text, "{given}");
        }
    }
    text.push_str(rest);
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_filled_in_the_order_of_their_names() {
        assert_eq!(fill("{a} of {b}, {a}", &[&1, &"two"]), "1 of two, 1");
        assert_eq!(fill("{1} de {0}", &[&1, &"two"]), "two de 1");
        assert_eq!(fill("none", &[]), "none");
    }

    #[test]
    fn what_is_not_given_and_what_is_not_closed_stay_out() {
        assert_eq!(fill("a {5} b", &[&1]), "a  b");
        assert_eq!(fill("a {b", &[&1]), "a 1");
    }

    #[test]
    fn what_is_given_is_not_read_as_a_place() {
        assert_eq!(fill("“{typed}”", &[&"{0}"]), "“{0}”");
    }

    #[test]
    fn places_are_counted_once() {
        assert_eq!(placeholders("{a} of {b}, {a}"), 2);
        assert_eq!(placeholders("{ab} {a}"), 2);
        assert!(is_within("{a} {b}", "{b}{a}"));
        assert!(!is_within("{a} {b}", "{ab}{a}"));
    }

    #[test]
    fn the_word_behind_the_bar_is_not_shown() {
        assert_eq!(shown("Side|on the sheet"), "Side");
        assert_eq!(shown("Côté"), "Côté");
    }
}
