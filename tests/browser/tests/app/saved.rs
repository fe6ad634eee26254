//! Plans saved by name: there after a reload, found again, taken back.

use anyhow::{Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, Side, Visit, needs, visit};
use serde_json::json;
use thirtyfour::{By, Key};

/// The names on the shelf, in the order in which they are listed.
pub(crate) async fn listed(page: &Page, are_right: impl Fn(&[String]) -> bool) -> Result<()> {
    page.wait(
        "the saved plans",
        async || {
            let names = page
                .run(
                    "return [...document.querySelectorAll('[data-saved]')]
                         .map((line) => line.dataset.saved)",
                    json!([]),
                )
                .await?;
            Ok(serde_json::from_value::<Vec<String>>(names)?)
        },
        |names| are_right(names),
    )
    .await
    .map(drop)
}

/// Saves what is typed now.
pub(crate) async fn save(page: &Page, name: &str) -> Result<()> {
    page.go_to(Place::Saved).await?;
    page.type_over("saved-name", name).await?;
    page.tap(By::Id("save-plan")).await
}

/// Taps a button of a saved plan.
async fn tap(page: &Page, word: &str, name: &str) -> Result<()> {
    page.tap(By::Css(format!(
        "[data-saved='{name}'] [aria-label^='{word}']"
    )))
    .await
}

async fn weighs(page: &Page, weight: &str) -> Result<()> {
    page.go_to(Place::Side).await?;
    page.holds("side-weight", weight).await
}

/// Presses a letter with the control key in the field of the weight.
async fn chord(page: &Page, letter: &str) -> Result<()> {
    let field = page.element(By::Id("side-weight")).await?;
    Ok(field.send_keys(Key::Control + letter).await?)
}

#[test]
fn a_saved_side_is_there_next_month() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        let margin = page.text("margin").await?;
        save(page, "  Grass from  the hill ").await?;
        listed(page, |names| names == ["Grass from the hill"]).await?;
        page.go_to(Place::Side).await?;
        page.tap(By::XPath("//button[.='New side']")).await?;
        page.type_over("side-weight", "211").await?;
        page.reload().await?;
        page.go_to(Place::Saved).await?;
        listed(page, |names| names == ["Grass from the hill"]).await?;
        tap(page, "Open", "Grass from the hill").await?;
        page.shows("margin", &margin.unwrap_or_default()).await?;
        weighs(page, Side::default().weight).await?;
        // Opening it is a step that can be taken back, once.
        page.go_to(Place::Saved).await?;
        page.tap(By::Id("undo-saved")).await?;
        page.reads("#place-saved .undo", str::is_empty).await?;
        weighs(page, "211").await
    });
}

#[test]
fn a_saved_side_is_replaced_renamed_copied_and_deleted() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        save(page, "Farm").await?;
        listed(page, |names| names == ["Farm"]).await?;
        page.go_to(Place::Side).await?;
        page.type_over("side-weight", "222").await?;
        page.go_to(Place::Saved).await?;
        page.reads("#save-plan", |word| word == "Replace “Farm”")
            .await?;
        page.tap(By::Id("save-plan")).await?;
        page.reads(".undo", |text| text.starts_with("“Farm” is replaced."))
            .await?;
        page.tap(By::Id("undo-saved")).await?;
        page.reads(".undo", |text| text == "“Farm” is back as it was.")
            .await?;
        tap(page, "Open", "Farm").await?;
        weighs(page, Side::default().weight).await?;

        page.go_to(Place::Saved).await?;
        tap(page, "Duplicate", "Farm").await?;
        listed(page, |names| names == ["Farm 2", "Farm"]).await?;
        tap(page, "Rename", "Farm 2").await?;
        let field = By::Css("[data-saved='Farm 2'] input");
        let field = page.element(field).await?;
        field.send_keys(Key::Control + "a").await?;
        field.send_keys("Yard").await?;
        page.tap(By::XPath("//li[@data-saved='Farm 2']//button[.='Rename']"))
            .await?;
        listed(page, |names| names == ["Yard", "Farm"]).await?;

        tap(page, "Delete", "Yard").await?;
        listed(page, |names| names == ["Farm"]).await?;
        page.tap(By::Id("undo-saved")).await?;
        listed(page, |names| names == ["Yard", "Farm"]).await?;
        page.reload().await?;
        page.go_to(Place::Saved).await?;
        listed(page, |names| names == ["Yard", "Farm"]).await
    });
}

