//! What a whole side can be told beyond weight and price: how long it hung, how it was graded, what
//! is aged, what is ground to classes, what is packed.

use anyhow::{Result, ensure};
use browser_tests::{Page, Place, Screen, Side, visit};
use serde_json::json;
use thirtyfour::By;

async fn begin(page: &Page) -> Result<()> {
    page.enter(&Side::default()).await?;
    page.says(&Side::default().figures()?).await?;
    unfold(page).await
}

async fn unfold(page: &Page) -> Result<()> {
    page.run(
        "document.querySelectorAll('details.more, details.grind, .plan-tree details')
             .forEach((fold) => { fold.open = true; })",
        json!([]),
    )
    .await
    .map(drop)
}

/// The text of all that `selector` finds.
async fn texts(page: &Page, selector: &str) -> Result<String> {
    let texts = page
        .run(
            "return [...document.querySelectorAll(arguments[0])].map((found) => found.textContent).join('\\n')",
            json!([selector]),
        )
        .await?;
    Ok(texts.as_str().unwrap_or_default().to_owned())
}

/// Waits until what `selector` finds reads right.
async fn reads(page: &Page, selector: &str, is_right: impl Fn(&str) -> bool) -> Result<String> {
    page.wait(
        selector,
        async || texts(page, selector).await,
        |text| is_right(text),
    )
    .await
}

async fn chilled(page: &Page) -> Result<String> {
    texts(page, ".totals tr:first-child td").await
}

#[test]
fn days_in_the_cooler_give_the_shrink() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        page.choose(By::Id("weight-basis"), "hot").await?;
        let by_share = reads(page, ".totals tr:first-child td", |text| {
            text.contains("192.08")
        })
        .await?;
        page.type_over("days-hung", "14").await?;
        let by_days = reads(page, ".totals tr:first-child td", |text| text != by_share).await?;
        ensure!(by_days < by_share, "{by_days} after {by_share}");
        ensure!(chilled(page).await? == by_days, "it stays");
        Ok(())
    });
}

#[test]
fn a_graded_carcass_can_set_the_yields() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        page.type_over("carcass-weight", "340").await?;
        page.type_over("back-fat", "1.2").await?;
        page.type_over("ribeye-area", "84").await?;
        page.type_over("kidney-fat-share", "2.5").await?;
        let said = reads(page, "#expected-yield", |text| text.contains("Yield grade")).await?;
        ensure!(said.contains("saleable expected"), "{said}");
        let before = texts(page, "#margin").await?;
        page.choose(By::Id("stock-from"), "grade").await?;
        reads(page, "#margin", |text| text != before).await?;
        page.choose(By::Id("stock-from"), "preset").await?;
        reads(page, "#margin", |text| text == before).await?;
        Ok(())
    });
}

#[test]
fn packs_ageing_and_classes_of_grind_change_the_sheet() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        let before = texts(page, "#margin").await?;
        page.choose(By::Id("packaging-by"), "pack").await?;
        page.type_over("pack-cost", "1.90").await?;
        let packed = reads(page, "#margin", |text| text != before).await?;

        page.go_to(Place::Cuts).await?;
        unfold(page).await?;
        let first = page
            .run(
                "return document.querySelector('input[id^=ageing-days-]')?.id ?? ''",
                json!([]),
            )
            .await?;
        let id = first.as_str().unwrap_or_default().to_owned();
        ensure!(!id.is_empty(), "nothing can be aged");
        page.type_over(&id, "28").await?;
        reads(page, "#margin", |text| text != packed).await?;

        let rows = texts(page, "#cost-sheet tr[data-cut] button.name").await?;
        let class = page
            .run(
                "return document.querySelector('.grind input[id^=grind-]')?.id ?? ''",
                json!([]),
            )
            .await?;
        let class = class.as_str().unwrap_or_default().to_owned();
        ensure!(!class.is_empty(), "no class of grind");
        page.type_over(&class, "30").await?;
        let ground = reads(page, "#cost-sheet tr[data-cut] button.name", |text| {
            text.lines().count() > rows.lines().count()
        })
        .await?;
        ensure!(
            ground.lines().count() == rows.lines().count() + 1,
            "{ground}"
        );
        Ok(())
    });
}
