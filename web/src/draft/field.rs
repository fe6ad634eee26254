//! The fields that take typed text.

use document::Document;
use document::format::PackagingForm;
use serde::{Deserialize, Serialize};

/// A field that takes typed text.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Field {
    /// Priced weight of the side.
    Weight,
    /// Price of that weight.
    Price,
    /// Working time for the side.
    LabourMinutes,
    /// Cost of an hour at the bench.
    LabourRate,
    /// Margin that a side should make.
    TargetMargin,
    /// Loss in the cooler.
    Shrink,
    /// Carcass weight as a share of live weight.
    Dressing,
    /// Charges once for the side.
    FlatCharge,
    /// Charges for each priced weight.
    WeightCharge,
    /// Packaging for each weight of cuts.
    Packaging,
    /// Share of cut weight never sold.
    Unsold,
    /// Price of the product with this id.
    #[serde(skip)]
    Board(String),
}

impl Field {
    /// The id of its input in the page.
    pub fn id(&self) -> String {
        match self {
            Self::Weight => "side-weight".to_owned(),
            Self::Price => "side-price".to_owned(),
            Self::LabourMinutes => "labour-minutes".to_owned(),
            Self::LabourRate => "labour-rate".to_owned(),
            Self::TargetMargin => "target-margin".to_owned(),
            Self::Shrink => "shrink".to_owned(),
            Self::Dressing => "dressing".to_owned(),
            Self::FlatCharge => "flat-charge".to_owned(),
            Self::WeightCharge => "weight-charge".to_owned(),
            Self::Packaging => "packaging".to_owned(),
            Self::Unsold => "unsold".to_owned(),
            Self::Board(product) => format!("price-{product}"),
        }
    }

    /// What stands in it until something is typed. Prices have their sample
    /// in the catalogue, labour its estimate in the plan.
    pub fn sample(&self) -> String {
        let shop = Document::sample().shop;
        match self {
            Self::LabourRate => shop.labour_per_hour,
            Self::TargetMargin => shop.target_margin_percent,
            Self::Packaging => match shop.packaging {
                PackagingForm::PerWeight(price) => price.amount,
                PackagingForm::PerPack { cost, .. } => cost,
            },
            Self::Unsold => shop.losses.unsold,
            // Middle of the published ranges; see stock.md's sources in the README.
            Self::Shrink => "1.5".to_owned(),
            Self::Dressing => "61.5".to_owned(),
            Self::FlatCharge | Self::WeightCharge => "0".to_owned(),
            Self::Weight | Self::Price | Self::LabourMinutes | Self::Board(_) => String::new(),
        }
    }
}
