//! The end of a weigh-in: what was weighed against what the side weighed.
//!
//! What is missing beyond a tolerance is never hidden. Likely causes are named;
//! what stays unexplained can be accepted, step by step: as loss where weight is
//! missing, and in proportion where more was weighed than there was.

use core::fmt;

use carcass::{Breakdown, Catalogue, Kind, ProductId};
use quantity::{Decimal, Mass, Rounding, Share};
use wording::{say, text};

use crate::composition::products;
use crate::divided::{divide, lines_of};
use crate::unit_slip::{UnitSlip, balances, unit_slips};
use crate::weighing::{Line, WeighIn, planned_lines};

/// How far off a balance may be when nothing else is said: one percent.
pub const USUAL_TOLERANCE: Share = Share::from_fraction(Decimal::from_parts(1, 0, 0, false, 2));

/// Beyond it no weight is lost by hanging alone: 2 to 5 % in 24 hours and more
/// (Univ. of Tennessee Extension PB1822).
pub(crate) const MOST_SHRINK: Share = Share::from_fraction(Decimal::from_parts(5, 0, 0, false, 2));

/// A tray that could be the missing one weighs, by the plan, within this share
/// of what is missing. An estimate: cuts differ from the plan by some 10 %, and
/// shops by more.
const TRAY_ROOM: Share = Share::from_fraction(Decimal::from_parts(4, 0, 0, false, 1));

/// Why a balance may be off. More than one can be likely.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cause {
    /// Weighings that seem to be of another unit.
    UnitSlips(Vec<UnitSlip>),
    /// Products of the plan that never were on the scale and weigh, by the plan,
    /// about what is missing; the likeliest first.
    MissedTray(Vec<(ProductId, Mass)>),
    /// So much is lost between the weighing of the side and the block: drip,
    /// drying, a weight that was taken before the cooler.
    Shrink,
    /// The same reading stands twice on a line: the places of both among all
    /// weighings.
    WeighedTwice(Line, [usize; 2]),
    /// Products on the scale that the plan does not give.
    NotInThePlan(Vec<(Line, Mass)>),
}

/// A weigh-in held against its side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Closing {
    /// The side on the block.
    pub chilled: Mass,
    /// All that was weighed, losses too.
    pub weighed: Mass,
    /// What is missing; below nothing where more was weighed than there was.
    pub difference: Mass,
    /// How far off the balance may be, as a share of the side.
    pub tolerance: Share,
    /// What may be behind it. A unit slip and what the plan does not give are
    /// told within the tolerance too.
    pub causes: Vec<Cause>,
    /// What the plan gives and was not weighed at all, losses aside: it counts as
    /// none, whatever the balance.
    pub not_weighed: Vec<ProductId>,
    pieces: Vec<Mass>,
    losses: Vec<(usize, Mass)>,
}

/// What becomes of a difference beyond the tolerance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unexplained {
    /// It is not accepted.
    Refused,
    /// It is accepted as unexplained loss.
    Accepted,
}

/// Why a weigh-in is not closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotClosed {
    /// Nothing was weighed.
    Nothing,
    /// The difference is beyond the tolerance and was not accepted.
    Unexplained {
        /// What is missing; below nothing where more was weighed.
        difference: Mass,
    },
    /// The plan has no piece for something that was weighed.
    NotInThePlan,
}

impl fmt::Display for NotClosed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nothing => f.write_str(text!("Nothing was weighed: weigh at least one cut.")),
            Self::Unexplained { difference } => {
                let off = Rounding::HalfEven.fixed(difference.kg().abs(), 2);
                f.write_str(&if difference.is_positive() {
                    say!("{off} kg of the side are missing: look for the cause, or accept it as unexplained.", off)
                } else {
                    say!("{off} kg too much were weighed: look for the cause, or accept it as unexplained.", off)
                })
            }
            Self::NotInThePlan => f.write_str(text!(
                "Something was weighed that this plan does not give: change the plan or take the weighing back."
            )),
        }
    }
}

impl core::error::Error for NotClosed {}

