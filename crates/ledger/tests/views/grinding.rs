//! The grinding log, and where lots came from and went.

use notation::{Units, mass_with_unit};
use quantity::{Decimal, Mass};
use scale::ClosedTest;

use crate::page::{Page, published};
use crate::sides::{Side, page_with};

const TRIM: &str = "20260309-A17-fat-trim";

fn grinding() -> Page {
    let second = Side {
        lot: "A18",
        supplier: "North",
        draw: 1,
        ..Side::default()
    };
    let mut page = page_with([Side::default(), second]);
    page.press("record-part grinding");
    page
}

/// Grinds two lots into the batch that is proposed.
fn ground() -> Page {
    let mut page = grinding();
    page.type_into("at.grind.side", "1");
    page.type_into("grind.cut", TRIM);
    page.type_into("grind.weight", "2,5");
    page.press("grind-add");
    page.type_into("at.grind.side", "");
    page.type_into("grind.lot", "BOX-77");
    page.type_into("grind.weight", "3");
    page.press("grind-add");
    page.type_into("grind.by", "Jo");
    page.type_into("grind.product", "ground-lean");
    page.press("grind");
    page
}

#[test]
fn a_batch_is_written_down_with_its_lots_and_survives_a_reload() {
    let mut page = ground();
    assert!(page.store["grinding"].contains("b 20260921-G1 ground-lean 2026-09-21"));
    assert!(
        !page.entries.keys().any(|name| name.contains("grind.")),
        "{:?}",
        page.entries
    );
    page.reload();
    let text = page.text();
    assert!(
        text.contains("5.50 kg") && text.contains("Lean ground beef"),
        "{text}"
    );
    assert!(page.offers("trace 20260921-G1") && page.offers("trace BOX-77"));
    // The next one has a code of its own, and who ground last is there.
    assert!(page.piece.contains("=value 20260921-G2") && page.piece.contains("=value Jo"));
}

#[test]
fn trims_come_first_among_the_lots_of_a_side() {
    let mut page = grinding();
    page.type_into("at.grind.side", "2");
    page.press("");
    let piece = page.piece.clone();
    let options: Vec<&str> = piece
        .lines()
        .filter_map(|line| line.strip_prefix("=value 20260309-A18-"))
        .collect();
    let trims = ["ground-beef", "fat-trim"];
    assert!(
        trims.contains(&options[0]) && trims.contains(&options[1]),
        "{options:?}"
    );
    assert!(!options.contains(&"drip"), "losses are no lots");
    // The first is meant where none was chosen.
    page.type_into("grind.weight", "1");
    page.press("grind-add");
    let said = format!("20260309-A18-{} · 1.00 kg", options[0]);
    assert!(page.text().contains(&said) && page.text().contains("1.00 kg went in"));
    page.press("grind-drop 0");
    assert!(!page.text().contains("1.00 kg went in"));
}

#[test]
fn what_is_wrong_is_told_at_its_field_and_stays_typed() {
    let mut page = ground();
    page.press("grind");
    assert!(page.text().contains("Name every lot that went in"));
    for (name, typed, why) in [
        ("grind.weight", "x", "number"),
        ("grind.weight", "0", "Name every lot"),
        ("grind.code", "", "needs a code"),
        ("grind.code", "20260921-G1", "Another batch has this code"),
        ("grind.code", "BOX-1", "cannot go into itself"),
        ("grind.day", "soon", "year-month-day"),
        ("grind.time", "7", "hour:minute"),
        ("grind.cleaned-day", "2026-09-20", "hour:minute"),
        ("grind.cleaned-time", "23:59", "cannot be later"),
    ] {
        page.type_into("grind.lot", "BOX-1");
        page.type_into("grind.weight", "1");
        page.type_into(name, typed);
        page.press("grind");
        assert!(page.text().contains(why), "{name} {typed}: {}", page.text());
        assert!(page.piece.contains("aria-invalid true"), "{name} {typed}");
        assert_eq!(page.entries[name], typed);
        assert_eq!(page.store["grinding"].matches("\nb ").count(), 1);
        page.entries.remove(name);
    }
    // What was typed before the refusal is still there and goes in as it is.
    page.type_into("grind.weight", "1");
    page.type_into("grind.cleaned-time", "06:00");
    page.press("grind");
    assert_eq!(page.store["grinding"].matches("\nb ").count(), 2);
    assert!(page.text().contains("grinder cleaned 2026-09-21 06:00"));
}

#[test]
fn a_weight_in_pounds_is_taken_down_in_the_digits_of_a_scale() {
    let mut page = grinding();
    page.type_into("grind.lot", "BOX-1");
    page.type_into("grind.weight", "2.55 lb");
    page.press("grind");
    assert!(
        page.store["grinding"].contains(" BOX-1 1.1567"),
        "{}",
        page.store["grinding"]
    );
}

#[test]
fn the_last_batch_can_be_taken_back_and_a_log_begun_anew() {
    let mut page = ground();
    page.press("ungrind 20260921-G7");
    assert!(page.store["grinding"].contains("G1"), "only the last one");
    page.press("sure? ungrind 20260921-G1");
    assert!(page.store["grinding"].contains("G1"), "asked first");
    page.press("ungrind 20260921-G1");
    assert!(!page.store["grinding"].contains("G1"));
    let mut page = ground();
    page.press("new-log");
    assert!(page.text().contains("No batch was written down yet"));
}

