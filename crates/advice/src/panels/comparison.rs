//! This plan against another, for the same deal.

use decision::{Case, Comparison, Whole, compare};
use notation::{money, percent};
use pricing::PricingError;

use crate::block::{Block, Tone};
use crate::form::{Form, Label};
use crate::question::{Question, margin};

/// The answer.
///
/// # Errors
/// As [`compare`].
pub fn answer(question: &Question, form: &mut Form) -> Result<Vec<Block>, PricingError> {
    let catalogue = question.case.catalogue;
    let choices = catalogue
        .plans()
        .iter()
        .map(|plan| (plan.id.clone(), plan.name.clone()))
        .collect();
    let chosen = form.choice(
        Label {
            id: "other",
            name: "Against",
            hint: "The same deal, cut by this plan.",
        },
        choices,
    );
    let Some(other) = catalogue.plan(&chosen) else {
        return Ok(Vec::new());
    };
    let second = Case {
        plan: other.plan.clone(),
        ..question.case.clone()
    };
    let comparison = compare(&question.case, &second)?;
    let finding = if comparison.first.reading == comparison.second.reading {
        "Both come to the same.".to_owned()
    } else {
        let more = comparison.second.reading.profit - comparison.first.reading.profit;
        let (word, by) = if more < quantity::Money::ZERO {
            ("less", -more)
        } else {
            ("more", more)
        };
        format!("{} leaves {} {word} than this plan.", other.name, money(by))
    };
    Ok(vec![
        Block::Text(Tone::Finding, finding),
        whole_table(question, &comparison, ["This plan", &other.name]),
        cuts(question, &comparison, ["This plan", &other.name]),
    ])
}

/// Both as a whole with their differences.
pub fn whole_table(question: &Question, comparison: &Comparison, names: [&str; 2]) -> Block {
    let [first, second] = [&comparison.first, &comparison.second];
    let more = &comparison.more;
    let units = question.units;
    let line = |name: &str, of: &dyn Fn(&Whole) -> String, more: String| {
        vec![name.to_owned(), of(first), of(second), more]
    };
    let rows = vec![
        line(
            &format!("Saleable {}", question.weight_unit()),
            &|whole| notation::mass(whole.totals.saleable, units),
            notation::mass(more.saleable, units),
        ),
        line(
            "Of the chilled side",
            &|whole| margin(whole.totals.saleable.ratio_to(whole.totals.chilled)),
            String::new(),
        ),
        line(
            "Minutes",
            &|whole| notation::minutes(whole.totals.time),
            notation::minutes(more.time),
        ),
        line(
            "Of these at the saw",
            &|whole| notation::minutes(whole.totals.saw_time),
            notation::minutes(more.saw_time),
        ),
        line(
            "Spend",
            &|whole| money(whole.totals.spend()),
            money(more.spend()),
        ),
        line(
            "By-products, credited",
            &|whole| money(whole.totals.by_products),
            money(more.by_products),
        ),
        line(
            "Sales",
            &|whole| money(whole.totals.sales),
            money(more.sales),
        ),
        line(
            "Left over",
            &|whole| money(whole.reading.profit),
            money(more.profit()),
        ),
        line(
            "Margin",
            &|whole| percent(whole.reading.margin),
            percent(comparison.margin),
        ),
        line(
            &format!("Walk-away {}", question.per()),
            &|whole| question.bare_offer(whole.reading.walk_away),
            question.bare_price(Some(comparison.walk_away)),
        ),
    ];
    let heads = ["", names[0], names[1], "±"].map(str::to_owned);
    Block::Table("The side as a whole".to_owned(), heads.into(), rows)
}

fn cuts(question: &Question, comparison: &Comparison, names: [&str; 2]) -> Block {
    let per = question.per();
    let weight = question.weight_unit();
    let heads = vec![
        "Cut".to_owned(),
        format!("{} {weight}", names[0]),
        format!("{} {weight}", names[1]),
        format!("{} cost {per}", names[0]),
        format!("{} cost {per}", names[1]),
        format!("{} sales", names[0]),
        format!("{} sales", names[1]),
        "Sales ±".to_owned(),
    ];
    let rows = comparison
        .rows
        .iter()
        .map(|row| {
            let dash = || "–".to_owned();
            let [first, second] = [&row.first, &row.second].map(Option::as_ref);
            let mass = |of: Option<&pricing::Row>| {
                of.map_or_else(dash, |row| notation::mass(row.weight, question.units))
            };
            let cost = |of: Option<&pricing::Row>| {
                question.bare_price(of.and_then(|row| row.cost_per_mass))
            };
            let sales = |of: Option<&pricing::Row>| of.map_or_else(dash, |row| money(row.sales));
            vec![
                question.name(row.product),
                mass(first),
                mass(second),
                cost(first),
                cost(second),
                sales(first),
                sales(second),
                money(row.difference().sales),
            ]
        })
        .collect();
    Block::FoldedTable("Cut by cut".to_owned(), heads, rows)
}
