//! A side of beef: its parts, the ways to break them, the cuts they give and
//! how all of it moves with the stock.
//!
//! The figures are data, in `data/*.csv`, each line with its source and mark;
//! the code knows no cut by name. [`Catalogue::published`] loads and checks
//! them, [`break_down`] turns a chilled side into the weight of every part,
//! cut, by-product and loss.
//!
//! Shares of a way sum to exactly one at every stock, so a breakdown conserves
//! mass to the last digit.

mod data;
mod grinding;
mod ground_anew;
mod loading;
mod packing;
mod table;
mod trim_row;

pub mod blend;
pub mod breakdown;
mod brief;
pub mod catalogue;
pub mod checks;
pub mod dry_ageing;
pub mod expected_yield;
pub mod fat_ledger;
pub mod grade;
pub mod grind_plan;
pub mod hanging;
pub mod lacking;
pub mod naming;
mod own_text;
pub mod own_yields;
pub mod plan;
mod rendering;
pub mod reshared;
pub mod spread;
pub mod stock;

pub use blend::{Batch, Blend, Portion, RanOut, Wanted, leaner_share};
pub use breakdown::{Breakdown, Node, What, break_down};
pub use catalogue::{
    Catalogue, Caution, Kind, Mark, NamedPlan, Output, Part, PartId, Product, ProductId, Role,
    Source, Way, WayId, WayOutput,
};
pub use dry_ageing::{AgeingLoss, AgeingPoint, DryAgeing};
pub use expected_yield::{ExpectedYield, StockMatch};
pub use fat_ledger::{BlendError, FatLedger, GrindClass, Trim};
pub use grade::{BackFat, GradedCarcass, MeasureError, RibeyeArea, YieldGrade};
pub use grind_plan::{GrindAmount, GrindPlan};
pub use grinding::GroundClass;
pub use hanging::{CoolerShrink, HangingError, HangingLoss};
pub use naming::{Names, NamesIn, OtherNames};
pub use own_yields::{OwnEnds, OwnSharesError, StockEnd};
pub use packing::NotPacked;
pub use plan::{Ageing, Choice, CutPlan};
pub use spread::{GroupSpread, Spread, SpreadFigure};
pub use stock::{Stock, StockPreset};
pub use table::DataError;
