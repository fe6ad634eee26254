//! What stands behind a line of the sheet, and prices that the shop holds.

use anyhow::{Result, ensure};
use browser_tests::{Page, Place, Screen, Side, read_amount, visit};
use quantity::Decimal;
use serde_json::json;
use thirtyfour::By;

/// Opens a side by the bone-in plan and goes to its prices.
async fn prices(page: &Page) -> Result<()> {
    let side = Side {
        plan: "bone-in",
        ..Side::default()
    };
    page.enter(&side).await?;
    page.says(&side.figures()?).await?;
    page.go_to(Place::Prices).await
}

/// Waits until `selector` finds nothing.
async fn gone(page: &Page, selector: &str) -> Result<()> {
    page.wait(
        selector,
        async || {
            page.run(
                "return document.querySelectorAll(arguments[0]).length",
                json!([selector]),
            )
            .await
        },
        |left| *left == json!(0),
    )
    .await
    .map(drop)
}

fn is_there(text: &str) -> bool {
    !text.is_empty()
}

/// The money in the last cell of each line that `selector` finds.
async fn money_in(page: &Page, selector: &str) -> Result<Vec<Decimal>> {
    let texts = page
        .run(
            "return [...document.querySelectorAll(arguments[0])]
                 .map((line) => line.querySelector('td:last-child').innerText)",
            json!([selector]),
        )
        .await?;
    let texts: Vec<String> = serde_json::from_value(texts)?;
    texts.iter().map(|text| read_amount(text)).collect()
}

#[test]
fn a_tap_on_a_cut_follows_its_cost_down_from_the_side() {
    visit(Screen::Phone, async |page| {
        prices(page).await?;
        page.tap(By::Css("tr[data-cut=porterhouse-steak] button.name"))
            .await?;
        page.reads(".trail .sum", is_there).await?;
        let lines = money_in(page, ".trail tr").await?;
        let whole = money_in(page, ".trail .sum").await?;
        let [.., handed_on, packaging, cost] = lines[..] else {
            anyhow::bail!("{lines:?}");
        };
        let cent = Decimal::new(1, 2);
        ensure!(whole == [cost], "{whole:?}");
        ensure!(
            (handed_on + packaging - cost).abs() <= cent,
            "{handed_on} + {packaging} is not {cost}"
        );
        let starts = money_in(page, ".trail .step").await?;
        ensure!(starts.len() > 1 && starts[0] > starts[1], "{starts:?}");

        page.tap(By::Css("tr[data-cut=porterhouse-steak] button.name"))
            .await?;
        gone(page, ".trail").await
    });
}

#[test]
fn a_price_that_is_held_stays_and_an_impossible_one_is_named() {
    visit(Screen::Phone, async |page| {
        prices(page).await?;
        let suggested = "tr[data-cut=porterhouse-steak] [data-field=suggested]";
        page.tap(By::Css("tr[data-cut=porterhouse-steak] button.name"))
            .await?;
        page.reads(".detail", is_there).await?;
        page.type_over("pin-porterhouse-steak", "38.50").await?;
        page.reads(suggested, |text| text.contains("38.50")).await?;

        page.type_over("pin-porterhouse-steak", "").await?;
        page.type_over("cap-porterhouse-steak", "1").await?;
        page.reads(suggested, |text| text.contains("$1.00")).await?;
        page.type_over("floor-porterhouse-steak", "2").await?;
        page.reads("#place-prices [role=alert]", |text| {
            text.contains("Porterhouse") && text.contains("lowest price above")
        })
        .await
        .map(drop)
    });
}

#[test]
fn every_suggested_price_takes_the_ending_that_is_asked_for() {
    visit(Screen::Phone, async |page| {
        prices(page).await?;
        page.type_over("endings", "99").await?;
        page.wait(
            "every price to end on .99",
            async || {
                page.run(
                    "return [...document.querySelectorAll('[data-field=suggested]')]
                         .map((cell) => cell.innerText.trim())
                         .filter((text) => text.includes('$') && !text.endsWith('.99'))",
                    json!([]),
                )
                .await
            },
            |others| *others == json!([]),
        )
        .await?;
        page.type_over("endings", "9").await?;
        let note = page
            .shows_what("endings-note", |text| text.contains("“9”"))
            .await?;
        ensure!(note.contains("two digits"), "{note}");
        Ok(())
    });
}

#[test]
fn the_caution_for_older_cattle_goes_when_the_animal_is_known_to_be_young() {
    visit(Screen::Phone, async |page| {
        let side = Side {
            plan: "bone-in",
            ..Side::default()
        };
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        page.reads("#place-side .caution", |text| {
            text.contains("30 months") && text.contains("inspector")
        })
        .await?;
        page.choose(By::Id("age"), "under-30").await?;
        gone(page, "#place-side .caution").await
    });
}

#[test]
fn a_cut_has_its_own_share_unsold_and_its_own_share_marked_down() {
    visit(Screen::Phone, async |page| {
        let side = Side {
            plan: "bone-in",
            ..Side::default()
        };
        prices(page).await?;
        let cut = "porterhouse-steak";
        page.tap(By::Css(format!("tr[data-cut={cut}] button.name")))
            .await?;
        page.reads(".detail", is_there).await?;
        page.type_over(&format!("unsold-{cut}"), "9").await?;
        page.type_over(&format!("marked-down-{cut}"), "40").await?;

        let catalogue = carcass::Catalogue::published()?;
        let mut document = side.document();
        let mut loss = document.shop.losses.clone();
        "9".clone_into(&mut loss.unsold);
        "40".clone_into(&mut loss.marked_down);
        document.shop.own_losses.insert(cut.to_owned(), loss);
        let plan = document.resolve(&catalogue)?;
        let sheet = pricing::price_side(&catalogue, &plan.deal, &plan.plan, &plan.shop)?;
        let product = catalogue.product_id(cut);
        let row = sheet.rows.iter().find(|row| Some(row.product) == product);
        let margin = row.and_then(|row| row.margin).map(notation::percent);
        let margin = margin.unwrap_or_default();
        page.reads(&format!("tr[data-cut={cut}] [data-field=margin]"), |text| {
            text.contains(&margin)
        })
        .await?;

        page.type_over(&format!("marked-down-{cut}"), "150").await?;
        page.shows_what(&format!("marked-down-{cut}-note"), |text| {
            text.contains('✕')
        })
        .await
        .map(drop)
    });
}
