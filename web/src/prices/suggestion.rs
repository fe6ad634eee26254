//! What there is to say of the suggested prices as a whole: one sentence for
//! each way in which they can come out.

use pricing::SuggestionError;
use pricing::suggestion_error::{HeldLine, Hold};
use quantity::{Money, PriceUnit, Rounding};
use wording::{key, say, text};
use yew::Html;

use super::PricesProps;
use crate::element::{Element, element};
use crate::state::Figures;

/// What the suggested prices bring beyond the target, or what stands in their
/// way.
pub fn board_notice(props: &PricesProps, figures: &Figures) -> Html {
    let sheet = &figures.sheet;
    let name = |line: usize| {
        sheet
            .rows
            .get(line)
            .map_or(text!("a cut"), |row| props.data[row.product].name.as_str())
    };
    let unit = props.draft.units.price();
    match &sheet.board {
        Ok(board) if !board.is_met_by_held_prices => rounded(board.excess, board.is_proven_least),
        Ok(_) if !sheet.totals.net_spend().is_positive() => element("p").class("note").text(
            say!("By-products alone pay for the side: the target asks nothing of the cuts, so {zero} is suggested where you hold no price.", notation::money(Money::ZERO)),
        ),
        Ok(board) => held(board.surplus),
        Err(SuggestionError::OutOfReach { short, held }) => {
            let lines = held
                .iter()
                .map(|line| held_line(name(line.line), line, unit).html());
            let short = to_cent(*short, Rounding::Up);
            element("div")
                .class("caution")
                .set("role", "alert")
                .put(element("p").text(say!("At the highest prices allowed, sales stay {short} below the target. Change one of these:", notation::money(short))))
                .put(element("ul").put_all(lines))
        }
        Err(SuggestionError::BelowZero { line }) => {
            problem(name(*line), text!("has a weight or price below zero"))
        }
        Err(SuggestionError::FloorAboveCap { line }) => problem(
            name(*line),
            text!("has a lowest price above its highest: change one of them"),
        ),
        Err(SuggestionError::NoEndingBetween { line }) => problem(
            name(*line),
            text!("has no price with these endings between its lowest and its highest: move one of them or allow another ending"),
        ),
    }
    .html()
}

/// Whole cents, cut down where the amount must not look larger than it is and
/// taken up where it must not look smaller.
fn to_cent(money: Money, rounding: Rounding) -> Money {
    Money::from_units(rounding.to_cent(money.units()))
}

fn note(text: String) -> Element {
    element("p").class("note").text(text)
}

/// What is to be said where the cuts follow the board.
fn rounded(excess: Money, is_proven_least: bool) -> Element {
    let excess = to_cent(excess, Rounding::Down);
    if !excess.is_positive() {
        return element("p").class("note").tell(key!(
            "The suggested prices bring what the target asks, to the cent."
        ));
    }
    let least = if is_proven_least {
        text!(", the least there is")
    } else {
        ""
    };
    note(say!(
        "Rounding brings {excess} more than the target asks{least}.",
        notation::money(excess),
        least
    ))
}

/// What is to be said where pins and floors alone meet the target. Without it
/// the prices of nothing that the other cuts get would look like advice.
fn held(surplus: Money) -> Element {
    let surplus = to_cent(surplus, Rounding::Down);
    let spare = if surplus.is_positive() {
        say!(" with {surplus} to spare", notation::money(surplus))
    } else {
        String::new()
    };
    note(say!(
        "The prices you hold alone meet the target{spare}: it asks nothing of any other cut, so {zero} is suggested there.",
        spare,
        notation::money(Money::ZERO)
    ))
}

/// One of the cuts that keep the target out of reach: what holds it, and what
/// would help.
fn held_line(name: &str, line: &HeldLine, unit: PriceUnit) -> Element {
    let text = |price, rounding| notation::price_with_unit(price, unit, rounding);
    let price = text(line.price, Rounding::HalfEven);
    let hold = match line.hold {
        Hold::Pinned => say!("held at {price}", price),
        Hold::Capped => say!("not above {price}", price),
        Hold::NoBoardPrice => text!("without a price on the board").to_owned(),
    };
    let alone = line.price_if_released.map(|price| {
        let price = text(price, Rounding::Up);
        say!(": alone it would need {price}", price)
    });
    let alone = alone.unwrap_or_default();
    element("li").text(format!("{name}, {hold}{alone}"))
}

fn problem(cut: &str, what: &str) -> Element {
    element("p")
        .class("caution")
        .set("role", "alert")
        .text(say!("No prices can be suggested: {cut} {what}.", cut, what))
}
