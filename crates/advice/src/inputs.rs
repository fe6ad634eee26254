//! The inputs that can be moved: what they are called and how their numbers
//! are written.

use carcass::ProductId;
use decision::{BreakEven, Case, Input, Unit};
use quantity::{Decimal, LabourRate, Mass, Minutes, Money, Rounding, Share, UnitPrice};
use wording::{say, text};

use crate::form::{Form, Label, Reach};
use crate::question::Question;

/// Inputs of every plan, in the order they are offered.
const OF_EVERY_PLAN: [Input; 10] = [
    Input::SidePrice,
    Input::Saleable,
    Input::Stock,
    Input::Weight,
    Input::LabourMinutes,
    Input::LabourRate,
    Input::Unsold,
    Input::Packaging,
    Input::Board,
    Input::Charges,
];

/// Every input of a plan: those of every plan, then price and yield of the cut
/// that brings most.
pub fn inputs(question: &Question) -> Vec<Input> {
    let mut inputs = OF_EVERY_PLAN.to_vec();
    let cuts = question.sheet.rows.iter().filter(|row| !row.is_by_product);
    if let Some(best) = cuts.max_by_key(|row| row.sales) {
        inputs.extend([Input::Price(best.product), Input::Yield(best.product)]);
    }
    inputs
}

/// Decimal places to which a limit is told from the digits that reckoning leaves.
const EXACT: u32 = 7;

/// The id of an input.
pub fn id(case: &Case, input: Input) -> String {
    let of = |prefix: &str, product: ProductId| format!("{prefix}-{}", case.catalogue[product].id);
    match input {
        Input::Weight => "weight".to_owned(),
        Input::Stock => "stock".to_owned(),
        Input::SidePrice => "price".to_owned(),
        Input::Charges => "charges".to_owned(),
        Input::LabourMinutes => "minutes".to_owned(),
        Input::LabourRate => "rate".to_owned(),
        Input::Packaging => "packaging".to_owned(),
        Input::Unsold => "unsold".to_owned(),
        Input::Board => "board".to_owned(),
        Input::Saleable => "saleable".to_owned(),
        Input::Price(product) => of("price", product),
        Input::Yield(product) => of("yield", product),
    }
}

/// What an input is called.
pub fn name(case: &Case, input: Input) -> String {
    let of = |what: &str, product: ProductId| format!("{what}, {}", case.catalogue[product].name);
    match input {
        Input::Weight => text!("Side weight").to_owned(),
        Input::Stock => text!("Grass-fed").to_owned(),
        Input::SidePrice => text!("Side price").to_owned(),
        Input::Charges => text!("Charges on top").to_owned(),
        Input::LabourMinutes => text!("Labour minutes").to_owned(),
        Input::LabourRate => text!("Labour rate").to_owned(),
        Input::Packaging => text!("Packaging").to_owned(),
        Input::Unsold => text!("Unsold").to_owned(),
        Input::Board => text!("All board prices").to_owned(),
        Input::Saleable => text!("Saleable yield").to_owned(),
        Input::Price(product) => of(text!("Price"), product),
        Input::Yield(product) => of(text!("Yield"), product),
    }
}

/// What an input is, in one line.
pub fn hint(input: Input) -> &'static str {
    match input {
        Input::Weight => text!("What is paid for, all sides."),
        Input::Stock => text!("0 is grain-fed, 100 grass-fed."),
        Input::SidePrice => text!("What the supplier asks."),
        Input::Charges => text!("On top of those of the plan."),
        Input::LabourMinutes => text!("For all sides."),
        Input::LabourRate => text!("Before on-costs."),
        Input::Packaging => text!("As the shop counts it."),
        Input::Unsold => text!("Of the weight cut."),
        Input::Board => text!("More or less for every cut."),
        Input::Saleable => text!("Points of the side, more or less than planned."),
        Input::Price(_) => text!("On the board."),
        Input::Yield(_) => text!("More or less than planned; trim of its part gives or takes."),
    }
}

/// How far its slider reaches.
pub fn reach(input: Input) -> Reach {
    match input {
        Input::Stock => Reach::FromTo(0, 100),
        Input::Saleable => Reach::FromTo(-10, 10),
        Input::Board | Input::Yield(_) => Reach::FromTo(-25, 25),
        Input::Unsold => Reach::FromTo(0, 25),
        Input::Charges => Reach::FromTo(0, 250),
        Input::Weight | Input::SidePrice => Reach::Share(30),
        Input::LabourMinutes | Input::LabourRate | Input::Price(_) => Reach::Share(50),
        Input::Packaging => Reach::Share(100),
    }
}

