//! The languages the interface speaks.

/// A language of the interface.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Language {
    /// English.
    English,
    /// French with the names that cuts have in Canada.
    French,
    /// Spanish.
    Spanish,
}

impl Language {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::English, Self::French, Self::Spanish];

    /// Its tag (BCP 47), as the page carries it in `lang`.
    pub const fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::French => "fr-CA",
            Self::Spanish => "es",
        }
    }

    /// Its name in itself, so that it is found by whoever speaks nothing else.
    pub const fn own_name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::French => "Français",
            Self::Spanish => "Español",
        }
    }

    /// The language with this tag, whatever country or script the tag names.
    pub fn of_tag(tag: &str) -> Option<Self> {
        let primary = tag.split(['-', '_']).next()?;
        Self::ALL
            .into_iter()
            .find(|language| primary.eq_ignore_ascii_case(language.primary()))
    }

    /// The tag without a country, as the names of its files have it.
    pub const fn primary(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::French => "fr",
            Self::Spanish => "es",
        }
    }

    /// Where its text stands in a row.
    pub(crate) const fn column(self) -> usize {
        match self {
            Self::English => 0,
            Self::French => 1,
            Self::Spanish => 2,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_country_of_a_tag_does_not_matter() {
        assert_eq!(Language::of_tag("fr-FR"), Some(Language::French));
        assert_eq!(Language::of_tag("FR"), Some(Language::French));
        assert_eq!(Language::of_tag("es_MX"), Some(Language::Spanish));
        assert_eq!(Language::of_tag("en-CA"), Some(Language::English));
        assert_eq!(Language::of_tag("de"), None);
        assert_eq!(Language::of_tag(""), None);
        assert_eq!(Language::of_tag("español"), None);
    }
}
