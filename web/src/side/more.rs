//! What seldom changes, folded away: how many sides, what the weight is a
//! weight of, charges, labour in full, packaging, losses.

use std::rc::Rc;

use document::format::StockFromForm;
use yew::prelude::*;

use crate::element::{all, element};
use crate::entry_field::{Form, Looks};
use crate::select_field::select_field;
use crate::state::Action;
use draft::reading::Faults;
use draft::{Basis, Draft, Field, Units};

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

/// The unit of a folded field, which may depend on the units in force.
#[derive(Clone, Copy)]
enum Unit {
    As(&'static str),
    Weight,
    PricePerWeight,
    Length,
    Area,
}

impl Unit {
    const fn symbol(self, units: Units) -> &'static str {
        let is_metric = matches!(units, Units::Kilograms);
        match self {
            Self::As(symbol) => symbol,
            Self::Weight if is_metric => "kg",
            Self::Weight => "lb",
            Self::PricePerWeight if is_metric => "$/kg",
            Self::PricePerWeight => "$/lb",
            Self::Length if is_metric => "cm",
            Self::Length => "in",
            Self::Area if is_metric => "cm²",
            Self::Area => "in²",
        }
    }
}

/// A folded field with its label, its unit and its line of help.
type Folded = (Field, &'static str, Unit, &'static str);

const SIDES: [Folded; 1] = [(
    Field::Sides,
    "Sides",
    Unit::As(""),
    "Bought together; the weight is for all of them.",
)];

/// What a weight before the cooler asks for; the last only for a live animal.
const HANGING: [Folded; 3] = [
    (
        Field::DaysHung,
        "Days hung",
        Unit::As("days"),
        "In the cooler: gives the shrink, unless you type your own.",
    ),
    (
        Field::Shrink,
        "Cooler shrink",
        Unit::As("%"),
        "1 to 2 % over the first night, then a quarter or a third of a percent a day.",
    ),
    (
        Field::Dressing,
        "Dressing share",
        Unit::As("%"),
        "Carcass of live weight: 60 to 63 grain-fed, 55 to 58 grass-fed.",
    ),
];

const GRADED: [Folded; 4] = [
    (
        Field::CarcassWeight,
        "Hot carcass",
        Unit::Weight,
        "Both sides together.",
    ),
    (Field::BackFat, "Back fat", Unit::Length, "Over the ribeye."),
    (Field::RibeyeArea, "Ribeye area", Unit::Area, ""),
    (
        Field::KidneyFat,
        "Kidney fat",
        Unit::As("%"),
        "With pelvic and heart fat.",
    ),
];

const CHARGES: [Folded; 4] = [
    (Field::Kill, "Kill", Unit::As("$"), "With inspection."),
    (Field::Haul, "Haul", Unit::As("$"), "To your door."),
    (
        Field::CutAndWrap,
        "Cut and wrap",
        Unit::As("$"),
        "If the plant does it.",
    ),
    (Field::Rebate, "Rebate", Unit::As("$"), "What you get back."),
];

const LABOUR: [Folded; 2] = [
    (
        Field::OnCost,
        "On-costs",
        Unit::As("%"),
        "On top of the wage, where the rate leaves them out.",
    ),
    (
        Field::Overhead,
        "Overhead",
        Unit::As("$/h"),
        "Rent and power for each hour of work.",
    ),
];

const BY_THE_PACK: [Folded; 2] = [
    (
        Field::PackCost,
        "One pack",
        Unit::As("$"),
        "Bag, tray, pad, label.",
    ),
    (
        Field::PackHolds,
        "A pack holds",
        Unit::Weight,
        "Of cuts, on average.",
    ),
];

const BY_WEIGHT: [Folded; 1] = [(
    Field::Packaging,
    "Packaging",
    Unit::PricePerWeight,
    "For each weight of cuts.",
)];

const LOSSES: [Folded; 4] = [
    (
        Field::Purge,
        "Purge",
        Unit::As("%"),
        "Drip in the pack; 1 to 2 % is usual in vacuum.",
    ),
    (
        Field::Unsold,
        "Unsold",
        Unit::As("%"),
        "Never sold. Set single cuts under Prices.",
    ),
    (
        Field::MarkedDown,
        "Marked down",
        Unit::As("%"),
        "Sold for less.",
    ),
    (
        Field::Discount,
        "Mark-down",
        Unit::As("%"),
        "Taken off its price.",
    ),
];

/// Every field that stands folded away.
const ALL: [&[Folded]; 8] = [
    &SIDES,
    &HANGING,
    &GRADED,
    &CHARGES,
    &LABOUR,
    &BY_THE_PACK,
    &BY_WEIGHT,
    &LOSSES,
];

/// The folded part of the deal.
#[component]
pub fn MoreFields(props: &MoreFieldsProps) -> Html {
    let draft = &props.draft;
    let has_fault = ALL
        .iter()
        .copied()
        .flatten()
        .any(|(field, ..)| props.faults.contains_key(field));
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
    let pair = || element("div").class("pair");
    let heading = |name| element("h3").say(name);
    let note = |text| element("p").class("note").say(text);
    let hanging = match draft.basis {
        Basis::Cold => None,
        Basis::Hot => HANGING.get(..2),
        Basis::Live => Some(&HANGING[..]),
    };
    let packaging: &[Folded] = if draft.counts_packs {
        &BY_THE_PACK
    } else {
        &BY_WEIGHT
    };
    let expected = props.expected.clone().map(|expected| {
        all(vec![
            element("p")
                .class("note")
                .set("id", "expected-yield")
                .text(expected)
                .html(),
            stock_from_choice(props),
        ])
    });
    element("details")
        .class("more")
        .set_if(*opened, "open", "open")
        .put(element("summary").say("Sides, weight basis, charges, labour, losses"))
        .put(pair().node(fields(props, &SIDES)).node(basis_choice(props)))
        .maybe(hanging.map(|hanging| pair().node(fields(props, hanging))))
        .put(heading("Graded carcass"))
        .put(note("As the grader measured it: all four, or none."))
        .put(pair().node(fields(props, &GRADED)))
        .node(expected.unwrap_or_default())
        .put(heading("Charges"))
        .put(note(
            "For the side (120) or by weight (0.90/kg), as you are billed.",
        ))
        .put(pair().node(fields(props, &CHARGES)))
        .put(heading("Labour and packs"))
        .put(
            pair()
                .node(fields(props, &LABOUR))
                .node(packaging_choice(props))
                .node(fields(props, packaging)),
        )
        .put(heading("Between block and till"))
        .put(pair().node(fields(props, &LOSSES)))
        .html()
}

/// The fields of one list.
fn fields(props: &MoreFieldsProps, list: &[Folded]) -> Html {
    let form = Form {
        draft: &props.draft,
        faults: &props.faults,
        dispatch: &props.dispatch,
    };
    let field = |(field, label, unit, hint): &Folded| {
        let looks = Looks::sample(unit.symbol(props.draft.units), hint);
        form.field(field.clone(), *label, looks)
    };
    all(list.iter().map(field).collect())
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
