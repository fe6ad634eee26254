//! A saved plan, field by field. Version 2 told the currency first.

use litemap::LiteMap;
use quantity::Currency;

use serde::{Deserialize, Serialize};

use crate::amount::{MassAmount, PriceAmount};
pub use crate::carcass_form::{CarcassForm, MeasureAmount};
pub use crate::plan_form::{AgeingForm, GrindAmountForm, GrindForm, PlanForm, SplitForm};
use crate::{DocumentError, Wrong};

/// What the field `format` says.
pub const FORMAT: &str = "sideworth plan";

/// The version that is written, and the newest that is read.
pub const VERSION: u64 = 2;

/// The first version that may tell a currency.
pub(crate) const WITH_CURRENCY: u64 = 2;

/// The most bytes a document may have.
pub const LARGEST_BYTES: usize = 256 * 1024;

/// A saved plan: deal, cut plan and shop.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Document {
    /// Always [`FORMAT`].
    pub format: String,
    /// Version of the format.
    pub version: u64,
    /// Name the user gave.
    pub name: String,
    /// The currency of all amounts, where it was told.
    #[serde(
        default,
        with = "crate::currency_form",
        skip_serializing_if = "Option::is_none"
    )]
    pub currency: Option<Currency>,
    /// The side as offered.
    pub deal: DealForm,
    /// The way of every part.
    pub plan: PlanForm,
    /// What does not change from side to side.
    pub shop: ShopForm,
}

/// The side as offered.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DealForm {
    /// How many sides.
    pub sides: u32,
    /// Priced weight, all sides together.
    pub weight: MassAmount,
    /// What it is a weight of.
    pub basis: BasisForm,
    /// Price of it.
    pub price: PriceAmount,
    /// Charges on top.
    pub charges: Vec<ChargeForm>,
    /// Percent of the way from grain-fed (0) to grass-fed (100).
    pub grass_percent: String,
    /// The carcass as it was graded, where it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub carcass: Option<CarcassForm>,
    /// What says how the animal was finished; `grass_percent` where it is left
    /// out.
    #[serde(default, skip_serializing_if = "StockFromForm::is_preset")]
    pub stock_from: StockFromForm,
    /// How old the animal was.
    pub age: AgeForm,
    /// Minutes for the whole side; `null` for the plan's own estimate.
    pub labour_minutes: Option<String>,
}

/// What the point between grain-fed and grass-fed is taken from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StockFromForm {
    /// What was set.
    #[default]
    Preset,
    /// The point with the saleable share that the graded carcass is expected
    /// to give.
    Grade,
}

impl StockFromForm {
    /// Whether it is what was set.
    #[expect(
        clippy::trivially_copy_pass_by_ref,
        reason = "the writer hands over a reference"
    )]
    fn is_preset(&self) -> bool {
        *self == Self::Preset
    }
}

/// How old the animal was.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AgeForm {
    /// Under thirty months.
    #[serde(rename = "under_30_months")]
    Under30Months,
    /// Thirty months and over.
    #[serde(rename = "over_30_months")]
    Over30Months,
    /// Not known.
    #[default]
    Unknown,
}

/// What the priced weight is a weight of.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase", deny_unknown_fields)]
pub enum BasisForm {
    /// The chilled side.
    Cold,
    /// The side before the cooler.
    Hot {
        /// Loss in the cooler.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        shrink_percent: Option<String>,
        /// Days in the cooler, from which the loss follows where none is
        /// given.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        days_hung: Option<u32>,
    },
    /// Half of the live animal.
    Live {
        /// Carcass weight as a share of live weight.
        dressing_percent: String,
        /// Loss in the cooler.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        shrink_percent: Option<String>,
        /// Days in the cooler, from which the loss follows where none is
        /// given.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        days_hung: Option<u32>,
    },
}

/// A charge on top of the price; exactly one of `flat` and `per_weight`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChargeForm {
    /// What it is for.
    pub what: String,
    /// How much.
    pub amount: ChargeAmountForm,
}

/// What a charge is counted by.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum ChargeAmountForm {
    /// Once for the side.
    Flat(String),
    /// For each unit of the priced weight.
    PerWeight(PriceAmount),
}

/// What does not change from side to side.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ShopForm {
    /// Wage for an hour.
    pub labour_per_hour: String,
    /// What comes on top of the wage.
    pub on_cost_percent: String,
    /// Overhead that an hour of work carries.
    pub overhead_per_hour: String,
    /// Way id to the shop's own minutes for a piece.
    #[serde(with = "crate::as_map")]
    pub own_minutes: LiteMap<String, String>,
    /// Target margin on sales.
    pub target_margin_percent: String,
    /// What the packs cost.
    pub packaging: PackagingForm,
    /// Losses between block and till of every cut without its own.
    pub losses: LossForm,
    /// Product id to its own losses.
    #[serde(with = "crate::as_map")]
    pub own_losses: LiteMap<String, LossForm>,
    /// Method of dividing joint cost.
    pub method: MethodForm,
    /// Product id to the shop's own price.
    #[serde(with = "crate::as_map")]
    pub board: LiteMap<String, PriceAmount>,
    /// Product id to what may be done to its suggested price.
    #[serde(with = "crate::as_map")]
    pub rules: LiteMap<String, RuleForm>,
    /// How suggested prices are rounded.
    pub rounding: RoundingForm,
}

