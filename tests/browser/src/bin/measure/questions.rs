//! How long the worker takes over what it is asked, and the page to show it.

use std::time::Duration;

use advice::wire::Told;
use advice::{Panel, wire};
use anyhow::{Context, Result, anyhow, ensure};
use browser_tests::{Page, Place};
use carcass::Catalogue;
use draft::{Draft, Field, reading};
use pricing::price_side;
use serde_json::json;
use thirtyfour::{By, Key};

use super::SLOWER;

/// The id of the choice how many sides are drawn.
pub const DRAWS: &str = "spread-draws";

/// The id of a figure of the same panel.
const SURE: &str = "spread-sure";

/// What of the panel is answered, and not the control that is typed in.
const ANSWER: &str = "#spread .finding";

/// Answers to a question that is drawn ten thousand times: after the first draws, whenever there are
/// four times as many, and the last.
const ANSWERS_OF_DRAWS: usize = 4;

/// Keys after which the first answer is timed.
const FIRST_ANSWERS: usize = 20;

/// Keys that are timed while sides are drawn.
const KEYS_WHILE_DRAWING: usize = 150;

fn usual_side() -> String {
    let mut draft = Draft::default();
    draft.fill_in_sample();
    draft.to_text()
}

/// A side cut to far more cuts than any is: every part by its first two ways, and every class of
/// grind; with the number of its cuts.
fn many_cuts() -> Result<(String, usize)> {
    let catalogue = Catalogue::published().map_err(|error| anyhow!("{error}"))?;
    let mut draft = Draft::default();
    draft.fill_in_sample();
    let below = catalogue.parts().filter(|(id, _)| *id != catalogue.root());
    for (_, part) in below {
        if let [one, other, ..] = part.ways[..] {
            draft
                .ways
                .insert(part.id.clone(), catalogue[one].id.clone());
            draft
                .second_ways
                .insert(part.id.clone(), catalogue[other].id.clone());
        }
    }
    for class in catalogue.grind_classes() {
        draft.type_into(Field::Grind(class.id.clone()), "20".to_owned());
    }
    let document = reading::read(&draft, &catalogue)
        .map_err(|_| anyhow!("the side of many cuts is no plan"))?;
    let resolved = document.resolve(&catalogue)?;
    let sheet = price_side(&catalogue, &resolved.deal, &resolved.plan, &resolved.shop)?;
    let cuts = sheet.rows.iter().filter(|row| !row.is_by_product);
    Ok((draft.to_text(), cuts.count()))
}

/// Closed sides taken over anew by a worker, learnt from, and their history written.
pub async fn histories_learnt(page: &Page, closed: &[String]) -> Result<Vec<f64>> {
    let keys = (1..=closed.len()).map(|number| format!("test.{number}"));
    let keys: Vec<String> = keys.collect();
    let kept = keys.iter().zip(closed);
    let take = ledger::wire::take(kept.map(|(key, text)| (key.as_str(), text.as_str())));
    let moment = "1790000000000 2026-09-21 07:45 kg https://sideworth.example/";
    let show = ledger::wire::request(&usual_side(), moment, [("view", "tests")], "");
    let times = answered(page, &[&take, &show], 1).await?;
    Ok(times.into_iter().map(|[_, last]| last).collect())
}

/// The worker reads a plan of many cuts, prices it and holds the four methods against each other:
/// number of cuts, times with the way there and back.
pub async fn methods(page: &Page) -> Result<(usize, Vec<f64>)> {
    let (draft, cuts) = many_cuts()?;
    let request = Told::Methods.request(&draft, "");
    let times = answered(page, &[&request], 1).await?;
    Ok((cuts, times.into_iter().map(|[_, last]| last).collect()))
}

/// Ten thousand draws of a plan of many cuts: number of cuts, times to the first and to the last
/// answer.
pub async fn draws(page: &Page) -> Result<(usize, Vec<[f64; 2]>)> {
    let (draft, cuts) = many_cuts()?;
    let request = wire::request(Panel::Spread, &draft, []);
    Ok((cuts, answered(page, &[&request], ANSWERS_OF_DRAWS).await?))
}

/// The best of all plans of the usual side, with the proof.
pub async fn best_plan(page: &Page) -> Result<Vec<f64>> {
    let request = wire::request(Panel::BestPlan, &usual_side(), []);
    let times = answered(page, &[&request], 1).await?;
    Ok(times.into_iter().map(|[_, last]| last).collect())
}