#[test]
fn many_are_searched_and_put_in_order() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        for name in ["Hill farm", "Bend farm", "Yard", "Cold store", "Autumn"] {
            save(page, name).await?;
            listed(page, |names| names.iter().any(|found| found == name)).await?;
        }
        listed(page, |names| names[0] == "Autumn").await?;
        page.choose(By::Id("saved-order"), "name").await?;
        listed(page, |names| {
            names == ["Autumn", "Bend farm", "Cold store", "Hill farm", "Yard"]
        })
        .await?;
        page.type_over("saved-search", "FARM h").await?;
        listed(page, |names| names == ["Hill farm"]).await?;
        page.type_over("saved-search", "goat").await?;
        page.reads("#place-saved", |text| {
            text.contains("No name has these words.")
        })
        .await
        .map(drop)
    });
}

#[test]
fn a_full_storage_refuses_and_says_so() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    Visit {
        screen: Screen::Phone,
        before: Some(
            "const put = Storage.prototype.setItem;
             Storage.prototype.setItem = function (key, text) {
                 if (key.startsWith('sideworth/saved/')) {
                     throw new DOMException('The quota has been exceeded.', 'QuotaExceededError');
                 }
                 return put.call(this, key, text);
             };",
        ),
    }
    .and(async |page| {
        page.enter(&Side::default()).await?;
        save(page, "Farm").await?;
        page.reads("#place-saved [role=alert]", |text| {
            text.contains("this was not saved")
        })
        .await?;
        listed(page, <[String]>::is_empty).await
    });
}

#[test]
fn a_change_in_one_tab_shows_in_the_other_and_a_conflict_keeps_both() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        save(page, "Farm").await?;
        listed(page, |names| names == ["Farm"]).await?;
        let first = page.tab().await?;
        let second = page.open_in_new_tab().await?;
        page.go_to(Place::Saved).await?;
        listed(page, |names| names == ["Farm"]).await?;
        page.look_at(&first).await?;
        save(page, "Yard").await?;
        page.look_at(&second).await?;
        listed(page, |names| names.len() == 2).await?;
        // What this tab has not heard of yet: another revision under the same key.
        page.run(
            "const key = Object.keys(localStorage).find((key) =>
                 localStorage.getItem(key).includes('saved.name=Farm'));
             localStorage.setItem(key,
                 localStorage.getItem(key).replace('saved.revision=0', 'saved.revision=7'));",
            json!([]),
        )
        .await?;
        page.type_over("saved-name", "Farm").await?;
        page.tap(By::Id("save-plan")).await?;
        page.reads(".undo", |text| text.contains("Both are kept."))
            .await?;
        listed(page, |names| {
            names.len() == 3 && names.contains(&"Farm 2".to_owned())
        })
        .await
    });
}

#[test]
fn what_cannot_be_read_is_reported_and_stays() {
    visit(Screen::Phone, async |page| {
        page.run(
            "localStorage.setItem('sideworth/saved/a', 'saved.version=99&saved.name=x');
             localStorage.setItem('sideworth/saved/b', '<script>alert(1)</script>');",
            json!([]),
        )
        .await?;
        page.reload().await?;
        page.go_to(Place::Saved).await?;
        page.shows_what("saved-unreadable", |text| {
            text.contains("newer version of the app and not readable by this one: 1.")
                && text.contains("Damaged and not readable: 1.")
        })
        .await?;
        page.enter(&Side::default()).await?;
        save(page, "<img src=x onerror=alert(1)>").await?;
        listed(page, |names| names == ["<img src=x onerror=alert(1)>"]).await?;
        let kept = page
            .run(
                "return ['a', 'b'].map((name) => localStorage.getItem(`sideworth/saved/${name}`))",
                json!([]),
            )
            .await?;
        ensure!(
            kept == json!(["saved.version=99&saved.name=x", "<script>alert(1)</script>"]),
            "{kept}"
        );
        Ok(())
    });
}

#[test]
fn every_step_can_be_taken_back_and_again() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.type_over("side-weight", "201").await?;
        page.type_over("side-price", "9.5").await?;
        page.tap(By::Id("undo-step")).await?;
        page.holds("side-price", Side::default().price).await?;
        page.holds("side-weight", "201").await?;
        chord(page, "z").await?;
        page.holds("side-weight", Side::default().weight).await?;
        chord(page, "y").await?;
        page.holds("side-weight", "201").await?;
        page.tap(By::Id("redo-step")).await?;
        page.holds("side-price", "9.5").await?;
        // In a field of something else the keys are the browser's.
        page.go_to(Place::Saved).await?;
        page.type_over("saved-name", "Hill").await?;
        let name = page.element(By::Id("saved-name")).await?;
        name.send_keys(Key::Control + "z").await?;
        page.go_to(Place::Side).await?;
        page.holds("side-price", "9.5").await?;
        // A new step leaves what was taken back.
        page.tap(By::Id("undo-step")).await?;
        page.type_over("side-weight", "205").await?;
        chord(page, "y").await?;
        page.holds("side-price", Side::default().price).await?;
        page.holds("side-weight", "205").await
    });
}

