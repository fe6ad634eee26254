//! Fields and buttons of the ledger's pieces of the page. A field is named by
//! the entry that it writes; what is wrong with it stands under it.

use advice::steps::{self, Steps};
use advice::wire::{ENTRY, WRITES};

use crate::visit::Visit;

/// What a field takes.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Takes {
    /// A number, with its unit.
    Number(&'static str),
    /// Words.
    Words,
    /// A day.
    Day,
    /// A time of the day.
    Time,
    /// A file, of which the text goes into the entry.
    File,
}

/// A field.
#[derive(Clone, Copy)]
pub(crate) struct Field<'a> {
    /// The entry it writes.
    pub(crate) name: &'a str,
    /// Its label.
    pub(crate) label: &'a str,
    /// What it takes.
    pub(crate) takes: Takes,
    /// What stands in it until something is typed.
    pub(crate) usual: &'a str,
    /// What it is, in a line; nothing where its label says it all.
    pub(crate) note: &'a str,
}

/// The id of the control that writes an entry.
pub(crate) fn id(name: &str) -> String {
    format!("scale-{}", name.replace([' ', '.'], "-"))
}

/// A field with its label, its unit and what it has to say.
pub(crate) fn field(steps: &mut Steps, visit: &Visit, field: &Field) {
    let fault = visit.faults.get(field.name);
    field_with(steps, visit, field, fault);
}

/// The same where what is wrong with it is found while it is shown.
pub(crate) fn field_with(steps: &mut Steps, visit: &Visit, field: &Field, fault: Option<&String>) {
    labelled(
        steps,
        field.name,
        field.label,
        fault,
        field.note,
        |steps, marks| {
            let value = visit.entries.exact(field.name).unwrap_or(field.usual);
            steps.element("input", marks, |steps| {
                let kind = match field.takes {
                    Takes::Number(_) | Takes::Words => "text",
                    Takes::Day => "date",
                    Takes::Time => "time",
                    Takes::File => "file",
                };
                steps.step('=', &format!("type {kind}"));
                if let Takes::Number(_) = field.takes {
                    steps.step('=', "inputmode decimal");
                }
                // What a file holds is not for its field to show.
                if field.takes != Takes::File {
                    steps.step('=', "autocomplete off");
                    steps.step('=', &format!("value {value}"));
                }
                if fault.is_some() {
                    steps.step('=', "aria-invalid true");
                }
            });
            if let Takes::Number(unit) = field.takes {
                steps.holding("span", &[("class", "unit")], unit);
            }
        },
    );
}

/// One of a few, each a value and its name; the first unless another is chosen.
pub(crate) fn choice(
    steps: &mut Steps,
    visit: &Visit,
    (name, label, note): (&str, &str, &str),
    choices: &[(&str, String)],
) {
    let chosen = visit.entries.text(name);
    let fault = visit.faults.get(name);
    labelled(steps, name, label, fault, note, |steps, marks| {
        steps.element("select", marks, |steps| {
            let chosen = choices.iter().position(|(value, _)| *value == chosen);
            let in_force = chosen.unwrap_or(0);
            steps.step('=', &format!("selectedIndex {in_force}"));
            for (index, (value, said)) in choices.iter().enumerate() {
                steps.element("option", &[("value", value)], |steps| {
                    if index == in_force {
                        steps.step('=', "selected selected");
                    }
                    steps.text(said);
                });
            }
        });
    });
}

fn labelled(
    steps: &mut Steps,
    name: &str,
    label: &str,
    fault: Option<&String>,
    note: &str,
    control: impl FnOnce(&mut Steps, &[(&str, &str)]),
) {
    let (id, note_id) = (id(name), format!("{}-note", id(name)));
    let class = if fault.is_some() {
        "field has-fault"
    } else {
        "field"
    };
    steps.element("div", &[("class", class), ("key", name)], |steps| {
        steps.holding("label", &[("for", &id)], label);
        let has_note = fault.is_some() || !note.is_empty();
        let mut marks = vec![("id", id.as_str()), (ENTRY, name)];
        if has_note {
            marks.push(("aria-describedby", &note_id));
        }
        steps.element("div", &[("class", "box")], |steps| control(steps, &marks));
        if has_note {
            steps.element(
                "p",
                &[("class", "note"), ("id", &note_id)],
                |steps| match fault {
                    Some(fault) => trouble(steps, "span", fault),
                    None => steps.text(note),
                },
            );
        } else {
            steps.nothing();
        }
    });
}

/// Something that is wrong, in words and with a sign.
pub(crate) fn trouble(steps: &mut Steps, element: &str, why: &str) {
    let mut marks = vec![("class", "fault")];
    if element == "p" {
        marks.push(("role", "alert"));
    }
    steps.element(element, &marks, |steps| {
        steps.holding("span", &[("aria-hidden", "true")], "✕ ");
        steps.text(why);
    });
}

/// A button that asks for something.
pub(crate) fn button(steps: &mut Steps, class: &str, pressed: &str, text: &str) {
    steps::button(steps, &[("class", class), (WRITES, pressed)], text);
}

/// A button with another name than the sign that it shows.
pub(crate) fn button_named(steps: &mut Steps, class: &str, pressed: &str, text: &str, name: &str) {
    let marks = [("class", class), (WRITES, pressed), ("aria-label", name)];
    steps::button(steps, &marks, text);
}

/// A button that asks whether it is meant before it is taken at its word.
/// `sure` says what will be done.
pub(crate) fn button_surely(
    steps: &mut Steps,
    visit: &Visit,
    pressed: &str,
    [text, sure, keep]: [&str; 3],
) {
    if visit.entries.text(SURE) == pressed {
        steps.element("div", &[("class", "sure"), ("role", "alert")], |steps| {
            steps.holding("p", &[], sure);
            button(steps, "risky", pressed, text);
            button(steps, "quiet", KEEP, keep);
        });
    } else {
        button(steps, "quiet", &format!("{ASK_FIRST}{pressed}"), text);
    }
}

/// The entry that holds what a person is asked about before it is done.
pub(crate) const SURE: &str = "sure";

/// Before what is asked about first.
pub(crate) const ASK_FIRST: &str = "sure? ";

/// Pressed where a person thought better of it.
pub(crate) const KEEP: &str = "keep";

/// A form whose fields are handed in by the enter key or its button.
pub(crate) fn form(
    steps: &mut Steps,
    class: &str,
    pressed: &str,
    text: &str,
    content: impl FnOnce(&mut Steps),
) {
    steps.element("form", &[("class", class), (WRITES, pressed)], |steps| {
        content(steps);
        steps.holding("button", &[("type", "submit")], text);
    });
}

/// A heading within a place.
pub(crate) fn heading(steps: &mut Steps, text: &str) {
    steps.holding("h3", &[], text);
}

/// A sentence that explains.
pub(crate) fn note(steps: &mut Steps, text: &str) {
    steps.holding("p", &[("class", "note")], text);
}

/// A button that shows what it names, or puts it away again.
pub(crate) fn unfolded_by(steps: &mut Steps, is_open: bool, pressed: &str, text: &str) {
    let expanded = if is_open { "true" } else { "false" };
    let marks = [
        ("class", "unfold"),
        (WRITES, pressed),
        ("aria-expanded", expanded),
        ("key", pressed),
    ];
    steps::button(steps, &marks, text);
}

/// Something folded away.
pub(crate) fn fold(steps: &mut Steps, key: &str, text: &str, content: impl FnOnce(&mut Steps)) {
    steps.element("details", &[("class", "fold"), ("key", key)], |steps| {
        steps.holding("summary", &[], text);
        content(steps);
    });
}
