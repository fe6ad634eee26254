//! Has Lighthouse look at the app as a phone gets it, and holds what it says to the aims.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};
use serde::Deserialize;
use serde_json::Value;

use crate::workshop::{Workshop, run, say};
use crate::{bundle, serve, setup};

/// What is judged, and the least score that is wanted, of 100.
const AIMS: [(&str, f64); 3] = [
    ("performance", 95.0),
    ("accessibility", 100.0),
    ("best-practices", 100.0),
];

/// How often it looks. The quickest look counts, since whatever else the machine does only takes
/// from it; what is no matter of time has to hold in every look.
const LOOKS: usize = 5;

/// Lighthouse's own measure of a machine, below which it takes the machine for slower than it expects
/// (`SLOW_CPU_BENCHMARK_INDEX_THRESHOLD` in its sources): too slow or too busy to tell a phone's speed.
const SLOW_MACHINE: f64 = 1000.0;

/// Most elements that are named for a fault.
const MOST_ELEMENTS: usize = 5;

/// Has the app, or a build of it in `built`, looked at and prints the scores.
///
/// # Errors
/// When something cannot be brought or built, or a score is below its aim.
pub fn lighthouse(workshop: &mut Workshop, built: Option<&Path>) -> Result<()> {
    let browser = setup::for_looking(workshop)?;
    let script = setup::ensure_lighthouse(workshop)?;
    let dist = match built {
        Some(built) => built.to_path_buf(),
        None => bundle::build(workshop)?,
    };
    let folder = workshop.target().join("lighthouse");
    fs::create_dir_all(&folder).with_context(|| format!("{} cannot be made.", folder.display()))?;
    let report = serve::during(&dist, |address| {
        let mut best = None::<Report>;
        for look in 1..=LOOKS {
            say(&format!("Lighthouse looks at the app, {look} of {LOOKS}"));
            let report = look_at(workshop, &script, &browser, address, &folder)?;
            say(&format!(
                "speed {:.0}, on a machine of {:.0}",
                report.speed(),
                report.environment.machine
            ));
            if !report.holds_but_for_speed() {
                return Ok(report);
            }
            if best
                .as_ref()
                .is_none_or(|best| report.speed() > best.speed())
            {
                best = Some(report);
            }
        }
        best.context("Lighthouse did not look.")
    })?;
    let (text, holds) = report.judged()?;
    print!("{text}");
    if report.environment.machine < SLOW_MACHINE {
        println!("This machine is slow or busy: the speed is less than it would be elsewhere.");
    }
    println!("The last report is in {}.", folder.display());
    if !holds {
        bail!("Lighthouse finds something to mend.");
    }
    Ok(())
}

/// One look; its report is left in `folder`, to be read by people too.
fn look_at(
    workshop: &Workshop,
    script: &Path,
    browser: &Path,
    address: &str,
    folder: &Path,
) -> Result<Report> {
    let report = folder.join("app");
    run(
        workshop
            .command("node")
            .arg(script)
            .arg(address)
            .args(["--form-factor=mobile", "--quiet"])
            .arg("--no-enable-error-reporting")
            .arg(format!("--only-categories={}", names().join(",")))
            .args(["--output=json", "--output=html", "--output-path"])
            .arg(&report)
            .arg("--chrome-flags=--headless=new --no-sandbox --disable-gpu")
            .env("CHROME_PATH", browser),
        "Lighthouse says above why it could not look.",
    )?;
    let text = fs::read_to_string(report.with_extension("report.json"))
        .context("Lighthouse left no report.")?;
    serde_json::from_str(&text).context("Lighthouse wrote what is no report.")
}

fn names() -> Vec<&'static str> {
    AIMS.iter().map(|(name, _)| *name).collect()
}

/// What is read of a report.
#[derive(Deserialize)]
struct Report {
    categories: BTreeMap<String, Category>,
    audits: BTreeMap<String, Audit>,
    environment: Environment,
}

#[derive(Deserialize)]
struct Environment {
    /// How quick the machine was just then.
    #[serde(rename = "benchmarkIndex")]
    machine: f64,
}

#[derive(Deserialize)]
struct Category {
    title: String,
    /// Of 1; none where an audit of it failed.
    score: Option<f64>,
    #[serde(rename = "auditRefs")]
    parts: Vec<Part>,
}

/// What an audit counts for in a category.
#[derive(Deserialize)]
struct Part {
    id: String,
    weight: f64,
}

#[derive(Deserialize)]
struct Audit {
    title: String,
    /// Of 1; none where there was nothing to look at, or where it failed.
    score: Option<f64>,
    #[serde(rename = "displayValue")]
    measured: Option<String>,
    #[serde(rename = "errorMessage")]
    failure: Option<String>,
    #[serde(default)]
    details: Value,
}

impl Report {
    /// The score of its speed, of 100; 0 where there is none.
    fn speed(&self) -> f64 {
        self.score(AIMS[0].0).unwrap_or_default()
    }

    /// Of 100; none where an audit failed.
    fn score(&self, name: &str) -> Option<f64> {
        let score = self.categories.get(name)?.score?;
        Some((100.0 * score).round())
    }

