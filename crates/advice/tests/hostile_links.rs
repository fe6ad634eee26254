//! Links that say what no person would, looked at as the app looks at them: a clear
//! refusal and nothing else. What the app makes itself is never refused.

use std::sync::LazyLock;

use advice::wire;
use carcass::Catalogue;
use draft::{Basis, Draft, Field, reading};
use link::{Scope, read, write};
use proptest::prelude::*;

/// Read once for all.
static CATALOGUE: LazyLock<Catalogue> =
    LazyLock::new(|| Catalogue::published().expect("published data"));

/// What stands before the reason.
const REFUSED: &str = "Nothing of this link is opened. ";

/// What no field takes: no number, or none that is in reach.
const ABSURD: [&str; 11] = [
    "-1",
    "1e999",
    "NaN",
    "99999999999999999999999999999999999999999",
    "79228162514264337593543950335",
    "0.0000000000000000000000000001",
    "1,234,567.89",
    "💶",
    "\u{202e}12",
    "12\u{0}",
    "                                                                                 12",
];

/// What some fields take and others do not.
const DOUBTFUL: [&str; 6] = ["0", "−0", "12.5", "999999999", "100", "2026-02-28"];

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

fn sound() -> Draft {
    typed("182.5", "8.95")
}

/// What a link is looked at beside: nothing in it has to do with the link.
fn mine() -> Draft {
    let mut draft = typed("heavy", "dear");
    draft.type_into(Field::LabourRate, "much".to_owned());
    draft
}

/// The answer about what stands behind the `#`.
fn looked_at(text: &str) -> String {
    let request = wire::opened_request(&mine().to_text(), text);
    wire::opened(&CATALOGUE, &request).expect("a request")
}

/// The answer about a link to all of a draft.
fn answer(draft: &Draft) -> String {
    looked_at(&write(draft, Scope::Prices))
}

/// Texts and offers of a piece of the page.
fn taken_apart(answer: &str) -> (Vec<&str>, usize) {
    let mut depth = 0_i32;
    let (mut texts, mut offers) = (Vec::new(), 0);
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
                offers += usize::from(name == wire::WRITES);
            }
            // The sign of trouble is for the eye alone.
            "\"" if rest == "✕ " => {}
            "\"" => texts.push(rest),
            "." => {}
            _ => panic!("no step: {step}"),
        }
        assert!(depth >= 0, "{step}");
    }
    assert_eq!(depth, 0);
    (texts, offers)
}

fn offers_to_open(answer: &str) -> bool {
    let (texts, offers) = taken_apart(answer);
    assert!(offers <= 1);
    // Either there is an offer, or one sentence and nothing else.
    assert!(offers == 1 || texts.len() == 1, "{answer}");
    offers == 1
}

/// Why a link is refused.
fn why(answer: &str) -> &str {
    assert!(!offers_to_open(answer), "{answer}");
    let (texts, _) = taken_apart(answer);
    texts[0].strip_prefix(REFUSED).expect(answer)
}

/// The link that the app makes, or why it makes none.
fn made(draft: &Draft, scope: usize) -> Result<String, String> {
    let request = wire::share_request(&draft.to_text(), 7, scope, "https://shop.example/");
    let answer = wire::share(&CATALOGUE, &request).expect("a request");
    let rest = answer.split_once('\n').expect("lines").1;
    let (number, link, piece) = wire::shared(rest).expect("a number, a link, a piece");
    assert_eq!(number, 7);
    match link.split_once('#') {
        Some((_, text)) => Ok(text.to_owned()),
        None => Err(taken_apart(&format!("\n{piece}")).0[0].to_owned()),
    }
}

#[test]
fn what_no_field_takes_is_refused_at_its_field() {
    let prefixes = [
        ("price-", "ribeye-steak"),
        ("unsold-", "ribeye-steak"),
        ("marked-down-", "ribeye-steak"),
        ("pin-", "ribeye-steak"),
        ("floor-", "ribeye-steak"),
        ("cap-", "ribeye-steak"),
        ("minutes-", "kidney-fat-tallow"),
        ("split-", "rib"),
        ("ageing-days-", "rib"),
        ("ageing-loss-", "rib"),
        ("rendering-yield-", "kidney-fat"),
        ("grind-", "lean"),
    ];
    assert_eq!(prefixes.len(), Field::prefixes().count());
    let of_each = prefixes.map(|(prefix, id)| format!("{prefix}{id}"));
    for id in Field::singles().map(str::to_owned).chain(of_each) {
        for absurd in ABSURD {
            let mut draft = sound();
            draft.type_into(Field::of_id(&id).expect("a field"), absurd.to_owned());
            let answer = answer(&draft);
            assert!(why(&answer).contains(": "), "{id}: {absurd}: {answer}");
            assert!(answer.len() < 600, "{answer}");
        }
    }
}

