//! What goes to the printer: the paper that the worker wrote last, out of sight
//! of everyone else.

use advice::wire;
use gloo_timers::callback::Timeout;
use yew::prelude::*;

use crate::element::element;
use crate::piece::{self, Ears};
use crate::reckoner::{self, Heard};

/// Puts every paper that comes into the page and hands it to the printer once it
/// is drawn.
#[component]
pub fn Printer() -> Html {
    // With a number, so that the same paper can be printed again.
    let paper = use_state(|| (0_u32, String::new()));
    {
        let setter = paper.setter();
        let count = use_mut_ref(|| 0);
        use_effect_with((), move |()| {
            let listening = reckoner::listen(Callback::from(move |heard: Heard| {
                if let Some((kind, piece)) = heard
                    && kind == wire::PRINT
                {
                    *count.borrow_mut() += 1;
                    setter.set((*count.borrow(), piece));
                }
            }));
            move || drop(listening)
        });
    }
    use_effect_with(paper.0, |number| {
        let wait = (*number > 0).then(|| {
            Timeout::new(50, || {
                if let Some(window) = web_sys::window() {
                    // A browser that cannot print does nothing.
                    let _ = window.print();
                }
            })
        });
        move || drop(wait)
    });
    element("div")
        .class("paper")
        .set("id", "paper")
        .put_all(piece::drawn(&paper.1, &Vec::new(), &Ears::default()))
        .html()
}
