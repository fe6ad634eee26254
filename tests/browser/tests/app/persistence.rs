//! What is saved is to last: the browser is asked for that, and what it may do all the same is said.

use anyhow::{Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, Side, Visit, needs};
use serde_json::json;

use crate::saved::{listed, save};

/// A browser that counts how often it is asked, and says no (Storage Standard, 5: `persist`).
const COUNTS: &str = "window.asked = 0;
StorageManager.prototype.persist = function () {
    window.asked += 1;
    return Promise.resolve(false);
};";

async fn asked(page: &Page) -> Result<u64> {
    let asked = page.run("return window.asked", json!([])).await?;
    Ok(asked.as_u64().unwrap_or_default())
}

#[test]
fn the_browser_is_asked_to_keep_what_is_saved_and_what_it_may_clear_is_said() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    Visit {
        screen: Screen::Phone,
        before: Some(COUNTS),
    }
    .and(async |page| {
        page.enter(&Side::default()).await?;
        page.go_to(Place::Saved).await?;
        // Some browsers ask the person in turn: not before there is something to keep.
        ensure!(asked(page).await? == 0, "asked too early");
        save(page, "Farm").await?;
        listed(page, |names| names == ["Farm"]).await?;
        ensure!(asked(page).await? > 0, "not asked");
        let note = page
            .run(
                "return [...document.querySelectorAll('#place-saved .note')]
                     .filter((note) => note.checkVisibility())
                     .map((note) => note.innerText).join('\\n')",
                json!([]),
            )
            .await?;
        let note = note.as_str().unwrap_or_default();
        for said in [
            "Kept in this browser and nowhere else.",
            "A browser may clear it",
            "belongs in a file",
        ] {
            ensure!(note.contains(said), "“{said}” is not in “{note}”");
        }
        Ok(())
    });
}
