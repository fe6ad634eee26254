//! Grain-fed against grass-fed: the presets, and which way every cut moves.
//!
//! Presets (D): proposals derived from yield-grade slopes of Kansas State 1976
//! and 1996 and the dressing figures of Univ. Kentucky ASC-179, Klopatek et al.
//! 2022 and others; share of the chilled side, mostly boneless.
//!
//! Directions (R): genetic correlation of a cut's share with fat score, Judge
//! et al. 2019, J Anim Sci 97:2769, table 2.

use carcass::{Catalogue, Kind, Stock};
use published_checks::print;
use published_checks::printed::{agrees_within, number, shown};
use published_checks::sides::{broken_down, catalogue, percent_of_kinds, percent_of_products};
use published_checks::table::Table;
use quantity::{Decimal, Share};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

fn half_way() -> Stock {
    Stock::grass_share(Share::from_percent(number("50")))
}

fn presets() -> Table {
    Table::read(include_str!("../tables/stock-presets.csv"))
}

fn stock_of(name: &str) -> Stock {
    match name {
        "grain" => Stock::GRAIN,
        "grass" => Stock::GRASS,
        other => panic!("no stock “{other}”"),
    }
}

/// Saleable, fat and bone of the boneless plan, percent of the side.
fn thirds(catalogue: &Catalogue, stock: Stock) -> [Decimal; 3] {
    let side = broken_down(catalogue, "boneless", stock);
    [&[Kind::Cut][..], &[Kind::Fat], &[Kind::Bone, Kind::Loss]]
        .map(|kinds| percent_of_kinds(catalogue, &side, kinds))
}

/// Both presets within half a point of the side.
#[test]
fn both_presets_are_met() {
    let catalogue = catalogue();
    for line in presets().lines() {
        let stock = line.text("stock");
        let columns = ["saleable_pct", "fat_pct", "bone_pct"];
        for (column, ours) in columns.into_iter().zip(thirds(&catalogue, stock_of(stock))) {
            print(&format!(
                "{stock} {column}: {} against {}",
                shown(ours),
                line.text(column)
            ));
            agrees_within(column, ours, line.text(column), number("0.5"));
        }
    }
}

/// Grass raises the saleable share of the side and lowers it of live weight,
/// since the animal dresses lower (D, from the same studies).
#[test]
fn grass_gives_more_of_the_side_and_less_of_the_animal() {
    let catalogue = catalogue();
    let saleable = |line: &str| {
        let dressing = presets().sum("dressing_pct", |row| row.text("stock") == line);
        let [of_side, ..] = thirds(&catalogue, stock_of(line));
        (of_side, of_side * dressing / Decimal::ONE_HUNDRED)
    };
    let (grain_side, grain_live) = saleable("grain");
    let (grass_side, grass_live) = saleable("grass");
    assert!(grass_side > grain_side, "{grass_side} of the side");
    assert!(grass_live < grain_live, "{grass_live} of live weight");
}

/// The products that stand for a cut of the published list.
fn products_of(cut: &str) -> &'static [&'static str] {
    match cut {
        "flank" => &["flank-steak"],
        "strip loin" => &["strip-loin-steak"],
        "brisket" => &["brisket-whole"],
        "ribeye" => &["ribeye-steak"],
        "sirloin" => &[
            "top-sirloin-centre-steak",
            "sirloin-cap-roast",
            "tri-tip-roast",
            "ball-tip-roast",
            "sirloin-flap",
        ],
        "chuck and neck" => &[
            "chuck-eye-roast",
            "chuck-flap",
            "under-blade-steak",
            "flat-iron-steak",
            "clod-heart-roast",
            "teres-major",
        ],
        "outside round" => &["outside-round-roast"],
        "eye" => &["eye-of-round-roast"],
        "shank" => &["shank-boneless"],
        "tenderloin" => &["tenderloin-steak", "tenderloin-tips"],
        "top round" => &["inside-round-roast"],
        "knuckle" => &["sirloin-tip-roast"],
        other => panic!("no product stands for “{other}”"),
    }
}

/// A cut whose share grows with fatness is a smaller share of a grass-fed
/// side, and the other way round; every product of it, strictly. The list is
/// of lean, so it holds for what is cut without bone: all of it in the
/// boneless plan, some of it in the bone-in plan.
#[test]
fn every_listed_cut_moves_as_published() {
    let catalogue = catalogue();
    let table = Table::read(include_str!("../tables/fat-correlation.csv"));
    assert_eq!(table.lines().count(), 12);
    for (plan, whole_list) in [("boneless", true), ("bone-in", false)] {
        let sides = [Stock::GRAIN, half_way(), Stock::GRASS]
            .map(|stock| broken_down(&catalogue, plan, stock));
        for line in table.lines() {
            let cut = line.text("cut");
            let with_fatness = line.number("correlation_with_fat").is_sign_positive();
            for &product in products_of(cut) {
                let [grain, middle, grass] = sides
                    .each_ref()
                    .map(|side| percent_of_products(&catalogue, side, &[product]));
                if grain.is_zero() {
                    assert!(!whole_list, "{product} is cut in the {plan} plan");
                    continue;
                }
                print(&format!(
                    "{plan:8} {cut:15} {product:26} grain {} half {} grass {}",
                    grain.round_dp(4),
                    middle.round_dp(4),
                    grass.round_dp(4)
                ));
                if with_fatness {
                    assert!(grain > middle && middle > grass, "{product} shrinks");
                } else {
                    assert!(grain < middle && middle < grass, "{product} grows");
                }
            }
        }
    }
}

/// Half way lies between, for what is sold, for fat and for bone.
#[test]
fn half_way_lies_between() {
    let catalogue = catalogue();
    let [grain, middle, grass] =
        [Stock::GRAIN, half_way(), Stock::GRASS].map(|stock| thirds(&catalogue, stock));
    for ((grain, middle), grass) in grain.into_iter().zip(middle).zip(grass) {
        let (low, high) = (grain.min(grass), grain.max(grass));
        assert!(low < middle && middle < high, "{low} {middle} {high}");
    }
}
