//! Own yields.

use carcass::{Stock, StockEnd};
use notation::share;
use proptest::prelude::*;
use quantity::Share;
use scale::{KnownWays, Learning, Prior, TestedSide};

use crate::page::{Page, published};
use crate::sides::{Side, ordinary, page_with};

fn yields(sides: Vec<Side>) -> Page {
    let mut page = page_with(sides);
    page.press("view yields");
    page
}

/// The rows of all tables, each as its cells.
pub fn rows(page: &Page) -> Vec<Vec<String>> {
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut is_in_cell = false;
    for line in page.piece.lines() {
        match line {
            "<tr" => rows.push(Vec::new()),
            "<td" | "<th" => is_in_cell = true,
            ">" => is_in_cell = false,
            _ => {
                if let (Some(text), Some(row), true) =
                    (line.strip_prefix('"'), rows.last_mut(), is_in_cell)
                {
                    row.push(text.to_owned());
                }
            }
        }
    }
    rows
}

#[test]
fn without_a_test_the_way_to_one_is_offered() {
    let page = yields(Vec::new());
    assert!(page.offers("view weigh-in"));
    assert!(page.text().contains("published yields so far"));
}

#[test]
fn every_figure_of_a_way_is_that_of_the_learning() {
    let mut page = yields(ordinary(3));
    page.says("Sides in them: 3.");
    let catalogue = published();
    let tested: Vec<TestedSide> = ordinary(3)
        .iter()
        .map(|side| side.closed(&catalogue).tested(&KnownWays::of(&catalogue)).0)
        .collect();
    let learning = Learning::of(&catalogue, Prior::default(), &tested);
    let way = tested[0].ways[0].way;
    let known = learning.way(way, StockEnd::Grain);
    let part = catalogue[catalogue[way].part].id.clone();
    page.press(&format!("open-part {part}"));
    let rows = rows(&page);
    for output in &known.outputs {
        let low_high = [output.interval.low, output.interval.high].map(share);
        let figures = [
            share(output.published),
            share(output.own.expect("tests")),
            share(output.used),
            format!("{} to {}", low_high[0], low_high[1]),
            format!("± {}", share(output.deviation)),
        ];
        assert!(
            rows.iter().any(|row| row.ends_with(&figures)),
            "{figures:?}"
        );
    }
    // No end of the stock that nothing was seen of.
    assert!(page.text().contains("grain-fed. Sides"));
    assert!(!page.text().contains("grass-fed. Sides"));
    page.press(&format!("open-part {part}"));
    assert!(!page.text().contains("grain-fed. Sides"), "put away again");
}

#[test]
fn a_way_and_all_ways_go_back_to_the_published_yields_and_return() {
    let mut page = yields(ordinary(2));
    let own = page.store["yields"].clone();
    page.press("open-part strip-loin");
    let way = page
        .piece
        .lines()
        .find_map(|line| line.strip_prefix("=data-writes as-published "))
        .expect("a way")
        .to_owned();
    page.press(&format!("as-published {way}"));
    assert_ne!(page.store["yields"], own);
    assert!(page.text().contains("Put back"));
    page.press(&format!("use-own {way}"));
    assert_eq!(page.store["yields"], own);

    page.press("sure? all-published");
    assert_eq!(page.store["yields"], own, "asked first");
    page.press("all-published");
    let mut catalogue = published();
    if let Some(kept) = page.store.get("yields") {
        catalogue.lay_own(kept);
    }
    assert!(
        catalogue
            .ways()
            .all(|(_, way)| !way.own.counts_at(Stock::GRAIN))
    );
    page.reload();
    assert!(!page.offers(&format!("as-published {way}")));
    page.press("all-own");
    assert_eq!(page.store["yields"], own);
}

