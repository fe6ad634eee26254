//! What the published yields give of a side by the ways it was cut by: what a
//! test is held against as a whole.

use carcass::{Catalogue, Output, PartId, ProductId, Stock, WayId};
use litemap::LiteMap;
use quantity::Mass;

use super::TestedSide;
use super::interval::float;

/// No part lies deeper than this below the side.
const DEEPEST: usize = 16;

/// How the ways of tests hang together, as far as that was asked for: a shop cuts
/// most of its sides by few plans.
#[derive(Default)]
pub(crate) struct Expected(LiteMap<(Stock, Vec<WayId>), Tree>);

impl Expected {
    /// The kilograms of every product that came off a way, and the share of the
    /// side that the published yields give of it by the same ways.
    pub(super) fn products(
        &mut self,
        catalogue: &Catalogue,
        test: &TestedSide,
    ) -> Vec<(ProductId, f64, f64)> {
        let ways: Vec<WayId> = test.ways.iter().map(|way| way.way).collect();
        let of = (test.stock, ways);
        if let Some(tree) = self.0.get(&of) {
            return tree.products(test);
        }
        let tree = Tree::of(catalogue, test.stock, &of.1);
        let products = tree.products(test);
        self.0.insert(of, tree);
        products
    }
}

/// How some ways hang together, and what each gives by the published yields at
/// one stock.
struct Tree {
    /// The place of the part of each way among the parts; the side has the first.
    part_of_way: Vec<usize>,
    /// How many parts there are.
    parts: usize,
    /// The parts that come off the ways.
    branches: Vec<Piece<usize>>,
    /// The products that come off the ways.
    leaves: Vec<Piece<ProductId>>,
}

/// One output of a way.
struct Piece<T> {
    /// The place of the way.
    way: usize,
    /// The place of the output in it.
    output: usize,
    /// Its published share.
    share: f64,
    what: T,
}

impl Tree {
    fn of(catalogue: &Catalogue, stock: Stock, ways: &[WayId]) -> Self {
        let mut parts = vec![catalogue.root()];
        let mut place_of = |part: PartId| {
            parts
                .iter()
                .position(|known| *known == part)
                .unwrap_or_else(|| {
                    parts.push(part);
                    parts.len() - 1
                })
        };
        let (mut part_of_way, mut branches, mut leaves) = (Vec::new(), Vec::new(), Vec::new());
        for (way, id) in ways.iter().enumerate() {
            let data = &catalogue[*id];
            part_of_way.push(place_of(data.part));
            let outputs = data.outputs.iter().zip(data.shares(stock));
            for (output, (of, share)) in outputs.enumerate() {
                let share = float(share.fraction());
                match of.output {
                    Output::Part(part) => branches.push(Piece {
                        way,
                        output,
                        share,
                        what: place_of(part),
                    }),
                    Output::Product(what) => leaves.push(Piece {
                        way,
                        output,
                        share,
                        what,
                    }),
                }
            }
        }
        Self {
            part_of_way,
            parts: parts.len(),
            branches,
            leaves,
        }
    }

    fn products(&self, test: &TestedSide) -> Vec<(ProductId, f64, f64)> {
        let of_side = self.shares_of_side(test);
        let weight_of = |leaf: &Piece<ProductId>| {
            let outputs = test.ways.get(leaf.way).map(|way| &way.outputs);
            let weight = outputs.and_then(|outputs| outputs.get(leaf.output));
            kilograms(weight.copied().unwrap_or_default())
        };
        let expected = |leaf: &Piece<ProductId>| {
            of_side.get(leaf.way).copied().unwrap_or_default() * leaf.share
        };
        self.leaves
            .iter()
            .map(|leaf| (leaf.what, weight_of(leaf), expected(leaf)))
            .collect()
    }

    /// What share of the side goes by each way: what each part is of it by the
    /// published yields, and how the part was divided between its ways in the test.
    fn shares_of_side(&self, test: &TestedSide) -> Vec<f64> {
        let totals: Vec<f64> = test
            .ways
            .iter()
            .map(|way| way.outputs.iter().copied().map(kilograms).sum())
            .collect();
        let mut of_parts = vec![0.0; self.parts];
        for (part, total) in self.part_of_way.iter().zip(&totals) {
            if let Some(sum) = of_parts.get_mut(*part) {
                *sum += *total;
            }
        }
        let by_way: Vec<f64> = self
            .part_of_way
            .iter()
            .zip(&totals)
            .map(|(part, total)| match of_parts.get(*part) {
                Some(all) if *all > 0.0 => total / all,
                _ => 0.0,
            })
            .collect();
        let of_side = |parts: &[f64]| -> Vec<f64> {
            let whole = |part: &usize| parts.get(*part).copied().unwrap_or_default();
            let ways = self.part_of_way.iter().zip(&by_way);
            ways.map(|(part, by_way)| whole(part) * by_way).collect()
        };
        let mut parts = vec![0.0; self.parts];
        let mut ways = Vec::new();
        // A part may come off two others, so each pass goes one step further down.
        for _ in 0..DEEPEST {
            parts.fill(0.0);
            if let Some(side) = parts.first_mut() {
                *side = 1.0;
            }
            for branch in &self.branches {
                let whole: f64 = ways.get(branch.way).copied().unwrap_or_default();
                if let Some(sum) = parts.get_mut(branch.what) {
                    *sum += whole * branch.share;
                }
            }
            let next = of_side(&parts);
            if next == ways {
                break;
            }
            ways = next;
        }
        ways
    }
}

fn kilograms(mass: Mass) -> f64 {
    if mass.kg().is_sign_negative() {
        0.0
    } else {
        float(mass.kg())
    }
}
