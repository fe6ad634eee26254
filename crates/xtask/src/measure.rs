//! Measures what a person waits for, on this machine and in a browser, and sets the aims beside it.

use std::process::Stdio;

use anyhow::{Context, Result, bail, ensure};
use serde::Deserialize;

use crate::workshop::{Workshop, say};
use crate::{bundle, setup, size};

/// One recalculation on this machine, in milliseconds.
const NATIVE_AIM: f64 = 0.3;

/// A side of many cuts by every method of dividing cost on this machine, in milliseconds.
const METHODS_AIM: f64 = 1.0;

/// The same in the browser, in milliseconds.
const BROWSER_METHODS_AIM: f64 = 5.0;

/// Reading the data in the browser on a slow machine, in milliseconds.
const DATA_AIM: f64 = 10.0;

/// Ten thousand draws of a side of many cuts on this machine, in milliseconds.
const DRAWS_AIM: f64 = 25.0;

/// The best plan of a whole side, proof included, on this machine, in milliseconds.
const BEST_PLAN_AIM: f64 = 100.0;

/// The benchmark of the same work that the worker is timed with.
const SAME_DRAWS: &str = "10,000 draws from question to last answer";

/// What is timed on this machine: package, benchmark, the figures wanted of it as a regular
/// expression, and the aim of each in milliseconds.
const BENCHMARKS: [(&str, &str, &str, Option<f64>); 7] = [
    (
        "pricing",
        "recalculation",
        "^price a side, ",
        Some(NATIVE_AIM),
    ),
    (
        "pricing",
        "recalculation",
        " by 4 methods$",
        Some(METHODS_AIM),
    ),
    ("pricing", "recalculation", "^load the catalogue$", None),
    ("decision", "spread", "^10,000 draws of", Some(DRAWS_AIM)),
    ("advice", "draws", SAME_DRAWS, None),
    ("decision", "best_plan", "^profit", Some(BEST_PLAN_AIM)),
    ("scale", "history", "^open 500 tests$", Some(HISTORY_AIM)),
];

/// Five hundred closed cutting tests read, learnt from and held against each other, in
/// milliseconds: a quarter of what a slow machine may take.
const HISTORY_AIM: f64 = 50.0;

/// From the tap on the scale to the history of as many in a browser on a slow machine, in
/// milliseconds.
const BROWSER_HISTORY_AIM: f64 = 200.0;

/// One recalculation in the browser, in milliseconds.
const BROWSER_AIM: f64 = 2.0;

/// From a key to the repainted verdict on a slow machine, in milliseconds: 95 of 100 are quicker.
const KEYSTROKE_AIM: f64 = 50.0;

/// Ten thousand draws in the browser, answered: so many times as long as the same work on this
/// machine.
const BROWSER_DRAWS_AIM: f64 = 2.0;

/// The best plan of a whole side, proof included, in the browser, in milliseconds.
const BROWSER_BEST_PLAN_AIM: f64 = 300.0;

/// From a key to the first answer about a plan that is drawn, on a slow machine, in milliseconds.
const FIRST_ANSWER_AIM: f64 = 100.0;

/// From opening the app without a server to the verdict on what was typed last time, on a slow
/// machine, in milliseconds.
const SECOND_VISIT_AIM: f64 = 1000.0;

/// What a first visit loads, in kilobytes of a thousand bytes.
const DOWNLOAD_AIM: f64 = 240.0;

