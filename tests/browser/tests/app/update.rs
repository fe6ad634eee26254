//! A new version comes whole, when it is asked for, and loses nothing.

use std::fs;
use std::path::PathBuf;

use anyhow::{Context, Result, ensure};
use browser_tests::{Failure, Feature, Page, Screen, Side, Visit, dist, needs, visit};
use serde_json::json;
use thirtyfour::By;

use crate::looks::keep_pictures;

const READY: &str = "A new version is ready.";

/// The app as the next release may be: every text of it that a page loads says so.
struct NextBuild {
    folder: PathBuf,
    mark: String,
}

/// What the texts of the next build end with: a comment in both languages.
const NEXT: &str = "\n/* the next build */";

/// Texts of the app: one that every page loads at once, one that is loaded when it is needed.
const TEXTS: [&str; 3] = ["style.css", "boot.js", "reckoner-boot.js"];

impl NextBuild {
    fn make(test: &str) -> Result<Self> {
        let folder =
            std::env::temp_dir().join(format!("sideworth-next-{test}-{}", std::process::id()));
        for name in xtask::files_below(&dist())? {
            let copy = folder.join(&name);
            fs::create_dir_all(copy.parent().context("a file has a folder")?)?;
            fs::copy(dist().join(&name), &copy)?;
            if TEXTS.contains(&name.as_str()) {
                fs::write(&copy, fs::read_to_string(&copy)? + NEXT)?;
            }
        }
        let mark = xtask::offline_files::write(&folder)?;
        Ok(Self { folder, mark })
    }
}

impl Drop for NextBuild {
    fn drop(&mut self) {
        // What is left in the folder for temporary files does no harm.
        let _ = fs::remove_dir_all(&self.folder);
    }
}

/// Whether the page and all it is given are of one build, and whether that is the next.
async fn is_of_next(page: &Page, next: &NextBuild) -> Result<bool> {
    let is_next = page.build().await? == next.mark;
    let texts = page
        .run_until_done(
            "const [files, done] = arguments;
             Promise.all(files.map((file) => fetch(file).then((answer) => answer.text()))).then(done)",
            json!([TEXTS]),
        )
        .await?;
    let texts: Vec<String> = serde_json::from_value(texts)?;
    for (file, text) in TEXTS.iter().zip(texts) {
        ensure!(text.len() > 50, "{file} is empty");
        ensure!(
            text.ends_with(NEXT) == is_next,
            "{file} is of another build than the page"
        );
    }
    Ok(is_next)
}

async fn take(page: &Page, next: &NextBuild) -> Result<()> {
    page.tap(By::Id("take-update")).await?;
    becomes(page, next).await
}

/// Waits until the page is of the next build.
async fn becomes(page: &Page, next: &NextBuild) -> Result<()> {
    page.wait(
        "the new version",
        // While it is reloaded it has no mark.
        async || Ok(page.build().await.unwrap_or_default()),
        |build| *build == next.mark,
    )
    .await?;
    page.until_up().await?;
    page.until_kept().await
}

#[test]
fn a_new_version_waits_until_it_is_asked_for_and_comes_whole() {
    visit(Screen::Phone, async |page| {
        let next = NextBuild::make("asked-for")?;
        page.until_kept().await?;
        let side = Side::default();
        page.enter(&side).await?;
        page.server().show(&next.folder);

        page.reload().await?;
        page.news(READY).await?;
        ensure!(!is_of_next(page, &next).await?, "it did not wait");
        page.reload().await?;
        page.news(READY).await?;
        keep_pictures(page, "update").await?;
        ensure!(!is_of_next(page, &next).await?, "it did not wait");
        page.tap(By::XPath("//div[@class='offline']//button[.='Later']"))
            .await?;
        page.wait(
            "the message to go",
            async || {
                page.run("return document.querySelector('.offline p')", json!([]))
                    .await
            },
            serde_json::Value::is_null,
        )
        .await?;
        page.reload().await?;
        page.news(READY).await?;

        page.type_over("side-weight", "about 201").await?;
        page.type_over("side-price", "8,75").await?;
        take(page, &next).await?;
        ensure!(is_of_next(page, &next).await?, "it did not come");
        page.holds("side-weight", "about 201").await?;
        page.holds("side-price", "8,75").await?;
        page.holds("labour-rate", side.labour_rate).await?;

        // The old build is gone, and the new one needs no server.
        let stores = page
            .run_until_done("caches.keys().then(arguments[0])", json!([]))
            .await?;
        ensure!(
            stores == json!([format!("sideworth {} {}", page.server().app(), next.mark)]),
            "{stores}"
        );
        page.server().stop();
        page.reload().await?;
        ensure!(is_of_next(page, &next).await?, "it is lost again");
        page.holds("side-price", "8,75").await
    });
}

