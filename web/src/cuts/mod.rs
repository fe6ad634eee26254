//! The place of the plan: where the side goes, and the way each part is
//! broken.

mod grind;
mod piece;
mod whole;

use std::rc::Rc;
use wording::key;

use carcass::{PartId, WayId};
use yew::prelude::*;

use crate::element::element;
use crate::state::{Action, Data, Figures};
use draft::Draft;
use draft::reading::Faults;

/// What the place shows.
#[derive(Properties, PartialEq)]
pub struct CutsProps {
    /// Parts and ways.
    pub data: Data,
    /// The last figures that could be worked out.
    pub figures: Option<Figures>,
    /// What was typed.
    pub draft: Rc<Draft>,
    /// What cannot be read.
    pub faults: Rc<Faults>,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// The place of the plan.
#[component]
pub fn Cuts(props: &CutsProps) -> Html {
    let Some(figures) = &props.figures else {
        return element("p")
            .class("empty")
            .tell(key!(
                "The cut plan with its weights stands here once the side has a weight and a price."
            ))
            .html();
    };
    element("div")
        .class("sheet")
        .node(whole::whole_side(&props.data, figures, props.draft.units))
        .node(grind::grind(props, figures))
        .put(
            element("ul")
                .class("plan-tree")
                .node(piece::piece(props, figures, 0)),
        )
        .html()
}

impl CutsProps {
    /// The first way by which `part` is broken in the last good figures.
    fn figures_way(&self, part: PartId) -> Option<WayId> {
        let plan = &self.figures.as_ref()?.resolved.plan;
        plan.ways_of(&self.data, part).first().map(|(way, _)| *way)
    }
}
