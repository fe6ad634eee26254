//! One piece of the plan with what comes off it.

use carcass::{Caution, Kind, PartId, WayId, What};
use web_sys::HtmlSelectElement;
use yew::prelude::*;

use super::CutsProps;
use crate::format;
use crate::state::{Action, Figures};

/// The piece at `index` of the breakdown, with all that comes off it.
pub fn piece(props: &CutsProps, figures: &Figures, index: usize) -> Html {
    let nodes = figures.sheet.breakdown.nodes();
    let Some(node) = nodes.get(index) else {
        return Html::default();
    };
    let weight = html! {
        <span class="weight">
            { format::mass_with_unit(node.weight, props.units) }
            <small>{ format::percent(node.share) }</small>
        </span>
    };
    let (part, way) = match node.what {
        What::Part { part, way } => (part, way),
        What::Product(product) => {
            let product = &props.data[product];
            let class = match product.kind {
                Kind::Cut => "cut",
                Kind::Fat | Kind::Bone => "by-product",
                Kind::Loss => "loss",
            };
            return html! {
                <li class={classes!("piece", class)}>
                    <span class="name">{ &product.name }</span>
                    { weight }
                </li>
            };
        }
    };
    let below = nodes
        .iter()
        .enumerate()
        .filter(|(_, child)| child.parent == Some(index))
        .map(|(child, _)| piece(props, figures, child));
    let content = html! {
        <>
            { way_choice(props, part, way) }
            { cautions(props.data.cautions_of(way).collect()) }
            <ul>{ for below }</ul>
        </>
    };
    let name = html! { <span class="name">{ &props.data[part].name }</span> };
    // The primals fold; the side stands open, and what lies deeper opens with
    // its primal.
    let line = if node.depth == 1 {
        html! { <details><summary class="line">{ name }{ weight }</summary>{ content }</details> }
    } else {
        html! { <><div class="line">{ name }{ weight }</div>{ content }</> }
    };
    let class = if node.depth == 0 { "side" } else { "part" };
    html! { <li class={classes!("piece", class)}>{ line }</li> }
}

/// The ways of a part, when there is a choice.
fn way_choice(props: &CutsProps, part: PartId, way: WayId) -> Html {
    let data = &props.data;
    let ways = &data[part].ways;
    if ways.len() < 2 {
        return html! { <p class="way">{ &data[way].name }</p> };
    }
    let choose = {
        let dispatch = props.dispatch.clone();
        let part = data[part].id.clone();
        Callback::from(move |event: Event| {
            let select: HtmlSelectElement = event.target_unchecked_into();
            dispatch.emit(Action::ChooseWay(part.clone(), select.value()));
        })
    };
    html! {
        <select class="way" aria-label={format!("How to break: {}", data[part].name)}
            data-part={data[part].id.clone()} onchange={choose}>
            { for ways.iter().map(|&choice| html! {
                <option value={data[choice].id.clone()} selected={choice == way}>
                    { &data[choice].name }
                </option>
            }) }
        </select>
    }
}

/// Cautions beside what triggers them: prominent ones whole, the usual ones
/// folded into a line.
fn cautions(cautions: Vec<&Caution>) -> Html {
    let (prominent, usual): (Vec<&Caution>, Vec<&Caution>) = cautions
        .into_iter()
        .partition(|caution| caution.is_prominent);
    let titles: Vec<&str> = usual.iter().map(|caution| caution.title.as_str()).collect();
    html! {
        <>
            { for prominent.into_iter().map(prominent_caution) }
            if !usual.is_empty() {
                <details class="cautions">
                    <summary>{ format!("Care: {}", titles.join(", ").to_ascii_lowercase()) }</summary>
                    <dl>
                        { for usual.into_iter().map(|caution| html! {
                            <><dt>{ &caution.title }</dt><dd>{ &caution.text }</dd></>
                        }) }
                    </dl>
                </details>
            }
        </>
    }
}

/// A caution that is always shown whole.
pub fn prominent_caution(caution: &Caution) -> Html {
    html! {
        <p class="caution">
            <strong><span aria-hidden="true">{ "⚠ " }</span>{ &caution.title }{ ". " }</strong>
            { &caution.text }
        </p>
    }
}
