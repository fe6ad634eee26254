//! The control between grain-fed and grass-fed.

use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::state::{Action, Data};

/// What the control shows.
#[derive(Properties, PartialEq)]
pub struct StockControlProps {
    /// The presets.
    pub data: Data,
    /// Percent of the way to grass-fed.
    pub grass_percent: u8,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// The control between grain-fed and grass-fed.
#[component]
pub fn StockControl(props: &StockControlProps) -> Html {
    let moved = {
        let dispatch = props.dispatch.clone();
        Callback::from(move |event: InputEvent| {
            let input: HtmlInputElement = event.target_unchecked_into();
            if let Ok(percent) = input.value().parse() {
                dispatch.emit(Action::MoveStock(percent));
            }
        })
    };
    let words = match props.grass_percent {
        0 => "Grain-fed".to_owned(),
        100 => "Grass-fed".to_owned(),
        percent => format!("{percent} % of the way to grass-fed"),
    };
    let ends = [(0_u8, "Grain"), (100, "Grass")].map(|(percent, name)| {
        let dispatch = props.dispatch.clone();
        let go = Callback::from(move |_: MouseEvent| dispatch.emit(Action::MoveStock(percent)));
        html! {
            <button type="button" class="end" onclick={go}
                aria-pressed={(props.grass_percent == percent).to_string()}>{ name }</button>
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
                    value={props.grass_percent.to_string()} oninput={moved}
                    aria-valuetext={words.clone()} aria-describedby="stock-note" />
                { grass }
            </div>
            <p class="note" id="stock-note">
                { "Grass-fed sides carry less fat, so more of the side sells, from smaller cuts. A model between two published averages." }
            </p>
        </div>
    }
}
