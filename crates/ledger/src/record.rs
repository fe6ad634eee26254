//! The record: sides with their lot codes, and the ways to the grinding log,
//! to where lots went, and to what is kept.

use advice::steps::Steps;
use carcass::ProductId;
use notation::mass_with_unit;
use scale::{ClosedTest, Half, LotScheme, Tag, write_grinding_log, write_lots, write_sides};
use wording::{key, say, text};

use crate::cautions::cautions;
use crate::controls::{Field, Takes, button, field, fold, form, heading, note, trouble};
use crate::ledger::Ledger;
use crate::record_paper::{self, RecordPaper};
use crate::settings::MOST_EARLIER;
use crate::storage;
use crate::tests_kept::title;
use crate::trace::{codes, lot_button, tag_lines};
use crate::view::{GO, VIEW, View};
use crate::visit::{Done, File, Outcome, Refusal, Visit};
use crate::{grinding, printing, tag_correction, trace};

/// The entry of the part that is in sight.
const PART: &str = "record.part";

/// The entry of the scheme of the lot codes.
const SCHEME: &str = "record.scheme";

/// The entry of how many sides are listed.
const LISTED: &str = "record.listed";

/// The entry of the side whose lot codes are listed.
const CODES: &str = "record.codes";

/// So many sides are listed at first, and more at each asking.
const FEW: usize = 12;

/// Cautions of the catalogue that belong beside a side of an older animal.
const OLDER: [&str; 2] = ["vertebral-column", "bones-for-sale"];

/// What of the record is in sight.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Part {
    /// Sides and their lot codes.
    #[default]
    Sides,
    /// The grinding log.
    Grinding,
    /// Where a lot came from and went.
    Trace,
    /// Files and what is kept.
    Kept,
}

impl Part {
    const ALL: [Self; 4] = [Self::Sides, Self::Grinding, Self::Trace, Self::Kept];

    const fn id(self) -> &'static str {
        match self {
            Self::Sides => "sides",
            Self::Grinding => "grinding",
            Self::Trace => "trace",
            Self::Kept => "kept",
        }
    }

    fn name(self) -> &'static str {
        let name = match self {
            Self::Sides => key!("Sides"),
            Self::Grinding => key!("Grinding log"),
            Self::Trace => key!("Trace a lot"),
            Self::Kept => key!("Files and storage"),
        };
        name.said()
    }

    fn of_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|part| part.id() == id)
    }
}

/// Brings a part of the record in sight.
pub(crate) fn open(visit: &mut Visit, part: Part) {
    visit.entries.set(VIEW, View::Record.id());
    visit.entries.set(PART, part.id());
}

/// Does what is asked about the record.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    let unit = visit.units.mass();
    let table = |name: &str, content: String| {
        let media_type = "text/csv";
        Some(Ok(Done::File(File {
            name: name.to_owned(),
            media_type,
            content,
        })))
    };
    let paper = |ledger: &Ledger, paper| {
        let piece = record_paper::written(ledger, visit, paper);
        Some(Ok(Done::Paper(piece)))
    };
    match verb {
        "print-sides" => return paper(ledger, RecordPaper::Sides),
        "print-log" => return paper(ledger, RecordPaper::Log),
        _ => {}
    }
    match verb {
        "record-part" => {
            storage::forget_joined(visit);
            open(visit, Part::of_id(about).unwrap_or_default());
        }
        "set-scheme" => return Some(set_scheme(ledger, visit)),
        "more-sides" => visit.entries.set(LISTED, about),
        "codes" => visit.entries.set(CODES, about),
        "file-sides" => {
            let tests = ledger.tests().iter().map(|(_, test)| test);
            return table("sides.csv", write_sides(tests, unit));
        }
        "file-lots" => {
            let tests = ledger.tests().iter().map(|(_, test)| test);
            let (catalogue, settings) = (ledger.catalogues().published, &ledger.settings);
            let (scheme, earlier) = (&settings.scheme, settings.earlier());
            let lots = write_lots(catalogue, scheme, earlier, tests, unit);
            return table("lots.csv", lots);
        }
        "file-log" => {
            return table("grinding-log.csv", write_grinding_log(ledger.log(), unit));
        }
        _ => return storage::press(ledger, visit, verb, about),
    }
    Some(Ok(Done::Shown))
}

