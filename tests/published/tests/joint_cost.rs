//! Dividing a joint cost: worked examples of the cost-accounting handbooks.

use pricing::{AllocationMethod, JointProduct, Totals, allocate};
use published_checks::printed::{agrees, agrees_within, number};
use published_checks::table::Table;
use quantity::{Decimal, Mass, Money};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

use AllocationMethod::{
    ConstantGrossMargin, NetRealisableValue, PhysicalWeight, SalesValueAtSplitOff,
};

fn money(text: &str) -> Money {
    Money::from_units(number(text))
}

/// A product by its physical measure, its price at split-off, what it sells
/// for in the end and its separable cost.
fn product(measure: &str, split_off: &str, sales: &str, separable: &str) -> JointProduct {
    JointProduct {
        weight: Mass::from_kg(number(measure)),
        split_off_value: money(split_off),
        sales: money(sales),
        separable: money(separable),
    }
}

/// A product sold where it parts: weight and price per weight.
fn sold_at_split_off(weight: &str, price: &str) -> JointProduct {
    let value = Money::from_units(number(weight) * number(price));
    JointProduct {
        weight: Mass::from_kg(number(weight)),
        split_off_value: value,
        sales: value,
        separable: Money::ZERO,
    }
}

#[track_caller]
fn divides(method: AllocationMethod, joint: &str, products: &[JointProduct], printed: &[&str]) {
    let parts = allocate(method, money(joint), products);
    assert_eq!(parts.len(), printed.len());
    for (part, printed) in parts.iter().zip(printed) {
        agrees(method.name(), part.units(), printed);
    }
    let sum: Money = parts.into_iter().sum();
    assert_eq!(sum, money(joint), "{} leaves nothing over", method.name());
}

/// What each product earns under `method`.
fn gross_incomes(method: AllocationMethod, joint: &str, products: &[JointProduct]) -> Vec<Decimal> {
    allocate(method, money(joint), products)
        .iter()
        .zip(products)
        .map(|(cost, product)| (product.sales - product.separable - *cost).units())
        .collect()
}

/// Horngren et al., Cost Accounting, ch. 16, exercise 16-30 (R): butter and
/// buttermilk, all four methods. The physical measure is cups.
#[test]
fn butter_and_buttermilk_by_all_four_methods() {
    let products = [
        product("20000", "20000", "50000", "5000"),
        product("80000", "30000", "30000", "0"),
    ];
    divides(PhysicalWeight, "20000", &products, &["4000.00", "16000.00"]);
    divides(
        SalesValueAtSplitOff,
        "20000",
        &products,
        &["8000.00", "12000.00"],
    );
    divides(
        NetRealisableValue,
        "20000",
        &products,
        &["12000.00", "8000.00"],
    );
    divides(
        ConstantGrossMargin,
        "20000",
        &products,
        &["10625.00", "9375.00"],
    );
    let parts = allocate(ConstantGrossMargin, money("20000"), &products);
    for (part, product) in parts.iter().zip(&products) {
        let earned = product.sales - product.separable - *part;
        let margin = earned.ratio_to(product.sales).expect("sales");
        agrees("margin", margin.percent(), "68.75");
    }
}

/// The bird of exercise 16-16: breasts, wings, thighs, bones, feathers.
fn bird() -> [JointProduct; 5] {
    [
        sold_at_split_off("100", "0.55"),
        sold_at_split_off("20", "0.20"),
        sold_at_split_off("40", "0.35"),
        sold_at_split_off("80", "0.10"),
        sold_at_split_off("10", "0.05"),
    ]
}

/// Horngren et al., Cost Accounting, ch. 16, exercise 16-16 (R).
#[test]
fn a_carcass_by_value_and_by_weight() {
    divides(
        SalesValueAtSplitOff,
        "50",
        &bird(),
        &["33.7423", "2.4540", "8.5890", "4.9080", "0.3067"],
    );
    divides(
        PhysicalWeight,
        "50",
        &bird(),
        &["20.00", "4.00", "8.00", "16.00", "2.00"],
    );
    let incomes = gross_incomes(PhysicalWeight, "50", &bird());
    for (income, printed) in incomes
        .into_iter()
        .zip(["35.00", "0.00", "6.00", "-8.00", "-1.50"])
    {
        agrees("gross income by weight", income, printed);
    }
}

