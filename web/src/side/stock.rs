//! The control between grain-fed and grass-fed.

use web_sys::HtmlInputElement;
use yew::prelude::*;

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
        0 => "Grain-fed".to_owned(),
        100 => "Grass-fed".to_owned(),
        percent => format!("{percent} % of the way to grass-fed"),
    };
    let ends = [(0_u8, "Grain"), (100, "Grass")].map(|(percent, name)| {
        let dispatch = dispatch.clone();
        let go = Callback::from(move |_: MouseEvent| dispatch.emit(Action::MoveStock(percent)));
        html! {
            <button type="button" class="end" onclick={go}
                aria-pressed={(grass_percent == percent).to_string()}>{ name }</button>
        }
    });
    let [grain, grass] = ends;
    html! {
        <div class="field">
            <label for="stock">{ "Stock" }</label>
            <output class="mark" for="stock">{ &words }</output>
            <div class="stock">
                { grain }
                <input id="stock" type="range" min="0" max="100" step="5"
                    value={grass_percent.to_string()} oninput={moved}
                    aria-valuetext={words.clone()} aria-describedby="stock-note" />
                { grass }
            </div>
            <p class="note" id="stock-note">
                { "Grass-fed sides carry less fat, so more of the side sells, from smaller cuts. A model between two published averages." }
                if grass_percent > 0 {
                    { " A claim must be true and shown to be: see labels and claims under Prices." }
                }
            </p>
        </div>
    }
}
