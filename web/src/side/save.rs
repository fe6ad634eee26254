//! Handing the plan out as a file.

use advice::wire;
use wording::key;
use yew::prelude::*;

use crate::element::button;
use crate::reckoner;
use crate::state::Figures;

/// A button that hands the plan out as a JSON file.
pub fn save_as_file(figures: &Figures) -> Html {
    let figures = figures.clone();
    let save = Callback::from(move |_: MouseEvent| {
        reckoner::ask(&wire::file_request(
            wire::File::Plan,
            &figures.draft.to_text(),
        ));
    });
    button("quiet", save)
        .tell(key!("Save plan as a file"))
        .html()
}
