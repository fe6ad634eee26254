//! What the one who typed remembers, and what is found of it.

use std::collections::BTreeMap;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, ensure};
use browser_tests::Page;
use draft::{Draft, Field};
use serde_json::json;
use shelf::Saved;

/// The fields that are typed into, by their ids.
pub const FIELDS: [&str; 3] = ["side-weight", "side-price", "labour-rate"];

/// What stands in them.
pub type Texts = [String; 3];

/// The key of the draft.
const DRAFT: &str = "sideworth/draft";

/// What is kept on a device.
#[derive(Debug)]
pub struct Found {
    /// What stands in the fields.
    pub texts: Texts,
    /// Every saved plan by its name, with what stood in the fields.
    pub plans: BTreeMap<String, Texts>,
}

impl Found {
    /// Reads all that is kept, and what the page makes of it.
    pub async fn on(page: &Page) -> Result<Self> {
        let kept = page.run("return { ...localStorage }", json!([])).await?;
        let kept: BTreeMap<String, String> = serde_json::from_value(kept)?;
        let mut texts = Texts::default();
        for (text, id) in texts.iter_mut().zip(FIELDS) {
            *text = page.value(id).await?;
        }
        let mut plans = BTreeMap::new();
        for (key, text) in &kept {
            if key == DRAFT {
                let draft = Draft::of_text(text).with_context(|| format!("spoilt: {text}"))?;
                ensure!(typed(&draft) == texts, "{texts:?} shown of {text}");
            } else {
                ensure!(key.starts_with(shelf::KEY), "{key}: {text}");
                let plan = Saved::of_text(text);
                let plan = plan.map_err(|why| anyhow::anyhow!("{why:?}: {text}"))?;
                let before = plans.insert(plan.name.clone(), typed(&plan.draft));
                ensure!(before.is_none(), "{} is there twice", plan.name);
            }
        }
        let said = page.texts("[role=alert], #saved-unreadable").await?;
        ensure!(said.trim().is_empty(), "the page complains: {said}");
        page.wait(
            "all plans to be listed",
            async || {
                page.run(
                    "return document.querySelectorAll('[data-saved]').length",
                    json!([]),
                )
                .await
            },
            |listed| *listed == json!(plans.len()),
        )
        .await?;
        Ok(Self { texts, plans })
    }
}

fn typed(draft: &Draft) -> Texts {
    [Field::Weight, Field::Price, Field::LabourRate].map(|field| draft.entry(&field).text)
}

/// What was lost by a kill.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Loss {
    /// How long someone had been typing.
    pub after: Duration,
    /// How many keys had been struck.
    pub keys: usize,
    /// How much of the typing was lost, back from the kill.
    pub text: Duration,
    /// How many plans were lost that had been saved.
    pub plans: usize,
}

/// Something done, and when that was over; without a time it may or may not have come to be.
#[derive(Debug)]
struct Done<T> {
    what: T,
    at: Option<Instant>,
}

/// What was typed and saved since the page came up.
#[derive(Debug, Default)]
pub struct Memory {
    /// What stood in the fields, from what was found when the page came up.
    typed: Vec<Done<Texts>>,
    /// What was saved, with what stood in the fields then.
    saved: Vec<Done<(String, Texts)>>,
    began: Option<Instant>,
}

impl Memory {
    /// Starts with what is found: it is kept for good.
    pub fn start(&mut self, found: &Found) {
        let at = Some(Instant::now());
        let plans = found.plans.clone().into_iter();
        self.typed = vec![Done {
            what: found.texts.clone(),
            at,
        }];
        self.saved = plans.map(|what| Done { what, at }).collect();
        self.began = at;
    }

    /// What stands in the fields now.
    pub fn texts(&self) -> Texts {
        self.typed
            .last()
            .map(|last| last.what.clone())
            .unwrap_or_default()
    }

    /// Someone is about to type so that this stands in the fields.
    pub fn types(&mut self, texts: Texts) {
        self.typed.push(Done {
            what: texts,
            at: None,
        });
    }

    /// It stands there.
    pub fn has_typed(&mut self) {
        if let Some(last) = self.typed.last_mut() {
            last.at = Some(Instant::now());
        }
    }

    /// Someone is about to save what stands in the fields.
    pub fn saves(&mut self, name: &str) {
        self.saved.push(Done {
            what: (name.to_owned(), self.texts()),
            at: None,
        });
    }

