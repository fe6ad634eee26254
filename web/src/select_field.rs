//! A field with a choice among a few.

use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// One thing to choose: its value, its name.
pub type Choice = (AttrValue, AttrValue);

/// The value chosen in a select, handed on.
pub fn chosen(choose: impl Fn(String) + 'static) -> Callback<Event> {
    Callback::from(move |event: Event| {
        let select: HtmlSelectElement = event.target_unchecked_into();
        choose(select.value());
    })
}

/// The options of a select with the one that is in force.
pub fn options(choices: &[Choice], in_force: &str) -> Html {
    html! {
        { for choices.iter().map(|(value, name)| html! {
            <option value={value.clone()} selected={value.as_str() == in_force}>{ name }</option>
        }) }
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
    html! {
        <div class="field">
            <label for={id}>{ label }</label>
            <div class="box">
                <select id={id} onchange={chosen(choose)} aria-describedby={note_id.clone()}>
                    { options(choices, in_force) }
                </select>
            </div>
            <p class="note" id={note_id}>{ hint }</p>
        </div>
    }
}
