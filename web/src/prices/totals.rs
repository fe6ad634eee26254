//! The side as a whole, from the spend to what is left.

use yew::prelude::*;

use crate::state::Figures;
use draft::Units;

/// The side as a whole.
pub fn totals_table(figures: &Figures, units: Units) -> Html {
    let totals = &figures.sheet.totals;
    let verdict = &figures.sheet.verdict;
    let shop = &figures.resolved.shop;
    let saleable = totals
        .saleable
        .ratio_to(totals.chilled)
        .map(notation::percent)
        .unwrap_or_default();
    let markup = verdict
        .margin
        .margin_to_markup()
        .map_or_else(|| "–".to_owned(), notation::percent);
    let lines = [
        (
            "Chilled side",
            notation::mass_with_unit(totals.chilled, units),
            "",
        ),
        (
            "Saleable",
            format!(
                "{} · {saleable}",
                notation::mass_with_unit(totals.saleable, units)
            ),
            "",
        ),
        (
            "Work at the bench",
            format!("{} min", notation::minutes(totals.time - totals.saw_time)),
            "",
        ),
        (
            "Work at the saw",
            format!("{} min", notation::minutes(totals.saw_time)),
            "",
        ),
        ("Side", notation::money(totals.side), "start"),
        ("Charges", notation::money(totals.charges), ""),
        ("Labour", notation::money(totals.labour), ""),
        ("Packaging", notation::money(totals.packaging), ""),
        ("Spend", notation::money(totals.spend()), "sum"),
        (
            "By-products, credited",
            notation::money(totals.by_products),
            "",
        ),
        (
            "Cuts must carry",
            notation::money(totals.net_spend()),
            "sum",
        ),
        ("Sales of cuts", notation::money(totals.sales), "start"),
        ("Left over", notation::money(verdict.profit), "sum"),
        (
            "Margin on sales",
            format!("{} (markup {markup})", notation::percent(verdict.margin)),
            "",
        ),
        (
            "Meat margin, before labour and packaging",
            notation::percent(verdict.meat_margin),
            "",
        ),
    ];
    html! {
        <table class="totals">
            <caption>
                { format!("The side as a whole, {} min of work, {} unsold",
                    notation::minutes(totals.time), notation::percent(shop.losses.unsold)) }
            </caption>
            <tbody>
                { for lines.into_iter().map(|(name, figure, class)| html! {
                    <tr class={class}><th scope="row">{ name }</th><td>{ figure }</td></tr>
                }) }
            </tbody>
        </table>
    }
}