    /// It is saved.
    pub fn has_saved(&mut self) {
        if let Some(last) = self.saved.last_mut() {
            last.at = Some(Instant::now());
        }
    }

    /// Holds what is found after a kill against what is remembered, says what was lost, and starts
    /// anew. Whatever stood there when the page had come up was found on the device and must be there
    /// again; so must be what was done `keep` before the kill.
    pub fn compare(
        &mut self,
        found: &Found,
        killed: Instant,
        keep: Option<Duration>,
    ) -> Result<Loss> {
        let began = self.began.context("nobody has typed")?;
        let bound = keep.and_then(|keep| killed.checked_sub(keep));
        let must_be = |at: Option<Instant>| {
            at.is_some_and(|at| at <= began || bound.is_some_and(|bound| at <= bound))
        };

        let kept = self
            .typed
            .iter()
            .rposition(|typed| typed.what == found.texts)
            .with_context(|| format!("{:?} was never typed", found.texts))?;
        let gone = &self.typed[kept + 1..];
        let too_old = gone.iter().find(|typed| must_be(typed.at));
        ensure!(
            too_old.is_none(),
            "{too_old:?} is lost, killed at {killed:?}; found {:?}",
            found.texts
        );
        let first_lost = gone.first().and_then(|typed| typed.at);
        let text = first_lost.map_or(Duration::ZERO, |at| killed.saturating_duration_since(at));

        for (name, texts) in &found.plans {
            let known = self.saved.iter().any(|saved| {
                let (saved, with) = &saved.what;
                saved == name && with == texts
            });
            ensure!(known, "{name} was never saved with {texts:?}");
        }
        let gone: Vec<_> = self
            .saved
            .iter()
            .filter(|saved| saved.at.is_some() && !found.plans.contains_key(&saved.what.0))
            .collect();
        let too_old = gone.iter().find(|saved| must_be(saved.at));
        ensure!(
            too_old.is_none(),
            "{too_old:?} is lost, killed at {killed:?}"
        );

        let loss = Loss {
            after: killed.saturating_duration_since(began),
            keys: self.typed.len() - 1,
            text,
            plans: gone.len(),
        };
        self.start(found);
        Ok(loss)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(weight: &str, plans: &[&str]) -> Found {
        let texts = [weight, "", ""].map(str::to_owned);
        let plans = plans
            .iter()
            .map(|name| ((*name).to_owned(), texts.clone()))
            .collect();
        Found { texts, plans }
    }

    /// Someone who found a 1, typed 12, saved that as A, typed 123 and was struck at the next key.
    fn memory() -> Memory {
        let mut memory = Memory::default();
        memory.start(&found("1", &[]));
        for text in ["12", "123", "1234"] {
            rest();
            memory.types([text, "", ""].map(str::to_owned));
            if text != "1234" {
                memory.has_typed();
            }
            if text == "12" {
                memory.saves("A");
                memory.has_saved();
            }
        }
        memory
    }

    /// So that no two times are the same.
    fn rest() {
        std::thread::sleep(Duration::from_millis(2));
    }

    fn compare(found: &Found, keep: Option<Duration>) -> Result<Loss> {
        rest();
        memory().compare(found, Instant::now(), keep)
    }

    #[test]
    fn what_was_struck_last_may_be_there_or_not() {
        let all = found("12", &["A"]);
        for weight in ["1234", "123"] {
            let found = Found {
                texts: [weight, "", ""].map(str::to_owned),
                plans: all.plans.clone(),
            };
            let loss = compare(&found, Some(Duration::ZERO)).expect("nothing is lost");
            assert_eq!((loss.text, loss.plans, loss.keys), (Duration::ZERO, 0, 3));
        }
    }

    #[test]
    fn what_is_lost_is_measured_or_refused() {
        let none = found("1", &[]);
        let loss = compare(&none, None).expect("the browser may lose it");
        assert!(loss.text > Duration::ZERO && loss.plans == 1, "{loss:?}");
        assert!(compare(&none, Some(Duration::from_secs(9))).is_ok());
        assert!(compare(&none, Some(Duration::ZERO)).is_err());
    }

    #[test]
    fn what_was_never_done_or_was_there_before_is_no_loss_but_damage() {
        assert!(compare(&found("", &[]), None).is_err());
        assert!(compare(&found("13", &[]), None).is_err());
        assert!(compare(&found("1", &["B"]), None).is_err());
        // With other texts than it was saved with.
        assert!(compare(&found("1", &["A"]), None).is_err());
    }
}
