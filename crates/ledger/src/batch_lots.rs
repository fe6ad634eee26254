//! The lots of a batch of grind, one by one: typed, or chosen among those of a
//! side or of batches that are ground again. They stand in the fields until the
//! batch is written down.

use advice::steps::Steps;
use notation::mass_with_unit;
use quantity::{Decimal, Mass, Rounding, Share, typed};
use scale::BatchError;
use scale::grinding_log::MOST_LOTS;
use scale::lot_code::LONGEST;
use wording::{say, text};

use crate::controls::{Field, Takes, button_named, choice, field, form, heading};
use crate::ledger::Ledger;
use crate::tests_kept::title;
use crate::trace::{codes, trace_of};
use crate::visit::{Done, Outcome, Refusal, Visit};
use crate::wire;

/// Before the names of the fields of a batch.
pub(crate) const GRIND: &str = "grind.";

/// Before the name of the field that others are chosen by.
pub(crate) const AT_ONCE: &str = "at.grind.";

/// The entry of the number of the side that a lot comes from.
const SIDE: &str = "at.grind.side";

/// The entry of the lot of that side.
const CUT: &str = "grind.cut";

/// The entry of a lot that is typed.
pub(crate) const LOT: &str = "grind.lot";

/// The entry of what of it went in.
pub(crate) const WEIGHT: &str = "grind.weight";

/// The entry of the lots so far: codes with kilograms, in the encoding of web
/// forms.
const LOTS: &str = "grind.lots";

/// So many of the last sides are offered.
const SIDES: usize = 30;

/// So many of the last batches are offered to be ground again.
const BATCHES: usize = 12;

/// By so much of its weight more may be ground of a lot than the block weighed:
/// the scale at the grinder is another one. An estimate.
const SCALES_APART: Share = Share::from_fraction(Decimal::from_parts(2, 0, 0, false, 2));

/// Decimal places of a weight in kilograms: a tenth of a gram.
const PLACES: u32 = 4;

/// The choice of a lot that is typed, and of one that is a batch.
const TYPED: &str = "";
const AGAIN: &str = "batches";

/// Does what is asked about the lots of a batch.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    match verb {
        "grind-add" => Some(add(ledger, visit)),
        "grind-drop" => {
            let mut lots = lots(visit);
            if let Ok(place) = about.parse::<usize>()
                && place < lots.len()
            {
                lots.remove(place);
                put_lots(visit, &lots);
            }
            Some(Ok(Done::Shown))
        }
        _ => None,
    }
}

/// The lots so far.
pub(crate) fn lots(visit: &Visit) -> Vec<(String, Mass)> {
    let pairs = wire::pairs(visit.entries.text(LOTS));
    let kilograms = |text: &str| typed::number(text).ok().map(Mass::from_kg);
    pairs
        .into_iter()
        .filter_map(|(lot, kg)| Some((lot, kilograms(&kg)?)))
        .collect()
}

fn put_lots(visit: &mut Visit, lots: &[(String, Mass)]) {
    let weights: Vec<String> = lots
        .iter()
        .map(|(_, weight)| weight.kg().normalize().to_string())
        .collect();
    let pairs = lots.iter().zip(&weights);
    let pairs = pairs.map(|((lot, _), weight)| (lot.as_str(), weight.as_str()));
    visit.entries.set(LOTS, &wire::form(pairs));
}

fn add(ledger: &Ledger, visit: &mut Visit) -> Result<Done, Refusal> {
    let mut lots = lots(visit);
    let Some(lot) = next_lot(ledger, visit)? else {
        return Err(Refusal::at(WEIGHT, BatchError::NoLots));
    };
    if lots.len() >= MOST_LOTS {
        return Err(Refusal::at(LOT, most_lots()));
    }
    lots.push(lot);
    put_lots(visit, &lots);
    visit.entries.clear(LOT);
    visit.entries.clear(WEIGHT);
    Ok(Done::Shown)
}

fn most_lots() -> String {
    say!("A batch has at most {most} lots.", MOST_LOTS)
}

/// The lot that stands in the fields and was not added yet.
pub(crate) fn next_lot(ledger: &Ledger, visit: &Visit) -> Result<Option<(String, Mass)>, Refusal> {
    let weight = visit.entries.text(WEIGHT);
    let offered = offered(ledger, visit);
    let chosen = visit.entries.text(CUT);
    let code = match offered.iter().find(|(code, _)| code == chosen) {
        Some((code, _)) => code,
        None => offered
            .first()
            .map_or(visit.entries.text(LOT), |(code, _)| code),
    };
    if weight.is_empty() && (code.is_empty() || !offered.is_empty()) {
        return Ok(None);
    }
    if code.is_empty() {
        let why = text!("Type the code of the lot, or choose its side.");
        return Err(Refusal::at(LOT, why));
    }
    let code = short(code, LOT)?;
    let (mass, _) =
        typed::mass(weight, visit.units.mass()).map_err(|error| Refusal::at(WEIGHT, error))?;
    let mass = Mass::from_kg(Rounding::HalfEven.to_places(mass.kg(), PLACES));
    if !mass.is_positive() {
        return Err(Refusal::at(WEIGHT, BatchError::NoLots));
    }
    within(ledger, visit, &code, mass)?;
    Ok(Some((code, mass)))
}

