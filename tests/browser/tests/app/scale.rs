//! Weighing a side at the block, on a phone: what was weighed stays, what is missing is named, and
//! what it gave counts from then on.

use anyhow::{Result, ensure};
use browser_tests::{Page, Place, Screen, Side, visit};
use serde_json::json;
use thirtyfour::{By, Key};

/// A line of the weigh-in: the id of its field and what is planned, as it is written.
#[derive(Debug)]
struct Line {
    field: String,
    planned: String,
}

/// Opens the scale and begins to weigh the side on the screen.
async fn begin(page: &Page) -> Result<()> {
    page.enter(&Side::default()).await?;
    page.go_to(Place::Scale).await?;
    page.reads(".in-view", |text| text.contains("on the block"))
        .await?;
    press(page, "Begin the weigh-in").await?;
    page.reads(".balance", |text| text.contains("Not yet accounted for"))
        .await
        .map(drop)
}

/// Presses a button of the scale's place by its name.
async fn press(page: &Page, name: &str) -> Result<()> {
    page.tap(By::XPath(format!(
        "//div[@class='scale']//button[.='{name}' or @aria-label='{name}']"
    )))
    .await
}

/// Every line that is not folded away.
async fn lines(page: &Page) -> Result<Vec<Line>> {
    let lines = page
        .run(
            "return [...document.querySelectorAll('.weighed > li > form')]
                 .filter((form) => form.checkVisibility())
                 .map((form) => [form.querySelector('input').id,
                                 form.querySelector('small').textContent])",
            json!([]),
        )
        .await?;
    let lines: Vec<(String, String)> = serde_json::from_value(lines)?;
    let number = |text: &str| text.split(' ').nth(1).unwrap_or_default().to_owned();
    Ok(lines
        .into_iter()
        .map(|(field, planned)| Line {
            planned: number(&planned),
            field,
        })
        .collect())
}

/// Types what the scale shows and presses the enter key; waits until it is taken down.
async fn weigh(page: &Page, field: &str, weight: &str) -> Result<()> {
    page.type_over(field, weight).await?;
    let input = page.element(By::Id(field)).await?;
    input.send_keys(Key::Enter + "").await?;
    page.holds(field, "").await?;
    // The next tray of the same cut is typed straight on.
    let focus = page.focus().await?;
    ensure!(focus.contains(field), "{focus} has the focus");
    Ok(())
}

/// Weighs every line as planned, but for those that are told otherwise.
async fn weigh_all(page: &Page, other: impl Fn(&Line) -> String) -> Result<()> {
    for line in lines(page).await? {
        weigh(page, &line.field, &other(&line)).await?;
    }
    Ok(())
}

async fn place_reads(page: &Page, part: &str) -> Result<String> {
    page.reads(".scale", |text| text.contains(part)).await
}

#[test]
fn a_side_that_was_weighed_counts_in_every_answer() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        page.tap(By::XPath("//summary[.='Tag of the side']"))
            .await?;
        page.type_over("scale-tag-lot", "B-204").await?;
        page.type_over("scale-tag-supplier", "Invented Farm")
            .await?;
        // A third of the heaviest cut is not there: it went into the trim.
        let all = lines(page).await?;
        ensure!(all.len() > 30, "{} lines", all.len());
        let kilograms = |line: &Line| line.planned.parse::<f64>().unwrap_or_default();
        weigh_all(page, |line| {
            if line.field.contains("ribeye") {
                format!("{:.2}", kilograms(line) * 0.7)
            } else {
                line.planned.clone()
            }
        })
        .await?;
        let before = page.text("margin").await?;
        // Some of it is more than the balance may be off.
        page.tap(By::XPath(
            "//button[starts-with(., 'Accept') and contains(., 'unexplained')]",
        ))
        .await?;
        place_reads(page, "Planned against actual").await?;
        place_reads(page, "B-204").await?;
        place_reads(page, "than planned").await?;
        page.shows_what("margin", |margin| Some(margin.to_owned()) != before)
            .await?;
        let learnt = page.text("margin").await?;
        page.go_to(Place::Cuts).await?;
        page.reads("#place-cuts", |text| text.contains("your own yields"))
            .await?;
        page.go_to(Place::Prices).await?;
        page.reads(".totals", |text| text.contains("your own for"))
            .await?;
        // The same tomorrow.
        page.reload().await?;
        page.shows("margin", &learnt.unwrap_or_default()).await?;
        page.go_to(Place::Scale).await?;
        place_reads(page, "Invented Farm").await?;
        // Left out, the published yields stand again.
        press(page, "← All cutting tests").await?;
        page.reads(".tests", |text| text.contains("B-204")).await?;
        press(page, "Leave out of own yields").await?;
        page.shows("margin", &before.unwrap_or_default()).await
    });
}

