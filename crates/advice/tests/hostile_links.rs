//! Links that say what no person would, looked at as the app looks at them.

use advice::wire;
use carcass::Catalogue;
use draft::{Draft, Field};
use link::{Scope, read, write};

/// Numbers beyond every side of beef, and what is no number.
const ABSURD: [&str; 12] = [
    "0",
    "-1",
    "−0",
    "1e999",
    "NaN",
    "99999999999999999999999999999999999999999",
    "79228162514264337593543950335",
    "0.0000000000000000000000000001",
    "999999999",
    "1,234,567.89",
    "💶",
    "",
];

/// Text that would be more than text where it is not kept to be one.
const SCRIPTS: [&str; 4] = [
    "<script>alert(1)</script>",
    "\n<a\n=href javascript:alert(1)\n>\n",
    "\r\n<img\r\n=onerror alert(1)\r\n>",
    "\" onload=\"alert(1)",
];

fn typed(weight: &str, price: &str) -> Draft {
    let mut draft = Draft::default();
    draft.type_into(Field::Weight, weight.to_owned());
    draft.type_into(Field::Price, price.to_owned());
    draft
}

/// The answer about a link to all of a draft.
fn answer(catalogue: &Catalogue, draft: &Draft) -> String {
    let request = wire::opened_request(&Draft::default().to_text(), &write(draft, Scope::Prices));
    wire::opened(catalogue, &request).expect("a request")
}

/// Whether an answer is a piece of a page with one offer: to open the link.
fn offers_to_open(answer: &str) -> bool {
    let mut depth = 0_i32;
    let mut offers = 0;
    for step in answer.lines().skip(1) {
        let (sign, rest) = step.split_at_checked(1).expect("a step");
        match sign {
            "<" => {
                assert!(wire::ELEMENTS.contains(&rest), "{step}");
                depth += 1;
            }
            ">" => depth -= 1,
            "=" => {
                let (name, _) = rest.split_once(' ').expect("an attribute");
                assert!(wire::ATTRIBUTES.contains(&name), "{step}");
                offers += i32::from(name == wire::WRITES);
            }
            "\"" | "." => {}
            _ => panic!("no step: {step}"),
        }
        assert!(depth >= 0, "{step}");
    }
    assert_eq!(depth, 0);
    offers == 1
}

#[test]
fn absurd_numbers_are_looked_at_and_offered_as_they_are() {
    let catalogue = Catalogue::published().expect("published data");
    for id in Field::singles() {
        for absurd in ABSURD {
            let mut draft = typed("182.5", "8.95");
            draft.type_into(Field::of_id(id).expect("a field"), absurd.to_owned());
            let answer = answer(&catalogue, &draft);
            assert!(offers_to_open(&answer), "{id}: {absurd}");
            let again = read(&write(&draft, Scope::Prices)).expect("a link");
            assert_eq!(again.onto(&Draft::default()), Some(draft));
        }
    }
}

#[test]
fn what_would_be_more_than_text_stays_text() {
    let catalogue = Catalogue::published().expect("published data");
    for script in SCRIPTS {
        let mut named = typed("182.5", "8.95");
        script.clone_into(&mut named.plan);
        let mut wayward = typed("182.5", "8.95");
        wayward.ways.insert(script.to_owned(), script.to_owned());
        let mut second = typed("182.5", "8.95");
        second
            .second_ways
            .insert("loin".to_owned(), script.to_owned());
        let mut board = typed("182.5", "8.95");
        board.type_into(Field::Board(script.to_owned()), script.to_owned());
        for draft in [named, wayward, second, board, typed(script, script)] {
            assert!(offers_to_open(&answer(&catalogue, &draft)), "{script}");
        }
    }
}

#[test]
fn text_beyond_every_plan_is_refused() {
    let catalogue = Catalogue::published().expect("published data");
    let megabyte = "A".repeat(1_000_000);
    for text in [format!("s1.{megabyte}"), megabyte] {
        let request = wire::opened_request(&Draft::default().to_text(), &text);
        let answer = wire::opened(&catalogue, &request).expect("a request");
        assert!(!offers_to_open(&answer));
        assert!(answer.len() < 1_000);
    }
}
