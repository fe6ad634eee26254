//! The counter path: weight, price, stock, plan, labour, target.

use carcass::{Caution, What};
use document::format::AgeForm;
use wording::{key, say, text};
use yew::prelude::*;

use super::SideProps;
use super::stock::stock_control;
use super::worked_sample::{is_first, worked_sample};
use crate::cautions::prominent_caution;
use crate::element::{all, element};
use crate::entry_field::{Form, Looks, unit};
use crate::select_field::{Choice, SelectMarks, select, select_field};
use crate::state::Action;
use draft::{Field, Units};

/// The fields a decision needs.
pub fn deal_fields(props: &SideProps) -> Html {
    let draft = &props.draft;
    let units = draft.units;
    let form = Form {
        draft,
        faults: &props.faults,
        dispatch: &props.dispatch,
    };
    let plan_estimate = props
        .figures
        .as_ref()
        .map(|figures| AttrValue::from(notation::minutes(figures.sheet.time.planned)));
    let is_sample =
        !draft.entry(&Field::Weight).own && !draft.entry(&Field::Weight).text.is_empty();
    let weight_unit = unit_switch(
        "side-weight-unit",
        text!("Weight unit"),
        units,
        ["kg", "lb"],
        &props.dispatch,
    );
    let price_unit = unit_switch(
        "side-price-unit",
        text!("Price unit"),
        units,
        ["/kg", "/lb"],
        &props.dispatch,
    );
    let weight = Looks {
        unit: weight_unit,
        ..Looks::hinted(text!("The weight you pay for."))
    };
    let price = Looks {
        unit: price_unit,
        ..Looks::hinted(text!("What the supplier asks."))
    };
    let minutes = Looks {
        unit: unit("min"),
        stand_in: plan_estimate,
        stand_in_mark: Some(text!("Estimate")),
        can_go_back: true,
        ..Looks::hinted(text!(
            "For the whole side. Time your own: the plan's estimate is rough."
        ))
    };
    let per_hour = AttrValue::from(notation::currency() + "/h");
    let rate = Looks::sample(per_hour, text!("Wages with all on-costs."));
    let target = Looks::sample(
        "%",
        text!("Share of sales left after side, charges, labour and packaging."),
    );
    let sample_notice = is_sample.then(|| {
        element("p")
            .class("sample-notice")
            .tell(key!(
                "An invented side, to try things out: type over it with your own."
            ))
            .html()
    });
    all(vec![
        sample_notice.unwrap_or_default(),
        element("div")
            .class("pair")
            .node(form.field(Field::Weight, text!("Side weight"), weight))
            .node(form.field(Field::Price, text!("Side price"), price))
            .html(),
        stock_control(draft.grass_percent, &props.dispatch),
        // Below what is typed at the counter, so that nothing moves under the thumb when it goes.
        is_first(draft)
            .then(|| worked_sample(&props.data, draft, &props.dispatch))
            .flatten()
            .unwrap_or_default(),
        plan_choice(props),
        age_choice(props),
        all(prominent_cautions(props)),
        element("div")
            .class("pair")
            .node(form.field(Field::LabourMinutes, text!("Labour minutes"), minutes))
            .node(form.field(Field::LabourRate, text!("Labour rate"), rate))
            .html(),
        form.field(Field::TargetMargin, text!("Target margin"), target),
    ])
}

/// The control that switches the units everywhere.
fn unit_switch(
    id: &'static str,
    label: &'static str,
    units: Units,
    symbols: [&'static str; 2],
    dispatch: &Callback<Action>,
) -> Html {
    let dispatch = dispatch.clone();
    let choices = symbols.map(|symbol| (symbol.into(), symbol.into()));
    let in_force = match units {
        Units::Kilograms => symbols[0],
        Units::Pounds => symbols[1],
    };
    let marks = SelectMarks {
        id: Some(id.into()),
        class: "unit",
        label: Some(label.to_owned()),
        ..SelectMarks::default()
    };
    select(marks, &choices, in_force, move |symbol| {
        let units = Units::from_symbol(symbol.trim_start_matches('/'));
        dispatch.emit(Action::SwitchUnits(units));
    })
}

/// The choice of the animal's age.
fn age_choice(props: &SideProps) -> Html {
    let choices = [
        (AgeForm::Unknown, "unknown", text!("Not known")),
        (AgeForm::Under30Months, "under-30", text!("Under 30 months")),
        (
            AgeForm::Over30Months,
            "over-30",
            text!("30 months and over"),
        ),
    ];
    let in_force = choices
        .iter()
        .find(|(age, _, _)| *age == props.draft.age)
        .map_or("unknown", |(_, id, _)| id);
    let dispatch = props.dispatch.clone();
    select_field(
        "age",
        text!("Age of the animal"),
        &choices.map(|(_, id, name)| (id.into(), name.into())),
        in_force,
        text!("Decides what may be done with the back bone."),
        move |chosen| {
            if let Some((age, _, _)) = choices.iter().find(|(_, id, _)| *id == chosen) {
                dispatch.emit(Action::TellAge(*age));
            }
        },
    )
}

/// What stands out about the plan as it is, each caution once.
fn prominent_cautions(props: &SideProps) -> Vec<Html> {
    let Some(figures) = &props.figures else {
        return Vec::new();
    };
    if !figures.resolved.deal.age.counts_as_older() {
        return Vec::new();
    }
    let mut shown: Vec<&Caution> = Vec::new();
    for node in figures.sheet.breakdown.nodes() {
        if let What::Part { way, .. } = node.what {
            for caution in props.data.cautions_of(way) {
                if caution.is_prominent && shown.iter().all(|other| other.id != caution.id) {
                    shown.push(caution);
                }
            }
        }
    }
    shown.into_iter().map(prominent_caution).collect()
}

/// The choice of a named plan.
fn plan_choice(props: &SideProps) -> Html {
    let changed = props.draft.ways.len() + props.draft.second_ways.len();
    let hint = match changed {
        0 => text!("How the side is broken; change any part under Cuts.").to_owned(),
        1 => text!("1 part is cut another way than this plan; see Cuts.").to_owned(),
        more => say!(
            "{more} parts are cut another way than this plan; see Cuts.",
            more
        ),
    };
    let choices: Vec<Choice> = props
        .data
        .plans()
        .iter()
        .map(|plan| (plan.id.clone().into(), plan.name.clone().into()))
        .collect();
    let dispatch = props.dispatch.clone();
    select_field(
        "cut-plan",
        text!("Cut plan"),
        &choices,
        &props.draft.plan,
        hint,
        move |plan| dispatch.emit(Action::ChoosePlan(plan)),
    )
}
