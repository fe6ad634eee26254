//! Loads the texts of a language other than English, in the page and in its
//! worker alike, from the files that the build writes beside the app.

#![forbid(unsafe_code)]

use js_sys::{Function, Promise, Reflect, global};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::Response;
use wording::Language;

/// What the names of a language's files end with: of the page's texts, of all
/// other texts, of the names of parts and cuts, of what cuts are used for.
pub const PAGE: &str = "page";
/// See [`PAGE`].
pub const REST: &str = "rest";
/// See [`PAGE`].
pub const NAMES: &str = "names";
/// See [`PAGE`].
pub const USES: &str = "uses";

/// The text of one of a language's files, whose address is relative to the page
/// or the worker.
///
/// # Errors
/// Whatever keeps the browser from loading it.
pub async fn file(language: Language, which: &str) -> Result<String, JsValue> {
    let address = format!("./texts/{}-{which}.txt", language.primary());
    let scope = global();
    let fetch: Function = Reflect::get(&scope, &"fetch".into())?.dyn_into()?;
    let coming: Promise = fetch.call1(&scope, &address.into())?.dyn_into()?;
    let response: Response = JsFuture::from(coming).await?.dyn_into()?;
    if !response.ok() {
        return Err(response.status().into());
    }
    let text = JsFuture::from(response.text()?).await?;
    text.as_string().ok_or(text)
}
