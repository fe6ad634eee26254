//! The plan with some of its inputs moved, beside the plan as it is.

use std::collections::BTreeMap;
use wording::{say, text};

use carcass::{Kind, ProductId};
use decision::{Input, Reading, WhatIf};
use pricing::{CostSheet, Outcome, Packaging, PricingError};
use quantity::{Decimal, Share, UnitPrice};

use crate::answer::Write;
use crate::block::{Block, Figure, Tone};
use crate::form::{Form, Label};
use crate::inputs;
use crate::question::{Question, margin};

/// Inputs with a control of their own.
const MOVED: [Input; 9] = [
    Input::SidePrice,
    Input::Weight,
    Input::Saleable,
    Input::Stock,
    Input::LabourMinutes,
    Input::LabourRate,
    Input::Unsold,
    Input::Packaging,
    Input::Board,
];

/// The answer.
///
/// # Errors
/// As [`WhatIf::apply`].
pub fn answer(question: &Question, form: &mut Form) -> Result<Vec<Block>, PricingError> {
    let (what_if, moved) = read(question, form);
    let tried = what_if.apply(&question.case)?;
    let mut blocks = vec![
        Block::Text(Tone::Finding, finding(question, &tried)),
        Block::Figures(figures(question, &tried)),
    ];
    if !what_if.is_plan() {
        let writes = writes(question, &what_if, &moved);
        if !writes.is_empty() {
            blocks.push(Block::Offer(text!("Use these").to_owned(), writes));
        }
        if moved.iter().any(|input| !input.can_be_kept()) {
            blocks.push(Block::Text(
                Tone::Note,
                text!("A moved yield is tried here only: a plan takes its yields from the published tables.")
                    .to_owned(),
            ));
        }
    }
    blocks.push(cuts(question, &tried));
    Ok(blocks)
}

/// What is moved.
fn read(question: &Question, form: &mut Form) -> (WhatIf, Vec<Input>) {
    let case = &question.case;
    let mut what_if = WhatIf::default();
    let mut moved = Vec::new();
    let mut take = |form: &mut Form, input: Input, id: &str| {
        let label = Label {
            id,
            name: &inputs::name(case, input),
            hint: inputs::hint(input),
        };
        let stands = input.planned(case);
        let value = inputs::read(form, case, input, label, stands, inputs::reach(input));
        if form.is_set(id) {
            what_if.set(input, value);
            moved.push(input);
        }
    };
    for input in MOVED {
        take(form, input, &inputs::id(case, input));
    }
    let cut = cut_choice(question, form);
    if let Some(product) = case.catalogue.product_id(&cut) {
        // Of the cut chosen, so that another cut starts from its own plan.
        for input in [Input::Price(product), Input::Yield(product)] {
            take(form, input, &inputs::id(case, input));
        }
    }
    (what_if, moved)
}

/// Which one cut is moved.
fn cut_choice(question: &Question, form: &mut Form) -> String {
    let mut cuts: Vec<_> = question
        .sheet
        .rows
        .iter()
        .filter(|row| !row.is_by_product)
        .collect();
    cuts.sort_by_key(|row| core::cmp::Reverse(row.sales));
    let catalogue = question.case.catalogue;
    let choices = cuts
        .iter()
        .map(|row| {
            let product = &catalogue[row.product];
            (product.id.clone(), product.name.clone())
        })
        .collect();
    form.choice(
        Label {
            id: "cut",
            name: text!("One cut"),
            hint: text!("Its price and its yield can be moved below."),
        },
        choices,
    )
}

fn finding(question: &Question, tried: &CostSheet) -> String {
    let verdict = &tried.verdict;
    let target = notation::percent(question.case.shop.target_margin);
    let offer = question.offer(verdict.walk_away);
    match verdict.outcome {
        Outcome::Pays => say!(
            "Pays: makes the target of {target} up to {offer}.",
            target,
            offer
        ),
        Outcome::Thin => {
            say!(
                "Thin: covers its costs, not the target of {target}. Offer {offer} or less.",
                target,
                offer
            )
        }
        Outcome::FallsShort => say!(
            "Falls short: costs {profit} more than it brings. Offer {offer} or less.",
            notation::money(-verdict.profit),
            offer
        ),
    }
}

