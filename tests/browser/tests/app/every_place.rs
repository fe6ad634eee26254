//! Every place of the app with all that it can show unfolded, in every language.

use anyhow::{Context, Result};
use browser_tests::{Page, Place, Side};
use serde_json::{Value, json};
use thirtyfour::By;
use wording::Language;

use crate::languages::speak;

/// Unfolds all that is folded away in the places in sight.
pub(crate) async fn unfold(page: &Page) -> Result<()> {
    page.run(
        "document.querySelectorAll('details').forEach((fold) => { fold.open = true; })",
        json!([]),
    )
    .await
    .map(drop)
}

/// Waits until all that the worker was asked has been told.
pub(crate) async fn until_told(page: &Page) -> Result<()> {
    page.wait(
        "the answers of the worker",
        async || {
            tokio::time::sleep(std::time::Duration::from_millis(250)).await;
            page.run(
                "return document.querySelectorAll('[aria-busy=true]').length",
                json!([]),
            )
            .await
        },
        |busy: &Value| *busy == json!(0),
    )
    .await
    .map(drop)
}

/// A side with two saved plans, and with a fault in a field and in a price.
pub(crate) async fn fill(page: &Page) -> Result<()> {
    page.enter(&Side::default()).await?;
    page.says(&Side::default().figures()?).await?;
    page.go_to(Place::Saved).await?;
    for _ in 0..2 {
        page.type_over("saved-name", "").await?;
        page.tap(By::Id("save-plan")).await?;
    }
    type_into_both(page, "much", "much").await
}

/// Types into a price and into a field.
async fn type_into_both(page: &Page, price: &str, margin: &str) -> Result<()> {
    page.go_to(Place::Prices).await?;
    page.type_over("price-stew-beef", price).await?;
    page.go_to(Place::Side).await?;
    page.type_over("target-margin", margin).await
}

/// Unfolds what is in a place, with what stands behind the first line of the sheet and the field
/// for a new name of a saved plan.
pub(crate) async fn open_up(page: &Page, place: Place) -> Result<()> {
    page.go_to(place).await?;
    unfold(page).await?;
    let more = match place {
        Place::Prices => ("tr[data-cut] button.name", ".trail .sum"),
        Place::Saved => (
            ".saved-tools button:nth-last-of-type(3)",
            ".saved-tools input",
        ),
        _ => return until_told(page).await,
    };
    let (button, opened) = more;
    page.wait(
        button,
        async || {
            page.run(
                "const button = document.querySelector(arguments[0]);
                 button?.click();
                 return button !== null",
                json!([button]),
            )
            .await
        },
        |is_there| *is_there == true,
    )
    .await?;
    page.wait(
        opened,
        async || {
            page.run(
                "return document.querySelector(arguments[0]) !== null",
                json!([opened]),
            )
            .await
        },
        |is_open| *is_open == true,
    )
    .await?;
    until_told(page).await
}

/// Does what `look` says in each place, all of it unfolded, in these languages.
pub(crate) async fn in_every_place(
    page: &Page,
    languages: &[Language],
    look: impl AsyncFn(Place) -> Result<()>,
) -> Result<()> {
    for &language in languages {
        // Where a page begins with a fault there is no last good figure to show.
        type_into_both(page, "17.5", "25").await?;
        speak(page, language).await?;
        page.shows_what("margin", |margin| !margin.is_empty())
            .await?;
        type_into_both(page, "much", "much").await?;
        for place in Place::ALL {
            open_up(page, place).await?;
            look(place)
                .await
                .with_context(|| format!("{language:?}, {place:?}"))?;
        }
    }
    Ok(())
}
