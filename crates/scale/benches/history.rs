//! Five hundred closed cutting tests of some seventy cuts: read from their text,
//! learnt from, their history told. What a phone does when the shop's own yields
//! are opened, on this machine.
//!
//! `cargo bench -p scale`; what the texts take up is printed first.

use std::collections::BTreeSet;
use std::hint::black_box;

use carcass::{Breakdown, Catalogue, CutPlan, Stock, break_down};
use criterion::{Criterion, criterion_group, criterion_main};
use decision::spread::normal_deviates;
use quantity::{Decimal, Mass, Share, UnitPrice};
use scale::{
    By, ClosedTest, ClosedWeights, KeptMoney, KnownWays, Learning, Measure, OddLevel, Prior, Tag,
    TestedSide, overlay, products, standing,
};

const TESTS: u64 = 500;

/// The plan that cuts a side to most: of every part the way with most outputs.
fn many_cuts(catalogue: &Catalogue) -> CutPlan {
    let mut plan = CutPlan::default();
    for (part, data) in catalogue.parts() {
        let most = data
            .ways
            .iter()
            .max_by_key(|way| catalogue[**way].outputs.len());
        if let Some(way) = most {
            plan.choose(part, *way);
        }
    }
    plan
}

fn closed(catalogue: &Catalogue, side: &Breakdown, index: u64) -> ClosedTest {
    let mut deviates = vec![0.0; side.nodes().len()];
    normal_deviates(7, index, &mut deviates);
    let pieces: Vec<Mass> = products(side)
        .zip(deviates)
        .map(|((_, _, node), deviate)| {
            let factor = Decimal::try_from(1.0 + 0.08 * deviate).unwrap_or(Decimal::ONE);
            Mass::from_kg((node.weight.kg() * factor.max(Decimal::ZERO)).round_dp(3))
        })
        .collect();
    let money = KeptMoney {
        paid: UnitPrice::from_per_kg(Decimal::new(114, 1)),
        walk_away: UnitPrice::from_per_kg(Decimal::new(118, 1)),
        margin: Share::from_percent(Decimal::from(29)),
    };
    ClosedTest::of(
        catalogue,
        side,
        (Stock::GRAIN, 1),
        &ClosedWeights {
            unexplained: Mass::from_kg(Decimal::new(7, 1)),
            ..ClosedWeights::all_found(pieces)
        },
        Tag {
            lot: format!("A{index}"),
            supplier: format!("Supplier {}", index % 7),
            farm: format!("Farm {}", index % 23),
            plant: "Est. 205".to_owned(),
            received: "2026-03-09".parse().ok(),
            ..Tag::default()
        },
        Some(money),
    )
}

fn history(bench: &mut Criterion) {
    let catalogue = Catalogue::published().expect("published data");
    let weight = Mass::from_kg(Decimal::from(180));
    let side = break_down(&catalogue, weight, 1, &many_cuts(&catalogue), Stock::GRAIN);
    let cuts: BTreeSet<_> = products(&side).map(|(_, product, _)| product).collect();
    let texts: Vec<String> = (0..TESTS)
        .map(|index| closed(&catalogue, &side, index).to_text())
        .collect();
    let bytes: usize = texts.iter().map(String::len).sum();
    println!(
        "{TESTS} tests of {} products in {} pieces: {bytes} bytes as text",
        cuts.len(),
        products(&side).count()
    );

    let read = |texts: &[String]| -> Vec<ClosedTest> {
        texts
            .iter()
            .map(|text| ClosedTest::of_text(text).expect("a test"))
            .collect()
    };
    let tested = |tests: &[ClosedTest]| -> Vec<TestedSide> {
        let known = KnownWays::of(&catalogue);
        tests.iter().map(|test| test.tested(&known).0).collect()
    };
    let level = Share::from_percent(Decimal::TEN);
    bench.bench_function("open 500 tests", |bench| {
        bench.iter(|| {
            let kept = read(black_box(&texts));
            let sides = tested(&kept);
            let learning = Learning::of(&catalogue, Prior::default(), &sides);
            let own = overlay(&learning, &BTreeSet::new(), Some(&learning.spread(&sides)));
            let suppliers = standing(&catalogue, &kept, By::Supplier, Measure::Saleable, level);
            (own, suppliers)
        });
    });
    bench.bench_function("read 500 tests", |bench| {
        bench.iter(|| read(black_box(&texts)));
    });
    let kept = read(&texts);
    bench.bench_function("find their ways", |bench| {
        bench.iter(|| tested(black_box(&kept)));
    });
    let sides = tested(&kept);
    bench.bench_function("learn from 500 tests", |bench| {
        bench.iter(|| {
            let learning = Learning::of(&catalogue, Prior::default(), black_box(&sides));
            overlay(&learning, &BTreeSet::new(), Some(&learning.spread(&sides)))
        });
    });
    let learning = Learning::of(&catalogue, Prior::default(), &sides);
    bench.bench_function("look for odd ones", |bench| {
        bench.iter(|| learning.odd(OddLevel::default(), black_box(&sides)));
    });
    bench.bench_function("hold seven suppliers against each other", |bench| {
        bench.iter(|| {
            standing(
                &catalogue,
                black_box(&kept),
                By::Supplier,
                Measure::Saleable,
                level,
            )
        });
    });
}

criterion_group!(benches, history);
criterion_main!(benches);
