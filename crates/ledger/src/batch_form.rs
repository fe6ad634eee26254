//! A batch of grind as it is typed: its lots one by one, then when, what and by
//! whom. All of it stands in the fields until the batch is written down.

use advice::steps::Steps;
use carcass::Role;
use notation::mass_with_unit;
use pricing::CalendarDate;
use quantity::{Mass, Rounding, typed};
use scale::grinding_log::{MOST_LOTS, Moment, TimeOfDay};
use scale::lot_code::LONGEST;
use scale::{Batch, BatchError};
use wording::{say, text};

use crate::controls::{Field, Takes, choice, field, form, heading, note, press_named};
use crate::ledger::Ledger;
use crate::tag_form::day;
use crate::tests_kept::title;
use crate::trace::codes;
use crate::visit::{Done, Outcome, Refusal, Visit};
use crate::wire;

/// Before the names of its fields.
pub(crate) const GRIND: &str = "grind.";

/// Before the name of the field that others are chosen by.
pub(crate) const AT_ONCE: &str = "at.grind.";

/// The entry of the number of the side that a lot comes from.
const SIDE: &str = "at.grind.side";

/// The entry of the lot of that side.
const CUT: &str = "grind.cut";

/// The entry of a lot that is typed.
const LOT: &str = "grind.lot";

/// The entry of what of it went in.
const WEIGHT: &str = "grind.weight";

/// The entry of the lots so far: codes with kilograms, in the encoding of web
/// forms.
const LOTS: &str = "grind.lots";

const CODE: &str = "grind.code";
const PRODUCT: &str = "grind.product";
const DAY: &str = "grind.day";
const TIME: &str = "grind.time";
const BY: &str = "grind.by";
const CLEANED_DAY: &str = "grind.cleaned-day";
const CLEANED_TIME: &str = "grind.cleaned-time";

/// So many of the last sides are offered.
const SIDES: usize = 30;

/// So many of the last batches are offered to be ground again.
const BATCHES: usize = 12;

/// The longest name of who ground it, in characters.
const LONGEST_NAME: usize = 80;

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
            Some(Ok(Done::Done))
        }
        _ => None,
    }
}

/// The lots so far.
fn lots(visit: &Visit) -> Vec<(String, Mass)> {
    let pairs = wire::pairs(visit.entries.text(LOTS));
    let kilograms = |text: &str| typed::number(text).ok().map(Mass::from_kg);
    pairs
        .into_iter()
        .filter_map(|(lot, kg)| Some((lot, kilograms(&kg)?)))
        .collect()
}

fn put_lots(visit: &mut Visit, lots: &[(String, Mass)]) {
    let pairs: Vec<(String, String)> = lots
        .iter()
        .map(|(lot, weight)| (lot.clone(), weight.kg().normalize().to_string()))
        .collect();
    visit.entries.set(LOTS, &wire::form(&pairs));
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
    Ok(Done::Done)
}

fn most_lots() -> String {
    say!("A batch has at most {most} lots.", MOST_LOTS)
}

/// The lot that stands in the fields and was not added yet.
fn next_lot(ledger: &Ledger, visit: &Visit) -> Result<Option<(String, Mass)>, Refusal> {
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
    if mass.is_positive() {
        Ok(Some((code, mass)))
    } else {
        Err(Refusal::at(WEIGHT, BatchError::NoLots))
    }
}

