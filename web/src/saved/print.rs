//! Putting the side on paper.

use std::rc::Rc;
use wording::{key, text};

use advice::wire;
use gloo_timers::callback::Timeout;
use yew::prelude::*;

use crate::element::{button, element};
use crate::locale;
use crate::piece::{self, Ears};
use crate::reckoner::{self, no_worker, use_answer};
use draft::Draft;

use super::share::address;
use super::{now, text_field, typed_into};

/// What a [`Print`] needs.
#[derive(Properties, PartialEq)]
pub struct PrintProps {
    /// What is printed.
    pub draft: Rc<Draft>,
    /// What the side is called where nobody says.
    pub name: String,
}

/// The papers of the side. The one that is asked for stands in the page, out of
/// sight of all but the printer.
#[component]
pub fn Print(props: &PrintProps) -> Html {
    let title = use_state_eq(String::new);
    let lot = use_state_eq(String::new);
    let claim = use_state_eq(String::new);
    let wanted = use_mut_ref(|| false);
    let heard = use_answer(wire::PRINT.to_owned());
    {
        let wanted = wanted.clone();
        use_effect_with(heard.clone(), move |heard| {
            let is_there = matches!(&**heard, Some(Ok(_)));
            // Once it has been drawn.
            let wait = (is_there && wanted.replace(false)).then(|| {
                Timeout::new(50, || {
                    if let Some(window) = web_sys::window() {
                        // A browser that cannot print does nothing.
                        let _ = window.print();
                    }
                })
            });
            move || drop(wait)
        });
    }
    let papers = wire::papers().into_iter().enumerate().map(|(paper, name)| {
        let (draft, wanted) = (Rc::clone(&props.draft), wanted.clone());
        let heard = heard.setter();
        let (title, lot, unnamed) = (title.clone(), lot.clone(), props.name.clone());
        let claim = claim.clone();
        let print = Callback::from(move |_: MouseEvent| {
            let title = if title.is_empty() { &unnamed } else { &*title };
            wanted.replace(true);
            // So that the same paper can be printed again.
            heard.set(None);
            let heading = [
                title.as_str(),
                &lot,
                &claim,
                &locale::day(now()),
                &address(),
            ];
            reckoner::ask(&wire::print_request(&draft.to_text(), paper, heading));
        });
        button("", print)
            .write("id", format!("print-{paper}"))
            .say(name)
            .html()
    });
    let field = |(label, input)| {
        element("div")
            .class("field")
            .put(label)
            .put(element("div").class("box").put(input))
    };
    let titled = text_field(
        "print-title",
        text!("Title"),
        &title,
        typed_into(title.setter()),
    );
    let (label, input) = titled;
    let lotted = text_field(
        "print-lot",
        text!("Lot or tag"),
        &lot,
        typed_into(lot.setter()),
    );
    let claimed = text_field(
        "print-claim",
        text!("Claim on price cards"),
        &claim,
        typed_into(claim.setter()),
    );
    let paper = element("div").class("paper").set("id", "paper");
    let (paper, fault) = match &*heard {
        Some(Ok(piece)) => (
            paper.put_all(piece::drawn(piece, &Vec::new(), &Ears::default())),
            None,
        ),
        Some(Err(())) => (paper, Some(element("p").class("fault").say(no_worker()))),
        None => (paper, None),
    };
    element("details")
        .class("more prints")
        .set("id", "print")
        .put(element("summary").tell(key!("Print")))
        .put(field((label, input.write("placeholder", props.name.clone()))))
        .put(field(lotted))
        .put(field(claimed))
        .put(
            element("p")
                .class("note")
                .tell(key!("Such as grass-fed, and only what is true and can be shown. Empty: no claim.")),
        )
        .put(element("div").class("actions").put_all(papers))
        .put(element("p").class("note").tell(key!("On A4 or Letter. The side needs a weight and a price first; price cards say which prices are samples.")))
        .maybe(fault)
        .put(paper)
        .html()
}
