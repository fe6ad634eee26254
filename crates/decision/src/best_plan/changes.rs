//! What the best plan does otherwise than the present one, and what each
//! change brings.

use std::collections::BTreeMap;

use carcass::{CutPlan, PartId, WayId};
use pricing::PricingError;
use quantity::{Minutes, Money, Share};

use super::figures::PlanFigures;
use super::limits::Limits;
use crate::Case;

/// How a part is broken in the present plan: the way, and where it is split the
/// second way with its share.
pub type Ways = Vec<(WayId, Share)>;

/// What one change brings: the best plan against the best plan with this one
/// change undone and all others kept. What hangs on the part goes back with it.
/// These figures need not sum to the whole gain, since the worth of one change
/// can rest on another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effect {
    /// Profit that it adds; below zero where it is there for a limit's sake.
    pub profit: Money,
    /// Minutes at the bench that it adds.
    pub bench: Minutes,
    /// Minutes at the saw that it adds.
    pub saw: Minutes,
}

/// A part that the best plan treats otherwise than the present one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The part.
    pub part: PartId,
    /// How it is broken now; empty where the present plan does not reach it.
    pub from: Ways,
    /// How the best plan breaks it.
    pub to: WayId,
    /// What the change brings; `None` for a part that only the best plan
    /// reaches: it comes with the change above it.
    pub effect: Option<Effect>,
}

/// The changes from `case` to `best`, in the order of the parts.
pub(super) fn between(
    case: &Case,
    best: &PlanFigures,
    limits: &Limits,
    speed: Share,
) -> Result<Vec<Change>, PricingError> {
    let present = reached(case, &case.plan);
    let mut changes = Vec::new();
    for (part, ways) in reached(case, &best.plan) {
        let Some(&(to, _)) = ways.first() else {
            continue;
        };
        let from = present.get(&part).cloned().unwrap_or_default();
        if from == ways {
            continue;
        }
        let effect = match from.first() {
            None => None,
            Some(&(way, _)) => {
                let mut plan = best.plan.clone();
                plan.choose(part, way);
                if let Some(&(second, share)) = from.get(1) {
                    plan.split(case.catalogue, part, second, share);
                }
                let undone = PlanFigures::of(case, plan, limits, speed)?;
                Some(Effect {
                    profit: best.profit() - undone.profit(),
                    bench: best.bench - undone.bench,
                    saw: best.saw - undone.saw,
                })
            }
        };
        changes.push(Change {
            part,
            from,
            to,
            effect,
        });
    }
    Ok(changes)
}

/// The parts that a plan reaches, each with the ways it is broken.
fn reached(case: &Case, plan: &CutPlan) -> BTreeMap<PartId, Ways> {
    let catalogue = case.catalogue;
    let mut reached = BTreeMap::new();
    let mut open = vec![catalogue.root()];
    while let Some(part) = open.pop() {
        let ways = plan.ways_of(catalogue, part);
        for &(way, _) in &ways {
            open.extend(
                catalogue[way]
                    .outputs
                    .iter()
                    .filter_map(|output| match output.output {
                        carcass::Output::Part(below) => Some(below),
                        carcass::Output::Product(_) => None,
                    }),
            );
        }
        reached.insert(part, ways);
    }
    reached
}
