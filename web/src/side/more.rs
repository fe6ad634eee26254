//! What seldom changes, folded away: weight basis, charges, packaging, unsold.

use std::rc::Rc;

use web_sys::HtmlSelectElement;
use yew::prelude::*;

use super::fault;
use crate::draft::reading::Faults;
use crate::draft::{Basis, Draft, Field};
use crate::entry_field::EntryField;
use crate::state::Action;

/// What the folded part shows.
#[derive(Properties, PartialEq)]
pub struct MoreFieldsProps {
    /// What was typed.
    pub draft: Rc<Draft>,
    /// What cannot be read.
    pub faults: Rc<Faults>,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// The folded part of the deal.
#[component]
pub fn MoreFields(props: &MoreFieldsProps) -> Html {
    let draft = &props.draft;
    let entry = |field: Field, label: &'static str, unit: &'static str, hint: &'static str| {
        html! {
            <EntryField fault={fault(&props.faults, &field)} {field} {label}
                unit={html! { <span class="unit">{ unit }</span> }} {hint} stand_in_mark="Sample"
                draft={draft.clone()} dispatch={props.dispatch.clone()} />
        }
    };
    let per = draft.units.price().symbol();
    let per_weight = if per == "/lb" { "$/lb" } else { "$/kg" };
    // A fault must not hide in a folded part.
    let has_fault = [
        Field::Shrink,
        Field::Dressing,
        Field::FlatCharge,
        Field::WeightCharge,
        Field::Packaging,
        Field::Unsold,
    ]
    .iter()
    .any(|field| props.faults.contains_key(field));
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
            <summary>{ "Weight basis, charges, packaging, unsold" }</summary>
            { basis_choice(props) }
            if draft.basis != Basis::Cold {
                { entry(Field::Shrink, "Cooler shrink", "%", "Lost between the rail and the block; 1 to 2 % over the first night.") }
            }
            if draft.basis == Basis::Live {
                { entry(Field::Dressing, "Dressing share", "%", "Carcass weight of live weight; 60 to 63 grain-fed, 55 to 58 grass-fed.") }
            }
            <div class="pair">
                { entry(Field::FlatCharge, "Charges for the side", "$", "Kill, inspection, haul: once.") }
                { entry(Field::WeightCharge, "Charges by weight", per_weight, "Cut-and-wrap and the like, on the weight you pay for.") }
            </div>
            <div class="pair">
                { entry(Field::Packaging, "Packaging", per_weight, "For each weight of cuts.") }
                { entry(Field::Unsold, "Unsold", "%", "Share of the cut weight that never sells.") }
            </div>
        </details>
    }
}

/// The choice of what the priced weight is a weight of.
fn basis_choice(props: &MoreFieldsProps) -> Html {
    let choices = [
        (Basis::Cold, "cold", "Cold: the chilled side"),
        (Basis::Hot, "hot", "Hot: on the rail, before the cooler"),
        (Basis::Live, "live", "Live: half of the live animal"),
    ];
    let choose = {
        let dispatch = props.dispatch.clone();
        Callback::from(move |event: Event| {
            let select: HtmlSelectElement = event.target_unchecked_into();
            let chosen = select.value();
            if let Some((basis, _, _)) = choices.iter().find(|(_, id, _)| *id == chosen) {
                dispatch.emit(Action::ChooseBasis(*basis));
            }
        })
    };
    html! {
        <div class="field">
            <label for="weight-basis">{ "Weight basis" }</label>
            <div class="box">
                <select id="weight-basis" onchange={choose}>
                    { for choices.iter().map(|(basis, id, name)| html! {
                        <option value={*id} selected={*basis == props.draft.basis}>{ name }</option>
                    }) }
                </select>
            </div>
        </div>
    }
}
