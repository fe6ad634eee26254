//! The weigh-in at the block: the plan's cuts in order of cutting, a field for
//! each, what was weighed so far, what is not accounted for, and the time.

use advice::Question;
use advice::steps::Steps;
use carcass::{Kind, What};
use notation::mass_with_unit;
use quantity::{Decimal, Mass, MassUnit};
use scale::{PlannedLine, planned_lines};
use wording::{say, text};

use crate::bench::{Bench, NoBench};
use crate::block_time;
use crate::controls::{
    Field, Takes, button, button_named, button_surely, choice, field, fold, heading, note, trouble,
};
use crate::ledger::Ledger;
use crate::tag_form::{self, TAG};
use crate::visit::{Done, Outcome, Refusal, Visit};
use crate::waiting::{self, clear_block};
use crate::weighing_lines::{TARE, UNIT, add, one_line, shown_units, unit};
use crate::{closing, printing};

/// Does what is asked of the weigh-in.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    if verb == "begin" {
        return Some(begin(ledger, visit));
    }
    if ![
        "add", "undo", "back", "start", "stop", "spend", "untime", "abandon",
    ]
    .contains(&verb)
    {
        return None;
    }
    let own = ledger.catalogues().own;
    let Ok(mut bench) = Bench::of(&ledger.kept, own) else {
        // Another tab has closed it, or what is kept cannot be read: the view says so.
        if verb == "abandon" {
            clear_block(&mut ledger.kept, visit);
        }
        return Some(Ok(Done::Shown));
    };
    let way = |id: &str| own.way_id(id);
    let number = about.parse::<usize>().ok();
    let done = match verb {
        "add" => add(own, &mut bench, visit, about),
        "undo" => {
            bench.weigh_in.take_back();
            Ok(())
        }
        "back" => {
            if let Some(place) = number {
                bench.weigh_in.take_back_at(place);
            }
            Ok(())
        }
        "start" | "stop" => way(about).map_or(Ok(()), |way| {
            let done = if verb == "start" {
                bench.weigh_in.start(way, visit.now)
            } else {
                bench.weigh_in.stop(way, visit.now)
            };
            done.map_err(Refusal::new)
        }),
        "spend" => block_time::spend(own, &mut bench, visit, about),
        "untime" => {
            if let Some(place) = number {
                bench.weigh_in.forget_time(place);
            }
            Ok(())
        }
        _ => {
            clear_block(&mut ledger.kept, visit);
            return Some(Ok(Done::Shown));
        }
    };
    let own = ledger.catalogues().own.clone();
    bench.keep(&mut ledger.kept, &own);
    Some(done.map(|()| Done::Shown))
}

fn begin(ledger: &mut Ledger, visit: &Visit) -> Result<Done, Refusal> {
    let Some(draft) = visit.draft.clone() else {
        return Err(Refusal::new(nothing_to_weigh()));
    };
    let own = ledger.catalogues().own.clone();
    if Bench::of(&ledger.kept, &own).err() == Some(NoBench::Empty) {
        let bench = Bench::begin(draft, visit.now);
        bench.question(&own, visit.units).map_err(Refusal::new)?;
        bench.keep(&mut ledger.kept, &own);
    }
    Ok(Done::Shown)
}

fn nothing_to_weigh() -> &'static str {
    text!("Type the side's weight and price first, or open a saved plan.")
}

/// The view.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    match Bench::of(&ledger.kept, ledger.catalogues().own) {
        Ok(bench) => match bench.question(ledger.catalogues().own, visit.units) {
            Ok(question) => at_the_block(ledger, visit, &bench, &question, steps),
            Err(why) => {
                trouble(steps, "p", &why);
                give_up(visit, steps);
            }
        },
        Err(NoBench::Empty) => to_begin(ledger, visit, steps),
        Err(NoBench::Damaged) => {
            let why = text!(
                "What was kept of the side at the block cannot be read. It stays where it is until you give this weigh-in up; a file of everything, in the place Record, has it too."
            );
            trouble(steps, "p", why);
            give_up(visit, steps);
        }
    }
    waiting::written(ledger, visit, steps);
}

fn to_begin(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    note(
        steps,
        text!(
            "Weigh what a side gives, cut by cut. Held against its plan, it tells where the money went, and from then on your own yields count in every answer."
        ),
    );
    let question = visit
        .draft
        .as_ref()
        .map(|draft| crate::bench::question(draft, ledger.catalogues().own, visit.units));
    match question {
        Some(Ok(question)) => {
            heading(steps, text!("The side on the screen"));
            let weight = mass_with_unit(chilled(&question), visit.units);
            let catalogue = question.case.catalogue;
            let lines = planned_lines(catalogue, &question.sheet.breakdown);
            let weighed = lines
                .iter()
                .filter(|line| catalogue[line.product].kind != Kind::Loss);
            let parts = weighed.count();
            steps.holding(
                "p",
                &[("class", "finding")],
                &say!(
                    "{weight} on the block, {parts} cuts and by-products by its plan.",
                    weight,
                    parts
                ),
            );
            button(steps, "offer", "begin", text!("Begin the weigh-in"));
            note(
                steps,
                text!(
                    "The plan is taken as it stands now: you may go on to the next side in the other places meanwhile."
                ),
            );
        }
        _ => note(steps, nothing_to_weigh()),
    }
}

