//! One piece of the plan with what comes off it.

use carcass::{Caution, Kind, PartId, WayId, What};
use yew::prelude::*;

use super::CutsProps;
use crate::cautions::{folded_cautions, prominent_caution};
use crate::draft::Field;
use crate::entry_field::{Form, Looks};
use crate::select_field::{Choice, SelectMarks, select};
use crate::state::{Action, Figures};

/// The piece at `index` of the breakdown, with all that comes off it.
pub fn piece(props: &CutsProps, figures: &Figures, index: usize) -> Html {
    let nodes = figures.sheet.breakdown.nodes();
    let Some(node) = nodes.get(index) else {
        return Html::default();
    };
    let weight = html! {
        <span class="weight">
            { notation::mass_with_unit(node.weight, props.draft.units) }
            <small>{ notation::percent(node.share) }</small>
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
            { way_choice(props, part, way, node.depth) }
            { cautions(props, way) }
            <p class="note">{ format!("{} min", notation::minutes(figures.sheet.time.of_piece(index))) }</p>
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

/// How a part is broken: its way, where there is a choice a second one that
/// shares the part, and the shop's own time for it.
fn way_choice(props: &CutsProps, part: PartId, way: WayId, depth: usize) -> Html {
    let data = &props.data;
    let part_id = &data[part].id;
    let second = props.draft.second_ways.get(part_id);
    // The second half of a shared part has its choice beside the first.
    let is_second = second.is_some_and(|second| *second == data[way].id)
        && props.figures_way(part).is_some_and(|first| first != way);
    let form = Form {
        draft: &props.draft,
        faults: &props.faults,
        dispatch: &props.dispatch,
    };
    let own = |field: Field, label, hint| form.field(field, label, Looks::hinted(hint));
    let choices: Vec<Choice> = data[part]
        .ways
        .iter()
        .map(|&way| (data[way].id.clone().into(), data[way].name.clone().into()))
        .collect();
    let choose = {
        let dispatch = props.dispatch.clone();
        let part = part_id.clone();
        move |way| dispatch.emit(Action::ChooseWay(part.clone(), way))
    };
    let share = {
        let dispatch = props.dispatch.clone();
        let part = part_id.clone();
        move |way: String| {
            let way = (!way.is_empty()).then_some(way);
            dispatch.emit(Action::ChooseSecondWay(part.clone(), way));
        }
    };
    let mut second_choices: Vec<Choice> = vec![("".into(), "no second way".into())];
    second_choices.extend(
        choices
            .iter()
            .filter(|(id, _)| *id != data[way].id)
            .cloned(),
    );
    html! {
        <>
            if choices.len() < 2 || is_second {
                <p class="way">{ &data[way].name }</p>
            } else {
                { select(
                    SelectMarks {
                        class: "way",
                        label: Some(format!("How to break: {}", data[part].name)),
                        part: Some(part_id.clone()),
                        ..SelectMarks::default()
                    },
                    &choices, &data[way].id, choose) }
            }
            <details class="cautions">
                <summary>{ "Own time, second way" }</summary>
                { own(Field::WayMinutes(data[way].id.clone()), "Own minutes for this step",
                    "For one side. Empty: the estimate.") }
                if !is_second && data.dry_ageing_of_part(part).is_some() {
                    { own(Field::AgeingDays(part_id.clone()), "Dry-aged, days",
                        "Empty: not aged. Cold, moving air and approval first.") }
                    { own(Field::AgeingLoss(part_id.clone()), "Own loss in ageing, %",
                        "Empty: as published.") }
                }
                if choices.len() > 1 && depth > 0 && !is_second {
                    <label>
                        { "Some of it another way" }
                        { select(SelectMarks { class: "way", ..SelectMarks::default() },
                            &second_choices, second.map_or("", String::as_str), share) }
                    </label>
                    if second.is_some() {
                        { own(Field::SplitPercent(part_id.clone()), "Percent by the second way",
                            "50 is one of two.") }
                    }
                }
            </details>
        </>
    }
}

/// Cautions beside what triggers them: prominent ones whole, the usual ones
/// folded into a line.
fn cautions(props: &CutsProps, way: WayId) -> Html {
    let is_older = props
        .figures
        .as_ref()
        .is_none_or(|figures| figures.resolved.deal.age.counts_as_older());
    let (prominent, usual): (Vec<&Caution>, Vec<&Caution>) = props
        .data
        .cautions_of(way)
        .filter(|caution| is_older || !caution.is_prominent)
        .partition(|caution| caution.is_prominent);
    html! {
        <>
            { for prominent.into_iter().map(prominent_caution) }
            { folded_cautions(&usual) }
        </>
    }
}
