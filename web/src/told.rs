//! What the worker tells about the plan where it is opened.

use std::rc::Rc;

use advice::wire::Told;
use yew::prelude::*;

use crate::element::{all, element};
use crate::piece::{self, Ears};
use crate::reckoner::{self, no_worker, use_answer};
use crate::state::Figures;
use crate::value::use_value;

/// What a [`Telling`] is about.
#[derive(Properties, PartialEq)]
pub struct TellingProps {
    /// The figures.
    pub figures: Figures,
    /// What is told.
    pub told: Told,
    /// About which of its kind.
    #[prop_or_default]
    pub about: AttrValue,
}

/// A piece that the worker tells, asked for anew with new figures.
#[component]
pub fn Telling(props: &TellingProps) -> Html {
    let (told, about) = (props.told, props.about.clone());
    let heard = use_answer(told.first_line(&about));
    use_effect_with(props.figures.clone(), move |figures| {
        reckoner::ask(&told.request(&figures.draft.to_text(), &about));
    });
    match &*heard {
        Some(Ok(piece)) => all(piece::drawn(piece, &Vec::new(), &Ears::default())),
        Some(Err(())) => element("p").class("fault").say(no_worker()).html(),
        None => Html::default(),
    }
}

/// What an [`Unfolding`] holds.
#[derive(Properties, PartialEq)]
pub struct UnfoldingProps {
    /// Its class.
    pub class: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// The figures.
    pub figures: Figures,
    /// What is told once it is opened.
    pub told: Told,
    /// What stands in it before that.
    #[prop_or_default]
    pub before: Html,
    /// What stands in it after that.
    #[prop_or_default]
    pub after: Html,
}

/// Something folded away that the worker is asked for where it is opened.
#[component]
pub fn Unfolding(props: &UnfoldingProps) -> Html {
    let is_open = use_value(bool::default);
    let toggle = {
        let is_open = is_open.setter();
        Callback::from(move |event: Event| {
            let details: web_sys::HtmlDetailsElement = event.target_unchecked_into();
            is_open.set(details.open());
        })
    };
    let told = is_open.then(|| {
        html! { <Telling figures={props.figures.clone()} told={props.told} /> }
    });
    element("details")
        .class(props.class)
        .on(Rc::new(html::ontoggle::Wrapper::new(toggle)))
        .put(element("summary").say(props.name))
        .node(props.before.clone())
        .node(told.unwrap_or_default())
        .node(props.after.clone())
        .html()
}
