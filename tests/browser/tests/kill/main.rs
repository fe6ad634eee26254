//! Pages and browsers are killed while someone types: nothing is spoilt, and little is lost.
//!
//! When they are killed is drawn after a seed; how far someone has got by then differs from run to
//! run.
#![cfg(target_os = "linux")]

mod memory;
mod typist;
mod weigh_in;

use std::io::Write;
use std::iter;
use std::ops::Range;
use std::thread;
use std::time::{Duration, Instant};

use anyhow::{Result, anyhow};
use browser_tests::{Life, Mortal};
use rand_core::Rng;
use rand_pcg::Pcg64Mcg;

use memory::{Found, Loss, Memory};

const SEED: u128 = 0x51de;

/// How a life is to be taken, and what must outlive it.
struct Fate {
    name: &'static str,
    /// How often it strikes after so many milliseconds of typing.
    kills: &'static [(usize, Range<u32>)],
    take: fn(Life) -> Result<()>,
    /// Whether the browser itself dies.
    is_whole: bool,
    /// Nothing older than this may be lost; where the browser decides, nothing is asked.
    keep: Option<Duration>,
}

impl Fate {
    /// Types and is killed, again and again, and says what each time was lost.
    async fn befall(&self) -> Result<Vec<Loss>> {
        let mut mortal = Mortal::new(self.name)?;
        let mut memory = Memory::default();
        let mut chance = Pcg64Mcg::new(SEED);
        let mut losses = Vec::new();
        let mut struck = None;
        let times: Vec<_> = self
            .kills
            .iter()
            .flat_map(|(kills, after)| iter::repeat_n(after, *kills))
            .map(|after| after.start + chance.next_u32() % (after.end - after.start))
            .collect();
        // Once more to see what the last one left.
        for round in 0..=times.len() {
            struck = mortal
                .visit(async |page, &life| {
                    let found = Found::on(page).await?;
                    match struck {
                        Some(at) => losses.push(memory.compare(&found, at, self.keep)?),
                        None => memory.start(&found),
                    }
                    let Some(&after) = times.get(round) else {
                        return Ok(None);
                    };
                    let take = self.take;
                    let killer = thread::spawn(move || {
                        thread::sleep(Duration::from_millis(after.into()));
                        let aims = Instant::now();
                        take(life).map(|()| (aims, Instant::now()))
                    });
                    let typed =
                        typist::types(page, &mut memory, round, || killer.is_finished()).await;
                    let failed = Instant::now();
                    let (aims, struck) = killer.join().map_err(|_| anyhow!("no killer"))??;
                    // What fails before the blow has nothing to do with it.
                    match typed {
                        Err(error) if failed < aims => Err(error),
                        _ => Ok(Some(struck)),
                    }
                })
                .await
                .map_err(|error| error.context(format!("kill {round}")))?;
            if self.is_whole && struck.is_some() {
                mortal.until_dead().await?;
            }
        }
        Ok(losses)
    }

    fn run(&self) -> Vec<Loss> {
        let losses = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .build()
            .expect("a runtime")
            .block_on(self.befall())
            .unwrap_or_else(|error| panic!("{error:#}"));
        let kills: usize = self.kills.iter().map(|(kills, _)| kills).sum();
        assert_eq!(losses.len(), kills);
        losses
    }
}

/// The most that was lost of the typing at one stroke.
fn worst(losses: &[Loss]) -> Duration {
    let lost = losses.iter().map(|loss| loss.text);
    lost.max().unwrap_or_default()
}

/// Says something of a test that passes, on a line of its own.
fn say(line: &str) {
    let line = format!("\n{line}\n");
    let _ = std::io::stdout().lock().write_all(line.as_bytes());
}

#[test]
fn a_page_that_is_killed_loses_nothing_older_than_a_second() {
    let losses = Fate {
        name: "page",
        kills: &[(100, 30..1500)],
        take: Life::take_pages,
        is_whole: false,
        keep: Some(Duration::from_secs(1)),
    }
    .run();
    let worst = worst(&losses);
    let typed: usize = losses.iter().map(|loss| loss.keys).sum();
    assert!(typed > losses.len(), "nobody got to type: {typed} keys");
    let plans: usize = losses.iter().map(|loss| loss.plans).sum();
    say(&format!(
        "{} pages killed in {typed} keystrokes: at most the last {} ms of typing lost, \
         {plans} saved plans lost",
        losses.len(),
        worst.as_millis()
    ));
}

#[test]
fn a_browser_that_is_killed_spoils_nothing() {
    let losses = Fate {
        name: "browser",
        // Chromium writes down what pages keep some seconds after it has changed, but so many times
        // an hour at most: who types without a pause has longer to wait.
        kills: &[(18, 300..12_000), (2, 40_000..70_000)],
        take: Life::take_all,
        is_whole: true,
        keep: None,
    }
    .run();
    for loss in &losses {
        say(&format!(
            "browser killed after {:>5} ms: the last {:>5} ms of typing lost, {} saved plans",
            loss.after.as_millis(),
            loss.text.as_millis(),
            loss.plans
        ));
    }
    let worst = worst(&losses);
    say(&format!(
        "{} browsers killed: at most the last {} ms of typing lost",
        losses.len(),
        worst.as_millis()
    ));
}
