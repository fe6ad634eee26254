//! The record: lot codes, files, storage.

use ledger::wire;
use proptest::prelude::*;

use crate::page::Page;
use crate::sides::{Side, ordinary, page_with};

fn record(sides: Vec<Side>, part: &str) -> Page {
    let mut page = page_with(sides);
    page.press(&format!("record-part {part}"));
    page
}

fn file(page: &Page) -> String {
    page.file.clone().expect("a file")
}

#[test]
fn sides_have_their_lot_codes_by_the_scheme() {
    let mut page = record(ordinary(1), "sides");
    assert!(page.text().contains("Supplier: Invented Farm"));
    assert!(page.text().contains("Age of the animal: Not known"));
    page.press("codes 1");
    assert!(
        page.offers("trace 20260309-A17-fat-trim"),
        "{}",
        page.text()
    );
    page.type_into("record.scheme", "{lot}/{item}");
    page.press("");
    page.says("A17/112A");
    assert!(page.text().contains("{cut} tells them apart"));
    page.type_into("record.scheme", "{cut}/{lot}");
    page.press("set-scheme");
    assert!(!page.entries.contains_key("record.scheme"));
    page.reload();
    assert!(page.offers("trace fat-trim/A17"));
    for (typed, why) in [
        ("{cut}", "needs {lot}"),
        ("{lot", "brace stands alone"),
        ("{lot}{moon}", "“{moon}” is not known"),
        ("{lot} x", "no blanks"),
    ] {
        page.type_into("record.scheme", typed);
        page.press("set-scheme");
        assert!(page.text().contains(why), "{typed}: {}", page.text());
        assert!(page.piece.contains("aria-invalid true"));
    }
}

/// One kilogram of a lot ground into the batch that is proposed.
fn grind(page: &mut Page, lot: &str) {
    page.press("record-part grinding");
    page.type_into("grind.lot", lot);
    page.type_into("grind.weight", "1");
    page.press("grind");
}

#[test]
fn labels_by_an_earlier_scheme_still_lead_back() {
    let mut page = record(ordinary(1), "grinding");
    grind(&mut page, "20260309-A17-fat-trim");
    page.press("record-part sides");
    for scheme in ["{cut}/{lot}", "{lot}-{cut}"] {
        page.type_into("record.scheme", scheme);
        page.press("set-scheme");
    }
    page.reload();
    let text = page.text();
    assert!(
        text.contains("Earlier schemes: {cut}/{lot} · {received}-{lot}-{cut}"),
        "{text}"
    );
    for label in ["20260309-a17-fat-trim", "fat-trim/A17", "A17-fat-trim"] {
        page.press(&format!("trace {label}"));
        let text = page.text();
        assert!(!text.contains("Nothing but its code"), "{label}: {text}");
        assert!(text.contains("of the side A17."), "{label}: {text}");
        assert!(page.offers("trace A17") && page.offers("trace 20260921-G1"));
        // The code that is in force is shown beside an earlier one.
        let is_earlier = text.contains("This is its code by an earlier scheme");
        assert_eq!(is_earlier, label != "A17-fat-trim", "{label}");
        assert!(!is_earlier || page.offers("trace A17-fat-trim"), "{label}");
    }
    // What was ground under an earlier code is gone from the lot.
    grind(&mut page, "A17-fat-trim");
    let twice = page.store["grinding"].clone();
    page.type_into("grind.lot", "fat-trim/A17");
    page.type_into("grind.weight", "900");
    page.press("grind");
    assert_eq!(page.store["grinding"], twice);
    page.says("of it are left");
}

#[test]
fn a_tag_is_put_right_after_the_closing() {
    let mut page = record(ordinary(2), "sides");
    page.press("retag 1");
    assert_eq!(page.entries["retag.supplier"], "Invented Farm");
    assert_eq!(page.entries["retag.received"], "2026-03-09");
    page.type_into("retag.supplier", "Another Invented Farm");
    page.type_into("retag.celsius", "90");
    page.press("set-tag 1");
    page.says("between −40 and 60");
    page.type_into("retag.celsius", "-1,5");
    page.type_into("retag.age", "under");
    page.type_into("retag.claim.0", "grass-fed");
    page.press("set-tag 1");
    assert!(!page.entries.keys().any(|name| name.starts_with("retag.")));
    page.reload();
    let text = page.text();
    for line in [
        "Supplier: Another Invented Farm",
        "Age of the animal: Under 30 months",
        "Temperature at receipt: −1.5 °C",
        "grass-fed: no document",
        "Supplier: Invented Farm",
    ] {
        assert!(text.contains(line), "{line}: {text}");
    }
    // What stands there is shown again, and put away unchanged.
    let kept = page.store.clone();
    page.press("retag 1");
    assert_eq!(page.entries["retag.celsius"], "-1.5");
    page.press("set-tag 1");
    assert_eq!(page.store, kept);
    page.press("retag 1");
    page.type_into("retag.lot", "X");
    page.press("retag ");
    assert_eq!(page.store, kept);
}

