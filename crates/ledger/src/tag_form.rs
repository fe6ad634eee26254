//! The tag of a side as it is typed: of the one at the block, kept in the fields
//! until the side is closed, or of a closed one that is corrected.

use advice::steps::Steps;
use pricing::{Age, CalendarDate};
use quantity::{Decimal, typed};
use scale::tag::{MOST_CLAIMS, celsius};
use scale::{Claim, Half, Tag};
use wording::{say, text};

use crate::controls::{Field, Takes, choice, field, note};
use crate::visit::{Refusal, Visit};

/// Before the names of the fields of the side at the block.
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

/// The fields, their names beginning with `of`.
pub(crate) fn written(visit: &Visit, of: &str, steps: &mut Steps) {
    let named = |name: &str| format!("{of}{name}");
    let (day, _) = visit.today;
    let today = day.to_string();
    let lot_note = text!("What the shop calls this side by; every lot code leads back to it.");
    words(
        visit,
        steps,
        &named("lot"),
        text!("Animal or lot number"),
        lot_note,
    );
    words(visit, steps, &named("supplier"), text!("Supplier"), "");
    words(visit, steps, &named("farm"), text!("Farm"), "");
    words(
        visit,
        steps,
        &named("plant"),
        text!("Plant where it was killed"),
        "",
    );
    for (name, label, usual) in [
        (named("killed"), text!("Day of kill"), ""),
        (named("received"), text!("Day of receipt"), today.as_str()),
    ] {
        let takes = Takes::Day;
        field(
            steps,
            visit,
            &Field {
                name: &name,
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
        (&named("half"), text!("Which side"), ""),
        &HALVES.map(|half| (half_value(half), half_said(half).to_owned())),
    );
    field(
        steps,
        visit,
        &Field {
            name: &named("celsius"),
            label: text!("Temperature at receipt"),
            takes: Takes::Number("°C"),
            usual: "",
            note: text!(
                "Raw meat is usually held at 4 °C (40 °F) or below. What is to be refused, local codes and the inspector decide."
            ),
        },
    );
    for index in 0..=claims(visit, of).len().min(MOST_CLAIMS - 1) {
        let (what, document) = claim_names(of, index);
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

fn claim_names(of: &str, index: usize) -> (String, String) {
    (
        format!("{of}claim.{index}"),
        format!("{of}document.{index}"),
    )
}

/// The claims that are typed.
fn claims(visit: &Visit, of: &str) -> Vec<Claim> {
    (0..MOST_CLAIMS)
        .map(|index| claim_names(of, index))
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

/// The tag as it is typed into the fields whose names begin with `of`.
///
/// # Errors
/// A refusal at the field that cannot be read.
pub(crate) fn read(visit: &Visit, of: &str, age: Age) -> Result<Tag, Refusal> {
    let named = |name: &str| format!("{of}{name}");
    let words = |name: &str| short(visit.entries.text(&named(name)));
    let half = visit.entries.text(&named("half")).to_owned();
    Ok(Tag {
        lot: words("lot"),
        supplier: words("supplier"),
        farm: words("farm"),
        plant: words("plant"),
        killed: day(visit, &named("killed"))?,
        received: match visit.entries.exact(&named("received")) {
            None => Some(visit.today.0),
            Some(_) => day(visit, &named("received"))?,
        },
        half: HALVES
            .into_iter()
            .find(|known| half_value(*known) == half)
            .unwrap_or_default(),
        age,
        celsius: temperature(visit, &named("celsius"))?,
        claims: claims(visit, of),
    })
}

/// Fills the fields whose names begin with `of` with what a tag says.
pub(crate) fn fill(visit: &mut Visit, of: &str, tag: &Tag) {
    let day = |day: Option<CalendarDate>| day.map(|day| day.to_string()).unwrap_or_default();
    let celsius = tag.celsius.map(|degrees| degrees.normalize().to_string());
    for (name, text) in [
        ("lot", tag.lot.as_str()),
        ("supplier", &tag.supplier),
        ("farm", &tag.farm),
        ("plant", &tag.plant),
        ("killed", &day(tag.killed)),
        ("received", &day(tag.received)),
        ("half", half_value(tag.half)),
        ("celsius", &notation::as_typed(&celsius.unwrap_or_default())),
    ] {
        visit.entries.set(&format!("{of}{name}"), text);
    }
    for (index, claim) in tag.claims.iter().enumerate() {
        let (what, document) = claim_names(of, index);
        visit.entries.set(&what, &claim.what);
        visit.entries.set(&document, &claim.document);
    }
}

const HALVES: [Half; 3] = [Half::Untold, Half::Left, Half::Right];

pub(crate) fn half_said(half: Half) -> &'static str {
    match half {
        Half::Untold => text!("Not told"),
        Half::Left => text!("Left"),
        Half::Right => text!("Right"),
    }
}

pub(crate) fn age_said(age: Age) -> &'static str {
    match age {
        Age::Under30Months => text!("Under 30 months"),
        Age::Over30Months => text!("30 months and over"),
        Age::Unknown => text!("Not known"),
    }
}

/// What stands in the field for a half.
const fn half_value(half: Half) -> &'static str {
    match half {
        Half::Untold => "",
        Half::Left => "left",
        Half::Right => "right",
    }
}

fn temperature(visit: &Visit, name: &str) -> Result<Option<Decimal>, Refusal> {
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
