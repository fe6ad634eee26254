//! The end of a weigh-in: what is missing, what may be behind it, and the
//! buttons that put it right, close the side or accept the rest.

use advice::Question;
use advice::steps::Steps;
use carcass::Catalogue;
use notation::{Units, mass_with_unit, percent};
use quantity::{Mass, MassUnit, Share, typed};
use scale::{
    Cause, ClosedTest, Closing, KeptMoney, NotClosed, Outcome as Came, Planned, Unexplained,
    UnitSlip,
};
use wording::{say, text};

use crate::bench::Bench;
use crate::block_time;
use crate::controls::{Field, Takes, button, field_with, heading, note, trouble};
use crate::ledger::Ledger;
use crate::paper::{Paper, held, settle};
use crate::report::SHOWN;
use crate::tag_form::{self, TAG};
use crate::view::{VIEW, View};
use crate::visit::{Done, Outcome, Refusal, Visit};
use crate::waiting::clear_block;
use crate::weighing_lines::{WEIGHED, line_text, reading_said, shown_units};

/// Where it is said why a side was not closed.
const CLOSE: &str = "close";

/// The entry of how far off the balance may be, in percent.
const TOLERANCE: &str = "at.close.tolerance";

/// So many of the cuts that were not weighed are named.
const NAMED: usize = 8;

/// Does what is asked about the closing.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    match verb {
        "close" => Some(close(ledger, visit, Unexplained::Refused)),
        "accept" => Some(close(ledger, visit, Unexplained::Accepted)),
        "reread" => {
            reread(ledger, about);
            Some(Ok(Done::Shown))
        }
        _ => None,
    }
}

/// How far off the balance may be: as typed, or as it was the last time.
fn tolerance(ledger: &Ledger, visit: &Visit) -> Result<Share, Refusal> {
    match visit.entries.text(TOLERANCE) {
        "" => Ok(ledger.settings.tolerance),
        text => match typed::percent(text) {
            Ok(share) if share.is_part_of_whole() => Ok(share),
            Ok(_) => Err(Refusal::at(
                TOLERANCE,
                text!("A balance can be off by 0 to 100 % of the side."),
            )),
            Err(error) => Err(Refusal::at(TOLERANCE, error)),
        },
    }
}

/// Takes weighings as if the scale had shown another unit: “place or -”, the
/// unit, and the line of which all are meant where no place is told.
fn reread(ledger: &mut Ledger, about: &str) {
    let own = ledger.catalogues().own.clone();
    let Ok(mut bench) = Bench::of(&ledger.kept, &own) else {
        return;
    };
    let mut words = about.splitn(3, ' ');
    let (Some(place), Some(unit)) = (words.next(), words.next()) else {
        return;
    };
    let Some(unit) = MassUnit::from_symbol(unit) else {
        return;
    };
    let line = words.next().unwrap_or_default();
    let places: Vec<usize> = if let Ok(place) = place.parse() {
        vec![place]
    } else {
        let all = bench.weigh_in.weighings().iter().enumerate();
        all.filter(|(_, (of, weighing))| line_text(&own, *of) == line && weighing.unit() != unit)
            .map(|(place, _)| place)
            .collect()
    };
    for place in places {
        bench.weigh_in.reread(place, unit);
    }
    bench.keep(&mut ledger.kept, &own);
}

