//! What must hold whenever a link is opened, whatever it says.

use std::sync::LazyLock;

use advice::wire;
use carcass::Catalogue;
use draft::{Draft, Field};
use link::{LinkError, Scope};

/// The longest answer, in bytes: a draft is at most a quarter of this.
const LONGEST_ANSWER: usize = 1024 * 1024;

/// Read once for all runs.
static CATALOGUE: LazyLock<Catalogue> =
    LazyLock::new(|| Catalogue::published().expect("published data"));

/// What a link is opened onto: a side with weight and price, so that a link to a
/// plan alone is priced too.
static MINE: LazyLock<Draft> = LazyLock::new(|| {
    let mut draft = Draft::default();
    draft.type_into(Field::Weight, "182.5".to_owned());
    draft.type_into(Field::Price, "8.95".to_owned());
    draft
});

/// Does all that opening a link does.
///
/// # Panics
/// Where something does not hold.
pub fn open(text: &str) {
    let request = wire::opened_request(&MINE.to_text(), text);
    let answer = wire::opened(&CATALOGUE, &request).expect("a request");
    assert!(answer.len() <= LONGEST_ANSWER, "{} bytes", answer.len());
    let offers = offers(&answer);
    let opened = link::read(text).map(|shared| (shared.scope, shared.onto(&MINE)));
    match opened {
        Ok((scope, Some(merged))) => {
            assert_eq!(offers, [merged.to_text()]);
            let mut taken = MINE.clone();
            taken.take_over(&merged.to_text());
            assert_eq!(taken, merged);
            hand_on(&merged, scope);
        }
        Ok((_, None)) | Err(_) => assert!(offers.is_empty()),
    }
}

/// What was opened is handed on: whoever gets it reads the same.
fn hand_on(merged: &Draft, scope: Scope) {
    match link::read(&link::write(merged, scope)) {
        Ok(again) => assert_eq!(again.onto(&MINE).as_ref(), Some(merged)),
        Err(why) => assert_eq!(why, LinkError::TooLong),
    }
}

/// What the offers of an answer write.
///
/// # Panics
/// Where the answer is no piece of a page.
fn offers(answer: &str) -> Vec<String> {
    let mut lines = answer.lines();
    assert_eq!(lines.next(), Some(wire::OPENED));
    let mut depth = 0_usize;
    let mut offers = Vec::new();
    for line in lines {
        let (sign, rest) = line.split_at_checked(1).expect("a step");
        match sign {
            "<" => {
                assert!(wire::ELEMENTS.contains(&rest), "{line}");
                depth += 1;
            }
            ">" => depth = depth.checked_sub(1).expect("what was opened"),
            "=" => {
                let (name, value) = rest.split_once(' ').expect("an attribute");
                assert!(depth > 0 && wire::ATTRIBUTES.contains(&name), "{line}");
                if name == wire::WRITES {
                    offers.push(value.to_owned());
                }
            }
            "\"" | "." => {}
            _ => panic!("no step: {line}"),
        }
    }
    assert_eq!(depth, 0, "left open");
    offers
}
