//! Speed of the draws: `cargo bench -p decision --bench spread`.
//!
//! Besides the benchmarks a table is printed, time by number of draws and of
//! cuts, which shows that cost grows linearly in both. All sides are invented.

use std::hint::black_box;
use std::time::Instant;

use carcass::{Catalogue, CutPlan, GrindAmount, Kind, PartId, Stock, WayId};
use criterion::{Criterion, criterion_group};
use decision::Case;
use decision::spread::{DrawModel, KnownOfSide, Run};
use litemap::LiteMap;
use pricing::{
    Age, AllocationMethod, Deal, Labour, LabourTime, Packaging, PriceBoard, PriceRounding,
    SaleLoss, Shop, WeightBasis,
};
use quantity::{Decimal, LabourRate, Mass, Share, UnitPrice};

fn percent(percent: i64) -> Share {
    Share::from_percent(Decimal::from(percent))
}

/// Some plan with about so many cuts: part by part the one or two ways that
/// lead there, and when they are wanted still, every class of grind.
fn plan_of(catalogue: &Catalogue, wanted: usize) -> CutPlan {
    let mut plan = CutPlan::default();
    let off = |plan: &CutPlan| cuts_of(catalogue, plan).abs_diff(wanted);
    let mut least = off(&plan);
    let parts: Vec<(PartId, Vec<WayId>)> = catalogue
        .parts()
        .map(|(id, part)| (id, part.ways.clone()))
        .collect();
    // What a part can bring depends on the ways above it and they on it.
    for _ in 0..2 {
        for (part, ways) in &parts {
            for (place, first) in ways.iter().enumerate() {
                let mut alone = plan.clone();
                alone.choose(*part, *first);
                let pairs = ways.iter().skip(place + 1).map(|second| {
                    let mut both = alone.clone();
                    both.split(catalogue, *part, *second, percent(40));
                    both
                });
                for other in std::iter::once(alone.clone()).chain(pairs) {
                    let apart = off(&other);
                    if apart < least {
                        (plan, least) = (other, apart);
                    }
                }
            }
        }
    }
    if cuts_of(catalogue, &plan) < wanted {
        plan.grind.with_fat_trim = true;
        for class in catalogue.grind_classes() {
            plan.grind
                .ask(class.product, GrindAmount::Share(percent(15)));
        }
    }
    plan
}

fn case<'a>(catalogue: &'a Catalogue, plan: &CutPlan) -> Case<'a> {
    Case {
        catalogue,
        deal: Deal {
            sides: 1,
            weight: Mass::from_kg(Decimal::from(180)),
            basis: WeightBasis::Cold,
            price: UnitPrice::from_per_kg(Decimal::new(920, 2)),
            charges: Vec::new(),
            stock: Stock::GRAIN,
            age: Age::Under30Months,
            labour: LabourTime::PlanEstimate,
        },
        plan: plan.clone(),
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
            own_losses: LiteMap::new_vec(),
            method: AllocationMethod::NetRealisableValue,
            board: PriceBoard::default(),
            rules: LiteMap::new_vec(),
            rounding: PriceRounding::default(),
        },
        days_hung: None,
    }
}

fn cuts_of(catalogue: &Catalogue, plan: &CutPlan) -> usize {
    let sheet = case(catalogue, plan).sheet().expect("a side that sells");
    sheet
        .rows
        .iter()
        .filter(|row| catalogue[row.product].kind == Kind::Cut)
        .count()
}

fn run(catalogue: &Catalogue, plan: &CutPlan) -> Run {
    let case = case(catalogue, plan);
    let model = DrawModel::published(catalogue, KnownOfSide::Unknown);
    Run::new(&case, &model, 1).expect("a side that sells")
}

fn draws(bench: &mut Criterion) {
    let catalogue = Catalogue::published().expect("published data");
    let plan = plan_of(&catalogue, 70);
    let cuts = cuts_of(&catalogue, &plan);
    let fresh = run(&catalogue, &plan);
    bench.bench_function(&format!("10,000 draws of {cuts} cuts"), |bench| {
        bench.iter(|| {
            let mut run = black_box(&fresh).reseeded(1);
            run.advance(10_000)
        });
    });
    let mut drawn = fresh.clone();
    drawn.advance(10_000);
    bench.bench_function("summary of 10,000 draws", |bench| {
        bench.iter(|| black_box(&drawn).summary(percent(90)));
    });
    bench.bench_function("a run is set up", |bench| {
        bench.iter(|| run(black_box(&catalogue), &plan));
    });
}

/// Milliseconds by draws and cuts.
fn table() {
    let catalogue = Catalogue::published().expect("published data");
    println!("| cuts | pieces of the plan | 1,000 draws | 10,000 draws | 100,000 draws |");
    println!("|---|---|---|---|---|");
    for wanted in [10, 40, 70] {
        let plan = plan_of(&catalogue, wanted);
        let sheet = case(&catalogue, &plan).sheet().expect("a side that sells");
        let fresh = run(&catalogue, &plan);
        print!(
            "| {} | {} ",
            cuts_of(&catalogue, &plan),
            sheet.breakdown.nodes().len()
        );
        for draws in [1_000, 10_000, 100_000] {
            let best = (0..5)
                .map(|seed| {
                    let mut run = fresh.reseeded(seed);
                    let start = Instant::now();
                    run.advance(draws);
                    start.elapsed()
                })
                .min()
                .unwrap_or_default();
            print!("| {:.2} ms ", best.as_secs_f64() * 1e3);
        }
        println!("|");
    }
}

criterion_group!(benches, draws);

fn main() {
    table();
    benches();
    Criterion::default().configure_from_args().final_summary();
}