fn close(
    ledger: &mut Ledger,
    visit: &mut Visit,
    unexplained: Unexplained,
) -> Result<Done, Refusal> {
    let tolerance = tolerance(ledger, visit)?;
    let own = ledger.catalogues().own.clone();
    let Ok(bench) = Bench::of(&ledger.kept, &own) else {
        return Ok(Done::Shown);
    };
    not_yet_added(&own, visit)?;
    let question = bench.question(&own, visit.units).map_err(Refusal::new)?;
    let closing = held(&question, &bench.weigh_in, tolerance);
    let settled = settle(&closing, &bench.weigh_in, visit.now, unexplained).map_err(|why| {
        if let NotClosed::Unexplained { .. } = why {
            Refusal::at(CLOSE, difference(&closing, shown_units(visit)))
        } else {
            Refusal::new(why)
        }
    })?;
    let tag = tag_form::read(visit, TAG, question.case.deal.age)?;
    let case = &question.case;
    let planned = Planned {
        deal: &case.deal,
        shop: &case.shop,
        sheet: &question.sheet,
    };
    let outcome = Came {
        deal: &case.deal,
        shop: &case.shop,
        minutes: &settled.minutes,
    };
    // A side that cannot be priced is a test all the same.
    let money = scale::report(&own, &planned, &settled.weights, &outcome)
        .ok()
        .map(|report| KeptMoney::of(case.deal.price, &report.actual.verdict));
    let stock = (case.deal.stock, case.deal.sides);
    let breakdown = &question.sheet.breakdown;
    let test = ClosedTest::of(&own, breakdown, stock, &settled.weights, tag, money);
    let paper = Paper::of(&bench.draft, &bench.weigh_in, &own, &ledger.kept, visit.now);

    let number = ledger.add_test(test);
    paper.keep(&mut ledger.kept, number);
    clear_block(&mut ledger.kept, visit);
    if tolerance != ledger.settings.tolerance {
        let mut settings = ledger.settings.clone();
        settings.tolerance = tolerance;
        ledger.set(settings);
    }
    for fields in ["at.close.", "report.", "at.report."] {
        visit.entries.clear_under(fields);
    }
    visit.entries.set(SHOWN, &number.to_string());
    visit.entries.set(VIEW, View::Tests.id());
    Ok(Done::Shown)
}

/// Refuses to close while something stands in a field that was not added: it would
/// be lost, and its cut be learnt from as one that gave nothing.
fn not_yet_added(catalogue: &Catalogue, visit: &Visit) -> Result<(), Refusal> {
    let typed = visit.entries.under(WEIGHED);
    let mut waiting = typed.filter(|(_, text)| !text.trim().is_empty());
    let Some((entry, reading)) = waiting.next() else {
        return Ok(());
    };
    let id = entry.trim_start_matches(WEIGHED).split(' ').next();
    let cut = id
        .and_then(|id| catalogue.product_id(id))
        .map(|product| catalogue[product].name.as_str())
        .unwrap_or_default();
    let why = say!(
        "{reading} stands in the field of {cut} and was not added: add it or empty the field, then close.",
        reading,
        cut
    );
    Err(Refusal::at(CLOSE, why))
}

/// The closing of the side at the block.
pub(crate) fn written(
    ledger: &Ledger,
    visit: &Visit,
    bench: &Bench,
    question: &Question,
    steps: &mut Steps,
) {
    heading(steps, text!("Close the side"));
    let usual = notation::in_field(ledger.settings.tolerance.percent(), 2);
    let tolerance = tolerance(ledger, visit);
    field_with(
        steps,
        visit,
        &Field {
            name: TOLERANCE,
            label: text!("How far off the balance may be"),
            takes: Takes::Number("%"),
            usual: &usual,
            note: text!("Of the weight of the side. One percent is usual here; it is an estimate."),
        },
        tolerance.as_ref().err().map(|refusal| &refusal.why),
    );
    if bench.weigh_in.weighings().is_empty() {
        note(steps, text!("Nothing was weighed yet."));
        return;
    }
    match visit.faults.get(CLOSE) {
        Some(fault) => trouble(steps, "p", fault),
        None => steps.nothing(),
    }
    // A tolerance that cannot be read is told at its field; the last one stands.
    let tolerance = tolerance.unwrap_or(ledger.settings.tolerance);
    let closing = held(question, &bench.weigh_in, tolerance);
    let units = shown_units(visit);
    steps.holding("p", &[("class", "finding")], &difference(&closing, units));
    for cause in &closing.causes {
        cause_written(cause, bench, question, visit, steps);
    }
    if let Some(said) = not_weighed(&closing, question) {
        note(steps, &said);
    }
    block_time::still_running(visit, bench, question.case.catalogue, steps);
    if closing.is_within() {
        button(steps, "offer", "close", text!("Close the side"));
        return;
    }
    let off = mass_with_unit(Mass::from_kg(closing.difference.kg().abs()), units);
    let accept = if closing.difference.is_positive() {
        let missing = off;
        say!("Accept {missing} as unexplained loss and close", missing)
    } else {
        let over = off;
        say!("Accept {over} too much as unexplained and close", over)
    };
    button(steps, "offer", "accept", &accept);
    note(
        steps,
        text!(
            "What is accepted is learnt from: the weight that is missing counts as loss of this side, what is too much comes off every cut. Its report has a button that leaves the test out of your own yields."
        ),
    );
}

