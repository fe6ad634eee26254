//! How long the search for the best plan of a whole side takes, proof included,
//! under limits from none to many.
//!
//! `cargo bench -p decision --bench best_plan`; the side, its prices and its
//! limits are invented.

use std::collections::BTreeSet;
use std::hint::black_box;

use carcass::{Catalogue, ProductId, Stock};
use criterion::{Criterion, criterion_group, criterion_main};
use decision::Case;
use decision::best_plan::{LeastGrind, Limits, Objective, Outcome, Question, best_plan};
use litemap::LiteMap;
use pricing::{
    Age, AllocationMethod, Deal, Labour, LabourTime, Packaging, PriceBoard, PriceRounding,
    SaleLoss, Shop, WeightBasis,
};
use quantity::{Decimal, LabourRate, Mass, Minutes, Share, UnitPrice};

fn percent(percent: i64) -> Share {
    Share::from_percent(Decimal::from(percent))
}

fn kilograms(kilograms: i64) -> Mass {
    Mass::from_kg(Decimal::from(kilograms))
}

fn minutes(minutes: i64) -> Minutes {
    Minutes::from_minutes(Decimal::from(minutes))
}

fn case(catalogue: &Catalogue) -> Case<'_> {
    Case {
        catalogue,
        deal: Deal {
            sides: 1,
            weight: kilograms(180),
            basis: WeightBasis::Hot { shrink: percent(2) },
            price: UnitPrice::from_per_kg(Decimal::new(920, 2)),
            charges: Vec::new(),
            stock: Stock::grass_share(percent(50)),
            age: Age::Unknown,
            labour: LabourTime::PlanEstimate,
        },
        plan: catalogue
            .plan("boneless")
            .expect("a named plan")
            .plan
            .clone(),
        shop: Shop {
            labour: Labour {
                rate: LabourRate::from_per_hour(Decimal::from(32)),
                ..Labour::default()
            },
            target_margin: percent(28),
            packaging: Packaging::PerWeight(UnitPrice::from_per_kg(Decimal::new(35, 2))),
            losses: SaleLoss {
                unsold: percent(4),
                ..SaleLoss::default()
            },
            own_losses: LiteMap::new(),
            method: AllocationMethod::NetRealisableValue,
            board: PriceBoard::default(),
            rules: LiteMap::new(),
            rounding: PriceRounding::default(),
        },
        days_hung: None,
    }
}

/// Invented limits, each set with its name.
fn limit_sets(catalogue: &Catalogue) -> Vec<(&'static str, Limits)> {
    let product = |id: &str| -> ProductId { catalogue.product_id(id).expect("a product") };
    let none = Limits::default();
    let time = Limits {
        bench: Some(minutes(95)),
        saw: Some(minutes(12)),
        ..Limits::default()
    };
    let mut counter = time.clone();
    for (id, most) in [
        ("ribeye-cap-steak", 1),
        ("kebab-cubes", 3),
        ("jerky-strips", 4),
        ("minute-steak", 5),
        ("stir-fry-strips", 3),
        ("stew-beef", 8),
        ("rouladen", 4),
        ("tenderloin-steak", 2),
    ] {
        counter.most.insert(product(id), kilograms(most));
    }
    // Whole back bones go and whole briskets stay, which takes more time.
    let mut all = counter.clone();
    all.bench = Some(minutes(150));
    all.most.remove(&product("ribeye-cap-steak"));
    all.close_caution(catalogue, "vertebral-column");
    all.must = BTreeSet::from(["brisket-whole", "flank-steak", "strip-loin-steak"].map(product));
    all.must_not = BTreeSet::from([product("tallow")]);
    all.grind = Some(LeastGrind {
        products: BTreeSet::from([product("ground-beef")]),
        weight: kilograms(45),
    });
    let mut every_cut = all.clone();
    for (id, data) in catalogue.products() {
        if data.kind == carcass::Kind::Cut && data.id != "ground-beef" {
            every_cut.most.entry(id).or_insert(kilograms(6));
        }
    }
    vec![
        ("no limits", none),
        ("bench and saw", time),
        ("and what the counter sells", counter),
        ("and cautions, musts and grind", all),
        ("and at most 6 kg of every cut", every_cut),
    ]
}

fn search(bench: &mut Criterion) {
    let catalogue = Catalogue::published().expect("published data");
    let case = case(&catalogue);
    for (name, limits) in limit_sets(&catalogue) {
        for (aim, objective) in [
            ("profit", Objective::Profit),
            ("profit per bench hour", Objective::ProfitPerBenchHour),
        ] {
            let question = Question {
                objective,
                limits: limits.clone(),
                ..Question::default()
            };
            let answer = best_plan(&case, &question).expect("an answer");
            match &answer.outcome {
                Outcome::Found(found) => println!(
                    "{aim}, {name}: {} plans, profit {:?} after {:?}, bench {:?}, saw {:?}, one more hour {:?}, {:?}",
                    answer.plans,
                    found.best.profit(),
                    answer.present.profit(),
                    found.best.bench,
                    found.best.saw,
                    found.one_more_bench_hour,
                    found.proof,
                ),
                other => println!("{aim}, {name}: {other:?}"),
            }
            bench.bench_function(&format!("{aim}, {name}"), |bench| {
                bench.iter(|| best_plan(black_box(&case), &question));
            });
        }
    }
}

criterion_group!(benches, search);
criterion_main!(benches);
