//! The answer at the counter, always in view.

use pricing::{Outcome, Verdict};
use quantity::{PriceUnit, Rounding, Share, UnitPrice};
use yew::prelude::*;

use crate::draft::Units;
use crate::state::Figures;

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
        return html! {
            <section class="verdict is-unknown" aria-label="Verdict">
                <p id="verdict" role="status">
                    <strong class="stamp">{ "No answer yet" }</strong>
                    <span class="reason">{ props.trouble.as_deref().unwrap_or(
                        "Type the side's weight and price.") }</span>
                </p>
            </section>
        };
    };
    let verdict = &figures.sheet.verdict;
    let target = figures.resolved.shop.target_margin;
    let (class, word) = match verdict.outcome {
        Outcome::Pays => ("pays", "Pays"),
        Outcome::Thin => ("thin", "Thin"),
        Outcome::FallsShort => ("falls-short", "Falls short"),
    };
    html! {
        <section class={classes!("verdict", class, (!props.is_current).then_some("is-stale"))}
            aria-label="Verdict">
            <p id="verdict" role="status">
                <strong class="stamp">{ word }</strong>
                <span class="reason">{ reason(verdict, target, props.units) }</span>
                if !props.is_current {
                    <span class="stale">{ props.trouble.as_deref().map_or_else(
                        || "Last good figure: a field cannot be read.".to_owned(),
                        |trouble| format!("Last good figure. {trouble}")) }</span>
                }
            </p>
            <dl class="key-figures">
                <div>
                    <dt>{ "Margin" }</dt>
                    <dd id="margin">{ notation::percent(verdict.margin) }</dd>
                </div>
                <div class="wide">
                    <dt>{ "Walk-away price" }</dt>
                    <dd id="walk-away-price">{ walk_away(verdict.walk_away, props.units) }</dd>
                </div>
            </dl>
        </section>
    }
}

/// The walk-away price in both units, the one in force first. Rounded down:
/// an offer at the figure shown still makes the target.
fn walk_away(price: UnitPrice, units: Units) -> Html {
    if !price.is_positive() {
        return html! { <span>{ "none" }</span> };
    }
    let (first, second) = match units {
        Units::Kilograms => (PriceUnit::PerKilogram, PriceUnit::PerPound),
        Units::Pounds => (PriceUnit::PerPound, PriceUnit::PerKilogram),
    };
    html! {
        <>
            <span>{ notation::price_with_unit(price, first, Rounding::Down) }</span>
            { " " }
            <small>{ notation::price_with_unit(price, second, Rounding::Down) }</small>
        </>
    }
}

/// The verdict in words.
fn reason(verdict: &Verdict, target: Share, units: Units) -> String {
    let unit = units.price();
    let target = notation::percent(target);
    if !verdict.walk_away.is_positive() {
        return format!("No price makes {target} with this plan and board.");
    }
    let room = notation::price_with_unit(verdict.room, unit, Rounding::Down);
    let offer = notation::price_with_unit(verdict.walk_away, unit, Rounding::Down);
    match verdict.outcome {
        Outcome::Pays => format!("Makes the target of {target}, with {room} to spare."),
        Outcome::Thin => {
            format!("Covers its costs but not the target of {target}. Offer {offer} or less.")
        }
        Outcome::FallsShort => format!(
            "Costs {} more than it brings. Offer {offer} or less.",
            notation::money(-verdict.profit)
        ),
    }
}
