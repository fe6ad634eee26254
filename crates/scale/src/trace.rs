//! Where a lot came from and where it went: one step back, one step forward.
//!
//! “One step back, one step forward” is the usual reach of traceability in food
//! law (EU Regulation 178/2002, art. 18; Codex Alimentarius CAC/GL 60-2006, both
//! from memory). Sides make cuts, cuts and batches make batches of grind. A batch
//! is found from any lot in it, and its lots from the batch.

use std::collections::{BTreeMap, BTreeSet};

use carcass::{Catalogue, Kind, ProductId, Role};
use quantity::Mass;

use crate::closed_test::ClosedTest;
use crate::grinding_log::{Batch, GrindingLog};
use crate::lot_code::{LONGEST, LotScheme, lot_key};
use crate::tag::Tag;

/// What a lot code stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lot<'a> {
    /// A side.
    Side(&'a Tag),
    /// A cut of a side. More than one side can carry the same number: that is
    /// one step back to each.
    Cut(&'a Tag, ProductId),
    /// A batch of grind.
    Batch(&'a Batch),
    /// A lot of which nothing but its code is known, such as trim that was
    /// bought in.
    Unknown,
}

/// A cut of a side.
#[derive(Clone, Copy, Debug)]
struct CutLot {
    /// The place of its side.
    side: usize,
    product: ProductId,
    /// What of it came off the side, where that is known.
    weight: Option<Mass>,
    /// Whether it is but on the labels of the side: a class of grind, which is a
    /// lot of its own from its batch on.
    is_label: bool,
}

impl CutLot {
    fn is_same(&self, other: &Self) -> bool {
        (self.side, self.product) == (other.side, other.product)
    }
}

/// All that was recorded, found by its codes whatever their case and the blanks
/// around them.
///
/// Codes are told by the scheme in force. A label that was printed by an earlier
/// one leads to the same cuts, and so does a batch that names one.
#[derive(Clone, Debug)]
pub struct Trace<'a> {
    catalogue: &'a Catalogue,
    scheme: &'a LotScheme,
    earlier: &'a [LotScheme],
    sides: Vec<&'a ClosedTest>,
    /// What each side gave.
    gave: Vec<Vec<CutLot>>,
    /// The same by what the codes in force are told apart by, with the code.
    cuts: BTreeMap<String, (String, Vec<CutLot>)>,
    log: &'a GrindingLog,
}

impl<'a> Trace<'a> {
    /// The record of these sides and batches, its cuts coded by `scheme`. Every
    /// product that a side gave is a cut of it. The classes of grind are known by
    /// their labels where there was something to grind.
    pub fn of(
        catalogue: &'a Catalogue,
        scheme: &'a LotScheme,
        tests: impl IntoIterator<Item = &'a ClosedTest>,
        log: &'a GrindingLog,
    ) -> Self {
        let sides: Vec<&ClosedTest> = tests.into_iter().collect();
        let gave: Vec<Vec<CutLot>> = sides
            .iter()
            .enumerate()
            .map(|(side, test)| labelled(catalogue, side, test))
            .collect();
        let mut cuts: BTreeMap<String, (String, Vec<CutLot>)> = BTreeMap::new();
        for (test, lots) in sides.iter().zip(&gave) {
            for lot in lots {
                let code = scheme.code(catalogue, &test.tag, lot.product);
                let (_, called) = cuts
                    .entry(lot_key(&code))
                    .or_insert_with(|| (code, Vec::new()));
                called.push(*lot);
            }
        }
        Self {
            catalogue,
            scheme,
            earlier: &[],
            sides,
            gave,
            cuts,
            log,
        }
    }

    /// The same where codes were made by other schemes before.
    #[must_use]
    pub fn with_earlier(self, earlier: &'a [LotScheme]) -> Self {
        Self { earlier, ..self }
    }

    fn sides_called(&self, key: &str) -> impl Iterator<Item = &'a ClosedTest> {
        self.sides
            .iter()
            .copied()
            .filter(move |test| !key.is_empty() && lot_key(&test.tag.lot) == key)
    }

    /// The cuts that have a code by the scheme in force or by an earlier one.
    fn cuts_called(&self, key: &str) -> Vec<CutLot> {
        let in_force = self.cuts.get(key).map(|(_, cuts)| cuts.clone());
        let mut called = in_force.unwrap_or_default();
        if self.earlier.is_empty() || key.is_empty() {
            return called;
        }
        for (test, lots) in self.sides.iter().zip(&self.gave) {
            if !can_be_of(key, &test.tag.lot) {
                continue;
            }
            for lot in lots {
                if !called.iter().any(|known| known.is_same(lot))
                    && self.earlier_keys(test, lot).any(|earlier| earlier == key)
                {
                    called.push(*lot);
                }
            }
        }
        called
    }

    /// What the codes of a cut by the earlier schemes are told apart by. One that
    /// is just the number of its side leads to the side.
    fn earlier_keys(&self, test: &ClosedTest, lot: &CutLot) -> impl Iterator<Item = String> {
        let number = lot_key(&test.tag.lot);
        self.earlier
            .iter()
            .map(|scheme| lot_key(&scheme.code(self.catalogue, &test.tag, lot.product)))
            .filter(move |key| *key != number)
    }

    /// What a code and all other codes of the same cuts are told apart by.
    fn keys(&self, key: &str) -> BTreeSet<String> {
        let mut keys = BTreeSet::from([key.to_owned()]);
        if self.earlier.is_empty() {
            return keys;
        }
        for lot in self.cuts_called(key) {
            let Some(test) = self.sides.get(lot.side) else {
                continue;
            };
            keys.insert(lot_key(&self.scheme.code(
                self.catalogue,
                &test.tag,
                lot.product,
            )));
            keys.extend(self.earlier_keys(test, &lot));
        }
        keys
    }

    fn batches_called(&self, key: &str) -> impl Iterator<Item = &'a Batch> {
        self.log
            .batches()
            .iter()
            .filter(move |batch| lot_key(&batch.code) == key)
    }

    /// Everything that a code stands for; nothing where no lot has it.
    pub fn what(&self, code: &str) -> Vec<Lot<'a>> {
        let key = lot_key(code);
        let sides = self.sides_called(&key).map(|test| Lot::Side(&test.tag));
        let cuts = self.cuts_called(&key);
        let cuts = cuts
            .iter()
            .filter_map(|cut| Some(Lot::Cut(&self.sides.get(cut.side)?.tag, cut.product)));
        let mut found: Vec<Lot> = sides.chain(cuts).collect();
        found.extend(self.batches_called(&key).map(Lot::Batch));
        let is_lot = |batch: &Batch| batch.lots.iter().any(|(lot, _)| lot_key(lot) == key);
        if found.is_empty() && self.log.batches().iter().any(is_lot) {
            found.push(Lot::Unknown);
        }
        found
    }

    /// Whether a code by the scheme in force is that of something that was lost
    /// and of nothing else.
    pub fn is_loss(&self, code: &str) -> bool {
        let key = lot_key(code);
        let is_lost = |cut: &CutLot| self.catalogue[cut.product].kind == Kind::Loss;
        let cuts = self.cuts.get(&key);
        cuts.is_some_and(|(_, cuts)| cuts.iter().all(is_lost))
            && self.sides_called(&key).next().is_none()
            && self.batches_called(&key).next().is_none()
    }

    /// What there was of a lot before anything of it was ground; `None` where that
    /// is not known.
    pub fn weight(&self, code: &str) -> Option<Mass> {
        let key = lot_key(code);
        let cuts = self.cuts_called(&key);
        let mut weights: Vec<Option<Mass>> = cuts.iter().map(|cut| cut.weight).collect();
        if cuts.is_empty() {
            weights.extend(self.sides_called(&key).map(|test| Some(test.chilled)));
        }
        weights.extend(self.batches_called(&key).map(|batch| Some(batch.weight())));
        if weights.is_empty() {
            return None;
        }
        weights.into_iter().sum()
    }

    /// What is surely of a lot among these, under whichever of its codes: a code
    /// that is also one of another lot's does not count.
    pub fn taken<'b>(
        &self,
        code: &str,
        lots: impl IntoIterator<Item = &'b (String, Mass)>,
    ) -> Mass {
        let key = lot_key(code);
        let cuts = self.cuts_called(&key);
        let mut keys = self.keys(&key);
        keys.retain(|other| {
            let is_its_own = |cut: &CutLot| cuts.iter().any(|own| own.is_same(cut));
            *other == key || self.cuts_called(other).iter().all(is_its_own)
        });
        lots.into_iter()
            .filter(|(lot, _)| keys.contains(&lot_key(lot)))
            .map(|(_, weight)| *weight)
            .sum()
    }

    /// One step back: the sides of a cut, the lots of a batch with the weight
    /// that went in. A side and an unknown lot have nothing behind them.
    pub fn back(&self, code: &str) -> Vec<(String, Option<Mass>)> {
        let key = lot_key(code);
        let mut behind: Vec<(String, Option<Mass>)> = self
            .cuts_called(&key)
            .iter()
            .filter_map(|cut| Some((self.sides.get(cut.side)?.tag.lot.clone(), None)))
            .collect();
        behind.dedup();
        for batch in self.batches_called(&key) {
            behind.extend(
                batch
                    .lots
                    .iter()
                    .map(|(lot, weight)| (lot.clone(), Some(*weight))),
            );
        }
        behind
    }

    /// One step forward: the cuts of a side, the batches that a cut or a batch
    /// went into, with the weight.
    pub fn forward(&self, code: &str) -> Vec<(String, Option<Mass>)> {
        let key = lot_key(code);
        let mut ahead = Vec::new();
        for (of, (cut, lots)) in &self.cuts {
            let mut weights = lots
                .iter()
                .filter(|lot| {
                    let side = self.sides.get(lot.side);
                    !lot.is_label
                        && side.is_some_and(|test| {
                            !test.tag.lot.is_empty() && lot_key(&test.tag.lot) == key
                        })
                })
                .map(|lot| lot.weight)
                .peekable();
            if *of != key && weights.peek().is_some() {
                ahead.push((cut.clone(), weights.sum()));
            }
        }
        let keys = self.keys(&key);
        for batch in self.log.batches() {
            let lots = batch.lots.iter();
            let weight: Mass = lots
                .filter(|(lot, _)| keys.contains(&lot_key(lot)))
                .map(|(_, weight)| *weight)
                .sum();
            if weight.is_positive() {
                ahead.push((batch.code.clone(), Some(weight)));
            }
        }
        ahead
    }
}

