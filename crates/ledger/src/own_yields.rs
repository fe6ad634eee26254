//! The shop's own yields: what they rest on, how much published figures count
//! beside them, and the way back to these.

use advice::steps::Steps;
use advice::{Block, Tone, blocks};
use carcass::{Catalogue, Output, PartId, StockEnd, WayId};
use notation::in_field;
use quantity::{Decimal, Share, typed};
use scale::{Learning, OddLevel, Prior, TestedSide};
use wording::{say, text};

use crate::controls::{
    Field, Takes, button, button_surely, field, fold, form, heading, note, unfolded_by,
};
use crate::ledger::Ledger;
use crate::own_spread;
use crate::tests_kept::title;
use crate::view::{GO, View};
use crate::visit::{Done, Outcome, Refusal, Visit};

/// The entry of how many sides the published yields count for.
const YIELDS: &str = "yields.prior";

/// The entry of the part whose yields are shown: those of all would be more than a
/// phone puts together at once.
const OPEN: &str = "open.part";

/// The entry of how many sides the published spread counts for.
const SPREAD: &str = "yields.spread";

/// Does what is asked about own yields.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    let mut settings = ledger.settings.clone();
    match verb {
        "set-prior" => {
            let prior = match prior(visit, settings.prior) {
                Ok(prior) => prior,
                Err(refusal) => return Some(Err(refusal)),
            };
            settings.prior = prior;
            visit.entries.clear_under("yields.");
        }
        "as-published" => {
            if ledger.catalogues().published.way_id(about).is_some() {
                settings.as_published.insert(about.to_owned());
            }
        }
        "use-own" => {
            settings.as_published.remove(about);
        }
        "all-published" => {
            let ways = ledger.catalogues().published.ways();
            settings.as_published = ways.map(|(_, way)| way.id.clone()).collect();
        }
        "open-part" => {
            if visit.entries.text(OPEN) == about {
                visit.entries.clear(OPEN);
            } else {
                visit.entries.set(OPEN, about);
            }
            return Some(Ok(Done::Shown));
        }
        "all-own" => settings.as_published.clear(),
        "spread-published" => settings.is_spread_published = true,
        "spread-own" => settings.is_spread_published = false,
        _ => return None,
    }
    ledger.set(settings);
    Some(Ok(Done::Shown))
}

/// How much published figures count for, as it is typed.
fn prior(visit: &Visit, now: Prior) -> Result<Prior, Refusal> {
    let sides = |name: &str, now: Decimal, [least, most]: [Decimal; 2]| {
        let text = visit.entries.text(name);
        if text.is_empty() {
            return Ok(now);
        }
        let sides = typed::number(text).map_err(|error| Refusal::at(name, error))?;
        if (least..=most).contains(&sides) {
            Ok(sides)
        } else {
            let why = say!(
                "Type a number of sides from {least} to {most}.",
                in_field(least, 1),
                in_field(most, 0)
            );
            Err(Refusal::at(name, why))
        }
    };
    Ok(Prior::new(
        sides(YIELDS, now.yields(), Prior::YIELDS)?,
        sides(SPREAD, now.spread(), Prior::SPREAD)?,
    ))
}

/// The view.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    if ledger.tests().is_empty() {
        note(
            steps,
            text!(
                "Every figure rests on published yields so far. Weigh what a side gives and close it: from then on your own yields count too."
            ),
        );
        let weigh_in = format!("{GO}{}", View::WeighIn.id());
        button(steps, "offer", &weigh_in, text!("Weigh-in"));
        return;
    }
    let tested = ledger.tested();
    let learning = ledger.learning(&tested);
    rests_on(&learning, steps);
    strength(visit, learning.prior(), steps);
    odd(ledger, &learning, &tested, steps);
    left_out(ledger, steps);
    if learning.learnt().next().is_some() {
        heading(steps, text!("Yields of every part"));
        everywhere(ledger, visit, steps);
        parts(ledger, visit, &learning, steps);
        own_spread::written(ledger, &learning, &tested, steps);
    }
    formula(steps);
}

/// How it works and what it rests on.
fn rests_on(learning: &Learning, steps: &mut Steps) {
    let said = say!(
        "Plans reckon with the published yields and your own together: the published ones count like {strength} sides, each side of yours like one at its end of the stock, and in part at each end where it lies between grain-fed and grass-fed. Closed tests that count: {tests}. Sides in them: {sides}.",
        in_field(learning.prior().yields(), 3),
        learning.tests(),
        in_field(learning.sides(), 1)
    );
    steps.raw(&blocks(&[Block::Text(Tone::Finding, said)]));
}

