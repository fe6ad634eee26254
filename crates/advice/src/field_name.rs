//! What a field is called where it is told of away from its place.

use carcass::Catalogue;
use draft::Field;
use wording::text;

/// The name of a field, as its label has it; with the cut, step or part that it is
/// of before it.
pub fn field_name(catalogue: &Catalogue, field: &Field) -> String {
    let product = |id: &str| {
        let product = catalogue.product_id(id)?;
        Some(catalogue[product].name.clone())
    };
    let way = |id: &str| Some(catalogue[catalogue.way_id(id)?].name.clone());
    let part = |id: &str| Some(catalogue[catalogue.part_id(id)?].name.clone());
    let of = match field {
        Field::Board(id)
        | Field::CutUnsold(id)
        | Field::CutMarkedDown(id)
        | Field::Pin(id)
        | Field::Floor(id)
        | Field::Cap(id) => product(id),
        Field::WayMinutes(id) => way(id),
        Field::SplitPercent(id)
        | Field::AgeingDays(id)
        | Field::AgeingLoss(id)
        | Field::RenderingYield(id) => part(id),
        Field::Grind(id) => {
            let mut classes = catalogue.grind_classes().iter();
            let class = classes.find(|class| class.id == *id);
            class.map(|class| class.name.clone())
        }
        _ => None,
    };
    match of {
        Some(of) => format!("{of}, {}", label(field)),
        None => label(field).to_owned(),
    }
}

fn label(field: &Field) -> &'static str {
    match field {
        Field::Sides => text!("Sides"),
        Field::Weight => text!("Side weight"),
        Field::Price => text!("Side price"),
        Field::LabourMinutes => text!("Labour minutes"),
        Field::LabourRate => text!("Labour rate"),
        Field::OnCost => text!("On-costs"),
        Field::Overhead => text!("Overhead"),
        Field::TargetMargin => text!("Target margin"),
        Field::Shrink => text!("Cooler shrink"),
        Field::Dressing => text!("Dressing share"),
        Field::Kill => text!("Kill"),
        Field::Haul => text!("Haul"),
        Field::CutAndWrap => text!("Cut and wrap"),
        Field::Rebate => text!("Rebate"),
        Field::Packaging => text!("Packaging"),
        Field::Purge => text!("Purge"),
        Field::Unsold => text!("Unsold"),
        Field::MarkedDown => text!("Marked down"),
        Field::Discount => text!("Mark-down"),
        Field::Endings => text!("Price endings"),
        Field::DaysHung => text!("Days hung"),
        Field::CarcassWeight => text!("Hot carcass"),
        Field::BackFat => text!("Back fat"),
        Field::RibeyeArea => text!("Ribeye area"),
        Field::KidneyFat => text!("Kidney fat"),
        Field::PackCost => text!("One pack"),
        Field::PackHolds => text!("A pack holds"),
        Field::GrindMargin => text!("Below the limit by"),
        Field::BoardDate => text!("Day of the board"),
        Field::BoardDays => text!("Old after"),
        Field::Board(_) => text!("Board price"),
        Field::CutUnsold(_) => text!("Unsold of this cut, %"),
        Field::CutMarkedDown(_) => text!("Marked down, %"),
        Field::Pin(_) => text!("Hold its suggested price"),
        Field::Floor(_) => text!("Not below"),
        Field::Cap(_) => text!("Not above"),
        Field::WayMinutes(_) => text!("Own minutes for this step"),
        Field::SplitPercent(_) => text!("Percent by the second way"),
        Field::AgeingDays(_) => text!("Dry-aged, days"),
        Field::AgeingLoss(_) => text!("Own loss in ageing, %"),
        Field::RenderingYield(_) => text!("Yield in rendering, %"),
        Field::Grind(_) => text!("Grind to classes"),
    }
}