/// Reads an input off a form; `stands` in the unit of the input.
pub fn read(
    form: &mut Form,
    case: &Case,
    input: Input,
    label: Label,
    stands: Decimal,
    reach: Reach,
) -> Decimal {
    match input.unit(case) {
        Unit::Kilograms => form.mass(label, Mass::from_kg(stands), reach).kg(),
        Unit::MoneyPerKilogram => form
            .price(label, UnitPrice::from_per_kg(stands), reach)
            .per_kg(),
        Unit::MoneyPerHour => form
            .rate(label, LabourRate::from_per_hour(stands), reach)
            .per_hour(),
        Unit::MoneyPerPack | Unit::Money => {
            form.money(label, Money::from_units(stands), reach).units()
        }
        Unit::Minutes => form
            .minutes(label, Minutes::from_minutes(stands), reach)
            .minutes(),
        Unit::Percent => form
            .percent(label, Share::from_percent(stands), reach)
            .percent(),
        Unit::PercentMore => form
            .change(label, "%", Share::from_percent(stands), reach)
            .percent(),
        Unit::PointsMore => form
            .change(label, "pp", Share::from_percent(stands), reach)
            .percent(),
    }
}

/// The number of an input with its unit.
pub fn written(question: &Question, input: Input, value: Decimal) -> String {
    let more = |unit: &str| {
        let plus = if value > Decimal::ZERO { "+" } else { "" };
        let number = notation::number(value, 1, Rounding::HalfEven);
        format!("{plus}{number} {unit}")
    };
    match input.unit(&question.case) {
        Unit::Kilograms => notation::mass_with_unit(Mass::from_kg(value), question.units),
        Unit::MoneyPerKilogram => question.price(UnitPrice::from_per_kg(value)),
        Unit::MoneyPerHour => format!("{}/h", notation::money(Money::from_units(value))),
        Unit::MoneyPerPack => say!("{money}/pack", notation::money(Money::from_units(value))),
        Unit::Money => notation::money(Money::from_units(value)),
        Unit::Minutes => format!("{} min", notation::minutes(Minutes::from_minutes(value))),
        Unit::Percent => format!("{} %", notation::number(value, 1, Rounding::HalfEven)),
        Unit::PercentMore => more("%"),
        Unit::PointsMore => more("pp"),
    }
}

/// A limit of an input with its unit, on the side of it that pays: at the figure
/// shown the side must still make the target.
pub fn limit_written(question: &Question, input: Input, limit: Decimal, to: Rounding) -> String {
    // A quotient that is whole in the digits shown may end in nines, and a limit
    // found by halving stops just short: neither is worth a cent.
    let limit = Rounding::HalfEven.to_places(limit, EXACT);
    let cut = match input.unit(&question.case) {
        Unit::Kilograms => {
            let unit = question.units.mass();
            let shown = to.to_places(Mass::from_kg(limit).in_unit(unit), 2);
            Mass::from_unit(shown, unit).kg()
        }
        Unit::MoneyPerKilogram => {
            let unit = question.price_unit();
            let shown = to.to_cent(UnitPrice::from_per_kg(limit).in_unit(unit));
            UnitPrice::from_unit(shown, unit).per_kg()
        }
        Unit::MoneyPerHour | Unit::MoneyPerPack | Unit::Money => to.to_cent(limit),
        Unit::Minutes => to.to_places(limit, 0),
        Unit::Percent | Unit::PercentMore | Unit::PointsMore => to.to_places(limit, 1),
    };
    written(question, input, cut)
}

/// Where an input may stand for the side to pay.
pub fn limit(question: &Question, input: Input, limit: BreakEven) -> String {
    match limit {
        BreakEven::Always => text!("always").to_owned(),
        BreakEven::Never => text!("never").to_owned(),
        BreakEven::AtLeast(value) => {
            say!(
                "from {value}",
                limit_written(question, input, value, Rounding::Up)
            )
        }
        BreakEven::AtMost(value) => {
            say!(
                "up to {value}",
                limit_written(question, input, value, Rounding::Down)
            )
        }
    }
}
