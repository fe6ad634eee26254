//! Putting the side on paper.

use std::rc::Rc;
use wording::{key, text};

use advice::wire;
use gloo_storage::{SessionStorage, Storage};
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::element::{Element, button, element};
use crate::keeping::is_allowed;
use crate::locale;
use crate::piece::{self, Ears};
use crate::reckoner::{self, use_answer};
use crate::value::use_value;
use draft::Draft;

use super::share::address;
use super::{now, text_field};

const TITLE: &str = "print-title";
const LOT: &str = "print-lot";
const CLAIM: &str = "print-claim";

/// What begins the keys of what is typed for the papers. The tab keeps it over a
/// reload and no longer: the lot of one side must not stand on the cards of the
/// next.
const TYPED: &str = "sideworth/";

fn typed_here(id: &str) -> String {
    is_allowed()
        .then(|| SessionStorage::raw().get_item(&format!("{TYPED}{id}")).ok())
        .flatten()
        .flatten()
        .unwrap_or_default()
}

/// A field whose text the tab keeps.
#[inline(never)]
fn kept_field(
    id: &'static str,
    label: &'static str,
    state: &UseStateHandle<String>,
) -> (Element, Element) {
    let setter = state.setter();
    let typed = Callback::from(move |event: InputEvent| {
        let input: HtmlInputElement = event.target_unchecked_into();
        if is_allowed() {
            // Where there is no room, it stands in the field until a reload.
            let _ = SessionStorage::raw().set_item(&format!("{TYPED}{id}"), &input.value());
        }
        setter.set(input.value());
    });
    text_field(id, label, state, typed)
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
    let title = use_value(|| typed_here(TITLE));
    let lot = use_value(|| typed_here(LOT));
    let claim = use_value(|| typed_here(CLAIM));
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
    let (label, input) = kept_field(TITLE, text!("Title"), &title);
    let lotted = kept_field(LOT, text!("Lot or tag"), &lot);
    let claimed = kept_field(CLAIM, text!("Claim on price cards"), &claim);
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
