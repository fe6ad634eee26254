//! Where a lot came from and where it went: one step back, one step forward.
//!
//! “One step back, one step forward” is the usual reach of traceability in food
//! law (EU Regulation 178/2002, art. 18; Codex Alimentarius CAC/GL 60-2006, both
//! from memory). Sides make cuts, cuts and batches make batches of grind. A batch
//! is found from any lot in it, and its lots from the batch.

use std::collections::BTreeMap;

use carcass::{Catalogue, Output, ProductId};
use quantity::Mass;

use crate::closed_test::ClosedTest;
use crate::grinding_log::{Batch, GrindingLog};
use crate::lot_code::LotScheme;
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

/// All that was recorded, found by its codes.
#[derive(Clone, Debug)]
pub struct Trace<'a> {
    sides: Vec<&'a Tag>,
    /// The cuts of each side by code.
    cuts: BTreeMap<String, Vec<(usize, ProductId)>>,
    log: &'a GrindingLog,
}

impl<'a> Trace<'a> {
    /// The record of these sides and batches, its cuts coded by `scheme`. Every
    /// product that a way of the side gave is a cut of it, and so is every class
    /// of grind.
    pub fn of(
        catalogue: &Catalogue,
        scheme: &LotScheme,
        tests: impl IntoIterator<Item = &'a ClosedTest>,
        log: &'a GrindingLog,
    ) -> Self {
        let classes: Vec<ProductId> = catalogue
            .grind_classes()
            .iter()
            .map(|class| class.product)
            .collect();
        let mut sides = Vec::new();
        let mut cuts: BTreeMap<String, Vec<(usize, ProductId)>> = BTreeMap::new();
        for test in tests {
            let side = sides.len();
            sides.push(&test.tag);
            let mut products: Vec<ProductId> = test
                .ways
                .iter()
                .filter_map(|way| catalogue.way_id(&way.way))
                .flat_map(|way| &catalogue[way].outputs)
                .filter_map(|output| match output.output {
                    Output::Product(product) => Some(product),
                    Output::Part(_) => None,
                })
                .chain(classes.iter().copied())
                .collect();
            products.sort_unstable();
            products.dedup();
            for product in products {
                let code = scheme.code(catalogue, &test.tag, product);
                cuts.entry(code).or_default().push((side, product));
            }
        }
        Self { sides, cuts, log }
    }

    /// Everything that a code stands for.
    pub fn what(&self, code: &str) -> Vec<Lot<'a>> {
        let sides = self
            .sides
            .iter()
            .filter(|tag| !tag.lot.is_empty() && tag.lot == code)
            .map(|tag| Lot::Side(tag));
        let cuts = self
            .cuts
            .get(code)
            .into_iter()
            .flatten()
            .filter_map(|(side, product)| Some(Lot::Cut(self.sides.get(*side)?, *product)));
        let mut found: Vec<Lot> = sides.chain(cuts).collect();
        found.extend(self.log.batch(code).map(Lot::Batch));
        if found.is_empty() {
            found.push(Lot::Unknown);
        }
        found
    }

    /// One step back: the sides of a cut, the lots of a batch with the weight
    /// that went in. A side and an unknown lot have nothing behind them.
    pub fn back(&self, code: &str) -> Vec<(String, Option<Mass>)> {
        let mut behind: Vec<(String, Option<Mass>)> = self
            .cuts
            .get(code)
            .into_iter()
            .flatten()
            .filter_map(|(side, _)| Some((self.sides.get(*side)?.lot.clone(), None)))
            .collect();
        behind.dedup();
        if let Some(batch) = self.log.batch(code) {
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
        let mut ahead: Vec<(String, Option<Mass>)> = self
            .cuts
            .iter()
            .filter(|(cut, of)| {
                cut.as_str() != code
                    && of.iter().any(|(side, _)| {
                        let tag = self.sides.get(*side);
                        tag.is_some_and(|tag| !tag.lot.is_empty() && tag.lot == code)
                    })
            })
            .map(|(cut, _)| (cut.clone(), None))
            .collect();
        for batch in self.log.batches() {
            let weight: Mass = batch
                .lots
                .iter()
                .filter(|(lot, _)| lot == code)
                .map(|(_, weight)| *weight)
                .sum();
            if weight.is_positive() {
                ahead.push((batch.code.clone(), Some(weight)));
            }
        }
        ahead
    }
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
        assert!(cuts.contains(&("A1/suet".to_owned(), None)));
        assert!(cuts.iter().all(|(code, _)| code.starts_with("A1/")));
    }

    #[test]
    fn two_sides_of_one_number_are_both_told() {
        let tests = [side("A1", "North"), side("A1", "South")];
        let log = GrindingLog::default();
        let trace = Trace::of(&CATALOGUE, &LotScheme::default(), &tests, &log);
        assert_eq!(trace.what("A1").len(), 2);
        assert_eq!(trace.what("-A1-suet").len(), 2);
    }
}