/// A side whose weighings were closed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClosedWeights {
    /// The weight of every product of the breakdown, in the order of
    /// [`crate::products`]; together exactly the side.
    pub pieces: Vec<Mass>,
    /// The same as the scale said it; together with what is unexplained exactly
    /// the side.
    pub weighed: Vec<Mass>,
    /// What the scale did not find; below nothing where it found too much.
    pub unexplained: Mass,
    /// What became of that.
    pub settlement: Settlement,
    /// Whether that was beyond the tolerance and accepted.
    pub was_accepted: bool,
}

/// How weights that are not those of the side were made so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Settlement {
    /// Nothing was missing and nothing too much.
    Nothing,
    /// What was missing went to the losses of the plan, as they are planned to
    /// one another.
    ToLosses,
    /// All weights were changed in proportion.
    InProportion,
}

impl ClosedWeights {
    /// Weights that are those of the side.
    pub fn all_found(pieces: Vec<Mass>) -> Self {
        Self {
            weighed: pieces.clone(),
            pieces,
            unexplained: Mass::ZERO,
            settlement: Settlement::Nothing,
            was_accepted: false,
        }
    }
}

/// Holds a weigh-in against the side of `breakdown`. A tolerance below nothing
/// counts as nothing.
pub fn close(
    catalogue: &Catalogue,
    breakdown: &Breakdown,
    weigh_in: &WeighIn,
    tolerance: Share,
) -> Closing {
    let tolerance = tolerance.max(Share::ZERO);
    let chilled = breakdown
        .nodes()
        .first()
        .map(|side| side.weight)
        .unwrap_or_default();
    let divided = divide(breakdown, weigh_in);
    let weighed = weigh_in.total();
    let difference = chilled - weighed;
    let mut causes = Vec::new();
    if !divided.unplanned.is_empty() {
        causes.push(Cause::NotInThePlan(divided.unplanned));
    }
    let slips = unit_slips(catalogue, breakdown, weigh_in, chilled, tolerance);
    if !slips.is_empty() {
        causes.push(Cause::UnitSlips(slips));
    }
    let is_off = !balances(difference, chilled, tolerance);
    if is_off && difference.is_positive() {
        let missed = missed_trays(catalogue, breakdown, weigh_in, difference);
        if !missed.is_empty() {
            causes.push(Cause::MissedTray(missed));
        }
        if difference <= chilled * MOST_SHRINK {
            causes.push(Cause::Shrink);
        }
    } else if is_off {
        causes.extend(weighed_twice(weigh_in, difference, chilled * tolerance));
    }
    let lines = lines_of(weigh_in);
    let not_weighed = planned_lines(catalogue, breakdown)
        .into_iter()
        .filter(|planned| planned.weight.is_positive())
        .map(|planned| planned.product)
        .filter(|product| catalogue[*product].kind != Kind::Loss)
        .filter(|product| lines.iter().all(|(line, _)| line.product != *product))
        .collect();
    let losses = products(breakdown)
        .enumerate()
        .filter(|(_, (_, product, _))| catalogue[*product].kind == Kind::Loss)
        .map(|(place, (_, _, node))| (place, node.weight))
        .collect();
    Closing {
        chilled,
        weighed,
        difference,
        tolerance,
        causes,
        not_weighed,
        pieces: divided.pieces,
        losses,
    }
}

/// Products that were not weighed and weigh about `missing` by the plan.
fn missed_trays(
    catalogue: &Catalogue,
    breakdown: &Breakdown,
    weigh_in: &WeighIn,
    missing: Mass,
) -> Vec<(ProductId, Mass)> {
    let weighed = lines_of(weigh_in);
    let off = |planned: Mass| Mass::from_kg((planned - missing).kg().abs());
    let mut missed: Vec<(ProductId, Mass)> = planned_lines(catalogue, breakdown)
        .into_iter()
        .filter(|line| {
            let was_weighed = weighed.iter().any(|(of, _)| of.product == line.product);
            !was_weighed && off(line.weight) <= missing * TRAY_ROOM
        })
        .map(|line| (line.product, line.weight))
        .collect();
    missed.sort_by_key(|(_, planned)| off(*planned));
    missed
}

