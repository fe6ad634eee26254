//! What is asked.

use std::collections::BTreeMap;
use wording::text;

use document::Document;
use notation::Units;
/// The kinds of question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Panel {
    /// The plan with some of its inputs moved.
    Trial,
    /// Grass-fed against grain-fed.
    Stocks,
    /// One input at a time from low to high.
    Bars,
    /// How far each input may go before the side stops paying.
    BreakEven,
    /// Two inputs against each other.
    Grid,
    /// How sure the answer is.
    Spread,
    /// Which plan is best.
    BestPlan,
    /// This plan against another.
    Comparison,
}

impl Panel {
    /// Every panel, in the order they are offered and worked off.
    pub const ALL: [Self; 8] = [
        Self::Trial,
        Self::Spread,
        Self::Stocks,
        Self::Bars,
        Self::BreakEven,
        Self::Grid,
        Self::BestPlan,
        Self::Comparison,
    ];

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Trial => text!("Try other figures"),
            Self::Spread => text!("How sure is it"),
            Self::Stocks => text!("Grass-fed against grain-fed"),
            Self::Bars => text!("What moves it most"),
            Self::BreakEven => text!("How far it may go"),
            Self::Grid => text!("Two figures at once"),
            Self::BestPlan => text!("Best way to cut it"),
            Self::Comparison => text!("Against another plan"),
        }
    }

    /// Its id in a page.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Trial => "trial",
            Self::Spread => "spread",
            Self::Stocks => "stocks",
            Self::Bars => "bars",
            Self::BreakEven => "break-even",
            Self::Grid => "grid",
            Self::BestPlan => "best-plan",
            Self::Comparison => "comparison",
        }
    }
}

/// A question.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Request {
    /// What kind.
    pub panel: Panel,
    /// The plan, in its saved form.
    pub document: Document,
    /// The units to answer in.
    pub units: Units,
    /// What was typed and chosen in the panel, by the id of its control.
    pub entries: BTreeMap<String, String>,
}