/// What a side gave, and the classes of grind that its labels name.
fn labelled(catalogue: &Catalogue, side: usize, test: &ClosedTest) -> Vec<CutLot> {
    let gave = test.gave(catalogue);
    let is_trim = |product: &ProductId| {
        let role = catalogue[*product].role;
        matches!(role, Some(Role::LeanTrim | Role::FatTrim))
    };
    let classes = catalogue
        .grind_classes()
        .iter()
        .map(|class| class.product)
        .filter(|class| gave.keys().any(is_trim) && !gave.contains_key(class));
    let labels = classes.map(|product| (product, None, true));
    let weighed = gave
        .iter()
        .map(|(product, weight)| (*product, *weight, false));
    weighed
        .chain(labels)
        .map(|(product, weight, is_label)| CutLot {
            side,
            product,
            weight,
            is_label,
        })
        .collect()
}

/// Whether a code may be one of a side with this number, which stands in each of
/// them. It spares making all codes of all sides by all schemes; where a code may
/// have been cut short, or letters change with those beside them, it may be any.
fn can_be_of(key: &str, number: &str) -> bool {
    let number: String = lot_key(number).split_whitespace().collect();
    !number.is_ascii() || key.chars().count() >= LONGEST || key.contains(&number)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::any_record::{batch, kg, side};
    use crate::any_side::CATALOGUE;

    #[test]
    fn a_tray_of_mince_leads_back_to_its_sides_in_single_steps() {
        let tests = [side("A1", "North"), side("A2", "South")];
        let mut log = GrindingLog::default();
        log.add(batch(
            "G1",
            &[("A1/fat-trim", 20), ("A2/fat-trim", 30), ("A1/fat-trim", 5)],
        ))
        .expect("sound");
        log.add(batch("G2", &[("G1", 10), ("BOX-77", 40)]))
            .expect("sound");
        let scheme: LotScheme = "{lot}/{cut}".parse().expect("a scheme");
        let trace = Trace::of(&CATALOGUE, &scheme, &tests, &log);

        assert_eq!(
            trace.back("G2"),
            [
                ("G1".to_owned(), Some(kg(10))),
                ("BOX-77".to_owned(), Some(kg(40)))
            ]
        );
        assert_eq!(trace.back("A1/fat-trim"), [("A1".to_owned(), None)]);
        assert!(trace.back("A1").is_empty());
        let trim = CATALOGUE.product_id("fat-trim").expect("a product");
        assert_eq!(trace.what("A1/fat-trim"), [Lot::Cut(&tests[0].tag, trim)]);
        assert_eq!(trace.what("BOX-77"), [Lot::Unknown]);
        assert_eq!(trace.what("A2"), [Lot::Side(&tests[1].tag)]);

        assert_eq!(
            trace.forward("A1/fat-trim"),
            [("G1".to_owned(), Some(kg(25)))]
        );
        assert_eq!(trace.forward("G1"), [("G2".to_owned(), Some(kg(10)))]);
        assert!(trace.forward("G2").is_empty());
        let cuts = trace.forward("A1");
        assert!(cuts.contains(&("A1/suet".to_owned(), Some(kg(50)))));
        assert!(cuts.iter().all(|(code, _)| code.starts_with("A1/")));
    }

    #[test]
    fn only_what_was_weighed_is_a_lot_of_its_side() {
        let test = side("A1", "North");
        let mut emptied = test.clone();
        let scheme: LotScheme = "{lot}/{cut}".parse().expect("a scheme");
        let log = GrindingLog::default();
        let trace = |test| Trace::of(&CATALOGUE, &scheme, [test], &log);
        let codes = |test| -> Vec<String> {
            let forward = trace(test).forward("A1");
            forward.into_iter().map(|(code, _)| code).collect()
        };
        let all = codes(&test);
        for class in CATALOGUE.grind_classes() {
            let tag = &test.tag;
            let code = scheme.code(&CATALOGUE, tag, class.product);
            assert!(!all.contains(&code), "{code}");
            // It stands on a label, so it leads back to its side.
            assert_eq!(trace(&test).back(&code), [("A1".to_owned(), None)]);
            assert_eq!(trace(&test).weight(&code), None);
        }
        let suet = CATALOGUE.product_id("suet").expect("a product");
        for kept in &mut emptied.ways {
            let way = CATALOGUE.way_id(&kept.way).expect("a way");
            for (output, weight) in CATALOGUE[way].outputs.iter().zip(&mut kept.outputs) {
                if output.output == carcass::Output::Product(suet) {
                    *weight = Mass::ZERO;
                }
            }
        }
        let left: Vec<String> = all.into_iter().filter(|code| code != "A1/suet").collect();
        assert_eq!(codes(&emptied), left);
        assert!(trace(&emptied).what("A1/suet").is_empty());
    }

    #[test]
    fn a_cut_of_a_way_that_gives_other_things_by_now_stays_a_lot() {
        let mut test = side("A1", "North");
        for kept in &mut test.ways {
            kept.outputs.push(kg(1));
        }
        let log = GrindingLog::default();
        let scheme = LotScheme::default();
        let trace = Trace::of(&CATALOGUE, &scheme, [&test], &log);
        assert!(trace.forward("A1").contains(&("-A1-suet".to_owned(), None)));
        assert_eq!(trace.weight("-A1-suet"), None);
    }

    #[test]
    fn a_lot_is_found_whatever_its_case_and_the_blanks_around_it() {
        let tests = [side("A1", "North")];
        let mut log = GrindingLog::default();
        log.add(batch("G1", &[("-a1-SUET ", 20)])).expect("sound");
        let same = log.add(batch(" g1", &[("A1", 1)]));
        assert_eq!(same, Err(crate::BatchError::SameCode));
        let scheme = LotScheme::default();
        let trace = Trace::of(&CATALOGUE, &scheme, &tests, &log);
        assert_eq!(trace.what(" a1 "), [Lot::Side(&tests[0].tag)]);
        assert_eq!(trace.forward("a1"), trace.forward("A1"));
        assert_eq!(trace.forward("-A1-Suet"), [("G1".to_owned(), Some(kg(20)))]);
        assert_eq!(trace.back("g1"), [("-a1-SUET ".to_owned(), Some(kg(20)))]);
        assert!(trace.what("A2").is_empty() && trace.what("").is_empty());
        assert_eq!(trace.weight("-a1-suet"), Some(kg(50)));
        assert_eq!(trace.weight("a1"), Some(kg(1800)));
        assert_eq!(trace.weight("g1"), Some(kg(20)));
        assert_eq!(trace.weight("BOX"), None);
    }

    #[test]
    fn two_sides_of_one_number_are_both_told() {
        let tests = [side("A1", "North"), side("A1", "South")];
        let log = GrindingLog::default();
        let scheme = LotScheme::default();
        let trace = Trace::of(&CATALOGUE, &scheme, &tests, &log);
        assert_eq!(trace.what("A1").len(), 2);
        assert_eq!(trace.what("-A1-suet").len(), 2);
    }

    #[test]
    fn labels_by_an_earlier_scheme_lead_to_the_same_cuts() {
        let tests = [side("A1", "North"), side("A2", "South")];
        let mut log = GrindingLog::default();
        log.add(batch("G1", &[("A1/fat-trim", 20), ("A2/fat-trim", 30)]))
            .expect("sound");
        log.add(batch("G2", &[("fat-trim~A1", 5)])).expect("sound");
        let scheme: LotScheme = "{cut}~{lot}".parse().expect("a scheme");
        let earlier: [LotScheme; 2] =
            ["{lot}/{cut}", "{lot}"].map(|text| text.parse().expect("a scheme"));
        let trace = Trace::of(&CATALOGUE, &scheme, &tests, &log);
        assert_eq!(trace.what("A1/fat-trim"), [Lot::Unknown]);
        let trace = trace.with_earlier(&earlier);

        let trim = CATALOGUE.product_id("fat-trim").expect("a product");
        let both = [
            ("G1".to_owned(), Some(kg(20))),
            ("G2".to_owned(), Some(kg(5))),
        ];
        for code in ["A1/fat-trim", "fat-trim~a1"] {
            assert_eq!(trace.what(code), [Lot::Cut(&tests[0].tag, trim)], "{code}");
            assert_eq!(trace.back(code), [("A1".to_owned(), None)], "{code}");
            assert_eq!(trace.forward(code), both, "{code}");
            assert_eq!(trace.weight(code), Some(kg(50)), "{code}");
            let lots = log.batches().iter().flat_map(|batch| &batch.lots);
            assert_eq!(trace.taken(code, lots), kg(25), "{code}");
        }
        // Codes are shown by the scheme in force, each cut once.
        let cuts = trace.forward("A1");
        assert!(cuts.contains(&("suet~A1".to_owned(), Some(kg(50)))));
        assert!(cuts.iter().all(|(code, _)| code.ends_with("~A1")));
        // A label with the number of the side alone leads to the side.
        assert_eq!(trace.what("A2"), [Lot::Side(&tests[1].tag)]);
        assert_eq!(trace.weight("A2"), Some(kg(1800)));
    }

    #[test]
    fn a_code_that_two_cuts_had_is_not_taken_from_either() {
        let tests = [side("A1", "North")];
        let mut log = GrindingLog::default();
        log.add(batch("G1", &[("S/A1", 20), ("A1/suet", 3)]))
            .expect("sound");
        let scheme: LotScheme = "{lot}/{cut}".parse().expect("a scheme");
        let earlier: [LotScheme; 1] = ["S/{lot}"].map(|text| text.parse().expect("a scheme"));
        let trace = Trace::of(&CATALOGUE, &scheme, &tests, &log).with_earlier(&earlier);
        assert!(trace.what("S/A1").len() > 1);
        let lots = || log.batches().iter().flat_map(|batch| &batch.lots);
        assert_eq!(trace.taken("A1/suet", lots()), kg(3));
        assert_eq!(trace.taken("S/A1", lots()), kg(23));
        // Where it may have gone is told all the same.
        assert_eq!(trace.forward("A1/suet"), [("G1".to_owned(), Some(kg(23)))]);
    }

    #[test]
    fn a_number_of_any_letters_is_found_by_an_earlier_scheme() {
        let widest = "x".repeat(LONGEST);
        let tests = ["ΑΣ", "A 17", "", widest.as_str()].map(|lot| side(lot, "North"));
        let log = GrindingLog::default();
        let scheme: LotScheme = "{lot}/{cut}".parse().expect("a scheme");
        let earlier: [LotScheme; 1] = ["{cut}-{lot}b"].map(|text| text.parse().expect("a scheme"));
        let trace = Trace::of(&CATALOGUE, &scheme, &tests, &log).with_earlier(&earlier);
        let suet = CATALOGUE.product_id("suet").expect("a product");
        for test in &tests {
            let code = earlier[0].code(&CATALOGUE, &test.tag, suet);
            let found = trace.what(&code);
            assert!(found.contains(&Lot::Cut(&test.tag, suet)), "{code}");
        }
    }
}
