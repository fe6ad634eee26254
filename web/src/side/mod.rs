//! The place of the deal: what is offered, what the shop asks of it.

mod deal;
mod more;
mod save;
mod stock;
mod worked_sample;

use std::rc::Rc;
use wording::{key, say, text};

use quantity::Rounding;
use shelf::Shelf;
use yew::prelude::*;

use crate::element::{all, button, element};
use crate::state::{Action, Data, Figures, Place};
use draft::reading::Faults;
use draft::{Draft, Field};

use deal::deal_fields;
use more::MoreFields;
use save::save_as_file;
use worked_sample::is_first;

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
    /// Plans saved by name.
    pub shelf: Rc<Shelf>,
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
    let start = if is_first(&props.draft) {
        None
    } else if untouched {
        Some(button("quiet", emit(Action::FillInSample)).tell(key!("Try an invented side")))
    } else {
        Some(button("quiet", emit(Action::NewSide)).tell(key!("New side")))
    };
    let more = html! {
        <MoreFields draft={props.draft.clone()} faults={props.faults.clone()}
            expected={expected_yield(props)} dispatch={props.dispatch.clone()} />
    };
    let save = props
        .figures
        .as_ref()
        .map(|figures| save_as_file(figures, &props.shelf));
    let stay = Callback::from(|event: SubmitEvent| event.prevent_default());
    all(vec![
        element("div")
            .class("heading")
            .put(element("h2").say(Place::Side.name()))
            .maybe(start)
            .html(),
        element("form")
            .class("sheet")
            .on(Rc::new(yew::html::onsubmit::Wrapper::new(stay)))
            .node(deal_fields(props))
            .node(more)
            .put(
                element("div")
                    .class("actions")
                    .node(save.unwrap_or_default()),
            )
            .html(),
    ])
}

/// What the graded carcass is expected to give beside what the stock gives.
fn expected_yield(props: &SideProps) -> Option<AttrValue> {
    let figures = props.figures.as_ref()?;
    let expected = figures.resolved.expected_yield.as_ref()?;
    let totals = &figures.sheet.totals;
    let planned = totals.saleable.ratio_to(totals.chilled)?;
    Some(AttrValue::from(say!(
        "Yield grade {grade}{limited}: {saleable} saleable expected, {saleable_low} to {saleable_high} by other published slopes ({mark}). The plan gives {planned}.",
        notation::number(expected.grade.figure(), 1, Rounding::HalfEven),
        if expected.is_limited {
            text!(" (the nearest end of the scale)")
        } else {
            ""
        },
        notation::share(expected.saleable),
        notation::share(expected.saleable_low),
        notation::share(expected.saleable_high),
        expected.mark.words(),
        notation::share(planned)
    )))
}
