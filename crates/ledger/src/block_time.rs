//! The time at the block: of each part a timer and a field.

use advice::Question;
use advice::steps::Steps;
use carcass::{Catalogue, WayId, What};
use quantity::{Minutes, typed};
use scale::Spent;
use wording::{say, text};

use crate::bench::Bench;
use crate::controls::{Field, Takes, button_named, field, fold, form, note};
use crate::visit::{Refusal, Visit};

/// Before the entries of the minutes of a way.
pub(crate) const MINUTES: &str = "m.";

/// Takes down the minutes that stand in the field of a way.
///
/// # Errors
/// A refusal at the field that cannot be read.
pub(crate) fn spend(
    catalogue: &Catalogue,
    bench: &mut Bench,
    visit: &mut Visit,
    about: &str,
) -> Result<(), Refusal> {
    let Some(way) = catalogue.way_id(about) else {
        return Ok(());
    };
    let name = format!("{MINUTES}{about}");
    let minutes = typed::minutes(visit.entries.text(&name))
        .map_err(|error| Refusal::at(name.as_str(), error))?;
    bench
        .weigh_in
        .spend(way, minutes)
        .map_err(|error| Refusal::at(name.as_str(), error))?;
    visit.entries.clear(&name);
    Ok(())
}

fn minutes_said(minutes: Minutes) -> String {
    format!("{} min", notation::minutes(minutes))
}

/// The timers that run, each with its way and its minutes so far.
fn running(visit: &Visit, bench: &Bench) -> Vec<(WayId, Minutes)> {
    let times = bench.weigh_in.times().iter();
    times
        .filter(|(_, spent)| matches!(spent, Spent::Timed { to: None, .. }))
        .map(|(way, spent)| (*way, spent.minutes(visit.now)))
        .collect()
}

/// That more than one timer runs.
fn several_run(count: usize, steps: &mut Steps) {
    if count > 1 {
        let said = say!(
            "{count} timers run at once: the time of each counts in full.",
            count
        );
        note(steps, &said);
    } else {
        steps.nothing();
    }
}

/// The timers that would be stopped by closing the side.
pub(crate) fn still_running(
    visit: &Visit,
    bench: &Bench,
    catalogue: &Catalogue,
    steps: &mut Steps,
) {
    let running = running(visit, bench);
    for (way, minutes) in &running {
        let part = &catalogue[catalogue[*way].part].name;
        let said = say!(
            "The timer of {part} still runs: closing stops it, now at {minutes} min.",
            part,
            notation::minutes(*minutes)
        );
        note(steps, &said);
    }
    several_run(running.len(), steps);
}

/// The time of every part.
pub(crate) fn written(visit: &Visit, bench: &Bench, question: &Question, steps: &mut Steps) {
    let catalogue = question.case.catalogue;
    let mut ways: Vec<WayId> = Vec::new();
    for node in question.sheet.breakdown.nodes() {
        if let What::Part { way, .. } = node.what
            && !ways.contains(&way)
        {
            ways.push(way);
        }
    }
    ways.sort_by_key(|way| catalogue[catalogue[*way].part].order);
    fold(steps, "time", text!("Time at the block"), |steps| {
        note(
            steps,
            text!("A part without minutes keeps those of the plan."),
        );
        several_run(running(visit, bench).len(), steps);
        steps.element("ul", &[("class", "times")], |steps| {
            for way in ways {
                time_of(visit, bench, catalogue, way, steps);
            }
        });
    });
}

fn time_of(visit: &Visit, bench: &Bench, catalogue: &Catalogue, way: WayId, steps: &mut Steps) {
    let (way_id, way_name) = (&catalogue[way].id, &catalogue[way].name);
    let part = &catalogue[catalogue[way].part].name;
    steps.element("li", &[("key", way_id)], |steps| {
        let spent = bench.weigh_in.minutes(way, visit.now);
        steps.element("p", &[], |steps| {
            steps.holding("strong", &[], part);
            steps.text(" ");
            steps.holding("small", &[], way_name);
        });
        match spent {
            Some(spent) => steps.holding("p", &[("class", "finding")], &minutes_said(spent)),
            None => steps.nothing(),
        }
        if bench.weigh_in.running_since(way).is_some() {
            let name = say!("Stop the time of {part}", part);
            button_named(
                steps,
                "running",
                &format!("stop {way_id}"),
                text!("Stop"),
                &name,
            );
        } else {
            let name = say!("Start the time of {part}", part);
            button_named(
                steps,
                "quiet",
                &format!("start {way_id}"),
                text!("Start"),
                &name,
            );
        }
        let entry = format!("{MINUTES}{way_id}");
        let label = say!("Minutes for {part}", part);
        form(
            steps,
            "weighing",
            &format!("spend {way_id}"),
            text!("Add"),
            |steps| {
                field(
                    steps,
                    visit,
                    &Field {
                        name: &entry,
                        label: &label,
                        takes: Takes::Number("min"),
                        usual: "",
                        note: "",
                    },
                );
            },
        );
        let times = bench.weigh_in.times().iter().enumerate();
        steps.element("ul", &[("class", "readings")], |steps| {
            for (place, (_, spent)) in times.filter(|(_, (of, _))| *of == way) {
                let said = minutes_said(spent.minutes(visit.now));
                steps.element("li", &[("key", &place.to_string())], |steps| {
                    steps.text(&said);
                    let what = say!("Take back: {said}", said);
                    button_named(steps, "quiet", &format!("untime {place}"), "✕", &what);
                });
            }
        });
    });
}
