//! Nothing leaves the device.

use std::collections::BTreeSet;

use anyhow::{Context, Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, Server, Side, Visit, dist, needs, visit};
use serde_json::{Value, json};

async fn loaded(page: &Page) -> Result<Vec<String>> {
    let loaded = page
        .run(
            "return performance.getEntriesByType('resource').map((entry) => entry.name)",
            json!([]),
        )
        .await?;
    Ok(serde_json::from_value(loaded)?)
}

#[test]
fn only_the_app_itself_is_loaded_and_nothing_after_it() {
    visit(Screen::Phone, async |page| {
        // The app is kept on the device first; from then on nothing more is needed.
        page.until_kept().await?;
        let app = page.server().app();
        let before = loaded(page).await?;
        ensure!(
            before.iter().any(|address| address.contains("_bg.wasm")),
            "the record of what was loaded is not kept: {before:?}"
        );
        let asked = page.server().asked();

        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await?;
        for place in Place::ALL {
            page.go_to(place).await?;
        }

        let after = loaded(page).await?;
        // The worker starts with the first question, out of what the device has.
        let later: Vec<&String> = after
            .iter()
            .filter(|address| !before.contains(address))
            .collect();
        let is_worker =
            |address: &&String| address.contains("/reckoner") || address.ends_with("/answers.css");
        ensure!(later.iter().all(is_worker), "loaded later: {later:?}");
        ensure!(
            page.server().asked() == asked,
            "asked later: {:?}",
            page.server().asked()
        );
        for address in &after {
            ensure!(
                address.starts_with(&app) || address.starts_with("data:"),
                "loaded from elsewhere: {address}"
            );
        }
        let below = Server::path_of("");
        for address in asked {
            let file = address.strip_prefix(&below);
            ensure!(
                file.is_some_and(|file| file.is_empty() || dist().join(file).is_file()),
                "asked for {address}, which is no file of the app"
            );
        }
        Ok(())
    });
}

#[test]
fn the_app_works_on_when_the_server_is_gone() {
    visit(Screen::Phone, async |page| {
        // A worker's script that breaks off on its way is a complaint of the browser.
        while !page
            .server()
            .asked()
            .iter()
            .any(|file| file.ends_with("service-worker.js"))
        {
            // The page answers, or the test ends here.
            page.texts("h1").await?;
        }
        page.server().stop();
        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await?;
        page.go_to(Place::Cuts).await?;
        page.go_to(Place::Prices).await?;
        let dearer = Side {
            price: "12.5",
            ..Side::default()
        };
        page.go_to(Place::Side).await?;
        page.type_over("side-price", "12.5").await?;
        page.says(&dearer.figures()?).await
    });
}

/// Notes down what the page's policy refuses.
const NOTE_REFUSALS: &str = "window.refused = [];
document.addEventListener('securitypolicyviolation', (event) => {
    window.refused.push(event.effectiveDirective);
});";

async fn refused(page: &Page) -> Result<BTreeSet<String>> {
    Ok(serde_json::from_value(
        page.run("return window.refused", json!([])).await?,
    )?)
}

#[test]
fn the_policy_of_the_page_has_nothing_to_refuse_the_app_and_refuses_all_else() {
    if !needs(&[Feature::ScriptBeforeLoad, Feature::Console]) {
        return;
    }
    Visit {
        screen: Screen::Phone,
        before: Some(NOTE_REFUSALS),
    }
    .and(async |page| {
        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await?;
        for place in Place::ALL {
            page.go_to(place).await?;
        }
        let of_the_app = refused(page).await?;
        ensure!(of_the_app.is_empty(), "refused the app: {of_the_app:?}");
        let inline = page
            .run(
                "return [...document.querySelectorAll('[style], style, script:not([src]), [onclick], [oninput]')]
                     .map((element) => element.outerHTML)",
                json!([]),
            )
            .await?;
        ensure!(inline == json!([]), "inline: {inline}");
        let complaints = page.complaints().await?;
        ensure!(complaints.is_empty(), "{complaints:?}");

        // The same page, with something in it that does not belong there.
        let outcome: Value = page
            .run_until_done(
                "const done = arguments[0];
                 const script = document.createElement('script');
                 script.textContent = 'window.inlineRan = true';
                 const image = document.createElement('img');
                 image.src = 'http://127.0.0.1:9/pixel.png';
                 const paragraph = document.createElement('p');
                 paragraph.setAttribute('style', 'color: red');
                 document.body.append(script, image, paragraph);
                 fetch('http://127.0.0.1:9/').then(() => 'sent', () => 'refused').then((fetched) =>
                     done({ fetched, inlineRan: window.inlineRan ?? false }));",
                json!([]),
            )
            .await?;
        ensure!(outcome == json!({ "fetched": "refused", "inlineRan": false }), "{outcome}");
        let of_the_rest = page
            .wait(
                "all four to be refused",
                async || refused(page).await,
                |refused| refused.len() >= 4,
            )
            .await?;
        for directive in ["connect-src", "img-src", "script-src-elem", "style-src-attr"] {
            ensure!(of_the_rest.contains(directive), "{of_the_rest:?}");
        }
        let told = page.complaints().await?;
        ensure!(!told.is_empty(), "the console would not have told of a refusal");
        Ok(())
    });
}

#[test]
fn a_plan_saved_as_a_file_stays_on_the_device() {
    visit(Screen::Phone, async |page| {
        page.until_kept().await?;
        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await?;
        page.go_to(Place::Side).await?;
        // Holds on to what the link would have handed out.
        page.run(
            "window.handedOut = null;
             HTMLAnchorElement.prototype.click = function () {
                 window.handedOut = { name: this.download, text: fetchLocally(this.href) };
             };
             const make = URL.createObjectURL;
             let last;
             URL.createObjectURL = (blob) => { last = blob; return make.call(URL, blob); };
             function fetchLocally(address) { return last.text(); }",
            json!([]),
        )
        .await?;
        let asked = page.server().asked();
        page.tap(thirtyfour::By::XPath("//button[.='Save plan as a file']"))
            .await?;
        page.wait(
            "a file",
            async || {
                page.run("return window.handedOut !== null", json!([]))
                    .await
            },
            |is_there| *is_there == json!(true),
        )
        .await?;
        let saved = page
            .run_until_done(
                "const done = arguments[0];
                 window.handedOut.text.then((text) => done({ name: window.handedOut.name, text }))",
                json!([]),
            )
            .await?;
        ensure!(saved["name"] == "side.json", "{saved}");
        let text = saved["text"].as_str().context("no text was handed out")?;
        let document = document::Document::from_json(text)?;
        let expected = Side::default().document();
        ensure!(document.deal == expected.deal, "{document:?}");
        ensure!(document.plan == expected.plan, "{document:?}");
        ensure!(page.server().asked() == asked, "something was sent");
        Ok(())
    });
}
