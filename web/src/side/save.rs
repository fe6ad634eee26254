//! Handing the plan out as a file.

use std::rc::Rc;

use advice::wire;
use shelf::Shelf;
use wording::key;
use yew::prelude::*;

use crate::element::button;
use crate::reckoner;
use crate::state::Figures;

/// A button that hands the plan out as a JSON file, under the name of the saved plan
/// that it is, where it is one.
pub fn save_as_file(figures: &Figures, shelf: &Rc<Shelf>) -> Html {
    let (figures, shelf) = (figures.clone(), Rc::clone(shelf));
    let save = Callback::from(move |_: MouseEvent| {
        let mut plans = shelf.plans.iter();
        let saved = plans.find(|(_, plan)| plan.draft == *figures.draft);
        reckoner::ask(&wire::file_request(
            wire::File::Plan,
            &figures.draft.to_text(),
            saved.map_or("", |(_, plan)| &plan.name),
        ));
    });
    button("quiet", save)
        .tell(key!("Save plan as a file"))
        .html()
}
