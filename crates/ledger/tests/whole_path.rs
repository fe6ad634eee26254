//! A side from the first weighing to the shop's own yields, as a page asks for
//! it.

mod page;

use carcass::{Catalogue, Kind, Stock};
use draft::Field;
use page::{Page, planned, published, sample};
use quantity::{Mass, Rounding};
use scale::planned_lines;

/// Every line of the sample's plan with what is planned of it in kilograms, to
/// the gram; losses are left out.
fn lines(catalogue: &Catalogue) -> Vec<(String, Mass)> {
    let breakdown = planned(catalogue, &sample());
    planned_lines(catalogue, &breakdown)
        .into_iter()
        .filter(|line| catalogue[line.product].kind != Kind::Loss)
        .map(|line| {
            let grams = Rounding::HalfEven.to_places(line.weight.kg(), 3);
            (catalogue[line.product].id.clone(), Mass::from_kg(grams))
        })
        .collect()
}

fn weigh(page: &mut Page, product: &str, weight: &str) {
    page.type_into(&format!("w.{product} -"), weight);
    page.press(&format!("add {product} -"));
}

/// Weighs all cuts of the sample as planned but for one, of which a tenth is
/// missing.
fn weigh_all(page: &mut Page, short: &str) {
    for (product, weight) in lines(&published()) {
        let weight = if product == short {
            weight * quantity::Share::from_percent(90.into())
        } else {
            weight
        };
        weigh(
            page,
            &product,
            &Rounding::HalfEven.to_places(weight.kg(), 3).to_string(),
        );
    }
}

#[test]
fn a_side_is_weighed_closed_and_learnt_from() {
    let mut page = Page::new();
    assert!(page.offers("begin"));
    page.press("begin");
    assert!(page.text().contains("Not yet accounted for"));
    page.type_into("tag.lot", "B-204");
    page.type_into("tag.supplier", "Invented Farm");
    weigh_all(&mut page, "no such cut");
    assert!(page.offers("close"), "{}", page.text());
    page.press("close");
    page.says("B-204");
    assert!(page.text().contains("Planned against actual"));
    assert!(!page.store.contains_key("bench") && !page.store.contains_key("weighed"));
    assert!(page.store.contains_key("test.1") && page.store.contains_key("yields"));
    assert!(!page.entries.keys().any(|name| name.starts_with("tag.")));

    let mut own = published();
    own.lay_own(&page.store["yields"]);
    let breakdown = planned(&own, &sample());
    let of_plan = breakdown.nodes().iter().filter_map(|node| match node.what {
        carcass::What::Part { way, .. } => Some(way),
        carcass::What::Product(_) => None,
    });
    let stock: Stock = reading_stock();
    for way in of_plan {
        assert!(own[way].own.counts_at(stock), "{}", own[way].id);
    }
}

fn reading_stock() -> Stock {
    let document = draft::reading::read(&sample(), &published()).expect("a plan");
    document.resolve(&published()).expect("a plan").deal.stock
}

#[test]
fn a_weigh_in_comes_back_after_a_reload_at_any_moment() {
    let mut page = Page::new();
    page.press("begin");
    let (product, _) = lines(&published()).swap_remove(0);
    for (count, weight) in ["1.25", "2,5", "3"].into_iter().enumerate() {
        weigh(&mut page, &product, weight);
        let before = page.piece.clone();
        page.reload();
        assert_eq!(page.piece, before, "after {} weighings", count + 1);
    }
    page.says("in 3 weighings");
    page.press("undo");
    page.reload();
    page.says("in 2 weighings");
    page.press("back 0");
    page.says("2.50 kg, weighed once");
}