#[test]
fn a_weigh_in_is_there_after_every_reload_with_what_is_half_typed() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        let all = lines(page).await?;
        let first = &all[0].field;
        weigh(page, first, "1.25").await?;
        page.reload().await?;
        page.go_to(Place::Scale).await?;
        page.reads(".is-weighed", |text| text.contains("1.25 kg, weighed once"))
            .await?;
        weigh(page, first, "0,75").await?;
        page.type_over(&all[1].field, "3.").await?;
        page.reload().await?;
        page.go_to(Place::Scale).await?;
        page.reads(".is-weighed", |text| {
            text.contains("2.00 kg in 2 weighings")
        })
        .await?;
        page.holds(&all[1].field, "3.").await?;
        press(page, "Take the last weighing back").await?;
        page.reads(".is-weighed", |text| text.contains("1.25 kg, weighed once"))
            .await
            .map(drop)
    });
}

#[test]
fn what_no_scale_shows_is_named_at_its_field() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        let first = lines(page).await?.swap_remove(0).field;
        for (typed, why) in [("heavy", "✕"), ("99999999999", "✕"), ("", "✕")] {
            page.type_over(&first, typed).await?;
            let input = page.element(By::Id(first.as_str())).await?;
            input.send_keys(Key::Enter + "").await?;
            page.wait(
                "the field to be marked",
                async || page.is_marked_bad(&first).await,
                |is_bad| *is_bad,
            )
            .await?;
            place_reads(page, why).await?;
            page.holds(&first, typed).await?;
        }
        page.type_over("scale-scale-tare", "2").await?;
        page.type_over(&first, "1.5").await?;
        let input = page.element(By::Id(first.as_str())).await?;
        input.send_keys(Key::Enter + "").await?;
        place_reads(page, "The tare is more than the weight").await?;
        weigh(page, &first, "3.5").await?;
        page.reads(".is-weighed", |text| text.contains("1.50 kg"))
            .await
            .map(drop)
    });
}

#[test]
fn a_tray_in_the_wrong_unit_is_found_and_put_right() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        let all = lines(page).await?;
        let kilograms = |line: &Line| line.planned.parse::<f64>().unwrap_or_default();
        let heaviest = all
            .iter()
            .max_by(|one, other| kilograms(one).total_cmp(&kilograms(other)))
            .map(|line| line.field.clone())
            .unwrap_or_default();
        weigh_all(page, |line| {
            if line.field == heaviest {
                format!("{:.2}", kilograms(line) / 0.453_592_37)
            } else {
                line.planned.clone()
            }
        })
        .await?;
        place_reads(page, "typed in kg and the scale showed lb?").await?;
        press(page, "It was lb").await?;
        place_reads(page, "within 1.0 %").await?;
        press(page, "Close the side").await?;
        place_reads(page, "Planned against actual").await.map(drop)
    });
}

#[test]
fn a_weighing_in_one_tab_shows_in_the_other() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        let first = lines(page).await?.swap_remove(0).field;
        let one = page.tab().await?;
        let other = page.open_in_new_tab().await?;
        page.look_at(&other).await?;
        page.go_to(Place::Scale).await?;
        page.reads(".balance", |text| text.contains("Not yet"))
            .await?;
        page.look_at(&one).await?;
        weigh(page, &first, "1.25").await?;
        page.look_at(&other).await?;
        page.reads(".is-weighed", |text| text.contains("1.25 kg"))
            .await
            .map(drop)
    });
}

#[test]
fn a_full_storage_is_said_and_the_weigh_in_goes_on() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        let first = lines(page).await?.swap_remove(0).field;
        page.run(
            "Storage.prototype.setItem = () => { throw new DOMException('', 'QuotaExceededError'); }",
            json!([]),
        )
        .await?;
        weigh(page, &first, "1.25").await?;
        page.reads(".scale [role=alert]", |text| {
            text.contains("storage is full")
        })
        .await?;
        page.reads(".is-weighed", |text| text.contains("1.25 kg"))
            .await
            .map(drop)
    });
}

