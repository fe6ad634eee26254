//! A field with a choice among a few.

use web_sys::HtmlSelectElement;
use yew::prelude::*;

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
        .and_then(|index| u32::try_from(index).ok())
        .unwrap_or_default();
    html! {
        <select id={marks.id} class={marks.class} aria-label={marks.label} data-part={marks.part}
            aria-describedby={marks.described_by} onchange={chosen(choose)} ~selectedIndex={index}>
            { for choices.iter().map(|(value, name)| html! {
                <option value={value.clone()} selected={value.as_str() == in_force}>{ name }</option>
            }) }
        </select>
    }
}

/// A labelled select with a line of help below it.
pub fn select_field(
    id: &'static str,
    label: &'static str,
    choices: &[Choice],
    in_force: &str,
    hint: Html,
    choose: impl Fn(String) + 'static,
) -> Html {
    let note_id = format!("{id}-note");
    let marks = SelectMarks {
        id: Some(id.into()),
        described_by: Some(note_id.clone()),
        ..SelectMarks::default()
    };
    html! {
        <div class="field">
            <label for={id}>{ label }</label>
            <div class="box">
                { select(marks, choices, in_force, choose) }
            </div>
            <p class="note" id={note_id}>{ hint }</p>
        </div>
    }
}
