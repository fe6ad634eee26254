//! Putting the side on paper.

use std::rc::Rc;
use wording::{key, text};

use advice::wire;
use yew::prelude::*;

use crate::element::{button, element};
use crate::locale;
use crate::reckoner;
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

/// The papers of the side.
#[component]
pub fn Print(props: &PrintProps) -> Html {
    let title = use_state_eq(String::new);
    let lot = use_state_eq(String::new);
    let claim = use_state_eq(String::new);
    let papers = wire::papers().into_iter().enumerate().map(|(paper, name)| {
        let draft = Rc::clone(&props.draft);
        let (title, lot, unnamed) = (title.clone(), lot.clone(), props.name.clone());
        let claim = claim.clone();
        let print = Callback::from(move |_: MouseEvent| {
            let title = if title.is_empty() { &unnamed } else { &*title };
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
        .html()
}