#[test]
fn what_was_not_weighed_is_named_above_the_buttons() {
    let said = "Not weighed, and counted as none: ";
    let told = |page: &Page| -> Option<String> {
        let text = page.text();
        let line = text.lines().find_map(|line| line.strip_prefix(said));
        line.map(str::to_owned)
    };
    let mut page = Page::new();
    page.press("begin");
    assert_eq!(told(&page), None, "nothing was weighed at all");
    let catalogue = published();
    let name = |id: &str| {
        let product = catalogue.product_id(id).expect("a product");
        catalogue[product].name.clone()
    };
    let is_loss = |id: &str| {
        let product = catalogue.product_id(id).expect("a product");
        catalogue[product].kind == carcass::Kind::Loss
    };
    let all = lines(&catalogue);
    let mut left: Vec<String> = all
        .iter()
        .map(|(id, _)| id.clone())
        .filter(|id| !is_loss(id))
        .collect();
    for (id, weight) in all.iter().filter(|(id, _)| !is_loss(id)) {
        weigh(&mut page, id, &weight.kg().to_string());
        left.retain(|other| other != id);
        let names: Vec<String> = left.iter().map(|id| name(id)).collect();
        let wanted = match names.len() {
            0 => None,
            1..=8 => Some(format!("{}.", names.join(", "))),
            many => Some(format!("{} and {} more.", names[..8].join(", "), many - 8)),
        };
        assert_eq!(told(&page), wanted);
    }
}

#[test]
fn what_is_missing_is_named_and_can_be_accepted() {
    let mut page = Page::new();
    page.press("begin");
    let heaviest = lines(&published())
        .into_iter()
        .max_by_key(|(_, weight)| *weight);
    let (heaviest, _) = heaviest.expect("lines");
    for (product, weight) in lines(&published()) {
        if product != heaviest {
            weigh(&mut page, &product, &weight.kg().to_string());
        }
    }
    page.says("beyond 1.0 %");
    page.says("Was a tray left out?");
    assert!(page.offers("accept") && !page.offers("close"));
    // Not accepted, not closed.
    page.press("close");
    assert!(page.store.contains_key("bench") && !page.store.contains_key("test.1"));
    page.press("accept");
    assert!(page.store.contains_key("test.1"));
    page.press("report-close");
    page.says("unexplained and accepted");
}

#[test]
fn a_weight_in_the_wrong_unit_is_found_and_put_right() {
    let mut page = Page::new();
    page.press("begin");
    let catalogue = published();
    let all = lines(&catalogue);
    let (slipped, _) = all
        .iter()
        .max_by_key(|(_, weight)| *weight)
        .expect("lines")
        .clone();
    for (product, weight) in all {
        let number = if product == slipped {
            Rounding::HalfEven.to_places(weight.lb(), 2)
        } else {
            weight.kg()
        };
        weigh(&mut page, &product, &number.to_string());
    }
    let fix = page
        .piece
        .lines()
        .find_map(|line| line.strip_prefix("=data-writes reread "))
        .expect("a slip is found")
        .to_owned();
    assert!(fix.contains(&slipped), "{fix}");
    page.press(&format!("reread {fix}"));
    assert!(page.offers("close"), "{}", page.text());
}

#[test]
fn the_first_tray_of_a_heavy_line_is_not_called_a_slip() {
    let mut page = Page::new();
    page.press("begin");
    page.type_into("at.scale.unit", "lb");
    let heaviest = lines(&published())
        .into_iter()
        .max_by_key(|(_, weight)| *weight);
    let (heaviest, weight) = heaviest.expect("lines");
    let tray = weight * quantity::Share::from_percent(45.into());
    let tray = Rounding::HalfEven.to_places(tray.lb(), 2);
    weigh(&mut page, &heaviest, &tray.to_string());
    assert!(page.text().contains("weighed once"));
    assert!(!page.text().contains("typed in"), "{}", page.text());
    assert!(!page.piece.contains("=data-writes reread "));
}

