//! The place where the plan is questioned: what moves the answer, how sure it
//! is, what would be better. Every panel asks the worker and draws what it
//! answers.

mod blocks;
mod charts;
mod control;
mod panel;
mod reckoner;

use advice::Panel;
use yew::prelude::*;

use crate::state::{Action, Figures};
use draft::Units;

use panel::QuestionPanel;
use reckoner::Reckoner;

/// What [`WhatIf`] asks about.
#[derive(Properties, PartialEq)]
pub struct WhatIfProps {
    /// The last figures that could be worked out.
    pub figures: Option<Figures>,
    /// Units in force.
    pub units: Units,
    /// Whether the place is in sight.
    pub is_shown: bool,
    /// Whether something was just taken over that can be undone.
    pub can_undo: bool,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// The place where the plan is questioned.
#[component]
pub fn WhatIf(props: &WhatIfProps) -> Html {
    let reckoner = use_memo((), |()| Reckoner::default());
    let Some(figures) = &props.figures else {
        return html! { <p class="note">{ "Type the side's weight and price first." }</p> };
    };
    let undo = props.dispatch.reform(|_: MouseEvent| Action::Undo);
    html! {
        <>
            if props.can_undo {
                <p class="undo" role="status">
                    { "Taken over into the plan. " }
                    <button type="button" id="undo" onclick={undo}>{ "Undo" }</button>
                </p>
            }
            { for Panel::ALL.map(|panel| html! {
                <QuestionPanel key={panel.id()} {panel} figures={figures.clone()} units={props.units}
                    is_shown={props.is_shown} reckoner={Reckoner::clone(&reckoner)} dispatch={props.dispatch.clone()} />
            }) }
        </>
    }
}