fn figures(question: &Question, tried: &CostSheet) -> Vec<Figure> {
    let (plan, tried) = (
        Reading::of(&question.sheet.verdict),
        Reading::of(&tried.verdict),
    );
    let figure = |label: &str, text: String, plan: String| Figure {
        label: label.to_owned(),
        text,
        beside: say!("plan {plan}", plan),
    };
    vec![
        figure(
            text!("Margin"),
            notation::percent(tried.margin),
            notation::percent(plan.margin),
        ),
        figure(
            text!("Walk-away price"),
            question.offer(tried.walk_away),
            question.offer(plan.walk_away),
        ),
        figure(
            text!("Left over"),
            notation::money(tried.profit),
            notation::money(plan.profit),
        ),
    ]
}

/// What the plan becomes when this is taken over.
fn writes(question: &Question, what_if: &WhatIf, moved: &[Input]) -> Vec<Write> {
    let case = &question.case;
    let adjusted = what_if.adjusted(case);
    let field = |id: &str, number: Decimal, places: u32| {
        Write::Field(id.to_owned(), notation::in_field(number, places))
    };
    let units = question.units;
    let price = |id: &str, price: UnitPrice| field(id, price.in_unit(units.price()), 4);
    let mut writes = Vec::new();
    for input in moved {
        match input {
            Input::SidePrice => writes.push(price("side-price", adjusted.deal.price)),
            Input::Weight => writes.push(field(
                "side-weight",
                adjusted.deal.weight.in_unit(units.mass()),
                3,
            )),
            Input::Stock => {
                let percent = what_if.value(case, Input::Stock).round();
                writes.extend(u8::try_from(percent).ok().map(Write::GrassPercent));
            }
            Input::LabourMinutes => writes.push(field(
                "labour-minutes",
                what_if.value(case, Input::LabourMinutes),
                1,
            )),
            Input::LabourRate => writes.push(field(
                "labour-rate",
                adjusted.shop.labour.rate.per_hour(),
                2,
            )),
            Input::Unsold => {
                writes.push(field("unsold", adjusted.shop.losses.unsold.percent(), 2));
            }
            Input::Packaging => match adjusted.shop.packaging {
                Packaging::PerWeight(cost) => writes.push(price("packaging", cost)),
                Packaging::PerPack { cost, .. } => {
                    writes.push(field("pack-cost", cost.units(), 4));
                }
            },
            // The board comes below, and a plan has no place for a moved yield.
            Input::Board | Input::Price(_) | Input::Charges | Input::Saleable | Input::Yield(_) => {
            }
        }
    }
    writes.extend(
        board_prices(question, moved, &adjusted.shop)
            .into_iter()
            .map(|(product, cost)| price(&format!("price-{}", case.catalogue[product].id), cost)),
    );
    writes
}

/// The board prices that are moved.
fn board_prices(
    question: &Question,
    moved: &[Input],
    shop: &pricing::Shop,
) -> BTreeMap<ProductId, UnitPrice> {
    let catalogue = question.case.catalogue;
    let whole_board = moved.contains(&Input::Board);
    catalogue
        .products()
        .filter(|(product, data)| {
            moved.contains(&Input::Price(*product)) || (whole_board && data.kind == Kind::Cut)
        })
        .map(|(product, _)| (product, shop.board.price(catalogue, product)))
        .collect()
}

fn cuts(question: &Question, tried: &CostSheet) -> Block {
    let per = question.per();
    let heads = [
        text!("Cut").to_owned(),
        question.weight_unit().to_owned(),
        say!("Cost {per}", per),
        say!("Price {per}", per),
        text!("Margin").to_owned(),
        say!("Suggested {per}", per),
    ];
    let rows = tried
        .rows
        .iter()
        .map(|row| {
            let own_margin: Option<Share> = row.margin.filter(|_| !row.is_by_product);
            vec![
                question.name(row.product),
                notation::mass(row.weight, question.units),
                question.bare_price(row.cost_per_mass),
                question.bare_price(Some(row.price)),
                margin(own_margin),
                question.bare_price(row.suggested),
            ]
        })
        .collect();
    Block::FoldedTable(
        text!("Every cut with these figures").to_owned(),
        heads.into(),
        rows,
    )
}
