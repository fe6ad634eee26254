//! The fast path held against the exact one, draw by draw.

use carcass::{Kind, break_down};
use pricing::{AllocationMethod, CostSheet, price_breakdown};
use proptest::prelude::*;
use quantity::{Decimal, Share, UnitPrice};

use super::draws::Run;
use super::float::float;
use super::model::DrawModel;
use crate::any_case::{any_case, plain_case};
use crate::case::Case;

fn percent(tenths: i64) -> Share {
    Share::from_percent(Decimal::new(tenths, 1))
}

fn exactly(number: f64) -> Decimal {
    Decimal::from_f64_retain(number).expect("a number")
}

/// The case as the market of a draw has it.
fn in_market<'a>(case: &Case<'a>, (price, unsold): (f64, f64)) -> Case<'a> {
    let mut case = case.clone();
    for (id, product) in case.catalogue.products() {
        if product.kind != Kind::Cut {
            continue;
        }
        let dearer = case.shop.board.price(case.catalogue, id).per_kg() * exactly(price);
        case.shop.board.set(id, UnitPrice::from_per_kg(dearer));
        let mut loss = case.shop.losses_of(id);
        let room = loss
            .unsold
            .min((loss.unsold + loss.marked_down).complement())
            .fraction()
            * Decimal::new(99, 2);
        let shift = exactly(unsold).clamp(-room, room);
        loss.unsold = loss.unsold + Share::from_fraction(shift);
        case.shop.own_losses.insert(id, loss);
    }
    case
}

/// The exact sheet of a draw that weighs this, product by product.
fn exact(case: &Case, weights: &[f64]) -> CostSheet {
    let chilled = case.deal.basis.chilled(case.deal.weight);
    let planned = break_down(
        case.catalogue,
        chilled,
        case.deal.sides,
        &case.plan,
        case.deal.stock,
    );
    let shares: Vec<Share> = weights
        .iter()
        .map(|weight| Share::from_fraction(exactly(weight / float(chilled.kg()))))
        .collect();
    let drawn = planned.reshared(case.catalogue, &shares);
    price_breakdown(case.catalogue, drawn, &case.deal, &case.shop).expect("sales")
}

/// What a share cut to its fourteenth place leaves open of an amount.
const LAST_PLACE: f64 = 1e-12;

#[track_caller]
fn agree(what: &str, fast: f64, exact: Decimal, side: f64) {
    let exact = float(exact);
    let apart = (fast - exact).abs();
    assert!(
        apart <= 1e-9 * exact.abs() + LAST_PLACE * side,
        "{what}: {fast} against {exact}"
    );
}

fn held_against_the_exact_path(case: &Case, model: &DrawModel, seed: u64, draws: u32) {
    let mut run = Run::new(case, model, seed).expect("a case that can be priced");
    for index in 0..draws {
        let side = run.draw(index);
        let market = run.market_of(index);
        let sheet = exact(&in_market(case, market), &run.weights());
        let totals = &sheet.totals;
        let scale = side.sales.abs() + side.spend.abs();
        for (what, fast, exact) in [
            ("sales", side.sales, totals.sales),
            ("by-products", side.by_products, totals.by_products),
            ("packaging", side.packaging, totals.packaging),
            ("labour", side.labour, totals.labour + totals.overhead),
            ("spend", side.spend, totals.spend()),
            ("profit", side.profit, totals.profit()),
        ] {
            agree(what, fast, exact.units(), scale);
        }
        agree(
            "margin",
            side.margin,
            sheet.verdict.margin.fraction(),
            scale / side.sales,
        );
        agree(
            "walk-away price",
            side.walk_away,
            sheet.verdict.walk_away.per_kg(),
            scale / float(case.deal.weight.kg()),
        );
        let mut cuts = 0;
        for row in sheet.rows.iter().filter(|row| !row.is_by_product) {
            let fast = run.cost_of(row.product).expect("a cut");
            agree(
                &case.catalogue[row.product].id,
                fast,
                row.exact_cost.units(),
                scale,
            );
            cuts += 1;
        }
        assert!(cuts > 0);
    }
}

fn any_model() -> impl Strategy<Value = DrawModel> {
    [0_i64..=60, 0..=1500, 0..=300, 0..=100].prop_map(|[saleable, cuts, prices, unsold]| {
        DrawModel {
            saleable: percent(saleable),
            cuts: percent(cuts),
            prices: percent(prices),
            unsold: percent(unsold),
        }
    })
}

#[test]
fn without_spread_every_draw_is_the_plan() {
    for method in AllocationMethod::ALL {
        let mut case = plain_case();
        case.shop.method = method;
        held_against_the_exact_path(&case, &DrawModel::NONE, 1, 2);
        let sheet = case.sheet().expect("sound");
        let mut run = Run::new(&case, &DrawModel::NONE, 1).expect("sound");
        run.advance(3);
        let summary = run.summary(percent(900)).expect("draws");
        let apart = (summary.walk_away.low - sheet.verdict.walk_away)
            .per_kg()
            .abs();
        assert!(apart <= Decimal::new(1, 8), "{apart}");
        assert_eq!(summary.walk_away.low, summary.walk_away.high);
        assert_eq!(summary.offer, summary.walk_away.middle);
    }
}

#[test]
fn a_side_at_its_walk_away_price_pays_though_floats_round() {
    let mut case = plain_case();
    case.deal.price = case.sheet().expect("sound").verdict.walk_away;
    let mut run = Run::new(&case, &DrawModel::NONE, 1).expect("sound");
    run.advance(10);
    assert_eq!(
        run.summary(percent(900)).expect("draws").chance,
        Share::WHOLE
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(30))]

    #[test]
    fn every_draw_costs_what_the_exact_path_says(
        mut case in any_case(),
        model in any_model(),
        seed: u64,
    ) {
        for method in AllocationMethod::ALL {
            case.shop.method = method;
            held_against_the_exact_path(&case, &model, seed, 4);
        }
    }
}
