//! Sides that a shop has cut and closed before a test begins.

use anyhow::{Context, Result};
use carcass::{Catalogue, CutPlan, Stock, WayId, break_down};
use quantity::{Decimal, Mass};
use scale::{ClosedTest, ClosedWeights, Tag, products};

/// Invented sides as the browser has kept them, by turns of two suppliers, cut by the boneless plan.
///
/// # Errors
/// When the published data cannot be read.
pub fn closed_sides(count: i64) -> Result<Vec<String>> {
    let catalogue = Catalogue::published()?;
    let plan = &catalogue.plan("boneless").context("a plan")?.plan;
    Ok(closed_by(&catalogue, plan, count))
}

/// The same, cut by the plan that cuts a side to most: of every part the way with most outputs.
///
/// # Errors
/// When the published data cannot be read.
pub fn closed_sides_of_many_cuts(count: i64) -> Result<Vec<String>> {
    let catalogue = Catalogue::published()?;
    let mut plan = CutPlan::default();
    for (part, data) in catalogue.parts() {
        let outputs = |way: &&WayId| catalogue[**way].outputs.len();
        if let Some(way) = data.ways.iter().max_by_key(outputs) {
            plan.choose(part, *way);
        }
    }
    Ok(closed_by(&catalogue, &plan, count))
}

fn closed_by(catalogue: &Catalogue, plan: &CutPlan, count: i64) -> Vec<String> {
    let weight = Mass::from_kg(Decimal::from(180));
    let side = break_down(catalogue, weight, 1, plan, Stock::GRAIN);
    let closed = |number: i64| {
        let mut pieces: Vec<Mass> = products(&side).map(|(_, _, node)| node.weight).collect();
        // What one cut has more of, another has less of.
        for (place, step) in [(3, number), (4, -number), (9, 2 - number), (10, number - 2)] {
            if let Some(piece) = pieces.get_mut(place) {
                *piece = (*piece + Mass::from_kg(Decimal::new(step, 2))).max(Mass::ZERO);
            }
        }
        let weights = ClosedWeights::all_found(pieces);
        let tag = Tag {
            lot: format!("L{number}"),
            supplier: ["Invented North", "Invented South"][usize::from(number % 2 == 1)].to_owned(),
            received: "2026-03-09".parse().ok(),
            ..Tag::default()
        };
        ClosedTest::of(catalogue, &side, (Stock::GRAIN, 1), &weights, tag, None).to_text()
    };
    (0..count).map(closed).collect()
}