/// A page that came without encryption has no storage to ask for and no clipboard.
#[test]
fn saving_works_on_a_page_without_encryption() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    Visit {
        screen: Screen::Phone,
        before: Some(
            "Object.defineProperty(Navigator.prototype, 'storage', { get: () => undefined })",
        ),
    }
    .and(async |page| {
        page.enter(&Side::default()).await?;
        save(page, "Farm").await?;
        listed(page, |names| names == ["Farm"]).await?;
        save(page, "Yard").await?;
        listed(page, |names| names.len() == 2).await
    });
}

#[test]
fn a_saved_deal_is_held_against_this_one() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        save(page, "As offered").await?;
        listed(page, |names| names == ["As offered"]).await?;
        page.go_to(Place::Side).await?;
        page.type_over("side-price", "9.4").await?;
        page.go_to(Place::WhatIf).await?;
        page.tap(By::Css("#comparison > summary")).await?;
        let choice = page
            .reads("#comparison-other", |text| text.contains("As offered"))
            .await;
        ensure!(choice.is_ok(), "no saved plan to choose");
        let key = page
            .run(
                "return [...document.getElementById('comparison-other').options]
                     .find((choice) => choice.text === 'As offered').value",
                json!([]),
            )
            .await?;
        page.choose(By::Id("comparison-other"), key.as_str().unwrap_or_default())
            .await?;
        page.reads("#comparison .finding", |text| {
            text.starts_with("As offered leaves $") && text.ends_with("more than this plan.")
        })
        .await
        .map(drop)
    });
}

/// Hands a file of saved plans to the page as choosing it would.
async fn take_in(page: &Page, file: &str) -> Result<()> {
    page.run(
        "const input = document.getElementById('saved-file');
         input.closest('details').open = true;
         const files = new DataTransfer();
         files.items.add(new File([arguments[0]], 'saved.json', { type: 'application/json' }));
         input.files = files.files;
         input.dispatchEvent(new Event('change', { bubbles: true }))",
        json!([file]),
    )
    .await
    .map(drop)
}

#[test]
fn saved_plans_travel_in_a_file_that_is_looked_at_first() {
    let mut file = String::new();
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        for name in ["Farm", "Yard"] {
            save(page, name).await?;
            listed(page, |names| names.iter().any(|found| found == name)).await?;
        }
        file = page.handed_out("save-saved").await?;
        Ok(())
    });
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.type_over("side-weight", "240").await?;
        save(page, "Farm").await?;
        listed(page, |names| names == ["Farm"]).await?;
        for (bad, why) in [
            (&file[..file.len() / 2], "Line "),
            ("[]", "Line 1"),
            (&file.replace("kg 195", "stone 30"), "“side-weight”"),
        ] {
            take_in(page, bad).await?;
            page.reads("#place-saved .answer", |said| {
                said.contains(why) && said.contains("Nothing has been changed.")
            })
            .await?;
        }
        take_in(page, &file).await?;
        page.reads("#place-saved .answer", |said| {
            said.contains("2 of the 2 plans") && said.contains("is added as “Farm 2”")
        })
        .await?;
        listed(page, |names| names == ["Farm"]).await?;
        page.tap(By::Id("take-saved")).await?;
        listed(page, |names| {
            names.len() == 3 && names.contains(&"Farm 2".to_owned())
        })
        .await?;
        tap(page, "Open", "Farm 2").await?;
        weighs(page, Side::default().weight).await
    });
}

