//! Where a cut comes from, what it takes to cut it, and the cautions beside what triggers them.

use anyhow::{Result, ensure};
use browser_tests::{Page, Place, Screen, Side, amount, visit};
use quantity::Rounding;
use serde_json::json;
use thirtyfour::By;

/// A side by the bone-in plan, whose T-bones and porterhouses keep the back bone.
const BONE_IN: Side<'_> = Side {
    weight: "195",
    weight_unit: "kg",
    price: "8.4",
    grass_percent: 0,
    plan: "bone-in",
    labour_minutes: Some("150"),
    labour_rate: "34",
    target_margin: "25",
    board: &[],
};

async fn open(page: &Page, cut: &str) -> Result<()> {
    page.tap(By::Css(format!("tr[data-cut={cut}] button.name")))
        .await?;
    page.reads(".trail", |text| !text.is_empty()).await?;
    Ok(())
}

#[test]
fn bench_and_saw_are_told_apart() {
    visit(Screen::Phone, async |page| {
        let figures = BONE_IN.figures()?;
        page.enter(&BONE_IN).await?;
        page.says(&figures).await?;
        page.go_to(Place::Prices).await?;
        let totals = &figures.sheet.totals;
        let minutes = |time: quantity::Minutes| amount(time.minutes(), 0, Rounding::HalfEven);
        ensure!(totals.saw_time > quantity::Minutes::ZERO, "no saw");
        let bench = minutes(totals.time - totals.saw_time);
        let saw = minutes(totals.saw_time);
        let shown = page
            .reads(".totals tr", |text| text.contains("at the saw"))
            .await?;
        for line in [
            format!("Work at the bench{bench} min"),
            format!("Work at the saw{saw} min"),
        ] {
            ensure!(shown.lines().any(|shown| shown == line), "{line}: {shown}");
        }
        Ok(())
    });
}

#[test]
fn a_cut_says_where_its_share_comes_from() {
    visit(Screen::Phone, async |page| {
        page.enter(&BONE_IN).await?;
        page.says(&BONE_IN.figures()?).await?;
        page.go_to(Place::Prices).await?;
        open(page, "t-bone-steak").await?;
        let catalogue = carcass::Catalogue::published()?;
        let product = catalogue
            .product_id("t-bone-steak")
            .ok_or_else(|| anyhow::anyhow!("no T-bone"))?;
        let shown = page.reads(".sources li", |text| !text.is_empty()).await?;
        let is_named = catalogue
            .ways()
            .flat_map(|(_, way)| &way.outputs)
            .filter(|output| output.output == carcass::Output::Product(product))
            .any(|output| {
                let source = catalogue.source_of(output);
                shown.contains(output.mark.words())
                    && source.is_some_and(|source| shown.contains(&source.title))
            });
        ensure!(is_named, "{shown}");
        ensure!(shown.contains("of the short loin"), "{shown}");
        Ok(())
    });
}

#[test]
fn an_older_animal_brings_its_caution_beside_the_cuts_that_keep_the_back_bone() {
    visit(Screen::Phone, async |page| {
        page.enter(&BONE_IN).await?;
        page.says(&BONE_IN.figures()?).await?;
        let caution = |text: &str| text.contains("Back bone of older cattle");
        for (age, is_older) in [("over-30", true), ("under-30", false), ("unknown", true)] {
            page.go_to(Place::Side).await?;
            page.choose(By::Id("age"), age).await?;
            page.go_to(Place::Prices).await?;
            open(page, "t-bone-steak").await?;
            page.reads(".detail .caution", |text| caution(text) == is_older)
                .await?;
            page.tap(By::Css("tr[data-cut=t-bone-steak] button.name"))
                .await?;
        }
        // Ground beef holds no bone.
        open(page, "ground-beef").await?;
        let beside_grind = page.texts(".detail .caution").await?;
        ensure!(!caution(&beside_grind), "{beside_grind}");
        page.tap(By::Css("tr[data-cut=ground-beef] button.name"))
            .await?;
        open(page, "soup-bones").await?;
        page.reads(".detail .caution", |text| text.contains("Bones for sale"))
            .await?;
        Ok(())
    });
}

#[test]
fn grind_claims_and_cards_stand_by_their_cautions() {
    visit(Screen::Phone, async |page| {
        page.enter(&BONE_IN).await?;
        page.says(&BONE_IN.figures()?).await?;
        let note = page.texts("#stock-note").await?;
        ensure!(!note.contains("claim"), "{note}");
        page.move_stock(50).await?;
        page.reads("#stock-note", |text| text.contains("claim"))
            .await?;
        page.go_to(Place::Prices).await?;
        page.reads("#place-prices .cautions", |text| {
            text.contains("in the United States it needs label approval")
        })
        .await?;
        page.go_to(Place::Cuts).await?;
        page.reads(".grind .cautions", |text| {
            text.contains("4 °C") && text.contains("71 °C")
        })
        .await?;
        Ok(())
    });
}

#[test]
fn a_board_says_when_it_is_old() {
    visit(Screen::Phone, async |page| {
        page.enter(&BONE_IN).await?;
        page.says(&BONE_IN.figures()?).await?;
        page.go_to(Place::Prices).await?;
        ensure!(page.texts(".board-age").await?.is_empty(), "no day yet");
        let set = "const [id, days] = arguments;
             const day = new Date(Date.now() - days * 86400000);
             const field = document.getElementById(id);
             field.value = [day.getFullYear(), day.getMonth() + 1, day.getDate()]
                 .map((part) => String(part).padStart(2, '0')).join('-');
             field.dispatchEvent(new InputEvent('input', { bubbles: true }));";
        page.run(set, json!(["board-date", 100])).await?;
        let said = page
            .reads(".board-age", |text| text.contains("days old"))
            .await?;
        ensure!(said.contains("more than 90"), "{said}");
        page.run(set, json!(["board-date", 10])).await?;
        page.reads(".board-age", str::is_empty).await?;
        page.run(set, json!(["board-date", -10])).await?;
        page.reads(".board-age", |text| text.contains("still to come"))
            .await?;
        Ok(())
    });
}

/// The figures of the sheet that break into two lines.
async fn broken_figures(page: &Page) -> Result<serde_json::Value> {
    page.run(
        "return [...document.querySelectorAll(
             '#cost-sheet td[data-field]:not([data-field=price]), .key-figures dd > span')]
             .filter((cell) => {
                 const range = document.createRange();
                 range.selectNodeContents(cell);
                 const tops = [...range.getClientRects()]
                     .filter((box) => box.width > 0).map((box) => box.top);
                 return Math.max(...tops) - Math.min(...tops) > 4;
             })
             .map((cell) => `${cell.dataset.field}: ${cell.innerText}`)",
        json!([]),
    )
    .await
}

#[test]
fn usual_figures_stand_on_one_line() {
    for screen in [Screen::Phone, Screen::Wide] {
        visit(screen, async |page| {
            page.enter(&BONE_IN).await?;
            page.says(&BONE_IN.figures()?).await?;
            page.go_to(Place::Prices).await?;
            let broken = broken_figures(page).await?;
            ensure!(broken == json!([]), "{broken}");
            Ok(())
        });
    }
}
