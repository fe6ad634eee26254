//! What axe-core (Deque, rules for WCAG 2.2 and good practice) finds on every place of the app.

use std::{env, fs};

use anyhow::{Context, Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, Side, needs, visit};
use serde_json::{Value, json};
use thirtyfour::By;

/// The script, brought by `cargo xtask test`.
pub(crate) fn axe() -> Result<String> {
    let script =
        env::var_os("AXE").context("AXE does not name axe-core: call `cargo xtask test`")?;
    Ok(fs::read_to_string(script)?)
}

/// What is found on the page as it stands, a line for each element.
pub(crate) async fn findings(page: &Page) -> Result<Vec<String>> {
    let found = page
        .run_until_done(
            "const done = arguments[arguments.length - 1];
             axe.run(document).then(
                 ({ violations }) => done(violations.flatMap((rule) => rule.nodes.map((node) =>
                     `${rule.id}: ${node.target.join(' ')}: ${node.failureSummary}`))),
                 (error) => done([`${error}`]));",
            json!([]),
        )
        .await?;
    Ok(serde_json::from_value(found)?)
}

/// Looks over every place, with everything unfolded that can be.
async fn look_over(page: &Page) -> Result<()> {
    page.run(&axe()?, json!([])).await?;
    let mut all = Vec::new();
    for scheme in ["light", "dark"] {
        page.prefer(scheme).await?;
        for place in Place::ALL {
            page.go_to(place).await?;
            page.run(
                "document.querySelectorAll('details').forEach((fold) => { fold.open = true; })",
                json!([]),
            )
            .await?;
            // Until all that is told has come.
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
            .await?;
            for finding in findings(page).await? {
                all.push(format!("{place:?}, {scheme}: {finding}"));
            }
        }
    }
    ensure!(all.is_empty(), "{}", all.join("\n"));
    Ok(())
}

#[test]
fn axe_finds_nothing_on_any_place() {
    if !needs(&[Feature::Looks, Feature::ExactScreen]) {
        return;
    }
    for screen in [Screen::Narrow, Screen::Wide] {
        visit(screen, async |page| {
            look_over(page).await.context("before anything is typed")?;
            page.enter(&Side::default()).await?;
            page.says(&Side::default().figures()?).await?;
            page.go_to(Place::Saved).await?;
            page.tap(By::Id("save-plan")).await?;
            page.go_to(Place::Side).await?;
            page.type_over("target-margin", "much").await?;
            look_over(page).await
        });
    }
}
