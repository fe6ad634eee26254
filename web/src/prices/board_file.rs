//! The price board as a file, and how old it is.
//!
//! A file is only looked at when it is chosen: what would change is shown
//! first, and nothing changes before it is accepted.

use std::rc::Rc;

use pricing::PriceBoard;
use pricing::board_file::{FileFault, LARGEST_FILE, ReadBoard, read_board, write_board};
use pricing::calendar_date::board_age;
use quantity::{PriceUnit, Rounding, UnitPrice, typed as typed_text};
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{FileReader, HtmlInputElement};
use yew::prelude::*;

use crate::draft::{Draft, Field, Units};
use crate::entry_field::typed;
use crate::handing_out::hand_out;
use crate::state::{Action, Data, Figures};

/// What the board's file needs.
#[derive(Properties, PartialEq)]
pub struct BoardFileProps {
    /// Products.
    pub data: Data,
    /// What was typed.
    pub draft: Rc<Draft>,
    /// The figures with the board in force.
    pub figures: Figures,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// What was found in a file that was chosen.
type Looked = Result<ReadBoard, Vec<FileFault>>;

/// The board as a file.
#[component]
pub fn BoardFile(props: &BoardFileProps) -> Html {
    let looked = use_state(|| None::<Rc<Looked>>);
    let today = use_memo((), |()| today());
    let save = {
        let data = props.data.clone();
        let figures = props.figures.clone();
        let date = props.draft.entry(&Field::BoardDate).text;
        Callback::from(move |_: MouseEvent| {
            let file = write_board(&data, &figures.resolved.shop.board, date.parse().ok());
            hand_out("price-board.csv", "text/csv", &file);
        })
    };
    let choose = {
        let data = props.data.clone();
        let looked = looked.clone();
        Callback::from(move |event: Event| {
            let input: HtmlInputElement = event.target_unchecked_into();
            look_into(&input, &data, &looked);
            // The same file can then be chosen again after it was mended.
            input.set_value("");
        })
    };
    let leave = {
        let looked = looked.clone();
        Callback::from(move |_: MouseEvent| looked.set(None))
    };
    html! {
        <>
            { age_notice(&props.draft, &today) }
            <details class="more board-file">
                <summary>{ "Price board: its day, its file" }</summary>
                <div class="pair">
                    { date_field(props) }
                    { days_field(props) }
                </div>
                <button type="button" id="save-board" onclick={save}>{ "Save the board as CSV" }</button>
                <div class="field">
                    <label for="board-file">{ "Take prices from a CSV file" }</label>
                    <div class="box"><input type="file" id="board-file" accept=".csv,text/csv" onchange={choose}
                        aria-describedby="board-file-note" /></div>
                    <p class="note" id="board-file-note">
                        { "You see what would change first. A price stands three times in the file: keep the column you edit and delete the other two, or each edited line is a fault." }
                    </p>
                </div>
                if let Some(looked) = &*looked {
                    { found(props, looked, &leave) }
                }
            </details>
        </>
    }
}

/// The day in this place, as the board's day is written.
fn today() -> String {
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
        (Ok(age), Ok(days)) if quantity::Decimal::from(age) > days => {
            format!("The price board is {age} days old, more than {days}: look it over.")
        }
        _ => return Html::default(),
    };
    html! { <p class="sample-notice board-age" role="status">{ notice }</p> }
}

