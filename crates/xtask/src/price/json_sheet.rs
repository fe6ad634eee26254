//! The sheet as JSON (RFC 8259): every figure exact, as the text of a decimal number, because a
//! reader that takes numbers for binary fractions would lose their last digits.

use anyhow::Result;
use carcass::GroundClass;
use pricing::{Outcome, Row};
use quantity::Decimal;
use serde_json::{Value, json};

use super::Priced;

/// Writes the sheet. Weights are in kilograms, money in the currency of the plan, prices per
/// kilogram; the unit stands in each name.
///
/// # Errors
/// Only when memory runs out.
pub fn write(priced: &Priced) -> Result<String> {
    let sheet = &priced.sheet;
    let (totals, verdict) = (&sheet.totals, &sheet.verdict);
    let rows: Vec<Value> = sheet.rows.iter().map(|row| line(priced, row)).collect();
    let ground: Vec<Value> = sheet
        .breakdown
        .ground()
        .iter()
        .map(|ground| class(priced, ground))
        .collect();
    let whole = json!({
        "name": priced.document.name,
        "rows": rows,
        "totals": {
            "chilled_kg": exact(totals.chilled.kg()),
            "saleable_kg": exact(totals.saleable.kg()),
            "labour_minutes": exact(totals.time.minutes()),
            "saw_minutes": exact(totals.saw_time.minutes()),
            "side": exact(totals.side.units()),
            "charges": exact(totals.charges.units()),
            "labour": exact(totals.labour.units()),
            "packaging": exact(totals.packaging.units()),
            "spend": exact(totals.spend().units()),
            "by_products": exact(totals.by_products.units()),
            "sales": exact(totals.sales.units()),
            "profit": exact(totals.profit().units()),
        },
        "ground": ground,
        "shrink_from_days_percent":
            priced.resolved.derived_shrink.map(|loss| exact(loss.lost.percent())),
        "expected_saleable_percent": priced
            .resolved
            .expected_yield
            .as_ref()
            .map(|expected| exact(expected.saleable.percent())),
        "is_met_by_held_prices":
            sheet.board.as_ref().is_ok_and(|board| board.is_met_by_held_prices),
        "verdict": {
            "outcome": match verdict.outcome {
                Outcome::Pays => "pays",
                Outcome::Thin => "thin",
                Outcome::FallsShort => "falls_short",
            },
            "margin_percent": exact(verdict.margin.percent()),
            "target_margin_percent": exact(priced.resolved.shop.target_margin.percent()),
            "meat_margin_percent": exact(verdict.meat_margin.percent()),
            "walk_away_per_kg": exact(verdict.walk_away.per_kg()),
            "walk_away_per_lb": exact(verdict.walk_away.per_lb()),
            "room_per_kg": exact(verdict.room.per_kg()),
        },
    });
    Ok(format!("{}\n", serde_json::to_string_pretty(&whole)?))
}

/// What could be made of a class of grind.
fn class(priced: &Priced, ground: &GroundClass) -> Value {
    json!({
        "product": priced.catalogue[ground.product].id,
        "most_fat_percent": exact(ground.most_fat.percent()),
        "wanted_kg": exact(ground.wanted.kg()),
        "weight_kg": exact(ground.weight.kg()),
        "fat_percent": ground.fat.map(|fat| exact(fat.percent())),
        "fat_trim_kg": exact(ground.fat_trim.kg()),
        "lean_lacking_kg": ground.lean_lacking.map(|lean| exact(lean.kg())),
    })
}

fn line(priced: &Priced, row: &Row) -> Value {
    let product = &priced.catalogue[row.product];
    json!({
        "product": product.id,
        "name": product.name,
        "is_by_product": row.is_by_product,
        "weight_kg": exact(row.weight.kg()),
        "share_percent": exact(row.share.percent()),
        "cost": exact(row.cost.units()),
        "cost_per_kg": row.cost_per_mass.map(|cost| exact(cost.per_kg())),
        "price_per_kg": exact(row.price.per_kg()),
        "price_is_sample": priced.resolved.shop.board.is_sample(row.product),
        "sales": exact(row.sales.units()),
        "margin_percent": row.margin.map(|margin| exact(margin.percent())),
        "suggested_per_kg": row.suggested.map(|price| exact(price.per_kg())),
    })
}

fn exact(number: Decimal) -> String {
    number.normalize().to_string()
}

#[cfg(test)]
mod tests {
    use document::Document;

    use super::*;

    #[test]
    fn every_figure_reads_back_to_the_last_digit() {
        let priced = Priced::from_document(Document::sample()).expect("priced");
        let text = write(&priced).expect("text");
        let read: Value = serde_json::from_str(&text).expect("JSON");
        let number = |value: &Value| -> Decimal {
            value.as_str().expect("a text").parse().expect("a number")
        };
        let verdict = &priced.sheet.verdict;
        assert_eq!(
            number(&read["verdict"]["margin_percent"]),
            verdict.margin.percent()
        );
        assert_eq!(
            number(&read["verdict"]["walk_away_per_kg"]),
            verdict.walk_away.per_kg()
        );
        let rows = read["rows"].as_array().expect("rows");
        assert_eq!(rows.len(), priced.sheet.rows.len());
        let cost: Decimal = rows.iter().map(|row| number(&row["cost"])).sum();
        let spend = number(&read["totals"]["spend"]);
        assert_eq!(cost, quantity::Rounding::HalfEven.to_cent(spend));
        assert!(rows.iter().all(|row| row["price_is_sample"] == true));
    }
}
