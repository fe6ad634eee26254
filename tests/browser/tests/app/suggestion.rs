//! What is said of the suggested prices, whichever way they came out.

use anyhow::{Context, Result, anyhow, ensure};
use browser_tests::{Page, Place, Screen, Side, amount, visit};
use carcass::Catalogue;
use document::format::RuleForm;
use document::{Document, PriceAmount};
use pricing::price_side;
use pricing::sheet::SuggestedBoard;
use quantity::Rounding;
use serde_json::{Value, json};
use thirtyfour::By;

const PINNED: &str = "porterhouse-steak";

fn bone_in() -> Side<'static> {
    Side {
        plan: "bone-in",
        ..Side::default()
    }
}

/// Enters a side by the bone-in plan and goes to its prices.
async fn prices(page: &Page) -> Result<()> {
    page.enter(&bone_in()).await?;
    page.says(&bone_in().figures()?).await?;
    page.go_to(Place::Prices).await
}

/// The sentence about the suggested prices that starts so, once it is there.
async fn said(page: &Page, start: &str) -> Result<String> {
    page.wait(
        start,
        async || {
            let said = page
                .run(
                    "return [...document.querySelectorAll('#place-prices .sheet > :is(.note, .caution)')]
                         .map((element) => element.innerText)",
                    json!([]),
                )
                .await?;
            Ok(serde_json::from_value::<Vec<String>>(said)?)
        },
        |said| said.iter().any(|text| text.starts_with(start)),
    )
    .await?
    .into_iter()
    .find(|text| text.starts_with(start))
    .context("it was there")
}

/// The suggested prices of the cuts of the sheet that are not `PINNED`.
async fn suggested_for_others(page: &Page) -> Result<Vec<Value>> {
    let prices = page
        .run(
            "return [...document.querySelectorAll('#cost-sheet tr[data-cut]:not(.by-product)')]
                 .filter((row) => row.dataset.cut !== arguments[0])
                 .map((row) => row.querySelector('[data-field=suggested]').innerText)",
            json!([PINNED]),
        )
        .await?;
    prices.as_array().cloned().context("an array")
}

/// How the board comes out on this machine with a rule for one cut.
fn board_with(rule: RuleForm) -> Result<SuggestedBoard> {
    let mut document: Document = bone_in().document();
    document.shop.rules.insert(PINNED.to_owned(), rule);
    let catalogue = Catalogue::published().map_err(|error| anyhow!("{error}"))?;
    let resolved = document.resolve(&catalogue)?;
    let sheet = price_side(&catalogue, &resolved.deal, &resolved.plan, &resolved.shop)?;
    Ok(sheet.board?)
}

fn per_kg(price: &str) -> PriceAmount {
    PriceAmount {
        amount: price.to_owned(),
        unit: "/kg".to_owned(),
    }
}

#[test]
fn a_held_price_that_meets_the_target_alone_is_said_to() {
    visit(Screen::Phone, async |page| {
        prices(page).await?;
        said(page, "Rounding brings $").await?;
        page.tap(By::Css(format!("tr[data-cut={PINNED}] button.name")))
            .await?;
        for (field, rule) in [
            ("pin", RuleForm::Pinned(per_kg("1000"))),
            (
                "floor",
                RuleForm::Between {
                    floor: Some(per_kg("1000")),
                    cap: None,
                },
            ),
        ] {
            let board = board_with(rule)?;
            ensure!(board.is_met_by_held_prices, "{board:?}");
            let spare = amount(board.surplus.units(), 2, Rounding::Down);
            let id = format!("{field}-{PINNED}");
            page.type_over(&id, "1000").await?;
            let sentence = said(page, "The prices you hold alone meet the target").await?;
            ensure!(
                sentence.contains(&format!(" with ${spare} to spare")),
                "not {spare}: {sentence}"
            );
            let others = suggested_for_others(page).await?;
            ensure!(
                others.len() > 10 && others.iter().all(|price| price == "$0.00"),
                "{others:?}"
            );
            page.type_over(&id, "").await?;
            said(page, "Rounding brings $").await?;
        }
        Ok(())
    });
}

#[test]
fn by_products_that_pay_for_the_side_are_said_to() {
    visit(Screen::Phone, async |page| {
        prices(page).await?;
        page.type_over("price-suet", "5000").await?;
        said(page, "By-products alone pay for the side").await?;
        let others = suggested_for_others(page).await?;
        ensure!(
            others.len() > 10 && others.iter().all(|price| price == "$0.00"),
            "{others:?}"
        );
        Ok(())
    });
}

#[test]
fn a_target_out_of_reach_names_each_cut_with_what_holds_it() {
    visit(Screen::Phone, async |page| {
        prices(page).await?;
        let cuts = page
            .run(
                "return [...document.querySelectorAll('#cost-sheet tr[data-cut]:not(.by-product)')]
                     .map((row) => row.dataset.cut)",
                json!([]),
            )
            .await?;
        let cuts: Vec<String> = serde_json::from_value(cuts)?;
        let capped = "ground-beef";
        for (cut, field, price) in [(PINNED, "pin", "20"), (capped, "cap", "9.5")] {
            page.tap(By::Css(format!("tr[data-cut={cut}] button.name")))
                .await?;
            page.type_over(&format!("{field}-{cut}"), price).await?;
        }
        for cut in cuts
            .iter()
            .filter(|cut| ![PINNED, capped].contains(&cut.as_str()))
        {
            page.paste_over(&format!("price-{cut}"), "0").await?;
        }
        let sentence = said(page, "At the highest prices allowed, sales stay $").await?;
        let lines: Vec<&str> = sentence
            .lines()
            .filter(|line| !line.is_empty())
            .skip(1)
            .collect();
        ensure!(lines.len() == cuts.len(), "{} cuts: {sentence}", cuts.len());
        let count = |hold: &str| lines.iter().filter(|line| line.contains(hold)).count();
        ensure!(
            count(", held at $20.00/kg: alone it would need $") == 1
                && count(", not above $9.50/kg: alone it would need $") == 1
                && count(", without a price on the board: alone it would need $") == cuts.len() - 2,
            "{sentence}"
        );
        Ok(())
    });
}
