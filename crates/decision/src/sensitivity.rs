//! Bars: each input alone put to its low and to its high end, and what that
//! does to the margin and to the walk-away price.
//!
//! A bar stands for its own input only: what two inputs do together is the
//! grid's business. Where a figure is linear in an input with coefficient `c`,
//! its ends lie `c · (high − stands)` and `c · (low − stands)` from the middle,
//! so the bar is symmetric where the spread is.

use pricing::PricingError;
use quantity::{Decimal, Share, UnitPrice};

use crate::case::Case;
use crate::input::Input;
use crate::stated_spread::InputSpread;
use crate::what_if::{Reading, WhatIf};

/// One end of a bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct End {
    /// Where the input was put, in its unit.
    pub value: Decimal,
    /// What the side then says.
    pub reading: Reading,
}

/// What one input does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bar {
    /// What is moved.
    pub input: Input,
    /// Where it stands.
    pub stands: Decimal,
    /// At the low end of its spread.
    pub low: End,
    /// At the high end.
    pub high: End,
}

impl Bar {
    /// How far apart the ends are in margin, always from nothing up.
    pub fn margin_swing(&self) -> Share {
        let (low, high) = (self.low.reading.margin, self.high.reading.margin);
        low.max(high) - low.min(high)
    }

    /// How far apart the ends are in walk-away price, always from nothing up.
    pub fn walk_away_swing(&self) -> UnitPrice {
        let (low, high) = (self.low.reading.walk_away, self.high.reading.walk_away);
        low.max(high) - low.min(high)
    }
}

/// The bars of a case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bars {
    /// What the side says where every input stands as it is.
    pub middle: Reading,
    /// One bar for each input, widest in margin first.
    pub bars: Vec<Bar>,
}

impl Bars {
    /// Widest in margin first; of equals the one wider in walk-away price,
    /// then the earlier input.
    pub fn sort_by_margin(&mut self) {
        self.bars.sort_unstable_by(|a, b| {
            (b.margin_swing(), b.walk_away_swing(), a.input).cmp(&(
                a.margin_swing(),
                a.walk_away_swing(),
                b.input,
            ))
        });
    }

    /// Widest in walk-away price first; of equals the one wider in margin,
    /// then the earlier input.
    pub fn sort_by_walk_away(&mut self) {
        self.bars.sort_unstable_by(|a, b| {
            (b.walk_away_swing(), b.margin_swing(), a.input).cmp(&(
                a.walk_away_swing(),
                a.margin_swing(),
                b.input,
            ))
        });
    }
}

/// Puts each input of `spreads` alone to its low and its high end, all else as
/// in `what_if`.
///
/// # Errors
/// As [`Case::sheet`]; a spread whose end cannot be priced stops the whole.
pub fn bars(case: &Case, what_if: &WhatIf, spreads: &[InputSpread]) -> Result<Bars, PricingError> {
    let end = |input, value| {
        let reading = what_if.with(input, value).reading(case)?;
        Ok(End { value, reading })
    };
    let mut bars = Bars {
        middle: what_if.reading(case)?,
        bars: spreads
            .iter()
            .map(|spread| {
                Ok(Bar {
                    input: spread.input,
                    stands: what_if.value(case, spread.input),
                    low: end(spread.input, spread.low)?,
                    high: end(spread.input, spread.high)?,
                })
            })
            .collect::<Result<_, PricingError>>()?,
    };
    bars.sort_by_margin();
    Ok(bars)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use proptest::sample::Index;

    use super::*;
    use crate::any_case::{any_case, plain_case};
    use crate::stated_spread::stated_spread;
    use crate::what_if::tests::{any_cut, inputs};

    fn last_digits() -> Decimal {
        Decimal::new(1, 18)
    }

    #[test]
    fn the_widest_stands_first() {
        let case = plain_case();
        let cut = case
            .catalogue
            .product_id("ribeye-steak")
            .expect("a product");
        let spreads =
            inputs(cut).map(|input| stated_spread(&case, &WhatIf::default(), input).spread);
        let mut bars = bars(&case, &WhatIf::default(), &spreads).expect("bars");
        assert_eq!(bars.bars.len(), spreads.len());
        assert!(
            bars.bars
                .is_sorted_by_key(|bar| core::cmp::Reverse(bar.margin_swing()))
        );
        bars.sort_by_walk_away();
        assert!(
            bars.bars
                .is_sorted_by_key(|bar| core::cmp::Reverse(bar.walk_away_swing()))
        );
        let side_price = bars.bars.last().expect("a bar");
        assert_eq!(side_price.input, Input::SidePrice);
        assert!(side_price.walk_away_swing().is_zero());
        assert!(side_price.margin_swing() > Share::ZERO);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(24))]

        #[test]
        fn a_linear_input_has_a_symmetric_bar(case in any_case(), choice in any::<Index>()) {
            let cut = any_cut(&case.sheet().expect("a sheet"), choice);
            for input in inputs(cut) {
                let stands = input.planned(&case);
                // Half of the room to the nearer bound, at most a tenth.
                let bounds = input.bounds(&case);
                let room = (stands - bounds.least).min(bounds.most - stands) / Decimal::TWO;
                let by = room.min(Decimal::new(1, 1));
                if !input.is_linear() || by <= Decimal::ZERO {
                    continue;
                }
                let spread = InputSpread { input, low: stands - by, high: stands + by };
                let bars = bars(&case, &WhatIf::default(), &[spread]).expect("bars");
                let [bar] = bars.bars[..] else { panic!("one bar") };
                let below = bars.middle.walk_away - bar.low.reading.walk_away;
                let above = bar.high.reading.walk_away - bars.middle.walk_away;
                let apart = (above - below).per_lb().abs();
                prop_assert!(apart < last_digits(), "{:?}: {}", input, apart);
                // Sales stay, so the margin is linear as well.
                if matches!(
                    input,
                    Input::SidePrice | Input::Charges | Input::LabourMinutes
                        | Input::LabourRate | Input::Packaging
                ) {
                    let below = bars.middle.margin - bar.low.reading.margin;
                    let above = bar.high.reading.margin - bars.middle.margin;
                    let apart = (above - below).fraction().abs();
                    prop_assert!(apart < last_digits(), "{:?}: {}", input, apart);
                }
            }
        }
    }
}
