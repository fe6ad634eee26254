//! How suggested prices are rounded for the card.

use document::format::RoundToForm;
use wording::text;
use yew::Html;

use super::PricesProps;
use crate::element::element;
use crate::entry_field::{Form, Looks};
use crate::select_field::select_field;
use crate::state::Action;
use draft::Field;

/// The choice of endings and rounding.
pub fn rounding_fields(props: &PricesProps) -> Html {
    let draft = &props.draft;
    let to = {
        let dispatch = props.dispatch.clone();
        let in_force = match draft.round_to {
            RoundToForm::Up => "up",
            RoundToForm::Nearest => "nearest",
        };
        select_field(
            "round-to",
            text!("Rounded"),
            &[
                ("up".into(), text!("Up").into()),
                ("nearest".into(), text!("To nearest").into()),
            ],
            in_force,
            text!("The side meets the target either way."),
            move |chosen| {
                dispatch.emit(Action::ChooseRounding(match chosen.as_str() {
                    "nearest" => RoundToForm::Nearest,
                    _ => RoundToForm::Up,
                }));
            },
        )
    };
    let unit = {
        let dispatch = props.dispatch.clone();
        select_field(
            "round-unit",
            text!("Priced per"),
            &[
                ("weight".into(), draft.units.mass().symbol().into()),
                ("100g".into(), "100 g".into()),
            ],
            if draft.round_per_100g {
                "100g"
            } else {
                "weight"
            },
            text!("As on the card."),
            move |chosen| dispatch.emit(Action::RoundPer100g(chosen == "100g")),
        )
    };
    let form = Form {
        draft,
        faults: &props.faults,
        dispatch: &props.dispatch,
    };
    let hint = text!("Cents, such as 99 or 49, 99. Empty: any.");
    element("div")
        .class("triple")
        .node(form.field(Field::Endings, text!("Price endings"), Looks::hinted(hint)))
        .node(to)
        .node(unit)
        .html()
}
