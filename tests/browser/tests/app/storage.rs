//! A browser that keeps nothing: the app says so and works on.

use anyhow::{Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, Side, Visit, needs, visit};
use serde_json::{Value, json};
use thirtyfour::By;

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

/// A phone on which this has run before the page loads.
fn phone(before: Option<&'static str>) -> Visit<'static> {
    Visit {
        screen: Screen::Phone,
        before,
    }
}

#[test]
fn blocked_storage_is_said_at_once_and_does_not_stop_the_work() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    phone(Some(BLOCKED)).and(async |page| {
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
    phone(Some(FULL)).and(async |page| {
        page.enter(&Side::default()).await?;
        let said = banner(page).await?;
        ensure!(said.contains("storage is full"), "{said}");
        page.says(&Side::default().figures()?).await
    });
}

#[test]
fn what_was_kept_and_cannot_be_read_is_set_aside() {
    phone(None).and(async |page| {
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

#[test]
fn where_nothing_can_be_stored_another_language_takes_what_was_typed_along() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    phone(Some(BLOCKED)).and(async |page| {
        page.enter(&Side::default()).await?;
        page.go_to(Place::Saved).await?;
        page.reads("#place-saved", |text| {
            text.contains("Print") && text.contains("Save everything as a file")
        })
        .await?;
        page.choose(By::Id("language"), "fr").await?;
        page.reads("#place-saved, nav", |text| text.contains("Prix"))
            .await?;
        page.until_up().await?;
        page.holds("side-weight", Side::default().weight).await
    });
}

#[test]
fn a_full_storage_offers_everything_as_a_file_what_is_typed_among_it() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    phone(Some(FULL)).and(async |page| {
        page.enter(&Side::default()).await?;
        banner(page).await?;
        let taken = page
            .run_until_done(
                "const done = arguments[arguments.length - 1];
                 const made = URL.createObjectURL;
                 URL.createObjectURL = (file) => { file.text().then(done); return made(file); };
                 document.querySelector('.banner button').click();",
                json!([]),
            )
            .await?;
        let text = taken.as_str().unwrap_or_default();
        ensure!(
            text.contains(&format!("kg {}", Side::default().weight)),
            "{text}"
        );
        Ok(())
    });
}

/// What is stored under a key.
async fn stored(page: &Page, key: &str) -> Result<String> {
    let text = page
        .run("return localStorage.getItem(arguments[0])", json!([key]))
        .await?;
    Ok(text.as_str().unwrap_or_default().to_owned())
}

#[test]
fn what_a_newer_version_typed_stays_as_it_is() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        let newer = "draft.version=2&draft.moon=full";
        page.run(
            "localStorage.setItem('sideworth/draft', arguments[0])",
            json!([newer]),
        )
        .await?;
        page.reload().await?;
        let said = banner(page).await?;
        ensure!(said.contains("newer version"), "{said}");
        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await?;
        ensure!(stored(page, "sideworth/draft").await? == newer);
        Ok(())
    });
}

#[test]
fn drafts_that_cannot_be_read_are_set_aside_one_beside_the_other() {
    visit(Screen::Phone, async |page| {
        for spoilt in ["spoilt one", "spoilt two"] {
            page.enter(&Side::default()).await?;
            page.run(
                "localStorage.setItem('sideworth/draft', arguments[0])",
                json!([spoilt]),
            )
            .await?;
            page.reload().await?;
            banner(page).await?;
        }
        page.enter(&Side::default()).await?;
        let aside = page
            .run(
                "return Object.keys(localStorage)
                     .filter((key) => key.startsWith('sideworth/draft-set-aside'))
                     .map((key) => localStorage.getItem(key)).sort()",
                json!([]),
            )
            .await?;
        ensure!(aside == json!(["spoilt one", "spoilt two"]), "{aside}");
        Ok(())
    });
}

#[test]
fn what_a_tab_that_was_not_heard_has_typed_is_kept_beside() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        // A page hears nothing of what it stores itself, as one that was frozen hears nothing.
        page.run(
            "localStorage.setItem('sideworth/draft',
                 localStorage.getItem('sideworth/draft').replace(/side-weight=kg\\+[\\d.]+/, 'side-weight=kg+211'))",
            json!([]),
        )
        .await?;
        page.type_over("side-price", "7").await?;
        page.reads("#elsewhere", |text| text.contains("another tab"))
            .await?;
        let beside = stored(page, "sideworth/draft-of-another-tab").await?;
        ensure!(beside.contains("side-weight=kg+211"), "{beside}");
        Ok(())
    });
}