/// The scheme as it is typed; the one in force where nothing is.
fn scheme(ledger: &Ledger, visit: &Visit) -> Result<LotScheme, Refusal> {
    match visit.entries.text(SCHEME) {
        "" => Ok(ledger.settings.scheme.clone()),
        text => text.parse().map_err(|error| Refusal::at(SCHEME, error)),
    }
}

fn set_scheme(ledger: &mut Ledger, visit: &mut Visit) -> Result<Done, Refusal> {
    let scheme = scheme(ledger, visit)?;
    let mut settings = ledger.settings.clone();
    settings.set_scheme(scheme);
    ledger.set(settings);
    visit.entries.clear(SCHEME);
    Ok(Done::Shown)
}

/// The view.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    let open = Part::of_id(visit.entries.text(PART)).unwrap_or_default();
    let marks = [
        ("class", "views"),
        ("role", "group"),
        ("aria-label", text!("Parts of the record")),
    ];
    steps.element("div", &marks, |steps| {
        for part in Part::ALL {
            let class = if part == open { "view is-open" } else { "view" };
            let pressed = format!("record-part {}", part.id());
            button(steps, class, &pressed, part.name());
        }
    });
    steps.element(
        "div",
        &[("class", "in-view"), ("key", open.id())],
        |steps| match open {
            Part::Sides => {
                sides(ledger, visit, steps);
                older(ledger, steps);
                lot_codes(ledger, visit, steps);
                reminders(steps);
            }
            Part::Grinding => {
                grinding::written(ledger, visit, steps);
                reminders(steps);
            }
            Part::Trace => trace::written(ledger, visit, steps),
            Part::Kept => {
                files(ledger, steps);
                storage::written(ledger, visit, steps);
            }
        },
    );
}

/// What is to be heeded where a side is of an older animal, or may be.
fn older(ledger: &Ledger, steps: &mut Steps) {
    let mut tests = ledger.tests().iter();
    if tests.any(|(_, test)| test.tag.age.counts_as_older()) {
        cautions(ledger, &OLDER, steps);
    }
}

/// The sides, the last one first.
fn sides(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    let tests = ledger.tests();
    if tests.is_empty() {
        note(steps, text!("No side was closed yet."));
        let weigh_in = format!("{GO}{}", View::WeighIn.id());
        button(steps, "offer", &weigh_in, text!("Weigh-in"));
        return;
    }
    let listed = visit.entries.text(LISTED).parse().unwrap_or(FEW);
    steps.element("ul", &[("class", "tests")], |steps| {
        for (number, test) in tests.iter().rev().take(listed) {
            let key = number.to_string();
            steps.element("li", &[("class", "test"), ("key", &key)], |steps| {
                one_side(ledger, visit, (&key, test), steps);
            });
        }
    });
    if tests.len() > listed {
        let more = format!("more-sides {}", listed.saturating_add(FEW));
        button(steps, "quiet", &more, text!("More of them"));
    }
}

fn one_side(ledger: &Ledger, visit: &Visit, (key, test): (&str, &ClosedTest), steps: &mut Steps) {
    steps.holding("strong", &[], &title(test));
    let weight = mass_with_unit(test.chilled, visit.units);
    let mut lines = tag_lines(&test.tag);
    lines.insert(0, weight);
    steps.holding("p", &[], &lines.join(" · "));
    if !test.tag.lot.is_empty() {
        lot_button(steps, &test.tag.lot, text!("Trace"));
    }
    if visit.entries.text(CODES) == key {
        its_codes(ledger, test, steps);
    } else {
        let codes = format!("codes {key}");
        button(steps, "quiet", &codes, text!("Its lot codes"));
    }
    printing::of_closed(ledger, key, steps);
    if test.tag.lot.is_empty() {
        trouble(
            steps,
            "p",
            text!("Without a number no lot code leads back to this side."),
        );
    }
    tag_correction::written(visit, key, &test.tag, steps);
}

