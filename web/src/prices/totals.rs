//! The side as a whole, from the spend to what is left.

use quantity::Money;
use wording::{say, text};
use yew::Html;

use super::or_dash;
use crate::element::{Element, element};
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
    let markup = or_dash(verdict.margin.margin_to_markup().map(notation::percent));
    let weight = |mass| notation::mass_with_unit(mass, units);
    let minutes = |time| format!("{} min", notation::minutes(time));
    let saleable = format!("{} · {saleable}", weight(totals.saleable));
    let margin = say!(
        "{margin} (markup {markup})",
        notation::percent(verdict.margin),
        markup
    );
    let meat_margin = notation::percent(verdict.meat_margin);
    let bench = minutes(totals.time - totals.saw_time);
    let caption = say!(
        "The side as a whole, {time} of work, {unsold} unsold",
        minutes(totals.time),
        notation::percent(shop.losses.unsold)
    );
    let lines = element("tbody")
        .put(line("", text!("Chilled side"), weight(totals.chilled)))
        .put(line("", text!("Saleable"), saleable))
        .put(line("", text!("Work at the bench"), bench))
        .put(line("", text!("Work at the saw"), minutes(totals.saw_time)))
        .put(sum("start", text!("Side"), totals.side))
        .put(sum("", text!("Charges"), totals.charges))
        .put(sum("", text!("Labour"), totals.labour))
        .put(sum("", text!("Packaging"), totals.packaging))
        .put(sum("sum", text!("Spend"), totals.spend()))
        .put(sum("", text!("By-products, credited"), totals.by_products))
        .put(sum("sum", text!("Cuts must carry"), totals.net_spend()))
        .put(sum("start", text!("Sales of cuts"), totals.sales))
        .put(sum("sum", text!("Left over"), verdict.profit))
        .put(line("", text!("Margin on sales"), margin))
        .put(line(
            "",
            text!("Meat margin, before labour and packaging"),
            meat_margin,
        ));
    element("table")
        .class("totals")
        .put(element("caption").text(caption))
        .put(lines)
        .html()
}

/// One figure of the side. The class says where a group of lines starts and
/// where it is summed up.
fn line(class: &'static str, name: &'static str, figure: String) -> Element {
    element("tr")
        .class(class)
        .put(element("th").set("scope", "row").say(name))
        .put(element("td").text(figure))
}

/// One sum of money.
fn sum(class: &'static str, name: &'static str, money: Money) -> Element {
    line(class, name, notation::money(money))
}
