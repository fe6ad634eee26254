//! How far each input may go before the side stops paying.

use decision::{BreakEven, Input, WhatIf, break_even, saleable_share};
use pricing::PricingError;
use quantity::{Rounding, Share};
use wording::{say, text};

use crate::block::{Block, Tone};
use crate::inputs;
use crate::question::Question;

/// The answer.
///
/// # Errors
/// As [`break_even()`].
pub fn answer(question: &Question) -> Result<Vec<Block>, PricingError> {
    let case = &question.case;
    let plan = WhatIf::default();
    let target = notation::percent(case.shop.target_margin);
    let mut findings = Vec::new();
    let mut rows = Vec::new();
    for input in inputs::inputs(question) {
        let limit = break_even(case, &plan, input)?;
        if let Some(finding) = finding(question, input, limit) {
            findings.push(Block::Text(Tone::Finding, finding));
        }
        rows.push(vec![
            inputs::name(case, input),
            inputs::written(question, input, input.planned(case)),
            inputs::limit(question, input, limit),
        ]);
    }
    let mut blocks = findings;
    blocks.push(Block::Table(
        say!(
            "One figure moved at a time, all others as planned, at the target of {target}",
            target
        ),
        [text!("Figure"), text!("Stands at"), text!("Pays")]
            .map(str::to_owned)
            .into(),
        rows,
    ));
    Ok(blocks)
}

/// The two that a butcher asks for first, in a sentence.
fn finding(question: &Question, input: Input, limit: BreakEven) -> Option<String> {
    match (input, limit) {
        (Input::Saleable, BreakEven::AtLeast(by)) => {
            let planned = saleable_share(question.case.catalogue, &question.sheet.breakdown);
            let least = planned + Share::from_percent(by);
            Some(say!(
                "Pays down to a saleable yield of {least}; the plan has {planned}.",
                notation::percent(least),
                notation::percent(planned)
            ))
        }
        (Input::LabourMinutes, BreakEven::AtMost(most)) => Some(say!(
            "Pays up to {most} of labour.",
            inputs::limit_written(question, input, most, Rounding::Down)
        )),
        _ => None,
    }
}
