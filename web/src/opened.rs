//! A plan that came in a link: looked at first, opened only when asked to.

use std::rc::Rc;
use wording::{key, text};

use advice::wire;
use gloo_events::EventListener;
use wasm_bindgen::JsValue;
use yew::prelude::*;

use crate::element::{button, element};
use crate::piece::{self, Ears};
use crate::reckoner::{self, no_worker, use_answer};
use crate::state::Action;
use crate::value::use_value;
use draft::Draft;

/// The longest text that is handed to the worker: more than it reads, so that
/// it sees that a link is too long.
const LONGEST: usize = 32 * 1024;

/// What an [`Opened`] needs.
#[derive(Properties, PartialEq)]
pub struct OpenedProps {
    /// What a link would take the place of.
    pub draft: Rc<Draft>,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// What the link that the app was opened with holds, until it is opened or left.
#[component]
pub fn Opened(props: &OpenedProps) -> Html {
    let text = use_value(behind);
    let heard = use_answer(wire::OPENED.to_owned());
    {
        let text = text.setter();
        use_effect_with((), move |()| {
            let listener = web_sys::window().map(|window| {
                EventListener::new(&window, "hashchange", move |_| text.set(behind()))
            });
            move || drop(listener)
        });
    }
    use_effect_with(((*text).clone(), props.draft.clone()), |(text, draft)| {
        if let Some(text) = text {
            reckoner::ask(&wire::opened_request(&draft.to_text(), text));
        }
    });
    use_effect_with((*text).clone(), |text| {
        // It stands above everything.
        if let (Some(_), Some(window)) = (text, web_sys::window()) {
            window.scroll_to_with_x_and_y(0.0, 0.0);
        }
    });
    if text.is_none() {
        return Html::default();
    }
    let close = {
        let (text, heard) = (text.setter(), heard.setter());
        Callback::from(move |()| {
            forget();
            text.set(None);
            heard.set(None);
        })
    };
    let take = {
        let (close, dispatch) = (close.clone(), props.dispatch.clone());
        Callback::from(move |writes: String| {
            close.emit(());
            dispatch.emit(Action::TakeOver(writes));
        })
    };
    let ears = Ears {
        take,
        ..Ears::default()
    };
    let content = match &*heard {
        Some(Ok(piece)) => piece::drawn(piece, &Vec::new(), &ears),
        Some(Err(())) => vec![element("p").class("fault").say(no_worker()).html()],
        None => vec![
            element("p")
                .class("note")
                .tell(key!("Reading the link…"))
                .html(),
        ],
    };
    element("section")
        .class("opened")
        .set("id", "opened")
        .set("role", "region")
        .set("aria-label", text!("A plan from a link"))
        .set("aria-live", "polite")
        .put(element("h2").tell(key!("A plan from a link")))
        .put_all(content)
        .put(
            button("quiet", close.reform(|_: MouseEvent| ()))
                .set("id", "leave-link")
                .tell(key!("Leave it")),
        )
        .html()
}

/// What stands behind the `#` of the address, where anything does.
fn behind() -> Option<String> {
    let hash = web_sys::window()?.location().hash().ok()?;
    let text = hash.strip_prefix('#').filter(|text| !text.is_empty())?;
    // Cut between letters, as far as there are any.
    let end = text
        .char_indices()
        .map(|(at, letter)| at + letter.len_utf8())
        .take_while(|end| *end <= LONGEST)
        .last()?;
    text.get(..end).map(str::to_owned)
}

/// Takes it out of the address, so that a reload does not ask again.
fn forget() {
    if let Some(window) = web_sys::window()
        && let (Ok(history), Ok(path), Ok(search)) = (
            window.history(),
            window.location().pathname(),
            window.location().search(),
        )
    {
        // A browser that does not let it asks again after a reload.
        let _ =
            history.replace_state_with_url(&JsValue::NULL, "", Some(&format!("{path}{search}")));
    }
}
