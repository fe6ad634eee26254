//! Links that came to harm on their way, and links that are meant to do harm.

mod sealing;

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use draft::{Draft, Field};
use link::{LinkError, Scope, read, write};
use proptest::prelude::*;

use sealing::{BEGINNING, PRICES, link_of, number, pair, sealed};

/// What holds all of a side.
const ALL: &str = include_str!("golden/all.txt");

/// The bytes of a link.
fn bytes_of(link: &str) -> Vec<u8> {
    let body = link.strip_prefix(BEGINNING).expect("a link");
    URL_SAFE_NO_PAD.decode(body).expect("base64url")
}

/// The content of a link to these names and values, everything taken in.
fn content(pairs: &[(&str, &str)]) -> Vec<u8> {
    let mut content = vec![PRICES];
    content.extend(pairs.iter().flat_map(|(name, value)| pair(name, value)));
    content
}

/// What a link makes of an empty draft.
fn opened(text: &str) -> Result<Draft, LinkError> {
    let shared = read(text)?;
    Ok(shared.onto(&Draft::default()).expect("it was read"))
}

#[test]
fn the_links_made_here_are_links() {
    let bytes = bytes_of(ALL);
    // Two bytes of length before it, four of sum after it.
    assert_eq!(sealed(&bytes[2..bytes.len() - 4]), ALL);
    let draft = opened(&sealed(&content(&[("side-weight", "kg 180")]))).expect("a link");
    assert_eq!(draft.entry(&Field::Weight).text, "180");
}

#[test]
fn a_cut_off_link_says_that_it_is_incomplete() {
    for length in 1..ALL.len() {
        assert_eq!(read(&ALL[..length]), Err(LinkError::Incomplete), "{length}");
    }
}

#[test]
fn what_is_cut_off_and_sealed_anew_is_whole_or_refused() {
    let bytes = bytes_of(ALL);
    let content = &bytes[2..bytes.len() - 4];
    let mut whole = 0;
    for length in 0..content.len() {
        match read(&sealed(&content[..length])) {
            // It ends where a pair ends.
            Ok(_) => whole += 1,
            Err(why) => assert_eq!(why, LinkError::Newer, "{length}"),
        }
    }
    let pairs = usual_pairs(ALL);
    assert_eq!(
        whole, pairs,
        "once after the scope and each pair but the last"
    );
}

/// How many pairs a link holds, counted in what it is written anew from.
fn usual_pairs(text: &str) -> usize {
    let draft = opened(text).expect("a link").to_text();
    let names = draft.split('&').filter_map(|pair| pair.split('=').next());
    names.filter(|name| Scope::Prices.takes(name)).count()
}

#[test]
fn every_flipped_bit_is_noticed() {
    let bytes = bytes_of(ALL);
    for at in 0..bytes.len() {
        for bit in 0..8 {
            let mut flipped = bytes.clone();
            flipped[at] ^= 1 << bit;
            assert!(read(&link_of(&flipped)).is_err(), "bit {bit} of byte {at}");
        }
    }
}

#[test]
fn every_flipped_bit_of_its_text_is_noticed() {
    for at in 0..ALL.len() {
        for bit in 0..7 {
            let mut flipped = ALL.as_bytes().to_vec();
            flipped[at] ^= 1 << bit;
            let text = String::from_utf8(flipped).expect("seven bits");
            assert!(read(&text).is_err(), "bit {bit} of letter {at}");
        }
    }
}

#[test]
fn what_is_no_link_says_so() {
    for (text, why) in [
        ("", LinkError::NotAPlan),
        ("about", LinkError::NotAPlan),
        ("s0.AAAA", LinkError::NotAPlan),
        ("s2.AAAA", LinkError::Newer),
        ("s99999999999.AAAA", LinkError::NotAPlan),
        ("s1.<script>alert(1)</script>", LinkError::Damaged),
        ("s1.AAAAAAAA", LinkError::Damaged),
        ("s1.🥩🥩🥩", LinkError::Damaged),
    ] {
        assert_eq!(read(text), Err(why), "{text}");
    }
}

#[test]
fn text_beyond_every_plan_is_not_looked_at() {
    let megabyte = 1_000_000;
    for text in [
        format!("{BEGINNING}{}", "A".repeat(megabyte)),
        "🥩".repeat(megabyte / 4),
        sealed(&content(&[("draft.plan", &"x".repeat(megabyte))])),
    ] {
        assert_eq!(read(&text), Err(LinkError::TooLong));
    }
}

#[test]
fn a_length_beyond_what_is_there_is_refused() {
    let lengths = [
        128,
        1 << 14,
        1 << 31,
        1 << 32,
        1 << 63,
        u64::MAX - 3,
        u64::MAX,
    ];
    for length in lengths {
        let says_length = link_of(&[number(length), vec![PRICES; 8]].concat());
        let why = read(&says_length).expect_err("too little");
        assert!(matches!(why, LinkError::Incomplete | LinkError::Damaged));
        let name = [vec![PRICES, 0], number(length), vec![b'a'; 20]].concat();
        assert_eq!(read(&sealed(&name)), Err(LinkError::Newer), "{length}");
        let value = [pair("side-weight", "kg 1"), vec![0], number(length)].concat();
        let value = [vec![PRICES], value, vec![b'a'; 20]].concat();
        assert_eq!(read(&sealed(&value)), Err(LinkError::Newer), "{length}");
    }
    // Of the first word after the last one.
    for place in [u64::from(u16::MAX), u64::MAX] {
        let name = [vec![PRICES], number(place), vec![2, 1]].concat();
        assert_eq!(read(&sealed(&name)), Err(LinkError::Newer), "{place}");
    }
}

