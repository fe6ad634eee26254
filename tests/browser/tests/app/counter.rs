//! The decision at the counter: a side is typed, the verdict read.

use anyhow::ensure;
use browser_tests::{Place, Screen, Side, read_amount, visit};
use quantity::{Decimal, Share};

/// Sides of which, at sample prices, some pay, some are thin, some fall short.
const SIDES: [Side; 6] = [
    Side {
        weight: "195",
        weight_unit: "kg",
        price: "8.4",
        grass_percent: 100,
        plan: "bone-in",
        labour_minutes: Some("150"),
        labour_rate: "34",
        target_margin: "25",
        board: &[],
    },
    Side {
        weight: "430",
        weight_unit: "lb",
        price: "3.81",
        grass_percent: 100,
        plan: "bone-in",
        labour_minutes: Some("210.5"),
        labour_rate: "41.25",
        target_margin: "31.5",
        board: &[],
    },
    Side {
        weight: "162.7",
        weight_unit: "kg",
        price: "12.95",
        grass_percent: 35,
        plan: "boneless",
        labour_minutes: None,
        labour_rate: "32",
        target_margin: "28",
        board: &[],
    },
    Side {
        weight: "300",
        weight_unit: "lb",
        price: "9.99",
        grass_percent: 0,
        plan: "boneless",
        labour_minutes: Some("400"),
        labour_rate: "60",
        target_margin: "35",
        board: &[],
    },
    // So little is charged and so much asked of it that no price would do.
    Side {
        weight: "20",
        weight_unit: "kg",
        price: "1",
        grass_percent: 0,
        plan: "boneless",
        labour_minutes: Some("6000"),
        labour_rate: "90",
        target_margin: "99",
        board: &[],
    },
    Side {
        weight: "12345.678",
        weight_unit: "kg",
        price: "7.77",
        grass_percent: 50,
        plan: "boneless",
        labour_minutes: Some("0"),
        labour_rate: "0",
        target_margin: "0",
        board: &[("ground-beef", "14.49"), ("stew-beef", "18.99")],
    },
];

#[test]
fn a_side_typed_on_a_phone_gets_the_verdict_of_the_core() {
    visit(Screen::Phone, async |page| {
        page.shows_what("verdict", |text| text.starts_with("No answer yet"))
            .await?;
        let mut outcomes = Vec::new();
        for side in &SIDES {
            let figures = side.figures()?;
            page.enter(side).await?;
            page.says(&figures).await?;
            outcomes.push(figures.outcome);
        }
        for outcome in ["Pays", "Thin", "Falls short"] {
            ensure!(
                outcomes.contains(&outcome),
                "no side that {outcome}: {outcomes:?}"
            );
        }
        Ok(())
    });
}

#[test]
fn the_walk_away_price_put_back_pays() {
    visit(Screen::Phone, async |page| {
        for side in &SIDES {
            let figures = side.figures()?;
            if figures.walk_away == "none" {
                continue;
            }
            page.enter(side).await?;
            page.says(&figures).await?;
            page.go_to(Place::Side).await?;
            page.type_over("side-price", &figures.walk_away_typed)
                .await?;
            let back = Side {
                price: &figures.walk_away_typed,
                ..*side
            };
            let expected = back.figures()?;
            page.says(&expected).await?;
            page.shows_what("verdict", |text| text.starts_with("Pays"))
                .await?;
            let margin = read_amount(&page.shows_what("margin", |_| true).await?)?;
            let target: Decimal = side.target_margin.parse()?;
            ensure!(margin >= target, "{margin} is below {target}");
            // A cent more is a cent too much.
            let cent_more = read_amount(&figures.walk_away_typed)? + Decimal::new(1, 2);
            page.type_over("side-price", &cent_more.to_string()).await?;
            page.shows_what("verdict", |text| !text.starts_with("Pays"))
                .await?;
            ensure!(
                expected.exact_margin >= Share::from_percent(target),
                "the core rounds the other way"
            );
        }
        Ok(())
    });
}

#[test]
fn an_invented_side_is_there_to_try_and_says_that_it_is_invented() {
    visit(Screen::Phone, async |page| {
        let sample = page
            .reads("#place-side .sample-notice", |text| text.contains("margin"))
            .await?;
        ensure!(sample.contains("invented"), "{sample}");
        page.shows_what("verdict", |text| text.starts_with("No answer yet"))
            .await?;
        // It follows the stock, and goes when something of one's own is typed.
        page.move_stock(100).await?;
        page.reads("#place-side .sample-notice", |text| text != sample)
            .await?;
        page.type_over("side-weight", "200").await?;
        page.reads("#place-side", |text| !text.contains("worked out"))
            .await?;
        page.type_over("side-weight", "").await?;
        page.tap(thirtyfour::By::XPath("//button[.='Try an invented side']"))
            .await?;
        page.shows_what("verdict", |text| !text.starts_with("No answer yet"))
            .await?;
        let notice = page
            .run(
                "return document.querySelector('#place-side .sample-notice')?.innerText ?? null",
                serde_json::json!([]),
            )
            .await?;
        ensure!(
            notice
                .as_str()
                .is_some_and(|text| text.contains("invented")),
            "{notice}"
        );
        Ok(())
    });
}

#[test]
fn a_tap_marks_what_a_field_holds_so_that_typing_replaces_it() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.tap(thirtyfour::By::Id("cut-plan")).await?;
        page.press(thirtyfour::Key::Escape + "").await?;
        for id in ["side-weight", "side-price", "target-margin"] {
            page.tap(thirtyfour::By::Id(id)).await?;
            page.press("21").await?;
            page.holds(id, "21").await?;
        }
        Ok(())
    });
}