/// Refuses what is more than there is left of a lot whose weight is known.
fn within(ledger: &Ledger, visit: &Visit, code: &str, mass: Mass) -> Result<(), Refusal> {
    let trace = trace_of(ledger);
    let Some(weight) = trace.weight(code) else {
        return Ok(());
    };
    let batches = ledger.log().batches().iter();
    let ground = batches.flat_map(|batch| &batch.lots);
    let taken = trace.taken(code, ground.chain(&lots(visit)));
    if taken + mass <= weight + weight * SCALES_APART {
        return Ok(());
    }
    let left = (weight - taken).max(Mass::ZERO);
    let why = say!(
        "{lot} weighed {weight}, and {left} of it are left.",
        code,
        mass_with_unit(weight, visit.units),
        mass_with_unit(left, visit.units)
    );
    Err(Refusal::at(WEIGHT, why))
}

/// A code, where it is not too long for a label.
pub(crate) fn short(code: &str, at: &str) -> Result<String, Refusal> {
    if code.chars().count() > LONGEST {
        let why = say!("A lot code has at most {most} characters.", LONGEST);
        return Err(Refusal::at(at, why));
    }
    Ok(code.to_owned())
}

/// The lots that are offered by the side that is chosen, each with its name.
fn offered(ledger: &Ledger, visit: &Visit) -> Vec<(String, String)> {
    let catalogue = ledger.catalogues().published;
    match visit.entries.text(SIDE) {
        TYPED => Vec::new(),
        AGAIN => {
            let batches = ledger.log().batches().iter().rev().take(BATCHES);
            batches
                .map(|batch| (batch.code.clone(), batch.code.clone()))
                .collect()
        }
        side => side
            .parse()
            .ok()
            .and_then(|number| ledger.test(number))
            .map(|test| codes(ledger, test))
            .unwrap_or_default()
            .into_iter()
            .map(|(product, code)| {
                let said = format!("{} · {code}", catalogue[product].name);
                (code, said)
            })
            .collect(),
    }
}

/// The lots so far and the fields of the next one.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    heading(steps, text!("Lots of a new batch"));
    let lots = lots(visit);
    if !lots.is_empty() {
        steps.element("ul", &[("class", "readings")], |steps| {
            for (place, (lot, weight)) in lots.iter().enumerate() {
                let weight = mass_with_unit(*weight, visit.units);
                let said = format!("{lot} · {weight}");
                steps.element("li", &[("key", &place.to_string())], |steps| {
                    steps.text(&said);
                    let what = say!("Take back: {said}", said);
                    button_named(steps, "quiet", &format!("grind-drop {place}"), "✕", &what);
                });
            }
        });
        let sum = lots.iter().map(|(_, weight)| *weight).sum();
        let sum = say!("{sum} went in.", mass_with_unit(sum, visit.units));
        steps.holding("p", &[("class", "finding")], &sum);
    }
    lot_fields(ledger, visit, steps);
}

/// The fields of the next lot.
fn lot_fields(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    let numbers: Vec<(String, String)> = ledger
        .tests()
        .iter()
        .rev()
        .take(SIDES)
        .map(|(number, test)| (number.to_string(), title(test)))
        .collect();
    let mut sources = vec![(TYPED, text!("Typed below").to_owned())];
    for (number, title) in &numbers {
        sources.push((number, title.clone()));
    }
    if !ledger.log().batches().is_empty() {
        sources.push((AGAIN, text!("A batch that is ground again").to_owned()));
    }
    let label = text!("Where the lot comes from");
    choice(steps, visit, (SIDE, label, ""), &sources);
    let offered = offered(ledger, visit);
    form(steps, "settings", "grind-add", text!("Add"), |steps| {
        if offered.is_empty() {
            let about = Field {
                name: LOT,
                label: text!("Lot code"),
                takes: Takes::Words,
                usual: "",
                note: text!("As it stands on the label of what goes in."),
            };
            field(steps, visit, &about);
        } else {
            let choices: Vec<(&str, String)> = offered
                .iter()
                .map(|(code, said)| (code.as_str(), said.clone()))
                .collect();
            choice(steps, visit, (CUT, text!("Which lot of it"), ""), &choices);
        }
        let about = Field {
            name: WEIGHT,
            label: text!("Weight that goes in"),
            takes: Takes::Number(visit.units.mass().symbol()),
            usual: "",
            note: "",
        };
        field(steps, visit, &about);
    });
}
