//! Classes of grind: what is made of them and what is lacking.

use anyhow::{Result, ensure};
use browser_tests::{Page, Place, Screen, Side, visit};
use serde_json::json;
use thirtyfour::By;

/// The text of the first element that `selector` finds; nothing where there is none.
async fn text(page: &Page, selector: &str) -> Result<String> {
    let text = page
        .run(
            "return document.querySelector(arguments[0])?.innerText ?? ''",
            json!([selector]),
        )
        .await?;
    Ok(text.as_str().unwrap_or_default().to_owned())
}

#[test]
fn grind_that_the_side_cannot_give_says_how_much_is_lacking() {
    visit(Screen::Phone, async |page| {
        let side = Side::default();
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        page.go_to(Place::Cuts).await?;
        page.tap(By::Css(".grind > summary")).await?;
        page.wait(
            "the most of every class",
            async || text(page, ".grind .classes").await,
            |said| said.contains("At most") || said.contains("AT MOST"),
        )
        .await?;
        let class = page
            .run(
                "return document.querySelector('.grind input[id^=grind-]').id",
                json!([]),
            )
            .await?;
        let class = class.as_str().unwrap_or_default().to_owned();
        page.type_over(&class, "400 kg").await?;
        let caution = "#place-cuts .caution[role=status]";
        let lacking = page
            .wait(
                "what is lacking",
                async || text(page, caution).await,
                |said| said.contains("of the 400.00 kg wanted"),
            )
            .await?;
        ensure!(lacking.contains("kg short"), "{lacking}");
        page.type_over(&class, "2 kg").await?;
        page.wait(
            "nothing to be lacking",
            async || text(page, caution).await,
            String::is_empty,
        )
        .await?;
        page.wait(
            "what was made",
            async || text(page, ".grind .made").await,
            |said| said.contains("2.00 kg"),
        )
        .await
        .map(drop)
    });
}
