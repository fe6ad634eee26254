//! How long the app takes in a browser, printed as one line of JSON for `cargo xtask measure`.
//!
//! Times are in milliseconds of the page's own clock (W3C High Resolution Time). A frame counts as
//! painted when a message posted from its animation callback arrives, which is after the browser
//! has laid the frame out and painted it.

mod questions;

use std::iter::once;

use anyhow::{Context, Result, ensure};
use browser_tests::{Page, Place, Screen, Side, Visit, closed_sides_of_many_cuts};
use serde_json::{Value, json};
use thirtyfour::{By, Key};

/// How many times slower the machine is made, to stand for a cheap phone.
const SLOWER: u32 = 4;

/// Keystrokes that are timed.
const KEYSTROKES: usize = 150;

/// First visits that are timed, and second ones.
const STARTS: usize = 9;

/// Notes when the form can be used, and when there is a verdict: its parts are there and have been
/// painted.
const NOTE_START: &str = "
    const note = (name, isThere) => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => { window[name] = performance.now(); };
        new MutationObserver((_, observer) => {
            if (isThere()) {
                observer.disconnect();
                requestAnimationFrame(() => channel.port2.postMessage(0));
            }
        }).observe(document, { childList: true, subtree: true });
    };
    note('usable', () => document.getElementById('side-weight')?.disabled === false);
    note('decided', () => document.getElementById('margin')?.textContent.includes('%'));";

/// Notes the time from each key to the painted frame with the answer that it changed.
const NOTE_KEYSTROKES: &str = "
    window.taken = [];
    let pressed = null;
    addEventListener('keydown', (event) => { pressed = event.timeStamp; }, true);
    const channel = new MessageChannel();
    channel.port1.onmessage = (message) => { window.taken.push(performance.now() - message.data); };
    new MutationObserver(() => {
        if (pressed === null) return;
        const since = pressed;
        pressed = null;
        requestAnimationFrame(() => channel.port2.postMessage(since));
    }).observe(document.querySelector('.verdict'),
        { childList: true, subtree: true, characterData: true });";

/// Types prices into the app within one task of the page, in which it works the figures out but has
/// no chance to draw them. Returns the mean time of each batch, from the first on: the browser runs
/// code plainly first and optimises it after some hundreds of calls.
const RECALCULATE: &str = "
    const field = document.getElementById('side-price');
    const batch = (size) => {
        const since = performance.now();
        for (let turn = 1; turn <= size; turn += 1) {
            field.value = (8 + turn / 100).toFixed(2);
            field.dispatchEvent(new InputEvent('input', { bubbles: true }));
        }
        return (performance.now() - since) / size;
    };
    return Array.from({ length: 60 }, () => batch(20));";

/// Closed sides of a shop that has cut for years.
const CLOSED: i64 = 500;

/// Opens the place of the scale and calls back with the time to the painted frame that has the
/// history in it.
const OPEN_HISTORY: &str = "
    const done = arguments[arguments.length - 1];
    const since = performance.now();
    const channel = new MessageChannel();
    channel.port1.onmessage = () => done(performance.now() - since);
    new MutationObserver((_, observer) => {
        if (document.querySelector('.scale .in-view .tests')) {
            observer.disconnect();
            requestAnimationFrame(() => channel.port2.postMessage(0));
        }
    }).observe(document, { childList: true, subtree: true });
    [...document.querySelectorAll('nav button')]
        .find((button) => button.textContent.trim() === arguments[0]).click();";

/// The price that the last batch leaves behind.
const LAST_PRICE: &str = "8.20";

fn main() -> Result<()> {
    let phone = || Visit {
        screen: Screen::Phone,
        before: Some(NOTE_START),
    };
    // Where the price and the panels are in sight together.
    let laptop = Visit {
        screen: Screen::Wide,
        before: None,
    };
    let on_laptop = laptop.and_bring(async |page| {
        page.enter(&Side::default()).await?;
        questions::open_spread(page).await?;
        page.choose(By::Id(questions::DRAWS), "100000").await?;
        keystrokes(page, 1).await
    })?;
    // On a page of their own: with panels open it would be left while its worker is still fetched.
    let visits = phone().and_bring(async |page| {
        page.enter(&Side::default()).await?;
        let histories = histories(page).await?;
        Ok((histories, second_visits(page).await?))
    })?;
    let (histories, second_visits) = visits;
    let measured = phone().and_bring(async |page| {
        let (starts, data) = starts(page).await?;
        let side = Side::default();
        page.enter(&side).await?;
        page.says(&side.figures()?).await?;
        Ok(json!({
            "recalculation": recalculations(page, &side).await?,
            "methods": questions::methods(page).await?,
            "draws": questions::draws(page).await?,
            "best_plan": questions::best_plan(page).await?,
            "keystrokes": keystrokes(page, SLOWER).await?,
            "keystrokes_on_laptop": on_laptop,
            "first_answers": questions::first_answers(page).await?,
            "keystrokes_while_drawing": questions::keystrokes_while_drawing(page).await?,
            "starts": starts,
            "data": data,
            "histories": histories[0],
            "histories_learnt": histories[1],
            "second_visits": second_visits,
            "slower": SLOWER,
        }))
    })?;
    println!("{measured}");
    Ok(())
}

