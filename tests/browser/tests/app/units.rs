//! Kilograms and pounds: one switch for all, and the amount stays what was typed.

use anyhow::{Result, ensure};
use browser_tests::{Page, Place, Screen, Side, visit};
use serde_json::json;
use thirtyfour::By;

const POUNDS: Side = Side {
    weight: "430",
    weight_unit: "lb",
    price: "3.81",
    grass_percent: 0,
    plan: "boneless",
    labour_minutes: Some("150"),
    labour_rate: "34",
    target_margin: "25",
    board: &[],
};

/// Waits until every unit on the page is this one.
async fn reads_in(page: &Page, unit: &str) -> Result<()> {
    page.holds("side-weight-unit", unit).await?;
    page.holds("side-price-unit", &format!("/{unit}")).await?;
    page.wait(
        &format!("the sheet to be in {unit}"),
        async || {
            page.run(
                "const text = (all) => [...document.querySelectorAll(all)].map((one) => one.textContent);
                 return [
                     ...text('#cost-sheet caption').map((caption) => caption.split('/').pop().trim()),
                     ...text('#cost-sheet tbody [data-field=weight]').map((weight) => weight.split(' ').pop()),
                 ]",
                json!([]),
            )
            .await
        },
        |units| {
            units
                .as_array()
                .is_some_and(|units| units.len() > 10 && units.iter().all(|shown| shown == unit))
        },
    )
    .await
    .map(drop)
}

#[test]
fn switching_there_and_back_changes_no_text_and_no_amount() {
    visit(Screen::Phone, async |page| {
        page.enter(&POUNDS).await?;
        let figures = POUNDS.figures()?;
        page.says(&figures).await?;
        reads_in(page, "lb").await?;

        page.choose(By::Id("side-weight-unit"), "kg").await?;
        reads_in(page, "kg").await?;
        // 430 × 0.45359237 and 3.81 ÷ 0.45359237.
        page.holds("side-weight", "195.04").await?;
        page.holds("side-price", "8.40").await?;
        page.shows("margin", &figures.margin).await?;
        page.shows_what("walk-away-price", |text| {
            text.split(' ').rev().eq(figures.walk_away.split(' '))
        })
        .await?;

        page.choose(By::Id("side-price-unit"), "/lb").await?;
        reads_in(page, "lb").await?;
        page.holds("side-weight", "430").await?;
        page.holds("side-price", "3.81").await?;
        page.says(&figures).await
    });
}

#[test]
fn a_unit_typed_with_the_number_counts() {
    visit(Screen::Phone, async |page| {
        page.enter(&POUNDS).await?;
        page.choose(By::Id("side-weight-unit"), "kg").await?;
        page.type_over("side-weight", "430 lb").await?;
        page.type_over("side-price", "$3.81/lb").await?;
        let figures = POUNDS.figures()?;
        page.shows("margin", &figures.margin).await?;

        page.choose(By::Id("side-weight-unit"), "lb").await?;
        page.type_over("side-weight", "195 kg").await?;
        page.type_over("side-price", "8.4 $/kg").await?;
        page.shows("margin", &Side::default().figures()?.margin)
            .await
    });
}

#[test]
fn a_comma_is_as_good_as_a_point() {
    visit(Screen::Phone, async |page| {
        let side = Side {
            weight: "195.5",
            price: "8.45",
            target_margin: "27.5",
            ..Side::default()
        };
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        for (id, text) in [
            ("side-weight", "195,5"),
            ("side-price", "8,45"),
            ("target-margin", "27,5"),
        ] {
            // Something else in between, so that the same figures are new ones.
            page.type_over(id, "20").await?;
            page.shows_what("margin", |_| true).await?;
            page.type_over(id, text).await?;
            page.says(&side.figures()?).await?;
        }
        Ok(())
    });
}

#[test]
fn board_prices_follow_the_units_and_come_back_as_typed() {
    visit(Screen::Phone, async |page| {
        let side = Side {
            board: &[("ground-beef", "7.49")],
            ..POUNDS
        };
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        page.go_to(Place::Side).await?;
        page.choose(By::Id("side-weight-unit"), "kg").await?;
        // 7.49 ÷ 0.45359237 = 16.5126…
        page.holds("price-ground-beef", "16.51").await?;
        page.choose(By::Id("side-weight-unit"), "lb").await?;
        page.holds("price-ground-beef", "7.49").await?;
        page.says(&side.figures()?).await?;
        let own = page
            .run(
                "return document.getElementById('price-ground-beef').classList.contains('stand-in')",
                json!([]),
            )
            .await?;
        ensure!(own == false, "an own price is no sample");
        Ok(())
    });
}
