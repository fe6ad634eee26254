//! The data files as they stand in `data/`, carried inside the binary: the
//! tool works offline, so there is nothing to load them from.

use crate::table::DataFile;

macro_rules! file {
    ($name:literal) => {
        DataFile {
            name: concat!($name, ".csv"),
            text: include_str!(concat!("../data/", $name, ".csv")),
        }
    };
}

pub(crate) const SOURCES: DataFile = file!("sources");
pub(crate) const PARTS: DataFile = file!("parts");
pub(crate) const PRODUCTS: DataFile = file!("products");
pub(crate) const GROUPS: DataFile = file!("groups");
pub(crate) const WAYS: DataFile = file!("ways");
pub(crate) const SHARES: DataFile = file!("shares");
pub(crate) const PLANS: DataFile = file!("plans");
pub(crate) const STOCK: DataFile = file!("stock");
pub(crate) const CAUTIONS: DataFile = file!("cautions");
pub(crate) const SAMPLE_BOARD: DataFile = file!("sample-board");
pub(crate) const GRIND_CLASSES: DataFile = file!("grind-classes");
pub(crate) const AGEING: DataFile = file!("ageing");
pub(crate) const HANGING: DataFile = file!("hanging");
pub(crate) const YIELD_GRADE: DataFile = file!("yield-grade");
pub(crate) const SPREAD: DataFile = file!("spread");
pub(crate) const NAMES_FR: DataFile = file!("names-fr");
pub(crate) const NAMES_ES: DataFile = file!("names-es");
