//! The frame of the app stands before the app has loaded.

use anyhow::{Result, ensure};
use browser_tests::{Feature, Page, Screen, needs, visit};
use serde_json::{Value, json};

use crate::looks::keep_pictures;

/// A machine on which the app takes for ever to come.
const NEVER: &str =
    "for (const way of ['compile', 'compileStreaming', 'instantiate', 'instantiateStreaming']) {
    WebAssembly[way] = () => new Promise(() => {});
}";

/// Where the parts that both have stand on the screen, in CSS pixels: left, top, right, bottom.
async fn parts(page: &Page) -> Result<Vec<(String, [f64; 4])>> {
    let parts = page
        .run(
            "const visible = (selector) => [...document.querySelectorAll(selector)]
                 .filter((element) => element.checkVisibility());
             return ['h1', '.verdict', '.heading', '.is-open .pair:first-child .box', '.ways']
                 .flatMap((selector) => visible(selector).map((element, index) => {
                     const { left, top, right, bottom } = element.getBoundingClientRect();
                     return [`${selector} ${index}`, [left, top, right, bottom]];
                 }))",
            json!([]),
        )
        .await?;
    Ok(serde_json::from_value(parts)?)
}

#[test]
fn heading_and_form_are_painted_before_the_app_and_stay_where_they_are() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    for screen in [Screen::Narrow, Screen::Phone, Screen::Wide] {
        visit(screen, async |page| {
            let of_the_app = parts(page).await?;
            page.run_before_load(NEVER).await?;
            page.begin_reload().await?;
            page.wait(
                "something to be painted",
                async || {
                    page.run(
                        "return performance.getEntriesByName('first-contentful-paint').length",
                        json!([]),
                    )
                    .await
                },
                |painted| *painted == 1,
            )
            .await?;
            let app = page
                .run("return document.getElementById('side-weight')", json!([]))
                .await?;
            ensure!(app == Value::Null, "the app has come all the same");

            let of_the_shell = parts(page).await?;
            ensure!(of_the_shell.len() >= 5, "{of_the_shell:?}");
            ensure!(
                of_the_shell.len() == of_the_app.len(),
                "{of_the_shell:?}\n{of_the_app:?}"
            );
            for ((part, before), (_, after)) in of_the_shell.iter().zip(&of_the_app) {
                let moved = before
                    .iter()
                    .zip(after)
                    .map(|(before, after)| (before - after).abs())
                    .fold(0.0, f64::max);
                ensure!(moved <= 2.0, "{part} jumps from {before:?} to {after:?}");
            }

            keep_pictures(page, "shell").await
        });
    }
}
