//! What lies behind a closed test: the plan it was held against and what the
//! scale said, so that its report can be written again. The last ones are kept;
//! the test itself is kept for good.

use advice::Question;
use carcass::Catalogue;
use carcass::WayId;
use draft::Draft;
use form_urlencoded::Serializer;
use litemap::LiteMap;
use notation::Units;
use quantity::{Minutes, Share};
use scale::{ClosedWeights, Closing, NotClosed, Unexplained, WeighIn, close};

use crate::bench::{in_order, question};
use crate::kept::{Kept, YIELDS};

/// Before the number of the test.
const PAPER: &str = "paper.";

/// Of so many tests the report can be written again.
pub(crate) const MOST_PAPERS: usize = 40;

/// What lies behind a closed test.
pub(crate) struct Paper {
    /// The plan.
    pub(crate) draft: Draft,
    /// When the test was closed, in milliseconds since 1970 began in UTC.
    pub(crate) closed: u64,
    /// What the scale said.
    weighed: String,
    /// The own yields that the plan was reckoned with.
    yields: String,
}

/// A side whose weights are settled.
pub(crate) struct Settled {
    /// Its weights.
    pub(crate) weights: ClosedWeights,
    /// Minutes by way, where some were taken down.
    pub(crate) minutes: LiteMap<WayId, Minutes>,
}

impl Paper {
    /// What lies behind a test that is closed now.
    pub(crate) fn of(
        draft: &Draft,
        weigh_in: &WeighIn,
        catalogue: &Catalogue,
        kept: &Kept,
        now: u64,
    ) -> Self {
        Self {
            draft: draft.clone(),
            closed: now,
            weighed: weigh_in.to_text(catalogue),
            yields: kept.text(YIELDS).unwrap_or_default().to_owned(),
        }
    }

    /// Keeps it, and lets go of the oldest one that is one too many.
    pub(crate) fn keep(&self, kept: &mut Kept, number: u32) {
        let text = Serializer::new(String::new())
            .append_pair("closed", &self.closed.to_string())
            .append_pair("draft", &self.draft.to_text())
            .append_pair("weighed", &self.weighed)
            .append_pair("yields", &self.yields)
            .append_pair("end", "")
            .finish();
        kept.put(&format!("{PAPER}{number}"), text);
        let mut numbers: Vec<u32> = kept
            .under(PAPER)
            .filter_map(|(number, _)| number.parse().ok())
            .collect();
        numbers.sort_unstable();
        let too_many = numbers.len().saturating_sub(MOST_PAPERS);
        for number in numbers.into_iter().take(too_many) {
            Self::drop(kept, number);
        }
    }

    /// Lets go of what lies behind a test.
    pub(crate) fn drop(kept: &mut Kept, number: u32) {
        kept.remove(&format!("{PAPER}{number}"));
    }

    /// What lies behind a test, where it is kept and can be read.
    pub(crate) fn of_test(kept: &Kept, number: u32) -> Option<Self> {
        let text = kept.text(&format!("{PAPER}{number}"))?;
        let mut next = in_order(text);
        let paper = Self {
            closed: next("closed")?.parse().ok()?,
            draft: Draft::of_text(&next("draft")?)?,
            weighed: next("weighed")?,
            yields: next("yields")?,
        };
        next("end")?;
        Some(paper)
    }

    /// The catalogue that the plan was reckoned with.
    pub(crate) fn catalogue(&self, published: &Catalogue) -> Catalogue {
        let mut catalogue = published.clone();
        catalogue.lay_own(&self.yields);
        catalogue
    }

    /// The plan worked out by [`Paper::catalogue`].
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

    /// What the scale said, settled. What was not explained was accepted when it
    /// was closed.
    ///
    /// # Errors
    /// A sentence that says why it cannot be.
    pub(crate) fn settled(&self, question: &Question) -> Result<Settled, String> {
        let catalogue = question.case.catalogue;
        let back = WeighIn::of_text(catalogue, &self.weighed).map_err(|error| error.to_string())?;
        let closing = held(question, &back.weigh_in, Share::ZERO);
        settle(&closing, &back.weigh_in, self.closed, Unexplained::Accepted)
            .map_err(|error| error.to_string())
    }
}

/// A weigh-in held against its plan.
pub(crate) fn held(question: &Question, weigh_in: &WeighIn, tolerance: Share) -> Closing {
    let catalogue = question.case.catalogue;
    close(catalogue, &question.sheet.breakdown, weigh_in, tolerance)
}

/// The weights and times of a weigh-in that is closed `now`.
///
/// # Errors
/// As [`Closing::settle`].
pub(crate) fn settle(
    closing: &Closing,
    weigh_in: &WeighIn,
    now: u64,
    unexplained: Unexplained,
) -> Result<Settled, NotClosed> {
    let weights = closing.settle(unexplained)?;
    let minutes = weigh_in
        .times()
        .iter()
        .filter_map(|(way, _)| Some((*way, weigh_in.minutes(*way, now)?)))
        .collect();
    Ok(Settled { weights, minutes })
}
