//! A draft as text, to be kept and handed on: name and value of every field in
//! the encoding of web forms (`application/x-www-form-urlencoded`, WHATWG URL
//! Standard, section 5). A form is what a draft is, and the reader of this
//! encoding is a fraction of the size of one for nested data.
//!
//! A typed field stands under its id with the units it was typed in before it
//! (`side-weight=kg 182.5`), a sample with a question mark after them
//! (`kg? 182.5`). What was chosen stands under names with a point.

use form_urlencoded::Serializer;

use crate::words::Chosen;
use crate::{Draft, Entry, Field};

/// The name of the version, which comes first.
const VERSION_NAME: &str = "draft.version";

/// The version that is written, and the only one that is read.
const VERSION: &str = "1";

/// The longest text that is read.
const LARGEST_BYTES: usize = 256 * 1024;

/// Before the id of the part whose way is kept.
const WAY: &str = "way.";

/// Before the id of the part whose second way is kept.
const SECOND_WAY: &str = "second-way.";

impl Draft {
    /// The draft as text.
    pub fn to_text(&self) -> String {
        let mut text = Serializer::new(String::new());
        text.append_pair(VERSION_NAME, VERSION)
            .append_pair("draft.units", self.units.word())
            .append_pair("draft.basis", self.basis.word())
            .append_pair("draft.grass-percent", &self.grass_percent.to_string())
            .append_pair("draft.stock-from", self.stock_from.word())
            .append_pair("draft.plan", &self.plan)
            .append_pair("draft.grind-with-fat", self.grind_with_fat.word())
            .append_pair("draft.counts-packs", self.counts_packs.word())
            .append_pair("draft.age", self.age.word())
            .append_pair("draft.round-to", self.round_to.word())
            .append_pair("draft.round-per-100g", self.round_per_100g.word())
            .append_pair("draft.method", self.method.word());
        if let Some(currency) = self.currency {
            text.append_pair("draft.currency", &currency.code());
        }
        for (part, way) in &self.ways {
            text.append_pair(&format!("{WAY}{part}"), way);
        }
        for (part, way) in &self.second_ways {
            text.append_pair(&format!("{SECOND_WAY}{part}"), way);
        }
        for (field, entry) in &self.fields {
            text.append_pair(&field.id(), &written(entry));
        }
        text.finish()
    }

    /// Whether a text is a draft of a newer version.
    pub fn is_newer(text: &str) -> bool {
        let version = form_urlencoded::parse(text.as_bytes()).next();
        // There is no older one.
        let is_other = |version: &str| {
            version != VERSION && version.bytes().all(|digit| digit.is_ascii_digit())
        };
        version.is_some_and(|(name, version)| name == VERSION_NAME && is_other(&version))
    }

    /// The draft that a text holds; `None` where it is not one of this
    /// version, or holds anything that is not known.
    pub fn of_text(text: &str) -> Option<Self> {
        if text.len() > LARGEST_BYTES {
            return None;
        }
        let mut draft = Self::default();
        let mut pairs = form_urlencoded::parse(text.as_bytes());
        // The version comes first, since it says how to read the rest.
        let (name, version) = pairs.next()?;
        if name != VERSION_NAME || version != VERSION {
            return None;
        }
        for (name, value) in pairs {
            draft.take_up(&name, &value)?;
        }
        Some(draft)
    }

    /// Takes what an accepted offer writes, in the names of the kept text and
    /// with bare values: `side-price=9.5&way.loin=bone-in`. A field is as if
    /// typed, or goes back to its sample where the value is empty; a way is the
    /// only one of its part; a name that there is none of is left out. A whole
    /// kept draft comes in the place of this one.
    pub fn take_over(&mut self, offer: &str) {
        if let Some(whole) = Self::of_text(offer) {
            *self = whole;
            return;
        }
        for (name, value) in form_urlencoded::parse(offer.as_bytes()) {
            if let Some(field) = Field::of_id(&name) {
                if value.is_empty() {
                    self.forget(&field);
                } else {
                    self.type_into(field, value.into_owned());
                }
                continue;
            }
            if let Some(part) = name.strip_prefix(WAY) {
                self.second_ways.remove(part);
            }
            // What is not known changes nothing.
            let _ = self.take_up(&name, &value);
        }
    }