#[test]
fn a_tag_that_a_batch_leads_to_keeps_what_its_codes_are_made_of() {
    let mut page = record(ordinary(1), "grinding");
    page.type_into("grind.lot", "20260309-a17-FAT-trim");
    page.type_into("grind.weight", "1");
    page.press("grind-add");
    page.type_into("grind.product", "ground-lean");
    page.press("grind");
    page.press("record-part sides");
    page.press("retag 1");
    page.type_into("retag.lot", "A18");
    page.press("set-tag 1");
    page.says("The batch 20260921-G1 names");
    page.type_into("retag.lot", "A17");
    page.type_into("retag.farm", "Invented Hill");
    page.press("set-tag 1");
    page.says("Farm: Invented Hill");
    page.press("trace 20260309-A17-fat-trim");
    assert!(page.offers("trace 20260921-G1"), "{}", page.text());

    // The batch names a code of the scheme that was in force then.
    page.type_into("record.scheme", "{lot}/{cut}");
    page.press("set-scheme");
    page.press("record-part sides");
    page.press("retag 1");
    page.type_into("retag.received", "2026-03-10");
    page.press("set-tag 1");
    page.says("The batch 20260921-G1 names");
}

#[test]
fn sides_and_log_are_handed_out_as_tables() {
    let mut page = record(ordinary(2), "kept");
    page.press("file-sides");
    let lines: Vec<String> = file(&page).lines().map(str::to_owned).collect();
    assert_eq!(lines[..3], ["file", "sides.csv", "text/csv"]);
    assert_eq!(lines.len(), 3 + 1 + 2);
    assert!(lines[4].starts_with("A17,Invented Farm,"));
    page.press("file-lots");
    let lots = file(&page);
    assert!(lots.starts_with("file\nlots.csv\ntext/csv\nlot,"), "{lots}");
    assert!(lots.contains("\n20260309-A17-fat-trim,fat-trim,"), "{lots}");
    page.press("file-log");
    assert!(file(&page).starts_with("file\ngrinding-log.csv\ntext/csv\nbatch,"));
}

#[test]
fn everything_goes_out_and_comes_in_on_another_device() {
    let mut page = record(ordinary(3), "kept");
    page.press("begin");
    page.press("file-all");
    let file = file(&page);
    let content = file
        .strip_prefix("file\nsideworth-scale.json\napplication/json\n")
        .expect("the file of the records");

    let mut other = record(Vec::new(), "kept");
    other.type_into("file.record", content);
    other.press("sure? take-record");
    assert!(!other.store.contains_key("test.1"), "asked first");
    other.press("take-record");
    assert_eq!(other.store, page.store);
    assert!(!other.entries.contains_key("file.record"));
    other.reload();
    other.press("view yields");
    assert!(other.text().contains("Sides in them: 3."));

    // A file that was chosen in another place comes in just so.
    let mut fourth = record(ordinary(1), "kept");
    fourth.ask(&wire::take_file(content));
    assert_eq!(fourth.store, page.store);
    assert_eq!(fourth.piece, "");

    // What is there is replaced, not mixed. A form that is open there would write
    // the tag of its side on another record's.
    let mut third = record(ordinary(5), "sides");
    third.press("retag 1");
    third.type_into("file.record", content);
    third.press("take-record");
    assert_eq!(third.store, page.store);
    assert!(!third.entries.keys().any(|name| name.starts_with("retag.")));
    assert!(third.text().contains("The records of the scale as a file"));
}

#[test]
fn a_file_that_was_cut_off_changes_nothing() {
    let mut page = record(ordinary(2), "kept");
    page.press("file-all");
    let whole = file(&page);
    let content = whole.splitn(4, '\n').nth(3).expect("JSON").trim_end();
    let before = page.store.clone();
    for cut in [0, 5, content.len() / 2, content.len() - 1] {
        page.type_into("file.record", &content[..cut]);
        page.press("take-record");
        assert!(page.text().contains("Nothing has been changed."), "{cut}");
        assert_eq!(page.store, before, "{cut}");
    }
    page.type_into(
        "file.record",
        &content.replacen("\"version\": 2", "\"version\": 3", 1),
    );
    page.press("take-record");
    assert_eq!(page.store, before);
}