/// A code, where it is not too long for a label.
fn short(code: &str, at: &str) -> Result<String, Refusal> {
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

/// The batch as it stands in the fields.
pub(crate) fn read(ledger: &Ledger, visit: &Visit) -> Result<Batch, Refusal> {
    let mut lots = lots(visit);
    // Whoever writes the batch down means the lot that is typed too.
    lots.extend(next_lot(ledger, visit)?);
    if lots.is_empty() {
        return Err(refusal(BatchError::NoLots));
    }
    let typed = visit.entries.exact(CODE).map(str::trim);
    let code = match typed {
        Some(code) => short(code, CODE)?,
        None => proposed(ledger, visit),
    };
    let ground = (
        match visit.entries.exact(DAY) {
            None => visit.today.0,
            Some(_) => needed(visit, DAY)?,
        },
        match visit.entries.exact(TIME) {
            None => visit.today.1,
            Some(_) => time(visit, TIME)?,
        },
    );
    let by = visit.entries.exact(BY).unwrap_or_else(|| last_by(ledger));
    Ok(Batch {
        code,
        product: product(ledger, visit),
        ground,
        by: by.trim().chars().take(LONGEST_NAME).collect(),
        cleaned: cleaned(visit, ground)?,
        lots,
    })
}

/// Where what is wrong with a batch is told.
pub(crate) fn refusal(error: BatchError) -> Refusal {
    let at = match error {
        BatchError::NoCode | BatchError::SameCode => CODE,
        BatchError::NoLots | BatchError::OfItself => LOT,
        BatchError::OutOfRange => WEIGHT,
        BatchError::TooMany => "",
    };
    Refusal::at(at, error)
}

fn needed(visit: &Visit, name: &str) -> Result<CalendarDate, Refusal> {
    day(visit, name)?.ok_or_else(|| {
        let why = text!("A day is written year-month-day, such as 2026-03-09.");
        Refusal::at(name, why)
    })
}

fn time(visit: &Visit, name: &str) -> Result<TimeOfDay, Refusal> {
    visit.entries.text(name).parse().map_err(|()| {
        let why = text!("A time is written hour:minute, such as 07:45.");
        Refusal::at(name, why)
    })
}

/// When the grinder was cleaned; the day of grinding where only a time is typed.
fn cleaned(visit: &Visit, ground: Moment) -> Result<Option<Moment>, Refusal> {
    let cleaned_day = day(visit, CLEANED_DAY)?;
    if cleaned_day.is_none() && visit.entries.text(CLEANED_TIME).is_empty() {
        return Ok(None);
    }
    let cleaned = (cleaned_day.unwrap_or(ground.0), time(visit, CLEANED_TIME)?);
    if cleaned > ground {
        let why = text!("The cleaning before a batch cannot be later than its grinding.");
        return Err(Refusal::at(CLEANED_TIME, why));
    }
    Ok(Some(cleaned))
}

/// What grind is sold as: ids and names.
fn products(ledger: &Ledger) -> Vec<(&str, String)> {
    let catalogue = ledger.catalogues().published;
    let classes = catalogue.grind_classes().iter().map(|class| class.product);
    catalogue
        .product_in_role(Role::LeanTrim)
        .into_iter()
        .chain(classes)
        .map(|product| {
            let product = &catalogue[product];
            (product.id.as_str(), product.name.clone())
        })
        .collect()
}

/// The one that is chosen; the first where none is.
fn product(ledger: &Ledger, visit: &Visit) -> String {
    let products = products(ledger);
    let chosen = visit.entries.text(PRODUCT);
    let found = products.iter().find(|(id, _)| *id == chosen);
    let found = found.or(products.first());
    found.map_or_else(String::new, |(id, _)| (*id).to_owned())
}

/// Who ground the last batch.
fn last_by(ledger: &Ledger) -> &str {
    let last = ledger.log().batches().last();
    last.map_or("", |batch| &batch.by)
}

/// A code that no batch has yet: the day and a number.
fn proposed(ledger: &Ledger, visit: &Visit) -> String {
    let (today, _) = visit.today;
    let day = today.to_string().replace('-', "");
    let log = ledger.log();
    (1..=log.batches().len() + 1)
        .map(|number| format!("{day}-G{number}"))
        .find(|code| log.batch(code).is_none())
        .unwrap_or_default()
}

/// The fields.
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
                    press_named(steps, "quiet", &format!("grind-drop {place}"), "✕", &what);
                });
            }
        });
        let sum = lots.iter().map(|(_, weight)| *weight).sum();
        let sum = say!("{sum} went in.", mass_with_unit(sum, visit.units));
        steps.holding("p", &[("class", "finding")], &sum);
    }
    lot_fields(ledger, visit, steps);
    heading(steps, text!("The batch"));
    form(
        steps,
        "settings",
        "grind",
        text!("Write the batch down"),
        |steps| batch_fields(ledger, visit, steps),
    );
    note(
        steps,
        text!(
            "A batch that is written down is not changed any more; only the last one can be taken back."
        ),
    );
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
            words(
                visit,
                steps,
                (LOT, text!("Lot code"), ""),
                text!("As it stands on the label of what goes in."),
            );
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

fn words(visit: &Visit, steps: &mut Steps, (name, label, usual): (&str, &str, &str), note: &str) {
    let about = Field {
        name,
        label,
        takes: Takes::Words,
        usual,
        note,
    };
    field(steps, visit, &about);
}

/// The fields of the batch itself.
fn batch_fields(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    let code = proposed(ledger, visit);
    words(
        visit,
        steps,
        (CODE, text!("Code of the batch"), &code),
        text!("What stands on its label."),
    );
    let label = text!("Sold as");
    choice(steps, visit, (PRODUCT, label, ""), &products(ledger));
    let (today, now) = (visit.today.0.to_string(), visit.today.1.to_string());
    for (name, label, takes, usual, note) in [
        (
            DAY,
            text!("Day of grinding"),
            Takes::Day,
            today.as_str(),
            "",
        ),
        (TIME, text!("Time of grinding"), Takes::Time, &now, ""),
        (BY, text!("Ground by"), Takes::Words, last_by(ledger), ""),
        (
            CLEANED_DAY,
            text!("Grinder last cleaned on"),
            Takes::Day,
            "",
            text!("Empty with a time below: the day of grinding."),
        ),
        (
            CLEANED_TIME,
            text!("Grinder last cleaned at"),
            Takes::Time,
            "",
            text!("The last cleaning before this batch."),
        ),
    ] {
        let about = Field {
            name,
            label,
            takes,
            usual,
            note,
        };
        field(steps, visit, &about);
    }
}
