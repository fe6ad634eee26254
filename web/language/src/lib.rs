//! The texts that `web/language.js` has loaded before the page or its worker
//! started.

#![forbid(unsafe_code)]

use js_sys::{Array, Reflect, global};
use wasm_bindgen::JsCast;
use wording::Language;

/// The language and its texts: of each file that was asked for, what the
/// interface says and what is said of parts and cuts. `None` where they could
/// not be had.
pub fn loaded() -> Option<(Language, Vec<String>)> {
    let left = Reflect::get(&global(), &"sideworthTexts".into()).ok()?;
    let mut texts = left
        .dyn_into::<Array>()
        .ok()?
        .to_vec()
        .into_iter()
        .filter_map(|text| text.as_string());
    let language = Language::of_tag(&texts.next()?)?;
    Some((language, texts.collect()))
}
