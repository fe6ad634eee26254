//! The app speaks the language that is chosen, and writes amounts in the currency that is.

use std::collections::BTreeSet;

use anyhow::{Result, ensure};
use browser_tests::{Feature, Page, Screen, Side, Visit, needs, visit};
use carcass::{Catalogue, NamesIn};
use serde_json::json;
use thirtyfour::By;
use wording::Language;

const SIDE: Side = Side {
    weight: "182.5",
    weight_unit: "kg",
    price: "8.40",
    grass_percent: 0,
    plan: "boneless",
    labour_minutes: Some("150"),
    labour_rate: "34",
    target_margin: "25",
    board: &[],
};

/// Chooses a language at the foot of the page and waits until it is spoken.
pub(crate) async fn speak(page: &Page, language: Language) -> Result<()> {
    page.choose(By::Id("language"), language.primary()).await?;
    page.wait(
        "the page to be in another language",
        async || {
            page.run(
                "return [document.documentElement.lang, document.querySelectorAll('.field').length > 3]",
                json!([]),
            )
            .await
        },
        |seen| *seen == json!([language.tag(), true]),
    )
    .await
    .map(drop)
}

/// Every text on the page, whether in sight or folded away, and every name that only a screen
/// reader says.
pub(crate) async fn said(page: &Page) -> Result<BTreeSet<String>> {
    let all = page
        .run(
            "const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
             const texts = [];
             while (walker.nextNode()) texts.push(walker.currentNode.textContent.trim());
             for (const one of document.querySelectorAll('[aria-label]')) {
                 texts.push(one.getAttribute('aria-label'));
             }
             return texts",
            json!([]),
        )
        .await?;
    Ok(serde_json::from_value(all)?)
}

/// English texts and names that are different in a language: none of them may be left.
pub(crate) fn english_only(language: Language, names_in: NamesIn) -> Result<BTreeSet<String>> {
    let all = |language: Language| [language.page(), language.rest()].concat();
    let (english, other) = (all(Language::English), all(language));
    let catalogue = Catalogue::published()?;
    let names = catalogue.names_in(names_in)?.names;
    let own: BTreeSet<&str> = other.lines().chain(names.lines()).collect();
    let cuts = catalogue
        .products()
        .map(|(_, product)| product.name.clone());
    let parts = catalogue.parts().map(|(_, part)| part.name.clone());
    let ways = catalogue.ways().map(|(_, way)| way.name.clone());
    Ok(english
        .lines()
        .map(|text| text.trim().to_owned())
        .chain(cuts)
        .chain(parts)
        .chain(ways)
        .filter(|text| !text.is_empty() && !own.contains(text.as_str()))
        .collect())
}

async fn opens_everything(page: &Page) -> Result<()> {
    page.run(
        "document.querySelectorAll('details').forEach((one) => one.open = true)",
        json!([]),
    )
    .await?;
    page.wait_for_background(
        "the worker to have told how it is worked out",
        async || {
            page.run(
                "return document.querySelectorAll('#worked-out .formula').length",
                json!([]),
            )
            .await
        },
        |formulas| formulas.as_u64().is_some_and(|formulas| formulas >= 10),
    )
    .await?;
    page.wait_for_background(
        "the best plan",
        async || {
            page.run(
                "return [...document.querySelectorAll('.question .answer')]
                     .filter((one) => one.innerText.trim() !== '').length",
                json!([]),
            )
            .await
        },
        |answers| answers.as_u64().is_some_and(|answers| answers >= 6),
    )
    .await
    .map(drop)
}

