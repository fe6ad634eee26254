//! The shelf in the browser's storage.

use std::cell::Cell;
use std::rc::Rc;

use gloo_events::EventListener;
use gloo_storage::{LocalStorage, Storage};
use shelf::{Refused, Shelf, Store};
use wasm_bindgen::JsCast;
use web_sys::StorageEvent;
use yew::prelude::*;

use crate::keeping::is_allowed;

/// What this browser keeps for the page.
pub struct Browser;

impl Store for Browser {
    fn keys(&self) -> Vec<String> {
        if !is_allowed() {
            return Vec::new();
        }
        let storage = LocalStorage::raw();
        (0..LocalStorage::length())
            .filter_map(|index| storage.key(index).ok().flatten())
            .collect()
    }

    fn read(&self, key: &str) -> Option<String> {
        is_allowed()
            .then(|| LocalStorage::raw().get_item(key).ok().flatten())
            .flatten()
    }

    fn write(&self, key: &str, text: &str) -> Result<(), Refused> {
        if !is_allowed() {
            return Err(Refused);
        }
        LocalStorage::raw().set_item(key, text).map_err(|_| Refused)
    }

    fn remove(&self, key: &str) {
        if is_allowed() {
            LocalStorage::delete(key);
        }
    }
}

/// All saved plans, and the way to look at them anew.
#[derive(Clone, Debug, PartialEq)]
pub struct OnShelf {
    /// The plans.
    pub shelf: Rc<Shelf>,
    /// Looks at them anew, after a change.
    pub look: Callback<()>,
}

/// All saved plans, also when another tab changes them.
#[hook]
pub fn use_shelf() -> OnShelf {
    let shelf = use_state(|| Rc::new(Shelf::fetch(&Browser)));
    let setter = shelf.setter();
    let look = use_callback((), move |(), ()| {
        setter.set(Rc::new(Shelf::fetch(&Browser)));
    });
    {
        let look = look.clone();
        use_effect_with((), move |()| {
            let listener = web_sys::window().map(|window| {
                EventListener::new(&window, "storage", move |event| {
                    // No key where all was cleared.
                    let key = event.dyn_ref().and_then(StorageEvent::key);
                    if key.is_none_or(|key| key.starts_with(shelf::KEY)) {
                        look.emit(());
                    }
                })
            });
            move || drop(listener)
        });
    }
    OnShelf {
        shelf: Rc::clone(&shelf),
        look,
    }
}

thread_local! {
    static HAS_ASKED: Cell<bool> = const { Cell::new(false) };
}

/// Asks the browser not to clear what it keeps for the page. It may say no and
/// need not ask the person; the page says what that means. Where the person is
/// asked, once is enough.
pub fn ask_to_persist() {
    if HAS_ASKED.with(|asked| asked.replace(true)) {
        return;
    }
    let storage = web_sys::window().map(|window| window.navigator().storage());
    // A page that came without encryption has none.
    if let Some(storage) = storage.filter(|storage| !storage.is_undefined()) {
        // The answer changes nothing that the page could do.
        let _ = storage.persist();
    }
}
