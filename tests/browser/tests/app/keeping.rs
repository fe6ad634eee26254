//! What was typed is there after a reload, to the letter.

use anyhow::{Result, ensure};
use browser_tests::{Page, Place, Screen, Side, visit};
use serde_json::{Value, json};
use thirtyfour::By;

/// Every field and choice of the page with what it holds.
async fn all_that_is_entered(page: &Page) -> Result<Value> {
    page.run(
        "return Object.fromEntries([...document.querySelectorAll('main input, main select')]
             .map((field, index) => [field.id || field.dataset.part || `field ${index}`, field.value]))",
        json!([]),
    )
    .await
}

async fn comes_back(page: &Page) -> Result<()> {
    let before = all_that_is_entered(page).await?;
    let strip = (page.text("verdict").await?, page.text("margin").await?);
    page.reload().await?;
    let after = all_that_is_entered(page).await?;
    ensure!(after == before, "before: {before}\nafter: {after}");
    let now = (page.text("verdict").await?, page.text("margin").await?);
    ensure!(now == strip, "before: {strip:?}\nafter: {now:?}");
    Ok(())
}

#[test]
fn a_whole_side_comes_back() {
    visit(Screen::Phone, async |page| {
        let side = Side {
            weight: "430,5",
            weight_unit: "lb",
            price: "$3,81/lb",
            grass_percent: 65,
            plan: "bone-in",
            labour_minutes: Some("2.5 h"),
            labour_rate: "34.00",
            target_margin: "30 %",
            board: &[("ground-beef", "7,49"), ("stew-beef", "9.5 /lb")],
        };
        page.enter(&side).await?;
        page.go_to(Place::Prices).await?;
        let method = page
            .run(
                "return [...document.getElementById('method').options]
                     .find((method) => !method.selected).value",
                json!([]),
            )
            .await?;
        let method = method.as_str().unwrap_or_default();
        page.choose(By::Id("method"), method).await?;
        page.go_to(Place::Cuts).await?;
        let way = page
            .run(
                "document.querySelectorAll('#place-cuts details').forEach((fold) => { fold.open = true; });
                 const list = document.querySelector('select[data-part=rib]');
                 return [...list.options].find((way) => !way.selected).value",
                json!([]),
            )
            .await?;
        let way = way.as_str().unwrap_or_default();
        let by = || By::Css("select[data-part=rib]");
        page.choose(by(), way).await?;
        page.wait(
            "the plan to say that a part is cut another way",
            async || {
                page.run(
                    "return document.getElementById('cut-plan-note').textContent",
                    json!([]),
                )
                .await
            },
            |note| note.as_str().is_some_and(|note| note.starts_with("1 part")),
        )
        .await?;
        let entered = all_that_is_entered(page).await?;
        for (field, text) in [
            ("side-weight", "430,5"),
            ("side-price", "$3,81/lb"),
            ("side-weight-unit", "lb"),
            ("stock", "65"),
            ("cut-plan", "bone-in"),
            ("labour-minutes", "2.5 h"),
            ("labour-rate", "34.00"),
            ("target-margin", "30 %"),
            ("price-ground-beef", "7,49"),
            ("price-stew-beef", "9.5 /lb"),
            ("method", method),
            ("rib", way),
        ] {
            ensure!(entered[field] == text, "{field}: {}", entered[field]);
        }
        comes_back(page).await
    });
}

#[test]
fn what_cannot_be_read_comes_back_too() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.type_over("side-weight", "about 195").await?;
        page.type_over("labour-rate", "1,2.3").await?;
        page.reload().await?;
        for (id, text) in [("side-weight", "about 195"), ("labour-rate", "1,2.3")] {
            page.holds(id, text).await?;
            ensure!(page.is_marked_bad(id).await?, "{id} is not marked");
        }
        page.holds("side-price", "8.4").await
    });
}

#[test]
fn every_browser_starts_with_a_clean_sheet() {
    visit(Screen::Phone, async |page| {
        page.holds("side-weight", "").await?;
        page.holds("side-price", "").await?;
        page.shows_what("verdict", |text| text.starts_with("No answer yet"))
            .await
            .map(drop)
    });
}
