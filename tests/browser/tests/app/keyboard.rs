//! Without a finger or a mouse: every control is reached by Tab and worked by keys.

use anyhow::{Result, ensure};
use browser_tests::{Page, Place, Screen, Side, visit};
use serde_json::json;
use thirtyfour::{By, Key};

use crate::saved::listed;

/// The controls of the counter path, in the order in which one needs them.
const PATH: [&str; 9] = [
    "side-weight",
    "side-weight-unit",
    "side-price",
    "side-price-unit",
    "stock",
    "cut-plan",
    "labour-minutes",
    "labour-rate",
    "target-margin",
];

/// Presses Tab, no more than so many times, until the control that `selector` finds has the focus;
/// every control on the way, and it, must be in view (WCAG 2.2, success criterion 2.4.11).
async fn tab_to(page: &Page, selector: &str, times: usize) -> Result<()> {
    for _ in 0..times {
        page.press(Key::Tab + "").await?;
        let seen = page
            .run(
                "const focused = document.activeElement;
                 const box = focused.getBoundingClientRect();
                 const above = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
                 // Past the last control the browser's own come, and then the first again. What a
                 // driver presses goes to the page all the same, which hears nothing of a focus then.
                 if (!document.hasFocus()) window.focus();
                 return [focused === document.body || focused === above || focused.contains(above)
                             ? null : focused.outerHTML.slice(0, 200),
                         focused.matches(arguments[0])]",
                json!([selector]),
            )
            .await?;
        ensure!(seen[0].is_null(), "out of view: {}", seen[0]);
        if seen[1] == true {
            return Ok(());
        }
    }
    anyhow::bail!("Tab does not lead to {selector}")
}

/// Goes to a place by Tab and Enter.
async fn go_by_keys_to(page: &Page, place: Place) -> Result<()> {
    let button = format!("nav button:nth-child({})", place as usize + 1);
    tab_to(page, &button, 120).await?;
    page.press(Key::Enter + "").await?;
    page.wait(
        place.name(),
        async || {
            page.run(
                "return document.getElementById(arguments[0]).checkVisibility()",
                json!([place.id()]),
            )
            .await
        },
        |is_open| *is_open == true,
    )
    .await
    .map(drop)
}

/// Something has the focus: from nowhere a screen reader would begin at the top again.
async fn keeps_the_focus(page: &Page, after: &str) -> Result<()> {
    // What was pressed has been drawn by then.
    page.run_until_done(
        "requestAnimationFrame(() => setTimeout(arguments[0], 50))",
        json!([]),
    )
    .await?;
    let is_lost = page
        .run("return document.activeElement === document.body", json!([]))
        .await?;
    ensure!(is_lost == false, "the focus is nowhere {after}");
    Ok(())
}

/// The focus comes to the element of this id.
async fn has_the_focus(page: &Page, id: &str) -> Result<()> {
    page.wait(
        &format!("the focus at {id}"),
        async || Ok(json!(page.focus().await?)),
        |at| at == id,
    )
    .await
    .map(drop)
}

#[test]
fn a_side_is_entered_by_keys_alone() {
    for screen in [Screen::Phone, Screen::Wide] {
        visit(screen, async |page| {
            let side = Side {
                weight_unit: "lb",
                grass_percent: 100,
                plan: "bone-in",
                weight: "430",
                price: "3.81",
                ..Side::default()
            };
            for id in PATH {
                tab_to(page, &format!("#{id}"), 20).await?;
                match id {
                    "side-weight" => page.press(side.weight).await?,
                    "side-weight-unit" => page.press("l").await?,
                    "side-price" => page.press(side.price).await?,
                    "stock" => page.press(Key::End + "").await?,
                    "cut-plan" => page.press("bone-").await?,
                    "labour-minutes" => {
                        page.press(side.labour_minutes.unwrap_or_default()).await?;
                    }
                    "labour-rate" => page.press(side.labour_rate).await?,
                    "target-margin" => page.press(side.target_margin).await?,
                    _ => {}
                }
            }
            page.holds("cut-plan", side.plan).await?;
            page.holds("stock", "100").await?;
            // The unit was switched after the weight was typed: the weight was in kilograms.
            page.holds("side-weight", "947.99").await?;
            page.type_over("side-weight", side.weight).await?;
            page.says(&side.figures()?).await
        });
    }
}

