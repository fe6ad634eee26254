//! The day of the price board, and whether the board is old.

use pricing::calendar_date::board_age;
use quantity::{Decimal, typed as typed_text};
use wording::{key, say, text};
use yew::Html;

use super::PricesProps;
use crate::element::{Element, all, element};
use crate::entry_field::{typed, unit};
use draft::{Draft, Field};

/// The day of the board with the days after which it counts as old. `today` is
/// the day in this place.
pub fn board_day(props: &PricesProps, today: &str) -> Html {
    let fields = element("div")
        .class("pair")
        .put(date_field(props))
        .put(days_field(props));
    let fold = element("details")
        .class("more")
        .put(element("summary").tell(key!("Day of the price board")))
        .put(fields);
    all(vec![age_notice(&props.draft, today), fold.html()])
}

/// The day in this place, as the board's day is written.
pub fn today() -> String {
    let now = js_sys::Date::new_0();
    format!(
        "{:04}-{:02}-{:02}",
        now.get_full_year(),
        now.get_month() + 1,
        now.get_date()
    )
}

/// What to say of the board's age: that it is old, or that it cannot be told.
fn age_notice(draft: &Draft, today: &str) -> Html {
    let date = draft.entry(&Field::BoardDate).text;
    let days = draft.entry(&Field::BoardDays).text;
    if date.is_empty() {
        return Html::default();
    }
    let notice = match (board_age(&date, today), typed_text::number(&days)) {
        (Err(error), _) => error.to_string(),
        (_, Err(error)) => error.to_string(),
        (Ok(age), _) if age < 0 => {
            say!(
                "The price board is of {date}, which is still to come: check its day.",
                date
            )
        }
        (Ok(age), Ok(days)) if Decimal::from(age) > days => {
            say!(
                "The price board is {age} days old, more than {days}: look it over.",
                age,
                days
            )
        }
        _ => return Html::default(),
    };
    element("p")
        .class("sample-notice board-age")
        .set("role", "status")
        .text(notice)
        .html()
}

/// The day of the board.
fn date_field(props: &PricesProps) -> Element {
    let input = element("input")
        .set("type", "date")
        .set("id", "board-date")
        .value(props.draft.entry(&Field::BoardDate).text)
        .on_input(typed(Field::BoardDate, &props.dispatch));
    element("div")
        .class("field")
        .put(
            element("label")
                .set("for", "board-date")
                .tell(key!("Day of the board")),
        )
        .put(element("div").class("box").put(input))
        .put(
            element("p")
                .class("note")
                .tell(key!("When these prices were set.")),
        )
}

/// The days after which it counts as old.
fn days_field(props: &PricesProps) -> Element {
    let input = element("input")
        .set("type", "text")
        .set("id", "board-days")
        .set("inputmode", "numeric")
        .value(props.draft.entry(&Field::BoardDays).text)
        .on_input(typed(Field::BoardDays, &props.dispatch));
    element("div")
        .class("field")
        .put(
            element("label")
                .set("for", "board-days")
                .tell(key!("Old after")),
        )
        .put(
            element("div")
                .class("box")
                .put(input)
                .node(unit(text!("days"))),
        )
        .put(
            element("p")
                .class("note")
                .tell(key!("Says so when it is older.")),
        )
}
