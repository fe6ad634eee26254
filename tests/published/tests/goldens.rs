//! Whole sides priced to the last figure and frozen, so that a change of any
//! figure is seen and meant, and so that the browser is known to compute what
//! the machine does.
//!
//! Each side is a saved plan in `goldens/`, with its rows and its totals
//! beside it, to twelve places. The files say what the tool gave when they
//! were written, not what is right: that is held by the other checks here.
//!
//! After a change that is meant to move figures, write them anew with
//! `UPDATE_GOLDENS=1 cargo test -p published-checks --test goldens` and read
//! the difference before it is committed.

use document::Document;
use pricing::{CostSheet, Outcome, price_side};
use published_checks::frozen::{is_frozen, same};
use published_checks::sides::catalogue;
use quantity::{Decimal, Rounding, Share, UnitPrice};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

/// A saved plan and what it gave.
struct Golden {
    name: &'static str,
    plan: &'static str,
    rows: &'static str,
    totals: &'static str,
}

macro_rules! golden {
    ($name:literal) => {
        Golden {
            name: $name,
            plan: include_str!(concat!("../goldens/", $name, ".plan.json")),
            rows: include_str!(concat!("../goldens/", $name, ".rows.csv")),
            totals: include_str!(concat!("../goldens/", $name, ".totals.csv")),
        }
    };
}

fn figure(number: Decimal) -> String {
    Rounding::HalfEven
        .to_places(number, 12)
        .normalize()
        .to_string()
}

fn share(share: Option<Share>) -> String {
    share.map_or_else(String::new, |share| figure(share.percent()))
}

fn per_kg(price: Option<UnitPrice>) -> String {
    price.map_or_else(String::new, |price| figure(price.per_kg()))
}

fn csv_of(lines: impl IntoIterator<Item = Vec<String>>) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    for line in lines {
        writer.write_record(line).expect("a line of text");
    }
    String::from_utf8(writer.into_inner().expect("memory")).expect("text")
}

fn rows_of(catalogue: &carcass::Catalogue, sheet: &CostSheet) -> String {
    let header = [
        "product",
        "weight_kg",
        "share_pct",
        "exact_cost",
        "cost",
        "cost_per_kg",
        "price_per_kg",
        "sales",
        "margin_pct",
        "suggested_per_kg",
    ];
    let header = header.map(str::to_owned).to_vec();
    let rows = sheet.rows.iter().map(|row| {
        vec![
            catalogue[row.product].id.clone(),
            figure(row.weight.kg()),
            share(Some(row.share)),
            figure(row.exact_cost.units()),
            figure(row.cost.units()),
            per_kg(row.cost_per_mass),
            per_kg(Some(row.price)),
            figure(row.sales.units()),
            share(row.margin),
            per_kg(row.suggested),
        ]
    });
    csv_of(std::iter::once(header).chain(rows))
}

fn totals_of(sheet: &CostSheet) -> String {
    let totals = &sheet.totals;
    let verdict = &sheet.verdict;
    let outcome = match verdict.outcome {
        Outcome::Pays => "pays",
        Outcome::Thin => "thin",
        Outcome::FallsShort => "falls short",
    };
    let lines = [
        ("what", "figure".to_owned()),
        ("chilled_kg", figure(totals.chilled.kg())),
        ("saleable_kg", figure(totals.saleable.kg())),
        ("minutes", figure(totals.time.minutes())),
        ("side", figure(totals.side.units())),
        ("charges", figure(totals.charges.units())),
        ("labour", figure(totals.labour.units())),
        ("packaging", figure(totals.packaging.units())),
        ("spend", figure(totals.spend().units())),
        ("sales", figure(totals.sales.units())),
        ("by_products", figure(totals.by_products.units())),
        ("profit", figure(verdict.profit.units())),
        ("margin_pct", share(Some(verdict.margin))),
        ("meat_margin_pct", share(Some(verdict.meat_margin))),
        ("outcome", outcome.to_owned()),
        ("walk_away_per_kg", per_kg(Some(verdict.walk_away))),
        ("walk_away_per_lb", figure(verdict.walk_away.per_lb())),
        ("room_per_kg", per_kg(Some(verdict.room))),
    ];
    csv_of(
        lines
            .into_iter()
            .map(|(what, figure)| vec![what.to_owned(), figure]),
    )
}

#[track_caller]
fn is_as_frozen(golden: &Golden) {
    let catalogue = catalogue();
    let document = Document::from_json(golden.plan).expect("a saved plan");
    let resolved = document.resolve(&catalogue).expect("a sound plan");
    let sheet = price_side(&catalogue, &resolved.deal, &resolved.plan, &resolved.shop)
        .expect("a priced side");
    let rows = rows_of(&catalogue, &sheet);
    let totals = totals_of(&sheet);

    is_frozen(&format!("{}.rows.csv", golden.name), &rows, golden.rows);
    is_frozen(
        &format!("{}.totals.csv", golden.name),
        &totals,
        golden.totals,
    );
}

/// The plan a first visit starts from. Where the sample has changed, its plan
/// is written anew first and its figures by a second run.
#[test]
fn the_sample_side() {
    let golden = golden!("sample");
    let sample = Document::sample().to_json().expect("a document");
    is_frozen("sample.plan.json", &(sample + "\n"), golden.plan);
    is_as_frozen(&golden);
}

/// A grass-fed side in pounds, cut bone-in, by sales value at split-off.
#[test]
fn a_bone_in_grass_fed_side_in_pounds() {
    is_as_frozen(&golden!("bone-in-grass-fed"));
}

/// Hot weight with shrink, charges of every kind, half way between the stocks,
/// own ways, own prices, bones that cost money to be rid of, minutes for the
/// whole side.
#[test]
fn a_hot_side_with_charges() {
    is_as_frozen(&golden!("hot-with-charges"));
}

/// Hot weight after days in the cooler, a graded carcass that says where the
/// stock stands, two parts dry-aged, trims with fat ground to three classes,
/// packs counted.
#[test]
fn a_side_ground_to_classes_and_dry_aged() {
    is_as_frozen(&golden!("ground-and-aged"));
}

/// The saved form is frozen with its figures: what is written is what was
/// written, to the letter.
#[test]
fn a_plan_is_written_as_it_was() {
    for golden in [
        golden!("bone-in-grass-fed"),
        golden!("hot-with-charges"),
        golden!("ground-and-aged"),
    ] {
        let document = Document::from_json(golden.plan).expect("a saved plan");
        let written = document.to_json().expect("a document");
        same(golden.name, &written, golden.plan.trim_end());
    }
}