/// What may be done to a suggested price.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum RuleForm {
    /// It stands as it is.
    Pinned(PriceAmount),
    /// It stays between bounds.
    Between {
        /// Lowest price.
        floor: Option<PriceAmount>,
        /// Highest price.
        cap: Option<PriceAmount>,
    },
}

/// How suggested prices are rounded.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoundingForm {
    /// Cents in two digits (`49, 99`); empty for every cent.
    pub endings: String,
    /// Which neighbour.
    pub to: RoundToForm,
    /// The unit in which a price ends so: `/kg`, `/lb`, `/100 g`.
    pub unit: String,
}

/// Which neighbour a price is rounded to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RoundToForm {
    /// The one at or above it.
    #[default]
    Up,
    /// The nearer one.
    Nearest,
}

/// How packaging is counted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum PackagingForm {
    /// For each weight of cuts.
    PerWeight(PriceAmount),
    /// For each pack.
    PerPack {
        /// Cost of one pack.
        cost: String,
        /// Weight that goes into it.
        holds: MassAmount,
    },
}

/// Losses between block and till, in percent.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LossForm {
    /// Weight lost as drip.
    pub purge: String,
    /// Never sold.
    pub unsold: String,
    /// Sold marked down.
    pub marked_down: String,
    /// Taken off the price of what is marked down.
    pub discount: String,
}

/// Method of dividing joint cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MethodForm {
    /// By weight.
    PhysicalWeight,
    /// By sales value where the products part.
    SalesValueAtSplitOff,
    /// By net realisable value.
    NetRealisableValue,
    /// At the same margin for every cut.
    ConstantGrossMargin,
}

/// What is read first, whatever else a document holds.
#[derive(Deserialize)]
struct Header {
    format: Option<String>,
    version: Option<u64>,
}

impl Document {
    /// Reads a document.
    ///
    /// # Errors
    /// [`DocumentError`] says where and what would be right.
    pub fn from_json(text: &str) -> Result<Self, DocumentError> {
        if text.len() > LARGEST_BYTES {
            return Err(DocumentError::TooLong { bytes: text.len() });
        }
        let header: Header = serde_json::from_str(text)?;
        if header.format.as_deref() != Some(FORMAT) {
            return Err(DocumentError::NotAPlan);
        }
        match header.version {
            Some(version) if version > VERSION => Err(DocumentError::Newer { version }),
            Some(1..=VERSION) => {
                let document: Self = serde_json::from_str(text)?;
                if document.currency.is_some() && document.version < WITH_CURRENCY {
                    return Err(DocumentError::bad("currency", Wrong::CurrencyTooEarly));
                }
                Ok(document)
            }
            _ => Err(DocumentError::bad("version", Wrong::Version)),
        }
    }