#[test]
fn one_side_waits_while_another_lies_on_the_block() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        let line = lines(page).await?.remove(0);
        weigh(page, &line.field, "4").await?;
        page.tap(By::XPath(
            "//div[@class='scale']//summary[.='Tag of the side']",
        ))
        .await?;
        page.type_over("scale-tag-lot", "L-1").await?;
        press(page, "Put this side by and take another").await?;
        place_reads(page, "L-1").await?;
        press(page, "Begin the weigh-in").await?;
        page.reads(".balance", |text| text.contains("0.00 kg of"))
            .await?;
        page.holds("scale-tag-lot", "").await?;
        weigh(page, &line.field, "5").await?;
        press(page, "Go on with this side").await?;
        page.reads(".balance", |text| text.contains("4.00 kg of"))
            .await?;
        page.holds("scale-tag-lot", "L-1").await?;
        place_reads(page, "Side without a number").await?;
        page.reload().await?;
        page.go_to(Place::Scale).await?;
        page.reads(".balance", |text| text.contains("4.00 kg of"))
            .await?;
        place_reads(page, "5.00 kg weighed so far.").await.map(drop)
    });
}

#[test]
fn a_side_that_is_closed_when_the_storage_is_full_is_not_lost() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        let first = lines(page).await?.swap_remove(0).field;
        weigh(page, &first, "1.25").await?;
        page.tap(By::XPath("//summary[.='Tag of the side']"))
            .await?;
        page.type_over("scale-tag-lot", "B-204").await?;
        page.run(
            "const setItem = Storage.prototype.setItem;
             Storage.prototype.setItem = function (key, text) {
                 if (key.startsWith('sideworth/scale/test.')) {
                     throw new DOMException('', 'QuotaExceededError');
                 }
                 setItem.call(this, key, text);
             };",
            json!([]),
        )
        .await?;
        let accept = "//button[starts-with(., 'Accept') and contains(., 'unexplained')]";
        page.tap(By::XPath(accept)).await?;
        place_reads(page, "Planned against actual").await?;
        place_reads(page, "storage is full").await?;
        // It is still at the block with all that was typed of it.
        page.reload().await?;
        page.go_to(Place::Scale).await?;
        page.reads(".is-weighed", |text| text.contains("1.25 kg, weighed once"))
            .await?;
        page.holds("scale-tag-lot", "B-204").await?;
        // There is room again.
        page.tap(By::XPath(accept)).await?;
        place_reads(page, "Planned against actual").await?;
        page.reload().await?;
        page.go_to(Place::Scale).await?;
        place_reads(page, "B-204").await.map(drop)
    });
}

#[test]
fn a_button_tapped_twice_takes_a_weighing_once() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        let first = lines(page).await?.swap_remove(0).field;
        page.type_over(&first, "1.25").await?;
        page.run(
            "const add = document.getElementById(arguments[0]).form.querySelector('button');
             add.click();
             add.click();",
            json!([first]),
        )
        .await?;
        page.reads(".is-weighed", |text| text.contains("1.25 kg, weighed once"))
            .await?;
        // The same once more is another tray.
        weigh(page, &first, "1.25").await?;
        page.reads(".is-weighed", |text| {
            text.contains("2.50 kg in 2 weighings")
        })
        .await
        .map(drop)
    });
}

#[test]
fn what_one_tab_deletes_is_gone_in_the_other_with_what_stood_in_its_fields() {
    visit(Screen::Phone, async |page| {
        begin(page).await?;
        page.tap(By::XPath("//summary[.='Tag of the side']"))
            .await?;
        page.type_over("scale-tag-supplier", "Invented Farm")
            .await?;
        let one = page.tab().await?;
        let other = page.open_in_new_tab().await?;
        page.look_at(&other).await?;
        page.go_to(Place::Scale).await?;
        for button in ["Record", "Files and storage", "Delete everything kept here"] {
            place_reads(page, button).await?;
            press(page, button).await?;
        }
        page.reads(".sure", |text| text.contains("cannot be undone"))
            .await?;
        press(page, "Delete everything kept here").await?;
        place_reads(page, "0.00 MB of").await?;
        page.look_at(&one).await?;
        place_reads(page, "Begin the weigh-in").await?;
        press(page, "Begin the weigh-in").await?;
        page.reads(".balance", |text| text.contains("0.00 kg of"))
            .await?;
        page.holds("scale-tag-supplier", "").await
    });
}
