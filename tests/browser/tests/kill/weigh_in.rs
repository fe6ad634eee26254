//! A page that is killed in the middle of a weigh-in.

use std::thread;
use std::time::{Duration, Instant};

use anyhow::{Result, anyhow, ensure};
use browser_tests::{Mortal, Page, Side};
use rand_core::Rng;
use rand_pcg::Pcg64Mcg;
use serde_json::json;
use thirtyfour::{By, Key};

use crate::{SEED, say};

const KILLS: u32 = 25;

/// How many weighings the page has kept.
async fn kept(page: &Page) -> Result<u64> {
    let kept = page
        .run(
            "const weighed = localStorage.getItem('sideworth/scale/weighed') ?? '';
             return weighed.split('\\n').filter((line) => line.startsWith('w ')).length",
            json!([]),
        )
        .await?;
    Ok(kept.as_u64().unwrap_or_default())
}

/// Weighs one tray after the other until it is over or the page answers no more; notes down when how
/// many were kept.
async fn weighs(
    page: &Page,
    noted: &mut Vec<(Instant, u64)>,
    is_over: impl Fn() -> bool,
) -> Result<()> {
    let field = page
        .run(
            "return document.querySelector('.weighing input').id",
            json!([]),
        )
        .await?;
    let field = field.as_str().unwrap_or_default().to_owned();
    while !is_over() {
        page.type_over(&field, "0.01").await?;
        let input = page.element(By::Id(field.as_str())).await?;
        input.send_keys(Key::Enter + "").await?;
        page.holds(&field, "").await?;
        noted.push((Instant::now(), kept(page).await?));
    }
    Ok(())
}

/// Kills the page again and again; how many weighings there are in the end, and how many were lost at
/// most at one stroke.
async fn befall() -> Result<(u64, u64)> {
    let mut mortal = Mortal::new("weigh-in")?;
    let mut chance = Pcg64Mcg::new(SEED);
    let mut noted: Vec<(Instant, u64)> = Vec::new();
    let mut struck = None;
    let (mut all, mut worst) = (0, 0);
    for round in 0..=KILLS {
        let after = Duration::from_millis(u64::from(200 + chance.next_u32() % 1300));
        struck = mortal
            .visit(async |page, &life| {
                if struck.is_none() {
                    page.enter(&Side::default()).await?;
                    page.tap(By::XPath("//button[.='Weigh a side']")).await?;
                    page.reads(".in-view", |text| text.contains("on the block"))
                        .await?;
                    page.tap(By::XPath("//button[.='Begin the weigh-in']"))
                        .await?;
                } else {
                    page.tap(By::XPath("//button[.='Weigh a side']")).await?;
                }
                page.reads(".balance", |text| text.contains("Not yet"))
                    .await?;
                let left = kept(page).await?;
                if let Some(struck) = struck {
                    let before = |limit: Duration| {
                        noted
                            .iter()
                            .rev()
                            .find(|(at, _)| *at + limit <= struck)
                            .map_or(0, |(_, count)| *count)
                    };
                    let second = before(Duration::from_secs(1));
                    ensure!(
                        left >= second,
                        "{left} weighings of {second} that were kept a second before"
                    );
                    worst = worst.max(before(Duration::ZERO).saturating_sub(left));
                }
                all = left;
                noted = vec![(Instant::now(), left)];
                if round == KILLS {
                    return Ok(None);
                }
                let killer = thread::spawn(move || {
                    thread::sleep(after);
                    let aims = Instant::now();
                    life.take_pages().map(|()| (aims, Instant::now()))
                });
                let weighed = weighs(page, &mut noted, || killer.is_finished()).await;
                let failed = Instant::now();
                let (aims, struck) = killer.join().map_err(|_| anyhow!("no killer"))??;
                // What fails before the blow has nothing to do with it.
                match weighed {
                    Err(error) if failed < aims => Err(error),
                    _ => Ok(Some(struck)),
                }
            })
            .await
            .map_err(|error: anyhow::Error| error.context(format!("kill {round}")))?;
    }
    Ok((all, worst))
}

#[test]
fn a_weigh_in_outlives_its_page() {
    let (all, worst) = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .expect("a runtime")
        .block_on(befall())
        .unwrap_or_else(|error| panic!("{error:#}"));
    assert!(
        all > u64::from(KILLS),
        "nobody got to weigh: {all} weighings"
    );
    say(&format!(
        "{KILLS} pages killed in {all} weighings: at most {worst} lost at one stroke"
    ));
}
