//! Where requests are worked off, one small step at a time.

use std::collections::BTreeMap;

use carcass::Catalogue;
use pricing::PricingError;

use crate::answer::Answer;
use crate::block::{Block, Tone};
use crate::form::Form;
use crate::panels::{bars, break_even, comparison, grid, stocks, trial};
use crate::question::Question;
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
    let mut form = Form::new(&request.entries, request.units);
    let blocks = Question::read(catalogue, request)
        .and_then(|question| {
            blocks(request.panel, &question, &mut form).map_err(|error| error.to_string())
        })
        .unwrap_or_else(|trouble| vec![Block::Text(Tone::Trouble, trouble)]);
    Answer {
        panel: request.panel,
        controls: form.into_controls(),
        blocks,
        is_final: true,
    }
}

fn blocks(
    panel: Panel,
    question: &Question,
    form: &mut Form,
) -> Result<Vec<Block>, PricingError> {
    match panel {
        Panel::Trial => trial::answer(question, form),
        Panel::Stocks => stocks::answer(question),
        Panel::Bars => bars::answer(question, form),
        Panel::BreakEven => break_even::answer(question),
        Panel::Grid => grid::answer(question, form),
        Panel::Comparison => comparison::answer(question, form),
        Panel::Spread | Panel::BestPlan => Ok(Vec::new()),
    }
}