#[test]
fn a_test_can_be_left_out_and_deleted() {
    let mut page = Page::new();
    page.press("begin");
    weigh_all(&mut page, "no such cut");
    page.press("close");
    page.press("report-close");
    page.press("leave-out 1");
    assert!(!page.store.contains_key("yields"));
    assert!(page.text().contains("Left out of your own yields"));
    page.press("leave-out 1");
    assert!(page.store.contains_key("yields"));
    page.press("sure? delete-test 1");
    assert!(page.store.contains_key("test.1"), "asked first");
    page.press("delete-test 1");
    assert!(
        page.store.keys().all(|key| key == "settings"),
        "{:?}",
        page.store.keys()
    );
}

#[test]
fn what_cannot_be_read_is_refused_at_its_field_and_stays_typed() {
    let mut page = Page::new();
    page.press("begin");
    let (product, _) = lines(&published()).swap_remove(0);
    for (typed, why) in [
        ("abc", "number"),
        ("", ""),
        ("-3", ""),
        ("99999999999", "at most"),
    ] {
        weigh(&mut page, &product, typed);
        assert!(page.piece.contains("aria-invalid true"), "{typed}");
        assert!(page.text().contains(why), "{typed}: {}", page.text());
        assert_eq!(page.entries[&format!("w.{product} -")], typed);
    }
    page.type_into("scale.tare", "2");
    weigh(&mut page, &product, "1.5");
    assert!(page.text().contains("The tare is more than the weight"));
    page.type_into("tag.killed", "2026-13-45");
    weigh(&mut page, &product, "500");
    page.press("accept");
    assert!(page.store.contains_key("bench"), "a day that is none");
    page.says("year-month-day");
}

#[test]
fn the_tare_is_in_the_unit_of_its_field_whatever_unit_is_typed_with_a_reading() {
    let mut page = Page::new();
    page.press("begin");
    let (product, _) = lines(&published()).swap_remove(0);
    page.type_into("scale.tare", "0.5");
    weigh(&mut page, &product, "10 lb");
    // 10 lb less half a kilogram, in a table of exact pounds: 4.53592 − 0.5.
    page.says("4.04 kg, weighed once");
    page.press("undo");
    page.type_into("scale.tare", "8 oz");
    weigh(&mut page, &product, "10 lb");
    page.says("4.31 kg, weighed once");
    page.press("undo");
    page.type_into("at.scale.unit", "lb");
    page.type_into("scale.tare", "1");
    weigh(&mut page, &product, "5 kg");
    page.says("10.02 lb, weighed once");
}

/// An amount as a report shows it, in cents.
fn cents(shown: &str) -> i64 {
    let digits: String = shown.chars().filter(char::is_ascii_digit).collect();
    let cents = digits.parse::<i64>().expect("an amount");
    if shown.contains('−') { -cents } else { cents }
}

/// The sum of a column of rows, dashes left out.
fn sum_of(rows: &[Vec<String>], column: usize) -> i64 {
    let cells = rows.iter().map(|row| row[column].as_str());
    cells.filter(|cell| *cell != "–").map(cents).sum()
}

