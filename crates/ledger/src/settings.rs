//! What a shop sets once for all its weigh-ins.

use std::collections::BTreeSet;

use form_urlencoded::Serializer;
use quantity::{Decimal, Share};
use scale::{LotScheme, Prior, USUAL_TOLERANCE};

/// So many earlier schemes of the lot codes are kept.
pub(crate) const MOST_EARLIER: usize = 12;

/// What a shop sets once.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Settings {
    /// How far off the balance of a side may be.
    pub(crate) tolerance: Share,
    /// How much published figures count for.
    pub(crate) prior: Prior,
    /// How lot codes are made.
    pub(crate) scheme: LotScheme,
    /// How they were made before, the last one first: labels lead back by these
    /// too.
    earlier: Vec<LotScheme>,
    /// Ids of the ways that are put back to the published yields.
    pub(crate) as_published: BTreeSet<String>,
    /// Whether the spread of sides is put back to the published one.
    pub(crate) is_spread_published: bool,
}

/// What stands for the published spread.
const PUBLISHED: &str = "published";

impl Default for Settings {
    fn default() -> Self {
        Self {
            tolerance: USUAL_TOLERANCE,
            prior: Prior::default(),
            scheme: LotScheme::default(),
            earlier: Vec::new(),
            as_published: BTreeSet::new(),
            is_spread_published: false,
        }
    }
}

impl Settings {
    /// Has lot codes made by another scheme from now on.
    pub(crate) fn set_scheme(&mut self, scheme: LotScheme) {
        let before = core::mem::replace(&mut self.scheme, scheme);
        self.remember([before]);
    }

    /// Keeps schemes that codes were made by, the last one last. The oldest ones
    /// go where there are too many.
    pub(crate) fn remember(&mut self, schemes: impl IntoIterator<Item = LotScheme>) {
        for scheme in schemes {
            self.earlier.retain(|known| *known != scheme);
            self.earlier.insert(0, scheme);
        }
        self.earlier.retain(|known| *known != self.scheme);
        self.earlier.truncate(MOST_EARLIER);
    }

    /// How lot codes were made before, the last one first.
    pub(crate) fn earlier(&self) -> &[LotScheme] {
        &self.earlier
    }

    /// As text.
    pub(crate) fn to_text(&self) -> String {
        let mut text = Serializer::new(String::new());
        text.append_pair("tolerance", &self.tolerance.fraction().to_string())
            .append_pair("prior-yields", &self.prior.yields().to_string())
            .append_pair("prior-spread", &self.prior.spread().to_string())
            .append_pair("scheme", &self.scheme.to_string());
        for scheme in &self.earlier {
            text.append_pair("earlier-scheme", &scheme.to_string());
        }
        for way in &self.as_published {
            text.append_pair("as-published", way);
        }
        // Written where it is so alone: an older version reads all else.
        if self.is_spread_published {
            text.append_pair("spread", PUBLISHED);
        }
        text.finish()
    }

    /// What a text holds; what cannot be read in it stays as it usually is.
    pub(crate) fn of_text(text: &str) -> Self {
        let mut settings = Self::default();
        let number = |text: &str| text.parse::<Decimal>().ok();
        for (name, value) in form_urlencoded::parse(text.as_bytes()) {
            match &*name {
                "tolerance" => {
                    let read = number(&value).map(Share::from_fraction);
                    if let Some(tolerance) = read.filter(|share| share.is_part_of_whole()) {
                        settings.tolerance = tolerance;
                    }
                }
                "prior-yields" => {
                    if let Some(sides) = number(&value) {
                        settings.prior = Prior::new(sides, settings.prior.spread());
                    }
                }
                "prior-spread" => {
                    if let Some(sides) = number(&value) {
                        settings.prior = Prior::new(settings.prior.yields(), sides);
                    }
                }
                "scheme" => {
                    if let Ok(scheme) = value.parse() {
                        settings.scheme = scheme;
                    }
                }
                "earlier-scheme" => {
                    if let Ok(scheme) = value.parse()
                        && settings.earlier.len() < MOST_EARLIER
                    {
                        settings.earlier.push(scheme);
                    }
                }
                "as-published" => {
                    settings.as_published.insert(value.into_owned());
                }
                "spread" => settings.is_spread_published = value == PUBLISHED,
                _ => {}
            }
        }
        settings
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// As it was kept before the spread could be put back: the text stays as it is.
    #[test]
    fn a_text_without_a_spread_keeps_the_own_one() {
        let frozen = "tolerance=0.02&prior-yields=5&prior-spread=20&scheme=%7Blot%7D&\
            as-published=strip-loin-steak";
        let settings = Settings::of_text(frozen);
        let wanted = Settings {
            tolerance: Share::from_fraction(Decimal::new(2, 2)),
            prior: Prior::new(Decimal::from(5), Decimal::from(20)),
            scheme: "{lot}".parse().expect("a scheme"),
            as_published: BTreeSet::from(["strip-loin-steak".to_owned()]),
            ..Settings::default()
        };
        assert_eq!(settings, wanted);
        assert_eq!(settings.to_text(), frozen);
        let back = Settings {
            is_spread_published: true,
            ..wanted
        };
        assert_eq!(Settings::of_text(&back.to_text()), back);
        assert_ne!(back.to_text(), frozen);
    }

    #[test]
    fn settings_read_back() {
        let mut settings = Settings {
            tolerance: Share::from_fraction(Decimal::new(25, 3)),
            prior: Prior::new(Decimal::from(12), Decimal::from(40)),
            scheme: "{lot}/{item}".parse().expect("a scheme"),
            ..Settings::default()
        };
        settings.set_scheme("{cut}/{lot}".parse().expect("a scheme"));
        settings.as_published.insert("a-way".to_owned());
        settings.as_published.insert("another & way".to_owned());
        assert_eq!(Settings::of_text(&settings.to_text()), settings);
        assert_eq!(Settings::of_text(""), Settings::default());
        let before = "tolerance=0.025&scheme=%7Blot%7D";
        assert!(Settings::of_text(before).earlier().is_empty());
        let damaged = "earlier-scheme=x&tolerance=-3&prior-yields=x&scheme={nothing}&else=1";
        assert_eq!(Settings::of_text(damaged), Settings::default());
    }

    #[test]
    fn a_scheme_is_kept_when_another_comes_in_force() {
        let scheme = |text: &str| -> LotScheme { text.parse().expect("a scheme") };
        let mut settings = Settings::default();
        settings.set_scheme(scheme("{lot}/1"));
        settings.set_scheme(scheme("{lot}/2"));
        settings.set_scheme(scheme("{lot}/2"));
        assert_eq!(
            settings.earlier(),
            [scheme("{lot}/1"), LotScheme::default()]
        );
        // One that comes in force again is no earlier one.
        settings.set_scheme(LotScheme::default());
        assert_eq!(settings.earlier(), [scheme("{lot}/2"), scheme("{lot}/1")]);
        for number in 0..20 {
            settings.set_scheme(scheme(&format!("{{lot}}-{number}")));
        }
        assert_eq!(settings.earlier().len(), MOST_EARLIER);
        assert_eq!(settings.earlier()[0], scheme("{lot}-18"));
        assert_eq!(Settings::of_text(&settings.to_text()), settings);
    }
}
