//! Every field that is typed in, whether the rest of the draft has a use for it
//! or not. The loss in the cooler is not read while a cold side is weighed, and one
//! tap later it is: what comes from elsewhere has to be sound either way.

use carcass::Catalogue;
use pricing::CalendarDate;
use quantity::typed;

use super::{Faults, read};
use crate::{Basis, Draft, Entry, Field};

/// What is wrong with each field that is typed in, be it of use now or not.
pub fn faults(draft: &Draft, catalogue: &Catalogue) -> Faults {
    let mut of_use = draft.clone();
    of_use.basis = Basis::Live;
    for (field, entry) in of_use.fields.iter_mut() {
        // A sample is not looked at where only what the shop typed counts.
        entry.own = true;
        if let Field::SplitPercent(part) = field
            && !of_use.second_ways.contains_key(part)
        {
            of_use.second_ways.insert(part.clone(), String::new());
        }
    }
    let is_ground = |field: &Field| matches!(field, Field::Grind(_));
    if !of_use.fields.keys().any(is_ground)
        && let Some(fattest) = catalogue.grind_classes().last()
    {
        of_use.type_into(Field::Grind(fattest.id.clone()), "0".to_owned());
    }
    let mut faults = Faults::new();
    for counts_packs in [false, true] {
        of_use.counts_packs = counts_packs;
        let found = read(&of_use, catalogue).err().unwrap_or_default();
        faults.extend(found);
    }
    let of_the_board = [
        (Field::BoardDate, day as fn(&str) -> Option<String>),
        (Field::BoardDays, count),
    ];
    for (field, fault) in of_the_board {
        if let Some(fault) = fault(&draft.entry(&field).text) {
            faults.insert(field, fault);
        }
    }
    faults.retain(|field, _| draft.fields.contains_key(field));
    faults
}

fn day(text: &str) -> Option<String> {
    let read = text.parse::<CalendarDate>();
    read.err().map(|error| error.to_string())
}

fn count(text: &str) -> Option<String> {
    typed::number(text).err().map(|error| error.to_string())
}

impl Draft {
    /// The draft as it is handed on: without what cannot be read and is of no use
    /// now, nor the white space about what is typed; a tab inside of it is a space.
    /// What is of use stays, even where it cannot be read.
    #[must_use]
    pub fn fit_to_hand_on(&self, catalogue: &Catalogue) -> Self {
        let mut fit = self.clone();
        let in_use = read(self, catalogue).err().unwrap_or_default();
        for (field, _) in faults(self, catalogue) {
            if !in_use.contains_key(&field) {
                fit.forget(&field);
            }
        }
        fit.fields.retain(|field, _| field.is_known_to(catalogue));
        let is_tab = |sign: char| sign.is_control() && sign.is_whitespace();
        for (_, Entry { text, .. }) in fit.fields.iter_mut() {
            *text = text.trim().replace(is_tab, " ");
        }
        fit
    }
}

impl Field {
    /// Whether the catalogue has the product, way, part or class of grind that the
    /// field is of.
    pub fn is_known_to(&self, catalogue: &Catalogue) -> bool {
        match self {
            Self::Board(id)
            | Self::CutUnsold(id)
            | Self::CutMarkedDown(id)
            | Self::Pin(id)
            | Self::Floor(id)
            | Self::Cap(id) => catalogue.product_id(id).is_some(),
            Self::WayMinutes(id) => catalogue.way_id(id).is_some(),
            Self::SplitPercent(id)
            | Self::AgeingDays(id)
            | Self::AgeingLoss(id)
            | Self::RenderingYield(id) => catalogue.part_id(id).is_some(),
            Self::Grind(id) => catalogue.grind_classes().iter().any(|it| it.id == *id),
            _ => true,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn catalogue() -> Catalogue {
        Catalogue::published().expect("published data")
    }

    fn with(typed: &[(&str, &str)]) -> Draft {
        let mut draft = Draft::default();
        draft.fill_in_sample();
        for (id, text) in typed {
            let field = Field::of_id(id).expect("a field");
            draft.type_into(field, (*text).to_owned());
        }
        draft
    }

    fn named(faults: &Faults) -> Vec<String> {
        faults.keys().map(Field::id).collect()
    }

    #[test]
    fn what_is_of_no_use_now_is_read_all_the_same() {
        let catalogue = catalogue();
        let slips = [
            ("shrink", "some"),
            ("dressing", "0"),
            ("days-hung", "1.5"),
            ("pack-cost", "cheap"),
            ("pack-holds", "0"),
            ("grind-margin", "much"),
            ("board-date", "2026-02-30"),
            ("board-days", "soon"),
            ("split-rib", "half"),
        ];
        for slip in slips {
            let draft = with(&[slip]);
            assert!(read(&draft, &catalogue).is_ok(), "{slip:?}");
            assert_eq!(named(&faults(&draft, &catalogue)), [slip.0]);
            assert_eq!(draft.fit_to_hand_on(&catalogue), with(&[]), "{slip:?}");
        }
        let mut counted = with(&[("packaging", "cheap")]);
        counted.counts_packs = true;
        assert!(read(&counted, &catalogue).is_ok());
        assert_eq!(named(&faults(&counted, &catalogue)), ["packaging"]);
    }

    #[test]
    fn what_can_be_read_has_no_fault() {
        let sound = with(&[
            ("shrink", "1.8"),
            ("dressing", "60"),
            ("pack-cost", "0.30"),
            ("grind-margin", "1"),
            ("board-date", "2026-02-28"),
            ("board-days", "60"),
            ("split-rib", "40"),
        ]);
        assert_eq!(faults(&sound, &catalogue()), Faults::new());
        assert_eq!(sound.fit_to_hand_on(&catalogue()), sound);
    }

    #[test]
    fn white_space_that_was_pasted_along_stays_at_home() {
        let pasted = with(&[("side-weight", "\t1\t180\t"), ("labour-rate", " 27")]);
        let fit = with(&[("side-weight", "1 180"), ("labour-rate", "27")]);
        assert_eq!(pasted.fit_to_hand_on(&catalogue()), fit);
    }

    #[test]
    fn what_is_of_use_stays_with_its_fault() {
        let catalogue = catalogue();
        let draft = with(&[("labour-rate", "dear"), ("price-no-such-cut", "3")]);
        let fit = draft.fit_to_hand_on(&catalogue);
        assert_eq!(fit, with(&[("labour-rate", "dear")]));
        assert_eq!(named(&faults(&fit, &catalogue)), ["labour-rate"]);
    }
}