/// Holds every table of the report that is shown to the amounts above it.
fn adds_up(page: &Page) {
    let column = |rows: &[Vec<String>], head: &str| {
        let place = rows[0].iter().position(|it| it == head);
        place.unwrap_or_else(|| panic!("no {head}"))
    };
    let money = page.table("Where the money went, in figures");
    let (whole, amounts) = money[1..].split_last().expect("rows");
    assert_eq!(amounts.len(), 4);
    assert_eq!(sum_of(amounts, 1), cents(&whole[1]), "{money:?}");
    let text = page.text();
    let figure = |label: &str| -> i64 {
        let mut lines = text.lines().skip_while(|line| *line != label);
        cents(lines.nth(1).expect("a figure"))
    };
    let difference = figure("Margin that came of it") - figure("Margin as planned");
    assert_eq!(difference, cents(&whole[1]), "{money:?}");
    let of = |name: &str| {
        let row = amounts.iter().find(|row| row[0] == name);
        cents(&row.expect("a row")[1])
    };
    let (board, bought) = (
        of("By price, at the till"),
        of("By price, at the supplier's"),
    );

    let cuts = page.table("Cut by cut");
    for (head, wanted) in [
        ("By yield", Some(of("By yield"))),
        ("By price", Some(board)),
        ("Plan cost", None),
        ("Actual cost", None),
    ] {
        let place = column(&cuts, head);
        let (whole, lines) = cuts[1..].split_last().expect("rows");
        assert_eq!(sum_of(lines, place), cents(&whole[place]), "{head}");
        assert_eq!(wanted.unwrap_or(cents(&whole[place])), cents(&whole[place]));
    }
    let parts = page.table("Part by part");
    for (head, wanted) in [
        ("By yield", of("By yield")),
        ("By price", board + bought),
        ("By labour", of("By labour")),
    ] {
        let place = column(&parts, head);
        let (whole, lines) = parts[1..].split_last().expect("rows");
        assert_eq!(sum_of(lines, place), cents(&whole[place]), "{head}");
        assert_eq!(cents(&whole[place]), wanted, "{head}");
    }
    let margin = column(&parts, "Actual margin");
    assert!(parts[1][margin].contains('%'), "{:?}", parts[1]);
}

#[test]
fn a_closed_report_adds_up_cent_by_cent_and_takes_other_prices() {
    let mut page = Page::new();
    page.press("begin");
    let start = page
        .piece
        .lines()
        .find_map(|line| line.strip_prefix("=data-writes start "))
        .expect("a timer")
        .to_owned();
    let heaviest = lines(&published())
        .into_iter()
        .max_by_key(|(_, weight)| *weight);
    weigh_all(&mut page, &heaviest.expect("lines").0);
    page.type_into(&format!("m.{start}"), "7,7");
    page.press(&format!("spend {start}"));
    page.press("accept");
    page.says("less than planned");
    adds_up(&page);
    // Each amount by itself rounds otherwise at some of these rates and losses.
    page.type_into("at.report.prices", "now");
    for step in 0..12 {
        let mut draft = sample();
        draft.type_into(Field::LabourRate, format!("31.{step}7"));
        draft.type_into(Field::Unsold, format!("3.{step}"));
        page.draft = draft.to_text();
        page.type_into("at.report.paid", &format!("9.{step:02}"));
        page.press("");
        adds_up(&page);
    }
    page.type_into("at.report.paid", "0.01");
    page.press("");
    page.says("more than planned");
    let money = |page: &Page| {
        page.store["test.1"]
            .lines()
            .find(|line| line.starts_with("money"))
            .map(str::to_owned)
    };
    let before = money(&page);
    page.press("keep-money 1");
    assert_ne!(money(&page), before);
    page.type_into("at.report.paid", "x");
    page.press("keep-money 1");
    assert!(page.piece.contains("aria-invalid true"));
}

/// The kilograms of a row by its first cell.
fn kilograms(rows: &[Vec<String>], name: &str, column: usize) -> Option<f64> {
    let row = rows.iter().find(|row| row[0] == name)?;
    Some(row[column].replace('−', "-").parse().expect("a weight"))
}

