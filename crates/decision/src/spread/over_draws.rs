//! What holds in every draw, and what holds over many.

use carcass::{Kind, Node};
use proptest::prelude::*;
use quantity::{Decimal, PriceUnit, Share, UnitPrice};

use super::draws::Run;
use super::fast::FlatCase;
use super::float::float;
use super::model::{DrawModel, KnownOfSide};
use crate::any_case::{CATALOGUE, any_case, plain_case};
use crate::case::Case;

fn percent(percent: i64) -> Share {
    Share::from_percent(Decimal::from(percent))
}

fn published(known: KnownOfSide) -> DrawModel {
    DrawModel::published(&CATALOGUE, known)
}

fn run_of(case: &Case, model: &DrawModel, seed: u64) -> Run {
    Run::new(case, model, seed).expect("a case that can be priced")
}

/// Mean and standard deviation of some figure over draws.
#[derive(Default)]
struct Moments {
    count: f64,
    sum: f64,
    squares: f64,
}

impl Moments {
    fn add(&mut self, value: f64) {
        self.count += 1.0;
        self.sum += value;
        self.squares += value * value;
    }

    fn mean(&self) -> f64 {
        self.sum / self.count
    }

    fn deviation(&self) -> f64 {
        (self.squares / self.count - self.mean() * self.mean())
            .max(0.0)
            .sqrt()
    }
}

#[test]
fn the_mean_of_every_cut_is_the_plan() {
    for model in [
        published(KnownOfSide::Unknown),
        // So wide that deviations are cut short all the time.
        DrawModel {
            saleable: percent(15),
            cuts: percent(300),
            prices: percent(40),
            unsold: percent(5),
        },
    ] {
        let mut run = run_of(&plain_case(), &model, 11);
        let planned = run.planned();
        let mut weights: Vec<Moments> = planned.iter().map(|_| Moments::default()).collect();
        let mut sales = Moments::default();
        for index in 0..60_000 {
            sales.add(run.draw(index).sales);
            for (moments, (_, weight)) in weights.iter_mut().zip(run.products()) {
                moments.add(weight);
            }
        }
        for (moments, (product, planned)) in weights.iter().zip(planned) {
            let error = moments.deviation() / moments.count.sqrt();
            let off = (moments.mean() - planned).abs();
            let name = &CATALOGUE[product].id;
            assert!(off <= 4.5 * error + 1e-9, "{name}: {off} against {error}");
        }
        let exact = plain_case().sheet().expect("sound").totals.sales;
        let error = sales.deviation() / sales.count.sqrt();
        assert!((sales.mean() - float(exact.units())).abs() <= 4.5 * error);
    }
}

#[test]
fn a_cut_spreads_by_the_figure_of_its_group_where_the_side_does_not() {
    let mut model = published(KnownOfSide::Unknown);
    model.saleable = Share::ZERO;
    let mut run = run_of(&plain_case(), &model, 9);
    let mut weights: Vec<Moments> = run.products().map(|_| Moments::default()).collect();
    for index in 0..40_000 {
        run.draw(index);
        for (moments, (_, weight)) in weights.iter_mut().zip(run.products()) {
            moments.add(weight);
        }
    }
    // Closing takes a little from the heaviest ones; the tenderloin is light.
    let (_, tenderloin) = run
        .products()
        .zip(&weights)
        .find(|((product, _), _)| {
            CATALOGUE
                .spread_of(*product)
                .is_some_and(|group| group.name == "Tenderloin")
        })
        .expect("a tenderloin");
    let cv = tenderloin.deviation() / tenderloin.mean();
    assert!((cv - 0.086).abs() < 0.002, "{cv}");
}

