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
    page.says("oz");
}

#[test]
fn weighings_of_one_field_add_up() {
    let mut page = bought(&[("weight", "10"), ("price", "8"), ("usable", "2,5")]);
    let add = "add-bought at.bought.usable";
    assert!(page.offers(add));
    assert!(!page.offers("add-bought at.bought.part-weight.0"), "empty");
    page.press(add);
    assert_eq!(page.entries["at.bought.usable"], "2,5 + ");
    assert!(!page.offers(add), "one is to be typed first");
    assert!(
        page.text()
            .contains("7.50 kg of what was bought is missing")
    );
    page.type_into("at.bought.usable", "2,5 + 3.1 kg + 1000 g");
    page.press("");
    let text = page.text();
    assert!(text.contains("6.60 kg in 3 weighings"), "{text}");
    assert!(
        text.contains("3.40 kg of what was bought is missing"),
        "{text}"
    );
    page.type_into("at.bought.usable", "2,5 + x");
    page.press("");
    assert_eq!(page.piece.matches("aria-invalid true").count(), 1);
    assert!(!page.offers(add));
    // No other field takes what a weight takes.
    page.press("add-bought tag.lot");
    assert!(!page.entries.contains_key("tag.lot"));
}

/// A strip loin of ten kilograms of which this is usable, kept under a name.
fn keep(page: &mut Page, name: &str, usable: &str) {
    page.press("clear-bought");
    for (field, text) in [("weight", "10"), ("price", "8"), ("usable", usable)] {
        page.type_into(&format!("at.bought.{field}"), text);
    }
    let rest = 10.0 - usable.parse::<f64>().expect("a number");
    page.type_into("at.bought.part-weight.0", &format!("{rest:.1}"));
    page.type_into("piece.name", name);
    page.press("keep-bought");
}

#[test]
fn pieces_are_kept_listed_opened_again_and_deleted() {
    let mut page = bought(&LAMB_LOIN);
    assert!(!page.text().contains("Pieces that are kept"));
    page.press("keep-bought");
    page.says("Give the piece a name");
    page.type_into("piece.name", " Lamb loin ");
    page.type_into("piece.day", "2026-09-20");
    page.press("keep-bought");
    let first = page.store["bought.1"].clone();
    page.reload();
    let text = page.text();
    assert!(text.contains("Lamb loin · 2026-09-20"), "{text}");
    assert!(
        text.contains("50.0 % usable · $24.54/kg · Cost factor: 1.6742"),
        "{text}"
    );
    // Kept again it stays the same one; another is beside it.
    page.press("keep-bought");
    assert!(!page.store.contains_key("bought.2"));
    page.type_into("at.bought.price", "7.00/lb");
    page.press("keep-another");
    assert_eq!(page.store["bought.1"], first);
    assert_ne!(page.store["bought.2"], first);

    // The first comes back as it was typed.
    page.press("open-bought 1");
    for (name, typed) in LAMB_LOIN {
        let name = format!("at.bought.{name}");
        let there = page.entries.get(&name).map_or("", String::as_str);
        assert_eq!(there, typed, "{name}");
    }
    assert_eq!(page.entries["piece.day"], "2026-09-20");
    page.type_into("at.bought.new-price", "8.00/lb");
    page.press("keep-bought");
    assert_ne!(page.store["bought.1"], first);
    assert!(!page.store.contains_key("bought.3"));

    // What is typed and not kept is not dropped unasked.
    assert!(page.offers("open-bought 2"));
    page.type_into("at.bought.usable", "5 lb");
    page.press("");
    assert!(!page.offers("open-bought 2") && page.offers("sure? open-bought 2"));
    page.press("sure? delete-bought 1");
    assert!(page.store.contains_key("bought.1"), "asked first");
    page.press("delete-bought 1");
    assert!(!page.store.contains_key("bought.1"));
    page.says("Keep this piece");
    page.press("keep-bought");
    assert!(
        page.store.contains_key("bought.3"),
        "{:?}",
        page.store.keys()
    );
}

#[test]
fn pieces_of_one_name_are_held_together_once_there_are_three() {
    let mut page = bought(&[]);
    keep(&mut page, "Strip loin", "7.8");
    keep(&mut page, "strip LOIN ", "7.4");
    keep(&mut page, "Tenderloin", "6");
    let text = page.text();
    assert!(text.contains("too few to say, 2 of at least 3"), "{text}");
    keep(&mut page, "Strip loin", "8.2");
    let text = page.text();
    assert!(
        text.contains(
            "78.0 % usable on average over 3 pieces, from 74.0 % to 82.0 %; one standard deviation is 4.0 %."
        ),
        "{text}"
    );
    assert!(
        text.contains("Tenderloin: too few to say, 1 of at least 3"),
        "{text}"
    );
}

#[test]
fn a_kept_piece_that_cannot_be_read_is_refused_and_stays() {
    let mut page = bought(&[]);
    keep(&mut page, "Strip loin", "7.8");
    let whole = page.store["bought.1"].clone();
    let newer = whole.replacen("bought-piece=1", "bought-piece=2", 1);
    for (damaged, why) in [
        (whole[..whole.len() - 4].to_owned(), "cut off"),
        (newer, "newer Sideworth"),
        ("bought-piece=x".to_owned(), "must begin with"),
        (whole.replacen("weight%3D10", "weight%3Dx", 1), "a weight"),
        (whole.replacen("2026-09-21", "soon", 1), "must be a date"),
        (
            format!("{whole}{}", "x".repeat(20_000)),
            "more than 16384 bytes",
        ),
    ] {
        assert_ne!(damaged, whole);
        page.store.insert("bought.1".to_owned(), damaged.clone());
        page.reload();
        assert!(!page.text().contains("Pieces that are kept"), "{why}");
        page.press("record-part kept");
        let text = page.text();
        assert!(
            text.contains("Bought-in piece 1") && text.contains(why),
            "{why}: {text}"
        );
        assert_eq!(page.store["bought.1"], damaged);
        page.press("view bought");
        page.press("open-bought 1");
    }
    // Its number is not given again.
    keep(&mut page, "Strip loin", "7.8");
    assert_eq!(page.store["bought.2"], whole);
}

#[test]
fn kept_pieces_go_out_and_come_in_with_the_records() {
    let mut page = bought(&[]);
    keep(&mut page, "Strip loin", "7.8");
    keep(&mut page, "Strip loin", "7.4");
    page.press("file-all");
    let file = page.file.take().expect("a file");
    let content = file.splitn(4, '\n').nth(3).expect("JSON").to_owned();

    let mut other = bought(&[]);
    other.press("record-part kept");
    other.type_into("file.record", &content);
    other.press("take-record");
    assert_eq!(other.store, page.store);

    // Beside what is there, and none twice.
    let mut third = bought(&[]);
    keep(&mut third, "Strip loin", "8.2");
    keep(&mut third, "Strip loin", "7.4");
    third.press("record-part kept");
    third.type_into("file.record", &content);
    third.press("");
    assert!(
        third.text().contains("bought-in pieces 1,"),
        "{}",
        third.text()
    );
    third.press("join-record");
    assert_eq!(third.store["bought.3"], page.store["bought.1"]);
    assert!(!third.store.contains_key("bought.4"));
}
