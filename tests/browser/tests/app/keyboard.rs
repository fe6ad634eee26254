//! Without a finger or a mouse: every control is reached by Tab and worked by keys.

use anyhow::{Result, ensure};
use browser_tests::{Page, Screen, Side, visit};
use serde_json::json;
use thirtyfour::Key;

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

/// Presses Tab until a control has the focus; every control on the way, and it, must be in view
/// (WCAG 2.2, success criterion 2.4.11).
async fn tab_to(page: &Page, id: &str) -> Result<()> {
    for _ in 0..20 {
        page.press(Key::Tab + "").await?;
        let covered = page
            .run(
                "const focused = document.activeElement;
                 const box = focused.getBoundingClientRect();
                 const above = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
                 return focused === above || focused.contains(above) ? null : focused.outerHTML",
                json!([]),
            )
            .await?;
        ensure!(covered.is_null(), "out of view: {covered}");
        if page.focus().await? == id {
            return Ok(());
        }
    }
    anyhow::bail!("Tab does not lead to {id}")
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
                tab_to(page, id).await?;
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
