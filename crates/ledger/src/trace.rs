//! Where a lot came from and where it went: each step is a button, so that from
//! any lot both steps are in sight at one tap.

use advice::steps::Steps;
use carcass::{Catalogue, Kind, ProductId, Role};
use notation::mass_with_unit;
use quantity::Mass;
use scale::grinding_log::Moment;
use scale::lot_code::lot_key;
use scale::{ClosedTest, GrindingLog, Half, Lot, Tag, Trace};
use wording::{say, text};

use crate::controls::{Field, Takes, button, field, form, heading, note};
use crate::ledger::Ledger;
use crate::record::{self, Part};
use crate::record_paper;
use crate::tag_form::{age_said, half_said};
use crate::visit::{Done, Outcome, Refusal, Visit};

/// The entry of the code that is typed.
const TYPED: &str = "trace.lot";

/// The entry of the code that is shown.
const SHOWN: &str = "trace.shown";

/// So many of the last sides and batches are offered where no code is shown.
const FEW: usize = 6;

/// Does what is asked about a lot.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    match verb {
        "trace" if about.is_empty() => {
            let code = visit.entries.text(TYPED).to_owned();
            if code.is_empty() {
                let why = text!("Type the code as it stands on the label.");
                return Some(Err(Refusal::at(TYPED, why)));
            }
            visit.entries.set(SHOWN, &code);
        }
        "trace" => {
            record::open(visit, Part::Trace);
            visit.entries.set(TYPED, about);
            visit.entries.set(SHOWN, about);
        }
        "print-trace" => {
            let piece = record_paper::trace(ledger, visit, about);
            return Some(Ok(Done::Paper(piece)));
        }
        "trace-close" => visit.entries.clear_under("trace."),
        _ => return None,
    }
    Some(Ok(Done::Shown))
}

/// A button that leads to a lot.
pub(crate) fn lot_button(steps: &mut Steps, code: &str, said: &str) {
    button(steps, "quiet lot", &format!("trace {code}"), said);
}

/// What the sides and the batches of the shop were made of and went into.
pub(crate) fn trace_of(ledger: &Ledger) -> Trace<'_> {
    let tests = ledger.tests().iter().map(|(_, test)| test);
    trace_of_those(ledger, tests, ledger.log())
}

/// The same of these sides and batches, their codes made as the shop makes and
/// made them.
pub(crate) fn trace_of_those<'a>(
    ledger: &'a Ledger,
    tests: impl IntoIterator<Item = &'a ClosedTest>,
    log: &'a GrindingLog,
) -> Trace<'a> {
    let (catalogue, settings) = (ledger.catalogues().published, &ledger.settings);
    Trace::of(catalogue, &settings.scheme, tests, log).with_earlier(settings.earlier())
}

/// The codes of what a side gave, with what each is: trims first, then by the
/// order of the catalogue. Losses have none.
pub(crate) fn codes(ledger: &Ledger, test: &ClosedTest) -> Vec<(ProductId, String)> {
    let catalogue = ledger.catalogues().published;
    let mut products: Vec<ProductId> = test
        .gave(catalogue)
        .into_keys()
        .filter(|product| catalogue[*product].kind != Kind::Loss)
        .collect();
    let is_trim = |product: ProductId| {
        let role = catalogue[product].role;
        matches!(role, Some(Role::LeanTrim | Role::FatTrim))
    };
    products.sort_by_key(|product| (!is_trim(*product), *product));
    let scheme = &ledger.settings.scheme;
    products
        .into_iter()
        .map(|product| (product, scheme.code(catalogue, &test.tag, product)))
        .collect()
}

/// A day and a time of it.
pub(crate) fn moment_said((day, time): Moment) -> String {
    format!("{day} {time}")
}

/// What the tag of a side says, a line for each thing that is known.
pub(crate) fn tag_lines(tag: &Tag) -> Vec<String> {
    let day = |day: Option<pricing::CalendarDate>| day.map(|day| day.to_string());
    let words = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    let half = (tag.half != Half::Untold).then(|| half_said(tag.half).to_owned());
    let known = [
        (text!("Supplier"), words(&tag.supplier)),
        (text!("Farm"), words(&tag.farm)),
        (text!("Plant where it was killed"), words(&tag.plant)),
        (text!("Day of kill"), day(tag.killed)),
        (text!("Day of receipt"), day(tag.received)),
        (text!("Which side"), half),
        (
            text!("Age of the animal"),
            Some(age_said(tag.age).to_owned()),
        ),
        (
            text!("Temperature at receipt"),
            tag.celsius.map(|celsius| {
                let celsius = notation::number(celsius, 1, quantity::Rounding::HalfEven);
                format!("{celsius} °C")
            }),
        ),
    ];
    let claims = tag.claims.iter().map(|claim| {
        let backed = if claim.document.is_empty() {
            text!("no document").to_owned()
        } else {
            claim.document.clone()
        };
        say!("{label}: {value}", claim.what, backed)
    });
    known
        .into_iter()
        .filter_map(|(label, value)| Some(say!("{label}: {value}", label, value?)))
        .chain(claims)
        .collect()
}

