//! What a person has asked of every page: less motion, colours of their own.

use std::fs;

use anyhow::{Result, ensure};
use browser_tests::{Feature, Page, Place, Screen, needs, pictures, visit};
use serde_json::{Value, json};
use thirtyfour::{By, Key};

use crate::every_place::{fill, open_up};
use crate::scale_views::{VIEWS, go_to, in_a_shop};

/// Every element that takes longer than a hundredth of a second to become what it is to be, or
/// scrolls in its own time.
const MOVING: &str = "
    const seconds = (times) => times.split(', ').map(parseFloat).filter((time) => time > 0.01);
    const moving = [];
    for (const element of document.querySelectorAll('*')) {
        for (const part of [null, '::before', '::after']) {
            const style = getComputedStyle(element, part);
            if (seconds(style.transitionDuration).length + seconds(style.animationDuration).length > 0
                || style.scrollBehavior === 'smooth') {
                moving.push(`${element.outerHTML.slice(0, 80)} ${part ?? ''}`);
            }
        }
    }
    return { moving, running: document.getAnimations().length };";

#[test]
fn nothing_moves_where_less_motion_is_asked_for() {
    if !needs(&[Feature::Media]) {
        return;
    }
    visit(Screen::Phone, async |page| {
        fill(page).await?;
        page.media(&[("prefers-reduced-motion", "no-preference")])
            .await?;
        let usual = page.run(MOVING, json!([])).await?;
        ensure!(
            usual["moving"]
                .as_array()
                .is_some_and(|all| !all.is_empty()),
            "Nothing moves at any time: the test shows nothing."
        );
        page.media(&[("prefers-reduced-motion", "reduce")]).await?;
        for place in Place::ALL {
            open_up(page, place).await?;
            let seen = page.run(MOVING, json!([])).await?;
            ensure!(
                seen == json!({ "moving": [], "running": 0 }),
                "{place:?}: {seen:#}"
            );
        }
        // As it is folded up, and no later.
        page.go_to(Place::Side).await?;
        page.tap(By::Css("#place-side summary")).await?;
        let seen = page.run(MOVING, json!([])).await?;
        ensure!(seen["running"] == 0, "{seen}");
        Ok(())
    });
}

/// What the scripts below measure with: how far two colours stand apart (WCAG 2.2, contrast ratio),
/// and what a part is painted on.
const MEASURE: &str = "
    const numbers = (colour) => colour.match(/[\\d.]+/g).map(Number);
    const isClear = (colour) => colour === 'none' || numbers(colour)[3] === 0;
    const light = (colour) => {
        const [red, green, blue] = numbers(colour)
            .map((part) => part / 255)
            .map((part) => part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4);
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    };
    const apart = (one, other) => {
        const [dark, bright] = [light(one), light(other)].sort((a, b) => a - b);
        return (bright + 0.05) / (dark + 0.05);
    };
    const ground = (part) => {
        for (let around = part; around !== null; around = around.parentElement) {
            const { backgroundColor } = getComputedStyle(around);
            if (!isClear(backgroundColor)) return backgroundColor;
        }
        return getComputedStyle(document.documentElement).backgroundColor;
    };";

async fn measured(page: &Page, script: &str, arguments: Value) -> Result<Value> {
    page.run(&format!("{MEASURE}{script}"), arguments).await
}

/// How what is chosen among several is told from the others: by a rim or a ground that stands out.
async fn is_told_apart(page: &Page, chosen: &str, others: &str) -> Result<()> {
    let seen = measured(
        page,
        "const looks = (selector) => {
             const part = [...document.querySelectorAll(selector)].find((part) => part.checkVisibility());
             if (part === undefined) return null;
             const { borderTopColor, borderTopWidth, borderTopStyle } = getComputedStyle(part);
             const rim = borderTopStyle === 'none' || isClear(borderTopColor) ? 0 : parseFloat(borderTopWidth);
             const outside = ground(part.parentElement);
             return {
                 // A rim that nobody sees is none.
                 rim: rim > 0 && apart(borderTopColor, outside) < 3 ? 0 : rim,
                 stands: apart(ground(part), outside) >= 3,
                 colour: borderTopColor,
             };
         };
         return [...arguments].map(looks)",
        json!([chosen, others]),
    )
    .await?;
    let [one, other] = [&seen[0], &seen[1]];
    ensure!(
        !one.is_null() && !other.is_null(),
        "{chosen}, {others}: {seen}"
    );
    let is_heavier = one["rim"].as_f64() >= other["rim"].as_f64().map(|rim| rim + 1.0);
    ensure!(
        is_heavier || one["stands"] == true && other["stands"] == false,
        "{chosen} looks as {others} do: {seen}"
    );
    Ok(())
}

