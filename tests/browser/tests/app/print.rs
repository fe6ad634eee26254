//! The side on paper.

use std::fs;

use anyhow::{Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, Side, needs, pictures, visit};
use serde_json::json;
use thirtyfour::By;

use crate::papers::A4;

/// Asks for a paper and waits until it is handed to the printer.
pub(crate) async fn print(page: &Page, paper: usize) -> Result<()> {
    page.run(
        "window.printed = false; window.print = () => { window.printed = true; }",
        json!([]),
    )
    .await?;
    page.tap(By::Id(format!("print-{paper}"))).await?;
    page.wait(
        "the printer to be called",
        async || page.run("return window.printed", json!([])).await,
        |printed| *printed == json!(true),
    )
    .await
    .map(drop)
}

/// What is seen of the page, by the ids and classes of what must or must not be there.
async fn seen(page: &Page) -> Result<Vec<String>> {
    let seen = page
        .run(
            "return ['.top', '.ways', '#save-plan', '#share', '#paper', '.paper-head', '.code']
                 .filter((part) => document.querySelector(part)?.checkVisibility())",
            json!([]),
        )
        .await?;
    Ok(serde_json::from_value(seen)?)
}

#[test]
fn every_paper_comes_out_alone_and_says_what_it_is_of() {
    if !needs(&[Feature::Looks, Feature::Print]) {
        return;
    }
    visit(Screen::Phone, async |page| {
        let side = Side {
            plan: "bone-in",
            board: &[("ground-beef", "17.49")],
            ..Side::default()
        };
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        page.go_to(Place::Saved).await?;
        page.tap(By::Css("#print > summary")).await?;
        page.type_over("print-title", "Hill farm <b>").await?;
        page.type_over("print-lot", "A-17").await?;
        for (paper, name, holds) in [
            (0, "Cutting sheet", "Comes off"),
            (1, "Price cards", "$17.49/kg"),
            (2, "Cost sheet", "Walk-away /kg"),
            // The same once more.
            (2, "Cost sheet", "Walk-away /kg"),
        ] {
            print(page, paper).await?;
            page.reads("#paper", |text| {
                text.contains(&format!("{name}: Hill farm <b>"))
                    && text.contains("Lot or tag: A-17")
                    && text.contains(holds)
            })
            .await?;
            page.on_paper(true).await?;
            let there = seen(page).await?;
            ensure!(there == ["#paper", ".paper-head", ".code"], "{there:?}");
            let ink = page
                .run(
                    "const style = getComputedStyle(document.getElementById('paper'));
                     return [style.color, getComputedStyle(document.documentElement).backgroundColor]",
                    json!([]),
                )
                .await?;
            ensure!(
                ink == json!(["rgb(0, 0, 0)", "rgb(255, 255, 255)"]),
                "{ink}"
            );
            page.on_paper(false).await?;
            let file = page.printed_on(A4).await?;
            ensure!(file.starts_with(b"%PDF"), "no PDF");
            fs::create_dir_all(pictures())?;
            fs::write(pictures().join(format!("paper-{paper}.pdf")), file)?;
        }
        let there = seen(page).await?;
        ensure!(!there.contains(&"#paper".to_owned()), "{there:?}");
        Ok(())
    });
}