#[test]
fn a_new_version_comes_by_itself_once_the_last_page_is_closed() {
    visit(Screen::Phone, async |page| {
        let next = NextBuild::make("by-itself")?;
        page.until_kept().await?;
        page.server().show(&next.folder);
        page.reload().await?;
        page.news(READY).await?;
        page.wait_for_background(
            "the new version",
            async || {
                page.leave().await?;
                page.open().await?;
                is_of_next(page, &next).await
            },
            |is_next| *is_next,
        )
        .await
        .map(drop)
    });
}

/// Opens the page once more and waits until the browser has given up on a new version one file of
/// which does not arrive.
async fn gives_up(page: &Page, file: &str) -> Result<()> {
    let tries = || {
        page.asked()
            .iter()
            .filter(|address| address.ends_with(file))
            .count()
    };
    let before = tries();
    page.reload().await?;
    page.wait_for_background(
        "the browser to try and to give up",
        async || {
            let workers = page
                .run_until_done(
                    "const done = arguments[0];
                     navigator.serviceWorker.getRegistration().then((registration) => done(
                         ['installing', 'waiting', 'active'].filter((way) => registration[way])))",
                    json!([]),
                )
                .await?;
            Ok((tries(), workers))
        },
        |(tries, workers)| *tries > before && *workers == json!(["active"]),
    )
    .await
    .map(drop)
}

#[test]
fn a_new_version_that_fails_to_arrive_leaves_the_old_one_working() {
    visit(Screen::Phone, async |page| {
        let next = NextBuild::make("fails")?;
        page.until_kept().await?;
        let side = Side::default();
        page.enter(&side).await?;
        page.server().show(&next.folder);
        for (file, failure) in [
            ("sideworth_bg.wasm", Failure::Refused),
            ("sideworth_bg.wasm", Failure::CutShort),
            ("style.css", Failure::CutShort),
            ("reckoner_bg.wasm", Failure::Refused),
        ] {
            page.server().fail(file, failure);
            gives_up(page, file).await?;
            let said = page
                .run(
                    "return document.querySelector('.offline').innerText",
                    json!([]),
                )
                .await?;
            ensure!(said == "", "{file}, {failure:?}: {said}");
            ensure!(!is_of_next(page, &next).await?, "{file}, {failure:?}");
            page.server().be_out_of_order();
            page.reload().await?;
            page.says(&side.figures()?).await?;
            ensure!(!is_of_next(page, &next).await?, "{file}, {failure:?}");
            page.server().mend();
        }
        page.reload().await?;
        page.news(READY).await?;
        take(page, &next).await?;
        ensure!(is_of_next(page, &next).await?, "it did not come");
        page.says(&side.figures()?).await
    });
}

#[test]
fn no_tab_goes_on_with_the_old_version_and_each_keeps_what_was_typed_in_it() {
    visit(Screen::Phone, async |page| {
        let next = NextBuild::make("tabs")?;
        page.until_kept().await?;
        page.enter(&Side::default()).await?;
        page.type_over("side-weight", "203").await?;
        page.server().show(&next.folder);
        let first = page.tab().await?;
        let second = page.open_in_new_tab().await?;
        page.news(READY).await?;
        page.type_over("side-weight", "204").await?;

        page.look_at(&first).await?;
        page.news(READY).await?;
        take(page, &next).await?;
        page.holds("side-weight", "203").await?;
        ensure!(is_of_next(page, &next).await?, "the first tab is behind");
        page.look_at(&second).await?;
        becomes(page, &next).await?;
        page.holds("side-weight", "204").await?;
        ensure!(is_of_next(page, &next).await?, "the second tab is behind");
        Ok(())
    });
}

/// A browser whose storage for all tabs fills up (HTML Standard, 12.2.1) once a text holds the
/// word.
const FILLS_UP: &str = "const set = Storage.prototype.setItem;
Storage.prototype.setItem = function (key, text) {
    if (this === localStorage && text.includes('brimful')) {
        throw new DOMException('The quota has been exceeded.', 'QuotaExceededError');
    }
    set.call(this, key, text);
};";

#[test]
fn what_the_storage_had_no_room_for_comes_along() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    Visit {
        screen: Screen::Phone,
        before: Some(FILLS_UP),
    }
    .and(async |page| {
        let next = NextBuild::make("full")?;
        page.until_kept().await?;
        page.server().show(&next.folder);
        page.reload().await?;
        page.news(READY).await?;
        page.type_over("side-weight", "brimful").await?;
        take(page, &next).await?;
        page.holds("side-weight", "brimful").await
    });
}
