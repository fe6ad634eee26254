//! The place of the deal: what is offered, what the shop asks of it.

mod deal;
mod more;
mod save;
mod stock;

use std::rc::Rc;

use quantity::Rounding;
use yew::prelude::*;

use crate::draft::reading::Faults;
use crate::draft::{Draft, Field};
use crate::state::{Action, Data, Figures, Place};

use deal::deal_fields;
use more::MoreFields;
use save::save_as_file;

/// What the place shows.
#[derive(Properties, PartialEq)]
pub struct SideProps {
    /// Plans to choose from.
    pub data: Data,
    /// What was typed.
    pub draft: Rc<Draft>,
    /// What cannot be read.
    pub faults: Rc<Faults>,
    /// The last figures that could be worked out.
    pub figures: Option<Figures>,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// The place of the deal.
#[component]
pub fn Side(props: &SideProps) -> Html {
    let untouched = props.draft.entry(&Field::Weight).text.is_empty()
        && props.draft.entry(&Field::Price).text.is_empty();
    let emit = |action: Action| {
        let dispatch = props.dispatch.clone();
        Callback::from(move |_: MouseEvent| dispatch.emit(action.clone()))
    };
    html! {
        <>
        <div class="heading">
            <h2>{ Place::Side.name() }</h2>
            if untouched {
                <button type="button" class="quiet" onclick={emit(Action::FillInSample)}>
                    { "Try an invented side" }
                </button>
            } else {
                <button type="button" class="quiet" onclick={emit(Action::NewSide)}>{ "New side" }</button>
            }
        </div>
        <form class="sheet" onsubmit={Callback::from(|event: SubmitEvent| event.prevent_default())}>
            { deal_fields(props) }
            <MoreFields draft={props.draft.clone()} faults={props.faults.clone()}
                expected={expected_yield(props)}
                dispatch={props.dispatch.clone()} />
            <div class="actions">
                if let Some(figures) = &props.figures {
                    { save_as_file(figures) }
                }
            </div>
        </form>
        </>
    }
}

/// What the graded carcass is expected to give beside what the stock gives.
fn expected_yield(props: &SideProps) -> Option<AttrValue> {
    let figures = props.figures.as_ref()?;
    let expected = figures.resolved.expected_yield.as_ref()?;
    let totals = &figures.sheet.totals;
    let planned = totals.saleable.ratio_to(totals.chilled)?;
    Some(AttrValue::from(format!(
        "Yield grade {}{}: {} saleable expected, {} to {} by other published slopes ({}). The plan gives {}.",
        notation::number(expected.grade.figure(), 1, Rounding::HalfEven),
        if expected.is_limited {
            " (the nearest end of the scale)"
        } else {
            ""
        },
        notation::percent(expected.saleable),
        notation::percent(expected.saleable_low),
        notation::percent(expected.saleable_high),
        expected.mark.words(),
        notation::percent(planned),
    )))
}
