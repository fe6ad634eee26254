//! The cutting test of one piece: worked examples of handbooks.

use pricing::CuttingTest;
use published_checks::printed::{agrees, number};
use quantity::{Decimal, Mass, MassUnit, Money, UnitPrice};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

fn pounds(text: &str) -> Mass {
    Mass::from_lb(number(text))
}

fn ounces(text: &str) -> Mass {
    Mass::from_lb(number(text) / Decimal::from(16))
}

fn kilograms(text: &str) -> Mass {
    Mass::from_kg(number(text))
}

fn per_pound(text: &str) -> UnitPrice {
    UnitPrice::from_per_lb(number(text))
}

fn dollars(text: &str) -> Money {
    Money::from_units(number(text))
}

#[track_caller]
fn cost_per_usable(test: &CuttingTest) -> UnitPrice {
    test.cost_per_usable().expect("something usable")
}

#[track_caller]
fn portion_cost(test: &CuttingTest, portion: Mass) -> Decimal {
    test.portion_cost(portion)
        .expect("something usable")
        .units()
}

#[track_caller]
fn portion_factor(test: &CuttingTest, portion: Mass) -> Decimal {
    test.portion_factor(portion, MassUnit::Pound)
        .expect("a factor")
}

/// Beef tenderloin, Dittmer & Keefe, Principles of Food, Beverage and Labor
/// Cost Controls, ch. 6 (R).
#[test]
fn beef_tenderloin_and_its_new_price() {
    let test = CuttingTest {
        cost: dollars("54.99"),
        price: per_pound("6.11"),
        other_parts: dollars("1.12"),
        usable: pounds("4.31"),
    };
    let portion = ounces("6");
    let usable = cost_per_usable(&test);
    agrees("usable value", test.usable_value().units(), "53.87");
    agrees("per usable lb", usable.per_lb(), "12.4988");
    agrees("per usable oz", (usable * ounces("1")).units(), "0.7812");
    agrees("portion", portion_cost(&test, portion), "4.6871");
    let factor = test.cost_factor().expect("a factor");
    agrees("cost factor", factor, "2.0456");
    agrees(
        "factor per portion",
        portion_factor(&test, portion),
        "0.7671",
    );

    let repriced = test.repriced(per_pound("6.37")).expect("a new price");
    agrees("new cost per usable lb", repriced.per_lb(), "13.03");
    let new_portion = test.repriced_portion(per_pound("6.37"), portion);
    agrees("new portion", new_portion.expect("a cost").units(), "4.89");
    // The factor of the portion gives the same from the price alone.
    let by_factor = portion_factor(&test, portion) * number("6.37");
    agrees("new portion by its factor", by_factor, "4.89");
}

/// Lamb loin, the same text, example 6.3 (R).
#[test]
fn lamb_loin() {
    let whole = pounds("12");
    let price = per_pound("6.65");
    let cost = price * whole;
    agrees("cost", cost.units(), "79.80");
    let test = CuttingTest {
        cost,
        price,
        other_parts: dollars("6.10") + dollars("6.90"),
        usable: pounds("6"),
    };
    let portion = ounces("5");
    let usable = cost_per_usable(&test);
    agrees("usable value", test.usable_value().units(), "66.80");
    agrees("per usable lb", usable.per_lb(), "11.13");
    agrees("portion", portion_cost(&test, portion), "3.48");
    let factor = test.cost_factor().expect("a factor");
    agrees("cost factor", factor, "1.67");
    agrees("factor per portion", portion_factor(&test, portion), "0.52");

    let parts = [
        ("fat", "3", "25"),
        ("kidneys", "1", "8.33"),
        ("flank", "1.5", "12.5"),
        ("loss", "0.5", "4.17"),
        ("usable", "6", "50"),
    ];
    let sum: Mass = parts.iter().map(|(_, weight, _)| pounds(weight)).sum();
    assert_eq!(sum, whole);
    for (what, weight, printed) in parts {
        let share = pounds(weight).ratio_to(whole).expect("a whole");
        agrees(what, share.percent(), printed);
    }
}

