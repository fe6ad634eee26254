//! The graded carcass of a draft.

use ::carcass::MeasureError;
use document::format::{CarcassForm, MeasureAmount};
use document::{DocumentError, Wrong};
use quantity::typed;

use super::{Reading, mass_amount, plain};
use crate::{Entry, Field, Units};

/// What is measured.
const MEASURES: [Field; 4] = [
    Field::CarcassWeight,
    Field::BackFat,
    Field::RibeyeArea,
    Field::KidneyFat,
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
        if !MEASURES.iter().any(|field| self.draft.entry(field).own) {
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
            // What no carcass has is told at the field it was typed in.
            Err(DocumentError::BadValue {
                wrong: Wrong::Measure(error),
                ..
            }) => {
                self.faults.insert(measured(&error), error.to_string());
                None
            }
            // What was typed reads as numbers in known units: nothing else can be wrong.
            _ => Some(form),
        }
    }
}

/// Where what is refused was typed.
fn measured(error: &MeasureError) -> Field {
    match error {
        MeasureError::Weight(_) => Field::CarcassWeight,
        MeasureError::BackFat(_) => Field::BackFat,
        MeasureError::RibeyeArea(_) => Field::RibeyeArea,
        MeasureError::KidneyFat(_) => Field::KidneyFat,
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

#[cfg(test)]
mod tests {
    use ::carcass::Catalogue;

    use crate::reading::read;
    use crate::{Draft, Field};

    #[test]
    fn a_measure_that_no_carcass_has_is_told_at_its_field() {
        let catalogue = Catalogue::published().expect("published data");
        let fault = |wrong: (Field, &str)| {
            let mut draft = Draft::default();
            draft.fill_in_sample();
            for (field, text) in [
                (Field::CarcassWeight, "700 lb"),
                (Field::BackFat, "0.5 in"),
                (Field::RibeyeArea, "12.5 in²"),
                (Field::KidneyFat, "2.5"),
                wrong,
            ] {
                draft.type_into(field, text.to_owned());
            }
            let faults = read(&draft, &catalogue).expect_err("a fault");
            let told: Vec<_> = faults.iter().collect();
            assert_eq!(told.len(), 1, "{told:?}");
            (told[0].0.clone(), told[0].1.clone())
        };
        for (field, text, said) in [
            (
                Field::CarcassWeight,
                "20 kg",
                "the hot carcass weight of 20 kg must be 50 to 800 kg (110 to 1764 lb): the whole \
                 carcass, both sides together",
            ),
            (
                Field::BackFat,
                "90 mm",
                "the back fat of 9 cm must be 0 to 8 cm (0 to 3.15 in)",
            ),
            (
                Field::RibeyeArea,
                "8 cm²",
                "the ribeye area of 8 cm² must be 20 to 200 cm² (3.1 to 31 in²)",
            ),
            (
                Field::KidneyFat,
                "13",
                "the kidney fat of 13 % must be 0 to 12 % of the carcass",
            ),
        ] {
            assert_eq!(fault((field.clone(), text)), (field, said.to_owned()));
        }
    }
}
