//! A saved plan as text: the encoding of web forms, as the draft in it.
//!
//! ```text
//! saved.version=1&saved.name=…&saved.changed=…&saved.revision=…&saved.draft=…&saved.end=
//! ```
//!
//! The end is marked, since half a draft reads as a smaller one.

use draft::Draft;
use form_urlencoded::Serializer;

/// The version that is written, and the newest that is read.
const VERSION: u32 = 1;

/// The longest name, in characters.
pub const LONGEST_NAME: usize = 60;

/// A plan saved by name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Saved {
    /// What it is called.
    pub name: String,
    /// When it was last changed, in milliseconds since 1970 began in UTC.
    pub changed: u64,
    /// How often it was stored: tells whether another tab has changed it since.
    pub revision: u32,
    /// What was typed and chosen.
    pub draft: Draft,
}

/// Why a stored text cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unreadable {
    /// A newer version of the app wrote it.
    Newer,
    /// It is no saved plan, or a damaged one.
    Damaged,
}

impl Saved {
    /// As text.
    pub fn to_text(&self) -> String {
        Serializer::new(String::new())
            .append_pair("saved.version", &VERSION.to_string())
            .append_pair("saved.name", &self.name)
            .append_pair("saved.changed", &self.changed.to_string())
            .append_pair("saved.revision", &self.revision.to_string())
            .append_pair("saved.draft", &self.draft.to_text())
            .append_pair("saved.end", "")
            .finish()
    }

    /// What a text holds.
    ///
    /// # Errors
    /// When it cannot be read.
    pub fn of_text(text: &str) -> Result<Self, Unreadable> {
        let mut pairs = form_urlencoded::parse(text.as_bytes());
        // In the one order in which they are written.
        let mut next = |name: &str| {
            pairs
                .next()
                .filter(|(found, _)| found == name)
                .map(|(_, value)| value.into_owned())
                .ok_or(Unreadable::Damaged)
        };
        let number = |text: String| text.parse::<u64>().map_err(|_| Unreadable::Damaged);
        // The version comes first, since it says how to read the rest.
        match number(next("saved.version")?)? {
            version if version == u64::from(VERSION) => {}
            version if version > u64::from(VERSION) => return Err(Unreadable::Newer),
            _ => return Err(Unreadable::Damaged),
        }
        let name = next("saved.name")?;
        let changed = number(next("saved.changed")?)?;
        let revision = number(next("saved.revision")?)?;
        let draft = next("saved.draft")?;
        next("saved.end")?;
        Ok(Self {
            name,
            changed,
            revision: u32::try_from(revision).map_err(|_| Unreadable::Damaged)?,
            draft: Draft::of_text(&draft).ok_or(Unreadable::Damaged)?,
        })
    }
}

/// A name as it is kept: one line without blanks around it, and not too long.
/// Nothing where there is nothing to call it by.
pub fn tidy(name: &str) -> Option<String> {
    let words: Vec<&str> = name
        .split(|letter: char| letter.is_whitespace() || letter.is_control())
        .filter(|word| !word.is_empty())
        .collect();
    let tidy: String = words.join(" ").chars().take(LONGEST_NAME).collect();
    let tidy = tidy.trim_end();
    (!tidy.is_empty()).then(|| tidy.to_owned())
}

#[cfg(test)]
mod tests {
    use draft::Field;
    use proptest::prelude::*;

    use super::*;

    /// The text of version 1 as it stands: it must always be read.
    const VERSION_1: &str = "saved.version=1&saved.name=Side+of+9+May%2C+grass&saved.changed=1778328000000&saved.revision=3&saved.draft=draft.version%3D1%26draft.units%3Dkg%26draft.basis%3Dcold%26draft.grass-percent%3D100%26draft.stock-from%3Dpreset%26draft.plan%3Dboneless%26draft.grind-with-fat%3Dno%26draft.counts-packs%3Dno%26draft.age%3Dunknown%26draft.round-to%3Dnearest%26draft.round-per-100g%3Dno%26draft.method%3Dnet-realisable-value%26side-weight%3Dkg%2B151&saved.end=";

    #[test]
    fn the_first_version_is_read_and_written_the_same() {
        let saved = Saved::of_text(VERSION_1).expect("a saved plan");
        assert_eq!(saved.name, "Side of 9 May, grass");
        assert_eq!((saved.changed, saved.revision), (1_778_328_000_000, 3));
        assert_eq!(saved.draft.entry(&Field::Weight).text, "151");
        assert_eq!(saved.to_text(), VERSION_1);
    }

    #[test]
    fn what_a_newer_app_wrote_is_told_from_what_is_damaged() {
        let newer = VERSION_1.replacen("version=1", "version=2", 1);
        assert_eq!(Saved::of_text(&newer), Err(Unreadable::Newer));
        for text in [
            "",
            "saved.version=0",
            "saved.version=1",
            "saved.version=one",
            &VERSION_1[..VERSION_1.len() - 40],
            &VERSION_1.replace("revision=3", "revision=-3"),
            &VERSION_1.replace("grass-percent%3D100", "grass-percent%3D101"),
        ] {
            assert_eq!(Saved::of_text(text), Err(Unreadable::Damaged), "{text}");
        }
    }

    #[test]
    fn a_name_is_one_line() {
        assert_eq!(tidy("  a\n\tb\u{0} c "), Some("a b c".to_owned()));
        assert_eq!(tidy(" \n "), None);
        let long = tidy(&"ab ".repeat(100)).expect("a name");
        assert!(long.chars().count() <= LONGEST_NAME && long.ends_with('b'));
    }

    proptest! {
        #[test]
        fn every_name_comes_back(name in "\\PC{0,80}", changed: u64, revision: u32) {
            let saved = Saved { name, changed, revision, draft: Draft::default() };
            prop_assert_eq!(Saved::of_text(&saved.to_text()), Ok(saved));
        }

        #[test]
        fn a_cut_off_text_is_damaged(at in 0..VERSION_1.len()) {
            // The sign after the last name says nothing more.
            prop_assume!(at < VERSION_1.len() - 1);
            prop_assert_eq!(Saved::of_text(&VERSION_1[..at]).err(), Some(Unreadable::Damaged));
        }

        #[test]
        fn no_text_panics(text in "(saved.version=1&)?[&=a-z.%0-9+ -]{0,60}\\PC{0,20}") {
            let _ = Saved::of_text(&text);
        }
    }
}