#[test]
fn a_file_of_everything_brings_what_was_weighed_to_another_phone() {
    let mut file = String::new();
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        save(page, "Farm").await?;
        page.go_to(Place::Scale).await?;
        page.reads(".in-view", |text| text.contains("on the block"))
            .await?;
        page.tap(By::XPath("//button[.='Begin the weigh-in']"))
            .await?;
        page.reads(".balance", |text| text.contains("0.00 kg of"))
            .await?;
        page.go_to(Place::Saved).await?;
        file = page.handed_out("save-saved").await?;
        Ok(())
    });
    visit(Screen::Phone, async |page| {
        page.go_to(Place::Saved).await?;
        take_in(page, &file).await?;
        page.reads("#place-saved .answer", |said| {
            said.contains("1 of the 1 plans") && said.contains("records of the scale: 0 cutting")
        })
        .await?;
        page.tap(By::Id("take-saved")).await?;
        listed(page, |names| names == ["Farm"]).await?;
        page.tap(By::XPath("//button[.='Take the records in']"))
            .await?;
        page.reads("#place-saved", |text| {
            text.contains("The records are taken in.")
        })
        .await?;
        for _ in 0..2 {
            page.go_to(Place::Scale).await?;
            page.reads(".balance", |text| text.contains("0.00 kg of"))
                .await?;
            page.reload().await?;
        }
        Ok(())
    });
}

#[test]
fn a_plan_saved_as_a_file_is_taken_in_after_a_look_at_it() {
    let side = Side::default();
    let mut file = String::new();
    visit(Screen::Phone, async |page| {
        page.enter(&side).await?;
        page.choose(By::Id("currency"), "EUR").await?;
        page.shows_what("walk-away-price", |price| price.contains('€'))
            .await?;
        page.run(
            "let last;
             window.handedOut = null;
             const make = URL.createObjectURL;
             URL.createObjectURL = (blob) => { last = blob; return make.call(URL, blob); };
             HTMLAnchorElement.prototype.click = function () {
                 last.text().then((text) => { window.handedOut = text; });
             };",
            json!([]),
        )
        .await?;
        page.tap(By::XPath("//button[.='Save plan as a file']"))
            .await?;
        let written = page
            .wait(
                "a file",
                async || page.run("return window.handedOut", json!([])).await,
                serde_json::Value::is_string,
            )
            .await?;
        written.as_str().unwrap_or_default().clone_into(&mut file);
        Ok(())
    });
    visit(Screen::Phone, async |page| {
        page.enter(&side).await?;
        page.type_over("side-weight", "240").await?;
        let bad = file.replace("boneless", "boneful");
        ensure!(bad != file, "{file}");
        take_in(page, &bad).await?;
        page.reads("#place-saved .answer", |said| {
            said.contains("plan.base") && said.contains("Nothing has been changed.")
        })
        .await?;
        take_in(page, &file).await?;
        page.reads("#place-saved .answer", |said| {
            said.contains("1 of the 1 plans") && said.contains("Plan from a file")
        })
        .await?;
        page.holds("side-weight", "240").await?;
        page.go_to(Place::Saved).await?;
        page.tap(By::Id("take-saved")).await?;
        listed(page, |names| names == ["Plan from a file"]).await?;
        tap(page, "Open", "Plan from a file").await?;
        weighs(page, side.weight).await?;
        page.holds("side-price", side.price).await?;
        page.shows_what("walk-away-price", |price| price.contains('€'))
            .await
            .map(drop)
    });
}

#[test]
fn what_a_plan_is_opened_in_the_place_of_is_there_after_a_reload() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        save(page, "Grass").await?;
        page.go_to(Place::Side).await?;
        page.type_over("side-weight", "211").await?;
        page.go_to(Place::Saved).await?;
        tap(page, "Open", "Grass").await?;
        page.reads("#typed-before", |text| text.contains("is kept"))
            .await?;
        page.reload().await?;
        weighs(page, Side::default().weight).await?;
        page.go_to(Place::Saved).await?;
        page.tap(By::Css("#typed-before button")).await?;
        weighs(page, "211").await?;
        // What it took the place of is saved by name.
        page.go_to(Place::Saved).await?;
        page.wait(
            "nothing left to bring back",
            async || {
                page.run("return document.getElementById('typed-before')", json!([]))
                    .await
            },
            serde_json::Value::is_null,
        )
        .await
        .map(drop)
    });
}

#[test]
fn a_saved_deal_is_opened_with_the_prices_of_now() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        save(page, "Old deal").await?;
        page.go_to(Place::Side).await?;
        page.type_over("side-weight", "211").await?;
        page.type_over("side-price", "5").await?;
        page.go_to(Place::Prices).await?;
        page.type_over("price-ground-beef", "77").await?;
        page.go_to(Place::Saved).await?;
        tap(page, "Open with", "Old deal").await?;
        weighs(page, Side::default().weight).await?;
        page.holds("side-price", Side::default().price).await?;
        page.go_to(Place::Prices).await?;
        page.holds("price-ground-beef", "77").await
    });
}
