//! The day of the price board, and whether the board is old.

use pricing::calendar_date::board_age;
use quantity::{Decimal, typed as typed_text};
use yew::prelude::*;

use super::PricesProps;
use crate::entry_field::typed;
use draft::{Draft, Field};

/// The day of the board with the days after which it counts as old. `today` is
/// the day in this place.
pub fn board_day(props: &PricesProps, today: &str) -> Html {
    html! {
        <>
            { age_notice(&props.draft, today) }
            <details class="more">
                <summary>{ "Day of the price board" }</summary>
                <div class="pair">
                    { date_field(props) }
                    { days_field(props) }
                </div>
            </details>
        </>
    }
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
            format!("The price board is of {date}, which is still to come: check its day.")
        }
        (Ok(age), Ok(days)) if Decimal::from(age) > days => {
            format!("The price board is {age} days old, more than {days}: look it over.")
        }
        _ => return Html::default(),
    };
    html! { <p class="sample-notice board-age" role="status">{ notice }</p> }
}

/// The day of the board.
fn date_field(props: &PricesProps) -> Html {
    let date = props.draft.entry(&Field::BoardDate).text;
    html! {
        <div class="field">
            <label for="board-date">{ "Day of the board" }</label>
            <div class="box"><input type="date" id="board-date" value={date}
                oninput={typed(Field::BoardDate, &props.dispatch)} /></div>
            <p class="note">{ "When these prices were set." }</p>
        </div>
    }
}

/// The days after which it counts as old.
fn days_field(props: &PricesProps) -> Html {
    let days = props.draft.entry(&Field::BoardDays).text;
    html! {
        <div class="field">
            <label for="board-days">{ "Old after" }</label>
            <div class="box"><input type="text" id="board-days" inputmode="numeric" value={days}
                oninput={typed(Field::BoardDays, &props.dispatch)} /><span class="unit">{ "days" }</span></div>
            <p class="note">{ "Says so when it is older." }</p>
        </div>
    }
}