#[test]
fn everything_is_deleted_after_asking() {
    let mut page = record(ordinary(3), "kept");
    page.type_into("record.scheme", "{lot}/{cut}");
    page.press("set-scheme");
    grind(&mut page, "BOX");
    page.press("begin");
    page.press("put-by");
    page.press("begin");
    for key in [
        "paper.1",
        "bought.1",
        "aside.grinding",
        "test.x",
        "of-a-newer-version",
    ] {
        page.store.insert(key.to_owned(), "x".to_owned());
    }
    page.reload();
    let keys = |of: &str| page.store.keys().filter(|key| key.starts_with(of)).count();
    for key in [
        "settings",
        "grinding",
        "waiting.",
        "bench",
        "yields",
        "yields-learnt",
    ] {
        assert!(keys(key) > 0, "{key}");
    }
    page.press("record-part kept");
    page.press("sure? delete-all");
    assert!(page.store.contains_key("test.3"), "asked first");
    page.type_into("tag.supplier", "Invented Farm");
    page.press("delete-all");
    assert!(page.store.is_empty(), "{:?}", page.store.keys());
    assert!(!page.entries.contains_key("tag.supplier"));
    assert!(page.text().contains("0.00 MB of about 3.30 MB"));
}

#[test]
fn what_cannot_be_read_is_listed_and_stays() {
    let mut page = record(ordinary(1), "kept");
    let damaged = "cutting-test 1\nside half";
    page.store.insert("test.2".to_owned(), damaged.to_owned());
    page.store
        .insert("grinding".to_owned(), "nothing of the kind".to_owned());
    page.reload();
    let text = page.text();
    assert!(text.contains("What cannot be read"), "{text}");
    assert!(text.contains("Cutting test 2") && text.contains("Grinding log"));
    assert_eq!(page.store["test.2"], damaged);
    assert_eq!(page.store["aside.grinding"], "nothing of the kind");
    page.press("file-all");
    assert!(file(&page).contains("nothing of the kind"));
}

#[test]
fn a_log_that_breaks_off_keeps_its_batches_and_says_so() {
    let mut page = record(ordinary(1), "grinding");
    for code in ["G1", "G2"] {
        page.type_into("grind.lot", "BOX-1");
        page.type_into("grind.weight", "1");
        page.type_into("grind.code", code);
        page.press("grind");
    }
    let whole = page.store["grinding"].clone();
    let cut = &whole[..whole.find("b G2").expect("a batch") + 9];
    page.store.insert("grinding".to_owned(), cut.to_owned());
    page.reload();
    assert!(page.offers("trace G1") && !page.offers("trace G2"));
    assert_eq!(page.store["aside.grinding"], cut);
    assert!(page.store["grinding"].contains("b G1"));
    page.press("record-part kept");
    assert!(page.text().contains("What cannot be read"));
}

#[test]
fn cautions_for_older_cattle_stand_beside_a_side_of_unknown_age() {
    let page = record(ordinary(1), "sides");
    assert!(page.text().contains("specified risk material"));
    assert!(
        !record(Vec::new(), "sides")
            .text()
            .contains("specified risk")
    );
}

#[test]
fn the_list_goes_on() {
    let mut page = record(ordinary(14), "sides");
    let listed = |page: &Page| page.piece.matches("=data-writes codes ").count();
    assert_eq!(listed(&page), 12);
    page.press("more-sides 24");
    assert_eq!(listed(&page), 14);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn nothing_that_is_typed_or_pressed_panics(
        typed in "\\PC{0,20}",
        form in "\\{\"sideworth\":\"saved plans\",\"version\":2,\"plans\":\\[\\],\"scale\":\\{(\"[a-z.]{0,9}\":\"[a-z0-9%=&]{0,9}\")?\\}\\}",
        verb in "(record-part|set-scheme|more-sides|codes|take-record|join-record|archive-before|delete-before|trace|grind|grind-add|grind-drop|ungrind|new-log|more-batches)",
        about in "(kept|grinding|trace|[0-9]{0,20}|\\PC{0,8})",
    ) {
        let mut page = record(ordinary(1), "kept");
        for name in ["record.scheme", "at.record.before", "record.listed", "record.codes", "grind.lots", "grind.code", "grind.lot", "grind.weight", "grind.day", "grind.time", "grind.cleaned-day", "grind.product", "at.grind.side", "trace.lot", "trace.shown"] {
            page.type_into(name, &typed);
        }
        page.type_into("file.record", &form);
        for part in ["sides", "grinding", "trace", "kept"] {
            page.press(&format!("record-part {part}"));
        }
        page.press("set-scheme");
        page.press(&format!("{verb} {about}"));
        page.press("grind-add");
        page.press("grind");
        prop_assert!(!page.piece.is_empty());
    }
}

