//! What grind the trims make, by mass balance of their fat.

use advice::lacking;
use advice::wire::Told;
use draft::Field;
use wording::{key, text};
use yew::prelude::*;

use super::CutsProps;
use crate::cautions::folded_by_id;
use crate::element::{all, element};
use crate::entry_field::{Form, Looks};
use crate::select_field::select_field;
use crate::state::{Action, Figures};
use crate::told::Unfolding;

/// What grind the trims make, and how much of each class is wanted. What is
/// lacking for it is said in any case, the rest where it is opened.
pub fn grind(props: &CutsProps, figures: &Figures) -> Html {
    let units = props.draft.units;
    let ground = figures.sheet.breakdown.ground().iter();
    let lacking = ground
        .filter_map(|class| lacking(&props.data, class, units))
        .map(|text| {
            element("p")
                .class("caution")
                .set("role", "status")
                .text(text)
                .html()
        });
    let classes = html! {
        <Unfolding class="grind" name={text!("What grind the trims make")} figures={figures.clone()} told={Told::Grind}
            before={folded_by_id(&props.data, &["cold-chain", "grinding"])} after={wanted_classes(props)} />
    };
    all(vec![all(lacking.collect()), classes])
}

/// How much of each class is wanted, and what may go into it.
fn wanted_classes(props: &CutsProps) -> Html {
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
    let margin = Looks::sample(
        text!("points"),
        text!("Points of fat: the fat of a trim is an estimate."),
    );
    let with_fat = select_field(
        "grind-with-fat",
        text!("Fat trim in it"),
        &[
            ("no".into(), text!("None").into()),
            ("yes".into(), text!("As the limit allows").into()),
        ],
        if props.draft.grind_with_fat {
            "yes"
        } else {
            "no"
        },
        text!("Fat trim that goes in is sold as grind."),
        move |chosen| dispatch.emit(Action::GrindWithFat(chosen == "yes")),
    );
    all(vec![
        element("h3").tell(key!("Grind to classes")).html(),
        element("p")
            .class("note")
            .tell(key!("Percent of all lean trim (40), or a weight (5 kg). Empty: none of it. What is left stays ground beef."))
            .html(),
        element("div")
            .class("pair")
            .put_all(classes)
            .node(form.field(Field::GrindMargin, text!("Below the limit by"), margin))
            .node(with_fat)
            .html(),
    ])
}
