//! Someone who types and saves without a pause.

use anyhow::Result;
use browser_tests::Page;
use thirtyfour::By;

use crate::memory::{FIELDS, Memory};

/// Types figures into the fields by turns, each in place of the last, and when all are filled saves
/// them, until it is over or the page answers no more. No figure comes twice, so whatever stands in
/// the fields tells how far someone had got.
pub async fn types(
    page: &Page,
    memory: &mut Memory,
    round: usize,
    is_over: impl Fn() -> bool,
) -> Result<()> {
    let mut texts = memory.texts();
    for figure in 0.. {
        let place = figure % FIELDS.len();
        page.tap(By::Id(FIELDS[place])).await?;
        let mut typed = String::new();
        for digit in format!("{round:03}{figure:03}").chars() {
            typed.push(digit);
            texts[place].clone_from(&typed);
            memory.types(texts.clone());
            page.press(digit.to_string()).await?;
            memory.has_typed();
            if is_over() {
                return Ok(());
            }
        }
        if place + 1 == FIELDS.len() {
            let name = format!("Side {round}-{figure}");
            page.paste_over("saved-name", &name).await?;
            memory.saves(&name);
            page.tap(By::Id("save-plan")).await?;
            memory.has_saved();
        }
    }
    Ok(())
}