#[test]
fn sides_and_grinding_log_go_on_paper() {
    let mut page = page_with(ordinary(2));
    page.press("print-sides");
    let paper = page.file.take().expect("a paper");
    assert!(paper.starts_with("print\n"), "{paper}");
    assert_eq!(
        paper.matches("Invented Farm").count(),
        4,
        "title and tag of two"
    );
    page.press("print-log");
    let paper = page.file.take().expect("a paper");
    assert!(paper.contains("Grinding log"), "{paper}");
}

#[test]
fn a_trace_goes_on_paper_with_the_tags_behind_it() {
    let mut page = record(ordinary(1), "grinding");
    grind(&mut page, "20260309-A17-fat-trim");
    page.press("trace 20260921-G1");
    assert!(page.offers("print-trace 20260921-G1"));
    let printed = |page: &mut Page, code: &str| {
        page.press(&format!("print-trace {code}"));
        page.file.take().expect("a paper")
    };
    let batch = printed(&mut page, "20260921-G1");
    for said in [
        "print\n",
        "Lot 20260921-G1",
        "2026-09-21 07:45",
        "20260309-A17-fat-trim",
        "1.00 kg · Fat trim of the side A17. · Supplier: Invented Farm · Day of receipt: 2026-03-09",
        "Nothing after it is recorded here",
    ] {
        assert!(batch.contains(said), "{said}: {batch}");
    }
    let cut = printed(&mut page, "20260309-a17-fat-trim");
    assert!(cut.contains("A side. · Supplier: Invented Farm"), "{cut}");
    assert!(
        cut.contains("1.00 kg · ") && cut.contains("20260921-G1"),
        "{cut}"
    );
    let side = printed(&mut page, "A17");
    assert!(
        side.contains("20260309-A17-suet") && !side.contains("A17-drip"),
        "{side}"
    );
    assert!(printed(&mut page, "A99").contains("No lot here is called A99."));
}

#[test]
fn price_cards_of_a_closed_side_have_its_lot_codes() {
    let mut page = Page::new();
    page.press("begin");
    page.type_into("w.suet -", "1");
    page.press("add suet -");
    page.type_into("tag.lot", "C-5");
    page.type_into("tag.claim.0", "grass-fed");
    page.press("accept");
    assert!(page.store.contains_key("paper.1"), "{}", page.text());
    page.press("record-part sides");
    assert!(page.offers("print-side 1"));
    page.press("print-side 1");
    let cards = page.file.take().expect("a paper");
    for said in ["print\n", "Price cards", "20260921-C-5-", "grass-fed"] {
        assert!(cards.contains(said), "{said}: {cards}");
    }
    // No plan, no cards.
    page.store.remove("paper.1");
    page.reload();
    assert!(page.offers("codes 1") && !page.offers("print-side 1"));
    page.press("print-side 1");
    assert!(page.file.is_none());
}

#[test]
fn a_side_without_a_number_leads_to_its_tag() {
    let mut page = record(
        vec![Side {
            lot: "",
            ..Side::default()
        }],
        "sides",
    );
    page.says("Without a number no lot code");
    assert!(page.text().contains("Give it its number") && page.offers("retag 1"));
    page.press("retag 1");
    page.type_into("retag.lot", "A17");
    page.press("set-tag 1");
    assert!(!page.text().contains("Without a number"), "{}", page.text());
    assert!(page.offers("trace A17"));
}

#[test]
fn more_than_a_browser_keeps_is_not_offered() {
    let records = |bytes: usize| {
        let text = "x".repeat(bytes);
        std::collections::BTreeMap::from([("test.1".to_owned(), text)])
    };
    assert!(ledger::would_take(&records(1_000)).contains(ledger::TAKE_IN));
    let refused = ledger::would_take(&records(3_400_000));
    assert!(!refused.contains(ledger::TAKE_IN));
    assert!(refused.contains("more than a browser keeps"));
}
