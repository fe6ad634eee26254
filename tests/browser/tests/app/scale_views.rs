//! Every view of the scale's place, in a shop that has cut some sides: for every eye and thumb, in
//! every language, and from a tray of mince back to its side.

use anyhow::{Context, Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, Side, closed_sides, needs, visit};
use carcass::NamesIn;
use serde_json::json;
use thirtyfour::{By, Key};
use wording::Language;

use crate::accessible::{axe, findings};
use crate::every_place::unfold;
use crate::languages::{english_only, said, speak};
use crate::layout::{beyond_the_edge, has_room};

/// The views with what the address of each is among what the page keeps.
pub(crate) const VIEWS: [&str; 9] = [
    "view=weigh-in",
    "view=tests",
    "view=yields&open.part=strip-loin",
    "view=standing",
    "view=record&record.part=sides&record.codes=1",
    "view=record&record.part=grinding",
    "view=record&record.part=trace&trace.shown=L0",
    "view=record&record.part=kept",
    "view=bought&at.bought.weight=10&at.bought.price=12&at.bought.usable=7&at.bought.portion=250",
];

/// Goes to the place, where a wide screen waits to be asked for what is in it.
async fn go_to_scale(page: &Page) -> Result<()> {
    page.go_to(Place::Scale).await?;
    if !page.screen().is_touched() {
        page.tap(By::Css(".scale > .offer")).await?;
    }
    Ok(())
}

/// Opens the app in a shop that has cut ten sides and has one at the block.
pub(crate) async fn in_a_shop(page: &Page) -> Result<()> {
    page.enter(&Side::default()).await?;
    page.run(
        "arguments[0].forEach((test, index) => {
             localStorage.setItem(`sideworth/scale/test.${index + 1}`, test);
         })",
        json!([closed_sides(10)?]),
    )
    .await?;
    page.reload().await?;
    go_to_scale(page).await?;
    page.reads(".in-view", |text| text.contains("on the block"))
        .await?;
    page.tap(By::XPath("//button[.='Begin the weigh-in']"))
        .await?;
    page.reads(".balance", |text| text.contains("Not yet"))
        .await
        .map(drop)
}

/// Goes to a view by what the page keeps of it.
pub(crate) async fn go_to(page: &Page, view: &str) -> Result<()> {
    page.run(
        "localStorage.setItem('sideworth/scale/typed', arguments[0])",
        json!([view]),
    )
    .await?;
    page.reload().await?;
    go_to_scale(page).await?;
    page.reads(".in-view", |text| !text.is_empty())
        .await
        .map(drop)
}

#[test]
fn axe_finds_nothing_in_any_view() {
    if !needs(&[Feature::Looks, Feature::ExactScreen]) {
        return;
    }
    for screen in [Screen::Narrow, Screen::Wide] {
        visit(screen, async |page| {
            in_a_shop(page).await?;
            let mut all = Vec::new();
            for view in VIEWS {
                go_to(page, view).await?;
                page.run(&axe()?, json!([])).await?;
                unfold(page).await?;
                for scheme in ["light", "dark"] {
                    page.prefer(scheme).await?;
                    // The frame around it is looked at with the other places.
                    for finding in findings(page, "#place-scale").await? {
                        all.push(format!("{view}, {scheme}: {finding}"));
                    }
                }
            }
            ensure!(all.is_empty(), "{}", all.join("\n"));
            Ok(())
        });
    }
}

#[test]
fn every_view_has_room_for_a_thumb_and_keeps_within_the_edge() {
    if !needs(&[Feature::ExactScreen]) {
        return;
    }
    for screen in Screen::ALL {
        visit(screen, async |page| {
            in_a_shop(page).await?;
            for view in VIEWS {
                go_to(page, view).await?;
                unfold(page).await?;
                has_room(page).await.context(view)?;
                beyond_the_edge(page).await.context(view)?;
            }
            Ok(())
        });
    }
}

