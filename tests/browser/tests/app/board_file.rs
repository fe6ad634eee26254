//! The price board as a file.

use anyhow::{Result, ensure};
use browser_tests::{Page, Place, Screen, Side, visit};
use serde_json::json;
use thirtyfour::By;

/// Hands a board file to the page as choosing it would.
async fn take_in(page: &Page, file: &str) -> Result<()> {
    page.run(
        "const input = document.getElementById('board-file');
         input.closest('details').open = true;
         const files = new DataTransfer();
         files.items.add(new File([arguments[0]], 'board.csv', { type: 'text/csv' }));
         input.files = files.files;
         input.dispatchEvent(new Event('change', { bubbles: true }))",
        json!([file]),
    )
    .await?;
    Ok(())
}

/// What is said of the file.
async fn said_of_the_file(page: &Page) -> Result<String> {
    let said = page
        .run(
            "return document.getElementById('board-file').closest('details').innerText",
            json!([]),
        )
        .await?;
    Ok(said.as_str().unwrap_or_default().to_owned())
}

#[test]
fn a_board_file_is_looked_at_first_then_taken_over_and_undone() {
    visit(Screen::Phone, async |page| {
        let side = Side::default();
        let before = side.figures()?;
        page.enter(&side).await?;
        page.says(&before).await?;
        page.go_to(Place::Prices).await?;
        take_in(
            page,
            "product,price_per_kg,date\r\nribeye-steak,75.25,2026-03-09\r\n",
        )
        .await?;
        page.wait(
            "what the file would change",
            async || said_of_the_file(page).await,
            |said| said.contains("changes 1 price") && said.contains("75.25"),
        )
        .await?;
        // Nothing has changed yet.
        page.says(&before).await?;
        page.tap(By::Css(".more .offer")).await?;
        let after = Side {
            board: &[("ribeye-steak", "75.25")],
            ..side
        };
        page.says(&after.figures()?).await?;
        page.holds("board-date", "2026-03-09").await?;
        page.tap(By::Id("undo-board")).await?;
        page.says(&before).await
    });
}

#[test]
fn a_board_file_with_a_fault_is_told_by_its_line_and_changes_nothing() {
    visit(Screen::Phone, async |page| {
        let side = Side::default();
        page.enter(&side).await?;
        page.go_to(Place::Prices).await?;
        take_in(
            page,
            "product,price_per_kg\nribeye-steak,dear\n<script>alert(1)</script>,3\n",
        )
        .await?;
        page.wait(
            "the faults",
            async || said_of_the_file(page).await,
            |said| said.contains("Line 2") && said.contains("Line 3"),
        )
        .await?;
        page.says(&side.figures()?).await
    });
}

#[test]
fn the_board_comes_back_from_its_own_file() {
    visit(Screen::Phone, async |page| {
        let side = Side {
            board: &[("ribeye-steak", "61.37")],
            ..Side::default()
        };
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        page.go_to(Place::Prices).await?;
        let file = page.handed_out("save-board").await?;
        ensure!(file.contains("61.37"), "{file}");
        take_in(page, &file).await?;
        page.wait(
            "word that nothing would change",
            async || said_of_the_file(page).await,
            |said| said.contains("has the prices that are on the board now"),
        )
        .await?;
        Ok(())
    });
}

#[test]
fn a_board_in_another_currency_says_so_before_it_is_taken_in() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.go_to(Place::Prices).await?;
        let file = page.handed_out("save-board").await?;
        ensure!(file.contains("price_per_kg (USD)"), "{file}");
        take_in(page, "product,price_per_kg (EUR)\nribeye-steak,75.25\n").await?;
        page.wait(
            "a word on the currency",
            async || said_of_the_file(page).await,
            |said| {
                said.contains("in EUR, yours are in USD: nothing is converted")
                    && said.contains("changes 1 price")
            },
        )
        .await
        .map(drop)
    });
}

#[test]
fn files_for_spreadsheets_are_marked_as_utf_8() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.go_to(Place::Prices).await?;
        page.handed_out("save-sheet").await?;
        page.run(
            "const make = URL.createObjectURL;
                 URL.createObjectURL = (blob) => {
                     blob.arrayBuffer().then((bytes) => {
                         window.firstBytes = [...new Uint8Array(bytes).slice(0, 4)];
                     });
                     return make.call(URL, blob);
                 };
                 document.getElementById('save-sheet').click()",
            json!([]),
        )
        .await?;
        page.wait(
            "the bytes of the file",
            async || {
                page.run("return window.firstBytes ?? null", json!([]))
                    .await
            },
            // And the first letter of “cut”.
            |bytes| *bytes == json!([0xef, 0xbb, 0xbf, 0x63]),
        )
        .await
        .map(drop)
    });
}

#[test]
fn the_cost_sheet_is_handed_out_as_a_file() {
    visit(Screen::Phone, async |page| {
        let side = Side::default();
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        page.go_to(Place::Prices).await?;
        let file = page.handed_out("save-sheet").await?;
        let catalogue = carcass::Catalogue::published()?;
        let plan = side.document().resolve(&catalogue)?;
        let sheet = pricing::price_side(&catalogue, &plan.deal, &plan.plan, &plan.shop)?;
        let terms = pricing::sheet_file::Terms {
            board: &plan.shop.board,
            stock: plan.deal.stock,
            mass: quantity::MassUnit::Kilogram,
            price: quantity::PriceUnit::PerKilogram,
            currency: "USD".parse().ok(),
        };
        let expected = pricing::sheet_file::write_sheet(&catalogue, &sheet, &terms);
        ensure!(file == expected, "{file}");
        Ok(())
    });
}
