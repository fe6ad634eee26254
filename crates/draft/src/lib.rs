//! What has been typed and chosen, exactly as it was: the one thing that is
//! kept, and from which everything shown follows.
//!
//! [`reading`] reads it as a plan, field by field; [`kept`] writes it down and
//! takes it up again; a saved plan is written back into it
//! ([`Draft::of_document`]).

#![forbid(unsafe_code)]

pub mod field;
pub mod kept;
pub mod reading;
mod words;
mod written_back;

use litemap::LiteMap;

use document::Document;
use document::format::{AgeForm, MethodForm, RoundToForm, StockFromForm};

pub use field::Field;
pub use notation::Units;
pub use quantity::Currency;
use words::Chosen;

/// The text of one field.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Entry {
    /// As typed.
    pub text: String,
    /// The units in force when it was typed: what a bare number means.
    pub units: Units,
    /// Whether the user typed it; otherwise it is a sample.
    pub own: bool,
}

impl Entry {
    /// The text, with the unit that a bare number has behind `between`.
    pub fn with_unit(&self, between: &str) -> String {
        if self.text.ends_with(|last: char| last.is_ascii_digit()) {
            format!("{}{between}{}", self.text, self.units.word())
        } else {
            self.text.clone()
        }
    }
}

/// What the priced weight is a weight of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Basis {
    /// The chilled side.
    #[default]
    Cold,
    /// The side before the cooler.
    Hot,
    /// Half of the live animal.
    Live,
}

/// All that has been typed and chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// Units in force.
    pub units: Units,
    /// The currency of all amounts, where it was ever told.
    pub currency: Option<Currency>,
    /// Fields that were typed in.
    fields: LiteMap<Field, Entry>,
    /// What the priced weight is a weight of.
    pub basis: Basis,
    /// Percent of the way from grain-fed to grass-fed.
    pub grass_percent: u8,
    /// What says how the animal was finished, where the carcass was graded.
    pub stock_from: StockFromForm,
    /// Id of the named plan.
    pub plan: String,
    /// Part id to way id where it differs from the plan.
    pub ways: LiteMap<String, String>,
    /// Part id to the second way that shares it.
    pub second_ways: LiteMap<String, String>,
    /// Whether fat trim may go into grind that is blended to classes.
    pub grind_with_fat: bool,
    /// Whether packaging is counted by the pack and not by weight.
    pub counts_packs: bool,
    /// How old the animal was.
    pub age: AgeForm,
    /// Which neighbour a suggested price is rounded to.
    pub round_to: RoundToForm,
    /// Whether suggested prices end so per 100 g and not per kilogram or
    /// pound.
    pub round_per_100g: bool,
    /// Method of dividing joint cost.
    pub method: MethodForm,
}

impl Default for Draft {
    fn default() -> Self {
        let sample = Document::sample();
        Self {
            units: Units::default(),
            currency: None,
            fields: LiteMap::new(),
            basis: Basis::default(),
            grass_percent: 0,
            stock_from: StockFromForm::default(),
            plan: sample.plan.base,
            ways: LiteMap::new(),
            second_ways: LiteMap::new(),
            grind_with_fat: false,
            counts_packs: false,
            age: AgeForm::default(),
            round_to: RoundToForm::default(),
            round_per_100g: false,
            method: sample.shop.method,
        }
    }
}

impl Draft {
    /// What a field holds: what was typed, else its sample.
    pub fn entry(&self, field: &Field) -> Entry {
        self.fields.get(field).cloned().unwrap_or_else(|| Entry {
            text: field.sample(),
            ..Entry::default()
        })
    }

    /// Whether nothing was typed yet and no way of cutting was chosen.
    pub fn is_untouched(&self) -> bool {
        self.fields.is_empty() && self.ways.is_empty()
    }

    /// This side with the costs and prices of the shop as `now` has them.
    #[must_use]
    pub fn with_shop_of(&self, now: &Self) -> Self {
        let mut side = self.clone();
        side.fields.retain(|field, _| !field.is_of_shop());
        for (field, entry) in now.fields.iter().filter(|(field, _)| field.is_of_shop()) {
            side.fields.insert(field.clone(), entry.clone());
        }
        side.currency = now.currency;
        side.counts_packs = now.counts_packs;
        side.round_to = now.round_to;
        side.round_per_100g = now.round_per_100g;
        side.method = now.method;
        side
    }

    /// The fields typed in, in the order of their ids.
    pub fn typed_fields(&self) -> impl Iterator<Item = &Field> {
        self.fields.keys()
    }

    /// Takes what was typed into a field.
    pub fn type_into(&mut self, field: Field, text: String) {
        if text.is_empty() && field.may_be_empty() {
            self.forget(&field);
            return;
        }
        let entry = Entry {
            text,
            units: self.units,
            own: true,
        };
        self.fields.insert(field, entry);
    }

    /// Goes back to the sample or estimate of a field.
    pub fn forget(&mut self, field: &Field) {
        self.fields.remove(field);
    }

    /// Fills in the invented side of the sample, marked as such.
    pub fn fill_in_sample(&mut self) {
        let sample = Document::sample();
        for (field, text) in [
            (Field::Weight, sample.deal.weight.amount),
            (Field::Price, sample.deal.price.amount),
        ] {
            self.fields.insert(
                field,
                Entry {
                    text,
                    units: Units::Kilograms,
                    own: false,
                },
            );
        }
    }
}
