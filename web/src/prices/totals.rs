//! The side as a whole, from the spend to what is left.

use yew::prelude::*;

use crate::draft::Units;
use crate::format;
use crate::state::Figures;

/// The side as a whole.
pub fn totals_table(figures: &Figures, units: Units) -> Html {
    let totals = &figures.sheet.totals;
    let verdict = &figures.sheet.verdict;
    let shop = &figures.resolved.shop;
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
            format::mass_with_unit(totals.chilled, units),
            "",
        ),
        (
            "Saleable",
            format!(
                "{} · {saleable}",
                format::mass_with_unit(totals.saleable, units)
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
                    format::minutes(totals.time), format::percent(shop.losses.unsold)) }
            </caption>
            <tbody>
                { for lines.into_iter().map(|(name, figure, class)| html! {
                    <tr class={class}><th scope="row">{ name }</th><td>{ figure }</td></tr>
                }) }
            </tbody>
        </table>
    }
}
