//! A file of one plan, taken in as a plan saved by name.

use carcass::Catalogue;
use document::format::FORMAT;
use document::{Document, DocumentError};
use draft::Draft;
use serde::Deserialize;
use wording::text;

use crate::saved::{Saved, tidy};

/// What says of a file that it holds one plan.
#[derive(Deserialize)]
struct Kind {
    format: Option<String>,
}

/// Whether a file says that it holds one plan.
pub fn is_one_plan(file: &str) -> bool {
    serde_json::from_str(file).is_ok_and(|Kind { format }| format.as_deref() == Some(FORMAT))
}

/// The plan of a file, under the name that it has there. `now` is when it is
/// taken in, in milliseconds since 1970 began in UTC: the file does not say when
/// it was last changed.
///
/// # Errors
/// The first thing that is wrong with it, and where.
pub fn read_plan_file(catalogue: &Catalogue, file: &str, now: u64) -> Result<Saved, DocumentError> {
    let document = Document::from_json(file)?;
    document.resolve(catalogue)?;
    Ok(Saved {
        name: tidy(&document.name).unwrap_or_else(|| text!("Plan from a file").to_owned()),
        changed: now,
        revision: 0,
        draft: Draft::of_document(&document)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn catalogue() -> Catalogue {
        Catalogue::published().expect("published data")
    }

    fn sample() -> String {
        Document::sample().to_json().expect("a document")
    }

    #[test]
    fn a_plan_comes_with_its_name_or_with_one_that_says_where_it_is_from() {
        let catalogue = catalogue();
        let read = |file: &str| read_plan_file(&catalogue, file, 7).expect("a plan");
        let plan = read(&sample());
        assert_eq!(plan.name, "Sample side (invented)");
        assert_eq!((plan.changed, plan.revision), (7, 0));
        let back = draft::reading::read(&plan.draft, &catalogue).expect("a plan");
        let resolved = Document::sample().resolve(&catalogue);
        assert_eq!(back.resolve(&catalogue), resolved);
        let nameless = sample().replacen("Sample side (invented)", " ", 1);
        assert_eq!(read(&nameless).name, "Plan from a file");
    }

    #[test]
    fn a_file_of_one_plan_is_told_from_others() {
        assert!(is_one_plan(&sample()));
        for other in [
            "",
            "[]",
            "{",
            "{\"sideworth\": \"saved plans\"}",
            "{\"format\": 1}",
        ] {
            assert!(!is_one_plan(other), "{other}");
        }
    }

    #[test]
    fn what_is_wrong_is_said_with_its_place() {
        let catalogue = catalogue();
        for (from, to, place) in [
            ("\"boneless\"", "\"boneful\"", "plan.base"),
            ("\"180\"", "\"heavy\"", "deal.weight.amount"),
            (
                "\"grass_percent\": \"0\"",
                "\"grass_percent\": \"0.5\"",
                "deal.grass_percent",
            ),
            ("\"deal\"", "\"offer\"", "Line 5"),
        ] {
            let file = sample();
            assert!(file.contains(from), "{from}");
            let said = read_plan_file(&catalogue, &file.replacen(from, to, 1), 7)
                .expect_err("a fault")
                .to_string();
            assert!(said.contains(place), "{place}: {said}");
        }
    }
}
