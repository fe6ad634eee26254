//! The verdict never leaves the screen.

use anyhow::{Result, ensure};
use browser_tests::{Page, Place, Screen, Side, visit};
use serde_json::json;
use thirtyfour::By;

/// Whether verdict, margin and walk-away price lie within the screen and nothing lies over them.
pub(crate) async fn is_in_view(page: &Page) -> Result<()> {
    let hidden = page
        .run(
            "return ['verdict', 'margin', 'walk-away-price'].filter((id) => {
                 const part = document.getElementById(id);
                 const box = part.getBoundingClientRect();
                 const above = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
                 return box.width === 0 || box.top < 0 || box.left < 0
                     || box.bottom > document.documentElement.clientHeight
                     || box.right > document.documentElement.clientWidth
                     || !part.parentElement.contains(above);
             })",
            json!([]),
        )
        .await?;
    ensure!(hidden == json!([]), "out of view: {hidden}");
    Ok(())
}

#[test]
fn it_is_in_view_on_every_place_wherever_one_scrolls() {
    for screen in Screen::ALL {
        visit(screen, async |page| {
            page.enter(&Side::default()).await?;
            page.says(&Side::default().figures()?).await?;
            // Enough of them that the list must be scrolled.
            page.go_to(Place::Saved).await?;
            for _ in 0..6 {
                page.tap(By::Id("save-plan")).await?;
                page.type_over("saved-name", "").await?;
            }
            for place in Place::ALL {
                page.go_to(place).await?;
                is_in_view(page).await?;
                let scrolled = page
                    .run(
                        "document.querySelectorAll('details').forEach((fold) => { fold.open = true; });
                         window.scrollTo(0, document.documentElement.scrollHeight);
                         return window.scrollY",
                        json!([]),
                    )
                    .await?;
                ensure!(
                    scrolled.as_f64().is_some_and(|by| by > 0.0),
                    "{place:?} is too short to scroll: the test shows nothing"
                );
                is_in_view(page).await?;
            }
            Ok(())
        });
    }
}

#[test]
fn it_is_in_view_while_a_field_is_typed_into() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.type_over("target-margin", "31").await?;
        is_in_view(page).await?;
        page.type_over("target-margin", "thirty").await?;
        page.shows_what("verdict", |text| text.contains("Last good"))
            .await?;
        is_in_view(page).await
    });
}

/// Listens to the line of the verdict as a screen reader does: to one element that stays, and to
/// what is written into it.
async fn listen(page: &Page) -> Result<()> {
    page.run(
        "const line = document.getElementById('verdict');
         window.line = line;
         window.told = [];
         new MutationObserver(() => window.told.push(line.innerText))
             .observe(line, { childList: true, characterData: true, subtree: true });",
        json!([]),
    )
    .await
    .map(drop)
}

/// What was said since, or why nothing would be.
async fn told(page: &Page) -> Result<Vec<String>> {
    let heard = page
        .run(
            "const { line, told } = window;
             window.told = [];
             const region = line.closest('[aria-live], [role=status]');
             if (document.getElementById('verdict') !== line) return ['another element'];
             if (region === null || region.getAttribute('aria-live') === 'off') return ['to nobody'];
             return told",
            json!([]),
        )
        .await?;
    Ok(serde_json::from_value(heard)?)
}

#[test]
fn a_change_of_the_verdict_is_announced_and_nothing_else_is() {
    visit(Screen::Phone, async |page| {
        listen(page).await?;
        let pays = Side {
            price: "5",
            ..Side::default()
        };
        page.enter(&pays).await?;
        page.says(&pays.figures()?).await?;
        let heard = told(page).await?;
        ensure!(
            heard.last().is_some_and(|last| last.starts_with("Pays")),
            "{heard:?}"
        );
        page.type_over("side-price", "25").await?;
        let dear = Side {
            price: "25",
            ..pays
        };
        page.says(&dear.figures()?).await?;
        let heard = told(page).await?;
        ensure!(
            heard
                .last()
                .is_some_and(|last| last.starts_with("Falls short")),
            "{heard:?}"
        );
        page.type_over("side-price", "dear").await?;
        page.shows_what("verdict", |text| text.contains("Last good"))
            .await?;
        let heard = told(page).await?;
        ensure!(
            heard.last().is_some_and(|last| last.contains("Last good")),
            "{heard:?}"
        );
        page.type_over("side-price", "25").await?;
        page.says(&dear.figures()?).await?;
        told(page).await?;
        // What does not move it is not said again at each key.
        page.go_to(Place::Saved).await?;
        page.type_over("saved-name", "Hill farm").await?;
        page.tap(By::Id("save-plan")).await?;
        let heard = told(page).await?;
        ensure!(heard.is_empty(), "{heard:?}");
        Ok(())
    });
}