/// When something was noted, in the page's own time.
async fn noted(page: &Page, name: &str) -> Result<f64> {
    let at = page
        .wait(
            name,
            async || {
                page.run("return window[arguments[0]] ?? null", json!([name]))
                    .await
            },
            Value::is_number,
        )
        .await?;
    at.as_f64().context("a time")
}

/// First visits, when everything comes from the server: start to usable form, and what of it was
/// spent on reading the data.
async fn starts(page: &Page) -> Result<(Vec<f64>, Vec<f64>)> {
    page.until_kept().await?;
    page.pass_by_workers(true).await?;
    page.slow_down(SLOWER).await?;
    let (mut starts, mut data) = (Vec::new(), Vec::new());
    for _ in 0..STARTS {
        page.reload().await?;
        starts.push(noted(page, "usable").await?);
        let taken = page
            .run(
                "return performance.measure('reading', 'data', 'data-read').duration",
                json!([]),
            )
            .await?;
        data.push(taken.as_f64().context("a time")?);
    }
    page.slow_down(1).await?;
    page.pass_by_workers(false).await?;
    Ok((starts, data))
}

/// Visits with no server, to the verdict on what was typed last time. The worker has to be started
/// each time, as on a phone where the app is opened; it runs at full speed, the page does not.
async fn second_visits(page: &mut Page) -> Result<Vec<f64>> {
    page.reload().await?;
    page.until_kept().await?;
    page.server().stop();
    let mut visits = Vec::new();
    for _ in 0..STARTS {
        page.leave().await?;
        page.end_workers().await?;
        page.slow_down(SLOWER).await?;
        page.open().await?;
        visits.push(noted(page, "decided").await?);
    }
    page.slow_down(1).await?;
    Ok(visits)
}

/// From the tap on the scale to the history of a shop that has closed hundreds of sides. The first
/// opening, which learns from them, is left out; from then on the worker is started with the app,
/// and the tap comes once it is up. It runs at full speed, the page does not.
///
/// Then the same where all is read and learnt anew between the tap and the history: the worker's own
/// time for that, counted as many times as the machine is slower, after the middle one of the taps.
async fn histories(page: &Page) -> Result<[Vec<f64>; 2]> {
    let closed = closed_sides_of_many_cuts(CLOSED)?;
    page.run(
        "arguments[0].forEach((test, index) => {
             localStorage.setItem(`sideworth/scale/test.${index + 1}`, test);
         });
         localStorage.setItem('sideworth/scale/typed', 'view=tests');",
        json!([closed]),
    )
    .await?;
    let mut times = Vec::new();
    for is_learnt in once(false).chain([true; STARTS]) {
        page.reload().await?;
        page.until_kept().await?;
        if is_learnt {
            page.wait(
                "the worker",
                async || {
                    page.run(
                        "return performance.getEntriesByName('worker-ready').length",
                        json!([]),
                    )
                    .await
                },
                |ready| *ready == json!(1),
            )
            .await?;
        }
        page.slow_down(SLOWER).await?;
        let time = page
            .run_until_done(OPEN_HISTORY, json!([Place::Scale.name()]))
            .await?;
        page.slow_down(1).await?;
        times.push(time.as_f64().context("a time")?);
        page.go_to(Place::Side).await?;
    }
    page.run(
        "Object.keys(localStorage).filter((key) => key.startsWith('sideworth/scale/'))
             .forEach((key) => localStorage.removeItem(key))",
        json!([]),
    )
    .await?;
    let mut times = times.split_off(1);
    times.sort_by(f64::total_cmp);
    let tap = times.get(times.len() / 2).copied().context("a time")?;
    let learnt = questions::histories_learnt(page, &closed).await?;
    let anew = learnt
        .into_iter()
        .map(|time| tap + time * f64::from(SLOWER));
    let anew = anew.collect();
    Ok([times, anew])
}

async fn recalculations(page: &Page, side: &Side<'_>) -> Result<Vec<f64>> {
    let times = page.run(RECALCULATE, json!([])).await?;
    let last = Side {
        price: LAST_PRICE,
        ..*side
    };
    // Had the app not worked them all out, it would not show the last.
    page.says(&last.figures()?).await?;
    Ok(serde_json::from_value(times)?)
}

/// Deletes and types the last digit of the price in turn; each key changes the answer.
async fn keystrokes(page: &Page, slower: u32) -> Result<Vec<f64>> {
    page.type_over("side-price", "8.4").await?;
    page.tap(By::Id("side-price")).await?;
    page.press(Key::End + "").await?;
    page.run(NOTE_KEYSTROKES, json!([])).await?;
    page.slow_down(slower).await?;
    let taken = async || {
        let taken = page.run("return window.taken", json!([])).await?;
        Ok(serde_json::from_value::<Vec<f64>>(taken)?)
    };
    for count in 1..=KEYSTROKES {
        if count % 2 == 1 {
            page.press(Key::Backspace + "").await?;
        } else {
            let digit = 1 + count / 2 % 9;
            page.press(digit.to_string()).await?;
        }
        page.wait("the answer to a key", taken, |taken| taken.len() >= count)
            .await?;
    }
    page.slow_down(1).await?;
    let taken = taken().await?;
    ensure!(taken.len() == KEYSTROKES, "{} answers", taken.len());
    Ok(taken)
}