/// Horngren et al., Cost Accounting, ch. 16, exercise 16-17: wings, bones and
/// feathers as by-products, credited before the division (production method).
/// Parts derived (D); closing stock as printed (R), which the book computes
/// from rounded parts, hence the tolerance of one cent.
#[test]
fn by_products_are_credited_before_the_division() {
    let [breasts, wings, thighs, bones, feathers] = bird();
    let credit: Money = [wings, bones, feathers]
        .iter()
        .map(JointProduct::net_realisable_value)
        .sum();
    agrees("by-products", credit.units(), "12.50");
    let main = [breasts, thighs];
    divides(SalesValueAtSplitOff, "37.50", &main, &["29.891", "7.609"]);

    let parts = allocate(SalesValueAtSplitOff, money("50") - credit, &main);
    for ((part, product), (left, printed)) in parts
        .iter()
        .zip(&main)
        .zip([("15", "4.4835"), ("6", "1.1418")])
    {
        let per_pound = part.units() / product.weight.kg();
        agrees_within(
            "closing stock",
            per_pound * number(left),
            printed,
            number("0.01"),
        );
    }
}

/// Horngren et al., Cost Accounting, ch. 16, variant of exercise 16-16 (R).
/// The book rounds each share to a tenth of a percent before it multiplies, so
/// of a joint cost of $100 its parts are known to ten cents: half of that is
/// the tolerance.
#[test]
fn a_carcass_at_twice_the_prices() {
    let products = [
        sold_at_split_off("100", "1.10"),
        sold_at_split_off("20", "0.40"),
        sold_at_split_off("40", "0.70"),
        sold_at_split_off("80", "0.20"),
        sold_at_split_off("10", "0.10"),
    ];
    let parts = allocate(SalesValueAtSplitOff, money("100"), &products);
    for (part, printed) in parts.iter().zip(["67.50", "4.90", "17.20", "9.80", "0.60"]) {
        agrees_within("sales value", part.units(), printed, number("0.05"));
    }
}

/// Horngren et al., Cost Accounting, ch. 16, variant of exercise 16-17 (R).
#[test]
fn by_products_of_another_carcass() {
    let left = money("75.01") - money("12.75");
    agrees("joint cost left", left.units(), "62.26");
    divides(
        SalesValueAtSplitOff,
        "62.26",
        &[
            product("1", "70", "70", "0"),
            product("1", "17.50", "17.50", "0"),
        ],
        &["49.808", "12.452"],
    );
}

/// Problem 9.38 of a cost-accounting text (R): sales of $140,000, goods sold at a
/// cost of $72,000, by-products that bring $450. Booked as other income or taken
/// off the cost, the by-products leave the same $68,450.
#[test]
fn both_ways_to_book_by_products_agree() {
    let totals = Totals {
        side: money("72000"),
        sales: money("140000"),
        by_products: money("450"),
        ..Totals::default()
    };
    let as_other_income = totals.sales - totals.spend() + totals.by_products;
    let as_less_cost = totals.sales - totals.net_spend();
    agrees("other income", as_other_income.units(), "68450");
    agrees("cost reduction", as_less_cost.units(), "68450");
    assert_eq!(totals.profit(), as_less_cost);
}

/// Whole pig, an accounting case (R; by sales value D).
#[test]
fn whole_pig() {
    let pig = [
        sold_at_split_off("30", "4.00"),
        sold_at_split_off("50", "3.00"),
        sold_at_split_off("100", "1.60"),
        sold_at_split_off("15", "1.00"),
        sold_at_split_off("5", "10.00"),
    ];
    let revenue: Money = pig.iter().map(|product| product.sales).sum();
    agrees("revenue", revenue.units(), "495.00");
    divides(
        PhysicalWeight,
        "300",
        &pig,
        &["45.00", "75.00", "150.00", "22.50", "7.50"],
    );
    let profits = gross_incomes(PhysicalWeight, "300", &pig);
    agrees("profit", profits.iter().copied().sum(), "195.00");
    for (profit, printed) in profits
        .into_iter()
        .zip(["75.00", "75.00", "10.00", "-7.50", "42.50"])
    {
        agrees("profit by weight", profit, printed);
    }
    divides(
        SalesValueAtSplitOff,
        "300",
        &pig,
        &["72.73", "90.91", "96.97", "9.09", "30.30"],
    );
}

