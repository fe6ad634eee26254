//! One cut or by-product of the cost sheet.

use wording::{key, say, text};
use yew::prelude::*;

use crate::element::{Element, button, element};
use crate::entry_field::{mark_all, typed};
use crate::state::Action;
use draft::Field;

/// One line as text, so that it is not drawn again where its figures did not
/// change.
#[derive(PartialEq)]
pub struct Line {
    /// Product id.
    pub id: String,
    /// Name of the trade.
    pub name: String,
    /// Whether it is a by-product.
    pub is_by_product: bool,
    /// Weight with unit.
    pub weight: String,
    /// Cost per weight.
    pub cost: String,
    /// Price on the board, as it stands in its field.
    pub price: String,
    /// Unit of the price.
    pub price_unit: &'static str,
    /// Whether the price is a sample.
    pub is_sample: bool,
    /// Why the price cannot be read.
    pub fault: Option<String>,
    /// Margin on its sales.
    pub margin: String,
    /// The margin in money.
    pub earned: String,
    /// The margin in money as a percentage of the largest on the sheet.
    pub bar: String,
    /// Suggested price.
    pub suggested: String,
    /// Whether what stands behind it is shown.
    pub is_open: bool,
}

/// What a [`SheetRow`] shows.
#[derive(Properties, PartialEq)]
pub struct SheetRowProps {
    /// The line.
    pub line: Line,
    /// Takes the id of the product behind which to look. The setter and not a
    /// callback for this row: that would be another at every drawing.
    pub open: UseStateSetter<Option<String>>,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// One cut or by-product of the cost sheet.
#[component]
pub fn SheetRow(props: &SheetRowProps) -> Html {
    let line = &props.line;
    let field = Field::Board(line.id.clone());
    let input_id = field.id();
    let note_id = AttrValue::from(format!("{input_id}-note"));
    let forget = {
        let dispatch = props.dispatch.clone();
        let field = field.clone();
        Callback::from(move |_: MouseEvent| dispatch.emit(Action::Forget(field.clone())))
    };
    let toggle = {
        let open = props.open.clone();
        let next = (!line.is_open).then(|| line.id.clone());
        Callback::from(move |_: MouseEvent| open.set(next.clone()))
    };
    let is_open = if line.is_open { "true" } else { "false" };
    let name = button("name", toggle)
        .set("aria-expanded", is_open)
        .text(line.name.clone());
    let mark = if line.is_by_product {
        element("small").tell(key!("by-product"))
    } else {
        earned(line)
    };
    let sample = if line.is_sample {
        text!(", sample")
    } else {
        ""
    };
    let label = say!(
        "Board price of {cut} in {currency} {per}{sample}",
        line.name,
        notation::currency(),
        line.price_unit,
        sample
    );
    let is_faulty = line.fault.is_some();
    let input = element("input")
        .write("id", input_id)
        .set("type", "text")
        .set("inputmode", "decimal")
        .set("autocomplete", "off")
        .set_if(line.is_sample, "class", "stand-in")
        .write("aria-label", label)
        .set_if(is_faulty, "aria-invalid", "true")
        .write_some("aria-describedby", is_faulty.then(|| note_id.clone()))
        .value(line.price.clone())
        .on_input(typed(field, &props.dispatch))
        .on_focus(mark_all());
    let fault = line.fault.clone().map(|fault| {
        element("p")
            .class("note fault")
            .write("id", note_id)
            .text(fault)
            .say(" ")
            .put(button("quiet", forget).tell(key!("use sample")))
    });
    element("tr")
        .set("role", "row")
        .write("data-cut", line.id.clone())
        .set_if(line.is_by_product, "class", "by-product")
        .put(
            element("th")
                .set("role", "rowheader")
                .set("scope", "row")
                .put(name)
                .put(mark),
        )
        .put(figure("weight", &line.weight))
        .put(figure("cost", &line.cost))
        .put(cell("price").put(input).maybe(fault))
        .put(figure("margin", &line.margin))
        .put(figure("suggested", &line.suggested))
        .html()
}

/// The margin in money as a bar.
fn earned(line: &Line) -> Element {
    let says = AttrValue::from(say!("earns {earned}", line.earned));
    let bar = element("rect")
        .write("width", format!("{}%", line.bar))
        .set("height", "100%");
    element("svg")
        .class("earned")
        .set("role", "img")
        .write("aria-label", says.clone())
        .put(element("title").text(says))
        .put(bar)
}

fn cell(field: &'static str) -> Element {
    let cell = element("td").set("role", "cell").set("data-field", field);
    // On a phone the heads are out of sight, so that each figure tells its own.
    match field {
        "cost" => cell.set("data-name", text!("Cost")),
        "price" => cell.set("data-name", text!("Board price")),
        "margin" => cell.set("data-name", text!("Margin")),
        "suggested" => cell.set("data-name", text!("Suggested")),
        _ => cell,
    }
}

/// A cell that only shows a figure.
fn figure(field: &'static str, text: &str) -> Element {
    cell(field).text(text.to_owned())
}
