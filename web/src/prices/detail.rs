//! What stands behind one line of the cost sheet: how its cost came about, its
//! price in every unit, and what may be done to it.

use carcass::Product;
use pricing::{CostTrail, Row};
use quantity::{Money, PriceUnit, Rounding, UnitPrice};
use yew::Html;

use super::{PricesProps, or_dash, origin};
use crate::element::{Element, all, element};
use crate::entry_field::{Form, Looks};
use crate::state::{Data, Figures};
use draft::Field;

/// All that stands behind `row`.
pub fn detail(props: &PricesProps, figures: &Figures, row: &Row) -> Html {
    let product = &props.data[row.product];
    let id = &product.id;
    let form = Form {
        draft: &props.draft,
        faults: &props.faults,
        dispatch: &props.dispatch,
    };
    let entry = |field: Field, label, hint| form.field(field, label, Looks::hinted(hint));
    let heading = |text| element("h3").say(text);
    let note = element("p")
        .class("note")
        .say("The other cuts make up for it, so that the side still meets the target.");
    let of_a_cut = (!row.is_by_product).then(|| {
        all(vec![
            every_unit(row),
            heading("Hold its suggested price").html(),
            element("div")
                .class("triple")
                .node(entry(Field::Pin(id.clone()), "At", "My price, as it is."))
                .node(entry(Field::Floor(id.clone()), "Not below", ""))
                .node(entry(Field::Cap(id.clone()), "Not above", ""))
                .html(),
            note.html(),
            entry(
                Field::CutUnsold(id.clone()),
                "Unsold of this cut, %",
                "Empty: as for all cuts.",
            ),
        ])
    });
    let trails = figures.sheet.trails_of(row.product);
    element("div")
        .class("detail")
        .node(origin::cautions_of(&props.data, figures, row.product))
        .node(about(product))
        .node(origin::sources(&props.data, figures, row.product))
        .node(of_a_cut.unwrap_or_default())
        .put(heading("How its cost came about"))
        .put_all(trails.iter().map(|trail| trail_table(props, trail)))
        .html()
}

/// Other names, numbers and use of a product.
fn about(product: &Product) -> Html {
    let numbers: Vec<String> = [("IMPS", &product.item), ("UNECE", &product.unece)]
        .into_iter()
        .filter_map(|(system, number)| Some(format!("{system} {}", number.as_ref()?)))
        .collect();
    let lines = [
        product.use_note.clone(),
        product.other_names.clone(),
        (!numbers.is_empty()).then(|| numbers.join(" · ")),
    ];
    let line = |text| element("p").class("note").text(text).html();
    all(lines.into_iter().flatten().map(line).collect())
}

/// The units in which every price is shown.
const UNITS: [PriceUnit; 3] = [
    PriceUnit::PerKilogram,
    PriceUnit::Per100Gram,
    PriceUnit::PerPound,
];

/// Board, cost and suggested price in every unit, margin and markup.
fn every_unit(row: &Row) -> Html {
    let margin = or_dash(row.margin.map(notation::percent));
    let markup = row.margin.and_then(quantity::Share::margin_to_markup);
    let markup = or_dash(markup.map(notation::percent));
    let heads = UNITS
        .iter()
        .fold(element("tr").put(element("td")), |heads, unit| {
            let text = format!("$ {}", unit.symbol());
            heads.put(element("th").set("scope", "col").text(text))
        });
    let table = element("table")
        .class("units")
        .put(element("thead").put(heads))
        .put(
            element("tbody")
                .put(prices("Cost", row.cost_per_mass))
                .put(prices("Board", Some(row.price)))
                .put(prices("Suggested", row.card)),
        );
    let note = element("p").class("note").text(format!(
        "Margin {margin} of the sale, markup {markup} on the cost."
    ));
    all(vec![table.html(), note.html()])
}

/// One price in every unit.
fn prices(name: &'static str, price: Option<UnitPrice>) -> Element {
    let line = element("tr").put(element("th").set("scope", "row").say(name));
    UNITS.into_iter().fold(line, |line, unit| {
        let text = price.map(|price| notation::price(price, unit, Rounding::HalfEven));
        line.put(element("td").text(or_dash(text)))
    })
}

/// One trail, from the side down.
fn trail_table(props: &PricesProps, trail: &CostTrail) -> Html {
    let units = props.draft.units;
    let data: &Data = &props.data;
    let weight = |mass| notation::mass_with_unit(mass, units);
    let mut lines = element("tbody");
    for step in &trail.steps {
        let piece = format!("{}, {}", data[step.part].name, weight(step.weight));
        let labour = format!("+ labour: {}", data[step.way].name);
        let by_products = (!step.by_products.is_zero())
            .then(|| line("", "− its by-products".to_owned(), -step.by_products));
        let goes_on = step
            .share
            .map(|share| format!("{} of it goes on", notation::percent(share)));
        lines = lines
            .put(line("step", piece, step.came_with))
            .put(line("", labour, step.labour))
            .maybe(by_products)
            .put(line("", goes_on.unwrap_or_default(), step.handed_on));
    }
    let caption = format!("{} of it", weight(trail.weight));
    element("table")
        .class("trail")
        .put(element("caption").text(caption))
        .put(
            lines
                .put(line("", "+ packaging".to_owned(), trail.packaging))
                .put(line("sum", "Cost".to_owned(), trail.cost)),
        )
        .html()
}

/// One amount on the way.
fn line(class: &'static str, name: String, money: Money) -> Element {
    element("tr")
        .class(class)
        .put(element("th").set("scope", "row").text(name))
        .put(element("td").text(notation::money(money)))
}
