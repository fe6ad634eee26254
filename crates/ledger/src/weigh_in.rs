//! The weigh-in at the block: the plan's cuts in order of cutting, a field for
//! each, what was weighed so far, what is not accounted for, and the time.

use advice::Question;
use advice::steps::Steps;
use carcass::{Catalogue, Kind, WayId, What};
use notation::mass_with_unit;
use quantity::{Decimal, Mass, MassUnit, Minutes, typed};
use scale::{Line, PlannedLine, Weighing, planned_lines};
use wording::{say, text};

use crate::bench::{Bench, NoBench};
use crate::controls::{
    Field, Takes, choice, field, fold, form, heading, id, note, press as button, press_named,
    press_surely, trouble,
};
use crate::ledger::Ledger;
use crate::tag_form::{self, TAG};
use crate::visit::{Done, Outcome, Refusal, Visit};
use crate::{closing, printing};
use advice::wire::ENTRY;

/// The entry of the unit that the scale shows.
const UNIT: &str = "at.scale.unit";

/// The entry of what a tray weighs.
const TARE: &str = "scale.tare";

/// Before the entries of what the scale shows of a line.
const WEIGHED: &str = "w.";

/// Before the entries of the minutes of a way.
const MINUTES: &str = "m.";

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
    let mut bench = match Bench::of(&ledger.kept, own) {
        Ok(bench) => bench,
        // Another tab has closed it, or what is kept cannot be read: the view says so.
        Err(_) => {
            if verb == "abandon" {
                abandon(ledger, visit);
            }
            return Some(Ok(Done::Done));
        }
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
        "spend" => spend(own, &mut bench, visit, about),
        "untime" => {
            if let Some(place) = number {
                bench.weigh_in.forget_time(place);
            }
            Ok(())
        }
        _ => {
            abandon(ledger, visit);
            return Some(Ok(Done::Done));
        }
    };
    let own = ledger.catalogues().own.clone();
    bench.keep(&mut ledger.kept, &own);
    Some(done.map(|()| Done::Done))
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
    Ok(Done::Done)
}

fn abandon(ledger: &mut Ledger, visit: &mut Visit) {
    Bench::clear(&mut ledger.kept);
    for fields in [WEIGHED, MINUTES, TAG] {
        visit.entries.clear_under(fields);
    }
}

/// The entry of what the scale shows of a line.
fn weighed_entry(catalogue: &Catalogue, line: Line) -> String {
    format!("{WEIGHED}{}", line_text(catalogue, line))
}

/// A line as a button says it.
pub(crate) fn line_text(catalogue: &Catalogue, line: Line) -> String {
    let way = line.way.map_or("-", |way| &catalogue[way].id);
    format!("{} {way}", catalogue[line.product].id)
}

fn read_line(catalogue: &Catalogue, about: &str) -> Option<Line> {
    let (product, way) = about.split_once(' ')?;
    Some(Line {
        product: catalogue.product_id(product)?,
        way: match way {
            "-" => None,
            id => Some(catalogue.way_id(id)?),
        },
    })
}

/// The unit that the scale shows.
fn unit(visit: &Visit) -> MassUnit {
    MassUnit::from_symbol(visit.entries.text(UNIT)).unwrap_or(visit.units.mass())
}

/// A weight as it was typed: as the scale shows it, or with another unit behind
/// it.
fn reading(text: &str, unit: MassUnit) -> Result<(Decimal, MassUnit), String> {
    match typed::number(text) {
        Ok(number) => Ok((number, unit)),
        Err(_) => typed::mass(text, unit)
            .map(|(mass, unit)| (mass.in_unit(unit).round_dp(4), unit))
            .map_err(|error| error.to_string()),
    }
}

fn add(
    catalogue: &Catalogue,
    bench: &mut Bench,
    visit: &mut Visit,
    about: &str,
) -> Result<(), Refusal> {
    let Some(line) = read_line(catalogue, about) else {
        return Ok(());
    };
    let name = weighed_entry(catalogue, line);
    let (gross, unit) = reading(visit.entries.text(&name), unit(visit))
        .map_err(|why| Refusal::at(name.as_str(), why))?;
    let tare = match visit.entries.text(TARE) {
        "" => Decimal::ZERO,
        text => {
            let (tare, tare_unit) = reading(text, unit).map_err(|why| Refusal::at(TARE, why))?;
            if tare_unit == unit {
                tare
            } else {
                Mass::from_unit(tare, tare_unit).in_unit(unit).round_dp(4)
            }
        }
    };
    let weighing =
        Weighing::new(gross, unit, tare).map_err(|error| Refusal::at(name.as_str(), error))?;
    bench
        .weigh_in
        .add(line, weighing)
        .map_err(|error| Refusal::at(name.as_str(), error))?;
    visit.entries.clear(&name);
    Ok(())
}

fn spend(
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
            let parts = planned_lines(question.case.catalogue, &question.sheet.breakdown).len();
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
    }
    fold(steps, "tag", text!("Tag of the side"), |steps| {
        tag_form::written(visit, steps)
    });
    cautions(question, steps);
    printing::written(steps);
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
    time(visit, bench, question, steps);
    balance(visit, bench, question, steps);
    closing::written(ledger, visit, bench, question, steps);
    give_up(visit, steps);
}

