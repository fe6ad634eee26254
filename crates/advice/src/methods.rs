//! What every cut costs by each method of dividing cost.

use carcass::ProductId;
use pricing::{AllocationMethod, Row, rows_by_every_method};
use quantity::UnitPrice;
use wording::{say, text};

use crate::block::Block;
use crate::question::Question;
use crate::written;

/// A table of the cuts with a column for each method, the method in force in
/// the order of its sheet. `None` where a side cannot be priced.
pub fn written(question: &Question) -> Option<String> {
    let case = &question.case;
    let breakdown = &question.sheet.breakdown;
    let methods = rows_by_every_method(case.catalogue, breakdown, &case.deal, &case.shop).ok()?;
    let cost_of = |rows: &[Row], product: ProductId| -> Option<UnitPrice> {
        let row = rows.iter().find(|row| row.product == product)?;
        row.cost_per_mass
    };
    let mut heads = vec![text!("Cut").to_owned()];
    heads.extend(AllocationMethod::ALL.map(|method| method.name().to_owned()));
    let rows = question
        .sheet
        .rows
        .iter()
        .filter(|row| !row.is_by_product)
        .map(|row| {
            let costs = methods
                .iter()
                .map(|(_, rows)| question.bare_price(cost_of(rows, row.product)));
            core::iter::once(question.name(row.product))
                .chain(costs)
                .collect()
        })
        .collect();
    let caption = say!(
        "Cost of each cut, {currency} {per}, divided by",
        notation::currency(),
        question.per()
    );
    Some(written::blocks(&[Block::Table(caption, heads, rows)]))
}
