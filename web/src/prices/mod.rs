//! The place of the cost sheet and the price board.

mod row;
mod totals;

use std::rc::Rc;

use document::format::MethodForm;
use pricing::AllocationMethod;
use quantity::{Money, Rounding, Share};
use web_sys::HtmlSelectElement;
use yew::prelude::*;

use crate::draft::reading::Faults;
use crate::draft::{Draft, Field};
use crate::entry_field::{price_text, shown_text};
use crate::format;
use crate::state::{Action, Data, Figures};

use row::SheetRow;
use totals::totals_table;

/// What the place shows.
#[derive(Properties, PartialEq)]
pub struct PricesProps {
    /// Products.
    pub data: Data,
    /// What was typed.
    pub draft: Rc<Draft>,
    /// What cannot be read.
    pub faults: Rc<Faults>,
    /// The last figures that could be worked out.
    pub figures: Option<Figures>,
    /// Whether they belong to what is typed now.
    pub is_current: bool,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// The place of the cost sheet and the price board.
#[component]
pub fn Prices(props: &PricesProps) -> Html {
    let Some(figures) = &props.figures else {
        return html! {
            <p class="empty">{ "The cost sheet stands here once the side has a weight and a price." }</p>
        };
    };
    let units = props.draft.units;
    let unit = units.price();
    let board = &figures.resolved.shop.board;
    let samples = figures
        .sheet
        .rows
        .iter()
        .filter(|row| board.is_sample(row.product))
        .count();
    let largest = figures
        .sheet
        .rows
        .iter()
        .map(|row| row.sales - row.exact_cost)
        .max()
        .unwrap_or(Money::ZERO);
    let rows = figures.sheet.rows.iter().map(|row| {
        let product = &props.data[row.product];
        let field = Field::Board(product.id.clone());
        let entry = props.draft.entry(&field);
        let text = if entry.own {
            shown_text(&field, &entry, units)
        } else {
            price_text(row.price, units)
        };
        let earned = row.sales - row.exact_cost;
        let bar = earned
            .ratio_to(largest)
            .filter(|_| earned.is_positive())
            .unwrap_or(Share::ZERO);
        html! {
            <SheetRow key={product.id.clone()} id={product.id.clone()} name={product.name.clone()}
                is_by_product={row.is_by_product}
                weight={format::mass_with_unit(row.weight, units)}
                cost={row.cost_per_mass.map_or_else(|| "–".to_owned(), |cost| format::price(cost, unit, Rounding::HalfEven))}
                price={text} price_unit={unit.symbol()} is_sample={!entry.own}
                fault={props.faults.get(&field).map(|fault| AttrValue::from(fault.clone()))}
                margin={row.margin.filter(|_| !row.is_by_product).map_or_else(|| "–".to_owned(), format::percent)}
                earned={format::money(earned)}
                bar={bar.percent().round_dp(1).to_string()}
                suggested={row.suggested.map_or_else(|| "–".to_owned(), |price| format::price(price, unit, Rounding::Up))}
                dispatch={props.dispatch.clone()} />
        }
    });
    html! {
        <div class="sheet">
            if samples > 0 {
                <p class="sample-notice">
                    { format!("{samples} of {} prices are invented samples, set in slanted type. Type over them with your own.", figures.sheet.rows.len()) }
                </p>
            }
            <table id="cost-sheet" role="table" class={classes!((!props.is_current).then_some("is-stale"))}>
                <caption>
                    { format!("Cost sheet: money {}", unit.symbol()) }
                    if !props.is_current {
                        <span class="stale">{ " Last good figures." }</span>
                    }
                </caption>
                <thead role="rowgroup">
                    <tr role="row">
                        <th role="columnheader" scope="col">{ "Cut" }</th>
                        <th role="columnheader" scope="col">{ "Weight" }</th>
                        <th role="columnheader" scope="col">{ "Cost" }</th>
                        <th role="columnheader" scope="col">{ "Board price" }</th>
                        <th role="columnheader" scope="col">{ "Margin" }</th>
                        <th role="columnheader" scope="col">{ "Suggested" }</th>
                    </tr>
                </thead>
                <tbody role="rowgroup">{ for rows }</tbody>
            </table>
            <p class="note">
                { "Suggested: the price at which the whole side makes the target margin, every cut keeping its place on the board, rounded up. By-products count against the cost of the cuts." }
            </p>
            { method_choice(props) }
            { totals_table(figures, units) }
        </div>
    }
}

/// The choice of how joint cost is divided.
fn method_choice(props: &PricesProps) -> Html {
    let in_force = AllocationMethod::from(props.draft.method);
    let choose = {
        let dispatch = props.dispatch.clone();
        Callback::from(move |event: Event| {
            let select: HtmlSelectElement = event.target_unchecked_into();
            let chosen = select.value();
            if let Some(method) = AllocationMethod::ALL
                .into_iter()
                .find(|method| method.name() == chosen)
            {
                dispatch.emit(Action::ChooseMethod(MethodForm::from(method)));
            }
        })
    };
    html! {
        <div class="field">
            <label for="method">{ "Cost divided by" }</label>
            <div class="box">
                <select id="method" onchange={choose} aria-describedby="method-note">
                    { for AllocationMethod::ALL.into_iter().map(|method| html! {
                        <option value={method.name()} selected={method == in_force}>{ method.name() }</option>
                    }) }
                </select>
            </div>
            <p class="note" id="method-note">{ in_force.misleads_when() }</p>
        </div>
    }
}