/// The day of the board.
fn date_field(props: &BoardFileProps) -> Html {
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
fn days_field(props: &BoardFileProps) -> Html {
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

/// Reads the file that was chosen, and no more of it than is ever taken.
fn look_into(input: &HtmlInputElement, data: &Data, looked: &UseStateHandle<Option<Rc<Looked>>>) {
    let Some(file) = input.files().and_then(|files| files.get(0)) else {
        return;
    };
    let looked = looked.clone();
    let fail = |message: &str| {
        looked.set(Some(Rc::new(Err(vec![FileFault {
            line: None,
            message: message.to_owned(),
        }]))));
    };
    let most = u32::try_from(LARGEST_FILE + 1).unwrap_or(u32::MAX);
    let (Ok(reader), Ok(piece)) = (
        FileReader::new(),
        file.slice_with_f64_and_f64(0.0, f64::from(most)),
    ) else {
        fail("The browser could not open the file.");
        return;
    };
    let read = {
        let reader = reader.clone();
        let data = data.clone();
        let looked = looked.clone();
        Closure::once_into_js(move || {
            let found = match reader.result() {
                Ok(bytes) => read_board(&data, &js_sys::Uint8Array::new(&bytes).to_vec()),
                Err(_) => Err(vec![FileFault {
                    line: None,
                    message: "The browser could not read the file.".to_owned(),
                }]),
            };
            looked.set(Some(Rc::new(found)));
        })
    };
    reader.set_onloadend(Some(read.unchecked_ref()));
    if reader.read_as_array_buffer(&piece).is_err() {
        fail("The browser could not read the file.");
    }
}

/// What a file would change, or what is wrong with it.
fn found(props: &BoardFileProps, looked: &Looked, leave: &Callback<MouseEvent>) -> Html {
    let read = match looked {
        Ok(read) => read,
        Err(faults) => {
            return html! {
                <div class="caution" role="alert" id="board-faults">
                    <p>{ "Nothing was taken. In the file:" }</p>
                    <ul>{ for faults.iter().map(|fault| html! { <li>{ fault.to_string() }</li> }) }</ul>
                </div>
            };
        }
    };
    let units = props.draft.units;
    let board = &props.figures.resolved.shop.board;
    let changes = changes(&props.data, board, read, units);
    let take = {
        let dispatch = props.dispatch.clone();
        let leave = leave.clone();
        let mut prices: Vec<_> = changes
            .iter()
            .map(|change| (change.field.clone(), change.text.clone()))
            .collect();
        if let Some(date) = read.date {
            prices.push((Field::BoardDate, Some(date.to_string())));
        }
        Callback::from(move |event: MouseEvent| {
            dispatch.emit(Action::TakeBoard(prices.clone()));
            leave.emit(event);
        })
    };
    html! {
        <div role="status" id="board-preview">
            <table class="classes">
                <caption>{ format!("{} of {} prices would change", changes.len(), read.own.len() + read.samples.len()) }</caption>
                <thead><tr>
                    <th scope="col">{ "Cut" }</th>
                    <th scope="col">{ "Now" }</th>
                    <th scope="col">{ format!("File, {}", units.price().symbol()) }</th>
                </tr></thead>
                <tbody>{ for changes.iter().map(|change| html! {
                    <tr><th scope="row">{ &change.name }</th><td>{ &change.now }</td><td>{ &change.then }</td></tr>
                }) }</tbody>
            </table>
            <div class="actions">
                <button type="button" id="take-board" onclick={take}>{ "Take these prices" }</button>
                <button type="button" class="quiet" onclick={leave}>{ "Leave the board as it is" }</button>
            </div>
        </div>
    }
}

/// One price that a file would change.
struct Change {
    field: Field,
    name: String,
    now: String,
    then: String,
    /// What would stand in the field; `None` for the sample.
    text: Option<String>,
}

fn changes(data: &Data, board: &PriceBoard, read: &ReadBoard, units: Units) -> Vec<Change> {
    let own = read
        .own
        .iter()
        .map(|&(product, price)| (product, Some(price)));
    let samples = read.samples.iter().map(|&product| (product, None));
    let mut changes = Vec::new();
    for (product, own) in own.chain(samples) {
        let is_sample = board.is_sample(product);
        let now = board.price(data, product);
        if own.map_or(is_sample, |own| !is_sample && own == now) {
            continue;
        }
        let shown = |price, is_sample| {
            let price = notation::price(price, units.price(), Rounding::HalfEven);
            if is_sample {
                format!("{price} sample")
            } else {
                price
            }
        };
        changes.push(Change {
            field: Field::Board(data[product].id.clone()),
            name: data[product].name.clone(),
            now: shown(now, is_sample),
            then: shown(
                own.unwrap_or_else(|| data.sample_price(product)),
                own.is_none(),
            ),
            text: own.map(|price| exact_text(price, units)),
        });
    }
    changes
}

/// A price as it could have been typed: in the unit in force where its digits
/// end there, else with a unit in which they do.
fn exact_text(price: UnitPrice, units: Units) -> String {
    let in_force = units.price();
    let ends_in = |unit: &PriceUnit| {
        let number = price.in_unit(*unit).normalize();
        number.scale() <= typed_text::MOST_PLACES && UnitPrice::from_unit(number, *unit) == price
    };
    let unit = [in_force, PriceUnit::PerKilogram, PriceUnit::Per100Gram]
        .into_iter()
        .find(ends_in)
        .unwrap_or(PriceUnit::PerPound);
    let number = price.in_unit(unit).normalize();
    if unit == in_force {
        number.to_string()
    } else {
        format!("{number} {}", unit.symbol())
    }
}