fn leaves_no_english(language: Language, names_in: NamesIn) {
    visit(Screen::Phone, async |page| {
        in_a_shop(page).await?;
        page.until_kept().await?;
        speak(page, language).await?;
        let english = english_only(language, names_in)?;
        let mut spoken = 0;
        for view in VIEWS {
            page.run(
                "localStorage.setItem('sideworth/scale/typed', arguments[0])",
                json!([view]),
            )
            .await?;
            page.reload().await?;
            page.tap(By::Css("nav button:nth-child(5)")).await?;
            page.reads(".in-view", |text| !text.is_empty()).await?;
            let said = said(page).await?;
            let left: Vec<_> = said.intersection(&english).collect();
            ensure!(left.is_empty(), "{view}: this is still English: {left:#?}");
            let rest = language.rest();
            spoken += rest.lines().filter(|text| said.contains(*text)).count();
        }
        ensure!(spoken > 60, "only {spoken} texts are in the language");
        Ok(())
    });
}

#[test]
fn french_leaves_no_english_in_any_view() {
    leaves_no_english(Language::French, NamesIn::French);
}

#[test]
fn spanish_leaves_no_english_in_any_view() {
    leaves_no_english(Language::Spanish, NamesIn::Spanish);
}

async fn press(page: &Page, name: &str) -> Result<()> {
    page.tap(By::XPath(format!(
        "//div[@class='scale']//button[.='{name}' or @aria-label='{name}']"
    )))
    .await
}

#[test]
fn all_that_is_kept_goes_out_as_a_file_is_deleted_and_comes_back() {
    visit(Screen::Phone, async |page| {
        in_a_shop(page).await?;
        go_to(page, "view=record&record.part=kept").await?;
        unfold(page).await?;
        page.run(
            "const button = [...document.querySelectorAll('.scale button')]
                 .find((button) => button.textContent === 'Save the records as a file');
             button.id = 'save-all';",
            json!([]),
        )
        .await?;
        let file = page.handed_out("save-all").await?;
        ensure!(file.contains("test.10"), "{file}");
        press(page, "Delete everything kept here").await?;
        page.reads(".sure", |text| text.contains("cannot be undone"))
            .await?;
        press(page, "Delete everything kept here").await?;
        let kept =
            "return Object.keys(localStorage).filter((key) => key.includes('/scale/test')).length";
        page.wait(
            "everything to be deleted",
            async || page.run(kept, json!([])).await,
            |count| *count == json!(0),
        )
        .await?;
        unfold(page).await?;
        page.run(
            "const input = document.querySelector('.scale input[type=file]');
             const files = new DataTransfer();
             files.items.add(new File([arguments[0]], 'record.json', { type: 'application/json' }));
             input.files = files.files;
             input.dispatchEvent(new Event('change', { bubbles: true }))",
            json!([file]),
        )
        .await?;
        page.reads(".in-view", |text| {
            text.contains("records of the scale: 10 cutting tests")
        })
        .await?;
        press(page, "Take the records in").await?;
        page.reads(".sure", |text| text.contains("cannot be undone"))
            .await?;
        press(page, "Take the records in").await?;
        page.wait(
            "everything to be back",
            async || page.run(kept, json!([])).await,
            |count| *count == json!(10),
        )
        .await
        .map(drop)
    });
}

#[test]
fn a_tray_of_mince_leads_back_to_its_side_in_two_taps() {
    visit(Screen::Phone, async |page| {
        in_a_shop(page).await?;
        go_to(page, "view=record&record.part=grinding").await?;
        page.choose(By::Id("scale-at-grind-side"), "1").await?;
        // The lots of the side come with its choice; a trim is the first.
        page.reads("#scale-grind-cut", |lots| lots.contains("20260309-L0-"))
            .await?;
        page.type_over("scale-grind-weight", "2.5").await?;
        page.press(Key::Enter + "").await?;
        page.reads(".in-view", |text| text.contains("2.50 kg"))
            .await?;
        page.type_over("scale-grind-by", "Jo").await?;
        page.press(Key::Enter + "").await?;
        page.reads(".batches", |text| text.contains("Jo")).await?;
        page.reload().await?;
        page.go_to(Place::Scale).await?;
        page.reads(".batches", |text| text.contains("Jo")).await?;

        page.tap(By::Css(".batches > li > button")).await?;
        let lot = "//div[@class='scale']//button[starts-with(., '20260309-L0-')]";
        page.reads(".in-view", |text| text.contains("One step back"))
            .await?;
        page.tap(By::XPath(lot)).await?;
        // The cut, and one step behind it its side.
        page.wait(
            "the side",
            async || page.texts(".scale button.lot").await,
            |lots| lots.lines().any(|lot| lot.trim() == "L0"),
        )
        .await
        .map(drop)
    });
}
