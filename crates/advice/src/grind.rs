//! What grind the trims of a side make, by mass balance of their fat, and what
//! is lacking for what is wanted.

use carcass::blend::{Blend, Wanted};
use carcass::{Catalogue, FatLedger, GrindClass, GroundClass, ProductId, RanOut, Role, What};
use notation::{Units, mass_with_unit, percent};
use quantity::Mass;
use wording::{say, text};

use crate::question::Question;
use crate::steps::Steps;

/// What is lacking for a class that a plan asks for, in kilograms or pounds;
/// `None` where all of it could be made.
pub fn lacking(catalogue: &Catalogue, class: &GroundClass, units: Units) -> Option<String> {
    let ran_out = class.ran_out?;
    let weight = |mass| mass_with_unit(mass, units);
    let why = match (
        ran_out,
        class.lean_lacking,
        class.leanest,
        class.fat_lacking,
    ) {
        (RanOut::Lean, Some(lean), Some(leanest), _) => say!(
            "Too little lean: {lean} more at {leanest} fat would make it good.",
            weight(lean),
            percent(leanest)
        ),
        (RanOut::Lean, ..) => text!("No trim of this side is lean enough for it.").to_owned(),
        (RanOut::Trim, _, _, Some(fat)) if fat.is_positive() => say!(
            "All trim is used up; up to {fat} more fat trim could go in.",
            weight(fat)
        ),
        (RanOut::Trim, ..) => text!("All trim is used up.").to_owned(),
    };
    Some(say!(
        "{product}: {weight} of the {wanted} wanted, {missing} short. {why}",
        catalogue[class.product].name,
        weight(class.weight),
        weight(class.wanted),
        weight(class.missing()),
        why
    ))
}

/// For each class the most that can be blended when all trims may go into it;
/// what of the classes that the plan asks for was made. `None` where a side
/// has no trim.
pub fn written(question: &Question) -> Option<String> {
    let catalogue = question.case.catalogue;
    let breakdown = &question.sheet.breakdown;
    let units = question.units;
    let admits = |product: ProductId| {
        is_grind(catalogue, product) || catalogue[product].role == Some(Role::FatTrim)
    };
    let ledger = FatLedger::of(breakdown, admits).ok()?;
    let planned: Mass = breakdown
        .nodes()
        .iter()
        .filter(|node| matches!(node.what, What::Product(id) if is_grind(catalogue, id)))
        .map(|node| node.weight)
        .sum();
    let mut steps = Steps::default();
    for class in breakdown.ground() {
        made(&mut steps, catalogue, class, units);
    }
    let fat = ledger.fat_weight().ratio_to(ledger.weight());
    let about = say!(
        "{weight} of lean and fat trim, {fat} fat on the whole. Each line: the most of one class that can be blended from it alone, against {planned} of grind in the plan. Limits are Canada's; the fat of each trim is an estimate.",
        mass_with_unit(ledger.weight(), units),
        fat.map(percent).unwrap_or_default(),
        mass_with_unit(planned, units)
    );
    steps.holding("p", &[("class", "note")], &about);
    steps.element("table", &[("class", "classes")], |steps| {
        steps.element("thead", &[], |steps| {
            steps.element("tr", &[], |steps| {
                for head in [
                    text!("Class"),
                    text!("Fat up to"),
                    text!("At most"),
                    text!("Against the plan"),
                ] {
                    steps.holding("th", &[("scope", "col")], head);
                }
            });
        });
        steps.element("tbody", &[], |steps| {
            for class in catalogue.grind_classes() {
                let wanted = Wanted {
                    most_fat: class.most_fat,
                    weight: None,
                };
                if let Ok(blend) = ledger.blend(&[wanted]) {
                    line(steps, class, &blend, planned, units);
                }
            }
        });
    });
    Some(steps.written())
}

/// What was made of a class that the plan asks for.
fn made(steps: &mut Steps, catalogue: &Catalogue, class: &GroundClass, units: Units) {
    if let Some(lacking) = lacking(catalogue, class, units) {
        steps.element("p", &[("class", "fault")], |steps| {
            steps.holding("span", &[("aria-hidden", "true")], "✕ ");
            steps.text(&lacking);
        });
        return;
    }
    let text = say!(
        "{product}: {weight}, {fat} fat of {most_fat} allowed, {fat_trim} of it fat trim.",
        catalogue[class.product].name,
        mass_with_unit(class.weight, units),
        class.fat.map(percent).unwrap_or_default(),
        percent(class.most_fat),
        mass_with_unit(class.fat_trim, units)
    );
    steps.holding("p", &[("class", "made")], &text);
}

/// Whether it is lean trim or a class that trim is ground to.
fn is_grind(catalogue: &Catalogue, product: ProductId) -> bool {
    catalogue[product].role == Some(Role::LeanTrim) || catalogue.grind_class_of(product).is_some()
}

fn line(steps: &mut Steps, class: &GrindClass, blend: &Blend, planned: Mass, units: Units) {
    let most: Mass = blend.batches.iter().map(|batch| batch.weight).sum();
    let over = most - planned;
    let against = if over < Mass::ZERO {
        say!("{over} short of lean", mass_with_unit(-over, units))
    } else {
        say!("takes {over} of fat trim", mass_with_unit(over, units))
    };
    steps.element("tr", &[], |steps| {
        steps.holding("th", &[("scope", "row")], &class.name);
        for cell in [
            percent(class.most_fat),
            mass_with_unit(most, units),
            against,
        ] {
            steps.holding("td", &[], &cell);
        }
    });
}
