//! What keeps a draft from being handed on, printed or taken in: what cannot be
//! read, is not known here, or cannot be priced.

use core::fmt;

use carcass::Catalogue;
use draft::reading::{self, each};
use draft::{Draft, Field};
use wording::{say, text};

use crate::field_name::field_name;
use crate::question::Question;

/// The longest text of a field, in characters: more than any number is typed with.
const LONGEST: usize = 80;

/// Signs that show nothing themselves but move or hide what stands about them.
const UNSEEN: [core::ops::RangeInclusive<char>; 4] = [
    '\u{200b}'..='\u{200f}',
    '\u{202a}'..='\u{202e}',
    '\u{2060}'..='\u{206f}',
    '\u{feff}'..='\u{feff}',
];

/// What stands in the way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unfit {
    /// A field, by its name, with what is wrong with it.
    Field(String, String),
    /// Something is named that the catalogue does not have: what kind of thing.
    Unknown(&'static str),
    /// The plan cannot be priced, for this reason.
    Unpriced(String),
}

impl fmt::Display for Unfit {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Field(field, fault) => write!(formatter, "{field}: {fault}"),
            Self::Unknown(kind) => formatter.write_str(&say!(
                "{kind}: this version of the app does not know what is named there. A newer one may: reload the page to get it.",
                kind
            )),
            Self::Unpriced(why) => formatter.write_str(why),
        }
    }
}

/// The plan of a draft as a question.
///
/// # Errors
/// The first field that cannot be read, or why the plan cannot be priced.
pub fn question<'a>(catalogue: &'a Catalogue, draft: &Draft) -> Result<Question<'a>, Unfit> {
    let document = reading::read(draft, catalogue).map_err(|faults| first(catalogue, faults))?;
    Question::about(catalogue, &document, draft.units).map_err(Unfit::Unpriced)
}

/// Holds a draft that came from elsewhere to what can be typed and chosen here,
/// field by field, whether it is of use now or not. Weight and price may be missing.
///
/// # Errors
/// What is wrong first.
pub fn hold(catalogue: &Catalogue, draft: &Draft) -> Result<(), Unfit> {
    names_only_what_there_is(catalogue, draft)?;
    for field in draft.typed_fields() {
        let text = draft.entry(field).text;
        if text.chars().nth(LONGEST).is_some() || text.chars().any(is_no_text) {
            let fault = text!(
                "What stands there is too long, or holds signs that nobody types into this field."
            );
            return Err(Unfit::Field(field_name(catalogue, field), fault.to_owned()));
        }
    }
    let mut whole = draft.clone();
    let mut sample = Draft::default();
    sample.fill_in_sample();
    for field in [Field::Weight, Field::Price] {
        if draft.entry(&field).text.trim().is_empty() {
            whole.type_into(field.clone(), sample.entry(&field).text);
        }
    }
    question(catalogue, &whole)?;
    let faults = each::faults(&whole, catalogue);
    if faults.is_empty() {
        Ok(())
    } else {
        Err(first(catalogue, faults))
    }
}

fn first(catalogue: &Catalogue, faults: reading::Faults) -> Unfit {
    match faults.into_iter().next() {
        Some((field, fault)) => Unfit::Field(field_name(catalogue, &field), fault),
        // Nothing is refused without a fault.
        None => Unfit::Unpriced(String::new()),
    }
}

fn is_no_text(sign: char) -> bool {
    sign.is_control() || UNSEEN.iter().any(|range| range.contains(&sign))
}

fn names_only_what_there_is(catalogue: &Catalogue, draft: &Draft) -> Result<(), Unfit> {
    if catalogue.plan(&draft.plan).is_none() {
        return Err(Unfit::Unknown(text!("Cut plan")));
    }
    for (part, way) in draft.ways.iter().chain(draft.second_ways.iter()) {
        let Some(part) = catalogue.part_id(part) else {
            return Err(Unfit::Unknown(text!("Part")));
        };
        let way = catalogue.way_id(way);
        if way.is_none_or(|way| catalogue[way].part != part) {
            return Err(Unfit::Unknown(text!("Way of cutting")));
        }
    }
    match draft
        .typed_fields()
        .find(|field| !field.is_known_to(catalogue))
    {
        Some(field) => Err(Unfit::Unknown(match field {
            Field::WayMinutes(_) => text!("Way of cutting"),
            Field::SplitPercent(_)
            | Field::AgeingDays(_)
            | Field::AgeingLoss(_)
            | Field::RenderingYield(_) => text!("Part"),
            _ => text!("Cut"),
        })),
        None => Ok(()),
    }
}
