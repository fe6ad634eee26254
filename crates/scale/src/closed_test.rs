//! A cutting test that is closed: the side's tag, what came off every way, and
//! what the side paid. It is what the shop learns from, and is kept for good.
//!
//! ```text
//! cutting-test 1
//! side <lot> <supplier> <farm> <plant> <killed> <received> <half> <age> <°C>
//! claim <what> <document>
//! cut <grass share> <sides> <kg> <unexplained kg> <accepted> <left-out>
//! money <paid per kg> <walk-away per kg> <margin>
//! w <way> <mark of its outputs> <kg> <kg> …
//! end <lines>
//! ```
//!
//! Weights are kept to a tenth of a gram, finer than any scale at a block. Ways
//! are kept by their ids and the weights of their outputs in order, with a mark
//! that is made of the ids of these: where a later catalogue does not know a way,
//! or has another list of what it gives, the test is still one of all others.

use std::collections::BTreeMap;

use carcass::{Breakdown, Catalogue, Output, ProductId, Stock};
use pricing::Verdict;
use quantity::{Decimal, Mass, Rounding, Share, UnitPrice};
use wording::{Text, key};

use crate::closing::ClosedWeights;
use crate::composition::way_weights;
use crate::form::{FormError, Record, Words, Writer, written};
use crate::kept_way::{KeptWay, KnownWays, Mark};
use crate::learning::TestedSide;
use crate::tag::{Tag, signed};

/// What the first line begins with.
const KIND: &str = "cutting-test";

/// The version that is written, and the newest that is read.
const VERSION: u32 = 1;

/// The most bytes of the text.
pub const LARGEST_BYTES: usize = 64 * 1024;

/// The most lines between the first and the last.
const MOST_LINES: usize = 1000;

/// Decimal places of a weight in kilograms and of a price per kilogram.
const PLACES: u32 = 4;

/// What the side paid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct KeptMoney {
    /// Price paid for each unit of the priced weight.
    pub paid: UnitPrice,
    /// The walk-away price that what came off it makes.
    pub walk_away: UnitPrice,
    /// Share of sales left.
    pub margin: Share,
}

/// A closed cutting test.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClosedTest {
    /// The tag of the side.
    pub tag: Tag,
    /// How the animal was finished.
    pub stock: Stock,
    /// How many sides were weighed together.
    pub sides: u32,
    /// The chilled weight, all sides together.
    pub chilled: Mass,
    /// What the scale did not find; below nothing where it found too much.
    pub unexplained: Mass,
    /// Whether that was beyond the tolerance and accepted.
    pub was_accepted: bool,
    /// Whether the shop does not want to learn from it.
    pub is_left_out: bool,
    /// What the side paid, where it was priced.
    pub money: Option<KeptMoney>,
    /// What came off every way.
    pub ways: Vec<KeptWay>,
}

fn cut(mass: Mass) -> Mass {
    Mass::from_kg(Rounding::HalfEven.to_places(mass.kg(), PLACES))
}

impl KeptMoney {
    /// What a verdict says, to the digits that are kept.
    pub fn of(paid: UnitPrice, verdict: &Verdict) -> Self {
        let price = |price: UnitPrice| {
            UnitPrice::from_per_kg(Rounding::HalfEven.to_places(price.per_kg(), PLACES))
        };
        Self {
            paid: price(paid),
            walk_away: price(verdict.walk_away),
            margin: Share::from_fraction(
                Rounding::HalfEven.to_places(verdict.margin.fraction(), PLACES + 2),
            ),
        }
    }
}

impl ClosedTest {
    /// What is kept of a side that was closed.
    pub fn of(
        catalogue: &Catalogue,
        breakdown: &Breakdown,
        (stock, sides): (Stock, u32),
        weights: &ClosedWeights,
        tag: Tag,
        money: Option<KeptMoney>,
    ) -> Self {
        let ways = way_weights(catalogue, breakdown, &weights.pieces)
            .into_iter()
            .map(|seen| {
                let outputs = seen.outputs.into_iter().map(cut).collect();
                KeptWay::new(catalogue, seen.way, outputs)
            })
            .collect();
        Self {
            tag,
            stock,
            sides,
            chilled: cut(weights.pieces.iter().copied().sum()),
            unexplained: cut(weights.unexplained),
            was_accepted: weights.was_accepted,
            is_left_out: false,
            money,
            ways,
        }
    }