/// What lies on the block.
fn chilled(question: &Question) -> Mass {
    let nodes = question.sheet.breakdown.nodes();
    nodes.first().map(|side| side.weight).unwrap_or_default()
}

fn at_the_block(
    ledger: &Ledger,
    visit: &Visit,
    bench: &Bench,
    question: &Question,
    steps: &mut Steps,
) {
    if bench.was_cut_off {
        note(
            steps,
            text!("The last weighing was not kept whole: look whether it is there."),
        );
    } else {
        steps.nothing();
    }
    fold(steps, "tag", text!("Tag of the side"), |steps| {
        tag_form::written(visit, TAG, steps);
    });
    match tag_form::too_warm(visit) {
        Some(why) => trouble(steps, "p", &why),
        None => steps.nothing(),
    }
    cautions(question, steps);
    steps.element("div", &[("class", "pair")], |steps| {
        let units = [MassUnit::Kilogram, MassUnit::Pound]
            .map(|unit| (unit.symbol(), unit.symbol().to_owned()));
        // The one in force without a choice comes first.
        let units = if visit.units.mass() == MassUnit::Pound {
            let [kilogram, pound] = units;
            [pound, kilogram]
        } else {
            units
        };
        choice(steps, visit, (UNIT, text!("The scale shows"), ""), &units);
        field(
            steps,
            visit,
            &Field {
                name: TARE,
                label: text!("Tray (tare)"),
                takes: Takes::Number(unit(visit).symbol()),
                usual: "",
                note: "",
            },
        );
    });
    let lines = planned_lines(question.case.catalogue, &question.sheet.breakdown);
    let is_loss = |line: &&PlannedLine| question.case.catalogue[line.product].kind == Kind::Loss;
    steps.element("ul", &[("class", "weighed")], |steps| {
        for line in lines.iter().filter(|line| !is_loss(line)) {
            one_line(visit, bench, question, line, steps);
        }
    });
    fold(
        steps,
        "losses",
        text!("Losses: saw dust, drip, what is thrown away"),
        |steps| {
            note(
                steps,
                text!("Weigh them if you can. What is missing in the end counts as loss."),
            );
            steps.element("ul", &[("class", "weighed")], |steps| {
                for line in lines.iter().filter(is_loss) {
                    one_line(visit, bench, question, line, steps);
                }
            });
        },
    );
    block_time::written(visit, bench, question, steps);
    printing::written(steps);
    balance(visit, bench, question, steps);
    steps.element("section", &[("key", "closing")], |steps| {
        closing::written(ledger, visit, bench, question, steps);
    });
    waiting::button_to_put_by(steps);
    give_up(visit, steps);
}

fn give_up(visit: &Visit, steps: &mut Steps) {
    button_surely(
        steps,
        visit,
        "abandon",
        [
            text!("Give this weigh-in up"),
            text!("All weighings of this side are dropped. This cannot be undone."),
            text!("Keep it"),
        ],
    );
}

/// What is not yet accounted for, as it shrinks.
fn balance(visit: &Visit, bench: &Bench, question: &Question, steps: &mut Steps) {
    let units = shown_units(visit);
    let side = chilled(question);
    let weighed = bench.weigh_in.total();
    let left = bench.weigh_in.unaccounted(side);
    let (words, class) = if left < Mass::ZERO {
        (text!("Weighed too much"), "balance is-over")
    } else {
        (text!("Not yet accounted for"), "balance")
    };
    steps.element("div", &[("class", class), ("role", "status")], |steps| {
        steps.element("p", &[], |steps| {
            steps.text(words);
            steps.text(" ");
            let left = Mass::from_kg(left.kg().abs());
            steps.holding("strong", &[], &mass_with_unit(left, units));
        });
        let done = weighed.ratio_to(side).unwrap_or_default().percent();
        let done = done.clamp(Decimal::ZERO, Decimal::ONE_HUNDRED).round();
        let marks = [
            ("viewBox", "0 0 100 4"),
            ("preserveAspectRatio", "none"),
            ("aria-hidden", "true"),
        ];
        steps.element("svg", &marks, |steps| {
            let done = done.to_string();
            let marks = [
                ("x", "0"),
                ("y", "0"),
                ("height", "4"),
                ("width", done.as_str()),
            ];
            steps.empty("rect", &marks);
        });
        let (weighed, side) = (mass_with_unit(weighed, units), mass_with_unit(side, units));
        steps.holding(
            "small",
            &[],
            &say!("{weighed} of {side} weighed", weighed, side),
        );
        if bench.weigh_in.weighings().is_empty() {
            steps.nothing();
        } else {
            let name = text!("Take the last weighing back");
            button_named(steps, "quiet", "undo", "↶", name);
        }
    });
}

fn cautions(question: &Question, steps: &mut Steps) {
    let catalogue = question.case.catalogue;
    let mut told: Vec<&str> = Vec::new();
    fold(steps, "cautions", text!("Cautions"), |steps| {
        for node in question.sheet.breakdown.nodes() {
            let What::Part { way, .. } = node.what else {
                continue;
            };
            let is_older = question.case.deal.age.counts_as_older();
            for caution in catalogue.cautions_of(way) {
                if (is_older || !caution.is_prominent) && !told.contains(&caution.id.as_str()) {
                    told.push(&caution.id);
                    steps.element("p", &[("class", "note")], |steps| {
                        steps.holding("strong", &[], &format!("{}. ", caution.title));
                        steps.text(&caution.text);
                    });
                }
            }
        }
    });
}
