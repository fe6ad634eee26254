//! Weights, unit prices and the money value on a scale, by the regulator.

use published_checks::printed::number;
use quantity::{Mass, MassUnit, PriceUnit, Rounding, UnitPrice, typed};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

/// Weights and Measures Act, Canada, Schedule II (R): a pound is
/// 0.45359237 kg exactly.
#[test]
fn one_pound() {
    let (pound, unit) = typed::mass("1 lb", MassUnit::Kilogram).expect("a mass");
    assert_eq!(unit, MassUnit::Pound);
    assert_eq!(pound.kg(), number("0.45359237"));
    assert_eq!(Mass::from_kg(number("0.45359237")).lb(), number("1"));
    assert_eq!(pound.g(), number("453.59237"));
}

/// Weights and Measures Regulations, Canada, s. 340, with the guidance of
/// Measurement Canada (R): $10/kg = $4.54/lb and $1.26/kg = $0.57/lb.
#[test]
fn equivalent_unit_prices() {
    for (per_kg, per_lb) in [("$10.00/kg", "4.54"), ("$1.26/kg", "0.57")] {
        let (price, unit) = typed::unit_price(per_kg, PriceUnit::PerPound).expect("a price");
        assert_eq!(unit, PriceUnit::PerKilogram);
        assert_eq!(
            Rounding::HalfEven.to_cent(price.per_lb()),
            number(per_lb),
            "{per_kg}"
        );
    }
}

/// The same section (R): the metric unit price is per kilogram or per 100 g.
#[test]
fn a_kilogram_is_ten_times_100_g() {
    let per_100g = UnitPrice::from_unit(number("1.26"), PriceUnit::Per100Gram);
    assert_eq!(per_100g, UnitPrice::from_per_kg(number("12.60")));
}

/// Weights and Measures Regulations, Canada, s. 153 (R): the money value is
/// rounded to the nearest cent, an exact half to the even cent. The weights
/// are chosen so that the product falls on the half.
#[test]
fn money_value_on_a_scale() {
    for (per_kg, kg, shown) in [
        ("1.00", "0.125", "0.12"),
        ("1.00", "0.135", "0.14"),
        ("12.50", "0.250", "3.12"),
        ("12.50", "0.251", "3.14"),
        ("9.90", "0.350", "3.46"),
        ("9.98", "0.250", "2.50"),
    ] {
        let value = UnitPrice::from_per_kg(number(per_kg)) * Mass::from_kg(number(kg));
        assert_eq!(
            Rounding::HalfEven.to_cent(value.units()),
            number(shown),
            "{kg} kg at ${per_kg}/kg is ${}",
            value.units()
        );
    }
}
