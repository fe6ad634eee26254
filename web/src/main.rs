//! The Sideworth app: takes over the static shell of `index.html` once it has
//! loaded.

mod app;
mod cautions;
mod cuts;
mod element;
mod entry_field;
mod handing_out;
mod history;
mod keeping;
mod offline;
mod opened;
mod piece;
mod prices;
mod reckoner;
mod saved;
mod select_field;
mod side;
mod state;
mod taking_in;
mod told;
mod verdict_strip;
mod what_if;

// For its allocator.
use heap as _;

fn main() {
    let shell = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id("app"));
    if let Some(shell) = shell {
        // The shell is there for the time until now.
        shell.set_inner_html("");
        yew::Renderer::<app::App>::with_root(shell).render();
    }
}
