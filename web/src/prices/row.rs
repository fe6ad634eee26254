//! One cut or by-product of the cost sheet.

use yew::prelude::*;

use crate::entry_field::{mark_all, typed};
use crate::state::Action;
use draft::Field;

/// What a [`SheetRow`] shows, as text, so that a row whose figures did not
/// change is not drawn again.
#[derive(Properties, PartialEq)]
pub struct SheetRowProps {
    /// Product id.
    pub id: AttrValue,
    /// Name of the trade.
    pub name: AttrValue,
    /// Whether it is a by-product.
    pub is_by_product: bool,
    /// Weight with unit.
    pub weight: AttrValue,
    /// Cost per weight.
    pub cost: AttrValue,
    /// Price on the board, as it stands in its field.
    pub price: AttrValue,
    /// Unit of the price.
    pub price_unit: &'static str,
    /// Whether the price is a sample.
    pub is_sample: bool,
    /// Why the price cannot be read.
    pub fault: Option<AttrValue>,
    /// Margin on its sales.
    pub margin: AttrValue,
    /// The margin in money.
    pub earned: AttrValue,
    /// The margin in money as a percentage of the largest on the sheet.
    pub bar: AttrValue,
    /// Suggested price.
    pub suggested: AttrValue,
    /// Whether what stands behind it is shown.
    pub is_open: bool,
    /// Shows or hides what stands behind it.
    pub toggle: Callback<()>,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// One cut or by-product of the cost sheet.
#[component]
pub fn SheetRow(props: &SheetRowProps) -> Html {
    let field = Field::Board(props.id.to_string());
    let input_id = field.id();
    let note_id = format!("{input_id}-note");
    let forget = {
        let dispatch = props.dispatch.clone();
        let field = field.clone();
        Callback::from(move |_: MouseEvent| dispatch.emit(Action::Forget(field.clone())))
    };
    html! {
        <tr role="row" data-cut={props.id.clone()}
            class={classes!(props.is_by_product.then_some("by-product"))}>
            <th role="rowheader" scope="row">
                <button type="button" class="name" aria-expanded={props.is_open.to_string()}
                    onclick={props.toggle.reform(|_: MouseEvent| ())}>{ &props.name }</button>
                if props.is_by_product {
                    <small>{ "by-product" }</small>
                } else {
                    <svg class="earned" role="img" aria-label={format!("earns {}", props.earned)}>
                        <title>{ format!("earns {}", props.earned) }</title>
                        <rect width={format!("{}%", props.bar)} height="100%" />
                    </svg>
                }
            </th>
            { figure("weight", &props.weight) }
            { figure("cost", &props.cost) }
            <td role="cell" data-field="price">
                <input id={input_id} type="text" inputmode="decimal" autocomplete="off"
                    class={classes!(props.is_sample.then_some("stand-in"))}
                    aria-label={format!("Board price of {} in $ {}{}", props.name, props.price_unit,
                        if props.is_sample { ", sample" } else { "" })}
                    aria-invalid={props.fault.is_some().then_some("true")}
                    aria-describedby={props.fault.is_some().then(|| note_id.clone())}
                    value={props.price.clone()} oninput={typed(field, &props.dispatch)}
                    onfocus={mark_all()} />
                if let Some(fault) = &props.fault {
                    <p class="note fault" id={note_id}>
                        { fault }{ " " }
                        <button type="button" class="quiet" onclick={forget}>{ "use sample" }</button>
                    </p>
                }
            </td>
            { figure("margin", &props.margin) }
            { figure("suggested", &props.suggested) }
        </tr>
    }
}

/// A cell that only shows a figure.
fn figure(field: &'static str, text: &AttrValue) -> Html {
    html! { <td role="cell" data-field={field}>{ text }</td> }
}
