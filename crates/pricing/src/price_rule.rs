//! What a shop says of the price of a cut before prices are suggested: free to
//! follow the board, pinned, or kept between a floor and a cap.

use quantity::{Mass, UnitPrice};

use crate::suggestion_error::SuggestionError;

/// What may be done to the price of a line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PriceRule {
    /// It follows the board.
    #[default]
    Free,
    /// It stands as typed.
    Pinned(UnitPrice),
    /// It follows the board and stays between two bounds.
    Between {
        /// The lowest price allowed; none is nothing.
        floor: Option<UnitPrice>,
        /// The highest price allowed; none is no bound.
        cap: Option<UnitPrice>,
    },
}

impl PriceRule {
    /// The lowest price the rule allows.
    pub fn floor(self) -> UnitPrice {
        match self {
            Self::Free | Self::Between { floor: None, .. } => UnitPrice::ZERO,
            Self::Pinned(price)
            | Self::Between {
                floor: Some(price), ..
            } => price,
        }
    }

    /// The highest price the rule allows; `None` where there is no bound.
    pub fn cap(self) -> Option<UnitPrice> {
        match self {
            Self::Free => None,
            Self::Pinned(price) => Some(price),
            Self::Between { cap, .. } => cap,
        }
    }
}

/// One line of the board: what is sold of a cut, at what price, and what may
/// be done to the price.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct PricedLine {
    /// Weight that is sold, unsold weight taken off.
    pub weight: Mass,
    /// Price on the board, from which the relation to other lines is taken.
    pub board: UnitPrice,
    /// What may be done to it.
    pub rule: PriceRule,
}

/// Refuses what no factor could make sense of.
pub(crate) fn refuse_unsound(lines: &[PricedLine]) -> Result<(), SuggestionError> {
    for (line, priced) in lines.iter().enumerate() {
        let bounds = [priced.rule.floor(), priced.rule.cap().unwrap_or_default()];
        if priced.weight < Mass::ZERO
            || priced.board < UnitPrice::ZERO
            || bounds.iter().any(|&bound| bound < UnitPrice::ZERO)
        {
            return Err(SuggestionError::BelowZero { line });
        }
        if priced
            .rule
            .cap()
            .is_some_and(|cap| cap < priced.rule.floor())
        {
            return Err(SuggestionError::FloorAboveCap { line });
        }
    }
    Ok(())
}