#[test]
fn what_was_accepted_is_a_row_of_its_own_and_can_be_left_out() {
    for factor in [80_i64, 130] {
        let mut page = Page::new();
        page.press("begin");
        let all = lines(&published());
        let (heaviest, planned) = all
            .iter()
            .max_by_key(|(_, weight)| *weight)
            .cloned()
            .expect("lines");
        let share = quantity::Share::from_percent(factor.into());
        let typed = Rounding::HalfEven.to_places((planned * share).kg(), 2);
        for (product, weight) in all {
            let weight = if product == heaviest {
                typed
            } else {
                weight.kg()
            };
            weigh(&mut page, &product, &weight.to_string());
        }
        let is_missing = factor < 100;
        page.says("is learnt from");
        page.press("accept");
        let text = page.text();
        let said = if is_missing {
            "of the side were on no scale"
        } else {
            "more were weighed than the side"
        };
        assert!(text.contains(said), "{text}");
        // Every weight is the scale's, and the row makes them up to the side.
        let cuts = page.table("Cut by cut");
        let off = kilograms(&cuts, "Unexplained", 2).expect("a row");
        assert_eq!(off > 0.0, is_missing, "{off}");
        let name = {
            let catalogue = published();
            let product = catalogue.product_id(&heaviest).expect("a product");
            catalogue[product].name.clone()
        };
        let weighed = kilograms(&cuts, &name, 2).expect("a row");
        let typed: f64 = typed.to_string().parse().expect("a weight");
        assert!((weighed - typed).abs() < 0.006, "{weighed} {typed}");
        let (whole, lines) = cuts[1..].split_last().expect("rows");
        let sum: f64 = lines
            .iter()
            .map(|row| row[2].replace('−', "-").parse::<f64>().expect("a weight"))
            .sum();
        let side: f64 = whole[2].parse().expect("a weight");
        assert!((sum - side).abs() < 0.2, "{sum} {side}");
        // No loss was weighed, and none reads as if it had been.
        let losses = page.table("Losses");
        assert_eq!(kilograms(&losses, "Unexplained", 2), Some(off));
        let (_, named) = losses[1..].split_last().expect("rows");
        assert!(named.iter().all(|row| row[2] == "0.00"), "{losses:?}");

        assert!(page.store.contains_key("yields"));
        page.press("leave-out 1");
        assert!(!page.store.contains_key("yields"));
        assert!(page.text().contains("Planned against actual"));
        page.press("leave-out 1");
        page.press("report-close");
        let listed = if is_missing {
            "missing, unexplained and accepted"
        } else {
            "too much, unexplained and accepted"
        };
        page.says(listed);
    }
}

#[test]
fn what_is_unexplained_within_the_tolerance_is_listed_too() {
    let mut page = Page::new();
    page.press("begin");
    weigh_all(&mut page, "no such cut");
    let all = lines(&published());
    let (product, _) = &all[0];
    weigh(&mut page, product, "0.5");
    page.press("close");
    assert!(!page.offers("leave-out 1"), "{}", page.text());
    page.press("report-close");
    page.says("unexplained, within the tolerance");
}

#[test]
fn a_timer_that_runs_is_told_before_it_is_stopped_by_closing() {
    let mut page = Page::new();
    page.press("begin");
    weigh_all(&mut page, "no such cut");
    let timers: Vec<String> = page
        .piece
        .lines()
        .filter_map(|line| line.strip_prefix("=data-writes start "))
        .map(str::to_owned)
        .collect();
    page.press(&format!("start {}", timers[0]));
    page.now += 720_000;
    page.press("");
    let text = page.text();
    assert!(text.contains("closing stops it, now at 12 min"), "{text}");
    assert!(!text.contains("timers run at once"));
    page.press(&format!("start {}", timers[1]));
    let both = "2 timers run at once: the time of each counts in full.";
    // At the times and at the end.
    assert_eq!(page.text().matches(both).count(), 2, "{}", page.text());
    page.press(&format!("stop {}", timers[0]));
    assert!(!page.text().contains(both));
}

#[test]
fn a_tolerance_above_the_whole_is_refused_at_its_field() {
    let mut page = Page::new();
    page.press("begin");
    weigh_all(&mut page, "no such cut");
    for (typed, is_refused) in [("101", true), ("-1", true), ("100", false), ("x", true)] {
        page.type_into("at.close.tolerance", typed);
        page.press("");
        let is_marked = page.piece.contains("aria-invalid true");
        assert_eq!(is_marked, is_refused, "{typed}: {}", page.text());
    }
    page.type_into("at.close.tolerance", "250");
    page.press("close");
    assert!(page.store.contains_key("bench"), "closed");
    assert!(page.text().contains("0 to 100 % of the side"));
}

