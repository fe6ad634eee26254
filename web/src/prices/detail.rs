//! What stands behind one line of the cost sheet: how its cost came about, its
//! price in every unit, and what may be done to it.

use carcass::Product;
use pricing::{CostTrail, Row};
use quantity::{Money, PriceUnit, Rounding, UnitPrice};
use yew::prelude::*;

use super::{PricesProps, origin};
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
    html! {
        <div class="detail">
            { origin::cautions_of(&props.data, figures, row.product) }
            { about(product) }
            { origin::sources(&props.data, figures, row.product) }
            if !row.is_by_product {
                { every_unit(row) }
                <h3>{ "Hold its suggested price" }</h3>
                <div class="triple">
                    { entry(Field::Pin(id.clone()), "At", "My price, as it is.") }
                    { entry(Field::Floor(id.clone()), "Not below", "") }
                    { entry(Field::Cap(id.clone()), "Not above", "") }
                </div>
                <p class="note">{ "The other cuts make up for it, so that the side still meets the target." }</p>
                { entry(Field::CutUnsold(id.clone()), "Unsold of this cut, %", "Empty: as for all cuts.") }
            }
            <h3>{ "How its cost came about" }</h3>
            { for figures.sheet.trails_of(row.product).iter().map(|trail| trail_table(props, trail)) }
        </div>
    }
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
    html! {
        { for lines.into_iter().flatten().map(|line| html! { <p class="note">{ line }</p> }) }
    }
}

/// Board, cost and suggested price in every unit, margin and markup.
fn every_unit(row: &Row) -> Html {
    let units = [
        PriceUnit::PerKilogram,
        PriceUnit::Per100Gram,
        PriceUnit::PerPound,
    ];
    let line = |name: &'static str, price: Option<UnitPrice>, rounding: Rounding| {
        html! {
            <tr>
                <th scope="row">{ name }</th>
                { for units.iter().map(|&unit| html! {
                    <td>{ price.map_or_else(|| "–".to_owned(), |price| notation::price(price, unit, rounding)) }</td>
                }) }
            </tr>
        }
    };
    let margin = row.margin.map_or_else(|| "–".to_owned(), notation::percent);
    let markup = row
        .margin
        .and_then(quantity::Share::margin_to_markup)
        .map_or_else(|| "–".to_owned(), notation::percent);
    html! {
        <>
            <table class="units">
                <thead><tr>
                    <td></td>
                    { for units.iter().map(|unit| html! { <th scope="col">{ format!("$ {}", unit.symbol()) }</th> }) }
                </tr></thead>
                <tbody>
                    { line("Cost", row.cost_per_mass, Rounding::HalfEven) }
                    { line("Board", Some(row.price), Rounding::HalfEven) }
                    { line("Suggested", row.card, Rounding::HalfEven) }
                </tbody>
            </table>
            <p class="note">{ format!("Margin {margin} of the sale, markup {markup} on the cost.") }</p>
        </>
    }
}

/// One trail, from the side down.
fn trail_table(props: &PricesProps, trail: &CostTrail) -> Html {
    let units = props.draft.units;
    let data: &Data = &props.data;
    let line = |class: &'static str, name: Html, money: Money| {
        html! {
            <tr {class}><th scope="row">{ name }</th><td>{ notation::money(money) }</td></tr>
        }
    };
    html! {
        <table class="trail">
            <caption>{ format!("{} of it", notation::mass_with_unit(trail.weight, units)) }</caption>
            <tbody>
                { for trail.steps.iter().map(|step| html! {
                    <>
                        { line("step", html! { <>{ &data[step.part].name }{ ", " }{ notation::mass_with_unit(step.weight, units) }</> }, step.came_with) }
                        { line("", html! { <>{ "+ labour: " }{ &data[step.way].name }</> }, step.labour) }
                        if !step.by_products.is_zero() {
                            { line("", html! { "− its by-products" }, -step.by_products) }
                        }
                        { line("", step.share.map_or_else(Html::default, |share|
                            html! { format!("{} of it goes on", notation::percent(share)) }), step.handed_on) }
                    </>
                }) }
                { line("", html! { "+ packaging" }, trail.packaging) }
                { line("sum", html! { "Cost" }, trail.cost) }
            </tbody>
        </table>
    }
}
