//! Two tabs that are both typed in. What is kept is the last word of either;
//! what the other has stays beside it until someone chooses.

use std::rc::Rc;

use draft::Draft;
use gloo_events::EventListener;
use wasm_bindgen::JsCast;
use web_sys::StorageEvent;
use wording::key;
use yew::prelude::*;

use crate::element::{Element, button, element};
use crate::keeping;
use crate::state::Action;

/// What another tab has typed and nobody has chosen about.
pub type Elsewhere = UseStateHandle<Option<Rc<Draft>>>;

/// The draft that is kept under a key.
#[hook]
pub fn use_kept(key: &'static str) -> Elsewhere {
    use_state(move || keeping::kept_under(key))
}

/// Hears what other tabs type, and takes up what was not chosen about the last
/// time.
#[hook]
pub fn use_elsewhere() -> Elsewhere {
    let elsewhere = use_kept(keeping::OTHER);
    let setter = elsewhere.setter();
    use_effect_with((), move |()| {
        let listener = web_sys::window().map(|window| {
            EventListener::new(&window, "storage", move |event| {
                let typed = event.dyn_ref().and_then(StorageEvent::new_value);
                let is_draft = event
                    .dyn_ref()
                    .and_then(StorageEvent::key)
                    .is_some_and(|key| key == keeping::DRAFT);
                if let Some(typed) = typed.filter(|_| is_draft)
                    // What only a newer version can read is for its own tabs.
                    && let Some(draft) = Draft::of_text(&typed)
                {
                    keeping::heard(typed);
                    setter.set(Some(Rc::new(draft)));
                }
            })
        });
        move || drop(listener)
    });
    elsewhere
}

/// What is said of it, with the choice, where it is not what is typed here.
#[inline(never)]
pub fn choice(
    elsewhere: &Elsewhere,
    own: &Rc<Draft>,
    dispatch: &Callback<Action>,
) -> Option<Element> {
    let other = elsewhere.as_ref().filter(|other| *other != own)?;
    let take = {
        let (setter, dispatch, other) = (elsewhere.setter(), dispatch.clone(), other.clone());
        Callback::from(move |_: MouseEvent| {
            setter.set(None);
            dispatch.emit(Action::OpenSaved(other.clone()));
        })
    };
    let leave = {
        let (setter, own) = (elsewhere.setter(), own.clone());
        Callback::from(move |_: MouseEvent| {
            setter.set(None);
            // The other tab hears of it and has the same choice.
            keeping::keep(&own, None);
        })
    };
    let choices = element("div")
        .class("actions")
        .put(
            button("", take)
                .set("id", "take-other")
                .tell(key!("Take over what the other tab has")),
        )
        .put(
            button("", leave)
                .set("id", "keep-own")
                .tell(key!("Keep this")),
        );
    let said = element("p").tell(key!(
        "This side was changed in another tab too. Both are kept until you choose."
    ));
    Some(
        element("div")
            .class("banner")
            .set("id", "elsewhere")
            .set("role", "alert")
            .put(said)
            .put(choices),
    )
}
