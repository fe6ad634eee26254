//! A field with a choice among a few.

use std::rc::Rc;

use web_sys::HtmlSelectElement;
use yew::prelude::*;

use crate::element::element;

/// One thing to choose: its value, its name.
pub type Choice = (AttrValue, AttrValue);

/// The value chosen in a select, handed on.
fn chosen(choose: impl Fn(String) + 'static) -> Callback<Event> {
    Callback::from(move |event: Event| {
        let select: HtmlSelectElement = event.target_unchecked_into();
        choose(select.value());
    })
}

/// What a bare select needs beside its choices.
#[derive(Default)]
pub struct SelectMarks {
    /// Its id in the page.
    pub id: Option<AttrValue>,
    /// Its class.
    pub class: &'static str,
    /// Its name, where no label stands by it.
    pub label: Option<String>,
    /// The id of what describes it.
    pub described_by: Option<String>,
    /// The part it is about.
    pub part: Option<String>,
}

/// A select. What is in force is set as a property: the attribute of an option
/// does nothing any more once a person has chosen another.
pub fn select(
    marks: SelectMarks,
    choices: &[Choice],
    in_force: &str,
    choose: impl Fn(String) + 'static,
) -> Html {
    let index = choices
        .iter()
        .position(|(value, _)| value.as_str() == in_force)
        .unwrap_or_default();
    drawn(marks, choices, index, chosen(choose))
}

#[inline(never)]
fn drawn(marks: SelectMarks, choices: &[Choice], index: usize, hear: Callback<Event>) -> Html {
    let options = choices.iter().enumerate().map(|(at, (value, name))| {
        element("option")
            .write("value", value.clone())
            .set_if(at == index, "selected", "selected")
            .text(name.clone())
            .html()
    });
    element("select")
        .write_some("id", marks.id)
        .class(marks.class)
        .write_some("aria-label", marks.label.map(AttrValue::from))
        .write_some("data-part", marks.part.map(AttrValue::from))
        .write_some("aria-describedby", marks.described_by.map(AttrValue::from))
        .on(Rc::new(html::onchange::Wrapper::new(hear)))
        .put_all(options)
        .property("selectedIndex", u32::try_from(index).unwrap_or_default())
        .html()
}

/// A labelled select with a line of help below it.
pub fn select_field(
    id: &'static str,
    label: &'static str,
    choices: &[Choice],
    in_force: &str,
    hint: impl Into<AttrValue>,
    choose: impl Fn(String) + 'static,
) -> Html {
    let note_id = format!("{id}-note");
    let marks = SelectMarks {
        id: Some(id.into()),
        described_by: Some(note_id.clone()),
        ..SelectMarks::default()
    };
    labelled(
        id,
        label,
        select(marks, choices, in_force, choose),
        note_id,
        hint.into(),
    )
}

#[inline(never)]
fn labelled(
    id: &'static str,
    label: &'static str,
    select: Html,
    note_id: String,
    hint: AttrValue,
) -> Html {
    element("div")
        .class("field")
        .put(element("label").set("for", id).say(label))
        .put(element("div").class("box").node(select))
        .put(element("p").class("note").write("id", note_id).text(hint))
        .html()
}