#[test]
fn a_refusal_names_the_field_and_what_is_wrong() {
    let steak = || "ribeye-steak".to_owned();
    for (field, text, said) in [
        (
            Field::Weight,
            "NaN",
            "Side weight: “NaN” is not a number: type digits with at most one point or comma, such as 12.5.",
        ),
        (
            Field::Weight,
            "0",
            "Side weight: A side of no weight cannot be priced: type a weight above 0, such as 180.",
        ),
        (
            Field::TargetMargin,
            "100",
            "Target margin: “100” is 100 % or more, which leaves nothing to pay for the side: type a number below 100, such as 28.",
        ),
        // Of no use while a cold side is weighed.
        (
            Field::Shrink,
            "some",
            "Cooler shrink: “some” is not a number: type digits with at most one point or comma, such as 12.5.",
        ),
        (
            Field::Board(steak()),
            "-3",
            "Ribeye steaks, Board price: “-3” is below zero: type zero or more.",
        ),
        (
            Field::Pin(steak()),
            "2\u{7}",
            "Ribeye steaks, Hold its suggested price: What stands there is too long, or holds signs that nobody types into this field.",
        ),
    ] {
        let mut draft = sound();
        draft.type_into(field, text.to_owned());
        assert_eq!(why(&answer(&draft)), said);
    }
}

#[test]
fn what_is_offered_can_be_read_and_priced() {
    let mut offered = 0;
    for id in Field::singles() {
        for doubtful in DOUBTFUL {
            let mut draft = sound();
            draft.type_into(Field::of_id(id).expect("a field"), doubtful.to_owned());
            let mut live = draft.clone();
            live.basis = Basis::Live;
            live.counts_packs = true;
            live.type_into(Field::Grind("regular".to_owned()), "0".to_owned());
            let is_sound = [&draft, &live]
                .iter()
                .all(|draft| reading::read(draft, &CATALOGUE).is_ok());
            let is_offered = offers_to_open(&answer(&draft));
            let has_a_day = matches!(id, "board-date" | "board-days");
            assert!(is_offered == is_sound || has_a_day, "{id}: {doubtful}");
            offered += usize::from(is_offered);
        }
    }
    assert!(offered > Field::singles().count(), "{offered}");
}

#[test]
fn what_nobody_here_knows_is_refused() {
    let other_way = ("rib".to_owned(), "kidney-fat-tallow".to_owned());
    for name in SCRIPTS.into_iter().chain(["no-such-thing", ""]) {
        let change = |change: &dyn Fn(&mut Draft, String)| {
            let mut draft = sound();
            change(&mut draft, name.to_owned());
            draft
        };
        for (kind, draft) in [
            ("Cut plan", change(&|draft, name| draft.plan = name)),
            (
                "Part",
                change(&|draft, name| drop(draft.ways.insert(name.clone(), name))),
            ),
            (
                "Way of cutting",
                change(&|draft, name| drop(draft.ways.insert("rib".to_owned(), name))),
            ),
            (
                "Way of cutting",
                change(&|draft, name| drop(draft.second_ways.insert("rib".to_owned(), name))),
            ),
            (
                "Way of cutting",
                change(&|draft, _| {
                    drop(draft.ways.insert(other_way.0.clone(), other_way.1.clone()));
                }),
            ),
            (
                "Cut",
                change(&|draft, name| draft.type_into(Field::Board(name), "12".to_owned())),
            ),
            (
                "Cut",
                change(&|draft, name| draft.type_into(Field::Cap(name), "12".to_owned())),
            ),
            (
                "Cut",
                change(&|draft, name| draft.type_into(Field::Grind(name), "12".to_owned())),
            ),
            (
                "Way of cutting",
                change(&|draft, name| draft.type_into(Field::WayMinutes(name), "12".to_owned())),
            ),
            (
                "Part",
                change(&|draft, name| draft.type_into(Field::AgeingDays(name), "12".to_owned())),
            ),
        ] {
            let answer = answer(&draft);
            let why = why(&answer);
            assert!(why.starts_with(kind), "{name}: {answer}");
            assert!(why.contains("A newer one may"), "{answer}");
        }
        if !name.is_empty() {
            assert!(!offers_to_open(&answer(&typed(name, name))));
        }
    }
}

#[test]
fn what_cannot_be_priced_is_refused_with_the_reason() {
    let mut split = sound();
    let root = &CATALOGUE[CATALOGUE.root()];
    let way = CATALOGUE[root.ways[0]].id.clone();
    split.second_ways.insert(root.id.clone(), way);
    assert!(why(&answer(&split)).contains("the whole side is never split"));
    let mut free = sound();
    for (_, product) in CATALOGUE.products() {
        free.type_into(Field::Board(product.id.clone()), "0".to_owned());
    }
    assert!(why(&answer(&free)).contains("enter a price on the board"));
}

