//! The Sideworth app: takes over the static shell of `index.html` once it has loaded.

use yew::prelude::*;

/// The whole app.
#[component]
fn App() -> Html {
    html! {
        <>
            <header><h1>{ "Sideworth" }</h1></header>
            <main><p>{ "Does this side pay?" }</p></main>
        </>
    }
}

fn main() {
    let shell = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id("app"));
    if let Some(shell) = shell {
        yew::Renderer::<App>::with_root(shell).render();
    }
}
