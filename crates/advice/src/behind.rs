//! What stands behind a line of the cost sheet: what the cut is, its prices in
//! every unit, how its cost came about, and where its share comes from.

use carcass::{Catalogue, Node, Output, Product, ProductId, WayId, WayOutput, What};
use pricing::{CostTrail, Row};
use quantity::{Money, PriceUnit, Rounding, Share, UnitPrice};
use wording::{say, text};

use crate::question::Question;
use crate::steps::Steps;

/// The units in which every price is shown.
const UNITS: [PriceUnit; 3] = [
    PriceUnit::PerKilogram,
    PriceUnit::Per100Gram,
    PriceUnit::PerPound,
];

/// What stands behind the line of the product with this id; `None` where the
/// sheet has no such line.
pub fn written(question: &Question, id: &str) -> Option<String> {
    let product = question.case.catalogue.product_id(id)?;
    let row = question
        .sheet
        .rows
        .iter()
        .find(|row| row.product == product)?;
    let mut steps = Steps::default();
    about(&mut steps, &question.case.catalogue[product]);
    if !row.is_by_product {
        every_unit(&mut steps, row);
    }
    steps.holding("h3", &[], text!("How its cost came about"));
    for trail in question.sheet.trails_of(product) {
        trail_table(&mut steps, question, &trail);
    }
    sources(&mut steps, question, product);
    Some(steps.written())
}

fn note(steps: &mut Steps, text: &str) {
    steps.holding("p", &[("class", "note")], text);
}

/// Other names, numbers and use of a product.
fn about(steps: &mut Steps, product: &Product) {
    let numbers: Vec<String> = [("IMPS", &product.item), ("UNECE", &product.unece)]
        .into_iter()
        .filter_map(|(system, number)| Some(format!("{system} {}", number.as_ref()?)))
        .collect();
    let lines = [
        product.use_note.clone(),
        product.other_names.clone(),
        (!numbers.is_empty()).then(|| numbers.join(" · ")),
    ];
    for line in lines.into_iter().flatten() {
        note(steps, &line);
    }
}

fn or_dash(text: Option<String>) -> String {
    text.unwrap_or_else(|| "–".to_owned())
}

/// Board, cost and suggested price in every unit, margin and markup.
fn every_unit(steps: &mut Steps, row: &Row) {
    steps.element("table", &[("class", "units")], |steps| {
        steps.element("thead", &[], |steps| {
            steps.element("tr", &[], |steps| {
                steps.empty("td", &[]);
                for unit in UNITS {
                    let head = format!("{} {}", notation::currency(), unit.symbol());
                    steps.holding("th", &[("scope", "col")], &head);
                }
            });
        });
        steps.element("tbody", &[], |steps| {
            prices(steps, text!("Cost"), row.cost_per_mass);
            prices(steps, text!("Board"), Some(row.price));
            prices(steps, text!("Suggested"), row.card);
        });
    });
    let margin = or_dash(row.margin.map(notation::percent));
    let markup = row.margin.and_then(Share::margin_to_markup);
    let markup = or_dash(markup.map(notation::percent));
    note(
        steps,
        &say!(
            "Margin {margin} of the sale, markup {markup} on the cost.",
            margin,
            markup
        ),
    );
}

/// One price in every unit.
fn prices(steps: &mut Steps, name: &str, price: Option<UnitPrice>) {
    steps.element("tr", &[], |steps| {
        steps.holding("th", &[("scope", "row")], name);
        for unit in UNITS {
            let text = price.map(|price| notation::price(price, unit, Rounding::HalfEven));
            steps.holding("td", &[], &or_dash(text));
        }
    });
}

/// One trail, from the side down.
fn trail_table(steps: &mut Steps, question: &Question, trail: &CostTrail) {
    let catalogue = question.case.catalogue;
    let weight = |mass| notation::mass_with_unit(mass, question.units);
    let way_down = |steps: &mut Steps| {
        for step in &trail.steps {
            let piece = format!("{}, {}", catalogue[step.part].name, weight(step.weight));
            line(steps, "step", &piece, step.came_with);
            let labour = say!("+ labour: {way}", catalogue[step.way].name);
            line(steps, "", &labour, step.labour);
            if !step.by_products.is_zero() {
                line(steps, "", text!("− its by-products"), -step.by_products);
            }
            let goes_on = step
                .share
                .map(|share| say!("{share} of it goes on", notation::share(share)));
            line(steps, "", &goes_on.unwrap_or_default(), step.handed_on);
        }
        line(steps, "", text!("+ packaging"), trail.packaging);
        line(steps, "sum", text!("Cost"), trail.cost);
    };
    steps.element("table", &[("class", "trail")], |steps| {
        steps.holding(
            "caption",
            &[],
            &say!("{weight} of it", weight(trail.weight)),
        );
        steps.element("tbody", &[], way_down);
    });
}

/// One amount on the way.
fn line(steps: &mut Steps, class: &str, name: &str, money: Money) {
    steps.element("tr", &[("class", class)], |steps| {
        steps.holding("th", &[("scope", "row")], name);
        steps.holding("td", &[], &notation::money(money));
    });
}

/// The ways of the plan that give `product`, each with what it gives.
fn givers<'a>(question: &'a Question, product: ProductId) -> Vec<(WayId, &'a WayOutput)> {
    let catalogue: &Catalogue = question.case.catalogue;
    let nodes = question.sheet.breakdown.nodes();
    let gives = |node: &Node| {
        let parent = nodes.get(node.parent?)?;
        let What::Part { way, .. } = parent.what else {
            return None;
        };
        let mut outputs = catalogue[way].outputs.iter();
        let output = outputs.find(|output| output.output == Output::Product(product))?;
        Some((way, output))
    };
    nodes
        .iter()
        .filter(|node| node.what == What::Product(product))
        .filter_map(gives)
        .collect()
}

/// The share of each part that a product is taken to be, with its source and
/// how well it is known.
fn sources(steps: &mut Steps, question: &Question, product: ProductId) {
    let catalogue = question.case.catalogue;
    steps.element("details", &[("class", "cautions sources")], |steps| {
        steps.holding("summary", &[], text!("Where its share comes from"));
        steps.element("ul", &[], |steps| {
            for (way, output) in givers(question, product) {
                let part = catalogue[catalogue[way].part].name.to_ascii_lowercase();
                let stock = question.case.deal.stock;
                if catalogue[way].own.counts_at(stock) {
                    let share = stock.between(output.grain, output.grass);
                    let share = notation::share(share);
                    let line = say!(
                        "{share} of the {part}: from your own cutting tests.",
                        share,
                        part
                    );
                    steps.holding("li", &[], &line);
                    continue;
                }
                let share = notation::share(output.grain);
                let mut line = say!(
                    "{share} of the {part}, grain-fed: {words}.",
                    share,
                    part,
                    output.mark.words()
                );
                if let Some(source) = catalogue.source_of(output) {
                    line = line + " " + &source.title;
                    if let Some(year) = &source.year {
                        line = line + ", " + year;
                    }
                    line.push('.');
                }
                if let Some(note) = &output.note {
                    line = line + " " + note + ".";
                }
                steps.holding("li", &[], &line);
            }
        });
    });
}
