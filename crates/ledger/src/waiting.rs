//! Sides that wait: begun at the block and put by, so that another can lie there
//! meanwhile. Each is kept whole, with its plan, its weighings and what stands in
//! its fields, until it is gone on with.

use advice::steps::Steps;
use carcass::Catalogue;
use form_urlencoded::Serializer;
use notation::mass_with_unit;
use scale::WeighIn;
use wording::{say, text};

use crate::bench::{Bench, in_order, plan_text, read_plan};
use crate::block_time::MINUTES;
use crate::controls::{button, heading, note, trouble};
use crate::kept::Kept;
use crate::ledger::Ledger;
use crate::tag_form::TAG;
use crate::visit::{Done, Outcome, Refusal, Visit};
use crate::weighing_lines::WEIGHED;

/// Before the key of a side that waits: the moment at which it was begun.
const WAITING: &str = "waiting.";

/// So many sides wait at most. A shop that hangs more of them has no block for
/// them, and every one takes room.
const MOST_WAITING: usize = 12;

/// The fields that belong to the side at the block and to no other.
pub(crate) const OF_THE_SIDE: [&str; 3] = [WEIGHED, MINUTES, TAG];

/// The number of the side.
const LOT: &str = "tag.lot";

/// Who sold it.
const SUPPLIER: &str = "tag.supplier";

/// A side that waits.
struct Waiting {
    bench: Bench,
    /// Its fields by name.
    fields: Vec<(String, String)>,
}

impl Waiting {
    fn to_text(&self, catalogue: &Catalogue) -> String {
        let mut text = Serializer::new(String::new());
        text.append_pair("plan", &plan_text(self.bench.begun, &self.bench.draft))
            .append_pair("weighed", &self.bench.weigh_in.to_text(catalogue));
        let mut fields = Serializer::new(String::new());
        fields.extend_pairs(&self.fields);
        text.append_pair("fields", &fields.finish())
            .append_pair("end", "")
            .finish()
    }

    /// `None` where it was cut off or is none.
    fn of_text(text: &str, catalogue: &Catalogue) -> Option<Self> {
        let mut next = in_order(text);
        let (begun, draft) = read_plan(&next("plan")?)?;
        let back = WeighIn::of_text(catalogue, &next("weighed")?).ok()?;
        let fields = next("fields")?;
        next("end")?;
        let is_its_own = |name: &str| OF_THE_SIDE.iter().any(|own| name.starts_with(own));
        Some(Self {
            bench: Bench {
                draft,
                begun,
                weigh_in: back.weigh_in,
                was_cut_off: back.cut_off.is_some(),
            },
            fields: form_urlencoded::parse(fields.as_bytes())
                .into_owned()
                .filter(|(name, _)| is_its_own(name))
                .collect(),
        })
    }

    fn field(&self, name: &str) -> &str {
        let found = self.fields.iter().find(|(known, _)| known == name);
        found.map_or("", |(_, text)| text.trim())
    }

    /// What it is called: its number and who sold it, as far as they are typed.
    fn title(&self) -> String {
        let lot = match self.field(LOT) {
            "" => text!("Side without a number"),
            lot => lot,
        };
        match self.field(SUPPLIER) {
            "" => lot.to_owned(),
            supplier => format!("{lot} · {supplier}"),
        }
    }
}

/// Does what is asked about sides that wait.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    match verb {
        "put-by" => Some(put_by(ledger, visit)),
        "go-on" => Some(go_on(ledger, visit, about)),
        _ => None,
    }
}

/// Puts the side at the block by. Its timers stop: nobody works on it.
fn put_by(ledger: &mut Ledger, visit: &mut Visit) -> Result<Done, Refusal> {
    let own = ledger.catalogues().own.clone();
    let Ok(mut bench) = Bench::of(&ledger.kept, &own) else {
        return Ok(Done::Shown);
    };
    if ledger.kept.under(WAITING).count() >= MOST_WAITING {
        let most = MOST_WAITING;
        let said = say!("{most} sides wait already: close one first.", most);
        return Err(Refusal::new(said));
    }
    let ways: Vec<_> = bench.weigh_in.times().iter().map(|(way, _)| *way).collect();
    for way in ways {
        if bench.weigh_in.running_since(way).is_some() {
            bench.weigh_in.stop(way, visit.now).map_err(Refusal::new)?;
        }
    }
    // Two sides may have been begun in one moment, by a clock that was set back.
    let mut key = bench.begun;
    while ledger.kept.text(&format!("{WAITING}{key}")).is_some() {
        key = key.saturating_add(1);
    }
    let fields = OF_THE_SIDE
        .iter()
        .flat_map(|own| visit.entries.under(own))
        .map(|(name, text)| (name.to_owned(), text.to_owned()))
        .collect();
    let waiting = Waiting { bench, fields };
    ledger
        .kept
        .put(&format!("{WAITING}{key}"), waiting.to_text(&own));
    clear_block(&mut ledger.kept, visit);
    Ok(Done::Shown)
}

/// Clears the block and the fields of the side that lay there.
pub(crate) fn clear_block(kept: &mut Kept, visit: &mut Visit) {
    Bench::clear(kept);
    for fields in OF_THE_SIDE {
        visit.entries.clear_under(fields);
    }
}

/// Puts a side that waits back on the block, and the one that lies there by.
fn go_on(ledger: &mut Ledger, visit: &mut Visit, begun: &str) -> Result<Done, Refusal> {
    let key = format!("{WAITING}{begun}");
    let own = ledger.catalogues().own.clone();
    let text = ledger.kept.text(&key);
    let Some(waiting) = text.and_then(|text| Waiting::of_text(text, &own)) else {
        return Ok(Done::Shown);
    };
    // Its own place is free from here on, so that two can always change places.
    ledger.kept.remove(&key);
    put_by(ledger, visit)?;
    for (name, text) in &waiting.fields {
        visit.entries.set(name, text);
    }
    waiting.bench.keep(&mut ledger.kept, &own);
    Ok(Done::Shown)
}

/// The button that puts the side at the block by.
pub(crate) fn button_to_put_by(steps: &mut Steps) {
    button(
        steps,
        "quiet",
        "put-by",
        text!("Put this side by and take another"),
    );
}

/// The sides that wait; nothing where none does.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    let own = ledger.catalogues().own;
    let mut waiting = ledger.kept.under(WAITING).peekable();
    if waiting.peek().is_none() {
        steps.nothing();
        return;
    }
    steps.element("section", &[("key", "waiting")], |steps| {
        heading(steps, text!("Sides that wait"));
        steps.element("ul", &[("class", "tests")], |steps| {
            for (begun, text) in waiting {
                steps.element("li", &[("class", "test"), ("key", begun)], |steps| {
                    match Waiting::of_text(text, own) {
                        Some(side) => one(&side, begun, visit, steps),
                        None => trouble(
                            steps,
                            "p",
                            text!(
                                "This side cannot be read. It stays where it is and goes into the file of everything."
                            ),
                        ),
                    }
                });
            }
        });
    });
}

fn one(side: &Waiting, begun: &str, visit: &Visit, steps: &mut Steps) {
    steps.holding("strong", &[], &side.title());
    let weighed = mass_with_unit(side.bench.weigh_in.total(), visit.units);
    note(steps, &say!("{weighed} weighed so far.", weighed));
    button(
        steps,
        "quiet",
        &format!("go-on {begun}"),
        text!("Go on with this side"),
    );
}
