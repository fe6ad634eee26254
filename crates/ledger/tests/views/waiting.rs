//! Sides that wait while another lies on the block.

use crate::page::{Page, published, sample};

fn weigh(page: &mut Page, line: &str, reading: &str) {
    page.type_into(&format!("w.{line}"), reading);
    page.press(&format!("add {line}"));
}

/// The key of the only side that waits.
fn waiting(page: &Page) -> String {
    let mut keys = page
        .store
        .keys()
        .filter_map(|key| key.strip_prefix("waiting."));
    let key = keys.next().expect("a side that waits").to_owned();
    assert_eq!(keys.next(), None);
    key
}

/// Two lines of the sample's plan, as the buttons name them.
fn two_lines() -> [String; 2] {
    let catalogue = published();
    let planned = crate::page::planned(&catalogue, &sample());
    let lines = scale::planned_lines(&catalogue, &planned);
    let mut ids = lines
        .iter()
        .map(|planned| format!("{} -", catalogue[planned.product].id));
    [ids.next().expect("a line"), ids.next().expect("another")]
}

#[test]
fn two_sides_change_places_and_keep_what_is_theirs() {
    let [cut, other] = two_lines();
    let mut page = Page::new();
    page.press("begin");
    page.type_into("tag.lot", "L-1");
    page.type_into("tag.supplier", "Invented Farm");
    weigh(&mut page, &cut, "5");
    let first = page.store["weighed"].clone();
    page.press("put-by");
    assert!(!page.store.contains_key("bench"));
    assert!(!page.entries.contains_key("tag.lot"));
    assert!(page.offers("begin"));
    page.says("L-1 · Invented Farm");
    page.says("5.00 kg weighed so far.");

    page.now += 1_000;
    page.press("begin");
    page.type_into("tag.lot", "R-1");
    weigh(&mut page, &other, "7");
    let second = page.store["weighed"].clone();
    let key = waiting(&page);
    page.press(&format!("go-on {key}"));
    assert_eq!(page.store["weighed"], first);
    assert_eq!(page.entries["tag.lot"], "L-1");
    assert!(page.text().contains("R-1"));

    // After a reload they change places again.
    page.reload();
    let key = waiting(&page);
    page.press(&format!("go-on {key}"));
    assert_eq!(page.store["weighed"], second);
    assert_eq!(page.entries["tag.lot"], "R-1");
    assert!(!page.entries.contains_key("tag.supplier"));
}

#[test]
fn a_timer_stops_when_its_side_is_put_by() {
    let catalogue = published();
    let planned = crate::page::planned(&catalogue, &sample());
    let way = planned
        .nodes()
        .iter()
        .find_map(|node| match node.what {
            carcass::What::Part { way, .. } => Some(catalogue[way].id.clone()),
            carcass::What::Product(_) => None,
        })
        .expect("a way");
    let mut page = Page::new();
    page.press("begin");
    page.press(&format!("start {way}"));
    page.now += 120_000;
    page.press("put-by");
    page.now += 3_600_000;
    let key = waiting(&page);
    page.press(&format!("go-on {key}"));
    assert!(!page.offers(&format!("stop {way}")));
    page.says("2 min");
}

#[test]
fn no_more_sides_wait_than_are_looked_after() {
    let mut page = Page::new();
    for _ in 0..12 {
        page.press("begin");
        page.press("put-by");
    }
    page.press("begin");
    page.press("put-by");
    assert!(page.store.contains_key("bench"));
    assert!(
        page.text()
            .contains("12 sides wait already: close one first.")
    );
    // Two can change places all the same.
    let key = page
        .store
        .keys()
        .find_map(|key| key.strip_prefix("waiting."))
        .expect("a side")
        .to_owned();
    page.press(&format!("go-on {key}"));
    let count = page
        .store
        .keys()
        .filter(|key| key.starts_with("waiting."))
        .count();
    assert_eq!(count, 12);
}

#[test]
fn what_cannot_be_read_stays_and_is_told() {
    let mut page = Page::new();
    page.press("begin");
    page.press("put-by");
    let key = format!("waiting.{}", waiting(&page));
    let text = page.store[&key].clone();
    let half: String = text.chars().take(text.len() / 2).collect();
    page.store.insert(key.clone(), half.clone());
    page.reload();
    assert!(page.text().contains("This side cannot be read."));
    page.press(&key.replace("waiting.", "go-on "));
    assert_eq!(page.store[&key], half);
    assert!(page.offers("begin"));
}