/// Readings that stand twice and without one of which the side would balance.
fn weighed_twice(weigh_in: &WeighIn, difference: Mass, room: Mass) -> Vec<Cause> {
    let weighings = weigh_in.weighings();
    let mut twice = Vec::new();
    for (place, (line, weighing)) in weighings.iter().enumerate() {
        let before = weighings
            .iter()
            .take(place)
            .position(|(of, other)| of == line && other == weighing);
        let left = (difference + weighing.net()).kg().abs();
        if let Some(before) = before.filter(|_| left <= room.kg()) {
            twice.push(Cause::WeighedTwice(*line, [before, place]));
        }
    }
    twice
}

impl Closing {
    /// Whether the balance is within the tolerance.
    pub fn is_within(&self) -> bool {
        balances(self.difference, self.chilled, self.tolerance)
    }

    /// The weights of a side, together exactly what it weighed. What is missing
    /// goes to the losses of the plan, as they are planned to one another; what
    /// is too much comes off everything in proportion, and so does what is
    /// missing where the plan has no loss.
    ///
    /// # Errors
    /// [`NotClosed`] where nothing was weighed, the plan does not give what was,
    /// or a difference beyond the tolerance is not accepted.
    pub fn settle(&self, unexplained: Unexplained) -> Result<ClosedWeights, NotClosed> {
        let planned: Mass = self.pieces.iter().copied().sum();
        if !planned.is_positive() {
            return Err(NotClosed::Nothing);
        }
        let is_planned = |cause: &Cause| !matches!(cause, Cause::NotInThePlan(_));
        if !self.causes.iter().all(is_planned) {
            return Err(NotClosed::NotInThePlan);
        }
        let is_within = self.is_within();
        if !is_within && unexplained == Unexplained::Refused {
            return Err(NotClosed::Unexplained {
                difference: self.difference,
            });
        }
        let all_losses: Mass = self.losses.iter().map(|(_, weight)| *weight).sum();
        let mut pieces = self.pieces.clone();
        let mut settlement = Settlement::Nothing;
        if self.difference.is_positive() && all_losses.is_positive() {
            settlement = Settlement::ToLosses;
            for (place, loss) in &self.losses {
                let share = loss.ratio_to(all_losses).unwrap_or_default();
                if let Some(piece) = pieces.get_mut(*place) {
                    *piece += rounded(self.difference * share);
                }
            }
        } else if !self.difference.is_zero() {
            settlement = Settlement::InProportion;
            let scale = self.chilled.ratio_to(planned).unwrap_or_default();
            for piece in &mut pieces {
                *piece = rounded(*piece * scale);
            }
        }
        let sum: Mass = pieces.iter().copied().sum();
        if let Some(largest) = pieces.iter_mut().max() {
            *largest += self.chilled - sum;
        }
        Ok(ClosedWeights {
            pieces,
            weighed: self.pieces.clone(),
            unexplained: self.difference,
            settlement,
            was_accepted: !is_within,
        })
    }
}

/// A weight at the digits to which a difference is divided: a microgram.
fn rounded(mass: Mass) -> Mass {
    Mass::from_kg(Rounding::HalfEven.to_places(mass.kg(), 9))
}

#[cfg(test)]
mod tests {
    use carcass::{Stock, break_down};
    use proptest::prelude::*;
    use quantity::MassUnit;

    use super::*;
    use crate::any_side::CATALOGUE;
    use crate::weighing::{PlannedLine, Weighing};

    fn side() -> Breakdown {
        let plan = &CATALOGUE.plan("boneless").expect("a plan").plan;
        let weight = Mass::from_kg(Decimal::from(180));
        break_down(&CATALOGUE, weight, 1, plan, Stock::GRAIN)
    }

    fn line(of: &PlannedLine) -> Line {
        Line {
            product: of.product,
            way: None,
        }
    }

