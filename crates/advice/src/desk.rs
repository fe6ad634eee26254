//! Where requests are worked off, one small step at a time.

use std::collections::BTreeMap;

use carcass::Catalogue;
use decision::Case;
use document::Document;

use crate::answer::Answer;
use crate::block::{Block, Tone};
use crate::request::{Panel, Request};

/// A desk with requests on it. A newer request of a panel takes the place of
/// an older one, finished or not.
pub struct Desk {
    catalogue: Catalogue,
    waiting: BTreeMap<Panel, Request>,
}

impl Desk {
    /// An empty desk.
    pub fn new(catalogue: Catalogue) -> Self {
        Self {
            catalogue,
            waiting: BTreeMap::new(),
        }
    }

    /// Puts a request on the desk.
    pub fn ask(&mut self, request: Request) {
        self.waiting.insert(request.panel, request);
    }

    /// Whether there is nothing to do.
    pub fn is_idle(&self) -> bool {
        self.waiting.is_empty()
    }

    /// Does the next step and gives what there is to show after it.
    pub fn step(&mut self) -> Option<Answer> {
        let (_, request) = self.waiting.pop_first()?;
        Some(answer(&self.catalogue, &request))
    }
}

fn answer(catalogue: &Catalogue, request: &Request) -> Answer {
    let panel = request.panel;
    let resolved =
        Document::from_json(&request.document).and_then(|document| document.resolve(catalogue));
    let blocks = match resolved {
        Err(error) => vec![Block::Text(Tone::Trouble, error.to_string())],
        Ok(resolved) => {
            let case = Case {
                catalogue,
                deal: resolved.deal,
                plan: resolved.plan,
                shop: resolved.shop,
            };
            match case.sheet() {
                Err(error) => vec![Block::Text(Tone::Trouble, error.to_string())],
                Ok(sheet) => vec![Block::Text(
                    Tone::Finding,
                    notation::percent(sheet.verdict.margin),
                )],
            }
        }
    };
    Answer {
        panel,
        controls: Vec::new(),
        blocks,
        is_final: true,
    }
}