#[test]
fn any_lot_leads_one_step_back_and_one_step_forward() {
    let mut page = ground();
    page.press("trace 20260921-G1");
    assert!(
        page.text()
            .contains("Lean ground beef, ground 2026-09-21 07:45: 5.50 kg.")
    );
    assert!(page.offers(&format!("trace {TRIM}")));
    page.press(&format!("trace {TRIM}"));
    let text = page.text();
    assert!(text.contains("of the side A17."), "{text}");
    assert!(page.offers("trace A17") && page.offers("trace 20260921-G1"));
    page.press("trace A17");
    assert!(page.text().contains("Supplier: Invented Farm"));
    assert!(page.offers(&format!("trace {TRIM}")), "forward to its cuts");
    assert!(
        !page.piece.contains("trace 20260309-A17-drip"),
        "losses went nowhere"
    );
    page.press("trace BOX-77");
    assert!(page.text().contains("Nothing but its code is known"));
    assert!(page.text().contains("Nothing before it"));
    assert!(page.offers("trace 20260921-G1"));
    page.press("trace-close");
    assert!(page.offers("trace A18") && page.offers("trace 20260921-G1"));
    page.press("trace");
    assert!(page.text().contains("Type the code"));
    page.type_into("trace.lot", " A18 ");
    page.press("trace");
    assert!(page.text().contains("Supplier: North"));
}

#[test]
fn a_side_leads_to_what_was_weighed_of_it_and_to_nothing_else() {
    let mut page = grinding();
    page.press("trace A17");
    let text = page.text();
    for class in published().grind_classes() {
        let id = &published()[class.product].id;
        assert!(!page.offers(&format!("trace 20260309-A17-{id}")), "{id}");
    }
    let trim = text.lines().position(|line| line == TRIM).expect("trim");
    let weight = text.lines().nth(trim + 1).expect("its weight");
    assert!(weight.ends_with(" kg"), "{weight}");

    let closed = ClosedTest::of_text(&page.store["test.1"]).expect("a test");
    let without = Side {
        strip_loin: 0.0,
        ..Side::default()
    };
    let strip: Vec<String> = closed
        .gave(&published())
        .into_keys()
        .map(|product| published()[product].id.clone())
        .filter(|id| id.starts_with("strip-loin"))
        .collect();
    assert!(!strip.is_empty());
    let mut other = page_with([without]);
    other.press("trace A17");
    for id in strip {
        let lot = format!("trace 20260309-A17-{id}");
        assert!(page.offers(&lot) && !other.offers(&lot), "{id}");
    }
}

#[test]
fn a_lot_is_found_however_it_is_typed_and_what_is_none_is_told() {
    let mut page = ground();
    page.press("record-part trace");
    for (typed, said) in [
        (" a18 ", "Supplier: North"),
        ("20260309-a17-FAT-trim", "of the side A17."),
        ("20260921-g1", "Lean ground beef, ground"),
        ("box-77", "Nothing but its code is known"),
    ] {
        page.type_into("trace.lot", typed);
        page.press("trace");
        assert!(page.text().contains(said), "{typed}: {}", page.text());
        assert!(!page.text().contains("No lot here is called"), "{typed}");
    }
    page.type_into("trace.lot", "A99");
    page.press("trace");
    let text = page.text();
    assert!(text.contains("No lot here is called A99."), "{text}");
    assert!(!text.contains("here still"), "{text}");
    assert!(page.offers("trace-close"));
}

#[test]
fn no_more_is_ground_of_a_lot_than_it_weighed() {
    let mut page = grinding();
    let test = ClosedTest::of_text(&page.store["test.1"]).expect("a test");
    let catalogue = published();
    let trim = catalogue.product_id("fat-trim").expect("a product");
    let weighed = test.gave(&catalogue)[&trim].expect("a weight").kg();
    let take = |page: &mut Page, lot: &str, kg: Decimal| {
        page.type_into("grind.lot", lot);
        page.type_into("grind.weight", &kg.round_dp(3).to_string());
        page.press("grind-add");
        !page.entries.contains_key("grind.weight")
    };
    let said = |kg: Decimal| mass_with_unit(Mass::from_kg(kg), Units::Kilograms);
    let half = (weighed / Decimal::TWO).round_dp(3);
    let (all, left) = (said(weighed), said(weighed - half));
    assert!(!take(&mut page, TRIM, Decimal::from(900)));
    assert!(page.piece.contains("aria-invalid true"));
    assert!(
        page.text()
            .contains(&format!("{TRIM} weighed {all}, and {all} of it are left."))
    );
    assert!(take(&mut page, TRIM, half));
    // What is typed for this batch counts, and so does what is in the log.
    assert!(!take(&mut page, TRIM, weighed * Decimal::new(53, 2)));
    assert!(page.text().contains(&format!("and {left} of it are left")));
    page.entries.remove("grind.lot");
    page.entries.remove("grind.weight");
    page.press("grind");
    assert!(page.store["grinding"].contains("G1"));
    let typed = TRIM.to_uppercase();
    assert!(!take(&mut page, &typed, weighed * Decimal::new(53, 2)));
    // Two scales differ.
    assert!(take(&mut page, &typed, weighed * Decimal::new(515, 3)));
    assert!(!take(&mut page, &typed, weighed * Decimal::new(1, 2)));
    assert!(page.text().contains("and 0.00 kg of it are left"));
    // A batch that is ground again weighed what went into it.
    assert!(!take(&mut page, "20260921-G1", weighed));
    assert!(take(&mut page, "BOX-77", Decimal::from(900)));
}

#[test]
fn cautions_and_reminders_stand_beside_the_grinder() {
    let text = grinding().text();
    for said in ["71 °C", "under 18", "9 CFR 320.1", "local inspector"] {
        assert!(text.contains(said), "{said}");
    }
}