fn give_up(visit: &Visit, steps: &mut Steps) {
    press_surely(
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
            steps.holding("strong", &[], &mass_with_unit(left, visit.units));
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
        let (weighed, side) = (
            mass_with_unit(weighed, visit.units),
            mass_with_unit(side, visit.units),
        );
        steps.holding(
            "small",
            &[],
            &say!("{weighed} of {side} weighed", weighed, side),
        );
        if bench.weigh_in.weighings().is_empty() {
            steps.nothing();
        } else {
            let name = text!("Take the last weighing back");
            press_named(steps, "quiet", "undo", "↶", name);
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

/// A product with its field and what was weighed of it.
fn one_line(
    visit: &Visit,
    bench: &Bench,
    question: &Question,
    planned: &PlannedLine,
    steps: &mut Steps,
) {
    let catalogue = question.case.catalogue;
    let whole = Line {
        product: planned.product,
        way: None,
    };
    let name = question.name(planned.product);
    let readings = readings(bench, planned);
    let class = if readings.is_empty() {
        "to-weigh"
    } else {
        "is-weighed"
    };
    let key = catalogue[planned.product].id.as_str();
    steps.element("li", &[("class", class), ("key", key)], |steps| {
        let plan = mass_with_unit(planned.weight, visit.units);
        weighing_field(visit, catalogue, whole, (&name, &plan), steps);
        if planned.ways.len() > 1 {
            fold(steps, "apart", text!("Weigh by part"), |steps| {
                for (way, weight) in &planned.ways {
                    let line = Line {
                        product: planned.product,
                        way: Some(*way),
                    };
                    let part = &catalogue[catalogue[*way].part].name;
                    let name = say!("{name} off the {part}", name, part);
                    let plan = mass_with_unit(*weight, visit.units);
                    weighing_field(visit, catalogue, line, (&name, &plan), steps);
                }
            });
        } else {
            steps.nothing();
        }
        if readings.is_empty() {
            steps.nothing();
            return;
        }
        let sum: Mass = readings.iter().map(|(_, _, weighing)| weighing.net()).sum();
        let sum = mass_with_unit(sum, visit.units);
        let often = readings.len();
        let told = if often == 1 {
            say!("✓ {sum}, weighed once", sum)
        } else {
            say!("✓ {sum} in {often} weighings", sum, often)
        };
        fold(steps, "readings", &told, |steps| {
            steps.element("ul", &[("class", "readings")], |steps| {
                for (place, line, weighing) in &readings {
                    let said = reading_said(catalogue, *line, *weighing);
                    steps.element("li", &[("key", &place.to_string())], |steps| {
                        steps.text(&said);
                        let what = say!("Take back: {said}", said);
                        press_named(steps, "quiet", &format!("back {place}"), "✕", &what);
                    });
                }
            });
        });
    });
}

/// The readings of a product with their places among all weighings.
fn readings(bench: &Bench, planned: &PlannedLine) -> Vec<(usize, Line, Weighing)> {
    let all = bench.weigh_in.weighings().iter().enumerate();
    all.filter(|(_, (line, _))| line.product == planned.product)
        .map(|(place, (line, weighing))| (place, *line, *weighing))
        .collect()
}

/// A reading as it was taken down.
pub(crate) fn reading_said(catalogue: &Catalogue, line: Line, weighing: Weighing) -> String {
    let gross = format!(
        "{} {}",
        notation::as_typed(&weighing.gross().normalize().to_string()),
        weighing.unit().symbol()
    );
    let said = if weighing.tare().is_zero() {
        gross
    } else {
        let tare = notation::as_typed(&weighing.tare().normalize().to_string());
        say!("{gross} less tray {tare}", gross, tare)
    };
    match line.way {
        None => said,
        Some(way) => format!("{said} · {}", catalogue[catalogue[way].part].name),
    }
}

fn weighing_field(
    visit: &Visit,
    catalogue: &Catalogue,
    line: Line,
    (name, plan): (&str, &str),
    steps: &mut Steps,
) {
    let entry = weighed_entry(catalogue, line);
    let control = id(&entry);
    let note = format!("{control}-note");
    let fault = visit.faults.get(&entry);
    let pressed = format!("add {}", line_text(catalogue, line));
    form(steps, "weighing", &pressed, text!("Add"), |steps| {
        steps.element("label", &[("for", &control)], |steps| {
            steps.text(name);
            steps.text(" ");
            steps.holding("small", &[("id", &note)], &say!("plan {plan}", plan));
        });
        steps.element("div", &[("class", "box")], |steps| {
            let marks = [
                ("id", control.as_str()),
                (ENTRY, &entry),
                ("aria-describedby", &note),
                ("type", "text"),
                ("inputmode", "decimal"),
                ("autocomplete", "off"),
                ("enterkeyhint", "done"),
            ];
            steps.element("input", &marks, |steps| {
                let value = visit.entries.exact(&entry).unwrap_or_default();
                steps.step('=', &format!("value {value}"));
                if fault.is_some() {
                    steps.step('=', "aria-invalid true");
                }
            });
            steps.holding("span", &[("class", "unit")], unit(visit).symbol());
        });
        match fault {
            Some(fault) => trouble(steps, "p", fault),
            None => steps.nothing(),
        }
    });
}

fn minutes_said(minutes: Minutes) -> String {
    format!("{} min", notation::minutes(minutes))
}

/// The time of every part.
fn time(visit: &Visit, bench: &Bench, question: &Question, steps: &mut Steps) {
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
            press_named(
                steps,
                "running",
                &format!("stop {way_id}"),
                text!("Stop"),
                &name,
            );
        } else {
            let name = say!("Start the time of {part}", part);
            press_named(
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
                    press_named(steps, "quiet", &format!("untime {place}"), "✕", &what);
                });
            }
        });
    });
}
