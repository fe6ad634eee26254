//! Putting the side on paper.

use std::rc::Rc;
use wording::{key, text};

use advice::wire;
use gloo_storage::{SessionStorage, Storage};
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::element::{button, element};
use crate::keeping::is_allowed;
use crate::locale;
use crate::piece::{self, Ears};
use crate::reckoner::{self, use_answer};
use draft::Draft;

use super::share::address;
use super::{now, text_field};

/// The key of what is typed for the papers. The tab keeps it over a reload and
/// no longer: the lot of one side must not stand on the cards of the next.
const TYPED: &str = "sideworth/print";

fn typed_here() -> [String; 3] {
    let text = is_allowed()
        .then(|| SessionStorage::raw().get_item(TYPED).ok().flatten())
        .flatten()
        .unwrap_or_default();
    let mut lines = text.split('\n').map(str::to_owned);
    [(); 3].map(|()| lines.next().unwrap_or_default())
}

fn remember(typed: &[String; 3]) {
    if is_allowed() {
        // Where there is no room, it stands in the fields until a reload.
        let _ = SessionStorage::raw().set_item(TYPED, &typed.join("\n"));
    }
}

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
    let typed = use_state_eq(typed_here);
    let [title, lot, claim] = (*typed).clone();
    let refused = use_answer(wire::NOT_PRINTED.to_owned());
    {
        // What stood in the way may be mended.
        let refused = refused.setter();
        use_effect_with(props.draft.clone(), move |_| refused.set(None));
    }
    let papers = wire::papers().into_iter().enumerate().map(|(paper, name)| {
        let draft = Rc::clone(&props.draft);
        let (title, lot, unnamed) = (title.clone(), lot.clone(), props.name.clone());
        let (claim, refused) = (claim.clone(), refused.setter());
        let print = Callback::from(move |_: MouseEvent| {
            refused.set(None);
            let title = if title.is_empty() { &unnamed } else { &title };
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
    let take = |place: usize| {
        let typed = typed.clone();
        Callback::from(move |event: InputEvent| {
            let input: HtmlInputElement = event.target_unchecked_into();
            let mut texts = (*typed).clone();
            if let Some(text) = texts.get_mut(place) {
                *text = input.value();
            }
            remember(&texts);
            typed.set(texts);
        })
    };
    let titled = text_field("print-title", text!("Title"), &title, take(0));
    let (label, input) = titled;
    let lotted = text_field("print-lot", text!("Lot or tag"), &lot, take(1));
    let claimed = text_field(
        "print-claim",
        text!("Claim on price cards"),
        &claim,
        take(2),
    );
    let refusal = element("div").set("aria-live", "polite");
    let refusal = match &*refused {
        Some(Ok(piece)) => refusal.put_all(piece::drawn(piece, &Vec::new(), &Ears::default())),
        _ => refusal,
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
        .put(refusal)
        .put(element("p").class("note").tell(key!("On A4 or Letter. The side needs a weight and a price first; price cards say which prices are samples.")))
        .html()
}