#[test]
fn the_spread_shows_what_is_published_own_and_used_and_goes_back() {
    let mut page = yields(ordinary(6));
    let catalogue = published();
    let tested: Vec<TestedSide> = ordinary(6)
        .iter()
        .map(|side| side.closed(&catalogue).tested(&KnownWays::of(&catalogue)).0)
        .collect();
    let learning = Learning::of(&catalogue, Prior::default(), &tested);
    let own = learning.spread(&tested);
    let said = |of: Share| format!("± {}", share(of));
    let caption = "Spread of the side and of every group of cuts";
    let table = page.table(caption);
    assert_eq!(table.len(), own.groups.len() + 2);
    let of_all = [own.saleable].into_iter();
    let of_all = of_all.chain(own.groups.iter().map(|(_, of_group)| *of_group));
    for (row, of) in table[1..].iter().zip(of_all.clone()) {
        let figures = [
            said(of.published),
            said(of.own.expect("six sides")),
            said(of.used),
            "6".to_owned(),
        ];
        assert_eq!(row[1..], figures, "{row:?}");
    }

    let before = page.store["yields"].clone();
    let laid = |page: &Page| {
        let mut laid = published();
        laid.lay_own(&page.store["yields"]);
        laid
    };
    assert_ne!(laid(&page).spread(), published().spread());
    page.press("spread-published");
    assert_eq!(laid(&page).spread(), published().spread());
    // Yields stay own.
    assert!(laid(&page).ways().any(|(_, way)| way.own.grain));
    for (row, of) in page.table(caption)[1..].iter().zip(of_all) {
        assert_eq!(row[3], said(of.published), "{row:?}");
    }
    page.reload();
    assert_eq!(laid(&page).spread(), published().spread());
    assert!(!page.offers("spread-published"));
    page.press("spread-own");
    assert_eq!(page.store["yields"], before);
    // One side tells of no spread of its own.
    let page = yields(ordinary(1));
    assert!(page.table(caption)[1..].iter().all(|row| row[2] == "–"));
}

#[test]
fn it_is_said_how_a_side_between_the_ends_counts() {
    let stock = Stock::grass_share(Share::from_percent(50.into()));
    let sides = ordinary(4).into_iter().map(|side| Side { stock, ..side });
    let page = yields(sides.collect());
    assert!(
        page.text()
            .contains("in part at each end where it lies between"),
        "{}",
        page.text()
    );
}

#[test]
fn strengths_are_set_within_their_bounds() {
    let mut page = yields(ordinary(2));
    let own = page.store["yields"].clone();
    for (name, typed, why) in [
        ("yields.prior", "x", "number"),
        ("yields.prior", "0", "0.1 to 1000"),
        ("yields.prior", "1001", "0.1 to 1000"),
        ("yields.spread", "0.5", "1 to 1000"),
    ] {
        page.type_into(name, typed);
        page.press("set-prior");
        assert!(page.piece.contains("aria-invalid true"), "{typed}");
        page.says(why);
        assert_eq!(page.entries[name], typed);
        page.entries.remove(name);
    }
    assert_eq!(page.store["yields"], own);
    page.type_into("yields.prior", "50");
    page.press("set-prior");
    assert!(!page.entries.contains_key("yields.prior"));
    assert_ne!(page.store["yields"], own);
    page.reload();
    assert!(page.text().contains("count like 50 sides"));
}

#[test]
fn an_odd_test_is_named_and_counts_until_it_is_left_out() {
    let mut sides = ordinary(12);
    sides[4].strip_loin = 0.4;
    sides[4].lot = "B-9";
    let mut page = yields(sides);
    assert!(page.text().contains("do not fit the others"));
    page.says("B-9");
    assert!(page.text().contains("Closed tests that count: 12"));
    page.press("leave-out 5");
    assert!(page.text().contains("Closed tests that count: 11"));
    assert!(page.text().contains("Tests left out: 1"));
    assert!(!page.text().contains("do not fit the others"));
    page.press("leave-out 5");
    assert!(page.text().contains("Closed tests that count: 12"));
}

#[test]
fn with_all_tests_left_out_nothing_is_learnt() {
    let mut page = yields(ordinary(1));
    page.press("leave-out 1");
    assert!(page.text().contains("Sides in them: 0."));
    assert!(!page.offers("sure? all-published"));
    assert!(!page.store.contains_key("yields"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn nothing_that_is_typed_or_pressed_panics(
        typed in "\\PC{0,12}",
        verb in "(set-prior|as-published|use-own|all-published|all-own|leave-out)",
        about in "\\PC{0,8}",
    ) {
        let mut page = yields(ordinary(1));
        page.type_into("yields.prior", &typed);
        page.type_into("yields.spread", &typed);
        page.press(&format!("{verb} {about}"));
        page.press("set-prior");
        prop_assert!(!page.piece.is_empty());
    }
}
