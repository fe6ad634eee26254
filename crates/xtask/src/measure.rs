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

/// What is timed on this machine: package, benchmark, the figures wanted of it as a regular
/// expression, and the aim of each in milliseconds.
const BENCHMARKS: [(&str, &str, &str, Option<f64>); 5] = [
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
    (
        "decision",
        "best_plan",
        ", (no limits|bench and saw)$",
        Some(BEST_PLAN_AIM),
    ),
];

/// One recalculation in the browser, in milliseconds.
const BROWSER_AIM: f64 = 2.0;

/// From a key to the repainted verdict on a slow machine, in milliseconds: 95 of 100 are quicker.
const KEYSTROKE_AIM: f64 = 50.0;

/// From opening the app without a server to the verdict on what was typed last time, on a slow
/// machine, in milliseconds.
const SECOND_VISIT_AIM: f64 = 1000.0;

/// What a first visit loads, in kilobytes of a thousand bytes.
const DOWNLOAD_AIM: f64 = 170.0;

/// Measures and prints the table.
///
/// # Errors
/// When something cannot be built, started or read; an aim that is missed is no error.
pub fn measure(workshop: &mut Workshop) -> Result<()> {
    let browser = setup::for_tests(workshop)?;
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

    let mut rows = native;
    rows.extend(app.rows()?);
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
fn native(workshop: &Workshop) -> Result<Vec<Row>> {
    let mut rows = Vec::new();
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
        let before = rows.len();
        rows.extend(
            printed
                .lines()
                .filter_map(Timing::read)
                .map(|timing| timing.row(aim)),
        );
        if rows.len() == before {
            bail!("The benchmark {benchmark} printed no timing of “{wanted}”: {printed}");
        }
    }
    Ok(rows)
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
    keystrokes: Vec<f64>,
    starts: Vec<f64>,
    data: Vec<f64>,
    second_visits: Vec<f64>,
    slower: u32,
}

impl App {
    fn rows(&self) -> Result<[Row; 7]> {
        let batches = &self.recalculation;
        let recalculations = |batches: &[f64], what: &str| {
            let milliseconds = percentile(batches, 50)?;
            Ok::<_, anyhow::Error>(Row {
                what: format!("browser: one keystroke worked out, not drawn, {what}"),
                measured: format!("{milliseconds:.2} ms"),
                aim: Some((
                    format!("under {BROWSER_AIM} ms"),
                    milliseconds < BROWSER_AIM,
                )),
            })
        };
        let few = batches.len().min(5);
        let [half, most] = [50, 95].map(|percent| percentile(&self.keystrokes, percent));
        let (half, most) = (half?, most?);
        let slower = self.slower;
        let longest = percentile(&self.second_visits, 100)?;
        let (cuts, methods) = &self.methods;
        let methods = percentile(methods, 50)?;
        let data = percentile(&self.data, 50)?;
        Ok([
            recalculations(&batches[..few], "at first")?,
            recalculations(&batches[batches.len() - few..], "once optimised")?,
            Row {
                what: format!(
                    "browser: a side of {cuts} cuts read, priced and held by 4 methods, asked of the worker"
                ),
                measured: format!("{methods:.2} ms"),
                aim: Some((
                    format!("under {BROWSER_METHODS_AIM} ms"),
                    methods < BROWSER_METHODS_AIM,
                )),
            },
            Row {
                what: format!("browser at 1/{slower} speed: reading the data"),
                measured: format!("{data:.2} ms"),
                aim: Some((format!("under {DATA_AIM} ms"), data < DATA_AIM)),
            },
            Row {
                what: format!(
                    "browser at 1/{slower} speed: keystroke to repainted verdict ({})",
                    self.keystrokes.len()
                ),
                measured: format!("p50 {half:.0} ms, p95 {most:.0} ms"),
                aim: Some((
                    format!("p95 under {KEYSTROKE_AIM} ms"),
                    most < KEYSTROKE_AIM,
                )),
            },
            Row {
                what: format!(
                    "browser at 1/{slower} speed: start to usable form ({})",
                    self.starts.len()
                ),
                measured: format!(
                    "p50 {:.0} ms, longest {:.0} ms",
                    percentile(&self.starts, 50)?,
                    percentile(&self.starts, 100)?
                ),
                aim: None,
            },
            Row {
                what: format!(
                    "browser at 1/{slower} speed: second visit without a server to the verdict ({})",
                    self.second_visits.len()
                ),
                measured: format!(
                    "p50 {:.0} ms, longest {longest:.0} ms",
                    percentile(&self.second_visits, 50)?
                ),
                aim: Some((
                    format!("longest under {SECOND_VISIT_AIM} ms"),
                    longest < SECOND_VISIT_AIM,
                )),
            },
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
            data: vec![3.0],
            recalculation: vec![2.5, 2.5, 2.5, 2.5, 2.5, 2.0, 1.0, 1.0, 1.0, 1.0, 1.0],
            keystrokes: vec![10.0; 100],
            starts: vec![900.0],
            second_visits: vec![700.0, 1200.0],
            slower: 4,
        };
        let rows = app.rows().expect("rows");
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
                "met",
                "met",
                "p50 900 ms, longest 900 ms",
                "missed"
            ]
        );
    }
}
