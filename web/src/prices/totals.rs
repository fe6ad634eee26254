//! The side as a whole, from the spend to what is left.

use yew::prelude::*;

use crate::draft::Units;
use crate::format;
use crate::state::Figures;

/// What the table shows.
#[derive(Properties, PartialEq)]
pub struct TotalsTableProps {
    /// The last figures that could be worked out.
    pub figures: Figures,
    /// Units in force.
    pub units: Units,
}

/// The side as a whole.
#[component]
pub fn TotalsTable(props: &TotalsTableProps) -> Html {
    let totals = &props.figures.sheet.totals;
    let verdict = &props.figures.sheet.verdict;
    let shop = &props.figures.resolved.shop;
    let saleable = totals
        .saleable
        .ratio_to(totals.chilled)
        .map(format::percent)
        .unwrap_or_default();
    let markup = verdict
        .margin
        .margin_to_markup()
        .map_or_else(|| "–".to_owned(), format::percent);
    let lines = [
        (
            "Chilled side",
            format::mass_with_unit(totals.chilled, props.units),
            "",
        ),
        (
            "Saleable",
            format!(
                "{} · {saleable}",
                format::mass_with_unit(totals.saleable, props.units)
            ),
            "",
        ),
        ("Side", format::money(totals.side), "start"),
        ("Charges", format::money(totals.charges), ""),
        ("Labour", format::money(totals.labour), ""),
        ("Packaging", format::money(totals.packaging), ""),
        ("Spend", format::money(totals.spend()), "sum"),
        (
            "By-products, credited",
            format::money(totals.by_products),
            "",
        ),
        ("Cuts must carry", format::money(totals.net_spend()), "sum"),
        ("Sales of cuts", format::money(totals.sales), "start"),
        ("Left over", format::money(verdict.profit), "sum"),
        (
            "Margin on sales",
            format!("{} (markup {markup})", format::percent(verdict.margin)),
            "",
        ),
        (
            "Meat margin, before labour and packaging",
            format::percent(verdict.meat_margin),
            "",
        ),
    ];
    html! {
        <table class="totals">
            <caption>
                { format!("The side as a whole, {} min at the bench, {} unsold",
                    format::minutes(totals.time), format::percent(shop.unsold)) }
            </caption>
            <tbody>
                { for lines.into_iter().map(|(name, figure, class)| html! {
                    <tr class={class}><th scope="row">{ name }</th><td>{ figure }</td></tr>
                }) }
            </tbody>
        </table>
    }
}
