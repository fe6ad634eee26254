//! After one visit the app needs no server.

use std::fs;

use anyhow::{Context, Result, ensure};
use browser_tests::{Feature, Page, Screen, Side, Visit, dist, needs, visit};
use serde_json::{Value, json};
use thirtyfour::By;

use crate::looks::keep_pictures;

/// Every answer kept on the device: its store, address, status and type.
async fn kept(page: &Page) -> Result<Vec<(String, String, u16, String)>> {
    let kept = page
        .run_until_done(
            "const done = arguments[0];
             (async () => {
                 const kept = [];
                 for (const name of await caches.keys()) {
                     const store = await caches.open(name);
                     for (const { url } of await store.keys()) {
                         const { status, type } = await store.match(url);
                         kept.push([name, url, status, type]);
                     }
                 }
                 return kept;
             })().then(done);",
            json!([]),
        )
        .await?;
    Ok(serde_json::from_value(kept)?)
}

async fn asks_a_question(page: &Page) -> Result<()> {
    page.tap(By::XPath("//nav//button[normalize-space()='What if']"))
        .await?;
    page.tap(By::Css(".question > summary")).await?;
    page.wait(
        "an answer",
        async || {
            page.run(
                "return {
                     answer: document.querySelector('.question .answer')?.innerText ?? '',
                     fault: document.querySelector('.question > .fault')?.innerText ?? '',
                 }",
                json!([]),
            )
            .await
        },
        |seen| seen["answer"] != "",
    )
    .await?;
    page.tap(By::XPath("//nav//button[normalize-space()='Side']"))
        .await
}

#[test]
fn after_one_visit_the_server_is_not_needed() {
    visit(Screen::Phone, async |page| {
        page.news("Works offline now.").await?;
        keep_pictures(page, "works-offline").await?;
        page.until_kept().await?;
        let side = Side::default();
        page.enter(&side).await?;
        page.server().stop();

        page.reload().await?;
        page.says(&side.figures()?).await?;
        page.holds("side-weight", side.weight).await?;

        let first = page.tab().await?;
        let second = page.open_in_new_tab().await?;
        page.says(&side.figures()?).await?;
        page.look_at(&first).await?;
        page.close_for(&second).await?;
        let dearer = Side {
            price: "12.5",
            ..side
        };
        page.type_over("side-price", "12.5").await?;
        page.says(&dearer.figures()?).await?;

        // Nobody but the worker is left to answer, and it has to be started first.
        for rest in ["?from=a-link", "#plan", "index.html", "index.html?a=b#c"] {
            page.leave().await?;
            page.end_workers().await?;
            page.open_at(rest).await?;
            page.says(&dearer.figures()?).await?;
        }
        Ok(())
    });
}

#[test]
fn what_is_worked_out_in_the_background_needs_no_server_either() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.until_kept().await?;
        page.server().stop();
        asks_a_question(page).await?;
        page.reload().await?;
        asks_a_question(page).await
    });
}

#[test]
fn below_any_folder_and_beside_one_another() {
    visit(Screen::Phone, async |page| {
        page.until_kept().await?;
        for below in ["/", "/shop/next-door/"] {
            page.server().show_below(below);
            page.open().await?;
            page.news("Works offline now.").await?;
            page.until_kept().await?;
        }
        page.server().stop();
        let mut kept_by = Vec::new();
        for below in ["/shop/", "/", "/shop/next-door/"] {
            page.server().show_below(below);
            page.open().await?;
            let worker = page
                .run(
                    "return navigator.serviceWorker.controller.scriptURL",
                    json!([]),
                )
                .await?;
            ensure!(
                worker == format!("{}service-worker.js", page.server().app()),
                "{below} is served by {worker}"
            );
            kept_by.push(page.server().app());
        }
        let kept = kept(page).await?;
        for app in kept_by {
            let own = format!("sideworth {app} ");
            let files = kept.iter().filter(|(store, ..)| store.starts_with(&own));
            let strangers = files
                .clone()
                .filter(|(_, address, ..)| !address.starts_with(&app));
            ensure!(strangers.count() == 0 && files.count() > 5, "{kept:?}");
        }
        Ok(())
    });
}

