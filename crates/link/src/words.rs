//! The words that are written as their places in a list.

/// One word a line, to which words are only ever added.
const WORDS: &str = include_str!("../data/words.txt");

/// The place of a word.
pub fn place(word: &str) -> Option<u64> {
    WORDS
        .lines()
        .position(|known| known == word)
        .and_then(|place| u64::try_from(place).ok())
}

/// The word at a place.
pub fn word(place: u64) -> Option<&'static str> {
    WORDS.lines().nth(usize::try_from(place).ok()?)
}

/// What a name begins with and the word after it, where it is made of two that
/// are known: `price-` and `t-bone`.
pub fn split(name: &str) -> Option<(u64, u64)> {
    name.char_indices()
        .filter(|(_, letter)| matches!(letter, '-' | '.'))
        .find_map(|(at, _)| {
            let (beginning, rest) = name.split_at_checked(at + 1)?;
            Some((place(beginning)?, place(rest)?))
        })
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use carcass::Catalogue;
    use draft::{Draft, Field};

    use super::*;

    #[test]
    fn every_word_stands_there_once() {
        let words: BTreeSet<_> = WORDS.lines().collect();
        assert_eq!(words.len(), WORDS.lines().count());
        assert!(words.iter().all(|word| !word.is_empty()));
    }

    /// Whoever adds a cut, a way or a field adds its word at the end of the list.
    #[test]
    fn every_name_and_id_is_among_them() {
        let catalogue = Catalogue::published().expect("published data");
        let mut needed: BTreeSet<String> = BTreeSet::new();
        needed.extend(catalogue.parts().map(|(_, part)| part.id.clone()));
        needed.extend(catalogue.ways().map(|(_, way)| way.id.clone()));
        needed.extend(catalogue.products().map(|(_, product)| product.id.clone()));
        needed.extend(catalogue.plans().iter().map(|plan| plan.id.clone()));
        let classes = catalogue.grind_classes().iter();
        needed.extend(classes.map(|class| class.id.clone()));
        needed.extend(Field::singles().chain(Field::prefixes()).map(str::to_owned));
        let draft = Draft::default().to_text();
        needed.extend(
            form_urlencoded::parse(draft.as_bytes())
                .flat_map(|(name, value)| [name.into_owned(), value.into_owned()])
                .filter(|word| word.parse::<u32>().is_err() && word != "draft.version"),
        );
        needed.extend(["way.", "second-way."].map(str::to_owned));
        let missing: Vec<_> = needed.iter().filter(|word| place(word).is_none()).collect();
        assert!(missing.is_empty(), "add to words.txt: {missing:?}");
    }

    #[test]
    fn a_word_is_found_at_its_place() {
        for (index, line) in WORDS.lines().enumerate() {
            assert_eq!(place(line), Some(index as u64));
            assert_eq!(word(index as u64), Some(line));
        }
        assert_eq!(word(u64::MAX), None);
        assert_eq!(place("no such word"), None);
    }
}
