//! One piece of the plan with what comes off it.

use carcass::{Caution, Kind, PartId, WayId, What};
use wording::{key, say, text};
use yew::Html;

use super::CutsProps;
use crate::cautions::{folded_cautions, prominent_caution};
use crate::element::{all, element};
use crate::entry_field::{Form, Looks};
use crate::select_field::{Choice, SelectMarks, select};
use crate::state::{Action, Data, Figures};
use draft::Field;

/// The piece at `index` of the breakdown, with all that comes off it.
pub fn piece(props: &CutsProps, figures: &Figures, index: usize) -> Html {
    let nodes = figures.sheet.breakdown.nodes();
    let Some(node) = nodes.get(index) else {
        return Html::default();
    };
    let weight = element("span")
        .class("weight")
        .text(notation::mass_with_unit(node.weight, props.draft.units))
        .put(element("small").text(notation::share(node.share)));
    let (part, way) = match node.what {
        What::Part { part, way } => (part, way),
        What::Product(product) => {
            let product = &props.data[product];
            let class = match product.kind {
                Kind::Cut => "piece cut",
                Kind::Fat | Kind::Bone => "piece by-product",
                Kind::Loss => "piece loss",
            };
            return element("li")
                .class(class)
                .put(element("span").class("name").text(product.name.clone()))
                .put(weight)
                .html();
        }
    };
    let below = nodes
        .iter()
        .enumerate()
        .filter(|(_, child)| child.parent == Some(index))
        .map(|(child, _)| piece(props, figures, child));
    let minutes = notation::minutes(figures.sheet.time.of_piece(index));
    let is_own = props.data[way].own.counts_at(figures.resolved.deal.stock);
    let own = if is_own {
        text!(" · your own yields")
    } else {
        ""
    };
    let content = vec![
        way_choice(props, part, way, node.depth),
        cautions(props, way),
        element("p")
            .class("note")
            .text(format!("{minutes} min{own}"))
            .html(),
        element("ul").put_all(below).html(),
    ];
    let name = element("span")
        .class("name")
        .text(props.data[part].name.clone());
    let class = if node.depth == 0 {
        "piece side"
    } else {
        "piece part"
    };
    let item = element("li").class(class);
    // The primals fold; the side stands open, and what lies deeper opens with
    // its primal.
    let whole = if node.depth == 1 {
        let line = element("summary").class("line").put(name).put(weight);
        item.put(element("details").put(line).put_all(content))
    } else {
        item.put(element("div").class("line").put(name).put(weight))
            .put_all(content)
    };
    whole.html()
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
    let mut second_choices: Vec<Choice> = vec![("".into(), text!("no second way").into())];
    second_choices.extend(
        choices
            .iter()
            .filter(|(id, _)| *id != data[way].id)
            .cloned(),
    );
    let has_choice = choices.len() > 1 && !is_second;
    let chosen = if has_choice {
        let marks = SelectMarks {
            class: "way",
            label: Some(say!("How to break: {part}", data[part].name)),
            part: Some(part_id.clone()),
            ..SelectMarks::default()
        };
        select(marks, &choices, &data[way].id, choose)
    } else {
        element("p")
            .class("way")
            .text(data[way].name.clone())
            .html()
    };
    let mut own = own_figures(&form, data, part, way, is_second);
    if has_choice && depth > 0 {
        let marks = SelectMarks {
            class: "way",
            ..SelectMarks::default()
        };
        let in_force = second.map_or("", String::as_str);
        own.push(
            element("label")
                .tell(key!("Some of it another way"))
                .node(select(marks, &second_choices, in_force, share))
                .html(),
        );
        if second.is_some() {
            own.push(form.field(
                Field::SplitPercent(part_id.clone()),
                text!("Percent by the second way"),
                Looks::hinted(text!("50 is one of two.")),
            ));
        }
    }
    all(vec![
        chosen,
        element("details")
            .class("cautions")
            .put(element("summary").tell(key!("Own time, second way")))
            .put_all(own)
            .html(),
    ])
}

/// The shop's own figures for a step: its time, and where there are any its
/// dry-ageing and its yield.
fn own_figures(form: &Form, data: &Data, part: PartId, way: WayId, is_second: bool) -> Vec<Html> {
    let part_id = &data[part].id;
    let mut own = vec![form.field(
        Field::WayMinutes(data[way].id.clone()),
        text!("Own minutes for this step"),
        Looks::hinted(text!("For one side. Empty: the estimate.")),
    )];
    if !is_second && data.dry_ageing_of_part(part).is_some() {
        own.push(form.field(
            Field::AgeingDays(part_id.clone()),
            text!("Dry-aged, days"),
            Looks::hinted(text!(
                "Empty: not aged. Cold, moving air and approval first."
            )),
        ));
        own.push(form.field(
            Field::AgeingLoss(part_id.clone()),
            text!("Own loss in ageing, %"),
            Looks::hinted(text!("Empty: as published.")),
        ));
    }
    if data.rendering_yield(way).is_some() {
        own.push(form.field(
            Field::RenderingYield(part_id.clone()),
            text!("Yield in rendering, %"),
            Looks::hinted(text!(
                "Empty: the estimate. 75 to 85 is usual in a kitchen, from memory."
            )),
        ));
    }
    own
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
    let mut shown: Vec<Html> = prominent.into_iter().map(prominent_caution).collect();
    shown.push(folded_cautions(&usual));
    all(shown)
}