fn leaves_no_english(language: Language, names_in: NamesIn) {
    visit(Screen::Wide, async |page| {
        page.enter(&SIDE).await?;
        page.until_kept().await?;
        speak(page, language).await?;
        page.holds("side-weight", SIDE.weight).await?;
        opens_everything(page).await?;
        let english = english_only(language, names_in)?;
        let said = said(page).await?;
        let left: Vec<_> = said.intersection(&english).collect();
        ensure!(left.is_empty(), "This is still English: {left:#?}");
        let own = language.page();
        let spoken = own.lines().filter(|text| said.contains(*text)).count();
        ensure!(spoken > 80, "Only {spoken} texts are in the language.");
        Ok(())
    });
}

#[test]
fn french_leaves_no_english() {
    leaves_no_english(Language::French, NamesIn::French);
}

#[test]
fn spanish_leaves_no_english() {
    leaves_no_english(Language::Spanish, NamesIn::Spanish);
}

#[test]
fn a_language_stays_without_a_server_and_writes_numbers_its_own_way() {
    visit(Screen::Phone, async |page| {
        page.news("Works offline now.").await?;
        page.enter(&SIDE).await?;
        page.until_kept().await?;
        page.server().stop();
        speak(page, Language::French).await?;
        let margin = page
            .shows_what("margin", |margin| {
                margin.contains(',') && margin.ends_with('%')
            })
            .await?;
        ensure!(!margin.contains('.'), "{margin}");
        page.reload().await?;
        let lang = page
            .run("return document.documentElement.lang", json!([]))
            .await?;
        ensure!(lang == json!("fr-CA"), "{lang}");
        // What is typed with a comma is read.
        page.type_over("side-price", "8,60").await?;
        page.shows_what("margin", |now| now != margin).await?;
        ensure!(!page.is_marked_bad("side-price").await?);
        Ok(())
    });
}

#[test]
fn a_currency_is_kept_and_nothing_is_converted() {
    visit(Screen::Phone, async |page| {
        page.enter(&SIDE).await?;
        let in_dollars = page
            .shows_what("walk-away-price", |price| price.contains('$'))
            .await?;
        page.choose(By::Id("currency"), "EUR").await?;
        let in_euro = page
            .shows_what("walk-away-price", |price| price.contains('€'))
            .await?;
        ensure!(
            in_euro.replace('€', "") == in_dollars.replace('$', ""),
            "{in_dollars} became {in_euro}"
        );
        page.until_kept().await?;
        page.reload().await?;
        page.shows_what("walk-away-price", |price| *price == in_euro)
            .await?;
        Ok(())
    });
}

/// A device to which the texts of some languages never come.
fn without(languages: &str) -> String {
    format!(
        "const load = window.fetch;
         window.fetch = (what, ...more) => /texts.({languages})-/.test(what)
             ? Promise.reject(new Error('lost on the way')) : load(what, ...more);"
    )
}

/// Takes note of what the console was told: that something did not come is no fault here.
async fn complains(page: &Page) -> Result<()> {
    if Feature::Console.lacking(page.make()).is_none() {
        page.complaints().await?;
    }
    Ok(())
}

#[test]
fn where_the_texts_of_a_language_do_not_come_it_is_in_english() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    let before = format!(
        "Object.defineProperty(navigator, 'languages', {{ value: ['fr-US', 'en-US'] }}); {}",
        without("fr")
    );
    let visit = Visit {
        screen: Screen::Phone,
        before: Some(&before),
    };
    visit.and(async |page| {
        let lang = page
            .run("return document.documentElement.lang", json!([]))
            .await?;
        ensure!(lang == json!("en"), "{lang}");
        page.enter(&SIDE).await?;
        page.says(&SIDE.figures()?).await?;
        complains(page).await
    });
}

#[test]
fn without_any_texts_it_says_that_it_cannot_start() {
    if !needs(&[Feature::ScriptBeforeLoad]) {
        return;
    }
    visit(Screen::Phone, async |page| {
        page.run_before_load(&without("en|fr|es")).await?;
        page.begin_reload().await?;
        page.shows_what("boot-status", |status| {
            status.starts_with("Sideworth could not start: Error: lost on the way.")
        })
        .await?;
        complains(page).await
    });
}
