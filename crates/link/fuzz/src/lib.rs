//! What must hold whenever a link is opened, whatever it says.

use std::sync::LazyLock;

use advice::wire;
use carcass::Catalogue;
use draft::reading::{self, each};
use draft::{Draft, Field};
use link::Scope;

/// The longest answer, in bytes: a draft is at most a quarter of this.
const LONGEST_ANSWER: usize = 1024 * 1024;

/// The longest refusal: a sentence that repeats little of what it refuses.
const LONGEST_REFUSAL: usize = 1024;

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
    let (offers, sentences) = taken_apart(&answer);
    let Ok(shared) = link::read(text) else {
        assert!(offers.is_empty());
        assert_eq!(sentences, 1, "a refusal and nothing else: {answer}");
        return;
    };
    let merged = shared.onto(&MINE).expect("it was read");
    if offers.is_empty() {
        assert_eq!(sentences, 1, "a refusal and nothing else: {answer}");
        assert!(answer.len() < LONGEST_REFUSAL, "{answer}");
        return;
    }
    assert_eq!(offers, [merged.to_text()]);
    let mut taken = MINE.clone();
    taken.take_over(&merged.to_text());
    assert_eq!(taken, merged);
    // What is offered is a plan that can be read, whatever is of use in it; only weight
    // and price may be missing.
    let mut whole = merged.clone();
    for field in [Field::Weight, Field::Price] {
        if whole.entry(&field).text.trim().is_empty() {
            whole.type_into(field.clone(), MINE.entry(&field).text);
        }
    }
    let document = reading::read(&whole, &CATALOGUE).expect("a plan");
    document.resolve(&CATALOGUE).expect("of this catalogue");
    assert!(each::faults(&whole, &CATALOGUE).is_empty());
    hand_on(&merged, shared.scope);
}

/// What was opened is handed on: there is a link, and whoever gets it is offered it.
fn hand_on(merged: &Draft, scope: Scope) {
    let scope = Scope::ALL
        .iter()
        .position(|it| *it == scope)
        .expect("a scope");
    let request = wire::share_request(&merged.to_text(), 1, scope, "");
    let answer = wire::share(&CATALOGUE, &request).expect("a request");
    let (_, rest) = answer.split_once('\n').expect("lines");
    let (_, link, _) = wire::shared(rest).expect("a link");
    let text = link.strip_prefix('#').expect("a link");
    let request = wire::opened_request(&MINE.to_text(), text);
    let answer = wire::opened(&CATALOGUE, &request).expect("a request");
    let offered = merged.fit_to_hand_on(&CATALOGUE).to_text();
    assert_eq!(taken_apart(&answer).0, [offered]);
}

/// What the offers of an answer write, and how many texts it has that are read out.
///
/// # Panics
/// Where the answer is no piece of a page.
fn taken_apart(answer: &str) -> (Vec<String>, usize) {
    let mut lines = answer.lines();
    assert_eq!(lines.next(), Some(wire::OPENED));
    let mut depth = 0_usize;
    let mut offers = Vec::new();
    let mut texts = 0;
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
            // The sign of trouble is for the eye alone.
            "\"" => texts += usize::from(rest != "✕ "),
            "." => {}
            _ => panic!("no step: {line}"),
        }
    }
    assert_eq!(depth, 0, "left open");
    (offers, texts)
}
