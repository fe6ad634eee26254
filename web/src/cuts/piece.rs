//! One piece of the plan with what comes off it.

use carcass::{Caution, Kind, PartId, WayId, What};
use web_sys::HtmlSelectElement;
use yew::prelude::*;

use crate::draft::Units;
use crate::format;
use crate::state::{Action, Data, Figures};

/// What a [`Piece`] shows.
#[derive(Properties, PartialEq)]
pub struct PieceProps {
    /// Its index in the breakdown.
    pub node: usize,
    /// Parts and ways.
    pub data: Data,
    /// The last figures that could be worked out.
    pub figures: Figures,
    /// Units in force.
    pub units: Units,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// One piece of the plan.
#[component]
pub fn Piece(props: &PieceProps) -> Html {
    let nodes = props.figures.sheet.breakdown.nodes();
    let Some(node) = nodes.get(props.node) else {
        return Html::default();
    };
    let weight = html! {
        <span class="weight">
            { format::mass_with_unit(node.weight, props.units) }
            <small>{ format::percent(node.share) }</small>
        </span>
    };
    match node.what {
        What::Product(product) => {
            let product = &props.data[product];
            let class = match product.kind {
                Kind::Cut => "cut",
                Kind::Fat | Kind::Bone => "by-product",
                Kind::Loss => "loss",
            };
            html! {
                <li class={classes!("piece", class)}>
                    <span class="name">{ &product.name }</span>
                    { weight }
                </li>
            }
        }
        What::Part { part, way } => {
            let children: Vec<usize> = nodes
                .iter()
                .enumerate()
                .filter(|(_, child)| child.parent == Some(props.node))
                .map(|(index, _)| index)
                .collect();
            let content = html! {
                <>
                    { way_choice(props, part, way) }
                    { for props.data.cautions_of(way).map(caution) }
                    <ul>
                        { for children.into_iter().map(|child| html! {
                            <Piece key={child} node={child} data={props.data.clone()}
                                figures={props.figures.clone()} units={props.units}
                                dispatch={props.dispatch.clone()} />
                        }) }
                    </ul>
                </>
            };
            let name = html! { <span class="name">{ &props.data[part].name }</span> };
            match node.depth {
                0 => html! {
                    <li class="piece side"><div class="line">{ name }{ weight }</div>{ content }</li>
                },
                1 => html! {
                    <li class="piece part">
                        <details>
                            <summary class="line">{ name }{ weight }</summary>
                            { content }
                        </details>
                    </li>
                },
                _ => html! {
                    <li class="piece part"><div class="line">{ name }{ weight }</div>{ content }</li>
                },
            }
        }
    }
}

/// The ways of a part, when there is a choice.
fn way_choice(props: &PieceProps, part: PartId, way: WayId) -> Html {
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

fn caution(caution: &Caution) -> Html {
    html! {
        <details class="caution" key={caution.id.clone()}>
            <summary><span aria-hidden="true">{ "⚠ " }</span>{ &caution.title }</summary>
            <p>{ &caution.text }</p>
        </details>
    }
}