/// The form of how much published figures count for.
fn strength(visit: &Visit, prior: Prior, steps: &mut Steps) {
    fold(
        steps,
        "strength",
        text!("How much published figures count for"),
        |steps| {
            form(steps, "settings", "set-prior", text!("Set"), |steps| {
                for (name, label, about, sides) in [
                    (
                        YIELDS,
                        text!("Published yields count like"),
                        text!(
                            "Sides of your own. An estimate: no published figure says how far one shop lies from the published yields. More of them hold longer to what is published."
                        ),
                        prior.yields(),
                    ),
                    (
                        SPREAD,
                        text!("Published spread counts like"),
                        text!(
                            "Sides of your own. An estimate too: the spread was measured on many animals, but on others."
                        ),
                        prior.spread(),
                    ),
                ] {
                    let about = Field {
                        name,
                        label,
                        takes: Takes::Number(text!("sides|how many")),
                        usual: &in_field(sides, 3),
                        note: about,
                    };
                    field(steps, visit, &about);
                }
            });
        },
    );
}

/// What a way gives, by its name.
fn name_of(catalogue: &Catalogue, output: Output) -> &str {
    match output {
        Output::Part(part) => &catalogue[part].name,
        Output::Product(product) => &catalogue[product].name,
    }
}

/// Tests that do not fit the others.
fn odd(ledger: &Ledger, learning: &Learning, tested: &[TestedSide], steps: &mut Steps) {
    let counted = ledger.tests().iter().filter(|(_, test)| !test.is_left_out);
    let all: Vec<_> = counted
        .zip(learning.odd(OddLevel::default(), tested))
        .filter(|(_, odd)| !odd.is_empty())
        .collect();
    if all.is_empty() {
        return;
    }
    heading(steps, text!("Tests that do not fit the others"));
    note(
        steps,
        text!(
            "They count like all others until you leave them out: you know whether the scale slipped or the side was such a one."
        ),
    );
    let catalogue = ledger.catalogues().published;
    steps.element("ul", &[("class", "tests")], |steps| {
        for ((number, test), odd) in all {
            steps.element("li", &[("class", "test"), ("key", &number.to_string())], |steps| {
                steps.holding("strong", &[], &title(test));
                for share in odd {
                    let within = |share: Share| notation::share(share.clamp(Share::ZERO, Share::WHOLE));
                    let said = say!(
                        "{cut} off the {part}: {seen}, where {low} to {high} was to be expected.",
                        name_of(catalogue, share.output),
                        catalogue[catalogue[share.way].part].name,
                        notation::share(share.seen),
                        within(share.expected - share.half_width),
                        within(share.expected + share.half_width)
                    );
                    steps.holding("p", &[], &said);
                }
                let leave_out = format!("leave-out {number}");
                button(steps, "quiet", &leave_out, text!("Leave out of own yields"));
            });
        }
    });
}

/// Tests that the shop does not want to learn from.
fn left_out(ledger: &Ledger, steps: &mut Steps) {
    let left_out: Vec<_> = ledger
        .tests()
        .iter()
        .filter(|(_, test)| test.is_left_out)
        .collect();
    if left_out.is_empty() {
        return;
    }
    let count = left_out.len();
    fold(
        steps,
        "left-out",
        &say!("Tests left out: {count}", count),
        |steps| {
            steps.element("ul", &[("class", "tests")], |steps| {
                for (number, test) in left_out {
                    let key = number.to_string();
                    let marks = [("class", "test is-left-out"), ("key", key.as_str())];
                    steps.element("li", &marks, |steps| {
                        steps.holding("strong", &[], &title(test));
                        let again = format!("leave-out {number}");
                        button(steps, "quiet", &again, text!("Learn from it again"));
                    });
                }
            });
        },
    );
}

/// The way back for all parts at once.
fn everywhere(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    button_surely(
        steps,
        visit,
        "all-published",
        [
            text!("Back to published yields everywhere"),
            text!(
                "Every plan reckons with published yields again. Your tests stay; the spread has a switch of its own."
            ),
            text!("Keep our own"),
        ],
    );
    if !ledger.settings.as_published.is_empty() {
        let own = text!("Use our own yields everywhere");
        button(steps, "quiet", "all-own", own);
    }
}

