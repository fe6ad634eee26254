//! A side handed on as a link: made, read off the screen, looked at, opened.

use anyhow::{Context, Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, Side, Visit, needs, visit};
use serde_json::json;
use thirtyfour::By;

use crate::looks::keep_pictures;

/// Opens what makes a link and waits for it.
pub(crate) async fn link(page: &Page, scope: &str) -> Result<String> {
    page.go_to(Place::Saved).await?;
    page.tap(By::Css("#share > summary")).await?;
    page.choose(By::Id("share-scope"), scope).await?;
    let link = page
        .wait(
            "the link",
            async || {
                // The link of the scope chosen, which the picture beside it has too.
                tokio::time::sleep(std::time::Duration::from_millis(300)).await;
                let made = page
                    .run(
                        "return document.getElementById('share-link')?.value ?? ''",
                        json!([]),
                    )
                    .await?;
                Ok(made.as_str().unwrap_or_default().to_owned())
            },
            |link| link.contains("#s1."),
        )
        .await?;
    Ok(link)
}

/// Goes to what stands behind the `#`, as a tap on a link does.
pub(crate) async fn follow(page: &Page, text: &str) -> Result<()> {
    page.run("location.hash = arguments[0]", json!([text]))
        .await
        .map(drop)
}

pub(crate) fn behind(link: &str) -> Result<&str> {
    Ok(link.split_once('#').context("no #")?.1)
}

#[test]
fn a_side_travels_as_a_link_and_overwrites_nothing() {
    let mut handed_on = String::new();
    let mine = Side {
        weight: "172,5",
        price: "9.15",
        grass_percent: 80,
        plan: "bone-in",
        board: &[("ground-beef", "13.49")],
        ..Side::default()
    };
    visit(Screen::Phone, async |page| {
        page.enter(&mine).await?;
        page.says(&mine.figures()?).await?;
        handed_on = link(page, "3").await?;
        ensure!(handed_on.len() < 600, "{} letters", handed_on.len());
        Ok(())
    });
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        let margin = page.text("margin").await?.unwrap_or_default();
        follow(page, behind(&handed_on)?).await?;
        page.reads("#opened", |text| {
            text.contains("Nothing has been changed.") && text.contains("172,5 kg")
        })
        .await?;
        page.holds("side-weight", Side::default().weight).await?;
        page.shows("margin", &margin).await?;
        keep_pictures(page, "opened").await?;
        page.tap(By::Css("#opened .offer")).await?;
        page.says(&mine.figures()?).await?;
        page.holds("side-weight", "172,5").await?;
        let address = page.run("return location.hash", json!([])).await?;
        ensure!(address == json!(""), "{address}");
        page.tap(By::Id("undo-step")).await?;
        page.holds("side-weight", Side::default().weight).await?;
        page.shows("margin", &margin).await
    });
}

#[test]
fn a_first_visit_by_a_link_shows_it_and_can_leave_it() {
    let mut text = String::new();
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        text = behind(&link(page, "1").await?)?.to_owned();
        Ok(())
    });
    visit(Screen::Phone, async |page| {
        page.open_at(&format!("#{text}")).await?;
        page.reload().await?;
        page.reads("#opened", |said| said.contains("a cut plan and a deal"))
            .await?;
        page.holds("side-weight", "").await?;
        page.tap(By::Id("leave-link")).await?;
        page.reads("#opened", str::is_empty).await?;
        page.reload().await?;
        page.holds("side-weight", "").await
    });
}

#[test]
fn only_the_plan_goes_in_where_only_the_plan_is_chosen() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        let link = link(page, "0").await?;
        page.go_to(Place::Side).await?;
        page.type_over("side-weight", "301").await?;
        page.choose(By::Id("cut-plan"), "bone-in").await?;
        follow(page, behind(&link)?).await?;
        page.reads("#opened .offer", |text| text == "Open it")
            .await?;
        page.tap(By::Css("#opened .offer")).await?;
        page.holds("side-weight", "301").await?;
        page.holds("cut-plan", Side::default().plan).await
    });
}

#[test]
fn links_that_are_cut_off_or_hostile_are_refused_in_a_sentence() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        let whole = behind(&link(page, "3").await?)?.to_owned();
        let cut = &whole[..whole.len() - 7];
        let long = format!("s1.{}", "A".repeat(1_000_000));
        for (text, why) in [
            (cut, "This link is incomplete"),
            ("s1.AAAAAAAAAAAA", "was changed on its way"),
            ("s1.<img src=x onerror=alert(1)>", "was changed on its way"),
            ("s7.AAAA", "made by a newer version"),
            ("constructor", "holds no plan"),
            (&long, "far longer than any plan"),
        ] {
            follow(page, text).await?;
            page.reads("#opened", |said| said.contains(why)).await?;
        }
        page.says(&Side::default().figures()?).await?;
        page.tap(By::Id("leave-link")).await?;
        page.holds("side-weight", Side::default().weight).await
    });
}

