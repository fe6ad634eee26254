//! A slip of the finger: the field keeps it, says what would be right, and the answer stays the
//! last good one.

use anyhow::{Result, ensure};
use browser_tests::{Page, Place, Screen, Side, visit};
use thirtyfour::By;

/// Field, what is typed, and what the note under the field must hold: what was typed, and a way
/// out.
const SLIPS: [(&str, &str, &[&str]); 22] = [
    ("side-weight", "", &["Nothing is entered", "12.5"]),
    ("side-weight", "heavy", &["“heavy”", "12.5"]),
    ("side-weight", "-195", &["“-195”", "zero or more"]),
    ("side-weight", "0", &["above 0", "180"]),
    ("side-weight", "1e30", &["“1e30”", "12.5"]),
    (
        "side-weight",
        "1234567890123456789012345678901",
        &["“1234567890123456789012345678901”", "1000000000"],
    ),
    (
        "side-weight",
        "1,234.5",
        &["“1,234.5”", "two separators", "one point or comma"],
    ),
    ("side-weight", "$195", &["“$195”", "12.5"]),
    ("side-weight", "195 stone", &["“195 stone”", "kg, lb or g"]),
    ("side-price", "", &["Nothing is entered", "12.5"]),
    ("side-price", "dear", &["“dear”", "12.5"]),
    ("side-price", "-8.4", &["“-8.4”", "zero or more"]),
    ("side-price", "1e30", &["“1e30”", "12.5"]),
    (
        "side-price",
        "1234567890123456789012345678901",
        &["“1234567890123456789012345678901”", "1000000000"],
    ),
    ("side-price", "8.4.1", &["“8.4.1”", "two separators"]),
    ("target-margin", "100", &["“100”", "below 100"]),
    ("target-margin", "120", &["“120”", "below 100"]),
    ("target-margin", "", &["Nothing is entered", "12.5"]),
    ("labour-minutes", "-5", &["“-5”", "zero or more"]),
    ("labour-minutes", "long", &["“long”", "12.5"]),
    ("labour-rate", "", &["Nothing is entered", "12.5"]),
    ("labour-rate", "1..5", &["“1..5”", "two separators"]),
];

/// The good text of each field.
fn good(field: &str) -> &'static str {
    let side = Side::default();
    match field {
        "side-weight" => side.weight,
        "side-price" => side.price,
        "labour-minutes" => side.labour_minutes.unwrap_or_default(),
        "labour-rate" => side.labour_rate,
        _ => side.target_margin,
    }
}

/// The slip is kept and named, and the figures are held to be the last good ones.
async fn is_caught(page: &Page, field: &str, typed: &str, note: &[&str]) -> Result<()> {
    // At one stroke: of a text that is typed, the figures of its beginning may be good ones.
    page.paste_over(field, typed).await?;
    page.shows_what(&format!("{field}-note"), |text| {
        note.iter().all(|part| text.contains(part))
    })
    .await?;
    ensure!(page.is_marked_bad(field).await?, "{field} is not marked");
    page.holds(field, typed).await
}

#[test]
fn each_slip_is_kept_named_and_mended() {
    visit(Screen::Phone, async |page| {
        let figures = Side::default().figures()?;
        page.enter(&Side::default()).await?;
        page.says(&figures).await?;
        for (field, typed, note) in SLIPS {
            is_caught(page, field, typed, note).await?;
            let verdict = page
                .shows_what("verdict", |text| text.contains("Last good figure"))
                .await?;
            ensure!(verdict.starts_with(figures.outcome), "{verdict}");
            page.shows("margin", &figures.margin).await?;
            page.shows("walk-away-price", &figures.walk_away).await?;

            page.type_over(field, good(field)).await?;
            page.says(&figures).await?;
            ensure!(!page.is_marked_bad(field).await?, "{field} is still marked");
            let note = page
                .text(&format!("{field}-note"))
                .await?
                .unwrap_or_default();
            ensure!(!note.contains('✕'), "{field}: {note}");
        }
        Ok(())
    });
}