/// The shapes of every picture in sight that cannot be told from what they are painted on.
async fn faint_shapes(page: &Page) -> Result<()> {
    let seen = measured(
        page,
        "const shapes = [...document.querySelectorAll('svg:not(.code svg) :is(rect, path, line, circle, polygon)')]
             .filter((shape) => shape.checkVisibility());
         const colours = (shape) => {
             const { fill, stroke } = getComputedStyle(shape);
             return [shape.tagName === 'line' ? 'none' : fill, stroke].filter((colour) => !isClear(colour));
         };
         return {
             count: shapes.length,
             faint: shapes
                 .filter((shape) => !colours(shape)
                     .some((colour) => apart(colour, ground(shape.closest('svg'))) >= 3))
                 .map((shape) => `${shape.closest('svg').outerHTML.slice(0, 100)}: ${shape.outerHTML}: `
                     + `${colours(shape)} on ${ground(shape.closest('svg'))}`),
         }",
        json!([]),
    )
    .await?;
    ensure!(seen["faint"] == json!([]), "{seen:#}");
    Ok(())
}

/// What has the focus must have a rim around it, or around the box that it stands in.
async fn focus_is_seen(page: &Page) -> Result<()> {
    let seen = measured(
        page,
        "const focused = document.activeElement;
         const rims = [focused, focused.closest('.box')].filter((part) => part !== null)
             .map((part) => [getComputedStyle(part), ground(part.parentElement)])
             .filter(([{ outlineStyle, outlineWidth, outlineColor }, outside]) =>
                 outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2
                     && apart(outlineColor, outside) >= 3);
         return rims.length > 0 ? null : focused.outerHTML.slice(0, 200)",
        json!([]),
    )
    .await?;
    ensure!(seen.is_null(), "no rim around {seen}");
    Ok(())
}

/// Keeps what is on the screen for a person to look at.
async fn keep_picture(page: &Page, place: Place, scheme: &str) -> Result<()> {
    fs::create_dir_all(pictures())?;
    let file = format!("forced-{scheme}-{}.png", place.id());
    Ok(fs::write(pictures().join(file), page.picture().await?)?)
}

#[test]
fn everything_is_told_apart_in_colours_of_ones_own() {
    if !needs(&[Feature::Media, Feature::ExactScreen]) {
        return;
    }
    for scheme in ["light", "dark"] {
        visit(Screen::Phone, async |page| {
            fill(page).await?;
            page.media(&[
                ("forced-colors", "active"),
                ("prefers-color-scheme", scheme),
            ])
            .await?;
            let is_forced = page
                .run(
                    "return matchMedia('(forced-colors: active)').matches",
                    json!([]),
                )
                .await?;
            ensure!(is_forced == true, "the colours are the app's own");
            for place in Place::ALL {
                open_up(page, place).await?;
                keep_picture(page, place, scheme).await?;
                is_told_apart(
                    page,
                    ".ways [aria-current]",
                    ".ways button:not([aria-current])",
                )
                .await?;
                faint_shapes(page).await?;
            }
            page.go_to(Place::Side).await?;
            is_told_apart(page, ".end[aria-pressed=true]", ".end[aria-pressed=false]").await?;
            is_told_apart(page, ".has-fault .box", ".field:not(.has-fault) .box").await?;
            let fault = page.texts("#target-margin-note .fault").await?;
            ensure!(fault.starts_with('✕'), "{fault}");
            page.run("document.querySelector('#side-weight').focus()", json!([]))
                .await?;
            for _ in 0..12 {
                focus_is_seen(page).await?;
                page.press(Key::Tab + "").await?;
            }
            Ok(())
        });
    }
}

#[test]
fn the_scale_is_told_apart_in_colours_of_ones_own() {
    if !needs(&[Feature::Media, Feature::ExactScreen]) {
        return;
    }
    visit(Screen::Phone, async |page| {
        in_a_shop(page).await?;
        for view in VIEWS {
            go_to(page, view).await?;
            for scheme in ["light", "dark"] {
                page.media(&[
                    ("forced-colors", "active"),
                    ("prefers-color-scheme", scheme),
                ])
                .await?;
                is_told_apart(page, ".views .is-open", ".views button:not(.is-open)").await?;
                faint_shapes(page).await?;
            }
        }
        Ok(())
    });
}
