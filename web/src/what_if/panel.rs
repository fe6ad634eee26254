//! A panel: a question, what can be set about it, and its answer.

use std::collections::BTreeMap;
use std::rc::Rc;

use advice::{Answer, Panel, Request};
use yew::prelude::*;

use super::blocks::drawn;
use super::control::control;
use super::reckoner::{Heard, Reckoner};
use crate::state::{Action, Figures};
use draft::Units;

/// What a [`QuestionPanel`] asks about.
#[derive(Properties, PartialEq)]
pub struct QuestionPanelProps {
    /// Its question.
    pub panel: Panel,
    /// The plan.
    pub figures: Figures,
    /// Units in force.
    pub units: Units,
    /// Whether it is in sight.
    pub is_shown: bool,
    /// Whom it asks.
    pub reckoner: Reckoner,
    /// Where accepted offers go.
    pub dispatch: Callback<Action>,
}

/// A panel. It asks only while it is open and in sight.
#[component]
pub fn QuestionPanel(props: &QuestionPanelProps) -> Html {
    let panel = props.panel;
    let is_open = use_state_eq(|| false);
    let entries = use_state(|| Rc::new(BTreeMap::<String, String>::new()));
    let heard = use_state(|| None::<Heard>);
    let asked = (
        props.figures.clone(),
        props.units,
        entries.clone(),
        *is_open && props.is_shown,
    );
    {
        let reckoner = props.reckoner.clone();
        let heard = heard.setter();
        use_effect_with((), move |()| {
            reckoner.listen(panel, Callback::from(move |answer| heard.set(Some(answer))));
        });
    }
    {
        let reckoner = props.reckoner.clone();
        use_effect_with(asked, move |(figures, units, entries, is_asking)| {
            if let (true, Ok(document)) = (*is_asking, figures.document.to_json()) {
                reckoner.ask(Request {
                    panel,
                    document,
                    units: *units,
                    entries: BTreeMap::clone(entries),
                });
            }
        });
    }
    let set = {
        let entries = entries.clone();
        Callback::from(move |(id, text): (String, Option<String>)| {
            let mut next = BTreeMap::clone(&entries);
            match text {
                Some(text) => next.insert(id, text),
                None => next.remove(&id),
            };
            entries.set(Rc::new(next));
        })
    };
    let toggle = {
        let is_open = is_open.clone();
        Callback::from(move |event: Event| {
            let details: web_sys::HtmlDetailsElement = event.target_unchecked_into();
            is_open.set(details.open());
        })
    };
    let back = {
        let entries = entries.clone();
        Callback::from(move |_: MouseEvent| entries.set(Rc::default()))
    };
    let answer: Option<&Rc<Answer>> = heard.as_ref().and_then(|heard| heard.as_ref().ok());
    let trouble = heard.as_ref().and_then(|heard| heard.as_ref().err());
    html! {
        <details class="question" id={panel.id()} ontoggle={toggle}>
            <summary>{ panel.name() }</summary>
            if let Some(trouble) = trouble {
                <p class="fault" role="alert">{ *trouble }</p>
            }
            if let Some(answer) = answer {
                <div class="controls">
                    { for answer.controls.iter().map(|about| control(panel, about, &entries, &set)) }
                </div>
                if !entries.is_empty() {
                    <button type="button" class="quiet back" onclick={back}>{ "Back to plan" }</button>
                }
                <div class="answer" aria-live="polite" aria-busy={(!answer.is_final).to_string()}>
                    { for answer.blocks.iter().map(|block| drawn(block, &props.dispatch)) }
                </div>
            } else {
                <p class="note" role="status">{ "Working it out…" }</p>
            }
        </details>
    }
}
