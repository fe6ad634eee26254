//! Sides that a shop has cut and closed before a test begins.

use anyhow::{Context, Result};
use carcass::{Catalogue, Stock, break_down};
use quantity::{Decimal, Mass};
use scale::{ClosedTest, ClosedWeights, Tag, products};

/// Invented sides as the browser has kept them, by turns of two suppliers.
///
/// # Errors
/// When the published data cannot be read.
pub fn closed_sides(count: i64) -> Result<Vec<String>> {
    let catalogue = Catalogue::published()?;
    let plan = &catalogue.plan("boneless").context("a plan")?.plan;
    let weight = Mass::from_kg(Decimal::from(180));
    let side = break_down(&catalogue, weight, 1, plan, Stock::GRAIN);
    let closed = |number: i64| {
        let mut pieces: Vec<Mass> = products(&side).map(|(_, _, node)| node.weight).collect();
        // What one cut has more of, another has less of.
        for (place, step) in [(3, number), (4, -number), (9, 2 - number), (10, number - 2)] {
            if let Some(piece) = pieces.get_mut(place) {
                *piece += Mass::from_kg(Decimal::new(step, 2));
            }
        }
        let weights = ClosedWeights::all_found(pieces);
        let tag = Tag {
            lot: format!("L{number}"),
            supplier: ["Invented North", "Invented South"][usize::from(number % 2 == 1)].to_owned(),
            received: "2026-03-09".parse().ok(),
            ..Tag::default()
        };
        ClosedTest::of(&catalogue, &side, (Stock::GRAIN, 1), &weights, tag, None).to_text()
    };
    Ok((0..count).map(closed).collect())
}
