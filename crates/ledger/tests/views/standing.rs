//! Suppliers against each other.

use carcass::Stock;
use proptest::prelude::*;

use crate::own_yields::rows;
use crate::page::Page;
use crate::sides::{Side, page_with};

/// Sides of suppliers, each with how many sides and how much steak of the strip
/// loin they give.
fn standing(suppliers: &[(&'static str, u64, f64)]) -> Page {
    let mut sides = Vec::new();
    for (place, (supplier, count, strip_loin)) in (0_u64..).zip(suppliers) {
        for draw in 0..*count {
            sides.push(Side {
                supplier,
                draw: 100 * place + draw,
                strip_loin: *strip_loin,
                ..Side::default()
            });
        }
    }
    let mut page = page_with(sides);
    page.press("view standing");
    page
}

fn measured_by(page: &mut Page, by: &str, measure: &str) {
    page.type_into("at.standing.by", by);
    page.type_into("at.standing.measure", measure);
    page.press("");
}

#[test]
fn few_sides_say_nothing_and_are_told_as_that() {
    let page = standing(&[("North", 3, 1.0), ("South", 2, 1.0)]);
    assert!(page.text().contains("Too few sides to say"));
    let rows = rows(&page);
    let north = rows.iter().find(|row| row[0] == "North").expect("a group");
    assert_eq!(north[1], "3");
    assert_eq!(north[4], "too few sides to say");
}

#[test]
fn one_supplier_in_two_spellings_is_one_group() {
    let page = standing(&[
        ("  Prairie Sides", 2, 1.0),
        ("South", 2, 1.0),
        ("PRAIRIE  sides ", 1, 1.0),
    ]);
    let groups: Vec<[String; 2]> = rows(&page)
        .into_iter()
        .filter(|row| row.len() == 5 && row[0] != "Group")
        .map(|row| [row[0].clone(), row[1].clone()])
        .collect();
    assert_eq!(
        groups,
        [["PRAIRIE sides", "3"], ["South", "2"]].map(|row| row.map(str::to_owned))
    );
}

#[test]
fn equal_suppliers_are_not_told_apart() {
    let page = standing(&[("North", 6, 1.0), ("South", 6, 1.0)]);
    assert!(page.text().contains("No difference that sides do not"));
    assert!(!page.text().contains("lies above North by"));
    assert!(!page.text().contains("lies above South by"));
}

#[test]
fn groups_are_told_in_order_of_their_names() {
    let mut page = standing(&[("Zenith", 8, 1.0), ("Acre", 8, 1.0)]);
    measured_by(&mut page, "stock", "saleable");
    page.says("one group alone");
    measured_by(&mut page, "supplier", "margin");
    let text = page.text();
    let places = ["Acre", "Zenith"].map(|name| text.find(name).expect("a group"));
    assert!(places[0] < places[1], "{text}");
    assert!(text.contains("28.0 %"), "{text}");
    measured_by(&mut page, "supplier", "room");
    let rows = rows(&page);
    let acre = rows.iter().find(|row| row[0] == "Acre").expect("a group");
    assert!(
        acre[2].contains("0.50") && acre[2].ends_with("/kg"),
        "{acre:?}"
    );
}

#[test]
fn a_difference_in_price_is_a_finding() {
    let mut page = standing(&[("North", 6, 1.0), ("South", 6, 1.0)]);
    for (place, paid) in (7..=12).zip([90, 91, 92, 93, 94, 95]) {
        let key = format!("test.{place}");
        let text =
            page.store[&key].replace("money 11 ", &format!("money {}.{} ", paid / 10, paid % 10));
        assert_ne!(text, page.store[&key]);
        page.store.insert(key, text);
    }
    page.reload();
    measured_by(&mut page, "supplier", "room");
    page.says("South lies above North by");
    assert!(!page.text().contains("No difference that sides"));
}

#[test]
fn seasons_and_stock_are_named_and_what_is_untold_is_counted() {
    let mut page = page_with([
        Side::default(),
        Side {
            received: "",
            stock: Stock::GRASS,
            draw: 1,
            ..Side::default()
        },
    ]);
    page.press("view standing");
    measured_by(&mut page, "season", "fat");
    assert!(page.text().contains("January to March"));
    page.says("left aside: 1.");
    measured_by(&mut page, "stock", "bone");
    assert!(page.text().contains("grass-fed") && page.text().contains("grain-fed"));
    measured_by(&mut page, "farm", "bone");
    assert!(page.text().contains("No test tells this yet"));
    page.press("leave-out 1");
    measured_by(&mut page, "stock", "bone");
    assert!(!page.text().contains("grain-fed"), "left out, not held");
}

#[test]
fn without_a_test_the_way_to_one_is_offered() {
    assert!(standing(&[]).offers("view weigh-in"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn no_choice_panics(by in "(supplier|farm|\\PC{0,6})", measure in "(fat|room|\\PC{0,6})") {
        let mut page = standing(&[("North", 4, 1.0), ("South", 4, 0.5)]);
        measured_by(&mut page, &by, &measure);
        prop_assert!(page.piece.contains("at.standing.by"));
    }
}