    /// What of it can be learnt from by a catalogue whose ways these are, and the ids
    /// of the ways that it does not know or that give other things in it.
    pub fn tested(&self, known: &KnownWays) -> (TestedSide, Vec<&str>) {
        let mut unknown = Vec::new();
        let mut ways = Vec::new();
        for kept in &self.ways {
            match kept.resolved(known) {
                Some(way) => ways.push(way),
                None => unknown.push(kept.way.as_str()),
            }
        }
        let tested = TestedSide {
            stock: self.stock,
            sides: self.sides,
            ways,
        };
        (tested, unknown)
    }

    /// What came off the side, with its weight: nothing of which nothing was
    /// weighed. There is no weight where a way gives other things by now, so that
    /// it is not known any more which of them weighed what.
    pub fn gave(&self, catalogue: &Catalogue) -> BTreeMap<ProductId, Option<Mass>> {
        let mut gave: BTreeMap<ProductId, Option<Mass>> = BTreeMap::new();
        let known = KnownWays::of(catalogue);
        for kept in &self.ways {
            let Some(way) = catalogue.way_id(&kept.way) else {
                continue;
            };
            let resolved = kept.resolved(&known);
            for (place, output) in catalogue[way].outputs.iter().enumerate() {
                let Output::Product(product) = output.output else {
                    continue;
                };
                let weight = resolved
                    .as_ref()
                    .map(|way| way.outputs.get(place).copied().unwrap_or_default());
                if weight.is_none_or(Mass::is_positive) {
                    let sum = gave.entry(product).or_insert(Some(Mass::ZERO));
                    *sum = sum.zip(weight).map(|(sum, weight)| sum + weight);
                }
            }
        }
        gave
    }

    /// Whether it is of the same side: all was weighed the same to the tenth of a
    /// gram, whatever was put right since. Where nothing was weighed the tags tell.
    pub fn is_same_side(&self, other: &Self) -> bool {
        let mut weights = self.ways.iter().flat_map(|kept| &kept.outputs);
        self.ways == other.ways
            && (self.chilled, self.unexplained) == (other.chilled, other.unexplained)
            && (self.stock, self.sides) == (other.stock, other.sides)
            && (weights.any(|weight| weight.is_positive()) || self.tag == other.tag)
    }

    /// As text.
    pub fn to_text(&self) -> String {
        let mut writer = Writer::new(KIND, VERSION);
        self.tag.write(&mut writer);
        let yes = |is: bool| if is { "yes" } else { "no" };
        writer.line([
            "cut",
            &written(self.stock.share_of_grass().fraction()),
            &self.sides.to_string(),
            &written(cut(self.chilled).kg()),
            &written(cut(self.unexplained).kg()),
            yes(self.was_accepted),
            yes(self.is_left_out),
        ]);
        if let Some(money) = &self.money {
            writer.line([
                "money",
                &written(money.paid.per_kg().round_dp(PLACES)),
                &written(money.walk_away.per_kg().round_dp(PLACES)),
                &written(money.margin.fraction().round_dp(PLACES + 2)),
            ]);
        }
        for kept in &self.ways {
            let weights: Vec<String> = kept
                .outputs
                .iter()
                .map(|weight| written(cut(*weight).kg()))
                .collect();
            writer.line(
                ["w", &kept.way, &kept.mark.to_string()]
                    .into_iter()
                    .chain(weights.iter().map(String::as_str)),
            );
        }
        writer.finish()
    }

