//! What a whole side can be told beyond weight and price: how long it hung, how it was graded, what
//! is aged, what is ground to classes, what is packed.

use anyhow::{Result, ensure};
use browser_tests::{Page, Place, Screen, Side, visit};
use notation::Units;
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

async fn chilled(page: &Page) -> Result<String> {
    page.texts(".totals tr:first-child td").await
}

#[test]
fn days_in_the_cooler_give_the_shrink() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        page.choose(By::Id("weight-basis"), "hot").await?;
        let by_share = page
            .reads(".totals tr:first-child td", |text| text.contains("192.08"))
            .await?;
        page.type_over("days-hung", "14").await?;
        let by_days = page
            .reads(".totals tr:first-child td", |text| text != by_share)
            .await?;
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
        let said = page
            .reads("#expected-yield", |text| text.contains("Yield grade"))
            .await?;
        ensure!(said.contains("saleable expected"), "{said}");
        let before = page.texts("#margin").await?;
        page.choose(By::Id("stock-from"), "grade").await?;
        page.reads("#margin", |text| text != before).await?;
        page.choose(By::Id("stock-from"), "preset").await?;
        page.reads("#margin", |text| text == before).await?;
        Ok(())
    });
}

#[test]
fn packs_ageing_and_classes_of_grind_change_the_sheet() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        let before = page.texts("#margin").await?;
        page.choose(By::Id("packaging-by"), "pack").await?;
        page.type_over("pack-cost", "1.90").await?;
        let packed = page.reads("#margin", |text| text != before).await?;

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
        page.reads("#margin", |text| text != packed).await?;

        let rows = page.texts("#cost-sheet tr[data-cut] button.name").await?;
        let class = page
            .run(
                "return document.querySelector('.grind input[id^=grind-]')?.id ?? ''",
                json!([]),
            )
            .await?;
        let class = class.as_str().unwrap_or_default().to_owned();
        ensure!(!class.is_empty(), "no class of grind");
        page.type_over(&class, "30").await?;
        let ground = page
            .reads("#cost-sheet tr[data-cut] button.name", |text| {
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

#[test]
fn suet_is_rendered_at_the_yield_of_the_shop() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        page.go_to(Place::Cuts).await?;
        unfold(page).await?;
        page.choose(By::Css("select[data-part=kidney-fat]"), "kidney-fat-tallow")
            .await?;
        unfold(page).await?;
        let catalogue = carcass::Catalogue::published()?;
        let part = catalogue.part_id("kidney-fat");
        let way = catalogue.way_id("kidney-fat-tallow");
        let (Some(part), Some(way)) = (part, way) else {
            anyhow::bail!("no suet to render");
        };
        let mut plan = Side::default().document().resolve(&catalogue)?;
        plan.plan.choose(part, way);
        plan.plan
            .render(part, Some(quantity::Share::from_percent(72.into())));
        let sheet = pricing::price_side(&catalogue, &plan.deal, &plan.plan, &plan.shop)?;
        let tallow = catalogue.product_id("tallow");
        let row = sheet.rows.iter().find(|row| Some(row.product) == tallow);
        let weight = row.map(|row| notation::mass_with_unit(row.weight, Units::Kilograms));
        let weight = weight.unwrap_or_default();
        let shown = "tr[data-cut=tallow] [data-field=weight]";
        ensure!(
            page.texts(shown).await? != weight,
            "72 % is not the estimate"
        );
        page.type_over("rendering-yield-kidney-fat", "72").await?;
        page.reads(shown, |text| text == weight).await?;
        page.type_over("rendering-yield-kidney-fat", "101").await?;
        page.shows_what("rendering-yield-kidney-fat-note", |text| {
            text.contains("more than all")
        })
        .await
        .map(drop)
    });
}