#[test]
fn of_a_slip_typed_key_by_key_the_figures_of_the_good_beginning_stay() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.type_over("side-price", "7.5.1").await?;
        page.shows_what("verdict", |text| text.contains("Last good figure"))
            .await?;
        let beginning = Side {
            price: "7.5",
            ..Side::default()
        };
        page.shows("margin", &beginning.figures()?.margin).await
    });
}

#[test]
fn several_slips_are_all_named_until_the_last_is_mended() {
    visit(Screen::Phone, async |page| {
        let figures = Side::default().figures()?;
        page.enter(&Side::default()).await?;
        page.says(&figures).await?;
        is_caught(page, "side-price", "8,4,1", &["“8,4,1”"]).await?;
        is_caught(page, "target-margin", "120", &["“120”"]).await?;
        page.type_over("side-price", "8.4").await?;
        page.shows_what("side-price-note", |text| !text.contains('✕'))
            .await?;
        page.shows_what("verdict", |text| text.contains("Last good figure"))
            .await?;
        ensure!(
            page.is_marked_bad("target-margin").await?,
            "no longer marked"
        );
        page.type_over("target-margin", "25").await?;
        page.says(&figures).await
    });
}

#[test]
fn a_slip_before_there_is_any_answer_is_named_and_no_answer_made_up() {
    visit(Screen::Phone, async |page| {
        is_caught(page, "side-weight", "heavy", &["“heavy”"]).await?;
        page.type_over("side-price", "8.4").await?;
        page.shows_what("verdict", |text| text.starts_with("No answer yet"))
            .await?;
        ensure!(page.text("margin").await?.is_none(), "a margin of nothing");
        Ok(())
    });
}

#[test]
fn a_slip_on_the_board_keeps_the_sheet() {
    visit(Screen::Phone, async |page| {
        let side = Side {
            board: &[("ground-beef", "14.49")],
            ..Side::default()
        };
        let figures = side.figures()?;
        page.enter(&side).await?;
        page.says(&figures).await?;
        page.go_to(Place::Prices).await?;
        let sheet = async || {
            page.run(
                "return [...document.querySelectorAll('#cost-sheet tbody tr')].map((row) =>
                     ['weight', 'cost', 'margin', 'suggested'].map((field) =>
                         row.querySelector(`[data-field=${field}]`).innerText))",
                serde_json::json!([]),
            )
            .await
        };
        let before = sheet().await?;
        is_caught(page, "price-ground-beef", "much", &["“much”", "12.5"]).await?;
        page.shows_what("verdict", |text| text.contains("Last good figure"))
            .await?;
        page.shows("margin", &figures.margin).await?;
        let after = sheet().await?;
        ensure!(after == before, "before: {before}\nafter: {after}");

        page.type_over("price-ground-beef", "14.49").await?;
        page.says(&figures).await?;
        ensure!(
            !page.is_marked_bad("price-ground-beef").await?,
            "still marked"
        );
        Ok(())
    });
}

#[test]
fn a_slip_in_a_folded_part_unfolds_it() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.go_to(Place::Side).await?;
        page.tap(thirtyfour::By::Css("details.more > summary"))
            .await?;
        is_caught(page, "unsold", "100", &["“100”", "4"]).await?;
        page.reload().await?;
        page.shows_what("unsold-note", |text| text.contains("“100”"))
            .await
            .map(drop)
    });
}

#[test]
fn what_keeps_a_paper_from_the_printer_is_said_at_its_button() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.type_over("labour-rate", "dear").await?;
        page.go_to(Place::Saved).await?;
        page.tap(By::Css("#print > summary")).await?;
        page.tap(By::Id("print-0")).await?;
        page.reads("#print", |said| {
            said.contains("Nothing can be printed yet. Labour rate: “dear” is not a number")
        })
        .await?;
        // It is gone once something has changed.
        page.go_to(Place::Side).await?;
        page.type_over("labour-rate", "27").await?;
        page.go_to(Place::Saved).await?;
        page.reads("#print", |said| !said.contains("Nothing can be printed"))
            .await
            .map(drop)
    });
}