// The spread that stands for other tissues is of the size of theirs (Koch et
// al.: fat trim 25.1 %, bone 8.7 % of themselves).
#[test]
fn fat_and_bone_spread_about_as_published_for_themselves() {
    let mut model = published(KnownOfSide::Unknown);
    model.cuts = Share::ZERO;
    let mut run = run_of(&plain_case(), &model, 2);
    for (kinds, low, high) in [
        (&[Kind::Fat][..], 0.20, 0.26),
        (&[Kind::Bone, Kind::Loss], 0.08, 0.12),
    ] {
        let mut moments = Moments::default();
        for index in 0..20_000 {
            run.draw(index);
            moments.add(
                run.products()
                    .filter(|(product, _)| kinds.contains(&CATALOGUE[*product].kind))
                    .map(|(_, weight)| weight)
                    .sum(),
            );
        }
        let cv = moments.deviation() / moments.mean();
        assert!((low..high).contains(&cv), "{kinds:?}: {cv}");
    }
}

#[test]
fn half_of_the_draws_pay_at_the_middle_walk_away_price() {
    let mut case = plain_case();
    let model = published(KnownOfSide::Herd);
    let mut run = run_of(&case, &model, 21);
    run.advance(20_000);
    case.deal.price = run.summary(percent(90)).expect("draws").walk_away.middle;
    let mut other = run_of(&case, &model, 22);
    other.advance(20_000);
    let summary = other.summary(percent(90)).expect("draws");
    let off = float((summary.chance - percent(50)).fraction()).abs();
    // Both the price and the chance have a sampling error.
    let error = float(summary.chance_error.fraction()) * 2.0_f64.sqrt();
    assert!(off <= 3.0 * error, "{off} against {error}");
}

#[test]
fn one_can_be_as_sure_as_one_asked_of_the_offer() {
    let mut case = plain_case();
    let model = published(KnownOfSide::Unknown);
    let mut run = run_of(&case, &model, 31);
    run.advance(10_000);
    let mut last = None;
    for sure in [50, 75, 90, 99] {
        let offer = run.summary(percent(sure)).expect("draws").offer;
        assert!(last.is_none_or(|last| offer < last));
        last = Some(offer);
        case.deal.price = offer;
        let mut again = run_of(&case, &model, 32);
        again.advance(10_000);
        let summary = again.summary(percent(sure)).expect("draws");
        let off = float((summary.chance - percent(sure)).fraction()).abs();
        let error = float(summary.chance_error.fraction()) * 2.0_f64.sqrt();
        assert!(off <= 3.0 * error, "{sure}: {off} against {error}");
    }
}

#[test]
fn in_a_thousand_repeats_the_band_holds_the_truth_nine_times_in_ten() {
    let run = run_of(&plain_case(), &published(KnownOfSide::Unknown), 0);
    let (mut margin, mut walk_away) = (0, 0);
    for repeat in 0..1000 {
        // The truth is a side of its own, of which the run knows nothing.
        let mut side = run.reseeded(1_000_000 + repeat);
        side.advance(1);
        let truth = side.summary(percent(90)).expect("a side");
        let mut draws = run.reseeded(repeat);
        draws.advance(400);
        let band = draws.summary(percent(90)).expect("draws");
        let holds_margin = band.margin.low..=band.margin.high;
        let holds_price = band.walk_away.low..=band.walk_away.high;
        margin += i32::from(holds_margin.contains(&truth.margin.middle));
        walk_away += i32::from(holds_price.contains(&truth.walk_away.middle));
    }
    assert!((870..=930).contains(&margin), "{margin}");
    assert!((870..=930).contains(&walk_away), "{walk_away}");
}

#[test]
fn steps_do_not_matter_nor_does_reading() {
    let run = run_of(&plain_case(), &published(KnownOfSide::Unknown), 77);
    let mut whole = run.clone();
    whole.advance(1500);
    let mut steps = run.reseeded(77);
    for step in [1, 255, 1, 7, 500, 36, 700] {
        let before = steps.done();
        assert_eq!(steps.advance(step), before + step);
        assert!(steps.summary(percent(80)).is_some());
    }
    assert_eq!(steps.summary(percent(80)), whole.summary(percent(80)));
    assert_eq!(steps.margins(), whole.margins());
    let per_lb = PriceUnit::PerPound;
    assert_eq!(steps.walk_aways(per_lb), whole.walk_aways(per_lb));
    let mut other = run.reseeded(78);
    other.advance(1500);
    assert_ne!(other.summary(percent(80)), whole.summary(percent(80)));
}