/// What the plan gives and was not weighed; `None` where all of it was.
fn not_weighed(closing: &Closing, question: &Question) -> Option<String> {
    let all = &closing.not_weighed;
    let named: Vec<String> = all
        .iter()
        .take(NAMED)
        .map(|product| question.name(*product))
        .collect();
    let (more, cuts) = (all.len() - named.len(), named.join(", "));
    if named.is_empty() {
        None
    } else if more == 0 {
        Some(say!("Not weighed, and counted as none: {cuts}.", cuts))
    } else {
        Some(say!(
            "Not weighed, and counted as none: {cuts} and {more} more.",
            cuts,
            more
        ))
    }
}

fn difference(closing: &Closing, units: Units) -> String {
    let off = Mass::from_kg(closing.difference.kg().abs());
    let share = notation::share(off.ratio_to(closing.chilled).unwrap_or_default());
    let (off, allowed) = (mass_with_unit(off, units), percent(closing.tolerance));
    if closing.difference < Mass::ZERO {
        if closing.is_within() {
            say!(
                "{off} more than the side, {share} of it: within {allowed}.",
                off,
                share,
                allowed
            )
        } else {
            say!(
                "{off} more than the side, {share} of it: beyond {allowed}.",
                off,
                share,
                allowed
            )
        }
    } else if closing.is_within() {
        say!(
            "{off} missing, {share} of the side: within {allowed}.",
            off,
            share,
            allowed
        )
    } else {
        say!(
            "{off} missing, {share} of the side: beyond {allowed}.",
            off,
            share,
            allowed
        )
    }
}

fn cause_written(
    cause: &Cause,
    bench: &Bench,
    question: &Question,
    visit: &Visit,
    steps: &mut Steps,
) {
    let weight = |mass: Mass| mass_with_unit(mass, shown_units(visit));
    match cause {
        Cause::UnitSlips(slips) => {
            for slip in slips {
                slip_written(slip, question, visit, steps);
            }
        }
        Cause::MissedTray(missed) => {
            for (product, planned) in missed {
                let (cut, planned) = (question.name(*product), weight(*planned));
                let said = say!(
                    "Was a tray left out? {cut} was not weighed; its plan is {planned}.",
                    cut,
                    planned
                );
                note(steps, &said);
            }
        }
        Cause::Shrink => note(
            steps,
            text!(
                "Did the side shrink before it came to the block? Drip and drying in the cooler count, and a weight taken hot or by the supplier."
            ),
        ),
        Cause::WeighedTwice(line, [_, later]) => {
            let cut = question.name(line.product);
            let all = bench.weigh_in.weighings();
            let Some((line, weighing)) = all.get(*later) else {
                return;
            };
            let reading = reading_said(question.case.catalogue, *line, *weighing);
            note(
                steps,
                &say!(
                    "Was a tray weighed twice? {reading} of {cut} stands twice.",
                    reading,
                    cut
                ),
            );
            let take = text!("Take the second one back");
            button(steps, "quiet", &format!("back {later}"), take);
        }
        Cause::NotInThePlan(lines) => {
            for (line, mass) in lines {
                let (cut, mass) = (question.name(line.product), weight(*mass));
                let said = say!(
                    "{mass} of {cut} were weighed, which this plan does not give: take it back.",
                    mass,
                    cut
                );
                note(steps, &said);
            }
        }
    }
}

fn slip_written(slip: &UnitSlip, question: &Question, visit: &Visit, steps: &mut Steps) {
    let weight = |mass: Mass| mass_with_unit(mass, shown_units(visit));
    let cut = question.name(slip.line.product);
    let (typed, meant) = (slip.typed.symbol(), slip.meant.symbol());
    let (as_typed, as_meant) = (weight(slip.weight), weight(slip.meant_weight));
    let planned = weight(slip.planned);
    let said = say!(
        "Was {cut} typed in {typed} and the scale showed {meant}? It stands as {as_typed}; in {meant} it would be {as_meant}, and its plan is {planned}.",
        cut,
        typed,
        meant,
        as_typed,
        as_meant,
        planned
    );
    note(steps, &said);
    let place = slip
        .weighing
        .map_or_else(|| "-".to_owned(), |place| place.to_string());
    let line = line_text(question.case.catalogue, slip.line);
    let pressed = format!("reread {place} {meant} {line}");
    button(steps, "quiet", &pressed, &say!("It was {meant}", meant));
}
