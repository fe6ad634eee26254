//! The graded carcass of a draft.

use document::DocumentError;
use document::format::{CarcassForm, MeasureAmount};
use quantity::typed;

use super::{Reading, mass_amount, plain};
use crate::{Entry, Field, Units};

/// What is measured, in the order in which a document names it.
const MEASURES: [(Field, &str); 4] = [
    (Field::CarcassWeight, "deal.carcass.hot_weight"),
    (Field::BackFat, "deal.carcass.back_fat"),
    (Field::RibeyeArea, "deal.carcass.ribeye_area"),
    (Field::KidneyFat, "deal.carcass.kidney_fat_percent"),
];

/// How a length may be written, and its unit in a document.
const LENGTHS: &[(&str, &str)] = &[("cm", "cm"), ("mm", "mm"), ("in", "in"), ("\"", "in")];

/// How an area may be written, and its unit in a document.
const AREAS: &[(&str, &str)] = &[
    ("cm²", "cm2"),
    ("cm2", "cm2"),
    ("in²", "in2"),
    ("in2", "in2"),
];

impl Reading<'_> {
    /// The carcass where any measure of it is typed; `None` where none is, or
    /// one cannot be read and is noted.
    pub(super) fn carcass(&mut self) -> Option<CarcassForm> {
        if !MEASURES
            .iter()
            .any(|(field, _)| self.draft.entry(field).own)
        {
            return None;
        }
        let hot_weight = self.field(Field::CarcassWeight, mass_amount);
        let back_fat = self.field(Field::BackFat, |entry| {
            measure(entry, LENGTHS, ["cm", "in"])
        });
        let ribeye_area = self.field(Field::RibeyeArea, |entry| {
            measure(entry, AREAS, ["cm2", "in2"])
        });
        let kidney_fat = self.percent(Field::KidneyFat, |_| None);
        let form = CarcassForm {
            hot_weight: hot_weight?,
            back_fat: back_fat?,
            ribeye_area: ribeye_area?,
            kidney_fat_percent: kidney_fat?,
        };
        match form.resolve() {
            Ok(_) => Some(form),
            Err(error) => {
                self.note_measure(&error);
                None
            }
        }
    }

    /// Notes what no carcass has at the field it was typed in.
    fn note_measure(&mut self, error: &DocumentError) {
        if let DocumentError::BadValue { at, message } = error
            && let Some((field, _)) = MEASURES.iter().find(|(_, path)| at.starts_with(path))
        {
            self.faults.insert(field.clone(), message.clone());
        }
    }
}

/// A length or an area, read in metric or inches where no unit is typed.
fn measure(
    entry: &Entry,
    known: &[(&str, &str)],
    assumed: [&str; 2],
) -> Result<MeasureAmount, String> {
    let text = entry.text.trim();
    let [metric, inches] = assumed;
    let (number, unit) = known
        .iter()
        .find_map(|(suffix, unit)| Some((text.strip_suffix(suffix)?, *unit)))
        .unwrap_or((
            text,
            match entry.units {
                Units::Kilograms => metric,
                Units::Pounds => inches,
            },
        ));
    let number = typed::number(number).map_err(|error| error.to_string())?;
    Ok(MeasureAmount {
        amount: plain(number),
        unit: unit.to_owned(),
    })
}