#[test]
fn a_side_without_weight_or_price_is_opened() {
    for draft in [
        Draft::default(),
        typed("", ""),
        typed("180", ""),
        typed("", "8"),
    ] {
        for scope in Scope::ALL {
            assert!(offers_to_open(&looked_at(&write(&draft, scope))));
        }
    }
}

#[test]
fn links_made_long_ago_are_opened() {
    for golden in [
        include_str!("../../link/tests/golden/plan.txt"),
        include_str!("../../link/tests/golden/all.txt"),
        include_str!("../../link/tests/golden/telling.txt"),
    ] {
        assert!(offers_to_open(&looked_at(golden)), "{golden}");
    }
}

#[test]
fn text_beyond_every_plan_is_refused() {
    let megabyte = "A".repeat(1_000_000);
    for text in [format!("s1.{megabyte}"), megabyte] {
        let answer = looked_at(&text);
        assert!(!offers_to_open(&answer));
        assert!(answer.len() < 1_000);
    }
}

#[test]
fn no_link_is_made_of_what_cannot_be_read() {
    let mut draft = sound();
    draft.type_into(Field::LabourRate, "dear".to_owned());
    for (scope, which) in Scope::ALL.into_iter().enumerate() {
        let made = made(&draft, scope);
        if which < Scope::Costs {
            assert!(made.is_ok(), "{made:?}");
        } else {
            let why = made.expect_err("no link");
            assert!(
                why.starts_with("No link can be made of this yet. Labour rate: “dear” is not"),
                "{why}"
            );
        }
    }
}

#[test]
fn what_is_of_no_use_now_and_cannot_be_read_stays_at_home() {
    let mut draft = sound();
    draft.type_into(Field::Shrink, "some".to_owned());
    draft.type_into(Field::BoardDays, "soon".to_owned());
    let text = made(&draft, 3).expect("a link");
    assert!(offers_to_open(&looked_at(&text)));
    let opened = read(&text).expect("a link").onto(&Draft::default());
    assert_eq!(opened, Some(sound()));
}

/// What is typed into a field, rightly or not.
fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        6 => (0_u32..100).prop_map(|number| number.to_string()),
        3 => (0_u32..20, 0_u32..100).prop_map(|(whole, part)| format!("{whole},{part:02}")),
        1 => prop::sample::select(vec!["2026-02-28", "12 kg", "3 h", "49 99", "", " 7\t", "1\t234"])
            .prop_map(str::to_owned),
        1 => prop::sample::select(ABSURD.to_vec()).prop_map(str::to_owned),
        1 => "\\PC{0,6}",
    ]
}

/// A field of any kind, of what there is or, now and then, of what there is not.
fn any_field() -> impl Strategy<Value = Field> {
    let ids = vec![
        "ribeye-steak",
        "ground-beef",
        "rib",
        "chuck",
        "kidney-fat",
        "kidney-fat-tallow",
        "lean",
    ];
    let singles: Vec<_> = Field::singles().collect();
    let prefixes: Vec<_> = Field::prefixes().collect();
    let of_each = (prop::sample::select(prefixes), prop::sample::select(ids))
        .prop_map(|(prefix, id)| format!("{prefix}{id}"));
    prop_oneof![
        prop::sample::select(singles).prop_map(str::to_owned),
        of_each
    ]
    .prop_map(|id| Field::of_id(&id).expect("a field"))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn every_link_that_the_app_makes_is_opened(
        entries in prop::collection::vec((any_field(), any_text()), 0..6),
        has_weight: bool,
        basis in prop::sample::select(vec![Basis::Cold, Basis::Hot, Basis::Live]),
        counts_packs: bool,
        way in prop::sample::select(vec![None, Some("kidney-fat-raw"), Some("kidney-fat-tallow"), Some("no-way")]),
        scope in 0_usize..4,
    ) {
            let mut draft = if has_weight { sound() } else { Draft::default() };
        for (field, text) in entries {
            draft.type_into(field, text);
        }
        draft.basis = basis;
        draft.counts_packs = counts_packs;
        if let Some(way) = way {
            draft.ways.insert("kidney-fat".to_owned(), way.to_owned());
        }
        match made(&draft, scope) {
            Ok(text) => prop_assert!(offers_to_open(&looked_at(&text)), "{}", text),
            Err(why) => prop_assert!(why.starts_with("No link can be made of this yet. "), "{}", why),
        }
        // What is fine as it stands is always handed on.
        if has_weight && reading::read(&draft, &CATALOGUE).is_ok_and(|it| it.resolve(&CATALOGUE).is_ok()) {
            prop_assert!(made(&draft, scope).is_ok(), "{:?}", made(&draft, scope));
        }
    }
}
