//! What seldom changes, folded away: how many sides, what the weight is a
//! weight of, charges, labour in full, packaging, losses.

use std::rc::Rc;
use wording::{Text, key, text};

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
    Days,
    Money,
    MoneyPerHour,
    Weight,
    PricePerWeight,
    Length,
    Area,
}

impl Unit {
    fn symbol(self, units: Units) -> AttrValue {
        let is_metric = matches!(units, Units::Kilograms);
        let by = match self {
            Self::Money => "",
            Self::MoneyPerHour => "/h",
            Self::PricePerWeight => units.price().symbol(),
            _ => return AttrValue::Static(self.plain_symbol(is_metric)),
        };
        AttrValue::from(notation::currency() + by)
    }

    fn plain_symbol(self, is_metric: bool) -> &'static str {
        match self {
            Self::As(symbol) => symbol,
            Self::Days => text!("days"),
            Self::Money | Self::MoneyPerHour | Self::PricePerWeight => "",
            Self::Weight if is_metric => "kg",
            Self::Weight => "lb",
            Self::Length if is_metric => "cm",
            Self::Length => text!("in|inches"),
            Self::Area if is_metric => "cm²",
            Self::Area => text!("in²"),
        }
    }
}

/// A folded field with its label, its unit and its line of help.
type Folded = (Field, Text, Unit, Text);

const SIDES: [Folded; 1] = [(
    Field::Sides,
    key!("Sides"),
    Unit::As(""),
    key!("Bought together; the weight is for all of them."),
)];

/// What a weight before the cooler asks for; the last only for a live animal.
const HANGING: [Folded; 3] = [
    (
        Field::DaysHung,
        key!("Days hung"),
        Unit::Days,
        key!("In the cooler: gives the shrink, unless you type your own."),
    ),
    (
        Field::Shrink,
        key!("Cooler shrink"),
        Unit::As("%"),
        key!("1 to 2 % over the first night, then a quarter or a third of a percent a day."),
    ),
    (
        Field::Dressing,
        key!("Dressing share"),
        Unit::As("%"),
        key!("Carcass of live weight: 60 to 63 grain-fed, 55 to 58 grass-fed."),
    ),
];

const GRADED: [Folded; 4] = [
    (
        Field::CarcassWeight,
        key!("Hot carcass"),
        Unit::Weight,
        key!("Both sides together."),
    ),
    (
        Field::BackFat,
        key!("Back fat"),
        Unit::Length,
        key!("Over the ribeye."),
    ),
    (
        Field::RibeyeArea,
        key!("Ribeye area"),
        Unit::Area,
        key!("Between the ribs, where the grader measures it."),
    ),
    (
        Field::KidneyFat,
        key!("Kidney fat"),
        Unit::As("%"),
        key!("With pelvic and heart fat."),
    ),
];

const CHARGES: [Folded; 4] = [
    (
        Field::Kill,
        key!("Kill"),
        Unit::Money,
        key!("With inspection."),
    ),
    (
        Field::Haul,
        key!("Haul"),
        Unit::Money,
        key!("To your door."),
    ),
    (
        Field::CutAndWrap,
        key!("Cut and wrap"),
        Unit::Money,
        key!("If the plant does it."),
    ),
    (
        Field::Rebate,
        key!("Rebate"),
        Unit::Money,
        key!("What you get back."),
    ),
];

const LABOUR: [Folded; 2] = [
    (
        Field::OnCost,
        key!("On-costs"),
        Unit::As("%"),
        key!("On top of the wage, where the rate leaves them out."),
    ),
    (
        Field::Overhead,
        key!("Overhead"),
        Unit::MoneyPerHour,
        key!("Rent and power for each hour of work."),
    ),
];

const BY_THE_PACK: [Folded; 2] = [
    (
        Field::PackCost,
        key!("One pack"),
        Unit::Money,
        key!("Bag, tray, pad, label."),
    ),
    (
        Field::PackHolds,
        key!("A pack holds"),
        Unit::Weight,
        key!("Of cuts, on average."),
    ),
];

