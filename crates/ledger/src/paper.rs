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
pub(crate) const PAPER: &str = "paper.";

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

    /// Whether anything that lies behind a test is kept.
    pub(crate) fn is_kept(kept: &Kept, number: u32) -> bool {
        kept.text(&format!("{PAPER}{number}")).is_some()
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

#[cfg(test)]
mod tests {
    use carcass::Catalogue;
    use decision::spread::normal_deviates;
    use quantity::{Decimal, MassUnit, Rounding, UnitPrice};
    use scale::{ClosedTest, KeptMoney, Line, Tag, Weighing, planned_lines};

    use super::*;
    use crate::ledger::{Ledger, TEST};
    use crate::wire;

    /// What a shop with so many closed tests keeps at the most, in bytes.
    const MOST_BYTES: usize = 1_500_000;
    const TESTS: u32 = 500;

    /// The plan that cuts a side to most: of every part the way with most outputs.
    fn many_cuts(catalogue: &Catalogue) -> Draft {
        let mut draft = Draft::default();
        draft.fill_in_sample();
        for (_, part) in catalogue.parts() {
            let outputs = |way: &&WayId| catalogue[**way].outputs.len();
            if let Some(way) = part.ways.iter().max_by_key(outputs) {
                let way = catalogue[*way].id.clone();
                draft.ways.insert(part.id.clone(), way);
            }
        }
        draft
    }

    /// Every line weighed as two trays that differ from the plan by chance.
    fn weighed(question: &Question, draw: u32) -> WeighIn {
        let catalogue = question.case.catalogue;
        let lines = planned_lines(catalogue, &question.sheet.breakdown);
        let mut deviates = vec![0.0; lines.len()];
        normal_deviates(3, draw.into(), &mut deviates);
        let mut weigh_in = WeighIn::default();
        for (planned, deviate) in lines.iter().zip(deviates) {
            let factor = Decimal::try_from(1.0 + 0.08 * deviate).expect("a number");
            let half = planned.weight.kg() * factor.max(Decimal::ZERO) / Decimal::TWO;
            let half = Rounding::HalfEven.to_places(half, 3);
            if !half.is_sign_positive() || half.is_zero() {
                continue;
            }
            let line = Line {
                product: planned.product,
                way: None,
            };
            for _ in 0..2 {
                let tray = Weighing::new(
                    half + Decimal::new(8, 1),
                    MassUnit::Kilogram,
                    Decimal::new(8, 1),
                );
                weigh_in.add(line, tray.expect("a weighing")).expect("room");
            }
        }
        weigh_in
    }

    fn closed(question: &Question, weigh_in: &WeighIn, number: u32) -> ClosedTest {
        let closing = held(question, weigh_in, Share::ZERO);
        let settled = settle(&closing, weigh_in, 0, Unexplained::Accepted).expect("accepted");
        let money = KeptMoney {
            paid: UnitPrice::from_per_kg(Decimal::new(114, 1)),
            walk_away: UnitPrice::from_per_kg(Decimal::new(118_731, 4)),
            margin: Share::from_fraction(Decimal::new(291_311, 6)),
        };
        let tag = Tag {
            lot: format!("A-{number}"),
            supplier: format!("Invented Supplier {}", number % 7),
            farm: format!("Invented Farm {}", number % 23),
            plant: "Est. 205".to_owned(),
            killed: "2026-03-02".parse().ok(),
            received: "2026-03-09".parse().ok(),
            ..Tag::default()
        };
        let case = &question.case;
        let of = (case.deal.stock, case.deal.sides);
        let breakdown = &question.sheet.breakdown;
        ClosedTest::of(
            case.catalogue,
            breakdown,
            of,
            &settled.weights,
            tag,
            Some(money),
        )
    }

    #[test]
    fn five_hundred_tests_with_their_papers_stay_below_a_megabyte_and_a_half() {
        let published = Catalogue::published().expect("published data");
        let draft = many_cuts(&published);
        let question = question(&draft, &published, Units::Kilograms).expect("a plan");
        let texts: Vec<(String, String)> = (1..=TESTS)
            .map(|number| {
                let test = closed(&question, &weighed(&question, number), number);
                (format!("{TEST}{number}"), test.to_text())
            })
            .collect();
        let texts = texts
            .iter()
            .map(|(key, text)| (key.as_str(), text.as_str()));
        let mut ledger = Ledger::new(published.clone());
        assert!(ledger.take(&wire::take(texts)));
        let alone = ledger.kept.bytes();
        let own = ledger.catalogues().own.clone();
        for number in 1..=TESTS {
            let weigh_in = weighed(&question, number);
            let now = 1_790_000_000_000 + u64::from(number);
            let paper = Paper::of(&draft, &weigh_in, &own, &ledger.kept, now);
            paper.keep(&mut ledger.kept, number);
        }
        assert_eq!(ledger.kept.under(PAPER).count(), MOST_PAPERS);
        let (_, paper) = ledger.kept.under(PAPER).next().expect("a paper");
        let all = ledger.kept.bytes();
        println!(
            "{TESTS} tests of {} lines: {alone} bytes; with {MOST_PAPERS} papers of {}: {all}",
            planned_lines(&published, &question.sheet.breakdown).len(),
            paper.len()
        );
        assert!(all < MOST_BYTES, "{all}");
    }
}