    fn take_up(&mut self, name: &str, value: &str) -> Option<()> {
        match name {
            "draft.units" => self.units = Chosen::of_word(value)?,
            "draft.currency" => self.currency = Some(value.parse().ok()?),
            "draft.basis" => self.basis = Chosen::of_word(value)?,
            "draft.grass-percent" => {
                self.grass_percent = value.parse().ok().filter(|percent| *percent <= 100)?;
            }
            "draft.stock-from" => self.stock_from = Chosen::of_word(value)?,
            "draft.plan" => value.clone_into(&mut self.plan),
            "draft.grind-with-fat" => self.grind_with_fat = Chosen::of_word(value)?,
            "draft.counts-packs" => self.counts_packs = Chosen::of_word(value)?,
            "draft.age" => self.age = Chosen::of_word(value)?,
            "draft.round-to" => self.round_to = Chosen::of_word(value)?,
            "draft.round-per-100g" => self.round_per_100g = Chosen::of_word(value)?,
            "draft.method" => self.method = Chosen::of_word(value)?,
            _ => {
                if let Some(part) = name.strip_prefix(WAY) {
                    self.ways.insert(part.to_owned(), value.to_owned());
                } else if let Some(part) = name.strip_prefix(SECOND_WAY) {
                    self.second_ways.insert(part.to_owned(), value.to_owned());
                } else {
                    self.fields.insert(Field::of_id(name)?, entry(value)?);
                }
            }
        }
        Some(())
    }
}

fn written(entry: &Entry) -> String {
    let sample = if entry.own { "" } else { "?" };
    format!("{}{sample} {}", entry.units.word(), entry.text)
}

