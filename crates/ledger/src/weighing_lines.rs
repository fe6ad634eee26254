//! The lines of a weigh-in: a field for each, and what was weighed so far.

use advice::Question;
use advice::steps::Steps;
use advice::wire::ENTRY;
use carcass::Catalogue;
use notation::{Units, mass_with_unit};
use quantity::{Decimal, Mass, MassUnit, typed};
use scale::{Line, PlannedLine, Weighing};
use wording::{say, text};

use crate::bench::Bench;
use crate::controls::{button_named, fold, form, id, trouble};
use crate::visit::{Refusal, Visit};

/// The entry of the unit that the scale shows.
pub(crate) const UNIT: &str = "at.scale.unit";

/// The entry of what a tray weighs.
pub(crate) const TARE: &str = "scale.tare";

/// Before the entries of what the scale shows of a line.
pub(crate) const WEIGHED: &str = "w.";

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
pub(crate) fn unit(visit: &Visit) -> MassUnit {
    MassUnit::from_symbol(visit.entries.text(UNIT)).unwrap_or(visit.units.mass())
}

/// The units in which weights are written beside what the scale shows.
pub(crate) fn shown_units(visit: &Visit) -> Units {
    match unit(visit) {
        MassUnit::Pound | MassUnit::Ounce => Units::Pounds,
        MassUnit::Kilogram | MassUnit::Gram => Units::Kilograms,
    }
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

/// Takes down what stands in the field of a line.
///
/// # Errors
/// A refusal at the field that cannot be read.
pub(crate) fn add(
    catalogue: &Catalogue,
    bench: &mut Bench,
    visit: &mut Visit,
    about: &str,
) -> Result<(), Refusal> {
    let Some(line) = read_line(catalogue, about) else {
        return Ok(());
    };
    let name = weighed_entry(catalogue, line);
    // The tare is in the unit that its field shows, whatever is typed with a reading.
    let shown = unit(visit);
    let (gross, unit) =
        reading(visit.entries.text(&name), shown).map_err(|why| Refusal::at(name.as_str(), why))?;
    let tare = match visit.entries.text(TARE) {
        "" => Decimal::ZERO,
        text => {
            let (tare, tare_unit) = reading(text, shown).map_err(|why| Refusal::at(TARE, why))?;
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

/// A product with its field and what was weighed of it.
pub(crate) fn one_line(
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
        // In the unit of the scale, so that the two can be held against each other.
        let units = shown_units(visit);
        let plan = mass_with_unit(planned.weight, units);
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
                    let plan = mass_with_unit(*weight, units);
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
        let sum = mass_with_unit(sum, units);
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
                        button_named(steps, "quiet", &format!("back {place}"), "✕", &what);
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
