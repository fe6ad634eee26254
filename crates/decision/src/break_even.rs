//! Where the side stops paying, in any one input.
//!
//! What is left above the target, `profit − m · sales`, is a straight line in
//! every input that [`Input::is_linear`] names: two points give the line, and
//! where it meets nothing is one quotient. Elsewhere the bounds are cut into
//! stretches, a stretch over which the answer turns is halved until it is
//! shorter than any figure shown, and the end of it that pays is the answer.
//! Two turns within one stretch would be overlooked; of turns in several
//! stretches the one nearest to where the input stands counts.

use pricing::{Judged, Outcome, PricingError};
use quantity::{Decimal, Money, Share};

use crate::case::Case;
use crate::input::{Bounds, Input};
use crate::what_if::WhatIf;

/// How far an input may go until the side stops paying: making the target
/// margin. Within the bounds of [`Input::bounds`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BreakEven {
    /// It pays wherever the input stands.
    Always,
    /// It pays nowhere.
    Never,
    /// It pays from this number up.
    AtLeast(Decimal),
    /// It pays up to this number.
    AtMost(Decimal),
}

/// Stretches into which the bounds are cut.
const STRETCHES: u32 = 16;

/// Decimal places of a number found by halving.
const PLACES: u32 = 8;

/// Where `input` stops the side from paying while all else is as in `what_if`.
///
/// # Errors
/// As [`Case::sheet`].
pub fn break_even(case: &Case, what_if: &WhatIf, input: Input) -> Result<BreakEven, PricingError> {
    let mut others = what_if.clone();
    others.clear(input);
    let bounds = input.bounds(&others.adjusted(case));
    let question = Question {
        case,
        what_if,
        input,
        stands: what_if.value(case, input),
        target: case.shop.target_margin,
    };
    if input.is_linear() {
        question.on_a_line(bounds)
    } else {
        question.by_halving(bounds)
    }
}

struct Question<'a> {
    case: &'a Case<'a>,
    what_if: &'a WhatIf,
    input: Input,
    stands: Decimal,
    target: Share,
}

impl Question<'_> {
    fn judged_at(&self, value: Decimal) -> Result<Judged, PricingError> {
        self.what_if.with(self.input, value).judge(self.case)
    }

    /// What is left above the target.
    fn left_at(&self, value: Decimal) -> Result<Money, PricingError> {
        let totals = self.judged_at(value)?.totals;
        Ok(totals.profit() - totals.sales * self.target)
    }

    /// Without anything sold a side does not pay.
    fn pays_at(&self, value: Decimal) -> Result<bool, PricingError> {
        match self.judged_at(value) {
            Ok(judged) => Ok(judged.verdict.outcome == Outcome::Pays),
            Err(PricingError::NoSales) => Ok(false),
            Err(error) => Err(error),
        }
    }

    /// A second point on the line, far enough off to tell its slope.
    fn other_point(&self, bounds: Bounds) -> Decimal {
        match self.input {
            Input::Unsold if self.stands > Decimal::ZERO => Decimal::ZERO,
            Input::Unsold => bounds
                .most
                .checked_div(Decimal::TWO)
                .unwrap_or_default()
                .min(Decimal::ONE),
            _ => self.stands.saturating_add(Decimal::ONE_HUNDRED),
        }
    }

    fn on_a_line(&self, bounds: Bounds) -> Result<BreakEven, PricingError> {
        let left = self.left_at(self.stands)?;
        let other = self.other_point(bounds);
        let rise = self.left_at(other)? - left;
        // Where the line meets nothing: x + left · (other − x) ⁄ (left − left at other).
        let run = other.saturating_sub(self.stands);
        let Some(way) = left
            .units()
            .saturating_mul(run)
            .checked_div((-rise).units())
        else {
            return Ok(if left >= Money::ZERO {
                BreakEven::Always
            } else {
                BreakEven::Never
            });
        };
        let at = self.stands.saturating_add(way);
        let rises = (rise > Money::ZERO) == (run > Decimal::ZERO);
        Ok(match (rises, at < bounds.least, at > bounds.most) {
            (true, true, _) | (false, _, true) => BreakEven::Always,
            (true, _, true) | (false, true, _) => BreakEven::Never,
            (true, false, false) => BreakEven::AtLeast(at),
            (false, false, false) => BreakEven::AtMost(at),
        })
    }

    fn by_halving(&self, bounds: Bounds) -> Result<BreakEven, PricingError> {
        let mut points = stretches(bounds);
        // Where the input stands is a point of its own, so that the answer
        // never contradicts the sheet.
        if bounds.least < self.stands && self.stands < bounds.most {
            points.push(self.stands);
            points.sort_unstable();
        }
        let mut nearest: Option<Turn> = None;
        let mut before: Option<(Decimal, bool)> = None;
        for point in points {
            let pays = self.pays_at(point)?;
            if let Some((low, low_pays)) = before
                && low_pays != pays
            {
                let turn = Turn {
                    low,
                    high: point,
                    low_pays,
                };
                let off = |turn: &Turn| turn.off(self.stands);
                if nearest.as_ref().is_none_or(|known| off(&turn) < off(known)) {
                    nearest = Some(turn);
                }
            }
            before = Some((point, pays));
        }
        match (nearest, before) {
            (Some(turn), _) => self.halve(turn),
            (None, Some((_, true))) => Ok(BreakEven::Always),
            (None, _) => Ok(BreakEven::Never),
        }
    }

    fn halve(&self, mut turn: Turn) -> Result<BreakEven, PricingError> {
        let enough = Decimal::new(1, PLACES);
        while turn.high.saturating_sub(turn.low) > enough {
            let middle = turn
                .low
                .saturating_add(turn.high)
                .checked_div(Decimal::TWO)
                .unwrap_or(turn.low);
            if self.pays_at(middle)? == turn.low_pays {
                turn.low = middle;
            } else {
                turn.high = middle;
            }
        }
        Ok(if turn.low_pays {
            BreakEven::AtMost(turn.low)
        } else {
            BreakEven::AtLeast(turn.high)
        })
    }
}

