//! What grind the trims make, by mass balance of their fat.

use carcass::blend::{Blend, Wanted};
use carcass::{Catalogue, FatLedger, GrindClass, ProductId, Role, What};
use quantity::Mass;
use yew::Html;

use super::CutsProps;
use crate::cautions::folded_by_id;
use crate::element::{Element, all, element};
use crate::entry_field::{Form, Looks};
use crate::select_field::select_field;
use crate::state::{Action, Figures};
use draft::{Field, Units};

/// What grind the trims make: for each class the most that can be blended when
/// all of them may go into it.
pub fn grind_table(props: &CutsProps, figures: &Figures) -> Html {
    let data = &props.data;
    let units = props.draft.units;
    let admits =
        |product: ProductId| is_grind(data, product) || data[product].role == Some(Role::FatTrim);
    let Ok(ledger) = FatLedger::of(&figures.sheet.breakdown, admits) else {
        return Html::default();
    };
    let planned = planned_grind(data, figures);
    let lines = data.grind_classes().iter().filter_map(|class| {
        let wanted = Wanted {
            most_fat: class.most_fat,
            weight: None,
        };
        let blend = ledger.blend(&[wanted]).ok()?;
        Some(line(class, &blend, planned, units))
    });
    let fat = ledger
        .fat_weight()
        .ratio_to(ledger.weight())
        .map(notation::percent)
        .unwrap_or_default();
    let about = format!(
        "{} of lean and fat trim, {fat} fat on the whole. Each line: the most of one class that can be blended from it, against {} of grind in the plan. Limits are Canada's; the fat of each trim is an estimate.",
        notation::mass_with_unit(ledger.weight(), units),
        notation::mass_with_unit(planned, units),
    );
    let heads = ["Class", "Fat up to", "At most", "Against the plan"]
        .into_iter()
        .fold(element("tr"), |row, name| {
            row.put(element("th").set("scope", "col").say(name))
        });
    element("details")
        .class("grind")
        .put(element("summary").say("What grind the trims make"))
        .put(element("p").class("note").text(about))
        .node(folded_by_id(data, &["cold-chain", "grinding"]))
        .put(
            element("table")
                .class("classes")
                .put(element("thead").put(heads))
                .put(lines.fold(element("tbody"), Element::put)),
        )
        .node(wanted_classes(props))
        .html()
}

/// Whether it is lean trim or a class that trim is ground to.
fn is_grind(data: &Catalogue, product: ProductId) -> bool {
    data[product].role == Some(Role::LeanTrim) || data.grind_class_of(product).is_some()
}

/// The grind that the plan counts on.
fn planned_grind(data: &Catalogue, figures: &Figures) -> Mass {
    figures
        .sheet
        .breakdown
        .nodes()
        .iter()
        .filter(|node| matches!(node.what, What::Product(product) if is_grind(data, product)))
        .map(|node| node.weight)
        .sum()
}

fn line(class: &GrindClass, blend: &Blend, planned: Mass, units: Units) -> Element {
    let most: Mass = blend.batches.iter().map(|batch| batch.weight).sum();
    let over = most - planned;
    let against = if over < Mass::ZERO {
        format!("{} short of lean", notation::mass_with_unit(-over, units))
    } else {
        format!(
            "takes {} of fat trim",
            notation::mass_with_unit(over, units)
        )
    };
    element("tr")
        .put(element("th").set("scope", "row").text(class.name.clone()))
        .put(element("td").text(notation::percent(class.most_fat)))
        .put(element("td").text(notation::mass_with_unit(most, units)))
        .put(element("td").text(against))
}

/// How much of each class is wanted, and what may go into it.
fn wanted_classes(props: &CutsProps) -> Html {
    let form = Form {
        draft: &props.draft,
        faults: &props.faults,
        dispatch: &props.dispatch,
    };
    let classes = props.data.grind_classes().iter().map(|class| {
        let field = Field::Grind(class.id.clone());
        form.field(field, class.name.clone(), Looks::hinted(""))
    });
    let dispatch = props.dispatch.clone();
    let margin = Looks::sample("points", "Points of fat: the fat of a trim is an estimate.");
    let with_fat = select_field(
        "grind-with-fat",
        "Fat trim in it",
        &[
            ("no".into(), "None".into()),
            ("yes".into(), "As the limit allows".into()),
        ],
        if props.draft.grind_with_fat {
            "yes"
        } else {
            "no"
        },
        "Fat trim that goes in is sold as grind.",
        move |chosen| dispatch.emit(Action::GrindWithFat(chosen == "yes")),
    );
    all(vec![
        element("h3").say("Grind to classes").html(),
        element("p")
            .class("note")
            .say("Percent of all lean trim (40), or a weight (5 kg). Empty: none of it. What is left stays ground beef.")
            .html(),
        element("div")
            .class("pair")
            .put_all(classes)
            .node(form.field(Field::GrindMargin, "Below the limit by", margin))
            .node(with_fat)
            .html(),
    ])
}
