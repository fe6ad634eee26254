//! The control between grain-fed and grass-fed.

use web_sys::HtmlInputElement;
use wording::{key, say, text};
use yew::prelude::*;

use crate::element::{button, element};
use crate::state::Action;

/// The control between grain-fed (0) and grass-fed (100).
pub fn stock_control(grass_percent: u8, dispatch: &Callback<Action>) -> Html {
    let moved = {
        let dispatch = dispatch.clone();
        Callback::from(move |event: InputEvent| {
            let input: HtmlInputElement = event.target_unchecked_into();
            if let Ok(percent) = input.value().parse() {
                dispatch.emit(Action::MoveStock(percent));
            }
        })
    };
    let words = match grass_percent {
        0 => text!("Grain-fed").to_owned(),
        100 => text!("Grass-fed").to_owned(),
        percent => say!("{percent} % of the way to grass-fed", percent),
    };
    let end = |percent: u8, name: &'static str| {
        let dispatch = dispatch.clone();
        let go = Callback::from(move |_: MouseEvent| dispatch.emit(Action::MoveStock(percent)));
        let is_there = if grass_percent == percent {
            "true"
        } else {
            "false"
        };
        button("end", go).set("aria-pressed", is_there).say(name)
    };
    let slider = element("input")
        .set("id", "stock")
        .set("type", "range")
        .set("min", "0")
        .set("max", "100")
        .set("step", "5")
        .value(grass_percent.to_string())
        .on_input(moved)
        .write("aria-valuetext", words.clone())
        .set("aria-describedby", "stock-note");
    let claim = if grass_percent > 0 {
        text!(" A claim must be true and shown to be: see labels and claims under Prices.")
    } else {
        ""
    };
    element("div")
        .class("field")
        .put(element("label").set("for", "stock").tell(key!("Stock")))
        .put(element("output").class("mark").set("for", "stock").text(words))
        .put(
            element("div")
                .class("stock")
                .put(end(0, text!("Grain")))
                .put(slider)
                .put(end(100, text!("Grass"))),
        )
        .put(
            element("p")
                .class("note")
                .set("id", "stock-note")
                .tell(key!("Grass-fed sides carry less fat, so more of the side sells, from smaller cuts. A model between two published averages."))
                .say(claim),
        )
        .html()
}