/// The view.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    form(steps, "weighing", "trace", text!("Trace"), |steps| {
        let about = Field {
            name: TYPED,
            label: text!("Lot code"),
            takes: Takes::Words,
            usual: "",
            note: text!("As it stands on the label: of a side, a cut or a batch."),
        };
        field(steps, visit, &about);
    });
    let code = visit.entries.text(SHOWN);
    if code.is_empty() {
        offered(ledger, steps);
        return;
    }
    let catalogue = ledger.catalogues().published;
    let trace = trace_of(ledger);
    let found = trace.what(code);
    if found.is_empty() {
        note(steps, &say!("No lot here is called {code}.", code));
        button(steps, "quiet", "trace-close", text!("Another lot"));
        return;
    }
    heading(steps, code);
    for lot in found {
        what(catalogue, visit, lot, steps);
        code_in_force(ledger, code, lot, steps);
    }
    heading(steps, text!("One step back"));
    let sellers = sellers(&trace, code);
    for supplier in &sellers {
        let said = say!("{label}: {value}", text!("Supplier"), supplier);
        steps.holding("p", &[], &said);
    }
    let back = trace.back(code);
    if back.is_empty() && sellers.is_empty() {
        note(steps, text!("Nothing before it is recorded here."));
    }
    list(visit, &back, steps);
    heading(steps, text!("One step forward"));
    let forward = forward(&trace, code);
    if forward.is_empty() {
        note(
            steps,
            text!("Nothing after it is recorded here: it is here still, or was sold."),
        );
    }
    list(visit, &forward, steps);
    let print = format!("print-trace {code}");
    button(steps, "quiet", &print, text!("Print"));
    button(steps, "quiet", "trace-close", text!("Another lot"));
}

/// One step forward, without what was lost.
pub(crate) fn forward(trace: &Trace, code: &str) -> Vec<(String, Option<Mass>)> {
    let mut ahead = trace.forward(code);
    ahead.retain(|(code, _)| !trace.is_loss(code));
    ahead
}

/// The suppliers of the sides that have this number: they are one step back.
pub(crate) fn sellers<'a>(trace: &Trace<'a>, code: &str) -> Vec<&'a str> {
    trace
        .what(code)
        .into_iter()
        .filter_map(|lot| match lot {
            Lot::Side(tag) => Some(tag.supplier.as_str()),
            Lot::Cut(..) | Lot::Batch(_) | Lot::Unknown => None,
        })
        .filter(|supplier| !supplier.is_empty())
        .collect()
}

/// The last sides and batches.
fn offered(ledger: &Ledger, steps: &mut Steps) {
    let sides = ledger.tests().iter().rev();
    let sides = sides
        .map(|(_, test)| test.tag.lot.as_str())
        .filter(|lot| !lot.is_empty())
        .take(FEW);
    let batches = ledger.log().batches().iter().rev();
    let lots: Vec<&str> = sides
        .chain(batches.map(|batch| batch.code.as_str()).take(FEW))
        .collect();
    if lots.is_empty() {
        note(
            steps,
            text!(
                "Sides get their lots where they are weighed and closed, batches in the grinding log."
            ),
        );
    }
    steps.element("ul", &[("class", "readings")], |steps| {
        for lot in lots {
            steps.element("li", &[], |steps| lot_button(steps, lot, lot));
        }
    });
}

fn what(catalogue: &Catalogue, visit: &Visit, lot: Lot, steps: &mut Steps) {
    match lot {
        Lot::Side(tag) => {
            steps.holding("p", &[("class", "finding")], text!("A side."));
            for line in tag_lines(tag) {
                steps.holding("p", &[], &line);
            }
        }
        Lot::Cut(tag, product) => {
            let said = cut_said(catalogue, tag, product);
            steps.holding("p", &[("class", "finding")], &said);
        }
        Lot::Batch(batch) => {
            let said = say!(
                "{cut}, ground {moment}: {weight}.",
                product_named(catalogue, &batch.product),
                moment_said(batch.ground),
                mass_with_unit(batch.weight(), visit.units)
            );
            steps.holding("p", &[("class", "finding")], &said);
        }
        Lot::Unknown => note(steps, text!("Nothing but its code is known here.")),
    }
}

/// The code of a cut by the scheme in force, where an earlier one led to it.
fn code_in_force(ledger: &Ledger, code: &str, lot: Lot, steps: &mut Steps) {
    let Lot::Cut(tag, product) = lot else {
        return;
    };
    let catalogue = ledger.catalogues().published;
    let now = ledger.settings.scheme.code(catalogue, tag, product);
    if lot_key(&now) != lot_key(code) {
        note(
            steps,
            text!("This is its code by an earlier scheme. By the one in force:"),
        );
        lot_button(steps, &now, &now);
    }
}

/// What a cut of a side is called.
pub(crate) fn cut_said(catalogue: &Catalogue, tag: &Tag, product: ProductId) -> String {
    let cut = &catalogue[product].name;
    say!("{cut} of the side {lot}.", cut, side_named(&tag.lot))
}

fn side_named(lot: &str) -> &str {
    if lot.is_empty() {
        text!("without a number")
    } else {
        lot
    }
}

/// The name of a product by its id; the id where the catalogue does not know it.
pub(crate) fn product_named<'a>(catalogue: &'a Catalogue, id: &'a str) -> &'a str {
    match catalogue.product_id(id) {
        Some(product) => &catalogue[product].name,
        None => id,
    }
}

/// Lots, each a button that goes on to it.
fn list(visit: &Visit, lots: &[(String, Option<Mass>)], steps: &mut Steps) {
    steps.element("ul", &[("class", "readings")], |steps| {
        for (code, weight) in lots {
            steps.element("li", &[], |steps| {
                if code.is_empty() {
                    steps.text(text!("Side without a number"));
                } else {
                    lot_button(steps, code, code);
                }
                if let Some(weight) = weight {
                    let weight = mass_with_unit(*weight, visit.units);
                    steps.holding("span", &[], &weight);
                }
            });
        }
    });
}