/// Measures and prints the table.
///
/// # Errors
/// When something cannot be built, started or read; an aim that is missed is no error.
pub fn measure(workshop: &mut Workshop) -> Result<()> {
    let browser = setup::for_measuring(workshop)?;
    let dist = bundle::build(workshop)?;

    say("timing the core on this machine");
    let native = native(workshop)?;

    say("timing the app in a browser; leave the machine alone for a minute");
    let printed = answer(
        workshop
            .command("cargo")
            .args(["run", "--quiet", "-p", "browser-tests", "--bin", "measure"])
            .env("SIDEWORTH_DIST", &dist)
            .env("CHROME", &browser.chrome)
            .env("CHROMEDRIVER", &browser.chromedriver),
    )?;
    let app: App = serde_json::from_str(&printed)
        .with_context(|| format!("The timing printed what is no timing: {printed}"))?;

    let mut rows: Vec<Row> = native
        .iter()
        .map(|(timing, aim)| timing.row(*aim))
        .collect();
    let draws = native
        .iter()
        .filter(|(timing, _)| timing.name == SAME_DRAWS)
        .map(|(timing, _)| timing.milliseconds)
        .reduce(f64::max)
        .context("The draws were not timed on this machine.")?;
    rows.extend(app.rows(draws)?);
    #[expect(
        clippy::cast_precision_loss,
        reason = "a download is far smaller than 2^52 bytes"
    )]
    let download = size::first_visit_gzip(&dist)? as f64 / 1000.0;
    rows.push(Row {
        what: "first-visit download, gzip".to_owned(),
        measured: format!("{download:.1} kB"),
        aim: Some((format!("under {DOWNLOAD_AIM} kB"), download < DOWNLOAD_AIM)),
    });
    println!("{}", table(&rows));
    Ok(())
}

/// What a command prints on its standard output.
fn answer(command: &mut std::process::Command) -> Result<String> {
    let output = command
        .stderr(Stdio::inherit())
        .output()
        .context("cargo could not be started.")?;
    ensure!(output.status.success(), "The timing failed; see above.");
    Ok(String::from_utf8(output.stdout)?)
}

/// Times the core with its own benchmarks.
fn native(workshop: &Workshop) -> Result<Vec<(Timing, Option<f64>)>> {
    let mut timings = Vec::new();
    for (package, benchmark, wanted, aim) in BENCHMARKS {
        let printed = answer(workshop.command("cargo").args([
            "bench",
            "--quiet",
            "-p",
            package,
            "--bench",
            benchmark,
            "--",
            "--output-format",
            "bencher",
            wanted,
        ]))?;
        let before = timings.len();
        timings.extend(
            printed
                .lines()
                .filter_map(Timing::read)
                .map(|timing| (timing, aim)),
        );
        if timings.len() == before {
            bail!("The benchmark {benchmark} printed no timing of “{wanted}”: {printed}");
        }
    }
    Ok(timings)
}

/// One figure of a benchmark.
#[derive(Debug, PartialEq)]
struct Timing {
    name: String,
    milliseconds: f64,
}

impl Timing {
    /// Reads `test NAME ... bench:     123,456 ns/iter (+/- 789)`.
    fn read(line: &str) -> Option<Self> {
        let (name, figure) = line.strip_prefix("test ")?.split_once(" ... bench:")?;
        let (nanoseconds, _) = figure.split_once("ns/iter")?;
        let nanoseconds: f64 = nanoseconds.trim().replace(',', "").parse().ok()?;
        Some(Self {
            name: name.trim().to_owned(),
            milliseconds: nanoseconds / 1e6,
        })
    }

    fn row(&self, aim: Option<f64>) -> Row {
        Row {
            what: format!("native: {}", self.name),
            measured: format!("{:.3} ms", self.milliseconds),
            aim: aim.map(|aim| (format!("under {aim} ms"), self.milliseconds < aim)),
        }
    }
}

/// The times of the app in a browser, in milliseconds.
#[derive(Deserialize)]
struct App {
    /// Means of equal batches, in the order in which they were taken.
    recalculation: Vec<f64>,
    /// Number of cuts, times.
    methods: (usize, Vec<f64>),
    /// Number of cuts, times to the first and to the last answer.
    draws: (usize, Vec<[f64; 2]>),
    best_plan: Vec<f64>,
    first_answers: Vec<f64>,
    keystrokes: Vec<f64>,
    keystrokes_while_drawing: Vec<f64>,
    keystrokes_on_laptop: Vec<f64>,
    starts: Vec<f64>,
    data: Vec<f64>,
    histories: Vec<f64>,
    histories_learnt: Vec<f64>,
    second_visits: Vec<f64>,
    slower: u32,
}

