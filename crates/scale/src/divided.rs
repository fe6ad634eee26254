//! From weighings to the weight of every piece that leaves the block.
//!
//! What was weighed by its way goes to the pieces of that way. What lay in one
//! tray is divided over the pieces of its product that were not weighed alone,
//! as they are planned: what comes off the side is right, and which part gave
//! how much of it is as good as the plan.

use carcass::{Breakdown, ProductId, WayId};
use quantity::Mass;

use crate::composition::products;
use crate::weighing::{Line, WeighIn, way_of};

/// A weigh-in by the pieces of its plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Divided {
    /// The weight of every product of the breakdown, in the order of
    /// [`crate::products`].
    pub pieces: Vec<Mass>,
    /// Lines on the scale that the plan has no piece for, with their weight.
    pub unplanned: Vec<(Line, Mass)>,
}

/// Every line of a weigh-in with what it weighs, each line once, in the order in
/// which they were first weighed.
pub(crate) fn lines_of(weigh_in: &WeighIn) -> Vec<(Line, Mass)> {
    let mut lines: Vec<(Line, Mass)> = Vec::new();
    for (line, weighing) in weigh_in.weighings() {
        match lines.iter_mut().find(|(of, _)| of == line) {
            Some((_, weight)) => *weight += weighing.net(),
            None => lines.push((*line, weighing.net())),
        }
    }
    lines
}

/// The pieces of a breakdown as a weigh-in sees them.
pub(crate) struct Pieces {
    pieces: Vec<(ProductId, Option<WayId>, Mass)>,
    by_way: Vec<(ProductId, WayId)>,
}

impl Pieces {
    /// The pieces of `breakdown`; `lines` are those that were weighed.
    pub fn of(breakdown: &Breakdown, lines: &[(Line, Mass)]) -> Self {
        Self {
            pieces: products(breakdown)
                .map(|(_, product, node)| (product, way_of(breakdown, node), node.weight))
                .collect(),
            by_way: lines
                .iter()
                .filter_map(|(line, _)| Some((line.product, line.way?)))
                .collect(),
        }
    }

    /// The places of the pieces that `line` weighs, with what is planned of
    /// each.
    pub fn of_line(&self, line: Line) -> Vec<(usize, Mass)> {
        let of = |is_it: &dyn Fn(Option<WayId>) -> bool| -> Vec<(usize, Mass)> {
            self.pieces
                .iter()
                .enumerate()
                .filter(|(_, (product, way, _))| *product == line.product && is_it(*way))
                .map(|(place, (_, _, weight))| (place, *weight))
                .collect()
        };
        if line.way.is_some() {
            return of(&|way| way == line.way);
        }
        let alone =
            |way: Option<WayId>| way.is_some_and(|way| self.by_way.contains(&(line.product, way)));
        let rest = of(&|way| !alone(way));
        if rest.is_empty() {
            // A tray of what was left over after each way was weighed alone.
            of(&|_| true)
        } else {
            rest
        }
    }

    /// What is planned of a line.
    pub fn planned(&self, line: Line) -> Mass {
        self.of_line(line).iter().map(|(_, weight)| *weight).sum()
    }

    /// How many pieces there are.
    pub fn count(&self) -> usize {
        self.pieces.len()
    }
}

/// Divides a weigh-in over the pieces of `breakdown`. Nothing is lost and
/// nothing made: pieces and what the plan has no piece for sum to what was
/// weighed.
pub fn divide(breakdown: &Breakdown, weigh_in: &WeighIn) -> Divided {
    let lines = lines_of(weigh_in);
    let places = Pieces::of(breakdown, &lines);
    let mut pieces = vec![Mass::ZERO; places.count()];
    let mut unplanned = Vec::new();
    for (line, weight) in lines {
        let of_line = places.of_line(line);
        let planned: Mass = of_line.iter().map(|(_, weight)| *weight).sum();
        let Some(((last, _), before)) = of_line.split_last() else {
            unplanned.push((line, weight));
            continue;
        };
        let mut left = weight;
        for (place, of_piece) in before {
            let part = of_piece
                .ratio_to(planned)
                .map_or(Mass::ZERO, |share| rounded(weight * share));
            if let Some(piece) = pieces.get_mut(*place) {
                *piece += part;
            }
            left = left - part;
        }
        if let Some(piece) = pieces.get_mut(*last) {
            *piece += left;
        }
    }
    Divided { pieces, unplanned }
}