#[test]
fn a_number_longer_than_any_is_refused() {
    for count in [10, 11, 100, 10_000] {
        let endless = link_of(&vec![0xff; count]);
        assert_eq!(read(&endless), Err(LinkError::Incomplete), "{count}");
        let name = [vec![PRICES], vec![0xff; count], vec![0]].concat();
        assert_eq!(read(&sealed(&name)), Err(LinkError::Newer), "{count}");
    }
}

#[test]
fn a_value_is_one_value_whatever_stands_in_it() {
    for value in [
        "1&draft.version=2&side-price=kg 0",
        "<script>alert(1)</script>",
        "\" onload=\"alert(1)",
        "%26%3D%00%25%25%2525",
        "\0\u{1}\u{7f}\u{202e}\u{feff}",
        "\n\r\n<a\n=href javascript:alert(1)\n>",
        "1e999",
        "NaN",
        "-0",
        "99999999999999999999999999999999999999999",
        "0.00000000000000000000000000000000000000001",
        "",
    ] {
        let typed = format!("kg {value}");
        let pairs = [("side-weight", &*typed), ("draft.plan", value)];
        let draft = opened(&sealed(&content(&pairs))).expect("a link");
        assert_eq!(draft.entry(&Field::Weight).text, value);
        assert_eq!(draft.plan, value);
        assert_eq!(draft.typed_fields().count(), 1);
        let again = opened(&write(&draft, Scope::Prices));
        assert_eq!(again, Ok(draft));
    }
}

#[test]
fn what_is_put_in_many_times_counts_once() {
    let deep = "way.".repeat(500);
    let pairs = [("way.loin", "bone-in"), ("way.loin", "boneless")];
    let mut content = content(&pairs);
    content.extend(pair(&format!("way.{deep}"), &deep));
    let draft = opened(&sealed(&content)).expect("a link");
    assert_eq!(draft.ways.get("loin"), Some(&"boneless".to_owned()));
    assert_eq!(draft.ways.get(&*deep), Some(&deep));
}

#[test]
fn a_name_that_is_none_is_refused() {
    for name in [
        "",
        "side-weight&side-price",
        "side-weight=kg 1",
        "<script>",
        "draft.plans",
        "SIDE-WEIGHT",
    ] {
        let text = sealed(&content(&[(name, "kg 1")]));
        assert_eq!(read(&text), Err(LinkError::Newer), "{name}");
    }
    for name in ["draft.version", "draft.units"] {
        let text = sealed(&content(&[(name, "lb")]));
        assert_eq!(read(&text), Err(LinkError::Damaged), "{name}");
    }
}

#[test]
fn a_margin_that_cannot_be_is_refused() {
    let margin = |text: &str| pair("told.margin", text);
    let sealed = |scope: u8, pairs: &[Vec<u8>]| sealed(&[vec![scope], pairs.concat()].concat());
    assert!(read(&sealed(PRICES, &[margin("31.2")])).is_ok());
    for text in ["", "<b>", "1e9", "31.25", "much", "--1", &"9".repeat(2000)] {
        let refused = read(&sealed(PRICES, &[margin(text)]));
        assert_eq!(refused, Err(LinkError::Damaged), "{text}");
    }
    let twice = read(&sealed(PRICES, &[margin("1"), margin("2")]));
    assert_eq!(twice, Err(LinkError::Damaged));
    for scope in 1..PRICES {
        let refused = read(&sealed(scope, &[margin("1")]));
        assert_eq!(refused, Err(LinkError::Damaged), "{scope}");
    }
}

#[test]
fn no_more_comes_in_than_the_scope_says() {
    for (scope, name) in [(1, "side-price"), (2, "labour-rate"), (3, "price-t-bone")] {
        let text = |scope| sealed(&[vec![scope], pair(name, "kg 1")].concat());
        assert_eq!(read(&text(scope)), Err(LinkError::Damaged), "{name}");
        assert!(read(&text(scope + 1)).is_ok(), "{name}");
    }
    for scope in [0, 5, 255] {
        assert_eq!(read(&sealed(&[scope])), Err(LinkError::Newer), "{scope}");
    }
}

proptest! {
    #[test]
    fn a_changed_letter_is_noticed(at in 3..ALL.len(), letter in "[A-Za-z0-9_-]") {
        prop_assume!(ALL[at..=at] != letter);
        let changed = format!("{}{letter}{}", &ALL[..at], &ALL[at + 1..]);
        prop_assert!(read(&changed).is_err());
    }

    #[test]
    fn no_text_panics(text in "(s1\\.)?[A-Za-z0-9_-]{0,200}\\PC{0,5}") {
        let _ = read(&text);
    }

    #[test]
    fn no_bytes_panic(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        let _ = read(&String::from_utf8_lossy(&bytes));
        let _ = read(&link_of(&bytes));
    }

    /// Right sums over any bytes: the reader itself has to hold.
    #[test]
    fn no_content_panics(content in prop::collection::vec(any::<u8>(), 0..600)) {
        let _ = read(&sealed(&content));
    }

    /// What is nearly right gets further than what is not.
    #[test]
    fn no_changed_content_panics(changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6)) {
        let mut bytes = bytes_of(ALL);
        bytes.truncate(bytes.len() - 4);
        let mut content = bytes.split_off(2);
        for (at, byte) in changes {
            let at = at.index(content.len());
            content[at] = byte;
        }
        if let Ok(draft) = opened(&sealed(&content)) {
            prop_assert_eq!(opened(&write(&draft, Scope::Prices)), Ok(draft));
        }
    }
}
