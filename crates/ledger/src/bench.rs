//! The side at the block: its plan as it stood when the weigh-in was begun, and
//! what was weighed of it so far.

use advice::Question;
use carcass::Catalogue;
use draft::{Draft, reading};
use form_urlencoded::Serializer;
use notation::Units;
use scale::WeighIn;

use crate::kept::Kept;

/// The key of the plan of the side at the block.
const PLAN: &str = "bench";

/// The key of what was weighed of it.
const WEIGHED: &str = "weighed";

/// The side at the block.
pub(crate) struct Bench {
    /// Its plan, as it stood when the weigh-in was begun.
    pub(crate) draft: Draft,
    /// When that was, in milliseconds since 1970 began in UTC.
    pub(crate) begun: u64,
    /// What was weighed so far.
    pub(crate) weigh_in: WeighIn,
    /// Whether the last line of what was kept was lost to a cut-off.
    pub(crate) was_cut_off: bool,
}

/// Why there is no side at the block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum NoBench {
    /// None was begun.
    Empty,
    /// What is kept of it cannot be read.
    Damaged,
}

impl Bench {
    /// Begins a weigh-in.
    pub(crate) fn begin(draft: Draft, now: u64) -> Self {
        Self {
            draft,
            begun: now,
            weigh_in: WeighIn::default(),
            was_cut_off: false,
        }
    }

    /// The side at the block as it is kept.
    ///
    /// # Errors
    /// [`NoBench`] where there is none.
    pub(crate) fn of(kept: &Kept, catalogue: &Catalogue) -> Result<Self, NoBench> {
        let plan = kept.text(PLAN).ok_or(NoBench::Empty)?;
        let (begun, draft) = read_plan(plan).ok_or(NoBench::Damaged)?;
        let (weigh_in, was_cut_off) = match kept.text(WEIGHED) {
            None => (WeighIn::default(), false),
            Some(text) => {
                let back = WeighIn::of_text(catalogue, text).map_err(|_| NoBench::Damaged)?;
                (back.weigh_in, back.cut_off.is_some())
            }
        };
        Ok(Self {
            draft,
            begun,
            weigh_in,
            was_cut_off,
        })
    }

    /// Keeps it. The plan is only written where it is another, so that a
    /// weighing costs one short writing.
    pub(crate) fn keep(&self, kept: &mut Kept, catalogue: &Catalogue) {
        kept.put(PLAN, plan_text(self.begun, &self.draft));
        kept.put(WEIGHED, self.weigh_in.to_text(catalogue));
    }

    /// Clears the block.
    pub(crate) fn clear(kept: &mut Kept) {
        kept.remove(PLAN);
        kept.remove(WEIGHED);
    }

    /// The plan worked out.
    ///
    /// # Errors
    /// A sentence that says why it cannot be.
    pub(crate) fn question<'a>(
        &self,
        catalogue: &'a Catalogue,
        units: Units,
    ) -> Result<Question<'a>, String> {
        question(&self.draft, catalogue, units)
    }
}

/// A draft worked out.
///
/// # Errors
/// A sentence that says why it cannot be.
pub(crate) fn question<'a>(
    draft: &Draft,
    catalogue: &'a Catalogue,
    units: Units,
) -> Result<Question<'a>, String> {
    let document = reading::read(draft, catalogue).map_err(|faults| {
        faults
            .values()
            .next()
            .map(ToString::to_string)
            .unwrap_or_default()
    })?;
    Question::about(catalogue, &document, units)
}

/// A plan and when its weigh-in was begun, as text.
pub(crate) fn plan_text(begun: u64, draft: &Draft) -> String {
    Serializer::new(String::new())
        .append_pair("begun", &begun.to_string())
        .append_pair("draft", &draft.to_text())
        .append_pair("end", "")
        .finish()
}

/// The pairs of a text one after the other; `None` where another name stands, so
/// that a text that was cut off is never read as a shorter one.
pub(crate) fn in_order(text: &str) -> impl FnMut(&str) -> Option<String> {
    let mut pairs = form_urlencoded::parse(text.as_bytes());
    move |name| {
        let (found, value) = pairs.next()?;
        (found == name).then(|| value.into_owned())
    }
}

/// Reads what [`plan_text`] wrote.
pub(crate) fn read_plan(text: &str) -> Option<(u64, Draft)> {
    let mut next = in_order(text);
    let begun = next("begun")?.parse().ok()?;
    let draft = Draft::of_text(&next("draft")?)?;
    next("end")?;
    Some((begun, draft))
}
