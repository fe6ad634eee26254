//! Metric or not.

use quantity::{MassUnit, PriceUnit};
use serde::{Deserialize, Serialize};

/// The units that weights and prices are shown and typed in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Kilograms and money per kilogram.
    #[default]
    Kilograms,
    /// Pounds and money per pound.
    Pounds,
}

impl Units {
    /// The unit of a mass.
    pub const fn mass(self) -> MassUnit {
        match self {
            Self::Kilograms => MassUnit::Kilogram,
            Self::Pounds => MassUnit::Pound,
        }
    }

    /// The unit of a price.
    pub const fn price(self) -> PriceUnit {
        match self {
            Self::Kilograms => PriceUnit::PerKilogram,
            Self::Pounds => PriceUnit::PerPound,
        }
    }

    /// The units whose mass unit has this symbol.
    pub fn from_symbol(symbol: &str) -> Self {
        match symbol {
            "lb" => Self::Pounds,
            _ => Self::Kilograms,
        }
    }
}