/// A stretch over which the answer turns.
struct Turn {
    low: Decimal,
    high: Decimal,
    low_pays: bool,
}

impl Turn {
    /// How far it is from `point`.
    fn off(&self, point: Decimal) -> Decimal {
        self.low
            .saturating_sub(point)
            .max(point.saturating_sub(self.high))
            .max(Decimal::ZERO)
    }
}

/// Both bounds and points at even steps between them.
fn stretches(bounds: Bounds) -> Vec<Decimal> {
    let whole = bounds.most.saturating_sub(bounds.least);
    let mut points: Vec<Decimal> = (0..STRETCHES)
        .filter_map(|step| {
            let way = whole
                .saturating_mul(Decimal::from(step))
                .checked_div(Decimal::from(STRETCHES))?;
            Some(bounds.least.saturating_add(way))
        })
        .collect();
    points.push(bounds.most);
    points
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use proptest::sample::Index;
    use quantity::{UnitPrice, typed};

    use super::*;
    use crate::any_case::{any_case, plain_case};
    use crate::what_if::tests::{any_cut, inputs};

    fn pays(case: &Case, input: Input, value: Decimal) -> bool {
        match WhatIf::default().with(input, value).apply(case) {
            Ok(sheet) => sheet.verdict.outcome == Outcome::Pays,
            Err(error) => {
                assert_eq!(error, PricingError::NoSales);
                false
            }
        }
    }

    /// Puts the answer back.
    #[track_caller]
    fn holds(case: &Case, input: Input, answer: BreakEven) {
        let bounds = input.bounds(case);
        let stands = input.planned(case);
        let (at, beyond) = match answer {
            BreakEven::Always => return assert!(pays(case, input, stands), "{input:?}"),
            BreakEven::Never => return assert!(!pays(case, input, stands), "{input:?}"),
            BreakEven::AtLeast(at) => (at, -Decimal::ONE),
            BreakEven::AtMost(at) => (at, Decimal::ONE),
        };
        assert!(bounds.least <= at && at <= bounds.most, "{input:?} {at}");
        let step = beyond
            * if input.is_linear() {
                Decimal::new(1, 4)
            } else {
                Decimal::new(3, 4)
            };
        assert!(!pays(case, input, at + step), "{input:?} pays beyond {at}");
        let back = WhatIf::default().with(input, at);
        let sheet = back.apply(case).expect("a sheet at its break-even");
        if input.is_linear() {
            let missed = sheet.verdict.margin - case.shop.target_margin;
            assert!(
                missed.fraction().abs() < Decimal::new(1, 15),
                "{input:?} {at}: {missed:?}"
            );
        } else {
            assert_eq!(sheet.verdict.outcome, Outcome::Pays, "{input:?} {at}");
        }
    }

    #[test]
    fn the_side_price_stops_at_the_walk_away_price() {
        let case = plain_case();
        let walk_away = case.sheet().expect("a sheet").verdict.walk_away;
        let answer = break_even(&case, &WhatIf::default(), Input::SidePrice).expect("an answer");
        let BreakEven::AtMost(at) = answer else {
            panic!("{answer:?}");
        };
        let apart = UnitPrice::from_per_kg(at) - walk_away;
        assert!(apart.per_lb().abs() < Decimal::new(1, 20), "{apart:?}");
    }

    #[test]
    fn what_is_given_away_always_pays_and_what_costs_the_world_never_does() {
        let mut case = plain_case();
        case.deal.price = UnitPrice::ZERO;
        let ask = |case: &Case, input| break_even(case, &WhatIf::default(), input);
        let grass = ask(&case, Input::Stock);
        assert_eq!(grass, Ok(BreakEven::Always));
        case.deal.price = UnitPrice::from_per_kg(Decimal::ONE_HUNDRED);
        for input in [
            Input::Stock,
            Input::LabourMinutes,
            Input::Packaging,
            Input::Saleable,
        ] {
            assert_eq!(ask(&case, input), Ok(BreakEven::Never), "{input:?}");
        }
        // An empty board leaves nothing to ask about.
        case.shop.labour.rate = quantity::LabourRate::ZERO;
        assert_eq!(ask(&case, Input::LabourMinutes), Ok(BreakEven::Never));
    }

    #[test]
    fn a_side_on_the_edge_pays_down_to_the_yield_it_was_bought_on() {
        let mut case = plain_case();
        let sheet = case.sheet().expect("a sheet");
        case.deal.price = sheet.verdict.walk_away - UnitPrice::from_per_kg(Decimal::new(5, 1));
        let answer = break_even(&case, &WhatIf::default(), Input::Saleable).expect("an answer");
        let BreakEven::AtLeast(at) = answer else {
            panic!("{answer:?}");
        };
        assert!(at < Decimal::ZERO && at > Decimal::from(-10), "{at}");
        holds(&case, Input::Saleable, answer);
    }

    #[test]
    fn it_is_asked_of_the_side_as_moved() {
        let case = plain_case();
        let dearer = WhatIf::default().with(Input::Board, Decimal::TEN);
        let ask = |what_if: &WhatIf| match break_even(&case, what_if, Input::SidePrice) {
            Ok(BreakEven::AtMost(at)) => at,
            other => panic!("{other:?}"),
        };
        assert!(ask(&dearer) > ask(&WhatIf::default()));
        let moved = dearer.with(Input::SidePrice, Decimal::from(3));
        assert!((ask(&moved) - ask(&dearer)).abs() < Decimal::new(1, 20));
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(24))]

        #[test]
        fn put_back_it_makes_the_target(case in any_case(), choice in any::<Index>()) {
            let cut = any_cut(&case.sheet().expect("a sheet"), choice);
            for input in inputs(cut) {
                if !input.is_linear() {
                    continue;
                }
                match break_even(&case, &WhatIf::default(), input) {
                    Ok(answer) => holds(&case, input, answer),
                    Err(error) => prop_assert!(false, "{:?}: {}", input, error),
                }
            }
        }
    }

    proptest! {
            #![proptest_config(ProptestConfig::with_cases(3))]

            #[test]
            fn a_root_pays_and_beyond_it_nothing_does(
                mut case in any_case(),
                choice in any::<Index>(),
                cents in -100_i64..100,
            ) {
                let sheet = case.sheet().expect("a sheet");
                case.deal.price =
                    sheet.verdict.walk_away + UnitPrice::from_per_kg(Decimal::new(cents, 2));
                let cut = any_cut(&sheet, choice);
                for input in [Input::Weight, Input::Stock, Input::Saleable, Input::Yield(cut)] {
                    match break_even(&case, &WhatIf::default(), input) {
                        Ok(answer) => holds(&case, input, answer),
                        Err(error) => prop_assert!(false, "{:?}: {}", input, error),
                    }
                }
            }

            #[test]
            fn no_number_that_is_moved_stops_the_answer(
                case in any_case(),
                choice in any::<Index>(),
                asked in any::<Index>(),
                moved in any::<Index>(),
                value in prop::sample::select(vec![
                    Decimal::ZERO,
                    Decimal::ONE_HUNDRED,
                    typed::LARGEST,
                    -typed::LARGEST,
                ]),
            ) {
                let inputs = inputs(any_cut(&case.sheet().expect("a sheet"), choice));
                let what_if = WhatIf::default().with(*moved.get(&inputs), value);
                let _ = break_even(&case, &what_if, *asked.get(&inputs));
            }
    }
}
