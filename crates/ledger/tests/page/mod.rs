//! A page as far as the ledger knows one: what the browser keeps, what stands in
//! the fields, and the piece that was drawn last.

use std::collections::BTreeMap;

use carcass::{Breakdown, Catalogue, break_down};
use draft::{Draft, reading};
use ledger::{Ledger, wire};
use quantity::Mass;

/// A page with its worker.
pub struct Page {
    ledger: Ledger,
    /// What the browser keeps, by key.
    pub store: BTreeMap<String, String>,
    /// What stands in the fields.
    pub entries: BTreeMap<String, String>,
    /// The piece that was drawn last.
    pub piece: String,
    /// The draft, in its kept form.
    pub draft: String,
    /// The unit of weights in force.
    pub unit: &'static str,
    /// Milliseconds since 1970.
    pub now: u64,
    /// The file or paper that was handed out last.
    pub file: Option<String>,
}

/// The published catalogue.
pub fn published() -> Catalogue {
    Catalogue::published().expect("published data")
}

/// The side that the app fills in as a sample.
pub fn sample() -> Draft {
    let mut draft = Draft::default();
    draft.fill_in_sample();
    draft
}

/// How the plan of a draft breaks its side down.
pub fn planned(catalogue: &Catalogue, draft: &Draft) -> Breakdown {
    let document = reading::read(draft, catalogue).expect("a plan");
    let resolved = document.resolve(catalogue).expect("a plan");
    let (deal, plan) = (resolved.deal, resolved.plan);
    let chilled: Mass = deal.basis.chilled(deal.weight);
    break_down(catalogue, chilled, deal.sides, &plan, deal.stock)
}

impl Page {
    /// A page that is opened for the first time.
    pub fn new() -> Self {
        let mut page = Self {
            ledger: Ledger::new(published()),
            store: BTreeMap::new(),
            entries: BTreeMap::new(),
            piece: String::new(),
            draft: sample().to_text(),
            unit: "kg",
            now: 1_790_000_000_000,
            file: None,
        };
        page.press("");
        page
    }

    /// Opens the page anew, from what the browser has kept.
    pub fn reload(&mut self) {
        self.ledger = Ledger::new(published());
        let kept = self.store.iter();
        let took = wire::take(kept.map(|(key, text)| (key.as_str(), text.as_str())));
        assert!(self.ledger.take(&took));
        self.press("");
    }

    /// Types into a field.
    pub fn type_into(&mut self, name: &str, text: &str) {
        self.entries.insert(name.to_owned(), text.to_owned());
    }

    /// Presses a button.
    pub fn press(&mut self, pressed: &str) {
        let moment = format!(
            "{} 2026-09-21 07:45 {} https://example.org/app/",
            self.now, self.unit
        );
        let entries = self.entries.iter();
        let entries = entries.map(|(name, text)| (name.as_str(), text.as_str()));
        let request = wire::request(&self.draft, &moment, entries, pressed);
        self.ask(&request);
    }

    /// Asks the ledger and does what it answers.
    pub fn ask(&mut self, request: &str) {
        let answer = self.ledger.answer(request).expect("an answer");
        let mut lines = answer.splitn(4, '\n');
        match lines.next() {
            Some(wire::ASK | wire::TAKE_FILE) => {}
            Some("file" | "print") => {
                self.file = Some(answer);
                return;
            }
            other => panic!("no answer begins with {other:?}"),
        }
        for (key, text) in wire::pairs(lines.next().expect("what to keep")) {
            if text == wire::NOTHING {
                self.store.remove(&key);
            } else {
                self.store.insert(key, text);
            }
        }
        for (name, text) in wire::pairs(lines.next().expect("what changed")) {
            if text == wire::NOTHING {
                self.entries.remove(&name);
            } else {
                self.entries.insert(name, text);
            }
        }
        lines.next().expect("a piece").clone_into(&mut self.piece);
    }

    /// All texts of the piece, a line each.
    pub fn text(&self) -> String {
        let texts = self.piece.lines().filter_map(|line| line.strip_prefix('"'));
        texts.collect::<Vec<_>>().join("\n")
    }

    /// Holds the piece to saying this.
    #[track_caller]
    pub fn says(&self, said: &str) {
        let text = self.text();
        assert!(text.contains(said), "“{said}” is not in:\n{text}");
    }

    /// The rows of the table under this caption, its heads first.
    pub fn table(&self, caption: &str) -> Vec<Vec<String>> {
        let caption = format!("\"{caption}\n");
        let (_, after) = self.piece.rsplit_once(&caption).expect("a caption");
        let (_, table) = after.split_once("<table\n").expect("a table");
        let mut rows: Vec<Vec<String>> = Vec::new();
        let mut depth = 1;
        for line in table.lines() {
            match line.split_at(1) {
                ("<", name) => {
                    depth += 1;
                    match (name, rows.last_mut()) {
                        ("tr", _) => rows.push(Vec::new()),
                        ("th" | "td", Some(row)) => row.push(String::new()),
                        _ => {}
                    }
                }
                (">", _) => depth -= 1,
                ("\"", text) => {
                    let cell = rows.last_mut().and_then(|row| row.last_mut());
                    cell.expect("a cell").push_str(text);
                }
                _ => {}
            }
            if depth == 0 {
                break;
            }
        }
        rows
    }

    /// Whether a button of the piece asks for this.
    pub fn offers(&self, pressed: &str) -> bool {
        let wanted = format!("={} {pressed}", advice::wire::WRITES);
        self.piece.lines().any(|line| line == wanted)
    }
}
