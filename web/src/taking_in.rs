//! Taking a file into the page.

use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::{Event, FileReader, HtmlInputElement};
use yew::TargetCast;

/// Reads the file that was chosen in an input, of it at most so many bytes, and
/// hands on its text. A file that the browser cannot read says nothing, as it
/// does when choosing is called off.
pub fn take_in(event: &Event, most: i32, hand_on: impl FnOnce(String) + 'static) {
    let input: HtmlInputElement = event.target_unchecked_into();
    let file = input.files().and_then(|files| files.get(0));
    // So that the same file can be chosen again once it is mended.
    input.set_value("");
    let Some(start) = file.and_then(|file| file.slice_with_i32_and_i32(0, most).ok()) else {
        return;
    };
    let Ok(reader) = FileReader::new() else {
        return;
    };
    let loaded = {
        let reader = reader.clone();
        Closure::once_into_js(move || {
            if let Some(text) = reader.result().ok().and_then(|text| text.as_string()) {
                hand_on(text);
            }
        })
    };
    reader.set_onload(Some(loaded.unchecked_ref()));
    // Fails only for a reader that is reading already.
    let _ = reader.read_as_text(&start);
}
