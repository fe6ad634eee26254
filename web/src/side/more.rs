//! What seldom changes, folded away: how many sides, what the weight is a
//! weight of, charges, labour in full, packaging, losses.

use std::rc::Rc;

use document::format::StockFromForm;
use yew::prelude::*;

use crate::draft::reading::Faults;
use crate::draft::{Basis, Draft, Field, Units};
use crate::entry_field::{Form, Looks};
use crate::select_field::select_field;
use crate::state::Action;

/// What the folded part shows.
#[derive(Properties, PartialEq)]
pub struct MoreFieldsProps {
    /// What was typed.
    pub draft: Rc<Draft>,
    /// What cannot be read.
    pub faults: Rc<Faults>,
    /// What the graded carcass is expected to give, in words.
    pub expected: Option<AttrValue>,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// The fields that stand folded away.
const FOLDED: [Field; 21] = [
    Field::Discount,
    Field::DaysHung,
    Field::CarcassWeight,
    Field::BackFat,
    Field::RibeyeArea,
    Field::KidneyFat,
    Field::PackCost,
    Field::PackHolds,
    Field::Sides,
    Field::Shrink,
    Field::Dressing,
    Field::Kill,
    Field::Haul,
    Field::CutAndWrap,
    Field::Rebate,
    Field::OnCost,
    Field::Overhead,
    Field::Packaging,
    Field::Purge,
    Field::Unsold,
    Field::MarkedDown,
];

/// The folded part of the deal.
#[component]
pub fn MoreFields(props: &MoreFieldsProps) -> Html {
    let draft = &props.draft;
    let form = Form {
        draft,
        faults: &props.faults,
        dispatch: &props.dispatch,
    };
    let entry =
        |field: Field, label, unit, hint| form.field(field, label, Looks::sample(unit, hint));
    let per_weight = if draft.units.price().symbol() == "/lb" {
        "$/lb"
    } else {
        "$/kg"
    };
    let (length, area) = match draft.units {
        Units::Kilograms => ("cm", "cm²"),
        Units::Pounds => ("in", "in²"),
    };
    let has_fault = FOLDED.iter().any(|field| props.faults.contains_key(field));
    // Opens for a fault and stays as it is afterwards: mending the fault must
    // not fold the field away under the user's fingers.
    let opened = use_state_eq(|| has_fault);
    {
        let opened = opened.clone();
        use_effect_with(has_fault, move |&has_fault| {
            if has_fault {
                opened.set(true);
            }
        });
    }
    html! {
        <details class="more" open={*opened}>
            <summary>{ "Sides, weight basis, charges, labour, losses" }</summary>
            <div class="pair">
                { entry(Field::Sides, "Sides", "", "Bought together; the weight is for all of them.") }
                { basis_choice(props) }
            </div>
            if draft.basis != Basis::Cold {
                <div class="pair">
                    { entry(Field::DaysHung, "Days hung", "days", "In the cooler: gives the shrink, unless you type your own.") }
                    { entry(Field::Shrink, "Cooler shrink", "%", "1 to 2 % over the first night, then a quarter or a third of a percent a day.") }
                    if draft.basis == Basis::Live {
                        { entry(Field::Dressing, "Dressing share", "%", "Carcass of live weight: 60 to 63 grain-fed, 55 to 58 grass-fed.") }
                    }
                </div>
            }
            <h3>{ "Graded carcass" }</h3>
            <p class="note">{ "As the grader measured it: all four, or none." }</p>
            <div class="pair">
                { entry(Field::CarcassWeight, "Hot carcass", draft.units.mass().symbol(), "Both sides together.") }
                { entry(Field::BackFat, "Back fat", length, "Over the ribeye.") }
                { entry(Field::RibeyeArea, "Ribeye area", area, "") }
                { entry(Field::KidneyFat, "Kidney fat", "%", "With pelvic and heart fat.") }
            </div>
            if let Some(expected) = &props.expected {
                <p class="note" id="expected-yield">{ expected }</p>
                { stock_from_choice(props) }
            }
            <h3>{ "Charges" }</h3>
            <p class="note">{ "For the side (120) or by weight (0.90/kg), as you are billed." }</p>
            <div class="pair">
                { entry(Field::Kill, "Kill", "$", "With inspection.") }
                { entry(Field::Haul, "Haul", "$", "To your door.") }
                { entry(Field::CutAndWrap, "Cut and wrap", "$", "If the plant does it.") }
                { entry(Field::Rebate, "Rebate", "$", "What you get back.") }
            </div>
            <h3>{ "Labour and packs" }</h3>
            <div class="pair">
                { entry(Field::OnCost, "On-costs", "%", "On top of the wage, where the rate leaves them out.") }
                { entry(Field::Overhead, "Overhead", "$/h", "Rent and power for each hour of work.") }
                { packaging_choice(props) }
                if draft.counts_packs {
                    { entry(Field::PackCost, "One pack", "$", "Bag, tray, pad, label.") }
                    { entry(Field::PackHolds, "A pack holds", draft.units.mass().symbol(), "Of cuts, on average.") }
                } else {
                    { entry(Field::Packaging, "Packaging", per_weight, "For each weight of cuts.") }
                }
            </div>
            <h3>{ "Between block and till" }</h3>
            <div class="pair">
                { entry(Field::Purge, "Purge", "%", "Drip in the pack; 1 to 2 % is usual in vacuum.") }
                { entry(Field::Unsold, "Unsold", "%", "Never sold. Set single cuts under Prices.") }
                { entry(Field::MarkedDown, "Marked down", "%", "Sold for less.") }
                { entry(Field::Discount, "Mark-down", "%", "Taken off its price.") }
            </div>
        </details>
    }
}

/// The choice of what the priced weight is a weight of.
fn basis_choice(props: &MoreFieldsProps) -> Html {
    let choices = [
        (Basis::Cold, "cold", "Cold: chilled"),
        (Basis::Hot, "hot", "Hot: on the rail"),
        (Basis::Live, "live", "Live: half an animal"),
    ];
    let in_force = choices
        .iter()
        .find(|(basis, _, _)| *basis == props.draft.basis)
        .map_or("cold", |(_, id, _)| id);
    let dispatch = props.dispatch.clone();
    select_field(
        "weight-basis",
        "Weight basis",
        &choices.map(|(_, id, name)| (id.into(), name.into())),
        in_force,
        "What you pay for.",
        move |chosen| {
            if let Some((basis, _, _)) = choices.iter().find(|(_, id, _)| *id == chosen) {
                dispatch.emit(Action::ChooseBasis(*basis));
            }
        },
    )
}

/// The choice of what says how the animal was finished.
fn stock_from_choice(props: &MoreFieldsProps) -> Html {
    let dispatch = props.dispatch.clone();
    select_field(
        "stock-from",
        "Yields by",
        &[
            ("preset".into(), "The stock set above".into()),
            ("grade".into(), "The graded carcass".into()),
        ],
        match props.draft.stock_from {
            StockFromForm::Preset => "preset",
            StockFromForm::Grade => "grade",
        },
        "Which of the two the figures follow.",
        move |chosen| {
            dispatch.emit(Action::ChooseStockFrom(match chosen.as_str() {
                "grade" => StockFromForm::Grade,
                _ => StockFromForm::Preset,
            }));
        },
    )
}

/// The choice of what packaging is counted by.
fn packaging_choice(props: &MoreFieldsProps) -> Html {
    let dispatch = props.dispatch.clone();
    select_field(
        "packaging-by",
        "Packaging by",
        &[
            ("weight".into(), "Weight".into()),
            ("pack".into(), "The pack".into()),
        ],
        if props.draft.counts_packs {
            "pack"
        } else {
            "weight"
        },
        "",
        move |chosen| dispatch.emit(Action::CountPacks(chosen == "pack")),
    )
}
