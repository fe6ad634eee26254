//! What grind the trims make, by mass balance of their fat.

use std::rc::Rc;

use advice::lacking;
use advice::wire::Told;
use draft::reading::Faults;
use draft::{Draft, Field};
use yew::prelude::*;

use crate::cautions::folded_by_id;
use crate::element::{all, element};
use crate::entry_field::{Form, Looks};
use crate::select_field::select_field;
use crate::state::{Action, Data, Figures};
use crate::told::Telling;

/// What a [`Grind`] shows.
#[derive(Properties, PartialEq)]
pub struct GrindProps {
    /// Classes.
    pub data: Data,
    /// The last figures that could be worked out.
    pub figures: Figures,
    /// What was typed.
    pub draft: Rc<Draft>,
    /// What cannot be read.
    pub faults: Rc<Faults>,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// What grind the trims make, and how much of each class is wanted. What is
/// lacking for it is said in any case, the rest where it is opened.
#[component]
pub fn Grind(props: &GrindProps) -> Html {
    let is_open = use_state_eq(|| false);
    let toggle = {
        let is_open = is_open.setter();
        Callback::from(move |event: Event| {
            let details: web_sys::HtmlDetailsElement = event.target_unchecked_into();
            is_open.set(details.open());
        })
    };
    let told = is_open.then(|| {
        html! { <Telling figures={props.figures.clone()} told={Told::Grind} /> }
    });
    let units = props.draft.units;
    let lacking = props
        .figures
        .sheet
        .breakdown
        .ground()
        .iter()
        .filter_map(|class| lacking(&props.data, class, units))
        .map(|text| {
            element("p")
                .class("caution")
                .set("role", "status")
                .text(text)
                .html()
        });
    let details = element("details")
        .class("grind")
        .on(Rc::new(html::ontoggle::Wrapper::new(toggle)))
        .put(element("summary").say("What grind the trims make"))
        .node(folded_by_id(&props.data, &["cold-chain", "grinding"]))
        .node(told.unwrap_or_default())
        .node(wanted_classes(props));
    all(vec![all(lacking.collect()), details.html()])
}

/// How much of each class is wanted, and what may go into it.
fn wanted_classes(props: &GrindProps) -> Html {
    let form = Form {
        draft: &props.draft,
        faults: &props.faults,
        dispatch: &props.dispatch,
    };
    let classes = props.data.grind_classes().iter().map(|class| {
        let field = Field::Grind(class.id.clone());
        form.field(field, class.name.clone(), Looks::hinted(""))
    });
    let dispatch = props.dispatch.clone();
    let margin = Looks::sample("points", "Points of fat: the fat of a trim is an estimate.");
    let with_fat = select_field(
        "grind-with-fat",
        "Fat trim in it",
        &[
            ("no".into(), "None".into()),
            ("yes".into(), "As the limit allows".into()),
        ],
        if props.draft.grind_with_fat {
            "yes"
        } else {
            "no"
        },
        "Fat trim that goes in is sold as grind.",
        move |chosen| dispatch.emit(Action::GrindWithFat(chosen == "yes")),
    );
    all(vec![
        element("h3").say("Grind to classes").html(),
        element("p")
            .class("note")
            .say("Percent of all lean trim (40), or a weight (5 kg). Empty: none of it. What is left stays ground beef.")
            .html(),
        element("div")
            .class("pair")
            .put_all(classes)
            .node(form.field(Field::GrindMargin, "Below the limit by", margin))
            .node(with_fat)
            .html(),
    ])
}