/// A weight at the digits to which trays are divided: a microgram.
fn rounded(mass: Mass) -> Mass {
    Mass::from_kg(quantity::Rounding::Down.to_places(mass.kg(), 9))
}

#[cfg(test)]
mod tests {
    use carcass::{Stock, break_down};
    use proptest::prelude::*;
    use quantity::{Decimal, MassUnit};

    use super::*;
    use crate::any_side::CATALOGUE;
    use crate::weighing::{Weighing, planned_lines};

    fn side() -> Breakdown {
        let plan = &CATALOGUE.plan("boneless").expect("a plan").plan;
        let weight = Mass::from_kg(Decimal::from(180));
        break_down(&CATALOGUE, weight, 1, plan, Stock::GRAIN)
    }

    fn weighed(lines: &[(Line, i64)]) -> WeighIn {
        let mut weigh_in = WeighIn::default();
        for (line, grams) in lines {
            let gross = Decimal::new(*grams, 3);
            let weighing = Weighing::new(gross, MassUnit::Kilogram, Decimal::ZERO);
            weigh_in
                .add(*line, weighing.expect("a reading"))
                .expect("room");
        }
        weigh_in
    }

    #[test]
    fn what_was_weighed_by_its_way_is_no_part_of_the_tray_of_the_rest() {
        let side = side();
        let trim = CATALOGUE.product_id("fat-trim").expect("a product");
        let line = planned_lines(&CATALOGUE, &side)
            .into_iter()
            .find(|line| line.product == trim)
            .expect("fat trim");
        let (way, _) = line.ways[0];
        let weigh_in = weighed(&[
            (
                Line {
                    product: trim,
                    way: Some(way),
                },
                1234,
            ),
            (
                Line {
                    product: trim,
                    way: None,
                },
                10_000,
            ),
        ]);
        let divided = divide(&side, &weigh_in);
        assert!(divided.unplanned.is_empty());
        let (mut alone, mut together) = (Mass::ZERO, Mass::ZERO);
        let planned_rest = line.weight - line.ways[0].1;
        for ((_, product, node), weight) in products(&side).zip(&divided.pieces) {
            if product != trim {
                assert!(weight.is_zero());
            } else if way_of(&side, node) == Some(way) {
                alone += *weight;
            } else {
                together += *weight;
                let share = node.weight.ratio_to(planned_rest).expect("planned");
                let apart = *weight - Mass::from_kg(Decimal::TEN) * share;
                assert!(apart.kg().abs() < Decimal::new(1, 6), "{apart:?}");
            }
        }
        assert_eq!(alone, Mass::from_kg(Decimal::new(1234, 3)));
        assert_eq!(together, Mass::from_kg(Decimal::TEN));
    }

    #[test]
    fn what_the_plan_does_not_give_is_told() {
        let steak = CATALOGUE.product_id("t-bone-steak").expect("a product");
        let line = Line {
            product: steak,
            way: None,
        };
        let divided = divide(&side(), &weighed(&[(line, 800)]));
        assert_eq!(
            divided.unplanned,
            [(line, Mass::from_kg(Decimal::new(8, 1)))]
        );
        assert!(divided.pieces.iter().all(|piece| piece.is_zero()));
    }

    proptest! {
        #[test]
        fn nothing_is_lost_and_nothing_made(
            weighings in prop::collection::vec(
                (any::<prop::sample::Index>(), any::<prop::sample::Index>(), any::<bool>(), 0_i64..50_000),
                0..80,
            ),
        ) {
            let side = side();
            let lines = planned_lines(&CATALOGUE, &side);
            let weighings: Vec<(Line, i64)> = weighings
                .iter()
                .map(|(line, way, alone, grams)| {
                    let line = line.get(&lines);
                    let way = alone.then(|| way.get(&line.ways).0);
                    (Line { product: line.product, way }, *grams)
                })
                .collect();
            let weigh_in = weighed(&weighings);
            let divided = divide(&side, &weigh_in);
            prop_assert!(divided.unplanned.is_empty());
            prop_assert_eq!(divided.pieces.iter().copied().sum::<Mass>(), weigh_in.total());
            prop_assert!(divided.pieces.iter().all(|piece| *piece >= Mass::ZERO));
        }
    }
}