/// Rib, a teaching example (D). A printed 22.40 for the usable value is a
/// misprint of 28.40, as the printed parts and the cost show.
#[test]
fn rib_of_a_teaching_example() {
    let price = per_pound("1.30");
    let test = CuttingTest {
        cost: price * pounds("28"),
        price,
        other_parts: per_pound("0.10") * pounds("3")
            + per_pound("0.30") * pounds("4")
            + price * pounds("5"),
        usable: pounds("28") - pounds("3") - pounds("4") - pounds("5"),
    };
    agrees("cost", test.cost.units(), "36.40");
    agrees("usable value", test.usable_value().units(), "28.40");
    agrees("per usable lb", cost_per_usable(&test).per_lb(), "1.775");
}

/// BC Cook Articulation Committee, Basic Kitchen and Food Service Management,
/// `BCcampus` (R): five kilograms at $8 give four.
#[test]
fn trimmed_piece_without_by_products() {
    let price = UnitPrice::from_per_kg(number("8"));
    let test = CuttingTest {
        cost: price * kilograms("5"),
        price,
        other_parts: Money::ZERO,
        usable: kilograms("4"),
    };
    agrees("per usable kg", cost_per_usable(&test).per_kg(), "10.00");
}

/// The same text (R): yields of a tenderloin and of a salmon.
#[test]
fn yield_of_tenderloin_and_salmon() {
    for (bought, trimmed, printed) in [("2.500", "0.750", "70"), ("7.750", "2.750", "64.5")] {
        let bought = kilograms(bought);
        let usable = bought - kilograms(trimmed);
        let share = usable.ratio_to(bought).expect("a whole");
        agrees("yield", share.percent(), printed);
    }
}

/// The same text (R): pork loin goes from $12.14 to $13.00 a kilogram and its
/// usable meat by $1.49. The weights behind it were not read, so a loin is made
/// up (D) whose cost factor is that rise over the other, 1.49 ⁄ 0.86. Whether
/// bones and trim then carry any of the cost must not matter.
#[test]
fn pork_loin_at_a_new_price() {
    let (old, new) = ("12.14", "13.00");
    let price = UnitPrice::from_per_kg(number(old));
    let factor = number("1.49") / (number(new) - number(old));
    let bought = kilograms("5");
    for other_parts in ["0", "4.50"] {
        let cost = price * bought;
        let other_parts = dollars(other_parts);
        let test = CuttingTest {
            cost,
            price,
            other_parts,
            usable: Mass::from_kg((cost - other_parts).units() / (factor * number(old))),
        };
        agrees(
            "cost factor",
            test.cost_factor().expect("a factor"),
            "1.733",
        );
        let repriced = test.repriced(UnitPrice::from_per_kg(number(new)));
        let rise = repriced.expect("a new price") - cost_per_usable(&test);
        agrees("usable meat", rise.per_kg(), "1.49");
    }
}

/// Egan, Introduction to Food Production and Service (R): leg of lamb, a portion
/// of 125 g with a factor of 0.2931, which is 2.345 for each kilogram (D). A leg
/// that costs 2.345 times its price for each usable kilogram gives the factor of
/// the portion back.
#[test]
fn leg_of_lamb_in_portions() {
    let price = UnitPrice::from_per_kg(number("10"));
    let test = CuttingTest {
        cost: price * kilograms("2.345"),
        price,
        other_parts: Money::ZERO,
        usable: kilograms("1"),
    };
    let factor = test.cost_factor().expect("a factor");
    agrees("per kg", factor, "2.345");
    let portion = test.portion_factor(kilograms("0.125"), MassUnit::Kilogram);
    agrees("per portion", portion.expect("a factor"), "0.2931");
}
