//! How long a recalculation takes: what happens between a keystroke and the
//! new verdict, and what happens once when the tool is opened.
//!
//! `cargo bench -p pricing`; with `-- --output-format bencher` one plain line
//! for each figure.

use std::hint::black_box;

use carcass::{Catalogue, CutPlan, GrindAmount, Stock, break_down};
use criterion::{Criterion, criterion_group, criterion_main};
use litemap::LiteMap;
use pricing::{
    Age, AllocationMethod, Charge, ChargeAmount, Deal, Labour, LabourTime, Packaging, PriceBoard,
    PriceRounding, SaleLoss, Shop, WeightBasis, price_side, rows_by_every_method,
};
use quantity::{Decimal, LabourRate, Mass, Money, Share, UnitPrice};

const PLANS: [&str; 2] = ["boneless", "bone-in"];

fn percent(percent: i64) -> Share {
    Share::from_percent(Decimal::from(percent))
}

fn catalogue() -> Catalogue {
    Catalogue::published().expect("published data")
}

fn plan<'a>(catalogue: &'a Catalogue, id: &str) -> &'a CutPlan {
    &catalogue.plan(id).expect("a named plan").plan
}

/// A side with everything that costs time: half way between the stocks, in
/// pounds, with shrink and a charge.
fn deal() -> Deal {
    Deal {
        sides: 1,
        weight: Mass::from_lb(Decimal::new(4305, 1)),
        basis: WeightBasis::Hot { shrink: percent(2) },
        price: UnitPrice::from_per_lb(Decimal::new(395, 2)),
        charges: vec![Charge {
            what: "kill and inspection".to_owned(),
            amount: ChargeAmount::Flat(Money::from_cents(9500)),
        }],
        stock: Stock::grass_share(percent(50)),
        age: Age::Unknown,
        labour: LabourTime::PlanEstimate,
    }
}

fn shop() -> Shop {
    Shop {
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
    }
}

fn recalculation(bench: &mut Criterion) {
    let (catalogue, deal, shop) = (catalogue(), deal(), shop());
    for id in PLANS {
        let plan = plan(&catalogue, id);
        bench.bench_function(&format!("price a side, {id}"), |bench| {
            bench.iter(|| price_side(&catalogue, black_box(&deal), plan, &shop));
        });
    }
}

/// Every part by its first two ways and all four classes of grind: far more cuts
/// than a side is ever cut to.
fn many_cuts(catalogue: &Catalogue) -> CutPlan {
    let mut plan = CutPlan::default();
    for (part, data) in catalogue.parts() {
        let mut ways = data.ways.iter().copied();
        if let Some(first) = ways.next() {
            plan.choose(part, first);
        }
        if let Some(second) = ways.next().filter(|_| part != catalogue.root()) {
            plan.split(catalogue, part, second, percent(50));
        }
    }
    for class in catalogue.grind_classes() {
        plan.grind
            .ask(class.product, GrindAmount::Share(percent(20)));
    }
    plan.grind.with_fat_trim = true;
    plan
}

fn all_methods(bench: &mut Criterion) {
    let (catalogue, deal, shop) = (catalogue(), deal(), shop());
    let plan = many_cuts(&catalogue);
    let sheet = price_side(&catalogue, &deal, &plan, &shop).expect("a priced side");
    let cuts = sheet.rows.iter().filter(|row| !row.is_by_product).count();
    let chilled = deal.basis.chilled(deal.weight);
    bench.bench_function(
        &format!("price a side of {cuts} cuts by 4 methods"),
        |bench| {
            bench.iter(|| {
                let deal = black_box(&deal);
                let breakdown = break_down(&catalogue, chilled, deal.sides, &plan, deal.stock);
                rows_by_every_method(&catalogue, &breakdown, deal, &shop)
            });
        },
    );
}

fn breakdown(bench: &mut Criterion) {
    let (catalogue, deal) = (catalogue(), deal());
    for id in PLANS {
        let plan = plan(&catalogue, id);
        bench.bench_function(&format!("break a side down, {id}"), |bench| {
            bench.iter(|| {
                break_down(
                    &catalogue,
                    black_box(deal.weight),
                    deal.sides,
                    plan,
                    deal.stock,
                )
            });
        });
    }
}

fn loading(bench: &mut Criterion) {
    bench.bench_function("load the catalogue", |bench| {
        bench.iter(Catalogue::published);
    });
}

criterion_group!(benches, recalculation, all_methods, breakdown, loading);
criterion_main!(benches);