#[test]
fn every_file_of_the_app_is_kept_and_nothing_else() {
    visit(Screen::Phone, async |page| {
        page.until_kept().await?;
        let app = page.server().app();
        let mut files = xtask::files_below(&dist())?;
        files.remove("service-worker.js");
        files.remove("index.html");
        files.insert(String::new());
        let kept = kept(page).await?;
        ensure!(kept.len() == files.len(), "{kept:?}");
        for (_, address, status, kind) in kept {
            let file = address.strip_prefix(&app).context(address.clone())?;
            ensure!(files.contains(file), "{address} is no file of the app");
            ensure!(
                status == 200 && kind == "basic",
                "{address}: {status}, {kind}"
            );
        }
        Ok(())
    });
}

/// As browsers do in private windows and for plain `http`.
const WITHOUT_WORKERS: &str = "delete Navigator.prototype.serviceWorker;";

/// As a browser does whose user has blocked storage (Service Workers, 3.4: a policy may have the
/// getter throw; Chromium then refuses the registration).
const REFUSED: &str = "Object.defineProperty(Navigator.prototype, 'serviceWorker', {
    get() { throw new DOMException('Access is denied for this document.', 'SecurityError'); },
});";

const REGISTRATION_FAILS: &str = "ServiceWorkerContainer.prototype.register = () =>
    Promise.reject(new DOMException('Failed to access storage.', 'SecurityError'));";

#[test]
fn where_nothing_can_be_kept_the_app_works_on_without_a_word() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    for before in [WITHOUT_WORKERS, REFUSED, REGISTRATION_FAILS] {
        Visit {
            screen: Screen::Phone,
            before: Some(before),
        }
        .and(async |page| {
            page.enter(&Side::default()).await?;
            page.says(&Side::default().figures()?).await?;
            let said = page
                .run(
                    "return document.querySelector('.offline').innerText",
                    json!([]),
                )
                .await?;
            ensure!(said == "", "{said}");
            Ok(())
        });
    }
}

#[test]
fn the_page_names_its_manifest() {
    visit(Screen::Phone, async |page| {
        let manifest = page
            .run_until_done(
                "const done = arguments[0];
                 const { href } = document.querySelector('link[rel=manifest]');
                 fetch(href).then(async (answer) => done({
                     type: answer.headers.get('content-type'),
                     scope: new URL((await answer.json()).scope, href).href,
                 }))",
                json!([]),
            )
            .await?;
        let expected = json!({
            "type": "application/manifest+json",
            "scope": page.server().app(),
        });
        ensure!(manifest == expected, "{manifest}");
        Ok(())
    });
}

/// Width and height out of the header of a PNG file (ISO/IEC 15948, 11.2.2).
fn size(png: &[u8]) -> Result<String> {
    ensure!(png.starts_with(b"\x89PNG\r\n\x1a\n"), "no PNG file");
    let number = |at: usize| -> Result<u32> {
        let bytes = png.get(at..at + 4).context("a cut-off picture")?;
        Ok(u32::from_be_bytes(bytes.try_into()?))
    };
    Ok(format!("{}x{}", number(16)?, number(20)?))
}

#[test]
fn the_manifest_is_relative_and_its_icons_are_what_it_says() {
    let folder = dist();
    let manifest = fs::read_to_string(folder.join("manifest.webmanifest")).expect("a manifest");
    let manifest: Value = serde_json::from_str(&manifest).expect("JSON");
    assert_eq!(manifest["start_url"], "./");
    assert_eq!(manifest["scope"], "./");
    let mut purposes = Vec::new();
    for icon in manifest["icons"].as_array().expect("icons") {
        let address = icon["src"].as_str().expect("an address");
        assert!(!address.starts_with('/') && !address.contains(':'));
        let picture = fs::read(folder.join(address)).expect("an icon");
        if icon["type"] == "image/png" {
            assert_eq!(
                size(&picture).expect("a picture"),
                icon["sizes"],
                "{address}"
            );
            purposes.push((icon["sizes"].clone(), icon["purpose"].clone()));
        }
    }
    for wanted in [
        ("192x192", "any"),
        ("512x512", "any"),
        ("512x512", "maskable"),
    ] {
        assert!(
            purposes.contains(&(wanted.0.into(), wanted.1.into())),
            "{wanted:?}"
        );
    }
}
