//! What a hanging side and a dry-aged subprimal lose.

use carcass::{AgeingLoss, Catalogue, DryAgeing, HangingError, Mark, Stock};
use published_checks::print;
use published_checks::printed::{agrees, number, shown};
use published_checks::sides::catalogue;
use quantity::{Decimal, Share};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

fn stocks() -> [(&'static str, Stock); 3] {
    let half = Stock::grass_share(Share::from_percent(number("50")));
    [
        ("grain-fed", Stock::GRAIN),
        ("half way", half),
        ("grass-fed", Stock::GRASS),
    ]
}

#[track_caller]
fn lost(catalogue: &Catalogue, stock: Stock, days: u32) -> Decimal {
    let loss = catalogue.cooler_shrink(stock).after(days);
    loss.expect("within reach").lost.percent()
}

#[track_caller]
fn within(what: &str, figure: Decimal, low: &str, high: &str) {
    print(&format!("{what}: {} within {low} to {high}", shown(figure)));
    assert!(
        figure >= number(low) && figure <= number(high),
        "{what}: {figure} outside {low} to {high}"
    );
}

/// First night 1–2 % (R, Kansas State University 1972); a conventional chill
/// of 24 hours 1.46 % (R), which the model's 1.5 % is, to its own digit.
#[test]
fn the_first_night() {
    let catalogue = catalogue();
    for (name, stock) in stocks() {
        let first = lost(&catalogue, stock, 1);
        within(name, first, "1", "2");
        agrees("24 h", number("1.46"), &first.round_dp(1).to_string());
    }
}

/// 4–6 % in all after 14 days (R, Purdue University, Lemenager): at both ends
/// of the stock and between.
#[test]
fn fourteen_days() {
    let catalogue = catalogue();
    for (name, stock) in stocks() {
        within(name, lost(&catalogue, stock, 14), "4", "6");
    }
}

/// 2–5 % for 24 hours and more (R, University of Tennessee PB1822). The model
/// reaches it from the fourth day at the latest and stays in it for a week.
/// On the first days it is lower, 1.5 % at 24 hours, as the sources of the
/// first night are: the published figures disagree there.
#[test]
fn a_week() {
    let catalogue = catalogue();
    for (name, stock) in stocks() {
        for days in 4..=7 {
            within(name, lost(&catalogue, stock, days), "2", "5");
        }
    }
}

/// Table 1 of Dashdorj et al. 2016, J Anim Sci Technol 58:20 (R): days, shrink
/// and saleable yield dry-aged and aged in the bag, percent of start weight.
const RIBEYE: [(u32, &str, &str, &str); 4] = [
    (14, "6.0", "72.2", "88.4"),
    (21, "7.6", "69.3", "88.4"),
    (28, "9.7", "64.3", "86.9"),
    (35, "11.7", "63.5", "88.1"),
];

/// The same table, strip loin.
const STRIP_LOIN: [(u32, &str, &str, &str); 4] = [
    (14, "8.2", "62.1", "72.4"),
    (21, "9.5", "60.8", "72.9"),
    (28, "11.2", "55.9", "72.9"),
    (35, "11.9", "54.7", "69.8"),
];

#[track_caller]
fn ageing_of<'a>(catalogue: &'a Catalogue, product: &str) -> &'a DryAgeing {
    let id = catalogue.product_id(product).expect("a product");
    catalogue.dry_ageing_of(id).expect("published losses")
}

#[track_caller]
fn aged(ageing: &DryAgeing, days: u32) -> AgeingLoss {
    ageing.after(days).expect("within reach")
}

/// On a published day the published figures come back.
#[test]
fn published_days_come_back_as_published() {
    let catalogue = catalogue();
    for (product, table) in [("ribeye-steak", RIBEYE), ("strip-loin-steak", STRIP_LOIN)] {
        let ageing = ageing_of(&catalogue, product);
        assert_eq!(ageing.points().len(), table.len());
        for (days, shrink, dry, wet) in table {
            let loss = aged(ageing, days);
            agrees("shrink", loss.shrink.expect("a shrink").percent(), shrink);
            assert_eq!(loss.mark, Some(Mark::Read));
            let wet_kept = number(wet) * loss.saleable_lost.complement().fraction();
            agrees("saleable dry", wet_kept, dry);
            print(&format!(
                "{product} {days} days: {} % less to sell than from the bag",
                shown(loss.saleable_lost.percent())
            ));
        }
    }
}

/// Between two published days the straight line, derived (D): 17.5 days do not
/// exist, so the mean of 17 and 18 is the mean of 14 and 21. Before the first
/// day an estimate; beyond the last, and for no days, told.
#[test]
fn other_days_lie_on_the_line_or_are_refused() {
    let catalogue = catalogue();
    let ageing = ageing_of(&catalogue, "ribeye-roast");
    let shrink = |days| aged(ageing, days).shrink.expect("a shrink").percent();
    agrees("middle", (shrink(17) + shrink(18)) / Decimal::TWO, "6.8");
    agrees("half of 14 days", shrink(7), "3.0");
    assert_eq!(aged(ageing, 7).mark, Some(Mark::Estimate));
    assert_eq!(aged(ageing, 17).mark, Some(Mark::Derived));
    assert_eq!(aged(ageing, 0).saleable_lost, Share::ZERO);
    let refused = HangingError::TooLong {
        days: 36,
        longest: 35,
    };
    assert_eq!(ageing.after(36), Err(refused));
}

/// The strip loin loses less of what it sells at 35 days than at 28, since
/// less could be sold from the bag as well: as published, not smoothed.
#[test]
fn a_published_step_back_is_kept() {
    let catalogue = catalogue();
    let ageing = ageing_of(&catalogue, "strip-loin-steak");
    assert!(aged(ageing, 35).saleable_lost < aged(ageing, 28).saleable_lost);
}