/// Sends messages to a worker of its own again and again, and notes the times to the first and to
/// the last answer.
const ASK_A_WORKER: &str = "
    const [messages, answers, done] = arguments;
    const worker = new Worker('./reckoner-boot.js', { type: 'module', name: 'en' });
    const times = [];
    let since;
    let heard;
    const ask = () => {
        heard = [];
        since = performance.now();
        messages.forEach((message) => worker.postMessage(message));
    };
    worker.onmessage = ({ data }) => {
        if (data === 'ready') return ask();
        heard.push(performance.now() - since);
        if (heard.length < answers) return;
        times.push([heard[0], heard.at(-1)]);
        if (times.length < 60) return ask();
        worker.terminate();
        done(times);
    };";

/// So many answers come before the browser has optimised the worker.
const UNOPTIMISED: usize = 10;

/// Asks a worker of its own again and again: times to the first and to the last answer, with the way
/// there and back.
async fn answered(page: &Page, messages: &[&str], answers: usize) -> Result<Vec<[f64; 2]>> {
    let times = page
        .run_until_done(ASK_A_WORKER, json!([messages, answers]))
        .await?;
    let mut times: Vec<[f64; 2]> = serde_json::from_value(times)?;
    Ok(times.split_off(UNOPTIMISED))
}

/// Opens the panel whose sides are drawn.
pub async fn open_spread(page: &Page) -> Result<()> {
    let panel = Panel::Spread.id();
    page.go_to(Place::WhatIf).await?;
    page.tap(By::Css(format!("#{panel} > summary"))).await?;
    let choice = format!("#{DRAWS}");
    page.reads(&choice, |text| !text.is_empty()).await.map(drop)
}

/// From a key in the panel whose sides are drawn to the first answer in the page, on a slow machine.
/// A browser slows the page down and not its workers, so the worker's own time is counted as many
/// times as the machine is slower.
pub async fn first_answers(page: &Page) -> Result<Vec<f64>> {
    open_spread(page).await?;
    let request = wire::request(Panel::Spread, &usual_side(), []);
    let alone = answered(page, &[&request], ANSWERS_OF_DRAWS).await?;
    let mut alone: Vec<f64> = alone.into_iter().map(|[first, _]| first).collect();
    alone.sort_by(f64::total_cmp);
    let alone = alone.get(alone.len() / 2).context("an answer")?;
    page.type_over(SURE, "9").await?;
    page.slow_down(SLOWER).await?;
    let mut times = Vec::new();
    for turn in 0..FIRST_ANSWERS {
        until_drawn().await;
        page.run(
            "window.answered = null;
             let pressed = null;
             addEventListener('keydown', (event) => { pressed = event.timeStamp; },
                 { capture: true, once: true });
             const channel = new MessageChannel();
             channel.port1.onmessage = () => { window.answered ??= performance.now() - pressed; };
             const observer = new MutationObserver(() => {
                 observer.disconnect();
                 requestAnimationFrame(() => channel.port2.postMessage(0));
             });
             observer.observe(document.querySelector(arguments[0]),
                 { childList: true, subtree: true, characterData: true });",
            json!([ANSWER]),
        )
        .await?;
        page.press((turn % 10).to_string()).await?;
        let time = super::noted(page, "answered").await?;
        times.push(time + alone * f64::from(SLOWER - 1));
        until_drawn().await;
        page.press(Key::Backspace + "").await?;
    }
    page.slow_down(1).await?;
    Ok(times)
}

/// Until all is drawn, so that what comes next answers the next key.
async fn until_drawn() {
    tokio::time::sleep(Duration::from_millis(600)).await;
}

/// From a key to the frame that shows it, on a slow machine, while sides are drawn anew after every
/// key.
pub async fn keystrokes_while_drawing(page: &Page) -> Result<Vec<f64>> {
    page.choose(By::Id(DRAWS), "100000").await?;
    page.type_over(SURE, "9").await?;
    page.run(
        "window.taken = [];
         const channel = new MessageChannel();
         channel.port1.onmessage = (message) => {
             window.taken.push(performance.now() - message.data);
         };
         addEventListener('keydown', (event) =>
             requestAnimationFrame(() => channel.port2.postMessage(event.timeStamp)), true);",
        json!([]),
    )
    .await?;
    page.slow_down(SLOWER).await?;
    for turn in 0..KEYS_WHILE_DRAWING {
        if turn % 2 == 1 {
            page.press(Key::Backspace + "").await?;
        } else {
            page.press((turn / 2 % 10).to_string()).await?;
        }
        // As fast as a quick hand, and in the midst of the run.
        tokio::time::sleep(Duration::from_millis(60)).await;
    }
    page.slow_down(1).await?;
    let taken = page.run("return window.taken", json!([])).await?;
    let taken: Vec<f64> = serde_json::from_value(taken)?;
    ensure!(taken.len() == KEYS_WHILE_DRAWING, "{} keys", taken.len());
    Ok(taken)
}