fn its_codes(ledger: &Ledger, test: &ClosedTest, steps: &mut Steps) {
    button(steps, "quiet", "codes ", text!("Fold the lot codes up"));
    let catalogue = ledger.catalogues().published;
    steps.element("ul", &[("class", "readings")], |steps| {
        for (product, code) in codes(ledger, test) {
            steps.element("li", &[], |steps| {
                lot_button(steps, &code, &code);
                steps.holding("span", &[], &catalogue[product].name);
            });
        }
    });
}

/// A side that shows what a scheme makes.
fn example(ledger: &Ledger) -> (Tag, Option<ProductId>) {
    let catalogue = ledger.catalogues().published;
    let product = catalogue.product_id("ribeye-roast");
    let product = product.or_else(|| catalogue.products().next().map(|(product, _)| product));
    let last = ledger.tests().last().map(|(_, test)| test.tag.clone());
    let tag = last
        .filter(|tag| !tag.lot.is_empty())
        .unwrap_or_else(|| Tag {
            lot: "A17".to_owned(),
            killed: "2026-03-02".parse().ok(),
            received: "2026-03-09".parse().ok(),
            half: Half::Left,
            ..Tag::default()
        });
    (tag, product)
}

/// How lot codes are made.
fn lot_codes(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    fold(steps, "scheme", text!("How lot codes are made"), |steps| {
        let now = ledger.settings.scheme.to_string();
        let names = say!("In braces what is filled in: {names}.", LotScheme::slots());
        form(steps, "settings", "set-scheme", text!("Set"), |steps| {
            let about = Field {
                name: SCHEME,
                label: text!("Scheme of the lot codes"),
                takes: Takes::Words,
                usual: &now,
                note: &names,
            };
            field(steps, visit, &about);
        });
        if let Ok(scheme) = scheme(ledger, visit) {
            let (tag, product) = example(ledger);
            if let Some(product) = product {
                let catalogue = ledger.catalogues().published;
                let cut = &catalogue[product].name;
                let code = scheme.code(catalogue, &tag, product);
                let said = say!("For example, {cut}: {code}", cut, code);
                steps.holding("p", &[("class", "finding")], &said);
            }
            if !scheme.tells_cuts_apart() {
                trouble(
                    steps,
                    "p",
                    &say!(
                        "Cuts of one side can have the same code by this: {cut} tells them apart.",
                        "{cut}"
                    ),
                );
            }
        }
        let said = say!(
            "Codes are shown by this scheme, those of earlier sides too. Labels that were printed by one of the last {most} schemes before it still lead back here.",
            MOST_EARLIER
        );
        note(steps, &said);
        let earlier = ledger.settings.earlier().iter();
        let earlier: Vec<String> = earlier.map(ToString::to_string).collect();
        if !earlier.is_empty() {
            let said = say!("Earlier schemes: {schemes}", earlier.join(" · "));
            note(steps, &said);
        }
    });
}

/// The tables as files and on paper.
fn files(ledger: &Ledger, steps: &mut Steps) {
    heading(steps, text!("Files for a spreadsheet, and paper"));
    if ledger.tests().is_empty() && ledger.log().batches().is_empty() {
        note(steps, text!("Nothing is recorded yet."));
        return;
    }
    button(steps, "quiet", "file-sides", text!("Sides as a file (CSV)"));
    button(steps, "quiet", "file-lots", text!("Lots as a file (CSV)"));
    let log = text!("Grinding log as a file (CSV)");
    button(steps, "quiet", "file-log", log);
    button(steps, "quiet", "print-sides", text!("Print the sides"));
    let log = text!("Print the grinding log");
    button(steps, "quiet", "print-log", log);
}

/// What records are often asked for.
fn reminders(steps: &mut Steps) {
    fold(
        steps,
        "rules",
        text!("What records are asked for"),
        |steps| {
            for text in [
                text!(
                    "Canada: trace every lot one step back (Safe Food for Canadians Regulations, part 5)."
                ),
                text!("United States: a grinding log for each lot, kept for 1 year (9 CFR 320.1)."),
                text!("Raw meat is held at 4 °C (40 °F) or below (public advice)."),
                text!(
                    "Reminders, no advice: rules differ by place and change. Your local inspector and local codes decide what you have to keep, and for how long."
                ),
            ] {
                note(steps, text);
            }
        },
    );
}
