//! The place of the cost sheet and the price board.

mod board_day;
mod board_file;
mod detail;
mod origin;
mod rounding;
mod row;
mod suggestion;
mod totals;

use std::rc::Rc;
use wording::{Text, key, say, text};

use advice::wire::Told;
use carcass::ProductId;
use document::format::MethodForm;
use pricing::{AllocationMethod, Row};
use quantity::{Money, Rounding, Share};
use yew::prelude::*;

use crate::cautions::folded_by_id;
use crate::element::element;
use crate::entry_field::{Form, price_text, shown_text};
use crate::select_field::select_field;
use crate::state::{Action, Data, Figures};
use crate::told::Unfolding;
use crate::value::use_value;
use draft::reading::Faults;
use draft::{Draft, Field};

use board_day::{board_day, today};
use board_file::BoardFile;
use row::{Line, SheetRow};
use totals::totals_table;

/// The columns of the cost sheet.
const COLUMNS: [Text; 6] = [
    key!("Cut"),
    key!("Weight"),
    key!("Cost"),
    key!("Board price"),
    key!("Margin"),
    key!("Suggested"),
];

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
    /// Whether something was just taken over that can be undone.
    pub can_undo: bool,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// The place of the cost sheet and the price board.
#[component]
pub fn Prices(props: &PricesProps) -> Html {
    let opened = use_value(Option::<String>::default);
    let order = use_mut_ref(Vec::<ProductId>::new);
    let today = use_memo((), |()| today());
    let Some(figures) = &props.figures else {
        return element("p")
            .class("empty")
            .tell(key!(
                "The cost sheet stands here once the side has a weight and a price."
            ))
            .html();
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
    let mut lines = element("tbody").set("role", "rowgroup");
    for row in in_kept_order(&figures.sheet.rows, &mut order.borrow_mut()) {
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
        let is_open = opened.as_deref() == Some(product.id.as_str());
        let line = Line {
            id: product.id.clone(),
            name: product.name.clone(),
            is_by_product: row.is_by_product,
            weight: notation::mass_with_unit(row.weight, units),
            cost: or_dash(
                row.cost_per_mass
                    .map(|cost| notation::price(cost, unit, Rounding::HalfEven)),
            ),
            price: text,
            price_unit: unit.symbol(),
            is_sample: !entry.own,
            fault: props.faults.get(&field).cloned(),
            margin: or_dash(
                row.margin
                    .filter(|_| !row.is_by_product)
                    .map(notation::percent),
            ),
            earned: notation::money(earned),
            bar: bar.percent().round_dp(1).to_string(),
            suggested: or_dash(
                row.card
                    .map(|price| notation::price(price, unit, Rounding::Up)),
            ),
            is_open,
        };
        lines = lines.node(html! {
            <SheetRow key={product.id.as_str()} {line} open={opened.setter()}
                dispatch={props.dispatch.clone()} />
        });
        if is_open {
            let form = Form {
                draft: &props.draft,
                faults: &props.faults,
                dispatch: &props.dispatch,
            };
            let (product, is_by_product) = (row.product, row.is_by_product);
            let behind =
                element("td")
                    .set("role", "cell")
                    .set("colspan", "6")
                    .node(detail::detail(
                        &form,
                        &props.data,
                        figures,
                        product,
                        is_by_product,
                    ));
            lines = lines.put(
                element("tr")
                    .key(&format!("behind {}", props.data[product].id))
                    .class("behind")
                    .set("role", "row")
                    .put(behind),
            );
        }
    }
    let sample_notice = (samples > 0).then(|| {
        element("p").class("sample-notice").text(say!("{samples} of {rows} prices are invented samples, set in slanted type. Type over them with your own.", samples, figures.sheet.rows.len()))
    });
    let stale = (!props.is_current).then(|| {
        element("span")
            .class("stale")
            .tell(key!(" Last good figures."))
    });
    let caption = element("caption")
        .text(say!(
            "Cost sheet: {currency} {per}",
            notation::currency(),
            unit.symbol()
        ))
        .maybe(stale);
    let headings = COLUMNS
        .into_iter()
        .fold(element("tr").set("role", "row"), |headings, name| {
            headings.put(
                element("th")
                    .set("role", "columnheader")
                    .set("scope", "col")
                    .tell(name),
            )
        });
    let table = element("table")
        .set("id", "cost-sheet")
        .set("role", "table")
        .set_if(!props.is_current, "class", "is-stale")
        .put(caption)
        .put(element("thead").set("role", "rowgroup").put(headings))
        .put(lines);
    element("div")
        .class("sheet")
        .maybe(sample_notice)
        .put(table)
        .put(element("p").class("note").tell(key!("Suggested: the price at which the whole side makes the target margin, every cut keeping its place on the board, rounded up. By-products count against the cost of the cuts.")))
        .node(folded_by_id(&props.data, &["labels-and-claims"]))
        .node(suggestion::board_notice(props, figures))
        .node(rounding::rounding_fields(props))
        .node(method_choice(props))
        .node(html! {
            <Unfolding class="more methods" name={text!("Cost by each method")} figures={figures.clone()} told={Told::Methods} />
        })
        .node(board_day(props, &today))
        .node(html! {
            <BoardFile figures={figures.clone()} can_undo={props.can_undo} dispatch={props.dispatch.clone()} />
        })
        .node(totals_table(&props.data, figures, units))
        .html()
}

/// A figure, or the sign that there is none.
fn or_dash(figure: Option<String>) -> String {
    figure.unwrap_or_else(|| "–".to_owned())
}

/// The rows in the order that was kept, as long as the cuts are the same: a
/// row that moved while its price is typed would take the field away from
/// under the fingers.
fn in_kept_order<'a>(rows: &'a [Row], order: &mut Vec<ProductId>) -> Vec<&'a Row> {
    let is_same = order.len() == rows.len() && rows.iter().all(|row| order.contains(&row.product));
    if !is_same {
        *order = rows.iter().map(|row| row.product).collect();
    }
    order
        .iter()
        .filter_map(|product| rows.iter().find(|row| row.product == *product))
        .collect()
}

/// The choice of how joint cost is divided.
fn method_choice(props: &PricesProps) -> Html {
    let in_force = AllocationMethod::from(props.draft.method);
    let dispatch = props.dispatch.clone();
    select_field(
        "method",
        text!("Cost divided by"),
        &AllocationMethod::ALL.map(|method| (method.name().into(), method.name().into())),
        in_force.name(),
        in_force.misleads_when(),
        move |chosen| {
            let method = AllocationMethod::ALL
                .into_iter()
                .find(|method| method.name() == chosen);
            if let Some(method) = method {
                dispatch.emit(Action::ChooseMethod(MethodForm::from(method)));
            }
        },
    )
}
