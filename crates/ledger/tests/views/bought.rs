//! A bought-in piece.

use proptest::prelude::*;

use crate::page::Page;

fn bought(typed: &[(&str, &str)]) -> Page {
    let mut page = Page::new();
    page.press("view bought");
    for (name, text) in typed {
        page.type_into(&format!("at.bought.{name}"), text);
    }
    page.press("");
    page
}

/// Lamb loin, Dittmer & Keefe, *Principles of Food, Beverage and Labor Cost
/// Controls*, ch. 6, example 6.3, as it is typed: 12 lb at 6.65, fat 3 lb for
/// nothing, kidneys 1 lb for 6.10, flank 1.5 lb for 6.90 (4.60 a pound), loss
/// 0.5 lb, usable 6 lb, a portion of 5 oz (0.3125 lb).
const LAMB_LOIN: [(&str, &str); 17] = [
    ("weight", "12 lb"),
    ("price", "6.65/lb"),
    ("part.0", "fat"),
    ("part-weight.0", "3 lb"),
    ("part-value.0", ""),
    ("part.1", "kidneys"),
    ("part-weight.1", "1 lb"),
    ("part-value.1", "6.10/lb"),
    ("part.2", "flank"),
    ("part-weight.2", "1.5 lb"),
    ("part-value.2", "4.60/lb"),
    ("part.3", "loss"),
    ("part-weight.3", "0.5 lb"),
    ("part-value.3", ""),
    ("usable", "6 lb"),
    ("portion", "5 oz"),
    ("new-price", "7.00/lb"),
];

#[test]
fn the_lamb_loin_of_the_handbook() {
    let page = bought(&LAMB_LOIN);
    let text = page.text();
    for printed in ["79.80", "66.80", "3.48", "1.6742"] {
        assert!(text.contains(printed), "{printed}: {text}");
    }
    // 24.54 a kilogram is 11.13 a pound, to the cent.
    assert!(text.contains("24.54"), "{text}");
    for share in ["25.0 %", "8.3 %", "12.5 %", "4.1 %", "50.0 %"] {
        assert!(text.contains(share), "{share}: {text}");
    }
    assert!(text.contains("weigh exactly what was bought"));
    // 1.6742 × 7.00 = 11.719 a pound, 25.84 a kilogram; by 5 oz 3.66.
    assert!(text.contains("25.84") && text.contains("3.66"), "{text}");
}

#[test]
fn what_does_not_balance_is_said() {
    let of = |usable: &str| bought(&[("weight", "10"), ("price", "8"), ("usable", usable)]).text();
    assert!(of("9.95").contains("0.05 kg of what was bought is missing: within 1.0 %"));
    assert!(of("8").contains("2.00 kg of what was bought is missing: beyond 1.0 %"));
    assert!(of("10.05").contains("0.05 kg more than was bought: within"));
    assert!(of("12").contains("2.00 kg more than was bought: beyond"));
    assert!(of("0").contains("Nothing of it can be used"));
    assert!(of("").contains("Fill in what was bought"));
}

#[test]
fn a_part_that_costs_to_be_rid_of_adds_to_the_cost() {
    let of = |value: &str| {
        bought(&[
            ("weight", "10"),
            ("price", "8"),
            ("usable", "8"),
            ("part-weight.0", "2"),
            ("part-value.0", value),
        ])
        .text()
    };
    assert!(of("").contains("80.00"));
    assert!(of("4").contains("72.00"));
    assert!(of("-4").contains("88.00"));
}

#[test]
fn a_row_more_than_is_filled_is_offered_and_faults_stand_at_their_field() {
    let page = bought(&[("part.0", "trim"), ("part-weight.0", "1,2,3")]);
    assert!(page.piece.contains("=data-entry at.bought.part.1"));
    assert!(!page.piece.contains("=data-entry at.bought.part.2"));
    assert_eq!(page.piece.matches("aria-invalid true").count(), 1);
    let page = bought(&[("part.11", "trim")]);
    assert!(!page.piece.contains("=data-entry at.bought.part.12"));
}

#[test]
fn the_fields_are_cleared_after_asking() {
    let mut page = bought(&LAMB_LOIN);
    page.press("sure? clear-bought");
    assert!(page.entries.contains_key("at.bought.weight"));
    page.press("clear-bought");
    assert!(
        !page
            .entries
            .keys()
            .any(|name| name.starts_with("at.bought."))
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn nothing_that_is_typed_panics(
        texts in prop::collection::vec("([0-9]{0,10}[.,]?[0-9]{0,9}( ?(kg|lb|g|/kg))?|\\PC{0,9})", 17),
    ) {
        let typed: Vec<(&str, &str)> = LAMB_LOIN
            .iter()
            .zip(&texts)
            .map(|((name, _), text)| (*name, text.as_str()))
            .collect();
        prop_assert!(bought(&typed).piece.contains("at.bought.weight"));
    }
}

#[test]
fn amounts_stay_when_other_units_come_in_force() {
    let mut page = Page::new();
    page.press("view bought");
    for (name, text) in [
        ("weight", "8"),
        ("price", "22"),
        ("usable", "6.2"),
        ("portion", "250"),
    ] {
        page.type_into(&format!("at.bought.{name}"), text);
        page.press("");
    }
    let before = page.text();
    assert!(before.contains("Cost of a portion"), "{before}");
    page.unit = "lb";
    page.press("");
    assert_eq!(page.text(), before);
    page.press("clear-bought");
    assert!(page.text().contains("oz"), "{}", page.text());
}
