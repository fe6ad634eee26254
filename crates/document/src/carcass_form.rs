//! The saved form of a carcass as it was graded.

use carcass::{BackFat, GradedCarcass, MeasureError, RibeyeArea};
use quantity::{Decimal, Share};
use serde::{Deserialize, Serialize};
use wording::{Text, key};

use crate::amount::{MassAmount, number};
use crate::{DocumentError, Wrong};

/// A whole carcass as the grader measures it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CarcassForm {
    /// Hot weight, both sides together.
    pub hot_weight: MassAmount,
    /// Fat over the ribeye, in `cm`, `mm` or `in`.
    pub back_fat: MeasureAmount,
    /// Area of the ribeye, in `cm2` or `in2`.
    pub ribeye_area: MeasureAmount,
    /// Kidney, pelvic and heart fat, percent of the carcass.
    pub kidney_fat_percent: String,
}

/// A length or an area as text and unit: `{"amount": "0.5", "unit": "in"}`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MeasureAmount {
    /// Plain decimal number.
    pub amount: String,
    /// The unit.
    pub unit: String,
}

impl MeasureAmount {
    fn read<T>(
        &self,
        at: &str,
        wanted: Text,
        unit: impl Fn(&str, Decimal) -> Option<T>,
    ) -> Result<T, DocumentError> {
        let amount = number(&format!("{at}.amount"), &self.amount)?;
        unit(&self.unit, amount).ok_or_else(|| {
            DocumentError::bad(
                format!("{at}.unit"),
                Wrong::Unit {
                    found: self.unit.clone(),
                    wanted,
                },
            )
        })
    }
}

impl CarcassForm {
    /// The carcass.
    ///
    /// # Errors
    /// [`DocumentError::BadValue`] names the measure that no carcass has.
    pub fn resolve(&self) -> Result<GradedCarcass, DocumentError> {
        let weight = self.hot_weight.mass("deal.carcass.hot_weight")?;
        let back_fat = self.back_fat.read(
            "deal.carcass.back_fat",
            key!("cm, mm or in"),
            |unit, amount| match unit {
                "cm" => Some(BackFat::from_cm(amount)),
                "mm" => Some(BackFat::from_mm(amount)),
                "in" => Some(BackFat::from_inches(amount)),
                _ => None,
            },
        )?;
        let ribeye_area = self.ribeye_area.read(
            "deal.carcass.ribeye_area",
            key!("cm2 or in2"),
            |unit, amount| match unit {
                "cm2" => Some(RibeyeArea::from_cm2(amount)),
                "in2" => Some(RibeyeArea::from_square_inches(amount)),
                _ => None,
            },
        )?;
        let at = "deal.carcass.kidney_fat_percent";
        let kidney_fat = Share::from_percent(number(at, &self.kidney_fat_percent)?);
        GradedCarcass::new(weight, back_fat, ribeye_area, kidney_fat).map_err(|error| {
            let field = match error {
                MeasureError::Weight(_) => "deal.carcass.hot_weight",
                MeasureError::BackFat(_) => "deal.carcass.back_fat",
                MeasureError::RibeyeArea(_) => "deal.carcass.ribeye_area",
                MeasureError::KidneyFat(_) => at,
            };
            DocumentError::bad(field, Wrong::Measure(error))
        })
    }
}
