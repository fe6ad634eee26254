//! How long a side takes, at the bench and at the band saw, and what that
//! costs.

use litemap::LiteMap;

use carcass::{Breakdown, Catalogue, Node, WayId, What};
use quantity::{LabourRate, Minutes, Money, Share};

use crate::deal::LabourTime;

/// What an hour of work costs.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Labour {
    /// Wage for an hour.
    pub rate: LabourRate,
    /// What comes on top of the wage, as a share of it.
    pub on_cost: Share,
    /// Rent, power and the like for each hour of work.
    pub overhead: LabourRate,
    /// The shop's own time for a way, for each piece, in place of the
    /// estimate that comes with the data.
    pub own_times: LiteMap<WayId, Minutes>,
}

impl Labour {
    /// Wage and on-costs of some working time.
    pub fn wages(&self, time: Minutes) -> Money {
        (self.rate * time) * (Share::WHOLE + self.on_cost)
    }

    /// Overhead that some working time carries.
    pub fn overhead(&self, time: Minutes) -> Money {
        self.overhead * time
    }
}

/// The time of every piece of a breakdown, in its order.
#[derive(Clone, Debug)]
pub struct WorkingTime {
    pieces: Vec<Minutes>,
    /// All of it.
    pub total: Minutes,
    /// What of it is spent at the band saw.
    pub at_saw: Minutes,
    /// The sum of estimates and own times, before a total is spread over them.
    pub planned: Minutes,
}

impl WorkingTime {
    /// The time of each piece: own times where the shop has them, else the
    /// estimate; scaled to one total where the deal gives one. A total without
    /// any planned time to spread it by falls on the side as a whole.
    pub fn of(
        catalogue: &Catalogue,
        breakdown: &Breakdown,
        time: LabourTime,
        labour: &Labour,
    ) -> Self {
        let nodes = breakdown.nodes();
        let mut pieces: Vec<Minutes> = nodes
            .iter()
            .map(|node| planned_time(node, labour))
            .collect();
        let planned: Minutes = pieces.iter().copied().sum();
        if let LabourTime::Total(total) = time {
            match total.ratio_to(planned) {
                Some(scale) => {
                    for piece in &mut pieces {
                        *piece = *piece * scale;
                    }
                }
                None => {
                    if let Some(side) = pieces.first_mut() {
                        *side = total;
                    }
                }
            }
        }
        let at_saw = nodes
            .iter()
            .zip(&pieces)
            .map(|(node, time)| match node.what {
                What::Part { way, .. } => *time * catalogue[way].saw,
                What::Product(_) => Minutes::ZERO,
            })
            .sum();
        Self {
            total: match time {
                LabourTime::PlanEstimate => planned,
                LabourTime::Total(total) => total,
            },
            pieces,
            at_saw,
            planned,
        }
    }

    /// The time of the piece at `index`.
    pub fn of_piece(&self, index: usize) -> Minutes {
        self.pieces.get(index).copied().unwrap_or(Minutes::ZERO)
    }
}

fn planned_time(node: &Node, labour: &Labour) -> Minutes {
    match node.what {
        What::Part { way, .. } => labour
            .own_times
            .get(&way)
            .map_or(node.labour, |own| own.times(node.pieces)),
        What::Product(_) => Minutes::ZERO,
    }
}

#[cfg(test)]
mod tests {
    use carcass::{CutPlan, Stock, break_down};
    use quantity::{Decimal, Mass};

    use super::*;
    use crate::any_side::CATALOGUE;

    fn minutes(minutes: i64) -> Minutes {
        Minutes::from_minutes(Decimal::from(minutes))
    }

    fn two_sides() -> Breakdown {
        let weight = Mass::from_kg(Decimal::from(360));
        break_down(&CATALOGUE, weight, 2, &CutPlan::default(), Stock::GRAIN)
    }

    #[test]
    fn an_own_time_counts_for_each_side() {
        let breakdown = two_sides();
        let mut labour = Labour::default();
        let before = WorkingTime::of(&CATALOGUE, &breakdown, LabourTime::PlanEstimate, &labour);
        let chuck = breakdown
            .nodes()
            .iter()
            .position(|node| {
                matches!(node.what, What::Part { part, .. } if CATALOGUE[part].id == "chuck")
            })
            .expect("a chuck");
        let What::Part { way, .. } = breakdown.nodes()[chuck].what else {
            panic!("a part");
        };
        labour.own_times.insert(way, minutes(30));
        let after = WorkingTime::of(&CATALOGUE, &breakdown, LabourTime::PlanEstimate, &labour);
        assert_eq!(after.of_piece(chuck), minutes(60));
        assert_eq!(
            after.total - before.total,
            minutes(60) - before.of_piece(chuck)
        );
    }

    #[test]
    fn one_total_is_spread_as_planned_and_keeps_the_share_at_the_saw() {
        let breakdown = two_sides();
        let labour = Labour::default();
        let planned = WorkingTime::of(&CATALOGUE, &breakdown, LabourTime::PlanEstimate, &labour);
        let double = planned.total.times(Decimal::TWO);
        let doubled = WorkingTime::of(&CATALOGUE, &breakdown, LabourTime::Total(double), &labour);
        assert_eq!(doubled.total, double);
        assert_eq!(doubled.at_saw, planned.at_saw.times(Decimal::TWO));
        assert!(planned.at_saw.is_positive() && planned.at_saw < planned.total);
    }

    #[test]
    fn on_costs_come_on_top_of_the_wage_and_overhead_beside_it() {
        let labour = Labour {
            rate: LabourRate::from_per_hour(Decimal::from(20)),
            on_cost: Share::from_percent(Decimal::from(15)),
            overhead: LabourRate::from_per_hour(Decimal::from(9)),
            own_times: LiteMap::new(),
        };
        assert_eq!(labour.wages(minutes(90)), Money::from_cents(3450));
        assert_eq!(labour.overhead(minutes(90)), Money::from_cents(1350));
    }
}
