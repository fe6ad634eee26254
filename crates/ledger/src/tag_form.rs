//! The tag of the side at the block, as it is typed: kept in the fields until
//! the side is closed.

use advice::steps::Steps;
use pricing::{Age, CalendarDate};
use quantity::{Decimal, typed};
use scale::tag::{MOST_CLAIMS, celsius};
use scale::{Claim, Half, Tag};
use wording::{say, text};

use crate::controls::{Field, Takes, choice, field, note};
use crate::visit::{Refusal, Visit};

/// Before the names of its fields.
pub(crate) const TAG: &str = "tag.";

/// The longest text of one of its fields, in characters.
const LONGEST: usize = 80;

/// A field of words.
fn words(visit: &Visit, steps: &mut Steps, name: &str, label: &str, note: &str) {
    let about = Field {
        name,
        label,
        takes: Takes::Words,
        usual: "",
        note,
    };
    field(steps, visit, &about);
}

/// The fields.
pub(crate) fn written(visit: &Visit, steps: &mut Steps) {
    let (day, _) = visit.today;
    let today = day.to_string();
    let lot_note = text!("What the shop calls this side by; every lot code leads back to it.");
    words(
        visit,
        steps,
        "tag.lot",
        text!("Animal or lot number"),
        lot_note,
    );
    words(visit, steps, "tag.supplier", text!("Supplier"), "");
    words(visit, steps, "tag.farm", text!("Farm"), "");
    words(
        visit,
        steps,
        "tag.plant",
        text!("Plant where it was killed"),
        "",
    );
    for (name, label, usual) in [
        ("tag.killed", text!("Day of kill"), ""),
        ("tag.received", text!("Day of receipt"), today.as_str()),
    ] {
        let takes = Takes::Day;
        field(
            steps,
            visit,
            &Field {
                name,
                label,
                takes,
                usual,
                note: "",
            },
        );
    }
    choice(
        steps,
        visit,
        ("tag.half", text!("Which side"), ""),
        &[
            ("", text!("Not told").to_owned()),
            ("left", text!("Left").to_owned()),
            ("right", text!("Right").to_owned()),
        ],
    );
    field(
        steps,
        visit,
        &Field {
            name: "tag.celsius",
            label: text!("Temperature at receipt"),
            takes: Takes::Number("°C"),
            usual: "",
            note: text!(
                "Raw meat is usually held at 4 °C (40 °F) or below. What is to be refused, local codes and the inspector decide."
            ),
        },
    );
    for index in 0..=claims(visit).len().min(MOST_CLAIMS - 1) {
        let (what, document) = claim_names(index);
        words(visit, steps, &what, text!("Claim"), "");
        words(visit, steps, &document, text!("Document that backs it"), "");
    }
    note(
        steps,
        text!(
            "A claim such as grass-fed must be true and backed by its document; in some places it needs an approval first."
        ),
    );
}

/// The highest temperature that raw meat is usually held at, in degrees Celsius:
/// public advice (4 °C, 40 °F), as the field says.
const COLD: Decimal = Decimal::from_parts(4, 0, 0, false, 0);

/// What there is to say of a side that came in warmer than raw meat is held.
pub(crate) fn too_warm(visit: &Visit) -> Option<String> {
    let typed = visit.entries.text("tag.celsius");
    let degrees = typed::number(typed).ok().and_then(celsius)?;
    (degrees > COLD).then(|| {
        say!(
            "{degrees} °C at receipt is warmer than 4 °C: whether this side may be cut and sold, local codes and your inspector decide.",
            notation::as_typed(&degrees.normalize().to_string())
        )
    })
}

fn claim_names(index: usize) -> (String, String) {
    (
        format!("tag.claim.{index}"),
        format!("tag.document.{index}"),
    )
}

/// The claims that are typed.
fn claims(visit: &Visit) -> Vec<Claim> {
    (0..MOST_CLAIMS)
        .map(claim_names)
        .map(|(what, document)| Claim {
            what: short(visit.entries.text(&what)),
            document: short(visit.entries.text(&document)),
        })
        .filter(|claim| !claim.what.is_empty())
        .collect()
}

fn short(text: &str) -> String {
    text.chars().take(LONGEST).collect()
}

/// The tag as it is typed.
///
/// # Errors
/// A refusal at the field that cannot be read.
pub(crate) fn read(visit: &Visit, age: Age) -> Result<Tag, Refusal> {
    let words = |name: &str| short(visit.entries.text(name));
    Ok(Tag {
        lot: words("tag.lot"),
        supplier: words("tag.supplier"),
        farm: words("tag.farm"),
        plant: words("tag.plant"),
        killed: day(visit, "tag.killed")?,
        received: match visit.entries.exact("tag.received") {
            None => Some(visit.today.0),
            Some(_) => day(visit, "tag.received")?,
        },
        half: match visit.entries.text("tag.half") {
            "left" => Half::Left,
            "right" => Half::Right,
            _ => Half::Untold,
        },
        age,
        celsius: temperature(visit)?,
        claims: claims(visit),
    })
}

fn temperature(visit: &Visit) -> Result<Option<quantity::Decimal>, Refusal> {
    let name = "tag.celsius";
    let text = visit.entries.text(name);
    if text.is_empty() {
        return Ok(None);
    }
    let (below, digits) = match text.strip_prefix(['-', '−']) {
        Some(digits) => (true, digits),
        None => (false, text),
    };
    let number = typed::number(digits).map_err(|error| Refusal::at(name, error))?;
    let number = if below { -number } else { number };
    match celsius(number) {
        Some(celsius) => Ok(Some(celsius)),
        None => Err(Refusal::at(
            name,
            text!("A temperature lies between −40 and 60 °C here."),
        )),
    }
}

/// A day that is typed, where one is.
///
/// # Errors
/// A refusal where it is none.
pub(crate) fn day(visit: &Visit, name: &str) -> Result<Option<CalendarDate>, Refusal> {
    match visit.entries.text(name) {
        "" => Ok(None),
        text => text.parse().map(Some).map_err(|_| {
            Refusal::at(
                name,
                text!("A day is written year-month-day, such as 2026-03-09."),
            )
        }),
    }
}
