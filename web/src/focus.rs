//! Where the focus goes when what had it is gone.

use gloo_timers::callback::Timeout;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{FocusOptions, HtmlElement};

/// Hands the focus on to the first element of these ids that is there, where
/// what had it is gone with what is being done: the next key would else begin at
/// the top of the page, and a screen reader with it. The page stays where it is
/// scrolled to.
pub fn hand_on(ids: &'static [&'static str]) {
    // Once what was done is drawn.
    Timeout::new(0, move || {
        let Some(document) = web_sys::window().and_then(|window| window.document()) else {
            return;
        };
        if document.active_element().map(JsValue::from) != document.body().map(JsValue::from) {
            return;
        }
        let mut there = ids.iter().filter_map(|id| document.get_element_by_id(id));
        if let Some(element) = there.next() {
            let options = FocusOptions::new();
            options.set_prevent_scroll(true);
            // What cannot have it is passed over.
            let _ = element
                .unchecked_into::<HtmlElement>()
                .focus_with_options(&options);
        }
    })
    .forget();
}