const BY_WEIGHT: [Folded; 1] = [(
    Field::Packaging,
    key!("Packaging"),
    Unit::PricePerWeight,
    key!("For each weight of cuts."),
)];

const LOSSES: [Folded; 4] = [
    (
        Field::Purge,
        key!("Purge"),
        Unit::As("%"),
        key!("Drip in the pack; 1 to 2 % is usual in vacuum."),
    ),
    (
        Field::Unsold,
        key!("Unsold"),
        Unit::As("%"),
        key!("Never sold. Set single cuts under Prices."),
    ),
    (
        Field::MarkedDown,
        key!("Marked down"),
        Unit::As("%"),
        key!("Sold for less."),
    ),
    (
        Field::Discount,
        key!("Mark-down"),
        Unit::As("%"),
        key!("Taken off its price."),
    ),
];

/// The folded part of the deal.
#[component]
pub fn MoreFields(props: &MoreFieldsProps) -> Html {
    let draft = &props.draft;
    let folded: [&[Folded]; 8] = [
        &SIDES,
        &HANGING,
        &GRADED,
        &CHARGES,
        &LABOUR,
        &BY_THE_PACK,
        &BY_WEIGHT,
        &LOSSES,
    ];
    let has_fault = folded
        .into_iter()
        .flatten()
        .any(|(field, ..)| props.faults.contains_key(field));
    // Opens for a fault and stays as it is afterwards: mending the fault must
    // not fold the field away under the user's fingers.
    let opened = use_state_eq(move || has_fault);
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
        .put(element("summary").tell(key!("Sides, weight basis, charges, labour, losses")))
        .put(pair().node(fields(props, &SIDES)).node(basis_choice(props)))
        .maybe(hanging.map(|hanging| pair().node(fields(props, hanging))))
        .put(heading(text!("Graded carcass")))
        .put(note(text!("As the grader measured it: all four, or none.")))
        .put(pair().node(fields(props, &GRADED)))
        .node(expected.unwrap_or_default())
        .put(heading(text!("Charges")))
        .put(note(text!(
            "For the side (120) or by weight (0.90/kg), as you are billed."
        )))
        .put(pair().node(fields(props, &CHARGES)))
        .put(heading(text!("Labour and packs")))
        .put(
            pair()
                .node(fields(props, &LABOUR))
                .node(packaging_choice(props))
                .node(fields(props, packaging)),
        )
        .put(heading(text!("Between block and till")))
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
        let looks = Looks::sample(unit.symbol(props.draft.units), hint.said());
        form.field(field.clone(), label.said(), looks)
    };
    all(list.iter().map(field).collect())
}

/// The choice of what the priced weight is a weight of.
fn basis_choice(props: &MoreFieldsProps) -> Html {
    let choices = [
        (Basis::Cold, "cold", text!("Cold: chilled")),
        (Basis::Hot, "hot", text!("Hot: on the rail")),
        (Basis::Live, "live", text!("Live: half an animal")),
    ];
    let in_force = choices
        .iter()
        .find(|(basis, _, _)| *basis == props.draft.basis)
        .map_or("cold", |(_, id, _)| id);
    let dispatch = props.dispatch.clone();
    select_field(
        "weight-basis",
        text!("Weight basis"),
        &choices.map(|(_, id, name)| (id.into(), name.into())),
        in_force,
        text!("What you pay for."),
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
        text!("Yields by"),
        &[
            ("preset".into(), text!("The stock set above").into()),
            ("grade".into(), text!("The graded carcass").into()),
        ],
        match props.draft.stock_from {
            StockFromForm::Preset => "preset",
            StockFromForm::Grade => "grade",
        },
        text!("Which of the two the figures follow."),
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
        text!("Packaging by"),
        &[
            ("weight".into(), text!("Weight").into()),
            ("pack".into(), text!("The pack").into()),
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
