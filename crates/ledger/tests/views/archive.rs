//! Old sides go into a file, and files come in beside what is here.

use crate::page::Page;
use crate::sides::{Side, ordinary, page_with};

fn kept(sides: Vec<Side>) -> Page {
    let mut page = page_with(sides);
    page.press("record-part kept");
    page
}

/// The file of everything, as it is read.
fn file_of_all(page: &mut Page) -> String {
    page.press("file-all");
    let file = page.file.take().expect("a file");
    let content = file.strip_prefix("file\nsideworth-scale.json\napplication/json\n");
    content.expect("the file of the records").to_owned()
}

/// Three sides: one of a year ago, one without a day, one of this year; the first
/// and the last with their papers.
fn old_and_new() -> Page {
    let mut sides = ordinary(3);
    sides[0].received = "2025-01-31";
    sides[1].received = "";
    let mut page = kept(sides);
    for number in [1, 3] {
        let paper = format!("the paper of {number}");
        page.store.insert(format!("paper.{number}"), paper);
    }
    page.reload();
    page
}

#[test]
fn weighings_of_old_sides_go_once_they_are_in_a_file_and_all_else_stays() {
    let mut page = old_and_new();
    page.type_into("at.record.before", "2025-01-31");
    page.press("");
    assert!(page.text().contains("No side was received before"));
    page.type_into("at.record.before", "2025-02-01");
    page.press("");
    assert!(
        page.text()
            .contains("Sides received before 2025-02-01: 1. With weighings and a report: 1."),
        "{}",
        page.text()
    );
    let before = page.store.clone();
    // No file, no archive.
    for pressed in [
        "sure? archive-before 2025-02-01",
        "archive-before 2025-02-01",
    ] {
        page.press(pressed);
        assert!(
            page.text().contains("Save the records as a file first"),
            "{pressed}: {}",
            page.text()
        );
        assert!(!page.offers("archive-before 2025-02-01"), "{pressed}");
    }
    assert_eq!(page.store, before);

    let file = file_of_all(&mut page);
    page.press("sure? archive-before 2025-02-01");
    assert!(page.offers("archive-before 2025-02-01"), "{}", page.text());
    page.press("archive-before 2025-02-01");
    let mut without = before.clone();
    without.remove("paper.1");
    assert_eq!(page.store, without);
    page.reload();
    page.press("trace 20250131-A17-fat-trim");
    assert!(page.offers("trace A17"), "{}", page.text());
    page.press("view yields");
    page.says("Sides in them: 3.");

    // The file brings back what is in it alone.
    page.press("record-part kept");
    page.type_into("file.record", &file);
    page.press("");
    page.says("already: 3.");
    assert!(page.text().contains("weighings with a report 1."));
    assert!(page.offers("join-record"));
    page.press("join-record");
    assert_eq!(page.store, before);
}

#[test]
fn a_file_that_is_older_than_what_is_here_is_no_archive_of_it() {
    let mut page = old_and_new();
    file_of_all(&mut page);
    page.press("leave-out 3");
    page.type_into("at.record.before", "2025-02-01");
    page.press("delete-before 2025-02-01");
    assert!(page.store.contains_key("test.1"));
    assert!(page.text().contains("Save the records as a file first"));
}

#[test]
fn old_sides_are_deleted_after_it_is_said_what_is_lost() {
    let mut page = old_and_new();
    file_of_all(&mut page);
    page.type_into("at.record.before", "2025-02-01");
    page.press("sure? delete-before 2025-02-01");
    let text = page.text();
    assert!(
        text.contains("deleted here: 1. Sides that stop counting in your own yields: 1."),
        "{text}"
    );
    assert!(page.store.contains_key("test.1"));
    page.press("delete-before 2025-02-01");
    assert!(!page.store.contains_key("test.1") && !page.store.contains_key("paper.1"));
    assert!(page.store.contains_key("test.2") && page.store.contains_key("test.3"));
    assert!(page.store.contains_key("paper.3"));
    assert!(!page.entries.contains_key("at.record.before"));
}

#[test]
fn a_storage_that_fills_up_is_said_wherever_sides_are() {
    let mut page = page_with(ordinary(1));
    let is_said = |page: &mut Page, view: &str| {
        page.press(&format!("view {view}"));
        let is_said = page.text().contains(" MB of about 3.30 MB are taken. Save");
        assert_eq!(is_said, page.text().contains("archive the oldest"));
        is_said
    };
    let views = ["weigh-in", "tests", "record"];
    for view in views {
        assert!(!is_said(&mut page, view), "{view}");
    }
    page.store
        .insert("paper.1".to_owned(), "x".repeat(2_300_000));
    page.reload();
    for view in views {
        assert!(is_said(&mut page, view), "{view}");
        assert!(page.offers("record-part kept"));
    }
}

