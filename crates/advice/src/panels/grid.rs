//! Two inputs against each other, and the line where the side stops paying.

use decision::{Axis, Input, WhatIf, grid, stated_spread};
use pricing::{Outcome, PricingError};
use wording::{say, text};

use crate::block::{Block, Cell, GridRow, Tone};
use crate::form::{Form, Label, Reach};
use crate::inputs;
use crate::question::Question;

/// Cells to a side.
const CELLS: u32 = 7;

/// The answer.
///
/// # Errors
/// As [`grid()`], where not even the line can be priced.
pub fn answer(question: &Question, form: &mut Form) -> Result<Vec<Block>, PricingError> {
    let case = &question.case;
    let all = inputs::inputs(question);
    let down = axis_input(
        question,
        form,
        &all,
        ["down", text!("Down")],
        Input::Saleable,
    );
    let across = axis_input(
        question,
        form,
        &all,
        ["across", text!("Across")],
        Input::SidePrice,
    );
    let rows = axis(question, form, down, "down");
    let columns = axis(question, form, across, "across");
    let heads = columns
        .values
        .iter()
        .map(|&value| inputs::written(question, across, value))
        .chain([text!("Pays").to_owned()])
        .collect();
    let mut drawn = Vec::new();
    for row in grid(case, &WhatIf::default(), &rows, &columns) {
        let mut cells: Vec<Cell> = row
            .cells
            .iter()
            .map(|cell| match cell {
                Ok(reading) => Cell {
                    text: notation::percent(reading.margin),
                    pays: reading.outcome == Outcome::Pays,
                },
                Err(_) => Cell {
                    text: "–".to_owned(),
                    pays: false,
                },
            })
            .collect();
        let line = row.line?;
        cells.push(Cell {
            text: inputs::limit(question, across, line),
            pays: line != decision::BreakEven::Never,
        });
        drawn.push(GridRow {
            label: inputs::written(question, down, row.value),
            cells,
        });
    }
    let names = [across, down].map(|input| inputs::name(case, input));
    let target = notation::percent(case.shop.target_margin);
    let mut blocks = vec![Block::Grid(
        say!(
            "Margin in each cell; ✓ makes the target of {target}, ✕ does not",
            target
        ),
        names,
        heads,
        drawn,
    )];
    if down == across {
        blocks.insert(
            0,
            Block::Text(
                Tone::Trouble,
                text!("The same figure stands on both sides: choose another for one of them.")
                    .to_owned(),
            ),
        );
    }
    Ok(blocks)
}

/// Which input an axis moves; the usual one unless another is chosen.
fn axis_input(
    question: &Question,
    form: &mut Form,
    all: &[Input],
    [id, name]: [&str; 2],
    usual: Input,
) -> Input {
    let case = &question.case;
    let rest = all.iter().filter(|input| **input != usual);
    let ordered: Vec<Input> = [usual].into_iter().chain(rest.copied()).collect();
    let choices = ordered
        .iter()
        .map(|&input| (inputs::id(case, input), inputs::name(case, input)))
        .collect();
    let chosen = form.choice(
        Label {
            id,
            name,
            hint: text!("Any figure of the plan."),
        },
        choices,
    );
    ordered
        .into_iter()
        .find(|&input| inputs::id(case, input) == chosen)
        .unwrap_or(usual)
}

/// Even steps from a low to a high end that can be typed.
fn axis(question: &Question, form: &mut Form, input: Input, which: &str) -> Axis {
    let case = &question.case;
    let stated = stated_spread(case, &WhatIf::default(), input).spread;
    let of = inputs::id(case, input);
    let what = inputs::name(case, input);
    let mut end = |end: &str, name: String, stands| {
        let label = Label {
            id: &format!("{which}-{end}-{of}"),
            name: &name,
            hint: "",
        };
        inputs::read(form, case, input, label, stands, Reach::None)
    };
    let low = end("from", say!("{what}, from", what), stated.low);
    let high = end("to", say!("{what}, to", what), stated.high);
    Axis::even(input, low, high, CELLS)
}
