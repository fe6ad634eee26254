//! How far each input usually strays, with where that is known from.
//!
//! A starting point that the user replaces: few of these are published. What
//! is not is marked an estimate and says so on the screen.

use carcass::Mark;
use quantity::Decimal;
use wording::text;

use crate::case::Case;
use crate::input::Input;
use crate::what_if::WhatIf;

/// An input with the low and the high end it is put to, in its unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InputSpread {
    /// What is moved.
    pub input: Input,
    /// The low end.
    pub low: Decimal,
    /// The high end.
    pub high: Decimal,
}

/// A spread with where it comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StatedSpread {
    /// The ends.
    pub spread: InputSpread,
    /// How well it is known.
    pub mark: Mark,
    /// Where it comes from.
    pub source: &'static str,
}

/// How an input strays from where it stands.
#[derive(Clone, Copy)]
enum Strays {
    /// By so many hundredths of its unit.
    By(i64),
    /// By so many percent of itself.
    ByPercent(i64),
}

struct Stated {
    strays: Strays,
    mark: Mark,
    source: &'static str,
}

fn estimate(strays: Strays) -> Stated {
    Stated {
        strays,
        mark: Mark::Estimate,
        source: text!("No published figure: an estimate, put your own"),
    }
}

fn stated(input: Input) -> Stated {
    match input {
        Input::Weight => estimate(Strays::ByPercent(2)),
        Input::SidePrice => estimate(Strays::ByPercent(5)),
        Input::LabourMinutes | Input::Packaging => estimate(Strays::ByPercent(20)),
        Input::LabourRate | Input::Price(_) => estimate(Strays::ByPercent(10)),
        Input::Stock | Input::Charges => estimate(Strays::By(2500)),
        Input::Board => estimate(Strays::By(500)),
        Input::Unsold => Stated {
            strays: Strays::By(200),
            mark: Mark::Estimate,
            source: text!(
                "Spread an estimate; the mean retail loss of fresh meat, poultry and seafood \
                     is 4.5 % (USDA ERS, EIB-44, 2009)"
            ),
        },
        Input::Saleable => Stated {
            strays: Strays::By(385),
            mark: Mark::Derived,
            source: text!(
                "One standard deviation of a fed side of unknown grade, 3.6 to 4.1 points: \
                     spread of yield grade 0.89 times 4.0 to 4.6 points a grade (Kansas State \
                     University 1996, 1976)"
            ),
        },
        Input::Yield(_) => Stated {
            strays: Strays::By(800),
            mark: Mark::Estimate,
            source: text!(
                "One standard deviation at a given side weight is 5.9 to 11.3 % by cut \
                     (derived from Judge et al. 2019, J Anim Sci 97:2769); 8 % stands for all"
            ),
        },
    }
}

/// The spread of `input` around where it stands in `what_if`, kept within
/// [`Input::bounds`].
pub fn stated_spread(case: &Case, what_if: &WhatIf, input: Input) -> StatedSpread {
    let stated = stated(input);
    let stands = what_if.value(case, input);
    let by = match stated.strays {
        Strays::By(hundredths) => Decimal::new(hundredths, 2),
        Strays::ByPercent(percent) => stands.abs().saturating_mul(Decimal::new(percent, 2)),
    };
    let bounds = input.bounds(&what_if.adjusted(case));
    StatedSpread {
        spread: InputSpread {
            input,
            low: stands.saturating_sub(by).max(bounds.least),
            high: stands.saturating_add(by).min(bounds.most),
        },
        mark: stated.mark,
        source: stated.source,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::any_case::plain_case;

    fn ends(what_if: &WhatIf, input: Input) -> [Decimal; 2] {
        let spread = stated_spread(&plain_case(), what_if, input).spread;
        [spread.low, spread.high]
    }

    #[test]
    fn a_spread_lies_around_where_the_input_stands() {
        let moved = WhatIf::default().with(Input::Weight, Decimal::from(200));
        assert_eq!(ends(&moved, Input::Weight), [196, 204].map(Decimal::from));
        assert_eq!(
            ends(&moved, Input::Saleable),
            [-385, 385].map(|hundredths| Decimal::new(hundredths, 2))
        );
    }

    #[test]
    fn a_spread_stops_at_the_bounds() {
        assert_eq!(
            ends(&WhatIf::default(), Input::Stock),
            [0, 25].map(Decimal::from)
        );
        let none_unsold = WhatIf::default().with(Input::Unsold, Decimal::ONE);
        assert_eq!(ends(&none_unsold, Input::Unsold), [0, 3].map(Decimal::from));
    }
}
