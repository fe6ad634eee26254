//! The side as a whole, from the spend to what is left.

use carcass::{WayId, What};
use quantity::Money;
use wording::{say, text};
use yew::Html;

use super::or_dash;
use crate::element::{Element, element};
use crate::state::{Data, Figures};
use draft::Units;

/// The side as a whole.
pub fn totals_table(data: &Data, figures: &Figures, units: Units) -> Html {
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
    let yields = match own_of(figures, data) {
        (0, _) => None,
        (own, all) => {
            let own = say!("your own for {own} of {all} parts", own, all);
            Some(line("", text!("Yields"), own))
        }
    };
    let lines = lines.maybe(yields);
    element("table")
        .class("totals")
        .put(element("caption").text(caption))
        .put(lines)
        .html()
}

/// Of how many parts the yields are the shop's own, and of how many there are.
fn own_of(figures: &Figures, data: &Data) -> (usize, usize) {
    let stock = figures.resolved.deal.stock;
    let ways = figures.sheet.breakdown.nodes().iter();
    let ways = ways.filter_map(|node| match node.what {
        What::Part { way, .. } => Some(way),
        What::Product(_) => None,
    });
    let own = |way: &WayId| data[*way].own.counts_at(stock);
    (ways.clone().filter(own).count(), ways.count())
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