#[test]
fn the_way_to_each_place_is_a_button() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await?;
        page.run("document.querySelector('nav button').focus()", json!([]))
            .await?;
        for (name, id) in [("Cuts", "place-cuts"), ("Prices", "place-prices")] {
            page.press(Key::Tab + "").await?;
            page.press(Key::Enter + "").await?;
            page.wait(
                &format!("the place {name}"),
                async || {
                    page.run(
                        "return [document.getElementById(arguments[0]).checkVisibility(),
                                 document.querySelector('nav [aria-current=page]').innerText]",
                        json!([id]),
                    )
                    .await
                },
                |seen| *seen == json!([true, name]),
            )
            .await?;
        }
        Ok(())
    });
}

#[test]
fn every_control_has_a_name() {
    visit(Screen::Wide, async |page| {
        page.enter(&Side::default()).await?;
        page.says(&Side::default().figures()?).await?;
        let nameless = page
            .run(
                "return [...document.querySelectorAll('input, select, button, summary')]
                     .filter((control) => !(control.getAttribute('aria-label')?.trim()
                         || [...(control.labels ?? [])].some((label) => label.textContent.trim())
                         || control.textContent.trim() && control.tagName !== 'SELECT'))
                     .map((control) => control.outerHTML)",
                json!([]),
            )
            .await?;
        ensure!(nameless == json!([]), "{nameless}");
        Ok(())
    });
}

#[test]
fn a_plan_is_saved_renamed_deleted_and_brought_back_by_keys_alone() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        go_by_keys_to(page, Place::Saved).await?;
        page.run("document.querySelector('.top').scrollIntoView()", json!([]))
            .await?;
        tab_to(page, "#saved-name", 120).await?;
        page.press("Farm").await?;
        page.press(Key::Enter + "").await?;
        listed(page, |names| names == ["Farm"]).await?;
        keeps_the_focus(page, "after Save").await?;

        tab_to(page, "[data-saved] [aria-label^=Rename]", 20).await?;
        page.press(Key::Enter + "").await?;
        // What was pressed is gone: the focus is handed on.
        has_the_focus(page, "new-name").await?;
        let field = page.element(By::Id("new-name")).await?;
        field.send_keys(Key::Control + "a").await?;
        page.press("Yard").await?;
        page.press(Key::Enter + "").await?;
        listed(page, |names| names == ["Yard"]).await?;
        has_the_focus(page, "save-plan").await?;

        tab_to(page, "[data-saved] [aria-label^=Delete]", 120).await?;
        page.press(Key::Enter + "").await?;
        listed(page, <[String]>::is_empty).await?;
        has_the_focus(page, "undo-saved").await?;
        page.press(Key::Enter + "").await?;
        listed(page, |names| names == ["Yard"]).await?;
        has_the_focus(page, "save-plan").await
    });
}

#[test]
fn a_price_is_typed_by_keys_alone() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        let side = Side {
            board: &[("ground-beef", "19.49")],
            ..Side::default()
        };
        go_by_keys_to(page, Place::Prices).await?;
        tab_to(page, "#price-ground-beef", 160).await?;
        // A sample is marked as a whole, so that typing takes its place.
        page.press("19.49").await?;
        page.holds("price-ground-beef", "19.49").await?;
        page.says(&side.figures()?).await?;
        keeps_the_focus(page, "after a price").await
    });
}

#[test]
fn two_cuts_are_weighed_by_keys_alone() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        go_by_keys_to(page, Place::Scale).await?;
        page.reads(".in-view", |text| text.contains("on the block"))
            .await?;
        page.run(
            "[...document.querySelectorAll('.scale button')]
                 .find((button) => button.textContent === 'Begin the weigh-in').id = 'begin'",
            json!([]),
        )
        .await?;
        tab_to(page, "#begin", 120).await?;
        page.press(Key::Enter + "").await?;
        page.reads(".balance", |text| text.contains("Not yet"))
            .await?;
        has_the_focus(page, "in-view").await?;
        for (cut, weight) in ["1.25", "2.5"].iter().enumerate() {
            tab_to(page, ".weighing input", 120).await?;
            let field = page.focus().await?;
            page.press(*weight).await?;
            page.press(Key::Enter + "").await?;
            page.holds(&field, "").await?;
            keeps_the_focus(page, "after a weighing").await?;
            page.wait(
                "what was weighed",
                async || {
                    page.run(
                        "return document.querySelectorAll('.is-weighed').length",
                        json!([]),
                    )
                    .await
                },
                |weighed| *weighed == json!(cut + 1),
            )
            .await?;
        }
        page.reads(".balance", |text| text.contains("3.75 kg of"))
            .await
            .map(drop)
    });
}
