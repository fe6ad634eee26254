//! Letters twice as large, as a person sets them in the browser: nothing is lost, and the verdict
//! is read as before (WCAG 2.2, success criteria 1.4.4 and 1.4.10).

use anyhow::{Context, Result, ensure};
use browser_tests::{Feature, Page, Screen, needs, visit};
use serde_json::json;
use wording::Language;

use crate::every_place::{fill, in_every_place, unfold};
use crate::layout::{beyond_the_edge, has_room};
use crate::scale_views::{VIEWS, go_to, in_a_shop};
use crate::strip::is_in_view;

/// What a browser's usual size of letters becomes.
const TWICE: u32 = 32;

/// Sets the letters and waits until the page has them.
async fn enlarge(page: &Page) -> Result<()> {
    page.set_letters(TWICE).await?;
    page.wait(
        "large letters",
        async || {
            page.run(
                "return [getComputedStyle(document.documentElement).fontSize,
                         matchMedia('(max-width: 15rem)').matches]",
                json!([]),
            )
            .await
        },
        |seen| *seen == json!(["32px", true]),
    )
    .await
    .map(drop)
}

/// Text that leaves its button, its heading or what hides all that leaves it.
async fn cut_off(page: &Page) -> Result<()> {
    let cut = page
        .run(
            "const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
             const found = [];
             let count = 0;
             while (walker.nextNode()) {
                 const { textContent, parentElement: holder } = walker.currentNode;
                 if (textContent.trim() === '' || !holder.checkVisibility()
                     || holder.closest('option, svg, #cost-sheet > thead')) continue;
                 count += 1;
                 const range = document.createRange();
                 range.selectNodeContents(walker.currentNode);
                 const text = range.getBoundingClientRect();
                 for (let around = holder; around !== null; around = around.parentElement) {
                     const { overflowX } = getComputedStyle(around);
                     // There it can be scrolled to.
                     if (overflowX === 'auto' || overflowX === 'scroll') break;
                     if (overflowX === 'visible' && !around.matches('button, summary, .stamp')) continue;
                     const box = around.getBoundingClientRect();
                     // Letters may be taller than their line.
                     const slack = parseFloat(getComputedStyle(holder).fontSize) / 4;
                     if (text.left < box.left - 1 || text.right > box.right + 1
                         || text.top < box.top - slack || text.bottom > box.bottom + slack) {
                         found.push(`“${textContent}” in ${around.outerHTML.slice(0, 120)}`);
                         break;
                     }
                 }
             }
             return { count, found }",
            json!([]),
        )
        .await?;
    ensure!(
        cut["count"].as_u64().is_some_and(|count| count > 20),
        "{cut}"
    );
    ensure!(
        cut["found"] == json!([]),
        "{} px: {:#}",
        page.screen().width(),
        cut["found"]
    );
    Ok(())
}

#[test]
fn letters_twice_as_large_lose_nothing_on_any_place() {
    if !needs(&[Feature::ExactScreen, Feature::Letters]) {
        return;
    }
    for (screen, languages) in [
        (Screen::Phone, &[Language::English][..]),
        (Screen::Narrow, &Language::ALL),
    ] {
        visit(screen, async |page| {
            enlarge(page).await?;
            fill(page).await?;
            in_every_place(page, languages, async |_| {
                beyond_the_edge(page).await?;
                cut_off(page).await?;
                has_room(page).await?;
                if screen == Screen::Phone {
                    page.run("window.scrollTo(0, 0)", json!([])).await?;
                    is_in_view(page).await?;
                }
                Ok(())
            })
            .await
        });
    }
}

#[test]
fn letters_twice_as_large_lose_nothing_in_any_view_of_the_scale() {
    if !needs(&[Feature::ExactScreen, Feature::Letters]) {
        return;
    }
    for screen in [Screen::Phone, Screen::Narrow] {
        visit(screen, async |page| {
            in_a_shop(page).await?;
            enlarge(page).await?;
            for view in VIEWS {
                go_to(page, view).await?;
                unfold(page).await?;
                beyond_the_edge(page).await.context(view)?;
                cut_off(page).await.context(view)?;
            }
            Ok(())
        });
    }
}
