//! A batch of grind as it is typed: beside its lots, what it is, when it was
//! ground and by whom. All of it stands in the fields until it is written down.

use advice::steps::Steps;
use carcass::Role;
use pricing::CalendarDate;
use scale::grinding_log::{Moment, TimeOfDay};
use scale::{Batch, BatchError};
use wording::text;

use crate::batch_lots::{self, LOT, WEIGHT, next_lot, short};
use crate::controls::{Field, Takes, choice, field, form, heading, note};
use crate::ledger::Ledger;
use crate::tag_form::day;
use crate::visit::{Refusal, Visit};

const CODE: &str = "grind.code";
const PRODUCT: &str = "grind.product";
const DAY: &str = "grind.day";
const TIME: &str = "grind.time";
const BY: &str = "grind.by";
const CLEANED_DAY: &str = "grind.cleaned-day";
const CLEANED_TIME: &str = "grind.cleaned-time";

/// The longest name of who ground it, in characters.
const LONGEST_NAME: usize = 80;

/// The batch as it stands in the fields.
pub(crate) fn read(ledger: &Ledger, visit: &Visit) -> Result<Batch, Refusal> {
    let mut lots = batch_lots::lots(visit);
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
    batch_lots::written(ledger, visit, steps);
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