#[test]
fn no_link_is_made_of_a_field_that_cannot_be_read() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        link(page, "3").await?;
        page.go_to(Place::Side).await?;
        page.type_over("target-margin", "100").await?;
        page.go_to(Place::Saved).await?;
        page.reads("#share", |said| {
            said.contains("No link can be made of this yet. Target margin: “100” is 100 % or more")
        })
        .await?;
        let link = page
            .run(
                "return document.querySelector('#share-link, #copy-link, #share .code') === null",
                json!([]),
            )
            .await?;
        ensure!(link == json!(true), "a link beside the refusal");
        // The plan alone has nothing wrong with it.
        page.choose(By::Id("share-scope"), "0").await?;
        page.reads("#share", |said| !said.contains("No link can be made"))
            .await
            .map(drop)
    });
}

#[test]
fn a_link_to_what_went_in_before_is_out_of_reach() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    Visit {
        screen: Screen::Phone,
        before: Some(
            "const post = Worker.prototype.postMessage;
             Worker.prototype.postMessage = function (message, ...rest) {
                 if (window.isBusy && String(message).startsWith('share\\n')) return;
                 post.call(this, message, ...rest);
             }",
        ),
    }
    .and(async |page| {
        page.enter(&Side::default()).await?;
        link(page, "3").await?;
        // As a worker that has something else to do answers later.
        page.run("window.isBusy = true", json!([])).await?;
        page.choose(By::Id("share-scope"), "0").await?;
        page.wait(
            "the old link out of reach",
            async || {
                page.run(
                    "return ['share-link', 'copy-link'].some((id) => document.getElementById(id)
                         ?.checkVisibility({ visibilityProperty: true }))",
                    json!([]),
                )
                .await
            },
            |in_reach| *in_reach == json!(false),
        )
        .await
        .map(drop)
    });
}

#[test]
fn a_second_phone_reads_the_code_off_the_screen() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        let link = link(page, "3").await?;
        page.run(
            "document.querySelector('.code').scrollIntoView({ block: 'center' })",
            json!([]),
        )
        .await?;
        keep_pictures(page, "link").await?;
        let picture = image::load_from_memory(&page.picture().await?)?.to_luma8();
        let (width, height) = (picture.width() as usize, picture.height() as usize);
        let mut picture = rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| {
            let at = |place| u32::try_from(place).unwrap_or_default();
            picture.get_pixel(at(x), at(y)).0[0]
        });
        let codes = picture.detect_grids();
        let (_, content) = codes.first().context("no code on the screen")?.decode()?;
        ensure!(content == link, "{content}");
        Ok(())
    });
}

#[test]
fn a_link_is_copied() {
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        link(page, "1").await?;
        page.tap(By::Id("copy-link")).await?;
        page.reads("#share [role=status]", |text| text == "Copied.")
            .await
            .map(drop)
    });
}

#[test]
fn a_link_that_cannot_be_copied_is_marked_for_copying() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    Visit {
        screen: Screen::Phone,
        before: Some(
            "Object.defineProperty(Navigator.prototype, 'clipboard', { get: () => undefined })",
        ),
    }
    .and(async |page| {
        page.enter(&Side::default()).await?;
        let link = link(page, "1").await?;
        page.tap(By::Id("copy-link")).await?;
        page.reads("#share [role=status]", |text| text.contains("copy it"))
            .await?;
        let marked = page
            .run(
                "const { value, selectionStart, selectionEnd } = document.activeElement;
                 return value.slice(selectionStart, selectionEnd)",
                json!([]),
            )
            .await?;
        ensure!(marked == json!(link), "{marked}");
        Ok(())
    });
}

#[test]
fn a_link_in_another_currency_says_so_and_brings_it_along() {
    let mut handed_on = String::new();
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        page.choose(By::Id("currency"), "EUR").await?;
        page.shows_what("walk-away-price", |price| price.contains('€'))
            .await?;
        handed_on = link(page, "3").await?;
        Ok(())
    });
    visit(Screen::Phone, async |page| {
        page.enter(&Side::default()).await?;
        follow(page, behind(&handed_on)?).await?;
        page.reads("#opened", |text| {
            text.contains("are in EUR, yours are in USD") && text.contains("nothing is converted")
        })
        .await?;
        page.shows_what("walk-away-price", |price| price.contains('$'))
            .await?;
        page.tap(By::Css("#opened .offer")).await?;
        page.shows_what("walk-away-price", |price| price.contains('€'))
            .await?;
        let chosen = page.value("currency").await?;
        ensure!(chosen == "EUR", "{chosen}");
        Ok(())
    });
}
