//! The words for what is chosen and not typed: as it is kept, and as the
//! choices of the page are called.

use document::format::{AgeForm, MethodForm, RoundToForm, StockFromForm};
use notation::Units;

use crate::Basis;

/// A choice among a few, each with its word.
pub trait Chosen: Copy + PartialEq + 'static {
    /// Every choice with its word.
    const WORDS: &'static [(Self, &'static str)];

    /// The word for it.
    fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(choice, _)| *choice == self)
            .map_or("", |(_, word)| word)
    }

    /// What a word stands for.
    fn of_word(word: &str) -> Option<Self> {
        Self::WORDS
            .iter()
            .find(|(_, known)| *known == word)
            .map(|(choice, _)| *choice)
    }
}

impl Chosen for Units {
    const WORDS: &'static [(Self, &'static str)] = &[(Self::Kilograms, "kg"), (Self::Pounds, "lb")];
}

impl Chosen for Basis {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Cold, "cold"),
        (Self::Hot, "hot"),
        (Self::Live, "live"),
    ];
}

impl Chosen for AgeForm {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::Unknown, "unknown"),
        (Self::Under30Months, "under-30"),
        (Self::Over30Months, "over-30"),
    ];
}

impl Chosen for StockFromForm {
    const WORDS: &'static [(Self, &'static str)] =
        &[(Self::Preset, "preset"), (Self::Grade, "grade")];
}

impl Chosen for RoundToForm {
    const WORDS: &'static [(Self, &'static str)] = &[(Self::Up, "up"), (Self::Nearest, "nearest")];
}

impl Chosen for MethodForm {
    const WORDS: &'static [(Self, &'static str)] = &[
        (Self::PhysicalWeight, "physical-weight"),
        (Self::SalesValueAtSplitOff, "sales-value-at-split-off"),
        (Self::NetRealisableValue, "net-realisable-value"),
        (Self::ConstantGrossMargin, "constant-gross-margin"),
    ];
}

impl Chosen for bool {
    const WORDS: &'static [(Self, &'static str)] = &[(false, "no"), (true, "yes")];
}
