//! Links as they are handed on: whole, as much as was chosen, short.

use carcass::Catalogue;
use draft::{Draft, Field};
use link::{LinkError, Scope, read, write, write_telling};
use proptest::prelude::*;

/// Two links of version 1 as they stand: they must always be read. The fuzzer
/// starts from them.
const GOLDEN_PLAN: &str = include_str!("golden/plan.txt");
const GOLDEN_ALL: &str = include_str!("golden/all.txt");
/// The same with the margin that was seen.
const GOLDEN_TELLING: &str = include_str!("golden/telling.txt");

/// An invented side, as a butcher would type it.
fn usual() -> Draft {
    let catalogue = Catalogue::published().expect("published data");
    let mut draft = Draft::default();
    let mut set = |field, text: &str| draft.type_into(field, text.to_owned());
    set(Field::Weight, "183,5");
    set(Field::Price, "8.95");
    set(Field::LabourMinutes, "2.5 h");
    set(Field::LabourRate, "27");
    set(Field::TargetMargin, "28");
    set(Field::Endings, "49 99");
    for (_, product) in catalogue.products().take(25) {
        set(Field::Board(product.id.clone()), "23.49");
    }
    draft.grass_percent = 80;
    "bone-in".clone_into(&mut draft.plan);
    draft
        .ways
        .insert("kidney-fat".to_owned(), "kidney-fat-tallow".to_owned());
    draft
}

/// Every field that there is, typed in, for 70 cuts.
fn fullest() -> Draft {
    let catalogue = Catalogue::published().expect("published data");
    let mut draft = usual();
    for id in Field::singles() {
        let field = Field::of_id(id).expect("a field");
        draft.type_into(field, "123.45".to_owned());
    }
    for (_, product) in catalogue.products().take(70) {
        draft.type_into(Field::Board(product.id.clone()), "23.49".to_owned());
    }
    let root = catalogue.root();
    for (_, part) in catalogue.parts().filter(|(id, _)| *id != root) {
        let way = part.ways.last().map(|way| catalogue[*way].id.clone());
        if let Some(way) = way {
            draft.ways.insert(part.id.clone(), way);
        }
    }
    draft
}

#[test]
fn a_whole_draft_comes_back() {
    for draft in [Draft::default(), usual(), fullest()] {
        let shared = read(&write(&draft, Scope::Prices)).expect("a link");
        assert_eq!(shared.onto(&Draft::default()), Some(draft));
    }
}

#[test]
fn the_currency_goes_with_the_amounts() {
    let mut mine = usual();
    mine.currency = "CAD".parse().ok();
    let mut theirs = Draft::default();
    theirs.currency = "EUR".parse().ok();
    for scope in Scope::ALL {
        let shared = read(&write(&mine, scope)).expect("a link");
        let opened = shared.onto(&theirs).expect("of this version");
        // A plan has no amounts: whoever opens it keeps the currency of theirs.
        let of = if scope == Scope::Plan { &theirs } else { &mine };
        assert_eq!(opened.currency, of.currency, "{scope:?}");
    }
    theirs.currency = None;
    let shared = read(&write(&theirs, Scope::Prices)).expect("a link");
    let opened = shared.onto(&mine).expect("of this version");
    assert_eq!(opened.currency, mine.currency, "none was told");
}

#[test]
fn links_are_short() {
    let (usual, fullest) = (
        write(&usual(), Scope::Prices).len(),
        write(&fullest(), Scope::Prices).len(),
    );
    println!("usual {usual}, fullest {fullest}");
    assert!(usual < 600 - 80, "{usual}, and the address before it");
    assert!(fullest < 2000 - 80, "{fullest}");
}

#[test]
fn only_what_is_chosen_goes_in() {
    let mine = usual();
    let theirs = {
        let mut draft = Draft::default();
        draft.type_into(Field::Weight, "1".to_owned());
        draft.type_into(Field::LabourRate, "2".to_owned());
        draft.type_into(Field::Board("ground-beef".to_owned()), "3".to_owned());
        draft
    };
    let received = |scope| {
        let text = write(&mine, scope);
        let draft = read(&text).expect("a link").onto(&theirs).expect("a draft");
        let text = |field| draft.entry(&field).text;
        (
            draft.plan.clone(),
            text(Field::Weight),
            text(Field::LabourRate),
            text(Field::Board("ground-beef".to_owned())),
        )
    };
    let expected = |weight: &str, rate: &str, price: &str| {
        (
            "bone-in".to_owned(),
            weight.to_owned(),
            rate.to_owned(),
            price.to_owned(),
        )
    };
    assert_eq!(received(Scope::Plan), expected("1", "2", "3"));
    assert_eq!(received(Scope::Deal), expected("183,5", "2", "3"));
    assert_eq!(received(Scope::Costs), expected("183,5", "27", "3"));
    assert_eq!(received(Scope::Prices), expected("183,5", "27", "23.49"));
}

#[test]
fn the_margin_that_was_seen_comes_along_and_is_no_part_of_the_plan() {
    for margin in ["31.2", "-4.5", "0", "-123456789.9"] {
        let text = write_telling(&usual(), Scope::Prices, Some(margin));
        let shared = read(&text).expect("a link");
        assert_eq!(shared.margin.as_deref(), Some(margin));
        assert_eq!(shared.onto(&Draft::default()), Some(usual()));
    }
    assert_eq!(
        write_telling(&usual(), Scope::Prices, Some("31.2")),
        GOLDEN_TELLING
    );
    for none in ["", "-", "much", "1.23", "1234567890"] {
        let text = write_telling(&usual(), Scope::Prices, Some(none));
        assert_eq!(text, GOLDEN_ALL, "{none}");
    }
}

#[test]
fn links_of_the_first_version_are_read_for_good() {
    assert_eq!(write(&usual(), Scope::Plan), GOLDEN_PLAN);
    assert_eq!(write(&usual(), Scope::Prices), GOLDEN_ALL);
    let all = read(GOLDEN_ALL).expect("a link");
    assert_eq!(all.onto(&Draft::default()), Some(usual()));
    assert_eq!(read(GOLDEN_PLAN).expect("a link").scope, Scope::Plan);
}

#[test]
fn every_refusal_is_a_sentence() {
    for error in [
        LinkError::TooLong,
        LinkError::NotAPlan,
        LinkError::Newer,
        LinkError::Incomplete,
        LinkError::Damaged,
    ] {
        assert!(error.to_string().ends_with('.'));
    }
}

proptest! {
    #[test]
    fn typed_text_of_any_kind_comes_back(texts in prop::collection::vec("\\PC{0,12}", 1..8)) {
        let mut draft = Draft::default();
        for (id, text) in Field::singles().zip(texts) {
            let field = Field::of_id(id).expect("a field");
            draft.type_into(field, text);
        }
        let shared = read(&write(&draft, Scope::Prices)).expect("a link");
        prop_assert_eq!(shared.onto(&Draft::default()), Some(draft));
    }
}
