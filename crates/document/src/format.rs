//! Version 1 of a saved plan, field by field.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::DocumentError;
use crate::amount::{MassAmount, PriceAmount};

/// What the field `format` says.
pub const FORMAT: &str = "sideworth plan";

/// The version that is written, and the newest that is read.
pub const VERSION: u64 = 1;

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
    /// Priced weight.
    pub weight: MassAmount,
    /// What it is a weight of.
    pub basis: BasisForm,
    /// Price of it.
    pub price: PriceAmount,
    /// Charges on top.
    pub charges: Vec<ChargeForm>,
    /// Percent of the way from grain-fed (0) to grass-fed (100).
    pub grass_percent: String,
    /// Minutes for the whole side; `null` for the plan's own estimate.
    pub labour_minutes: Option<String>,
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
        shrink_percent: String,
    },
    /// Half of the live animal.
    Live {
        /// Carcass weight as a share of live weight.
        dressing_percent: String,
        /// Loss in the cooler.
        shrink_percent: String,
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

/// A cut plan: a named plan and what differs from it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanForm {
    /// Id of the named plan it starts from.
    pub base: String,
    /// Part id to way id, for the parts that differ.
    pub ways: BTreeMap<String, String>,
}

/// What does not change from side to side.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ShopForm {
    /// Cost of an hour at the bench.
    pub labour_per_hour: String,
    /// Target margin on sales.
    pub target_margin_percent: String,
    /// Packaging for each weight of cuts.
    pub packaging: PriceAmount,
    /// Share of cut weight never sold.
    pub unsold_percent: String,
    /// Method of dividing joint cost.
    pub method: MethodForm,
    /// Product id to the shop's own price.
    pub board: BTreeMap<String, PriceAmount>,
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
            Some(VERSION) => Ok(serde_json::from_str(text)?),
            _ => Err(DocumentError::bad(
                "version",
                format!("it must be a number from 1 to {VERSION}"),
            )),
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
