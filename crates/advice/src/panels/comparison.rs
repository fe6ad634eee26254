//! Two plans or deals side by side.

use decision::{Case, Comparison, Whole, compare};
use draft::{Draft, reading};
use notation::{money, percent};
use wording::{say, text};

use crate::block::{Block, Tone};
use crate::form::{Form, Label};
use crate::question::{Question, margin};

/// The id of the plan that is typed now among what can be chosen.
const THIS: &str = "this";

/// The answer. A saved plan is held against others with the deal and the shop
/// that were saved with it.
///
/// # Errors
/// A sentence where a plan cannot be worked out.
pub fn answer(question: &Question, form: &mut Form) -> Result<Vec<Block>, String> {
    let catalogue = question.case.catalogue;
    let saved = form.saved();
    let listed = || {
        saved
            .iter()
            .map(|(id, name, _)| (id.to_string(), name.to_string()))
    };
    let this = (THIS.to_owned(), text!("This plan").to_owned());
    let first = form.choice(
        Label {
            id: "first",
            name: text!("Plan"),
            hint: text!("This plan, or a saved one with its own deal."),
        },
        core::iter::once(this.clone()).chain(listed()).collect(),
    );
    let shipped = catalogue.plans().iter();
    let second = form.choice(
        Label {
            id: "other",
            name: text!("Against"),
            hint: text!("This deal cut by another plan, or a saved plan with its own deal."),
        },
        shipped
            .map(|plan| (plan.id.clone(), plan.name.clone()))
            .chain(core::iter::once(this))
            .chain(listed())
            .collect(),
    );
    let (first_name, first) = chosen(question, &saved, &first)?;
    let (second_name, second) = chosen(question, &saved, &second)?;
    let comparison = compare(&first, &second).map_err(|error| error.to_string())?;
    let finding = if comparison.first.reading == comparison.second.reading {
        text!("Both come to the same.").to_owned()
    } else {
        let more = comparison.second.reading.profit - comparison.first.reading.profit;
        let than = if first_name == text!("This plan") {
            text!("this plan")
        } else {
            &first_name
        };
        if more < quantity::Money::ZERO {
            say!(
                "{plan} leaves {by} less than {other}.",
                second_name,
                money(-more),
                than
            )
        } else {
            say!(
                "{plan} leaves {by} more than {other}.",
                second_name,
                money(more),
                than
            )
        }
    };
    let names = [first_name.as_str(), second_name.as_str()];
    Ok(vec![
        Block::Text(Tone::Finding, finding),
        whole_table(question, &comparison, names),
        cuts(question, &comparison, names),
    ])
}

/// What was chosen by its id, with its name.
fn chosen<'a>(
    question: &Question<'a>,
    saved: &[(&str, &str, Draft)],
    id: &str,
) -> Result<(String, Case<'a>), String> {
    if id == THIS {
        return Ok((text!("This plan").to_owned(), question.case.clone()));
    }
    let catalogue = question.case.catalogue;
    if let Some((_, name, draft)) = saved.iter().find(|(found, _, _)| *found == id) {
        let cannot = |why: &str| say!("“{name}” cannot be worked out: {why}", name, why);
        let document = reading::read(draft, catalogue)
            .map_err(|_| cannot(text!("something in it is missing or cannot be read.")))?;
        let other =
            Question::about(catalogue, &document, question.units).map_err(|why| cannot(&why))?;
        return Ok(((*name).to_owned(), other.case));
    }
    let other = catalogue
        .plan(id)
        .ok_or_else(|| text!("There is no such plan.").to_owned())?;
    let case = Case {
        plan: other.plan.clone(),
        ..question.case.clone()
    };
    Ok((other.name.clone(), case))
}

/// Both as a whole with their differences.
pub fn whole_table(question: &Question, comparison: &Comparison, names: [&str; 2]) -> Block {
    let [first, second] = [&comparison.first, &comparison.second];
    let more = &comparison.more;
    let units = question.units;
    let line = |name: &str, of: &dyn Fn(&Whole) -> String, more: String| {
        vec![name.to_owned(), of(first), of(second), more]
    };
    let rows = vec![
        line(
            &say!("Saleable {weight_unit}", question.weight_unit()),
            &|whole| notation::mass(whole.totals.saleable, units),
            notation::mass(more.saleable, units),
        ),
        line(
            text!("Of the chilled side"),
            &|whole| margin(whole.totals.saleable.ratio_to(whole.totals.chilled)),
            String::new(),
        ),
        line(
            text!("Minutes"),
            &|whole| notation::minutes(whole.totals.time),
            notation::minutes(more.time),
        ),
        line(
            text!("Of these at the saw"),
            &|whole| notation::minutes(whole.totals.saw_time),
            notation::minutes(more.saw_time),
        ),
        line(
            text!("Spend"),
            &|whole| money(whole.totals.spend()),
            money(more.spend()),
        ),
        line(
            text!("By-products, credited"),
            &|whole| money(whole.totals.by_products),
            money(more.by_products),
        ),
        line(
            text!("Sales"),
            &|whole| money(whole.totals.sales),
            money(more.sales),
        ),
        line(
            text!("Left over"),
            &|whole| money(whole.reading.profit),
            money(more.profit()),
        ),
        line(
            text!("Margin"),
            &|whole| percent(whole.reading.margin),
            percent(comparison.margin),
        ),
        line(
            &say!("Walk-away {per}", question.per()),
            &|whole| question.bare_offer(whole.reading.walk_away),
            question.bare_price(Some(comparison.walk_away)),
        ),
    ];
    let heads = ["", names[0], names[1], "±"].map(str::to_owned);
    let caption = say!(
        "{first} and {second}, the side as a whole",
        names[0],
        names[1]
    );
    Block::Table(caption, heads.into(), rows)
}

