//! Classes of grind: what is made of them and what is lacking.

use anyhow::ensure;
use browser_tests::{Place, Screen, Side, visit};
use serde_json::json;
use thirtyfour::By;

#[test]
fn grind_that_the_side_cannot_give_says_how_much_is_lacking() {
    visit(Screen::Phone, async |page| {
        let side = Side::default();
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        page.go_to(Place::Cuts).await?;
        page.tap(By::Css(".grind > summary")).await?;
        page.reads(".grind .classes", |said| said.contains("At most"))
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
            .reads(caution, |said| said.contains("of the 400.00 kg wanted"))
            .await?;
        ensure!(lacking.contains("kg short"), "{lacking}");
        page.type_over(&class, "2 kg").await?;
        page.reads(caution, str::is_empty).await?;
        page.reads(".grind .made", |said| said.contains("2.00 kg"))
            .await
            .map(drop)
    });
}