    fn reading(kilograms: Decimal) -> Weighing {
        let kilograms = kilograms.round_dp(3);
        Weighing::new(kilograms, MassUnit::Kilogram, Decimal::ZERO).expect("a reading")
    }

    /// The side weighed as planned, but for the lines that `change` changes.
    fn weighed(change: impl Fn(usize, Decimal) -> Option<Decimal>) -> WeighIn {
        let mut weigh_in = WeighIn::default();
        for (place, planned) in planned_lines(&CATALOGUE, &side()).iter().enumerate() {
            if let Some(kilograms) = change(place, planned.weight.kg()) {
                weigh_in
                    .add(line(planned), reading(kilograms))
                    .expect("room");
            }
        }
        weigh_in
    }

    fn closing(weigh_in: &WeighIn) -> Closing {
        close(&CATALOGUE, &side(), weigh_in, USUAL_TOLERANCE)
    }

    #[test]
    fn a_side_that_balances_is_closed_and_its_grams_are_loss() {
        let closing = closing(&weighed(|_, planned| Some(planned)));
        assert!(closing.is_within() && closing.causes.is_empty());
        assert!(closing.not_weighed.is_empty());
        let closed = closing.settle(Unexplained::Refused).expect("within");
        assert_eq!(closed.pieces.iter().copied().sum::<Mass>(), closing.chilled);
        assert!(!closed.was_accepted);
        assert_eq!(closed.unexplained, closing.difference);
    }

    #[test]
    fn a_lost_tray_is_named_and_only_accepted_when_asked_to() {
        let lines = planned_lines(&CATALOGUE, &side());
        let lost = lines
            .iter()
            .position(|line| line.weight > Mass::from_kg(Decimal::from(6)))
            .expect("a heavy line");
        let weigh_in = weighed(|place, planned| (place != lost).then_some(planned));
        let closing = closing(&weigh_in);
        assert!(!closing.is_within());
        let trays = closing
            .causes
            .iter()
            .find_map(|cause| match cause {
                Cause::MissedTray(trays) => Some(trays),
                _ => None,
            })
            .expect("a missed tray");
        assert_eq!(trays[0], (lines[lost].product, lines[lost].weight));
        assert_eq!(closing.not_weighed, [lines[lost].product]);
        assert_eq!(
            closing.settle(Unexplained::Refused),
            Err(NotClosed::Unexplained {
                difference: closing.difference
            })
        );
        let accepted = closing.settle(Unexplained::Accepted).expect("accepted");
        assert!(accepted.was_accepted);
        let losses = |pieces: &[Mass]| -> Mass {
            products(&side())
                .zip(pieces)
                .filter(|((_, product, _), _)| CATALOGUE[*product].kind == Kind::Loss)
                .map(|(_, weight)| *weight)
                .sum()
        };
        let apart = losses(&accepted.pieces) - losses(&closing.pieces) - closing.difference;
        assert!(apart.kg().abs() < Decimal::new(1, 6), "{apart:?}");
    }

    #[test]
    fn what_was_not_weighed_is_named_within_the_tolerance_too_but_for_losses() {
        let lines = planned_lines(&CATALOGUE, &side());
        let is_loss = |place: usize| CATALOGUE[lines[place].product].kind == Kind::Loss;
        assert!((0..lines.len()).any(is_loss));
        let lightest = (0..lines.len())
            .filter(|place| !is_loss(*place))
            .min_by_key(|place| lines[*place].weight)
            .expect("a line");
        let weigh_in =
            weighed(|place, planned| (place != lightest && !is_loss(place)).then_some(planned));
        let closing = close(
            &CATALOGUE,
            &side(),
            &weigh_in,
            Share::from_percent(Decimal::TEN),
        );
        assert!(closing.is_within());
        assert_eq!(closing.not_weighed, [lines[lightest].product]);
    }

    #[test]
    fn a_little_less_of_everything_is_shrink() {
        let shrunk = weighed(|_, planned| Some(planned * Decimal::new(975, 3)));
        assert_eq!(closing(&shrunk).causes, [Cause::Shrink]);
        let more = weighed(|_, planned| Some(planned * Decimal::new(90, 2)));
        assert!(closing(&more).causes.is_empty());
    }