impl App {
    /// The rows of the table. `native_draws` is how long the same draws and
    /// answers take on this machine.
    fn rows(&self, native_draws: f64) -> Result<Vec<Row>> {
        let slow = |what: &str| format!("browser at 1/{} speed: {what}", self.slower);
        let few = self.recalculation.len().min(5);
        let recalculations = |batches: &[f64], when: &str| {
            Row::middle(
                format!("browser: one keystroke worked out, not drawn, {when}"),
                batches,
                Some(BROWSER_AIM),
            )
        };
        let (cuts, methods) = &self.methods;
        let (cuts_drawn, answers) = &self.draws;
        let drawn: Vec<f64> = answers.iter().map(|[_, last]| *last).collect();
        Ok(vec![
            recalculations(&self.recalculation[..few], "at first")?,
            recalculations(
                &self.recalculation[self.recalculation.len() - few..],
                "once optimised",
            )?,
            Row::middle(
                format!(
                    "browser: a side of {cuts} cuts read, priced and held by 4 methods, asked of the worker"
                ),
                methods,
                Some(BROWSER_METHODS_AIM),
            )?,
            Row::middle(
                format!("browser: 10,000 draws of {cuts_drawn} cuts, asked of the worker"),
                &drawn,
                Some(native_draws * BROWSER_DRAWS_AIM),
            )?,
            Row::middle(
                "browser: the best plan of a side, proven, asked of the worker".to_owned(),
                &self.best_plan,
                Some(BROWSER_BEST_PLAN_AIM),
            )?,
            Row::spread(
                &slow("keystroke to the first answer of what is drawn"),
                &self.first_answers,
                95,
                Some(FIRST_ANSWER_AIM),
            )?,
            Row::middle(slow("reading the data"), &self.data, Some(DATA_AIM))?,
            Row::spread(
                &slow("keystroke to repainted verdict"),
                &self.keystrokes,
                95,
                Some(KEYSTROKE_AIM),
            )?,
            Row::spread(
                &slow("keystroke to its frame while sides are drawn"),
                &self.keystrokes_while_drawing,
                95,
                Some(KEYSTROKE_AIM),
            )?,
            Row::spread(
                "browser on a laptop: keystroke to repainted verdict while sides are drawn",
                &self.keystrokes_on_laptop,
                95,
                Some(KEYSTROKE_AIM),
            )?,
            Row::spread(&slow("start to usable form"), &self.starts, 100, None)?,
            Row::spread(
                &slow("tap to the history of 500 closed sides"),
                &self.histories,
                100,
                Some(BROWSER_HISTORY_AIM),
            )?,
            Row::spread(
                &slow("the same, all of them read and learnt from anew in between"),
                &self.histories_learnt,
                95,
                Some(BROWSER_HISTORY_AIM),
            )?,
            Row::spread(
                &slow("second visit without a server to the verdict"),
                &self.second_visits,
                100,
                Some(SECOND_VISIT_AIM),
            )?,
        ])
    }
}

/// The smallest of the times that so many in a hundred do not exceed (nearest rank).
fn percentile(times: &[f64], percent: usize) -> Result<f64> {
    let mut sorted = times.to_vec();
    sorted.sort_by(f64::total_cmp);
    let rank = (sorted.len() * percent).div_ceil(100).max(1);
    sorted.get(rank - 1).copied().context("Nothing was timed.")
}

struct Row {
    what: String,
    measured: String,
    /// The aim and whether it was met.
    aim: Option<(String, bool)>,
}

impl Row {
    /// The time that half of the times do not exceed.
    fn middle(what: String, times: &[f64], aim: Option<f64>) -> Result<Self> {
        let middle = percentile(times, 50)?;
        Ok(Self {
            what,
            measured: format!("{middle:.2} ms"),
            aim: aim.map(|aim| (format!("under {} ms", digits(aim)), middle < aim)),
        })
    }

    /// The same beside the time that so many in a hundred do not exceed, which is held to the aim.
    fn spread(what: &str, times: &[f64], percent: usize, aim: Option<f64>) -> Result<Self> {
        let (half, most) = (percentile(times, 50)?, percentile(times, percent)?);
        let name = match percent {
            100 => "longest".to_owned(),
            _ => format!("p{percent}"),
        };
        Ok(Self {
            what: format!("{what} ({})", times.len()),
            measured: format!("p50 {half:.0} ms, {name} {most:.0} ms"),
            aim: aim.map(|aim| (format!("{name} under {} ms", digits(aim)), most < aim)),
        })
    }
}