    /// What a text holds. A test is kept whole or not at all: one that was cut
    /// off is refused.
    ///
    /// # Errors
    /// [`FormError`] names the line and says what should stand there.
    pub fn of_text(text: &str) -> Result<Self, FormError> {
        let record = Record::of(text, KIND, VERSION, LARGEST_BYTES, MOST_LINES)?;
        record.whole()?;
        let mut lines = record.lines().peekable();
        let mut next = |mark: &'static str| -> Option<Words> {
            let mut words = lines.next_if(|words| words.is_marked(mark))?;
            words.next_if_any();
            Some(words)
        };
        let missing = |wanted: Text| record.missing(wanted);
        let mut words = next("side").ok_or_else(|| missing(key!("the tag of the side")))?;
        let mut tag = Tag::read(&mut words)?;
        words.end()?;
        while let Some(mut words) = next("claim") {
            tag.read_claim(&mut words)?;
            words.end()?;
        }
        let mut words = next("cut").ok_or_else(|| missing(key!("what was cut")))?;
        let grass = Share::from_fraction(words.number(key!("a share of grass"))?);
        let sides = words.read(key!("a number of sides"), |word| {
            word.parse()
                .ok()
                .filter(|sides| (1..=pricing::deal::MOST_SIDES).contains(sides))
        })?;
        let chilled = Mass::from_kg(words.number(key!("a weight"))?);
        let unexplained = Mass::from_kg(words.read(key!("a weight"), signed)?);
        let is_yes = |word: &str| match word {
            "yes" => Some(true),
            "no" => Some(false),
            _ => None,
        };
        let was_accepted = words.read(key!("yes or no"), is_yes)?;
        let is_left_out = words.read(key!("yes or no"), is_yes)?;
        words.end()?;
        let money = match next("money") {
            None => None,
            Some(mut words) => {
                let price = |number: Decimal| UnitPrice::from_per_kg(number);
                let money = KeptMoney {
                    paid: price(words.read(key!("a price"), signed)?),
                    walk_away: price(words.read(key!("a price"), signed)?),
                    margin: Share::from_fraction(words.read(key!("a margin"), signed)?),
                };
                words.end()?;
                Some(money)
            }
        };
        let mut ways = Vec::new();
        while let Some(mut words) = next("w") {
            let way = words.text(key!("a way"))?;
            let mark = words.read(key!("the mark of its outputs"), Mark::of_text)?;
            let mut outputs = Vec::new();
            while words.has_more() {
                outputs.push(Mass::from_kg(words.number(key!("a weight"))?));
            }
            ways.push(KeptWay { way, mark, outputs });
        }
        if let Some(mut words) = lines.next() {
            let found = words.plain(key!("the mark w"))?;
            return Err(words.bad(key!("the mark w"), found));
        }
        Ok(Self {
            tag,
            stock: Stock::grass_share(grass),
            sides,
            chilled,
            unexplained,
            was_accepted,
            is_left_out,
            money,
            ways,
        })
    }
}

#[cfg(test)]
mod tests {
    use carcass::break_down;
    use pricing::Age;
    use proptest::prelude::*;

    use super::*;
    use crate::any_side::{CATALOGUE, simulated};
    use crate::form::Fault;
    use crate::tag::{Claim, Half};

    fn tag() -> Tag {
        Tag {
            lot: "A 17/3".to_owned(),
            supplier: "Öst & Söhne".to_owned(),
            farm: String::new(),
            plant: "Est. 205".to_owned(),
            killed: "2026-03-02".parse().ok(),
            received: "2026-03-09".parse().ok(),
            half: Half::Left,
            age: Age::Under30Months,
            celsius: Some(Decimal::new(-15, 1)),
            claims: vec![Claim {
                what: "grass-fed".to_owned(),
                document: "affidavit 12".to_owned(),
            }],
        }
    }

    fn closed(seed: u64) -> (ClosedTest, Vec<Mass>, Breakdown) {
        let plan = &CATALOGUE.plan("boneless").expect("a plan").plan;
        let weight = Mass::from_kg(Decimal::from(180));
        let side = break_down(&CATALOGUE, weight, 1, plan, Stock::GRASS);
        let pieces = simulated(&CATALOGUE, &side, seed, 0);
        let weights = ClosedWeights {
            unexplained: Mass::from_kg(Decimal::new(-25, 2)),
            ..ClosedWeights::all_found(pieces.clone())
        };
        let money = KeptMoney {
            paid: UnitPrice::from_per_kg(Decimal::new(114, 1)),
            walk_away: UnitPrice::from_per_kg(Decimal::new(-3, 1)),
            margin: Share::from_percent(Decimal::new(-125, 1)),
        };
        let test = ClosedTest::of(
            &CATALOGUE,
            &side,
            (Stock::GRASS, 1),
            &weights,
            tag(),
            Some(money),
        );
        (test, pieces, side)
    }

