//! The Sideworth app: takes over the static shell of `index.html` once it has
//! loaded.

mod app;
mod cautions;
mod clock;
mod cuts;
mod element;
mod elsewhere;
mod entry_field;
mod focus;
mod foot;
mod handing_out;
mod history;
mod keeping;
mod locale;
mod offline;
mod opened;
mod piece;
mod prices;
mod reckoner;
mod saved;
mod scale;
mod select_field;
mod side;
mod state;
mod taking_in;
mod told;
mod value;
mod verdict_strip;
mod what_if;

use gloo_timers::callback::Timeout;
// For its allocator.
use heap as _;
use language::loaded;
use wasm_bindgen::throw_str;
use wording::{Language, speak};

fn main() {
    match spoken() {
        Some((language, names)) => start(language, names),
        // The page still shows what tells of a failure, in plain HTML.
        None => throw_str("its texts are not of this version"),
    }
}

/// The language that is spoken from now on, and the names in it.
fn spoken() -> Option<(Language, String)> {
    let (language, texts) = loaded()?;
    let [page, names] = texts.try_into().ok()?;
    speak(language, &[&page]).ok()?;
    Some((language, names))
}

/// Draws the app in place of the shell, which is there for the time until now.
fn start(language: Language, names: String) {
    let Some(document) = web_sys::window().and_then(|window| window.document()) else {
        return;
    };
    locale::write_in(language);
    if let Some(root) = document.document_element() {
        // A name that any element takes.
        let _ = root.set_attribute("lang", language.tag());
    }
    let Some(shell) = document.get_element_by_id("app") else {
        return;
    };
    let props = app::AppProps { language, names };
    // In a task of its own: a phone has just worked long on bringing up the code, and must be able
    // to answer a touch in between.
    Timeout::new(0, move || {
        shell.set_inner_html("");
        yew::Renderer::<app::App>::with_root_and_props(shell, props).render();
    })
    .forget();
}
