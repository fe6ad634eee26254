//! The place of the plan: where the side goes, and the way each part is
//! broken.

mod piece;
mod whole;

pub use piece::prominent_caution;

use yew::prelude::*;

use crate::draft::Units;
use crate::state::{Action, Data, Figures};

/// What the place shows.
#[derive(Properties, PartialEq)]
pub struct CutsProps {
    /// Parts and ways.
    pub data: Data,
    /// The last figures that could be worked out.
    pub figures: Option<Figures>,
    /// Units in force.
    pub units: Units,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// The place of the plan.
#[component]
pub fn Cuts(props: &CutsProps) -> Html {
    let Some(figures) = &props.figures else {
        return html! {
            <p class="empty">{ "The cut plan with its weights stands here once the side has a weight and a price." }</p>
        };
    };
    html! {
        <div class="sheet">
            { whole::whole_side(&props.data, figures, props.units) }
            <ul class="plan-tree">{ piece::piece(props, figures, 0) }</ul>
        </div>
    }
}
