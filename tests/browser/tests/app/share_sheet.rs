//! A link handed to the device's own sheet for sharing, and what is left where a device has no such
//! thing.

use anyhow::{Result, ensure};
use browser_tests::{Feature, Page, Screen, Side, Visit, needs};
use serde_json::{Value, json};
use thirtyfour::By;

use crate::links::link;

/// A device with such a sheet. It is called off the second time (Web Share API, 2.1.1: the promise
/// is rejected with an `AbortError`).
const SHEET: &str = "window.handedOn = [];
Object.defineProperty(Navigator.prototype, 'share', { configurable: true, value(data) {
    window.handedOn.push(data);
    return window.handedOn.length === 1
        ? Promise.resolve() : Promise.reject(new DOMException('Share canceled', 'AbortError'));
} });";

/// A device without one.
const NO_SHEET: &str = "delete Navigator.prototype.share;";

/// A browser that has a clipboard and lets nobody write to it.
const REFUSES: &str = "Clipboard.prototype.writeText = () =>
    Promise.reject(new DOMException('Write permission denied.', 'NotAllowedError'));";

async fn handed_on(page: &Page, times: usize) -> Result<Value> {
    page.tap(By::Id("hand-on-link")).await?;
    page.wait(
        "the sheet",
        async || page.run("return window.handedOn", json!([])).await,
        |all| all.as_array().is_some_and(|all| all.len() == times),
    )
    .await
}

#[test]
fn the_devices_own_sheet_gets_the_link() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    Visit {
        screen: Screen::Phone,
        before: Some(SHEET),
    }
    .and(async |page| {
        page.enter(&Side::default()).await?;
        let plan = link(page, "0").await?;
        let once = handed_on(page, 1).await?;
        ensure!(
            once == json!([{ "title": "Sideworth", "url": plan }]),
            "{once}"
        );
        page.choose(By::Id("share-scope"), "3").await?;
        page.wait(
            "another link",
            async || page.value("share-link").await,
            |link| *link != plan,
        )
        .await?;
        let whole = page.value("share-link").await?;
        let twice = handed_on(page, 2).await?;
        ensure!(twice[1]["url"] == json!(whole), "{twice}");
        // Calling it off is no fault.
        page.reads("#share [role=status]", str::is_empty).await?;
        page.says(&Side::default().figures()?).await
    });
}

#[test]
fn without_a_sheet_or_a_clipboard_the_link_is_marked_for_copying() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    Visit {
        screen: Screen::Phone,
        before: Some(&[NO_SHEET, REFUSES].concat()),
    }
    .and(async |page| {
        page.enter(&Side::default()).await?;
        let link = link(page, "1").await?;
        let sheet = page
            .run(
                "return document.getElementById('hand-on-link') === null",
                json!([]),
            )
            .await?;
        ensure!(sheet == true, "a button that does nothing");
        page.tap(By::Id("copy-link")).await?;
        page.reads("#share [role=status]", |text| text.contains("copy it"))
            .await?;
        let marked = page
            .run(
                "const { id, value, selectionStart, selectionEnd } = document.activeElement;
                 return [id, value.slice(selectionStart, selectionEnd)]",
                json!([]),
            )
            .await?;
        ensure!(marked == json!(["share-link", link]), "{marked}");
        Ok(())
    });
}
