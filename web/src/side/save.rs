//! Handing the plan out as a file.

use yew::prelude::*;

use crate::element::button;
use crate::handing_out::hand_out;
use crate::state::Figures;

/// A button that hands the plan out as a JSON file.
pub fn save_as_file(figures: &Figures) -> Html {
    let save = {
        let figures = figures.clone();
        Callback::from(move |_: MouseEvent| {
            if let Ok(json) = figures.document.to_json() {
                hand_out("side.json", "application/json", &json);
            }
        })
    };
    button("quiet", save).say("Save plan as a file").html()
}
