//! What a file of records adds to those that are here: another phone's sides, or
//! an archive that is opened again. Nothing that is here changes. A side that is
//! not here yet gets the next free number; one that is here already is not taken
//! twice.

use std::collections::BTreeMap;

use scale::grinding_log::LARGEST_BYTES;
use scale::{ClosedTest, GrindingLog};

use crate::bought_kept::{self, PIECE};
use crate::ledger::{GRINDING, Ledger, SETTINGS, TEST};
use crate::paper::{MOST_PAPERS, PAPER};
use crate::settings::Settings;

/// What would be added.
#[derive(Default)]
pub(crate) struct Joining {
    /// The sides that are new here.
    pub(crate) sides: usize,
    /// The sides that are here already.
    pub(crate) known: usize,
    /// The batches of grind that are new here.
    pub(crate) batches: usize,
    /// The bought-in pieces that are new here.
    pub(crate) pieces: usize,
    /// The sides whose weighings and reports come with it.
    pub(crate) reports: usize,
    /// Codes of batches that stay in the file: there is another batch of that code
    /// here, or no room in the log.
    pub(crate) clashing: Vec<String>,
    /// What stays in the file since it cannot be read or was not closed.
    pub(crate) left: usize,
    texts: BTreeMap<String, String>,
}

impl Joining {
    /// What a file with these texts would add.
    pub(crate) fn of(ledger: &Ledger, items: &BTreeMap<String, String>) -> Self {
        let mut joining = Self::default();
        joining.add_sides(ledger, items);
        joining.add_pieces(ledger, items);
        joining.add_batches(ledger, items);
        joining.remember_schemes(ledger, items);
        let is_open = |key: &&String| *key == "bench" || key.starts_with("waiting.");
        joining.left += items.keys().filter(is_open).count();
        joining
    }

    /// Whether there is nothing to add.
    pub(crate) fn is_nothing(&self) -> bool {
        self.texts.is_empty()
    }

    /// How many bytes more it takes at the most.
    pub(crate) fn bytes(&self) -> usize {
        let texts = self.texts.iter();
        texts.map(|(key, text)| key.len() + text.len()).sum()
    }

    /// The texts to keep.
    pub(crate) fn into_texts(self) -> BTreeMap<String, String> {
        self.texts
    }

    fn add_sides(&mut self, ledger: &Ledger, items: &BTreeMap<String, String>) {
        let mut next = ledger.free_number(TEST);
        let mut coming: Vec<ClosedTest> = Vec::new();
        let mut papers = Vec::new();
        for (number, text) in numbered(items, TEST) {
            let Ok(test) = ClosedTest::of_text(text) else {
                self.left += 1;
                continue;
            };
            let mut here = ledger.tests().iter();
            let there = here.find(|(_, known)| known.is_same_side(&test));
            let to = if let Some((known, _)) = there {
                self.known += 1;
                *known
            } else if coming.iter().any(|known| known.is_same_side(&test)) {
                self.known += 1;
                continue;
            } else {
                let number = next;
                self.sides += 1;
                self.texts
                    .insert(format!("{TEST}{number}"), text.to_owned());
                coming.push(test);
                next = next.saturating_add(1);
                number
            };
            papers.push((format!("{PAPER}{number}"), format!("{PAPER}{to}")));
        }
        // The last ones, as far as there is room for them.
        let room = MOST_PAPERS.saturating_sub(ledger.kept.under(PAPER).count());
        let is_new = |(_, to): &&(String, String)| ledger.kept.text(to).is_none();
        let papers: Vec<_> = papers
            .iter()
            .filter(is_new)
            .filter_map(|(of, to)| Some((to, items.get(of)?)))
            .collect();
        for (to, paper) in papers.into_iter().rev().take(room) {
            self.reports += 1;
            self.texts.insert(to.clone(), paper.clone());
        }
    }

    fn add_pieces(&mut self, ledger: &Ledger, items: &BTreeMap<String, String>) {
        let mut next = ledger.free_number(PIECE);
        for (_, text) in numbered(items, PIECE) {
            if bought_kept::check(text).is_err() {
                self.left += 1;
                continue;
            }
            let mut here = ledger.kept.under(PIECE);
            let is_here = here.any(|(_, known)| known == text);
            if !is_here && !self.texts.values().any(|known| known == text) {
                self.pieces += 1;
                self.texts.insert(format!("{PIECE}{next}"), text.to_owned());
                next = next.saturating_add(1);
            }
        }
    }

    fn add_batches(&mut self, ledger: &Ledger, items: &BTreeMap<String, String>) {
        let Some(text) = items.get(GRINDING) else {
            return;
        };
        let Ok((coming, _)) = GrindingLog::of_text(text) else {
            self.left += 1;
            return;
        };
        let mut log = ledger.log().clone();
        self.clashing = log.join(&coming);
        let added = log.batches().len() - ledger.log().batches().len();
        let text = log.to_text();
        if text.len() > LARGEST_BYTES {
            let codes = coming.batches().iter().map(|batch| batch.code.clone());
            self.clashing = codes
                .filter(|code| ledger.log().batch(code).is_none())
                .collect();
        } else if added > 0 {
            self.batches = added;
            self.texts.insert(GRINDING.to_owned(), text);
        }
    }

    /// The settings stay as they are here. The schemes that labels of the sides
    /// were printed by are remembered, so that they lead to them here too.
    fn remember_schemes(&mut self, ledger: &Ledger, items: &BTreeMap<String, String>) {
        if self.sides == 0 {
            return;
        }
        let theirs = items.get(SETTINGS).map(String::as_str).unwrap_or_default();
        let theirs = Settings::of_text(theirs);
        let mut settings = ledger.settings.clone();
        let own: Vec<_> = settings.earlier().iter().rev().cloned().collect();
        settings.remember(theirs.earlier().iter().rev().cloned());
        settings.remember([theirs.scheme]);
        settings.remember(own);
        if settings != ledger.settings {
            self.texts.insert(SETTINGS.to_owned(), settings.to_text());
        }
    }
}

/// The texts under a beginning in the order of their numbers.
fn numbered<'a>(items: &'a BTreeMap<String, String>, of: &str) -> Vec<(u32, &'a str)> {
    let mut all: Vec<(u32, &str)> = items
        .iter()
        .filter_map(|(key, text)| Some((key.strip_prefix(of)?.parse().ok()?, text.as_str())))
        .collect();
    all.sort_unstable();
    all
}
