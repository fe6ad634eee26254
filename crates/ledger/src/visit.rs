//! What comes with a request: the day, the units, the draft, what is typed.

use std::collections::BTreeMap;

use carcass::Catalogue;
use draft::Draft;
use notation::Units;
use scale::grinding_log::Moment;

use crate::entries::Entries;

/// What comes with a request.
pub(crate) struct Visit {
    /// The draft in its kept form; nothing where it cannot be read as a plan.
    pub(crate) draft: Option<Draft>,
    /// Milliseconds since 1970 began in UTC.
    pub(crate) now: u64,
    /// The day and time of it at the place.
    pub(crate) today: Moment,
    /// The units in force.
    pub(crate) units: Units,
    /// Where the page stands.
    pub(crate) address: String,
    /// What is typed and chosen.
    pub(crate) entries: Entries,
    /// Why what was asked was not done, by the field that it is about; under no
    /// name what is about no field.
    pub(crate) faults: BTreeMap<String, String>,
}

/// What was asked for is not done.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Refusal {
    /// The field that it is about; nothing where there is none.
    pub(crate) at: String,
    /// A sentence that says why, and what would be right.
    pub(crate) why: String,
}

impl Refusal {
    /// About a field.
    pub(crate) fn at(name: impl Into<String>, why: impl core::fmt::Display) -> Self {
        Self {
            at: name.into(),
            why: why.to_string(),
        }
    }

    /// About no field.
    pub(crate) fn new(why: impl core::fmt::Display) -> Self {
        Self::at("", why)
    }
}

/// What came of something that was asked for.
pub(crate) enum Done {
    /// It is done: the page is shown anew.
    Shown,
    /// A file to hand out.
    File(File),
    /// A paper for the printer, as a piece of the page.
    Paper(String),
}

/// A file to hand out.
pub(crate) struct File {
    /// Its name.
    pub(crate) name: String,
    /// Its media type.
    pub(crate) media_type: &'static str,
    /// What is in it.
    pub(crate) content: String,
}

/// What comes of a request: nothing where the part of the ledger that was asked
/// does not know it.
pub(crate) type Outcome = Option<Result<Done, Refusal>>;

/// The published catalogue and the one with the shop's own yields.
#[derive(Clone, Copy)]
pub(crate) struct Catalogues<'a> {
    /// As published.
    pub(crate) published: &'a Catalogue,
    /// With the shop's own yields.
    pub(crate) own: &'a Catalogue,
}
