//! What axe-core (Deque, rules for WCAG 2.2 and good practice) finds on every place of the app.

use std::{env, fs};

use anyhow::{Context, Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, Side, needs, visit};
use serde_json::json;
use thirtyfour::By;

use crate::every_place::{fill, open_up, unfold, until_told};
use crate::links::{behind, follow, link};

/// The script, brought by `cargo xtask test`.
pub(crate) fn axe() -> Result<String> {
    let script =
        env::var_os("AXE").context("AXE does not name axe-core: call `cargo xtask test`")?;
    Ok(fs::read_to_string(script)?)
}

/// What is found in an element of the page as it stands, a line for each element.
pub(crate) async fn findings(page: &Page, within: &str) -> Result<Vec<String>> {
    let found = page
        .run_until_done(
            "const done = arguments[arguments.length - 1];
             // Of what passes nothing is told, and finding its names takes most of the time.
             axe.run(arguments[0], { resultTypes: ['violations'] }).then(
                 ({ violations }) => done(violations.flatMap((rule) => rule.nodes.map((node) =>
                     `${rule.id}: ${node.target.join(' ')}: ${node.failureSummary}`))),
                 (error) => done([`${error}`]));",
            json!([within]),
        )
        .await?;
    Ok(serde_json::from_value(found)?)
}

/// What is found on the page as it stands, light and dark.
async fn look_at(page: &Page, what: &str) -> Result<Vec<String>> {
    let mut all = Vec::new();
    for scheme in ["light", "dark"] {
        page.prefer(scheme).await?;
        for finding in findings(page, "html").await? {
            all.push(format!("{what}, {scheme}: {finding}"));
        }
    }
    Ok(all)
}

/// Looks over every place, with everything unfolded that can be.
async fn look_over(page: &Page, open: impl AsyncFn(Place) -> Result<()>) -> Result<()> {
    page.run(&axe()?, json!([])).await?;
    let mut all = Vec::new();
    for place in Place::ALL {
        open(place).await?;
        all.extend(look_at(page, place.name()).await?);
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
            look_over(page, async |place| {
                page.go_to(place).await?;
                unfold(page).await?;
                until_told(page).await
            })
            .await
            .context("before anything is typed")?;
            fill(page).await?;
            look_over(page, async |place| open_up(page, place).await).await
        });
    }
}

/// Opens a link to a side of another weight, as far as it is looked at.
async fn a_link(page: &Page) -> Result<()> {
    let link = link(page, "3").await?;
    page.go_to(Place::Side).await?;
    page.type_over("side-weight", "201").await?;
    follow(page, behind(&link)?).await?;
    page.reads("#opened .offer", |text| !text.is_empty())
        .await
        .map(drop)
}

/// Types in another tab, so that this one has to choose.
async fn a_choice(page: &Page) -> Result<()> {
    let first = page.tab().await?;
    page.open_in_new_tab().await?;
    page.type_over("side-weight", "202").await?;
    page.look_at(&first).await?;
    page.reads("#elsewhere", |text| !text.is_empty())
        .await
        .map(drop)
}

/// Says what `web/offline.js` says once a new version is there.
async fn an_update(page: &Page) -> Result<()> {
    page.run(
        "document.documentElement.dataset.offline = 'update';
         document.dispatchEvent(new Event('offline-news'))",
        json!([]),
    )
    .await?;
    page.reads("#take-update", |text| !text.is_empty())
        .await
        .map(drop)
}

#[test]
fn axe_finds_nothing_in_what_comes_over_the_page() {
    if !needs(&[Feature::Looks, Feature::ExactScreen]) {
        return;
    }
    for screen in [Screen::Narrow, Screen::Wide] {
        visit(screen, async |page| {
            // Until then there is word of it in the place where an update is told.
            page.until_kept().await?;
            page.enter(&Side::default()).await?;
            let mut all = Vec::new();
            page.run(&axe()?, json!([])).await?;
            a_link(page).await?;
            all.extend(look_at(page, "a link").await?);
            page.tap(By::Id("leave-link")).await?;
            a_choice(page).await?;
            all.extend(look_at(page, "two tabs").await?);
            page.tap(By::Id("keep-own")).await?;
            an_update(page).await?;
            all.extend(look_at(page, "an update").await?);
            ensure!(all.is_empty(), "{}", all.join("\n"));
            Ok(())
        });
    }
}