/// The same case (R): dropping the feet because they lose by weight lowers the
/// profit of the whole, since the pig costs what it did.
#[test]
fn dropping_a_cut_that_loses_loses_its_sales() {
    let without_feet = [
        sold_at_split_off("30", "4.00"),
        sold_at_split_off("50", "3.00"),
        sold_at_split_off("100", "1.60"),
        sold_at_split_off("5", "10.00"),
    ];
    for method in AllocationMethod::ALL {
        let profit: Decimal = gross_incomes(method, "300", &without_feet)
            .into_iter()
            .sum();
        agrees(method.name(), profit, "180.00");
    }
}

/// Fish, problem 7-15 of a cost-accounting text (R).
#[test]
fn a_catch_of_fish() {
    let catch = [
        sold_at_split_off("15200", "10"),
        sold_at_split_off("23560", "6"),
        sold_at_split_off("37240", "3"),
    ];
    divides(
        PhysicalWeight,
        "98400",
        &catch,
        &["19680.00", "30504.00", "48216.00"],
    );
    divides(
        SalesValueAtSplitOff,
        "98400",
        &catch,
        &["36923.08", "34338.46", "27138.46"],
    );
}

/// Cream and skim milk, text example of Horngren et al., Cost Accounting,
/// ch. 16 (M, from memory; the arithmetic checks). In thousands.
#[test]
fn cream_and_skim_by_all_four_methods() {
    let products = [
        product("25", "200", "500", "280"),
        product("75", "300", "1100", "520"),
    ];
    divides(PhysicalWeight, "400", &products, &["100.0", "300.0"]);
    divides(SalesValueAtSplitOff, "400", &products, &["160.0", "240.0"]);
    divides(NetRealisableValue, "400", &products, &["110.0", "290.0"]);
    divides(ConstantGrossMargin, "400", &products, &["95.0", "305.0"]);
}

/// L. Funk, A System for Calculating the Cost of Different-Priced Cuts, 1922
/// (R): each hindquarter cut's share of weight and of value, and the factor by
/// which its cost per pound differs from that of the whole side. The book's
/// forequarter was not read, so what is missing of weight and value stands in
/// as one product.
#[test]
fn cost_of_different_priced_cuts() {
    let side_weight = number("270.36");
    let side_value = number("33.3763");
    let table = Table::read(include_str!("../tables/funk-1922.csv"));
    let mut products: Vec<JointProduct> = table
        .lines()
        .map(|line| {
            let dollars = line.number("cents_per_lb") / Decimal::ONE_HUNDRED;
            let value = Money::from_units(line.number("lb") * dollars);
            JointProduct {
                weight: Mass::from_lb(line.number("lb")),
                split_off_value: value,
                sales: value,
                separable: Money::ZERO,
            }
        })
        .collect();
    let weight: Mass = products.iter().map(|product| product.weight).sum();
    let value: Money = products.iter().map(|product| product.sales).sum();
    let rest = Money::from_units(side_value) - value;
    products.push(JointProduct {
        weight: Mass::from_lb(side_weight) - weight,
        split_off_value: rest,
        sales: rest,
        separable: Money::ZERO,
    });

    let joint = money("30");
    // The book reckons by hand: its percentages hold to 0.005 points.
    let by_hand = number("0.005");
    let by_value = allocate(SalesValueAtSplitOff, joint, &products);
    let by_weight = allocate(PhysicalWeight, joint, &products);
    for ((line, value), weight) in table.lines().zip(by_value).zip(by_weight) {
        let cut = line.text("cut");
        let of_joint = |part: Money| part.ratio_to(joint).expect("a joint cost").percent();
        agrees_within(cut, of_joint(value), line.text("pct_value"), by_hand);
        agrees_within(cut, of_joint(weight), line.text("pct_weight"), by_hand);
        let factor = value.ratio_to(weight).expect("a weight").fraction();
        let tolerance = by_hand / line.number("pct_weight");
        agrees_within(cut, factor, line.text("factor"), tolerance);
    }
}