    /// Writes the document, indented for people.
    ///
    /// # Errors
    /// Only when memory runs out; every field can be written.
    pub fn to_json(&self) -> Result<String, DocumentError> {
        Ok(serde_json::to_string_pretty(self)?)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use proptest::sample::Index;
    use serde_json::Value;

    use super::*;
    use crate::any_document::{CATALOGUE, any_document};

    /// Takes a text as far as it goes: read, resolved, priced.
    fn take(text: &str) {
        if let Ok(document) = Document::from_json(text)
            && let Ok(resolved) = document.resolve(&CATALOGUE)
        {
            let _ = pricing::price_side(&CATALOGUE, &resolved.deal, &resolved.plan, &resolved.shop);
        }
    }

    fn sample_json() -> String {
        Document::sample().to_json().expect("a document")
    }

    /// Files of each version as they stand: they must always be read.
    const VERSIONS: [&str; 2] = [
        include_str!("../data/version-1.json"),
        include_str!("../data/version-2.json"),
    ];

    #[test]
    fn every_version_is_read_for_good() {
        let mut sample = Document::sample();
        let [first, second] = VERSIONS;
        sample.version = 1;
        assert_eq!(Document::from_json(first), Ok(sample.clone()));
        sample.version = 2;
        sample.currency = "CAD".parse().ok();
        assert_eq!(Document::from_json(second), Ok(sample.clone()));
        assert_eq!(sample.to_json().expect("a document") + "\n", second);
    }

    /// JSON Schema 2020-12, by a validator of general use.
    #[test]
    fn files_keep_to_the_schema_and_bad_ones_do_not() {
        let schema = include_str!("../data/plan.schema.json");
        let schema = serde_json::from_str(schema).expect("JSON");
        let schema = jsonschema::draft202012::new(&schema).expect("a schema");
        let keeps = |text: &str| schema.is_valid(&serde_json::from_str(text).expect("JSON"));
        let [_, second] = VERSIONS;
        assert!(keeps(second));
        for golden in [
            include_str!("../../../tests/published/goldens/ground-and-aged.plan.json"),
            include_str!("../../../tests/published/goldens/hot-with-charges.plan.json"),
            include_str!("../../../tests/published/goldens/bone-in-grass-fed.plan.json"),
        ] {
            let mut document = Document::from_json(golden).expect("a plan");
            document.version = VERSION;
            let written = document.to_json().expect("a document");
            assert!(keeps(&written), "{written}");
        }
        for (from, to) in [
            ("sideworth plan", "recipe"),
            ("\"version\": 2,", "\"version\": 3,"),
            ("\"CAD\"", "\"Dollar\""),
            ("\"180\"", "\"heavy\""),
            ("\"kg\"", "\"stone\""),
            ("\"deal\"", "\"offer\""),
            ("\"cold\"", "\"frozen\""),
        ] {
            assert!(second.contains(from), "{from}");
            assert!(!keeps(&second.replacen(from, to, 1)), "{to}");
        }
    }

    #[test]
    fn a_currency_is_a_code_and_came_with_the_second_version() {
        let refused = |text: String| Document::from_json(&text).expect_err("a bad currency");
        let [first, second] = VERSIONS;
        let early = first.replacen("\"deal\"", "\"currency\": \"CAD\", \"deal\"", 1);
        assert!(matches!(
            refused(early),
            DocumentError::BadValue { at, .. } if at == "currency"
        ));
        for code in ["\"cad\"", "\"Euro\"", "\"\"", "7", "null"] {
            let error = refused(second.replacen("\"CAD\"", code, 1));
            assert!(
                matches!(&error, DocumentError::Malformed(fault) if fault.line == 5),
                "{code}: {error}"
            );
        }
    }

    #[test]
    fn nesting_without_end_is_refused() {
        for open in ["[", "{\"format\":"] {
            let deep = open.repeat(LARGEST_BYTES / open.len());
            assert!(matches!(
                Document::from_json(&deep),
                Err(DocumentError::Malformed(_))
            ));
        }
    }

    #[test]
    fn a_version_that_is_none_is_refused() {
        for version in ["0", "-1", "1.5", "\"1\"", "null", "18446744073709551616"] {
            let json =
                sample_json().replacen("\"version\": 2", &format!("\"version\": {version}"), 1);
            let error = Document::from_json(&json).expect_err(version);
            assert!(!matches!(error, DocumentError::Newer { .. }), "{version}");
        }
        let newest =
            sample_json().replacen("\"version\": 2", "\"version\": 18446744073709551615", 1);
        assert_eq!(
            Document::from_json(&newest),
            Err(DocumentError::Newer { version: u64::MAX })
        );
    }

    /// What could stand where another value belongs.
    fn any_value() -> impl Strategy<Value = Value> {
        prop_oneof![
            1 => Just(Value::Null),
            1 => any::<bool>().prop_map(Value::from),
            1 => any::<i64>().prop_map(Value::from),
            1 => any::<f64>().prop_map(Value::from),
            4 => ".{0,20}".prop_map(Value::from),
            8 => "-?[0-9]{1,12}(\\.[0-9]{1,10})?".prop_map(Value::from),
            1 => Just(Value::Array(vec![Value::Null])),
            1 => Just(Value::Object(serde_json::Map::new())),
        ]
    }

    /// Every value inside `value`, itself first.
    fn places(value: &mut Value) -> usize {
        1 + match value {
            Value::Array(items) => items.iter_mut().map(places).sum(),
            Value::Object(fields) => fields.values_mut().map(places).sum(),
            _ => 0,
        }
    }

    /// Puts `new` in the place counted `index`, itself first.
    fn put(value: &mut Value, index: &mut usize, new: &Value) {
        if *index == 0 {
            *value = new.clone();
        }
        let before = *index;
        *index = index.wrapping_sub(1);
        if before == 0 {
            return;
        }
        match value {
            Value::Array(items) => items.iter_mut().for_each(|item| put(item, index, new)),
            Value::Object(fields) => fields.values_mut().for_each(|field| put(field, index, new)),
            _ => {}
        }
    }

    proptest! {
        #[test]
        fn no_text_panics(text in ".{0,200}") {
            take(&text);
        }

        #[test]
        fn no_slip_in_a_document_panics(
            at in any::<Index>(),
            length in 0_usize..40,
            inserted in "[\\[\\]{}\",:0-9a-z\\\\. -]{0,12}",
        ) {
            let mut characters: Vec<char> = sample_json().chars().collect();
            let from = at.index(characters.len());
            let to = characters.len().min(from + length);
            characters.splice(from..to, inserted.chars());
            take(&characters.into_iter().collect::<String>());
        }

        #[test]
        fn no_value_in_a_wrong_place_panics(
            document in any_document(),
            changes in prop::collection::vec((any::<Index>(), any_value()), 1..4),
        ) {
            let mut value = serde_json::to_value(&document).expect("a document");
            for (place, new) in changes {
                let mut index = place.index(places(&mut value));
                put(&mut value, &mut index, &new);
            }
            take(&value.to_string());
        }

        #[test]
        fn any_document_reads_back_and_resolves_without_panic(document in any_document()) {
            let json = document.to_json().expect("a document");
            take(&json);
            prop_assert_eq!(Document::from_json(&json), Ok(document));
        }
    }
}