#[test]
fn the_closing_speaks_in_the_unit_of_the_scale() {
    let mut page = Page::new();
    page.press("begin");
    page.type_into("at.scale.unit", "lb");
    let mut all = lines(&published());
    all.sort_by_key(|(_, weight)| *weight);
    all.pop();
    for (product, weight) in &all {
        let pounds = Rounding::HalfEven.to_places(weight.lb(), 2);
        weigh(&mut page, product, &pounds.to_string());
    }
    let text = page.text();
    let (_, closing) = text.split_once("Close the side").expect("the closing");
    assert!(closing.contains("lb missing"), "{closing}");
    assert!(!closing.contains(" kg"), "{closing}");
    page.press("close");
    page.says("lb missing");
}

#[test]
fn minutes_are_typed_and_timed() {
    let mut page = Page::new();
    page.press("begin");
    let start = page
        .piece
        .lines()
        .find_map(|line| line.strip_prefix("=data-writes start "))
        .expect("a timer")
        .to_owned();
    page.press(&format!("start {start}"));
    assert!(page.offers(&format!("stop {start}")));
    page.now += 150_000;
    page.reload();
    assert!(
        page.text().contains(
            "
2 min
"
        ),
        "two and a half, to the even minute"
    );
    page.press(&format!("stop {start}"));
    page.type_into(&format!("m.{start}"), "10");
    page.press(&format!("spend {start}"));
    page.says(
        "
12 min
",
    );
}

#[test]
fn a_damaged_weigh_in_is_said_and_kept() {
    let mut page = Page::new();
    page.press("begin");
    page.store
        .insert("weighed".to_owned(), "weigh-in 99\nend 0\n".to_owned());
    page.reload();
    page.says("cannot be read");
    assert!(page.store.contains_key("weighed"));
    page.press("begin");
    assert_eq!(page.store["weighed"], "weigh-in 99\nend 0\n");
    page.press("abandon");
    assert!(!page.store.contains_key("weighed"));
    assert!(page.offers("begin"));
}

#[test]
fn papers_carry_the_lot_code_of_every_cut() {
    let mut page = Page::new();
    page.press("begin");
    page.press("print cutting");
    let paper = page.file.take().expect("a paper");
    assert!(!paper.contains("class lot"), "no code without a number");
    page.type_into("tag.lot", "B-204");
    page.type_into("tag.claim.0", "grass-fed");
    for which in ["cutting", "cards"] {
        page.press(&format!("print {which}"));
        let paper = page.file.take().expect("a paper");
        assert!(paper.starts_with("print\n"));
        assert!(paper.contains("20260921-B-204-ribeye"), "{which}: {paper}");
        assert_eq!(paper.contains("grass-fed"), which == "cards");
    }
}

#[test]
fn what_was_typed_and_not_added_is_not_lost_when_a_side_is_closed() {
    let mut page = Page::new();
    page.press("begin");
    let catalogue = published();
    let side = planned(&catalogue, &sample());
    let lines = planned_lines(&catalogue, &side);
    let first = &catalogue[lines[0].product];
    weigh(&mut page, &catalogue[lines[1].product].id, "5");
    let entry = format!("w.{} -", first.id);
    page.type_into(&entry, "0.95");
    page.press("accept");
    assert!(page.store.contains_key("bench"), "closed");
    let said = format!(
        "0.95 stands in the field of {} and was not added",
        first.name
    );
    page.says(&said);
    page.press(&format!("add {} -", first.id));
    page.press("accept");
    assert!(!page.store.contains_key("bench"), "{}", page.text());
}

#[test]
fn a_side_that_came_in_warm_is_marked() {
    let mut page = Page::new();
    page.press("begin");
    for (typed, is_marked) in [
        ("4", false),
        ("4,1", true),
        ("-1.5", false),
        ("9", true),
        ("x", false),
    ] {
        page.type_into("tag.celsius", typed);
        page.press("");
        let marked = page.text().contains("°C at receipt is warmer than 4 °C");
        assert_eq!(marked, is_marked, "{typed}");
    }
}