/// Every part that some test says something about, each behind a fold.
fn parts(ledger: &Ledger, visit: &Visit, learning: &Learning, steps: &mut Steps) {
    let catalogue = ledger.catalogues().published;
    let mut learnt: Vec<(PartId, WayId, StockEnd)> = learning
        .learnt()
        .map(|(way, end)| (catalogue[way].part, way, end))
        .collect();
    learnt.sort_by_key(|(part, way, end)| (catalogue[*part].order, *part, *way, *end));
    for of_part in learnt.chunk_by(|one, next| one.0 == next.0) {
        let Some((part, ..)) = of_part.first() else {
            continue;
        };
        let part = &catalogue[*part];
        let is_open = visit.entries.text(OPEN) == part.id;
        unfolded_by(
            steps,
            is_open,
            &format!("open-part {}", part.id),
            &part.name,
        );
        if is_open {
            for of_way in of_part.chunk_by(|one, next| one.1 == next.1) {
                one_way(ledger, learning, of_way, steps);
            }
        } else {
            steps.nothing();
        }
    }
}

/// A way at the ends of the stock that some test says something about.
fn one_way(
    ledger: &Ledger,
    learning: &Learning,
    of_way: &[(PartId, WayId, StockEnd)],
    steps: &mut Steps,
) {
    let catalogue = ledger.catalogues().published;
    let Some((_, way, _)) = of_way.first() else {
        return;
    };
    let id = &catalogue[*way].id;
    let is_published = ledger.settings.as_published.contains(id);
    for (_, way, end) in of_way {
        let table = yields(catalogue, learning, (*way, *end), is_published);
        steps.raw(&blocks(&[table]));
    }
    if is_published {
        note(
            steps,
            text!("Put back: plans reckon with the published yields."),
        );
        let own = text!("Use our own yields");
        button(steps, "quiet", &format!("use-own {id}"), own);
    } else {
        let back = text!("Back to the published yields");
        button(steps, "quiet", &format!("as-published {id}"), back);
    }
}

/// What is known of a way at an end of the stock, as a table.
fn yields(
    catalogue: &Catalogue,
    learning: &Learning,
    (way, end): (WayId, StockEnd),
    is_published: bool,
) -> Block {
    let known = learning.way(way, end);
    let stock = match end {
        StockEnd::Grain => text!("grain-fed"),
        StockEnd::Grass => text!("grass-fed"),
    };
    let caption = say!(
        "{way}, {stock}. Sides: {sides}",
        catalogue[way].name,
        stock,
        in_field(known.sides, 1)
    );
    let heads = [
        text!("Comes off"),
        text!("Published|a yield"),
        text!("Own|a yield"),
        text!("Used|a yield"),
        text!("90 % interval"),
        text!("Spread of sides"),
    ];
    let rows = known
        .outputs
        .iter()
        .map(|output| {
            let used = if is_published {
                output.published
            } else {
                output.used
            };
            let (low, high) = (output.interval.low, output.interval.high);
            vec![
                name_of(catalogue, output.output).to_owned(),
                notation::share(output.published),
                output.own.map_or_else(|| "–".to_owned(), notation::share),
                notation::share(used),
                say!(
                    "{low} to {high}",
                    notation::share(low),
                    notation::share(high)
                ),
                format!("± {}", notation::share(output.deviation)),
            ]
        })
        .collect();
    Block::Table(caption, heads.map(str::to_owned).to_vec(), rows)
}

/// How it is worked out, and after whom.
fn formula(steps: &mut Steps) {
    fold(
        steps,
        "formula",
        text!("How it is worked out, and after whom"),
        |steps| {
            for text in [
                text!(
                    "used yield = (strength × published share + your shares, summed over your sides) ÷ (strength + number of your sides), and so each output of a part together: they sum to the whole."
                ),
                text!(
                    "It is worked out at each end of the stock, from how far your sides lay from the published yields of their own stock; a side between grain-fed and grass-fed counts at both, by how near it lies."
                ),
                text!(
                    "Ten sides half grain-fed and half grass-fed thus count as five at each end: with a strength of 3, the used yield between the ends is (3 × published + 5 × own) ÷ 8, not (3 × published + 10 × own) ÷ 13."
                ),
                text!(
                    "90 % interval = used yield ± t × √(S ÷ (ν × κ)), with κ the strength of the yields and your sides, ν the strength of the spread and your sides, t Student's with ν degrees of freedom, and S the squares of the published spread and of your own sides together. Your long-run yield lies in it with a chance of nine in ten, as far as the model holds. Spread of sides = √(S ÷ ν)."
                ),
                text!(
                    "A test does not fit where one of its shares lies so far from what all other tests let expect that about one ordinary test in five hundred would, were every share normal; in simulated sides it was about two in a hundred."
                ),
                text!(
                    "Normal model with unknown mean and spread: Gelman et al., Bayesian Data Analysis, 3rd ed., 3.3, 3.4 and 3.6 (from memory). Published spread: Judge et al. 2019; Koch et al. Both strengths are estimates."
                ),
            ] {
                note(steps, text);
            }
        },
    );
}