fn entry(value: &str) -> Option<Entry> {
    let (units, text) = value.split_once(' ')?;
    let (units, own) = match units.strip_suffix('?') {
        Some(units) => (units, false),
        None => (units, true),
    };
    Some(Entry {
        text: text.to_owned(),
        units: Chosen::of_word(units)?,
        own,
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use document::format::{AgeForm, MethodForm};

    use super::*;
    use crate::{Basis, Units};

    /// The text of version 1 as it stands: it must always be read.
    const VERSION_1: &str = "draft.version=1&draft.units=lb&draft.basis=hot&draft.grass-percent=70&draft.stock-from=preset&draft.plan=boneless&draft.grind-with-fat=yes&draft.counts-packs=no&draft.age=over-30&draft.round-to=up&draft.round-per-100g=no&draft.method=physical-weight&way.loin=bone-in&second-way.rib=roast&side-weight=kg+182%2C5&side-price=lb%3F+4.10&price-t-bone=kg+%E2%88%92";

    #[test]
    fn a_newer_version_is_told_from_what_is_damaged() {
        assert!(Draft::is_newer("draft.version=2&draft.moon=full"));
        for text in [
            VERSION_1,
            "draft.version=1&moon=full",
            "moon=2",
            "",
            "spoilt",
        ] {
            assert!(!Draft::is_newer(text), "{text}");
        }
    }

    #[test]
    fn a_side_keeps_its_deal_and_takes_the_prices_and_costs_of_now() {
        let side = Draft::of_text(VERSION_1).expect("a draft");
        let mut now = Draft::default();
        assert!(now.is_untouched() && !side.is_untouched());
        now.type_into(Field::Board("t-bone".into()), "31".to_owned());
        now.type_into(Field::LabourRate, "25".to_owned());
        now.type_into(Field::Weight, "150".to_owned());
        now.currency = "CAD".parse().ok();
        let merged = side.with_shop_of(&now);
        for (field, text) in [
            (Field::Weight, "182,5"),
            (Field::Price, "4.10"),
            (Field::LabourRate, "25"),
            (Field::Board("t-bone".into()), "31"),
        ] {
            assert_eq!(merged.entry(&field).text, text, "{field:?}");
        }
        assert_eq!((&merged.ways, merged.basis), (&side.ways, Basis::Hot));
        assert_eq!(merged.method, now.method);
        // Prices that were never typed now go back to their samples.
        let merged = side.with_shop_of(&Draft::default());
        assert!(!merged.entry(&Field::Board("t-bone".into())).own);
    }

    #[test]
    fn the_first_version_is_read_and_written_the_same() {
        let draft = Draft::of_text(VERSION_1).expect("a draft");
        assert_eq!(draft.units, Units::Pounds);
        assert_eq!(draft.basis, Basis::Hot);
        assert_eq!(draft.age, AgeForm::Over30Months);
        assert_eq!(draft.method, MethodForm::PhysicalWeight);
        assert_eq!(draft.ways.get("loin"), Some(&"bone-in".to_owned()));
        assert_eq!(draft.second_ways.get("rib"), Some(&"roast".to_owned()));
        let weight = draft.entry(&Field::Weight);
        assert_eq!(
            (weight.text.as_str(), weight.units, weight.own),
            ("182,5", Units::Kilograms, true)
        );
        assert!(!draft.entry(&Field::Price).own);
        assert_eq!(draft.entry(&Field::Board("t-bone".into())).text, "−");
        assert_eq!(draft.to_text(), VERSION_1);
    }

    #[test]
    fn what_is_not_known_is_not_read() {
        for text in [
            "",
            "draft.units=kg",
            "draft.version=2&draft.units=kg",
            "draft.version=1&draft.units=stone",
            "draft.version=1&draft.grass-percent=101",
            "draft.version=1&no-such-field=kg+1",
            "draft.version=1&side-weight=180",
            "{\"version\":1}",
        ] {
            assert_eq!(Draft::of_text(text), None, "{text}");
        }
        assert_eq!(Draft::of_text(&"a".repeat(LARGEST_BYTES + 1)), None);
    }

    #[test]
    fn an_offer_is_taken_over_as_if_typed() {
        let mut draft = Draft::of_text(VERSION_1).expect("a draft");
        draft.take_over("side-price=9.5&draft.grass-percent=40&way.rib=steaks&no-such-field=1");
        let price = draft.entry(&Field::Price);
        assert_eq!(
            (price.text.as_str(), price.units, price.own),
            ("9.5", Units::Pounds, true)
        );
        assert_eq!(draft.grass_percent, 40);
        assert_eq!(draft.ways.get("rib"), Some(&"steaks".to_owned()));
        assert_eq!(draft.second_ways.get("rib"), None);
    }

    proptest! {
        #[test]
        fn whatever_is_typed_comes_back(
            typed in prop::collection::vec((0_usize..5, "\\PC{0,20}"), 0..8),
            in_pounds in any::<bool>(),
            grass_percent in 0_u8..=100,
        ) {
            let fields = [
                Field::Weight,
                Field::Endings,
                Field::Board("t-bone".into()),
                Field::Pin("flank-steak".into()),
                Field::Grind("lean".into()),
            ];
            let mut draft = Draft { grass_percent, ..Draft::default() };
            if in_pounds {
                draft.units = Units::Pounds;
            }
            for (index, text) in typed {
                draft.type_into(fields[index].clone(), text);
            }
            prop_assert_eq!(Draft::of_text(&draft.to_text()), Some(draft));
        }

        #[test]
        fn no_text_panics(text in "(draft.version=1)?[&=a-z.%0-9+ -]{0,60}\\PC{0,20}") {
            let _ = Draft::of_text(&text);
        }
    }
}