    #[test]
    fn what_was_weighed_comes_back_and_is_learnt_from() {
        let (test, pieces, side) = closed(3);
        assert_eq!(ClosedTest::of_text(&test.to_text()), Ok(test.clone()));
        let (tested, unknown) = test.tested(&KnownWays::of(&CATALOGUE));
        assert!(unknown.is_empty());
        assert_eq!(tested.ways, way_weights(&CATALOGUE, &side, &pieces));
    }

    #[test]
    fn a_way_that_is_not_known_any_more_is_told_and_the_others_count() {
        let (mut test, ..) = closed(4);
        let ways = test.ways.len();
        test.ways[1].way = "by-laser".to_owned();
        test.ways[2].outputs.pop();
        test.ways[3].mark = test.ways[4].mark;
        let gone = test.ways[2].way.clone();
        let changed = test.ways[3].way.clone();
        let (tested, unknown) = test.tested(&KnownWays::of(&CATALOGUE));
        assert_eq!(unknown, ["by-laser", gone.as_str(), changed.as_str()]);
        assert_eq!(tested.ways.len(), ways - 3);
    }

    #[test]
    fn a_fault_is_told_with_its_line() {
        let text = closed(5).0.to_text();
        for (from, to, line, fault) in [
            (
                "cutting-test 1",
                "cutting-test 2",
                1,
                "a newer Sideworth wrote this, and this one reads up to version 1: open it with the newer one.",
            ),
            ("left", "top", 2, "“top” must be left, right or -."),
            (
                "2026-03-09",
                "2026-02-30",
                2,
                "“2026-02-30” must be a date or -.",
            ),
            (
                "affidavit+12",
                "affidavit 12",
                3,
                "“12” must be the end of the line.",
            ),
            (" no no", " no maybe", 4, "“maybe” must be yes or no."),
            (" no no", " no", 4, "nothing stands where yes or no should."),
            ("money 11.4", "money 11.4.1", 5, "“11.4.1” must be a price."),
            ("\nw ", "\nv ", 6, "“v” must be the mark w."),
            (
                "\nw side-",
                "\nw ! side-",
                6,
                "“side-one-rib” must be the mark of its outputs.",
            ),
        ] {
            assert!(text.contains(from), "{from}");
            let faulty = text.replacen(from, to, 1);
            let error = ClosedTest::of_text(&faulty).expect_err(from);
            assert_eq!(error.line, line, "{from}: {error}");
            assert_eq!(error.to_string(), format!("Line {line}: {fault}"));
        }
        let headless = ClosedTest::of_text("cutting-test 1\nend 0\n").expect_err("no tag");
        assert_eq!(
            headless.to_string(),
            "Line 2: nothing stands where the tag of the side should."
        );
        let cut_off = ClosedTest::of_text(&text[..text.len() / 2]).expect_err("cut off");
        assert_eq!(cut_off.fault, Fault::CutOff);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(32))]

        #[test]
        fn any_tag_comes_back(
            lot in "\\PC{0,20}",
            supplier in "\\PC{0,20}",
            what in prop::collection::vec("\\PC{0,12}", 0..5),
            temperature in -4000_i64..=6000,
            seed in 0_u64..50,
        ) {
            let (mut test, ..) = closed(seed);
            test.tag.lot = lot;
            test.tag.supplier = supplier;
            test.tag.celsius = Some(Decimal::new(temperature, 2));
            test.tag.claims = what
                .into_iter()
                .map(|what| Claim { what, document: String::new() })
                .collect();
            prop_assert_eq!(ClosedTest::of_text(&test.to_text()), Ok(test));
        }

        #[test]
        fn no_text_panics(text in "(cutting-test 1\n)?((side|cut|money|w)( [a-z0-9.-]{0,5}){0,10}\n){0,4}(end [0-9]\n)?") {
            let _ = ClosedTest::of_text(&text);
        }
    }
}