/// Takes a batch down.
fn grind(page: &mut Page, code: &str, lot: &str, time: &str) {
    page.press("record-part grinding");
    for (name, text) in [
        ("code", code),
        ("lot", lot),
        ("weight", "1"),
        ("time", time),
    ] {
        page.type_into(&format!("grind.{name}"), text);
    }
    page.press("grind");
    assert!(page.store["grinding"].contains(code), "{}", page.text());
}

#[test]
fn the_records_of_two_phones_come_together() {
    // The first side is on both.
    let mut other = page_with([
        Side::default(),
        Side {
            lot: "B1",
            supplier: "North",
            draw: 7,
            ..Side::default()
        },
    ]);
    other
        .store
        .insert("paper.2".to_owned(), "a paper".to_owned());
    other.reload();
    other.type_into("record.scheme", "{cut}/{lot}");
    other.press("set-scheme");
    grind(&mut other, "H1", "fat-trim/B1", "07:00");
    grind(&mut other, "G1", "BOX", "07:30");
    other.press("begin");
    let file = file_of_all(&mut other);

    let mut page = page_with(ordinary(2));
    grind(&mut page, "G1", "20260309-A17-fat-trim", "08:00");
    page.press("retag 1");
    page.type_into("retag.farm", "Invented Hill");
    page.press("set-tag 1");
    let before = page.store.clone();
    page.press("record-part kept");
    page.type_into("file.record", &file);
    page.press("");
    let text = page.text();
    for said in [
        "New here: sides 1, batches of grind 1, bought-in pieces 0, weighings with a report 1. Sides that are here already: 1.",
        "another batch here has their code or the log is full: G1.",
        "was not closed or cannot be read: 1.",
    ] {
        assert!(text.contains(said), "{said}: {text}");
    }
    assert_eq!(page.store, before);

    page.press("join-record");
    assert!(!page.entries.contains_key("file.record"));
    page.says("It is added. New sides: 1.");
    assert_eq!(page.store["test.3"], other.store["test.2"]);
    assert_eq!(page.store["paper.3"], "a paper");
    for key in ["test.1", "test.2"] {
        assert_eq!(page.store[key], before[key], "{key}");
    }
    assert!(!page.store.contains_key("bench") && !page.store.contains_key("test.4"));
    let log = &page.store["grinding"];
    assert!(log.find("b H1") < log.find("b G1"), "{log}");
    assert!(!log.contains("BOX"));
    page.press("record-part sides");
    assert!(
        page.piece.contains("{received}-{lot}-{cut}"),
        "settings stay"
    );
    // Labels of the other phone lead to its sides here, too.
    page.press("trace fat-trim/B1");
    assert!(
        page.offers("trace B1") && page.offers("trace H1"),
        "{}",
        page.text()
    );
    page.press("view yields");
    page.says("Sides in them: 3.");

    // Once more changes nothing.
    let joined = page.store.clone();
    page.press("record-part kept");
    assert!(!page.text().contains("It is added"));
    page.type_into("file.record", &file);
    page.press("");
    page.says("Nothing of it is new here");
    assert!(!page.offers("join-record"));
    page.press("join-record");
    assert_eq!(page.store, joined);
}

#[test]
fn a_file_with_damaged_sides_brings_the_others() {
    let mut other = page_with(ordinary(2));
    other
        .store
        .insert("test.3".to_owned(), "cutting-test 1\nside half".to_owned());
    other.reload();
    let file = file_of_all(&mut other);
    let mut page = kept(vec![Side {
        draw: 9,
        ..Side::default()
    }]);
    page.type_into("file.record", &file);
    page.press("");
    page.says("cannot be read: 1.");
    page.press("join-record");
    assert_eq!(page.store["test.2"], other.store["test.1"]);
    assert_eq!(page.store["test.3"], other.store["test.2"]);
    assert!(!page.store.contains_key("test.4"));
}

#[test]
fn no_more_comes_in_than_a_browser_keeps() {
    let mut other = kept(ordinary(2));
    other
        .store
        .insert("paper.2".to_owned(), "x".repeat(2_000_000));
    other.reload();
    let file = file_of_all(&mut other);
    let mut page = kept(vec![Side {
        draw: 9,
        ..Side::default()
    }]);
    page.store
        .insert("paper.1".to_owned(), "x".repeat(2_000_000));
    page.reload();
    let before = page.store.clone();
    page.type_into("file.record", &file);
    page.press("join-record");
    assert_eq!(page.store, before);
    page.says("more than a browser keeps");
}
