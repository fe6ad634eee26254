//! Handing a file out of the page.

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, Url};

/// Hands `text` out as a file. A browser that does not let it says why in its
/// console; there is nothing that the app could do about it.
pub fn hand_out(name: &str, kind: &str, text: &str) {
    if let Err(error) = offer(name, kind, text) {
        web_sys::console::error_1(&error);
    }
}

fn offer(name: &str, kind: &str, text: &str) -> Result<(), JsValue> {
    let document = web_sys::window()
        .and_then(|window| window.document())
        .ok_or("no page")?;
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    let blob = Blob::new_with_str_sequence_and_options(
        &js_sys::Array::of1(&JsValue::from_str(text)),
        &options,
    )?;
    let url = Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document.create_element("a")?.dyn_into()?;
    link.set_href(&url);
    link.set_download(name);
    link.click();
    Url::revoke_object_url(&url)
}
