//! A browser that keeps nothing: the app says so and works on.

use anyhow::{Result, ensure};
use browser_tests::{Feature, Page, Screen, Side, Visit, needs};
use serde_json::{Value, json};

/// As a browser does whose user has blocked storage (HTML Standard, 12.2.3: a policy decision
/// against persisting data throws).
const BLOCKED: &str = "Object.defineProperty(window, 'localStorage', {
    get() { throw new DOMException('Access is denied for this document.', 'SecurityError'); },
});";

/// As a browser does whose storage is full (HTML Standard, 12.2.1).
const FULL: &str = "Storage.prototype.setItem = function () {
    throw new DOMException('The quota has been exceeded.', 'QuotaExceededError');
};";

async fn banner(page: &Page) -> Result<String> {
    let banner = page
        .wait(
            "a banner",
            async || {
                page.run(
                    "return document.querySelector('[role=alert]')?.innerText ?? null",
                    json!([]),
                )
                .await
            },
            Value::is_string,
        )
        .await?;
    Ok(banner.as_str().unwrap_or_default().to_owned())
}

#[test]
fn blocked_storage_is_said_and_does_not_stop_the_work() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    Visit {
        screen: Screen::Phone,
        before: Some(BLOCKED),
    }
    .and(async |page| {
        let said = banner(page).await?;
        ensure!(said.contains("does not let the page store"), "{said}");
        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await
    });
}

#[test]
fn full_storage_is_said_once_it_matters_and_does_not_stop_the_work() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    Visit {
        screen: Screen::Phone,
        before: Some(FULL),
    }
    .and(async |page| {
        page.enter(&Side::default()).await?;
        let said = banner(page).await?;
        ensure!(said.contains("storage is full"), "{said}");
        page.says(&Side::default().figures()?).await
    });
}

#[test]
fn what_was_kept_and_cannot_be_read_is_set_aside() {
    Visit {
        screen: Screen::Phone,
        before: None,
    }
    .and(async |page| {
        page.enter(&Side::default()).await?;
        let spoilt = "{\"version\":1,\"spoilt\":true}";
        page.run(
            "for (const key of Object.keys(localStorage)) { localStorage.setItem(key, arguments[0]); }",
            json!([spoilt]),
        )
        .await?;
        page.reload().await?;
        let said = banner(page).await?;
        ensure!(said.contains("set aside"), "{said}");
        let kept = page.run("return Object.values(localStorage)", json!([])).await?;
        ensure!(
            kept.as_array().is_some_and(|texts| texts
                .iter()
                .any(|text| text.as_str().is_some_and(|text| text.contains("spoilt")))),
            "lost: {kept}"
        );
        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await
    });
}
