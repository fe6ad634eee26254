//! Handing the side on as a link.

use std::rc::Rc;
use wording::{key, text};

use advice::wire;
use wasm_bindgen::prelude::*;
use web_sys::{HtmlInputElement, ShareData};
use yew::prelude::*;

use crate::element::{Element, button, element};
use crate::piece::{self, Ears};
use crate::reckoner::{self, no_worker, use_answer};
use crate::select_field::select_field;
use crate::value::use_value;
use draft::Draft;

/// What a [`Share`] needs.
#[derive(Properties, PartialEq)]
pub struct ShareProps {
    /// What is handed on.
    pub draft: Rc<Draft>,
}

/// A link to the side, made by the worker where this is opened.
#[component]
pub fn Share(props: &ShareProps) -> Html {
    let is_open = use_value(bool::default);
    let scope = use_value(|| 1_usize);
    let heard = use_answer(wire::SHARE.to_owned());
    let copied = use_state_eq(|| None::<&'static str>);
    // Of the last request. What answers an older one is no link to what goes in now.
    let number = use_value(usize::default);
    {
        let (copied, number) = (copied.setter(), number.clone());
        use_effect_with(
            (*is_open, *scope, props.draft.clone()),
            move |(is_open, scope, draft)| {
                copied.set(None);
                if *is_open {
                    let next = number.wrapping_add(1);
                    number.set(next);
                    let request = wire::share_request(&draft.to_text(), next, *scope, &address());
                    reckoner::ask(&request);
                }
            },
        );
    }
    let toggle = {
        let is_open = is_open.setter();
        Callback::from(move |event: Event| {
            let details: web_sys::HtmlDetailsElement = event.target_unchecked_into();
            is_open.set(details.open());
        })
    };
    let choices: Vec<_> = wire::scopes()
        .iter()
        .enumerate()
        .map(|(at, name)| (at.to_string().into(), (*name).into()))
        .collect();
    let choose = {
        let scope = scope.setter();
        move |chosen: String| scope.set(chosen.parse().unwrap_or_default())
    };
    let made = heard
        .as_ref()
        .map(|heard| heard.as_ref().map(|answer| wire::shared(answer)));
    let answer = match made {
        Some(Ok(Some((answered, link, piece)))) => {
            let handed_on = (!link.is_empty()).then(|| handed_on(link, &copied));
            element("div")
                // It stays in its place, so that nothing jumps, and out of reach.
                .set_if(answered != *number, "inert", "inert")
                .maybe(handed_on)
                .put_all(piece::drawn(piece, &Vec::new(), &Ears::default()))
        }
        Some(Err(())) => element("p").class("fault").say(no_worker()),
        _ => element("div"),
    };
    element("details")
        .class("more")
        .set("id", "share")
        .on(Rc::new(html::ontoggle::Wrapper::new(toggle)))
        .put(element("summary").tell(key!("Hand it on as a link")))
        .node(select_field(
            "share-scope",
            text!("What goes in"),
            &choices,
            &scope.to_string(),
            text!("All of it stands in the link itself. Nothing is sent anywhere, and whoever has the link can read it."),
            choose,
        ))
        .put(answer)
        .html()
}

/// The link with what can be done with it.
fn handed_on(link: &str, copied: &UseStateHandle<Option<&'static str>>) -> Element {
    element("div")
        .put(
            element("input")
                .set("id", "share-link")
                .set("type", "text")
                .set("readonly", "readonly")
                .set("aria-label", text!("The link"))
                .value(link.to_owned()),
        )
        .put(
            element("div")
                .class("actions")
                .put(
                    button("", copy(link, copied.setter()))
                        .set("id", "copy-link")
                        .tell(key!("Copy")),
                )
                .maybe(can_share().then(|| {
                    button("", hand_on(link))
                        .set("id", "hand-on-link")
                        .tell(key!("Share"))
                })),
        )
        .put(
            element("p")
                .class("note")
                .set("role", "status")
                .say(copied.unwrap_or_default()),
        )
}

/// Where the app is, without what stands behind the `#`.
pub fn address() -> String {
    let href = web_sys::window()
        .and_then(|window| window.location().href().ok())
        .unwrap_or_default();
    href.split('#').next().unwrap_or_default().to_owned()
}

/// Copies the link; where the browser does not let it, the link is marked for
/// the person to copy.
fn copy(link: &str, said: UseStateSetter<Option<&'static str>>) -> Callback<MouseEvent> {
    let link = link.to_owned();
    Callback::from(move |_: MouseEvent| {
        let Some(window) = web_sys::window() else {
            return;
        };
        let clipboard = window.navigator().clipboard();
        if clipboard.is_undefined() {
            mark();
            said.set(Some(by_hand()));
            return;
        }
        let (done, failed) = (said.clone(), said.clone());
        let done = Closure::once(move |_: JsValue| done.set(Some(text!("Copied."))));
        let failed = Closure::once(move |_: JsValue| {
            mark();
            failed.set(Some(by_hand()));
        });
        let _ = clipboard.write_text(&link).then2(&done, &failed);
        done.forget();
        failed.forget();
    })
}

/// What is said where the link was only marked.
fn by_hand() -> &'static str {
    text!("The browser does not let the page copy. The link is marked: copy it.")
}

fn mark() {
    let input = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id("share-link"))
        .and_then(|element| element.dyn_into::<HtmlInputElement>().ok());
    if let Some(input) = input {
        // What cannot be marked can still be read.
        let _ = input.focus();
        input.select();
    }
}

/// Whether the device has a place to hand things on.
fn can_share() -> bool {
    web_sys::window().is_some_and(|window| {
        js_sys::Reflect::has(&window.navigator(), &"share".into()).unwrap_or_default()
    })
}

fn hand_on(link: &str) -> Callback<MouseEvent> {
    let link = link.to_owned();
    Callback::from(move |_: MouseEvent| {
        if let Some(window) = web_sys::window() {
            let data = ShareData::new();
            data.set_title("Sideworth");
            data.set_url(&link);
            // Calling it off is an answer too.
            let called_off = Closure::once(|_: JsValue| ());
            let _ = window.navigator().share_with_data(&data).catch(&called_off);
            called_off.forget();
        }
    })
}