    fn holds_but_for_speed(&self) -> bool {
        let mut others = AIMS[1..].iter();
        others.all(|(name, aim)| self.score(name).is_some_and(|score| score >= *aim))
    }

    /// The scores with what cost points, and whether all aims are met.
    fn judged(&self) -> Result<(String, bool)> {
        let mut text = String::new();
        let mut holds = true;
        for (name, aim) in AIMS {
            let category = self
                .categories
                .get(name)
                .with_context(|| format!("Lighthouse did not judge {name}."))?;
            let score = self.score(name);
            let meets = score.is_some_and(|score| score >= aim);
            holds &= meets;
            let score = score.map_or_else(|| "none".to_owned(), |score| format!("{score:.0}"));
            let sign = if meets { "✓" } else { "✗" };
            writeln!(text, "{sign} {}: {score} (aim {aim})", category.title)?;
            self.write_costs(&mut text, category)?;
        }
        Ok((text, holds))
    }

    /// What a category lost points by, and how many of its hundred.
    fn write_costs(&self, text: &mut String, category: &Category) -> Result<()> {
        let all: f64 = self.counting(category).map(|(part, _)| part.weight).sum();
        for (part, audit) in self.counting(category) {
            let lost = 100.0 * part.weight / all * (1.0 - audit.score.unwrap_or_default());
            // Half a point is not seen in a score of whole ones.
            if lost < 0.5 {
                continue;
            }
            let found = audit.failure.as_ref().or(audit.measured.as_ref());
            let found = found.map_or_else(String::new, |found| format!(": {found}"));
            writeln!(text, "    −{lost:.1} {}{found}", audit.title)?;
            for snippet in snippets(&audit.details).take(MOST_ELEMENTS) {
                writeln!(text, "        {snippet}")?;
            }
        }
        Ok(())
    }

    /// The audits that count: those that had something to look at, or failed.
    fn counting<'a>(
        &'a self,
        category: &'a Category,
    ) -> impl Iterator<Item = (&'a Part, &'a Audit)> {
        let parts = category.parts.iter().filter(|part| part.weight > 0.0);
        parts
            .filter_map(|part| Some((part, self.audits.get(&part.id)?)))
            .filter(|(_, audit)| audit.score.is_some() || audit.failure.is_some())
    }
}

/// The elements, addresses and messages that an audit names.
fn snippets(details: &Value) -> impl Iterator<Item = &str> {
    let items = details["items"].as_array().into_iter().flatten();
    items.filter_map(|item| {
        let named = [&item["node"]["snippet"], &item["description"], &item["url"]];
        named.into_iter().find_map(Value::as_str)
    })
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    fn report(contrast: f64) -> Report {
        let category = |title: &str, score: f64, parts: Value| json!({ "title": title, "score": score, "auditRefs": parts });
        let audits = json!({
            "paint": { "title": "First Contentful Paint", "score": 0.9, "displayValue": "1.9 s" },
            "blocked": { "title": "Total Blocking Time", "score": 1.0 },
            "contrast": {
                "title": "Contrast is not enough",
                "score": contrast,
                "details": { "items": [{ "node": { "snippet": "<p class=\"note\">" } }] },
            },
            "video": { "title": "Captions", "score": null },
        });
        let report = json!({
            "categories": {
                "performance": category("Performance", 0.99, json!([
                    { "id": "paint", "weight": 10 },
                    { "id": "blocked", "weight": 90 },
                ])),
                "accessibility": category("Accessibility", contrast, json!([
                    { "id": "contrast", "weight": 7 },
                    { "id": "video", "weight": 10 },
                ])),
                "best-practices": category("Best Practices", 1.0, json!([])),
            },
            "audits": audits,
            "environment": { "benchmarkIndex": 1700 },
        });
        serde_json::from_value(report).expect("a report")
    }

    #[test]
    fn scores_stand_beside_their_aims_with_what_cost_points() {
        let (text, holds) = report(1.0).judged().expect("judged");
        assert!(holds);
        let expected = "✓ Performance: 99 (aim 95)\n    \
                        −1.0 First Contentful Paint: 1.9 s\n\
                        ✓ Accessibility: 100 (aim 100)\n\
                        ✓ Best Practices: 100 (aim 100)\n";
        assert_eq!(text, expected);
    }

    #[test]
    fn one_score_below_its_aim_is_enough() {
        assert!(report(1.0).holds_but_for_speed());
        assert!(!report(0.99).holds_but_for_speed());
        let (text, holds) = report(0.0).judged().expect("judged");
        assert!(!holds);
        let contrast = "✗ Accessibility: 0 (aim 100)\n    \
                        −100.0 Contrast is not enough\n        \
                        <p class=\"note\">\n";
        assert!(text.contains(contrast), "{text}");
    }

    #[test]
    fn what_was_not_judged_is_an_error() {
        let mut unjudged = report(1.0);
        unjudged.categories.remove("accessibility");
        assert!(unjudged.judged().is_err());
        let mut failed = report(1.0);
        if let Some(speed) = failed.categories.get_mut("performance") {
            speed.score = None;
        }
        assert!(!failed.judged().expect("judged").1);
    }
}