/// An aim with the digits that tell.
fn digits(aim: f64) -> String {
    let rounded = (aim * 10.0).round() / 10.0;
    rounded.to_string()
}

fn table(rows: &[Row]) -> String {
    let lines: Vec<[String; 4]> = [[
        "what".to_owned(),
        "measured".to_owned(),
        "aim".to_owned(),
        String::new(),
    ]]
    .into_iter()
    .chain(rows.iter().map(|row| {
        let (aim, met) = match &row.aim {
            Some((aim, true)) => (aim.as_str(), "met"),
            Some((aim, false)) => (aim.as_str(), "missed"),
            None => ("", ""),
        };
        [
            row.what.clone(),
            row.measured.clone(),
            aim.to_owned(),
            met.to_owned(),
        ]
    }))
    .collect();
    let wide = |column: usize| {
        lines
            .iter()
            .map(|line| line[column].chars().count())
            .max()
            .unwrap_or(0)
    };
    let (what, measured, aim) = (wide(0), wide(1), wide(2));
    lines
        .iter()
        .map(|line| {
            format!(
                "{:what$}  {:measured$}  {:aim$}  {}",
                line[0], line[1], line[2], line[3]
            )
            .trim_end()
            .to_owned()
        })
        .collect::<Vec<_>>()
        .join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_benchmark_s_line_is_read() {
        let line = "test price a side, bone-in ... bench:     123,456 ns/iter (+/- 789)";
        assert_eq!(
            Timing::read(line),
            Some(Timing {
                name: "price a side, bone-in".to_owned(),
                milliseconds: 0.123_456
            })
        );
        assert_eq!(Timing::read("Benchmarking price a side: Warming up"), None);
        assert_eq!(Timing::read("test a ... ok"), None);
    }

    #[test]
    fn a_timing_is_held_against_its_own_aim() {
        let timing = Timing {
            name: "draws".to_owned(),
            milliseconds: 30.0,
        };
        let met = |aim| timing.row(aim).aim.map(|(_, met)| met);
        assert_eq!(met(Some(DRAWS_AIM)), Some(false));
        assert_eq!(met(Some(BEST_PLAN_AIM)), Some(true));
        assert_eq!(met(None), None);
    }

    #[test]
    fn percentiles_are_times_that_were_taken() {
        let times: Vec<f64> = (1..=20).rev().map(f64::from).collect();
        let at = |percent| percentile(&times, percent).expect("times").to_string();
        assert_eq!([at(50), at(95), at(100), at(0)], ["10", "19", "20", "1"]);
        assert!(percentile(&[], 50).is_err());
    }

    #[test]
    fn a_missed_aim_is_called_missed() {
        let app = App {
            methods: (65, vec![4.0]),
            draws: (65, vec![[2.0, 41.0]]),
            best_plan: vec![20.0],
            first_answers: vec![60.0],
            keystrokes_while_drawing: vec![30.0; 100],
            keystrokes_on_laptop: vec![30.0; 100],
            data: vec![3.0],
            recalculation: vec![2.5, 2.5, 2.5, 2.5, 2.5, 2.0, 1.0, 1.0, 1.0, 1.0, 1.0],
            keystrokes: vec![10.0; 100],
            starts: vec![900.0],
            histories: vec![150.0, 250.0],
            histories_learnt: vec![150.0, 190.0],
            second_visits: vec![700.0, 1200.0],
            slower: 4,
        };
        let rows = app.rows(20.0).expect("rows");
        let text = table(&rows);
        let ends: Vec<_> = text
            .lines()
            .map(|line| line.rsplit("  ").next().unwrap_or_default())
            .collect();
        assert_eq!(
            ends,
            [
                "aim",
                "missed",
                "met",
                "met",
                "missed",
                "met",
                "met",
                "met",
                "met",
                "met",
                "met",
                "p50 900 ms, longest 900 ms",
                "missed",
                "met",
                "missed"
            ]
        );
    }
}
