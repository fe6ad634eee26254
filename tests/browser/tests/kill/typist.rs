//! Someone who types and saves without a pause.

use anyhow::Result;
use browser_tests::Page;
use thirtyfour::By;

use crate::memory::{FIELDS, Memory};

/// Keys struck between two plans saved.
const KEYS_TO_A_PLAN: usize = 16;

/// Types figures into the fields by turns, and now and then saves them, until it is over or the page
/// answers no more. What was typed is never the same twice.
pub async fn types(
    page: &Page,
    memory: &mut Memory,
    round: usize,
    is_over: impl Fn() -> bool,
) -> Result<()> {
    let mut texts = memory.texts();
    for (place, id) in FIELDS.into_iter().enumerate() {
        texts[place] = format!("{round}.");
        memory.types(texts.clone());
        page.paste_over(id, &texts[place]).await?;
        memory.has_typed();
    }
    let mut struck = 0;
    while !is_over() {
        let place = struck % FIELDS.len();
        let digit = (b'0' + u8::try_from(struck % 10)?) as char;
        texts[place].push(digit);
        let field = page.element(By::Id(FIELDS[place])).await?;
        memory.types(texts.clone());
        field.send_keys(digit.to_string()).await?;
        memory.has_typed();
        struck += 1;
        if struck.is_multiple_of(KEYS_TO_A_PLAN) {
            let name = format!("Side {round}-{struck}");
            page.paste_over("saved-name", &name).await?;
            memory.saves(&name);
            page.tap(By::Id("save-plan")).await?;
            memory.has_saved();
        }
    }
    Ok(())
}
