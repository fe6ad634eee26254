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
    // Places that are out of sight come a moment after the first one.
    page.wait(
        "all that was entered",
        async || all_that_is_entered(page).await,
        |after| *after == before,
    )
    .await?;
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

/// Types a text into the field of the weight and, before anything else can happen on the page, does
/// what the script says.
async fn types_and(page: &Page, text: &str, at_once: &str) -> Result<()> {
    let script = format!(
        "const field = document.getElementById('side-weight');
         field.focus();
         field.select();
         document.execCommand('insertText', false, arguments[0]);
         {at_once}"
    );
    page.run(&script, json!([text])).await.map(drop)
}

#[test]
fn what_is_typed_just_before_the_page_goes_is_kept() {
    visit(Screen::Phone, async |page| {
        // Leaving is to cut short nothing that the browser would complain about.
        page.until_kept().await?;
        page.enter(&Side::default()).await?;
        // A page that leaves at the same stroke.
        types_and(page, "271", "location.href = 'about:blank'").await?;
        page.wait(
            "the page to go",
            async || page.run("return location.href", json!([])).await,
            |address| *address == json!("about:blank"),
        )
        .await?;
        page.open().await?;
        page.holds("side-weight", "271").await?;
        // A tab that is closed.
        let first = page.tab().await?;
        page.open_in_new_tab().await?;
        types_and(page, "272", "").await?;
        page.close_for(&first).await?;
        page.reload().await?;
        page.holds("side-weight", "272").await?;
        // A tab that goes out of sight, and never comes back.
        types_and(page, "273", "").await?;
        page.open_in_new_tab().await?;
        page.holds("side-weight", "273").await
    });
}

#[test]
fn of_two_tabs_each_goes_on_with_its_own_and_the_last_word_is_kept_whole() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.type_over("side-weight", "201").await?;
        let first = page.tab().await?;
        let second = page.open_in_new_tab().await?;
        page.holds("side-weight", "201").await?;
        page.type_over("side-weight", "202").await?;
        page.look_at(&first).await?;
        // What another tab types does not change what one is at.
        page.holds("side-weight", "201").await?;
        page.type_over("side-price", "9.1").await?;
        page.look_at(&second).await?;
        page.holds("side-price", Side::default().price).await?;
        page.holds("side-weight", "202").await?;
        // The first tab typed last: all of it is there, and nothing of the second.
        page.open().await?;
        page.holds("side-weight", "201").await?;
        page.holds("side-price", "9.1").await
    });
}

/// What is in the storage: the draft, and what another tab had typed.
async fn weights_kept(page: &Page) -> Result<Value> {
    page.run(
        "return ['sideworth/draft', 'sideworth/draft-of-another-tab'].map((key) =>
             new URLSearchParams(localStorage.getItem(key) ?? '').get('side-weight'))",
        json!([]),
    )
    .await
}

/// Whether the choice between two tabs is offered.
async fn has_to_choose(page: &Page, has_to: bool) -> Result<()> {
    page.wait(
        "the choice between two tabs",
        async || {
            page.run(
                "return document.getElementById('elsewhere') !== null",
                json!([]),
            )
            .await
        },
        |seen| *seen == json!(has_to),
    )
    .await
    .map(drop)
}

#[test]
fn what_two_tabs_type_is_kept_until_someone_chooses() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.type_over("side-weight", "201").await?;
        let first = page.tab().await?;
        let second = page.open_in_new_tab().await?;
        has_to_choose(page, false).await?;
        page.type_over("side-weight", "202").await?;
        page.look_at(&first).await?;
        has_to_choose(page, true).await?;
        page.holds("side-weight", "201").await?;
        page.type_over("side-weight", "203").await?;
        let kept = weights_kept(page).await?;
        ensure!(kept == json!(["kg 203", "kg 202"]), "{kept}");

        // Neither is gone when both tabs are.
        page.look_at(&second).await?;
        page.close_for(&first).await?;
        page.reload().await?;
        page.holds("side-weight", "203").await?;
        has_to_choose(page, true).await?;
        page.tap(By::Id("take-other")).await?;
        page.holds("side-weight", "202").await?;
        has_to_choose(page, false).await?;
        let kept = weights_kept(page).await?;
        ensure!(kept == json!(["kg 202", null]), "{kept}");
        page.tap(By::Id("undo-step")).await?;
        page.holds("side-weight", "203").await?;

        let second = page.open_in_new_tab().await?;
        page.type_over("side-weight", "204").await?;
        page.look_at(&first).await?;
        has_to_choose(page, true).await?;
        page.tap(By::Id("keep-own")).await?;
        has_to_choose(page, false).await?;
        let kept = weights_kept(page).await?;
        ensure!(kept == json!(["kg 203", null]), "{kept}");
        // The other tab goes on with its own, and has the choice as well.
        page.look_at(&second).await?;
        page.holds("side-weight", "204").await?;
        has_to_choose(page, true).await
    });
}
