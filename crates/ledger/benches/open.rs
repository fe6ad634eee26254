//! The place of the scale in a shop with five hundred closed tests: what is kept
//! taken over, and each view written.
//!
//! `cargo bench -p ledger`

use std::collections::BTreeMap;
use std::hint::black_box;

use carcass::{Catalogue, CutPlan, Stock, WayId, break_down};
use criterion::{Criterion, criterion_group, criterion_main};
use decision::spread::normal_deviates;
use draft::Draft;
use ledger::{Ledger, wire};
use quantity::{Decimal, Mass};
use scale::{ClosedTest, ClosedWeights, Tag, products};

const TESTS: u64 = 500;

/// The plan that cuts a side to most: of every part the way with most outputs.
fn many_cuts(catalogue: &Catalogue) -> CutPlan {
    let mut plan = CutPlan::default();
    for (part, data) in catalogue.parts() {
        let outputs = |way: &&WayId| catalogue[**way].outputs.len();
        if let Some(way) = data.ways.iter().max_by_key(outputs) {
            plan.choose(part, *way);
        }
    }
    plan
}

/// The texts of invented sides of some seventy cuts.
fn sides(catalogue: &Catalogue) -> BTreeMap<String, String> {
    let plan = &many_cuts(catalogue);
    let side = break_down(catalogue, Mass::from_kg(180.into()), 1, plan, Stock::GRAIN);
    let pieces: Vec<_> = products(&side).collect();
    let closed = |draw: u64| {
        let mut deviates = vec![0.0; pieces.len()];
        normal_deviates(5, draw, &mut deviates);
        let weights = pieces.iter().zip(deviates).map(|((_, _, node), deviate)| {
            let factor = Decimal::try_from(1.0 + 0.08 * deviate).unwrap_or(Decimal::ONE);
            Mass::from_kg((node.weight.kg() * factor.max(Decimal::ZERO)).round_dp(3))
        });
        let weights = ClosedWeights::all_found(weights.collect());
        let tag = Tag {
            lot: format!("L{draw}"),
            supplier: format!("Invented {}", draw % 7),
            ..Tag::default()
        };
        ClosedTest::of(catalogue, &side, (Stock::GRAIN, 1), &weights, tag, None).to_text()
    };
    (0..TESTS)
        .map(|draw| (format!("test.{}", draw + 1), closed(draw)))
        .collect()
}

fn ask(ledger: &mut Ledger, view: &str) -> String {
    let moment = "1790000000000 2026-09-21 07:45 kg";
    let draft = Draft::default().to_text();
    let request = wire::request(&draft, moment, [("view", view)], "");
    ledger.answer(&request).expect("an answer")
}

fn open(criterion: &mut Criterion) {
    let catalogue = Catalogue::published().expect("published data");
    let mut kept = sides(&catalogue);
    let take = |kept: &BTreeMap<String, String>| {
        wire::take(kept.iter().map(|(key, text)| (key.as_str(), text.as_str())))
    };
    let mut ledger = Ledger::new(catalogue.clone());
    let new = take(&kept);
    criterion.bench_function("take 500 tests that are new", |bencher| {
        bencher.iter(|| black_box(ledger.take(black_box(&new))));
    });
    let answer = ask(&mut ledger, "weigh-in");
    for (key, text) in wire::pairs(answer.lines().nth(1).expect("what to keep")) {
        kept.insert(key, text);
    }
    let known = take(&kept);
    criterion.bench_function("take 500 tests", |bencher| {
        bencher.iter(|| black_box(ledger.take(black_box(&known))));
    });
    for view in ["tests", "yields", "standing", "record"] {
        criterion.bench_function(&format!("write {view}"), |bencher| {
            bencher.iter(|| black_box(ask(&mut ledger, view)));
        });
    }
}

criterion_group!(benches, open);
criterion_main!(benches);
