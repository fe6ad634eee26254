//! One input at a time put to its low and its high end.

use decision::{Bar as Moved, InputSpread, StatedSpread, WhatIf, bars, stated_spread};
use pricing::PricingError;
use quantity::Decimal;
use wording::{say, text};

use crate::block::{Bar, Block, Tone};
use crate::form::{Form, Label, Reach};
use crate::inputs;
use crate::question::Question;

/// The answer.
///
/// # Errors
/// As [`bars()`].
pub fn answer(question: &Question, form: &mut Form) -> Result<Vec<Block>, PricingError> {
    let case = &question.case;
    let plan = WhatIf::default();
    let by_walk_away = form.choice(
        Label {
            id: "by",
            name: text!("Moves what"),
            hint: text!("Widest bar first."),
        },
        vec![
            ("margin".to_owned(), text!("Margin").to_owned()),
            ("walk-away".to_owned(), text!("Walk-away price").to_owned()),
        ],
    ) == "walk-away";
    let stated: Vec<StatedSpread> = inputs::inputs(question)
        .into_iter()
        .map(|input| stated_spread(case, &plan, input))
        .collect();
    let spreads = edited(question, form, &stated);
    let mut moved = bars(case, &plan, &spreads)?;
    if by_walk_away {
        moved.sort_by_walk_away();
    }
    let middle = if by_walk_away {
        question.offer(moved.middle.walk_away)
    } else {
        notation::percent(moved.middle.margin)
    };
    let caption = if by_walk_away {
        say!(
            "Walk-away price from low to high; the plan has {middle}",
            middle
        )
    } else {
        say!("Margin from low to high; the plan has {middle}", middle)
    };
    let mut blocks = Vec::new();
    if let Some(first) = moved.bars.first() {
        blocks.push(Block::Text(
            Tone::Finding,
            say!("{name} moves it most: between {low} and {high} the margin runs from {low_margin} to {high_margin}.", inputs::name(case, first.input), inputs::written(question, first.input, first.low.value), inputs::written(question, first.input, first.high.value), notation::percent(first.low.reading.margin.min(first.high.reading.margin)), notation::percent(first.low.reading.margin.max(first.high.reading.margin))),
        ));
    }
    let measure = |reading: &decision::Reading| {
        if by_walk_away {
            reading.walk_away.per_kg()
        } else {
            reading.margin.percent()
        }
    };
    let base = measure(&moved.middle);
    let scale = Scale::over(
        moved
            .bars
            .iter()
            .flat_map(|bar| [measure(&bar.low.reading), measure(&bar.high.reading)])
            .chain([base]),
    );
    blocks.push(Block::Bars(
        caption,
        scale.place(base),
        moved
            .bars
            .iter()
            .map(|bar| Bar {
                label: inputs::name(case, bar.input),
                ends: [&bar.low, &bar.high].map(|end| scale.place(measure(&end.reading))),
                texts: [&bar.low, &bar.high]
                    .map(|end| inputs::written(question, bar.input, end.value)),
            })
            .collect(),
    ));
    blocks.push(table(question, &moved.bars, &stated));
    Ok(blocks)
}

/// The stated spreads with what was typed in their place.
fn edited(question: &Question, form: &mut Form, stated: &[StatedSpread]) -> Vec<InputSpread> {
    let case = &question.case;
    let choices = stated
        .iter()
        .map(|stated| {
            let input = stated.spread.input;
            (inputs::id(case, input), inputs::name(case, input))
        })
        .collect();
    let chosen = form.choice(
        Label {
            id: "of",
            name: text!("Range of"),
            hint: text!("Whose low and high end to set."),
        },
        choices,
    );
    stated
        .iter()
        .map(|stated| {
            let input = stated.spread.input;
            let id = inputs::id(case, input);
            let mut end = |which: &str, name: &str, stands: Decimal| {
                let label = Label {
                    id: &format!("{which}-{id}"),
                    name,
                    hint: stated.source,
                };
                let shown = id == chosen;
                form.shown(shown, |form| {
                    inputs::read(form, case, input, label, stands, Reach::None)
                })
            };
            InputSpread {
                input,
                low: end("low", text!("Low end"), stated.spread.low),
                high: end("high", text!("High end"), stated.spread.high),
            }
        })
        .collect()
}

fn table(question: &Question, bars: &[Moved], stated: &[StatedSpread]) -> Block {
    let case = &question.case;
    let rows = bars
        .iter()
        .map(|bar| {
            let source = stated
                .iter()
                .find(|stated| stated.spread.input == bar.input)
                .map_or_else(String::new, |stated| {
                    format!("{} ({})", stated.source, stated.mark.words())
                });
            let (low, high) = (&bar.low, &bar.high);
            vec![
                inputs::name(case, bar.input),
                inputs::written(question, bar.input, low.value),
                inputs::written(question, bar.input, high.value),
                notation::percent(low.reading.margin),
                notation::percent(high.reading.margin),
                question.offer(low.reading.walk_away),
                question.offer(high.reading.walk_away),
                source,
            ]
        })
        .collect();
    let heads = [
        text!("Figure"),
        text!("Low"),
        text!("High"),
        text!("Margin, low"),
        text!("Margin, high"),
        text!("Walk-away, low"),
        text!("Walk-away, high"),
        text!("Where the range is from"),
    ];
    Block::FoldedTable(
        text!("The bars as a table").to_owned(),
        heads.map(str::to_owned).into(),
        rows,
    )
}

/// Places on a chart, in thousandths of its width.
struct Scale {
    from: Decimal,
    width: Decimal,
}

impl Scale {
    /// From the least to the most of some numbers.
    fn over(numbers: impl Iterator<Item = Decimal> + Clone) -> Self {
        let from = numbers.clone().min().unwrap_or_default();
        let to = numbers.max().unwrap_or_default();
        Self {
            from,
            width: to.saturating_sub(from),
        }
    }

    fn place(&self, number: Decimal) -> u16 {
        number
            .saturating_sub(self.from)
            .saturating_mul(Decimal::ONE_THOUSAND)
            .checked_div(self.width)
            .and_then(|place| u16::try_from(place.round()).ok())
            .unwrap_or_default()
    }
}