    #[test]
    fn pounds_typed_as_kilograms_are_named() {
        let lines = planned_lines(&CATALOGUE, &side());
        let slipped = lines
            .iter()
            .position(|line| line.weight > Mass::from_kg(Decimal::from(4)))
            .expect("a heavy line");
        let weigh_in = weighed(|place, planned| {
            Some(if place == slipped {
                Mass::from_kg(planned).lb()
            } else {
                planned
            })
        });
        let closing = closing(&weigh_in);
        let [Cause::UnitSlips(slips)] = &closing.causes[..] else {
            panic!("{:?}", closing.causes);
        };
        assert_eq!(slips[0].line, line(&lines[slipped]));
        assert_eq!(slips[0].meant, MassUnit::Pound);
    }

    #[test]
    fn a_reading_that_stands_twice_is_named() {
        let mut weigh_in = weighed(|_, planned| Some(planned));
        let heavy = weigh_in
            .weighings()
            .iter()
            .position(|(_, weighing)| weighing.net() > Mass::from_kg(Decimal::from(5)))
            .expect("a heavy tray");
        let (line, weighing) = weigh_in.weighings()[heavy];
        weigh_in.add(line, weighing).expect("room");
        let last = weigh_in.weighings().len() - 1;
        let closing = closing(&weigh_in);
        assert!(
            closing
                .causes
                .contains(&Cause::WeighedTwice(line, [heavy, last])),
            "{:?}",
            closing.causes
        );
    }

    #[test]
    fn what_the_plan_does_not_give_keeps_it_open() {
        let mut weigh_in = weighed(|_, planned| Some(planned));
        let steak = CATALOGUE.product_id("t-bone-steak").expect("a product");
        let line = Line {
            product: steak,
            way: None,
        };
        weigh_in.add(line, reading(Decimal::ONE)).expect("room");
        assert_eq!(
            closing(&weigh_in).settle(Unexplained::Accepted),
            Err(NotClosed::NotInThePlan)
        );
        assert_eq!(
            closing(&WeighIn::default()).settle(Unexplained::Accepted),
            Err(NotClosed::Nothing)
        );
    }

    proptest! {
        #[test]
        fn what_is_settled_is_exactly_the_side(
            factors in prop::collection::vec(0_i64..3000, 1..60),
            tolerance in 0_i64..100,
        ) {
            let weigh_in = weighed(|place, planned| {
                let factor = factors[place % factors.len()];
                (factor > 200).then(|| planned * Decimal::new(factor, 3))
            });
            let tolerance = Share::from_percent(Decimal::from(tolerance));
            let closing = close(&CATALOGUE, &side(), &weigh_in, tolerance);
            prop_assert_eq!(closing.weighed + closing.difference, closing.chilled);
            match closing.settle(Unexplained::Accepted) {
                Ok(closed) => {
                    prop_assert_eq!(closed.pieces.iter().copied().sum::<Mass>(), closing.chilled);
                    prop_assert!(closed.pieces.iter().all(|piece| *piece >= Mass::ZERO));
                    let found: Mass = closed.weighed.iter().copied().sum();
                    prop_assert_eq!(found + closed.unexplained, closing.chilled);
                    let is_nothing = closed.settlement == Settlement::Nothing;
                    prop_assert_eq!(is_nothing, closed.unexplained.is_zero());
                    // Only too much changes what the scale said of a cut.
                    let is_of_losses = closed.settlement == Settlement::ToLosses;
                    prop_assert_eq!(is_of_losses, closed.unexplained.is_positive());
                    prop_assert_eq!(closed.was_accepted, !closing.is_within());
                    let refused = closing.settle(Unexplained::Refused);
                    prop_assert_eq!(refused.is_ok(), closing.is_within());
                }
                Err(error) => prop_assert!(
                    error == NotClosed::Nothing && weigh_in.weighings().is_empty()
                ),
            }
        }
    }
}