#[test]
fn a_run_without_draws_has_nothing_to_say_and_one_has_an_end() {
    let mut run = run_of(&plain_case(), &DrawModel::NONE, 0);
    assert!(run.summary(percent(90)).is_none());
    assert!(run.margins().counts.is_empty());
    assert_eq!(run.advance(0), 0);
    run.advance(5);
    assert_eq!(run.histograms_hold(), 5);
    assert_eq!(run.advance(0), 5);
}

#[test]
fn a_case_that_cannot_be_priced_is_refused() {
    let mut case = plain_case();
    case.deal.weight = quantity::Mass::ZERO;
    let refused = Run::new(&case, &DrawModel::NONE, 0).err();
    assert_eq!(refused, case.sheet().err());
    assert!(refused.is_some());
}

/// The nodes with what comes off every part in the opposite order.
fn turned_round(nodes: &[Node]) -> Vec<Node> {
    fn place(nodes: &[Node], old: usize, parent: Option<usize>, placed: &mut Vec<Node>) {
        let at = placed.len();
        placed.push(Node {
            parent,
            ..nodes[old].clone()
        });
        for child in (0..nodes.len()).rev() {
            if nodes[child].parent == Some(old) {
                place(nodes, child, Some(at), placed);
            }
        }
    }
    let mut placed = Vec::new();
    place(nodes, 0, None, &mut placed);
    placed
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn every_draw_conserves_the_weight(
        case in any_case(),
        saleable in 0_i64..=60,
        cuts in 0_i64..=500,
        seed: u64,
    ) {
        let model = DrawModel {
            saleable: percent(saleable),
            cuts: percent(cuts),
            prices: percent(50),
            unsold: percent(20),
        };
        let chilled = float(case.deal.basis.chilled(case.deal.weight).kg());
        let mut run = run_of(&case, &model, seed);
        for index in 0..50 {
            let side = run.draw(index);
            let weights = run.weights();
            prop_assert!(weights.iter().all(|weight| *weight >= 0.0));
            let total: f64 = weights.iter().sum();
            prop_assert!((total / chilled - 1.0).abs() <= 1e-12, "{total} of {chilled}");
            prop_assert!(side.margin.is_finite() && side.walk_away.is_finite());
            let costs: f64 = run.products().filter_map(|(product, _)| run.cost_of(product)).sum();
            let scale = side.spend.abs() + side.sales;
            prop_assert!((costs - side.spend).abs() <= 1e-9 * scale, "{costs} of {}", side.spend);
        }
    }

    #[test]
    fn the_order_of_parts_does_not_matter(case in any_case(), seed: u64) {
        let model = published(KnownOfSide::Unknown);
        let mut run = run_of(&case, &model, seed);
        let sheet = case.sheet().expect("sound");
        let turned = turned_round(sheet.breakdown.nodes());
        prop_assert_eq!(turned.len(), sheet.breakdown.nodes().len());
        let mut other = run.with_flat(FlatCase::new(&case, &turned));
        for index in 0..20 {
            let (side, turned) = (run.draw(index), other.draw(index));
            let scale = side.sales + side.spend.abs();
            prop_assert!((side.profit - turned.profit).abs() <= 1e-12 * scale);
            for (product, _) in run.products() {
                let (a, b) = (run.cost_of(product), other.cost_of(product));
                let apart = (a.unwrap_or(0.0) - b.unwrap_or(0.0)).abs();
                prop_assert!(apart <= 1e-11 * scale, "{a:?} {b:?}");
            }
        }
    }

    #[test]
    fn a_dearer_side_pays_less_often(mut case in any_case(), cents in 0_i64..500, seed: u64) {
        let model = published(KnownOfSide::Unknown);
        let mut chance = || {
            let mut run = run_of(&case, &model, seed);
            run.advance(200);
            case.deal.price += UnitPrice::from_per_kg(Decimal::new(cents, 2));
            run.summary(percent(90)).expect("draws").chance
        };
        let cheap = chance();
        prop_assert!(chance() <= cheap);
    }
}
