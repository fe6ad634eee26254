//! One cut or by-product of the cost sheet.

use yew::prelude::*;

use crate::element::{Element, button, element};
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
    let note_id = AttrValue::from(format!("{input_id}-note"));
    let forget = {
        let dispatch = props.dispatch.clone();
        let field = field.clone();
        Callback::from(move |_: MouseEvent| dispatch.emit(Action::Forget(field.clone())))
    };
    let is_open = if props.is_open { "true" } else { "false" };
    let name = button("name", props.toggle.reform(|_: MouseEvent| ()))
        .set("aria-expanded", is_open)
        .text(props.name.clone());
    let mark = if props.is_by_product {
        element("small").say("by-product")
    } else {
        earned(props)
    };
    let sample = if props.is_sample { ", sample" } else { "" };
    let label = format!(
        "Board price of {} in $ {}{sample}",
        props.name, props.price_unit
    );
    let is_faulty = props.fault.is_some();
    let input = element("input")
        .write("id", input_id)
        .set("type", "text")
        .set("inputmode", "decimal")
        .set("autocomplete", "off")
        .set_if(props.is_sample, "class", "stand-in")
        .write("aria-label", label)
        .set_if(is_faulty, "aria-invalid", "true")
        .write_some("aria-describedby", is_faulty.then(|| note_id.clone()))
        .value(props.price.clone())
        .on_input(typed(field, &props.dispatch))
        .on_focus(mark_all());
    let fault = props.fault.clone().map(|fault| {
        element("p")
            .class("note fault")
            .write("id", note_id)
            .text(fault)
            .say(" ")
            .put(button("quiet", forget).say("use sample"))
    });
    element("tr")
        .set("role", "row")
        .write("data-cut", props.id.clone())
        .set_if(props.is_by_product, "class", "by-product")
        .put(
            element("th")
                .set("role", "rowheader")
                .set("scope", "row")
                .put(name)
                .put(mark),
        )
        .put(figure("weight", &props.weight))
        .put(figure("cost", &props.cost))
        .put(cell("price").put(input).maybe(fault))
        .put(figure("margin", &props.margin))
        .put(figure("suggested", &props.suggested))
        .html()
}

/// The margin in money as a bar.
fn earned(props: &SheetRowProps) -> Element {
    let says = AttrValue::from(format!("earns {}", props.earned));
    let bar = element("rect")
        .write("width", format!("{}%", props.bar))
        .set("height", "100%");
    element("svg")
        .class("earned")
        .set("role", "img")
        .write("aria-label", says.clone())
        .put(element("title").text(says))
        .put(bar)
}

fn cell(field: &'static str) -> Element {
    element("td").set("role", "cell").set("data-field", field)
}

/// A cell that only shows a figure.
fn figure(field: &'static str, text: &AttrValue) -> Element {
    cell(field).text(text.clone())
}
