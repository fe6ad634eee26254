//! How suggested prices are rounded for the card, and how they came out.

use document::format::RoundToForm;
use pricing::SuggestionError;
use quantity::Rounding;
use yew::Html;

use super::PricesProps;
use crate::element::element;
use crate::entry_field::{Form, Looks};
use crate::select_field::select_field;
use crate::state::{Action, Figures};
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
            "Rounded",
            &[
                ("up".into(), "Up".into()),
                ("nearest".into(), "To nearest".into()),
            ],
            in_force,
            "The side meets the target either way.",
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
            "Priced per",
            &[
                ("weight".into(), draft.units.mass().symbol().into()),
                ("100g".into(), "100 g".into()),
            ],
            if draft.round_per_100g {
                "100g"
            } else {
                "weight"
            },
            "As on the card.",
            move |chosen| dispatch.emit(Action::RoundPer100g(chosen == "100g")),
        )
    };
    let form = Form {
        draft,
        faults: &props.faults,
        dispatch: &props.dispatch,
    };
    let hint = "Cents, such as 99 or 49, 99. Empty: any.";
    element("div")
        .class("triple")
        .node(form.field(Field::Endings, "Price endings", Looks::hinted(hint)))
        .node(to)
        .node(unit)
        .html()
}

/// What the suggested prices bring beyond the target, or what stands in their
/// way.
pub fn board_notice(props: &PricesProps, figures: &Figures) -> Html {
    let rows = &figures.sheet.rows;
    let name = |line: usize| {
        rows.get(line)
            .map_or("a cut", |row| props.data[row.product].name.as_str())
    };
    let unit = props.draft.units.price();
    match &figures.sheet.board {
        Ok(board) if board.surplus.is_positive() => note(format!(
            "The prices you hold alone bring {} more than the target asks.",
            notation::money(board.surplus)
        )),
        Ok(board) if board.excess.is_positive() => note(format!(
            "Rounding brings {} more than the target asks{}.",
            notation::money(board.excess),
            if board.is_proven_least {
                ", the least there is"
            } else {
                ""
            }
        )),
        Ok(_) => Html::default(),
        Err(SuggestionError::OutOfReach { short, held }) => {
            let lines = held.iter().fold(element("ul"), |list, line| {
                let alone = line.price_if_released.map(|price| {
                    let price = notation::price_with_unit(price, unit, Rounding::Up);
                    format!(": alone it would need {price}")
                });
                let alone = alone.unwrap_or_default();
                list.put(element("li").text(format!("{}{alone}", name(line.line))))
            });
            element("div")
                .class("caution")
                .set("role", "alert")
                .put(element("p").text(format!(
                    "The prices you hold keep sales {} below the target. Release one of these:",
                    notation::money(*short)
                )))
                .put(lines)
                .html()
        }
        Err(SuggestionError::BelowZero { line }) => problem(name(*line), "has a price below zero"),
        Err(SuggestionError::FloorAboveCap { line }) => problem(
            name(*line),
            "has a lowest price above its highest: change one of them",
        ),
        Err(SuggestionError::NoEndingBetween { line }) => problem(
            name(*line),
            "has no price with these endings between its lowest and its highest: move one of them or allow another ending",
        ),
    }
}

fn note(text: String) -> Html {
    element("p").class("note").text(text).html()
}

fn problem(cut: &str, what: &str) -> Html {
    element("p")
        .class("caution")
        .set("role", "alert")
        .text(format!("No prices can be suggested: {cut} {what}."))
        .html()
}