fn cuts(question: &Question, comparison: &Comparison, names: [&str; 2]) -> Block {
    let per = question.per();
    let weight = question.weight_unit();
    let heads = vec![
        text!("Cut").to_owned(),
        format!("{} {weight}", names[0]),
        format!("{} {weight}", names[1]),
        say!("{name} cost {per}", names[0], per),
        say!("{name} cost {per}", names[1], per),
        say!("{plan} sales", names[0]),
        say!("{plan} sales", names[1]),
        text!("Sales ±").to_owned(),
    ];
    let rows = comparison
        .rows
        .iter()
        .map(|row| {
            let dash = || "–".to_owned();
            let [first, second] = [&row.first, &row.second].map(Option::as_ref);
            let mass = |of: Option<&pricing::Row>| {
                of.map_or_else(dash, |row| notation::mass(row.weight, question.units))
            };
            let cost = |of: Option<&pricing::Row>| {
                question.bare_price(of.and_then(|row| row.cost_per_mass))
            };
            let sales = |of: Option<&pricing::Row>| of.map_or_else(dash, |row| money(row.sales));
            vec![
                question.name(row.product),
                mass(first),
                mass(second),
                cost(first),
                cost(second),
                sales(first),
                sales(second),
                money(row.difference().sales),
            ]
        })
        .collect();
    let caption = say!("{first} and {second}, cut by cut", names[0], names[1]);
    Block::FoldedTable(caption, heads, rows)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use carcass::Catalogue;
    use draft::Field;
    use notation::Units;

    use super::*;
    use crate::wire;

    /// A side of so many kilograms at so much, as it is typed.
    fn side(weight: &str, price: &str) -> Draft {
        let mut draft = Draft::default();
        draft.type_into(Field::Weight, weight.to_owned());
        draft.type_into(Field::Price, price.to_owned());
        draft
    }

    fn told(entries: &[(String, String)]) -> Result<Vec<Block>, String> {
        let catalogue = Catalogue::published().expect("published data");
        let document = reading::read(&side("180", "8"), &catalogue).expect("a plan");
        let question = Question::about(&catalogue, &document, Units::Kilograms)?;
        let entries: BTreeMap<_, _> = entries.iter().cloned().collect();
        answer(&question, &mut Form::new(&entries, Units::Kilograms))
    }

    fn set(id: &str, value: &str) -> (String, String) {
        (id.to_owned(), value.to_owned())
    }

    #[test]
    fn a_saved_deal_keeps_its_own_price() {
        let dearer = wire::saved_entry("a", "Dearer", &side("180", "9"));
        let blocks = told(&[dearer, set("other", "saved.a")]).expect("an answer");
        let Block::Text(_, finding) = &blocks[0] else {
            panic!("no finding")
        };
        // 180 kg at 1.00 more each.
        assert_eq!(finding, "Dearer leaves $180.00 less than this plan.");
    }

    #[test]
    fn any_two_saved_deals_stand_side_by_side() {
        let entries = [
            wire::saved_entry("a", "Dearer", &side("180", "9")),
            wire::saved_entry("b", "Dearest", &side("180", "9.5")),
            set("first", "saved.b"),
            set("other", "saved.a"),
        ];
        let blocks = told(&entries).expect("an answer");
        let Block::Text(_, finding) = &blocks[0] else {
            panic!("no finding")
        };
        assert_eq!(finding, "Dearer leaves $90.00 more than Dearest.");
        let Block::Table(_, heads, _) = &blocks[1] else {
            panic!("no table")
        };
        assert_eq!(heads[1..3], ["Dearest", "Dearer"]);
        let same = told(&[set("first", "this"), set("other", "this")]).expect("an answer");
        assert!(matches!(&same[0], Block::Text(_, text) if text == "Both come to the same."));
    }

    #[test]
    fn a_saved_plan_that_lacks_something_says_so() {
        let empty = wire::saved_entry("a", "Half typed", &Draft::default());
        let why = told(&[empty, set("other", "saved.a")]).expect_err("no price");
        assert!(
            why.starts_with("“Half typed” cannot be worked out"),
            "{why}"
        );
    }
}
