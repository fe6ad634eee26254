//! The answer at the counter, always in view.

use pricing::{Outcome, Verdict};
use quantity::{PriceUnit, Rounding, Share, UnitPrice};
use wording::{key, say, text};
use yew::prelude::*;

use crate::element::{Element, element};
use crate::state::Figures;
use draft::Units;

/// What a [`VerdictStrip`] shows.
#[derive(Properties, PartialEq)]
pub struct VerdictStripProps {
    /// The last figures that could be worked out.
    pub figures: Option<Figures>,
    /// Whether they belong to what is typed now.
    pub is_current: bool,
    /// What is wrong beyond a single field.
    pub trouble: Option<AttrValue>,
    /// Units in force.
    pub units: Units,
}

/// The answer at the counter.
#[component]
pub fn VerdictStrip(props: &VerdictStripProps) -> Html {
    let Some(figures) = &props.figures else {
        let missing = text!("Type the side's weight and price.").into();
        return strip("verdict is-unknown")
            .put(
                says(text!("No answer yet")).put(
                    element("span")
                        .class("reason")
                        .text(props.trouble.clone().unwrap_or(missing)),
                ),
            )
            .html();
    };
    let verdict = &figures.sheet.verdict;
    let target = figures.resolved.shop.target_margin;
    let (class, stale, word) = match verdict.outcome {
        Outcome::Pays => ("verdict pays", "verdict pays is-stale", key!("Pays")),
        Outcome::Thin => ("verdict thin", "verdict thin is-stale", key!("Thin")),
        Outcome::FallsShort => (
            "verdict falls-short",
            "verdict falls-short is-stale",
            key!("Falls short"),
        ),
    };
    let why_stale = (!props.is_current).then(|| {
        let why = props.trouble.as_deref().map_or_else(
            || text!("Last good figure: a field cannot be read.").to_owned(),
            |trouble| say!("Last good figure. {trouble}", trouble),
        );
        element("span").class("stale").text(why)
    });
    let reason = element("span")
        .class("reason")
        .text(reason(verdict, target, props.units));
    let margin = element("dd")
        .set("id", "margin")
        .text(notation::percent(verdict.margin));
    let walk_away = walk_away(verdict.walk_away, props.units);
    strip(if props.is_current { class } else { stale })
        .put(says(word.said()).put(reason).maybe(why_stale))
        .put(
            element("dl")
                .key("figures")
                .class("key-figures")
                .put(
                    element("div")
                        .put(element("dt").tell(key!("Margin")))
                        .put(margin),
                )
                .put(
                    element("div")
                        .class("wide")
                        .put(element("dt").tell(key!("Walk-away price")))
                        .put(walk_away.set("id", "walk-away-price")),
                ),
        )
        .html()
}

fn strip(class: &'static str) -> Element {
    element("section")
        .class(class)
        .set("aria-label", text!("Verdict"))
}

/// The line of the verdict, spoken when it changes. It has a key, so that it
/// stays when the figures come: screen readers hear only what changes in an
/// element that was there before.
fn says(word: &'static str) -> Element {
    element("p")
        .key("verdict")
        .set("id", "verdict")
        .set("role", "status")
        .put(element("strong").class("stamp").say(word))
}

/// The walk-away price in both units, the one in force first. Rounded down:
/// an offer at the figure shown still makes the target.
fn walk_away(price: UnitPrice, units: Units) -> Element {
    let figures = element("dd");
    if !price.is_positive() {
        return figures.put(element("span").tell(key!("none|no price pays")));
    }
    let (first, second) = match units {
        Units::Kilograms => (PriceUnit::PerKilogram, PriceUnit::PerPound),
        Units::Pounds => (PriceUnit::PerPound, PriceUnit::PerKilogram),
    };
    let text = |unit| notation::price_with_unit(price, unit, Rounding::Down);
    figures
        .put(element("span").text(text(first)))
        .say(" ")
        .put(element("small").text(text(second)))
}

/// The verdict in words.
pub fn reason(verdict: &Verdict, target: Share, units: Units) -> String {
    let unit = units.price();
    let target = notation::percent(target);
    if !verdict.walk_away.is_positive() {
        return say!("No price makes {target} with this plan and board.", target);
    }
    let room = notation::price_with_unit(verdict.room, unit, Rounding::Down);
    let offer = notation::price_with_unit(verdict.walk_away, unit, Rounding::Down);
    match verdict.outcome {
        Outcome::Pays => say!(
            "Makes the target of {target}, with {room} to spare.",
            target,
            room
        ),
        Outcome::Thin => {
            say!(
                "Covers its costs but not the target of {target}. Offer {offer} or less.",
                target,
                offer
            )
        }
        Outcome::FallsShort => say!(
            "Costs {profit} more than it brings. Offer {offer} or less.",
            notation::money(-verdict.profit),
            offer
        ),
    }
}
