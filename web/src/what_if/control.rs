//! What can be set in a panel.

use std::collections::BTreeMap;

use advice::{Control, ControlKind, Panel};
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::entry_field::mark_all;
use crate::select_field::{Choice, SelectMarks, select};

/// Sets what is in a control, by its id; nothing lets go of what was typed.
type Set = Callback<(String, Option<String>)>;

/// A control with its label, its unit and what it has to say.
pub fn control(
    panel: Panel,
    about: &Control,
    entries: &BTreeMap<String, String>,
    set: &Set,
) -> Html {
    let id = format!("{}-{}", panel.id(), about.id);
    let note_id = format!("{id}-note");
    let text = entries.get(&about.id).unwrap_or(&about.text);
    let is_own = entries.contains_key(&about.id);
    let handed_on = {
        let set = set.clone();
        let key = about.id.clone();
        Callback::from(move |text: String| set.emit((key.clone(), Some(text))))
    };
    let typed = handed_on.reform(|event: InputEvent| {
        let input: HtmlInputElement = event.target_unchecked_into();
        input.value()
    });
    let forget = {
        let set = set.clone();
        let key = about.id.clone();
        Callback::from(move |_: MouseEvent| set.emit((key.clone(), None)))
    };
    let is_faulty = about.fault.is_some();
    let field = match &about.kind {
        ControlKind::Choice(choices) => {
            let choices: Vec<Choice> = choices
                .iter()
                .map(|(value, name)| (value.clone().into(), name.clone().into()))
                .collect();
            let marks = SelectMarks {
                id: Some(AttrValue::from(id.clone())),
                described_by: Some(note_id.clone()),
                ..SelectMarks::default()
            };
            select(marks, &choices, text, move |value| handed_on.emit(value))
        }
        ControlKind::Typed | ControlKind::Slider(_) => html! {
            <>
                <input id={id.clone()} type="text" inputmode="decimal" autocomplete="off" enterkeyhint="next"
                    value={text.clone()} oninput={typed.clone()} onfocus={mark_all()}
                    aria-invalid={is_faulty.then_some("true")} aria-describedby={note_id.clone()} />
                <span class="unit">{ &about.unit }</span>
            </>
        },
    };
    html! {
        <div key={about.id.clone()} class={classes!("field", is_faulty.then_some("has-fault"), is_own.then_some("is-moved"))}>
            <label for={id.clone()}>{ &about.label }</label>
            <div class="box">{ field }</div>
            if let ControlKind::Slider([low, high, step]) = &about.kind {
                <input class="slider" type="range" aria-label={format!("{}, slider", about.label)}
                    min={low.clone()} max={high.clone()} step={step.clone()} value={text.clone()} oninput={typed} />
            }
            <p class="note" id={note_id}>
                if let Some(fault) = &about.fault {
                    <span class="fault"><span aria-hidden="true">{ "✕ " }</span>{ fault }</span>
                } else {
                    { &about.hint }
                }
            </p>
            if is_own {
                <button type="button" class="quiet" onclick={forget} aria-label={format!("{}: back to plan", about.label)}>{ "Back to plan" }</button>
            }
        </div>
    }
}
