//! Grass-fed against grain-fed, for the same deal.

use decision::{Compared, StockComparison, compare_stocks};
use pricing::PricingError;
use quantity::UnitPrice;
use wording::{say, text};

use crate::block::{Block, Figure, Tone};
use crate::panels::comparison::whole_table;
use crate::question::{Question, margin};

/// The answer.
///
/// # Errors
/// As [`compare_stocks`].
pub fn answer(question: &Question) -> Result<Vec<Block>, PricingError> {
    let stocks = compare_stocks(&question.case)?;
    let names = [text!("Grain-fed"), text!("Grass-fed")];
    Ok(vec![
        Block::Text(Tone::Finding, finding(question, &stocks)),
        Block::Figures(vec![
            figure(
                question,
                text!("Walk-away, grain-fed"),
                stocks.grain.verdict.walk_away,
            ),
            figure(
                question,
                text!("Walk-away, grass-fed"),
                stocks.grass.verdict.walk_away,
            ),
        ]),
        Block::Text(
            Tone::Note,
            text!("Both at the weight, price, charges and board above. Published are the shares of the \
             whole side; how single cuts shift is a model. A grass-fed side is usually lighter: \
             type its own weight to see that.")
                .to_owned(),
        ),
        whole_table(question, &stocks.comparison, names),
        cuts(question, &stocks.comparison.rows),
    ])
}

fn figure(question: &Question, label: &str, price: UnitPrice) -> Figure {
    Figure {
        label: label.to_owned(),
        text: question.offer(price),
        beside: String::new(),
    }
}

fn finding(question: &Question, stocks: &StockComparison) -> String {
    let more_or_less = |by: UnitPrice| {
        if by < UnitPrice::ZERO {
            say!("{price} less", question.price(-by))
        } else {
            say!("{price} more", question.price(by))
        }
    };
    say!(
        "A grass-fed side of this weight leaves the same money when it costs {same_profit}, and the same \
         margin on sales when it costs {same_margin}.",
        more_or_less(stocks.same_profit),
        more_or_less(stocks.same_margin)
    )
}

fn cuts(question: &Question, rows: &[Compared]) -> Block {
    let per = question.per();
    let weight = question.weight_unit();
    let heads = [
        text!("Cut").to_owned(),
        say!("Grain {weight}", weight),
        say!("Grass {weight}", weight),
        format!("± {weight}"),
        say!("Grain cost {per}", per),
        say!("Grass cost {per}", per),
        text!("Grain margin").to_owned(),
        text!("Grass margin").to_owned(),
        say!("Grain suggested {per}", per),
        say!("Grass suggested {per}", per),
        format!("± {per}"),
    ];
    let rows = rows
        .iter()
        .map(|row| {
            let more = row.difference();
            let [grain, grass] = [&row.first, &row.second].map(Option::as_ref);
            let weight = |of: Option<&pricing::Row>| {
                of.map_or_else(
                    || "–".to_owned(),
                    |row| notation::mass(row.weight, question.units),
                )
            };
            let cost = |of: Option<&pricing::Row>| {
                question.bare_price(of.and_then(|row| row.cost_per_mass))
            };
            let left = |of: Option<&pricing::Row>| {
                margin(of.and_then(|row| row.margin).filter(|_| !row.is_by_product))
            };
            let suggested =
                |of: Option<&pricing::Row>| question.bare_price(of.and_then(|row| row.suggested));
            vec![
                question.name(row.product),
                weight(grain),
                weight(grass),
                notation::mass(more.weight, question.units),
                cost(grain),
                cost(grass),
                left(grain),
                left(grass),
                suggested(grain),
                suggested(grass),
                question.bare_price(more.suggested),
            ]
        })
        .collect();
    Block::FoldedTable(
        text!("Both stocks, cut by cut").to_owned(),
        heads.into(),
        rows,
    )
}
