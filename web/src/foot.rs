//! The foot of the page: language and currency, which are chosen once, and how
//! the figures are worked out.

use std::rc::Rc;

use advice::wire;
use draft::Draft;
use wording::{Language, key, text};
use yew::prelude::*;

use crate::element::{Element, all, element};
use crate::keeping;
use crate::locale::{self, CURRENCIES};
use crate::piece::{self, Ears};
use crate::reckoner::{self, no_worker, use_answer};
use crate::select_field::{Choice, SelectMarks, select};
use crate::state::Action;
use crate::value::use_value;

/// How the figures are worked out, told by the worker once it is opened.
#[component]
pub fn WorkedOut() -> Html {
    let is_open = use_value(bool::default);
    let heard = use_answer(wire::WORKED_OUT.to_owned());
    let toggle = {
        let is_open = is_open.setter();
        Callback::from(move |event: Event| {
            let details: web_sys::HtmlDetailsElement = event.target_unchecked_into();
            is_open.set(details.open());
        })
    };
    use_effect_with(*is_open, |is_open| {
        if *is_open {
            reckoner::ask(wire::WORKED_OUT);
        }
    });
    let told = match &*heard {
        Some(Ok(piece)) => all(piece::drawn(piece, &Vec::new(), &Ears::default())),
        Some(Err(())) => element("p").class("fault").say(no_worker()).html(),
        None => Html::default(),
    };
    element("details")
        .class("worked-out")
        .set("id", "worked-out")
        .on(Rc::new(html::ontoggle::Wrapper::new(toggle)))
        .put(element("summary").tell(key!("How it is worked out")))
        .node(told)
        .html()
}

/// The foot.
#[inline(never)]
pub fn foot(language: Language, draft: &Draft, dispatch: &Callback<Action>) -> Element {
    let languages = Language::ALL.map(|one| (one.primary().into(), one.own_name().into()));
    let speak = {
        let draft = draft.clone();
        move |tag: String| {
            let Some(language) = Language::of_tag(&tag) else {
                return;
            };
            locale::choose(language);
            // Texts are read when the app starts.
            keeping::carry(&draft, language);
            if let Some(window) = web_sys::window() {
                // A page can always load itself again.
                let _ = window.location().reload();
            }
        }
    };
    let own = draft.currency.map(|currency| currency.to_string());
    let other = own.filter(|code| !CURRENCIES.contains(&code.as_str()));
    let currencies: Vec<Choice> = CURRENCIES
        .into_iter()
        .map(|code| (code.into(), code.into()))
        .chain(other.map(|code| (code.clone().into(), code.into())))
        .collect();
    let dispatch = dispatch.clone();
    let pay = move |code: String| {
        if let Ok(currency) = code.parse() {
            dispatch.emit(Action::ChooseCurrency(currency));
        }
    };
    let in_force = draft.currency.map(|currency| currency.to_string());
    element("footer")
        .class("foot")
        .node(labelled(
            "language",
            text!("Language"),
            &languages,
            language.primary(),
            speak,
        ))
        .node(labelled(
            "currency",
            text!("Currency"),
            &currencies,
            in_force.as_deref().unwrap_or_default(),
            pay,
        ))
        .put(
            element("p")
                .class("note")
                .tell(key!("The currency of all amounts. None is ever converted.")),
        )
        .node(html! { <WorkedOut /> })
}

#[inline(never)]
fn labelled(
    id: &'static str,
    label: &'static str,
    choices: &[Choice],
    in_force: &str,
    choose: impl Fn(String) + 'static,
) -> Html {
    let marks = SelectMarks {
        id: Some(id.into()),
        ..SelectMarks::default()
    };
    element("div")
        .class("field")
        .put(element("label").set("for", id).say(label))
        .put(
            element("div")
                .class("box")
                .node(select(marks, choices, in_force, choose)),
        )
        .html()
}
