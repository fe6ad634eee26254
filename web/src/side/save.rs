//! Handing the plan out as a file.

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};
use yew::prelude::*;

use crate::state::Figures;

/// A button that hands the plan out as a JSON file.
pub fn save_as_file(figures: &Figures) -> Html {
    let save = {
        let figures = figures.clone();
        Callback::from(move |_: MouseEvent| {
            if let Ok(json) = figures.document.to_json()
                && let Err(error) = offer(&json)
            {
                web_sys::console::error_1(&error);
            }
        })
    };
    html! {
        <button type="button" class="quiet" onclick={save}>{ "Save plan as a file" }</button>
    }
}

fn offer(json: &str) -> Result<(), JsValue> {
    let document = web_sys::window()
        .and_then(|window| window.document())
        .ok_or("no page")?;
    let kind = BlobPropertyBag::new();
    kind.set_type("application/json");
    let blob = Blob::new_with_str_sequence_and_options(
        &js_sys::Array::of1(&JsValue::from_str(json)),
        &kind,
    )?;
    let url = Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document.create_element("a")?.dyn_into()?;
    link.set_href(&url);
    link.set_download("side.json");
    link.click();
    Url::revoke_object_url(&url)
}
