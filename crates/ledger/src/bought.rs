//! A bought-in piece: what comes off it, what its usable weight costs, and what
//! another price of the supplier makes of that. All of it stands in the fields
//! and is worked out at each answer.

use std::collections::BTreeMap;

use advice::steps::Steps;
use advice::{Block, Figure, Tone, blocks};
use notation::{mass_with_unit, money, number, percent, price_with_unit};
use pricing::CuttingTest;
use quantity::{Mass, MassUnit, Money, Rounding, Share, UnitPrice, typed};
use scale::{BoughtPiece, OtherPart};
use wording::{say, text};

use crate::cautions::cautions;
use crate::controls::{Field, Takes, field_with, fold, heading, note, press_surely};
use crate::ledger::Ledger;
use crate::visit::{Done, Outcome, Visit};

/// Before the names of its fields.
const BOUGHT: &str = "at.bought.";

const WEIGHT: &str = "at.bought.weight";
const PRICE: &str = "at.bought.price";
const USABLE: &str = "at.bought.usable";
const PORTION: &str = "at.bought.portion";
const NEW_PRICE: &str = "at.bought.new-price";

/// So many other parts a piece has at most.
const MOST_PARTS: usize = 12;

/// The longest name of a part, in characters.
const LONGEST: usize = 80;

/// Cautions of the catalogue that belong beside a piece on the block.
const CAUTIONS: [&str; 3] = ["knife", "saw", "cold-chain"];

/// Clears the fields.
pub(crate) fn press(_: &mut Ledger, visit: &mut Visit, verb: &str, _: &str) -> Outcome {
    (verb == "clear-bought").then(|| {
        visit.entries.clear_under(BOUGHT);
        Ok(Done::Done)
    })
}

/// The fields of an other part: its name, its weight, what a weight of it is
/// worth.
fn part_names(place: usize) -> [String; 3] {
    ["part", "part-weight", "part-value"].map(|of| format!("{BOUGHT}{of}.{place}"))
}

/// What is typed, as far as it can be read, and what is wrong with the rest.
struct Typed {
    bought: Option<Mass>,
    price: Option<UnitPrice>,
    usable: Option<Mass>,
    portion: Option<Mass>,
    new_price: Option<UnitPrice>,
    others: Vec<OtherPart>,
    faults: BTreeMap<String, String>,
}

impl Typed {
    fn of(visit: &Visit) -> Self {
        let mut faults = BTreeMap::new();
        let units = visit.units;
        let mass = |faults: &mut BTreeMap<String, String>, name: &str, unit: MassUnit| {
            read(visit, faults, name, |text| Ok(typed::mass(text, unit)?.0))
        };
        let price = |faults: &mut BTreeMap<String, String>, name: &str| {
            read(visit, faults, name, |text| {
                Ok(typed::unit_price(text, units.price())?.0)
            })
        };
        let bought = mass(&mut faults, WEIGHT, units.mass());
        let usable = mass(&mut faults, USABLE, units.mass());
        let portion = mass(&mut faults, PORTION, MassUnit::Gram);
        let paid = price(&mut faults, PRICE);
        let new_price = price(&mut faults, NEW_PRICE);
        let mut others = Vec::new();
        for place in 0..MOST_PARTS {
            let [name, weight, value] = part_names(place);
            let Some(weight) = mass(&mut faults, &weight, units.mass()) else {
                continue;
            };
            // One whose removal costs has a value below nothing.
            let is_cost = visit.entries.text(&value).starts_with(['-', '−']);
            let worth = read(visit, &mut faults, &value, |text| {
                let text = text.trim_start_matches(['-', '−']);
                Ok(typed::unit_price(text, units.price())?.0)
            });
            let worth = worth.map_or(Money::ZERO, |worth| worth * weight);
            let name = visit.entries.text(&name);
            others.push(OtherPart {
                name: name.chars().take(LONGEST).collect(),
                weight,
                value: if is_cost { Money::ZERO - worth } else { worth },
            });
        }
        Self {
            bought,
            price: paid,
            usable,
            portion,
            new_price,
            others,
            faults,
        }
    }

    /// The piece, where nothing of it is missing or cannot be read.
    fn piece(&self) -> Option<BoughtPiece> {
        if !self.faults.is_empty() {
            return None;
        }
        let bought = self.bought.filter(|bought| bought.is_positive())?;
        Some(BoughtPiece {
            bought,
            price: self.price?,
            others: self.others.clone(),
            usable: self.usable?,
        })
    }
}

/// What stands in a field; nothing where it is empty or cannot be read, which is
/// then noted.
fn read<T>(
    visit: &Visit,
    faults: &mut BTreeMap<String, String>,
    name: &str,
    of: impl Fn(&str) -> Result<T, typed::TypedError>,
) -> Option<T> {
    let text = visit.entries.text(name);
    if text.is_empty() {
        return None;
    }
    match of(text) {
        Ok(read) => Some(read),
        Err(error) => {
            faults.insert(name.to_owned(), error.to_string());
            None
        }
    }
}

/// How many rows of other parts are shown: those that are filled in and one more.
fn rows(visit: &Visit) -> usize {
    let is_filled = |place: &usize| {
        let names = part_names(*place);
        names
            .iter()
            .any(|name| !visit.entries.text(name).is_empty())
    };
    let filled = (0..MOST_PARTS).rev().find(is_filled);
    filled.map_or(1, |last| (last + 2).min(MOST_PARTS))
}

/// The view.
pub(crate) fn written(ledger: &Ledger, visit: &Visit, steps: &mut Steps) {
    note(
        steps,
        text!(
            "The cutting test of one piece that is bought in, such as a boxed loin: what each usable weight costs once trim, bone and fat are off."
        ),
    );
    let typed = Typed::of(visit);
    fields(visit, &typed, steps);
    heading(steps, text!("What it comes to"));
    match typed.piece() {
        Some(piece) => answers(ledger, visit, &typed, &piece, steps),
        None => note(
            steps,
            text!("Fill in what was bought, its price and what can be used."),
        ),
    }
    cautions(ledger, &CAUTIONS, steps);
    press_surely(
        steps,
        visit,
        "clear-bought",
        [
            text!("Clear the fields"),
            text!("All that is typed for this piece is dropped."),
            text!("Keep it"),
        ],
    );
}

fn fields(visit: &Visit, typed: &Typed, steps: &mut Steps) {
    let weight = Takes::Number(visit.units.mass().symbol());
    let price = Takes::Number(visit.units.price().symbol());
    let grams = Takes::Number(MassUnit::Gram.symbol());
    let one = |steps: &mut Steps, (name, label): (&str, &str), takes, note| {
        let about = Field {
            name,
            label,
            takes,
            usual: "",
            note,
        };
        field_with(steps, visit, &about, typed.faults.get(name));
    };
    steps.element("div", &[("class", "pair")], |steps| {
        one(steps, (WEIGHT, text!("Weight as bought")), weight, "");
        one(steps, (PRICE, text!("Price paid")), price, "");
    });
    heading(steps, text!("What comes off"));
    for place in 0..rows(visit) {
        let [name, part_weight, value] = part_names(place);
        let key = place.to_string();
        let marks = [("class", "pair"), ("key", key.as_str())];
        steps.element("div", &marks, |steps| {
            let number = place + 1;
            let label = say!("Part {number}", number);
            let examples = text!("Trim, bone, fat, a loss.");
            one(steps, (&name, &label), Takes::Words, examples);
            let label = say!("Weight of part {number}", number);
            one(steps, (&part_weight, &label), weight, "");
            let label = say!("Value of part {number}", number);
            let about = text!("Empty: nothing. Below nothing where its removal costs.");
            one(steps, (&value, &label), price, about);
        });
    }
    heading(steps, text!("What can be used"));
    steps.element("div", &[("class", "pair")], |steps| {
        one(steps, (USABLE, text!("Usable weight")), weight, "");
        let about = text!("Empty: no portions.");
        one(steps, (PORTION, text!("A portion weighs")), grams, about);
    });
    let about = text!("Where the supplier's price moves.");
    one(steps, (NEW_PRICE, text!("New price")), price, about);
}

fn answers(ledger: &Ledger, visit: &Visit, typed: &Typed, piece: &BoughtPiece, steps: &mut Steps) {
    let tolerance = ledger.settings.tolerance;
    let mut all = vec![balance(piece, tolerance, visit)];
    let test = piece.test();
    all.push(match figures(&test, typed, piece, visit) {
        Some(figures) => Block::Figures(figures),
        None => Block::Text(
            Tone::Trouble,
            text!("Nothing of it can be used: its cost has nothing to rest on.").to_owned(),
        ),
    });
    all.push(parts(piece, visit));
    steps.raw(&blocks(&all));
    fold(
        steps,
        "formula",
        text!("How it is worked out, and after whom"),
        |steps| {
            for text in [
                text!(
                    "value of the usable part = cost − value of what comes off; cost per usable weight = that ÷ usable weight"
                ),
                text!(
                    "cost factor = cost per usable weight ÷ price paid; at a new price: factor × new price, as long as trim and bone keep their relation to it"
                ),
                text!(
                    "Dittmer & Keefe, Principles of Food, Beverage and Labor Cost Controls, ch. 6."
                ),
            ] {
                note(steps, text);
            }
        },
    );
}

/// What was bought against what came back on the scale.
fn balance(piece: &BoughtPiece, tolerance: Share, visit: &Visit) -> Block {
    let difference = piece.difference();
    let off = mass_with_unit(Mass::from_kg(difference.kg().abs()), visit.units);
    let allowed = percent(tolerance);
    let is_within = piece.is_within(tolerance);
    let said = if difference.is_zero() {
        text!("The parts weigh exactly what was bought.").to_owned()
    } else if difference < Mass::ZERO {
        if is_within {
            say!(
                "The parts weigh {off} more than was bought: within {allowed}.",
                off,
                allowed
            )
        } else {
            say!(
                "The parts weigh {off} more than was bought: beyond {allowed}. Weigh again.",
                off,
                allowed
            )
        }
    } else if is_within {
        say!(
            "{off} of what was bought is missing: within {allowed}. It counts as loss.",
            off,
            allowed
        )
    } else {
        say!(
            "{off} of what was bought is missing: beyond {allowed}. Weigh again, or name what was lost.",
            off,
            allowed
        )
    };
    let tone = if is_within { Tone::Note } else { Tone::Trouble };
    Block::Text(tone, said)
}

fn figure(label: &str, text: String, beside: String) -> Figure {
    Figure {
        label: label.to_owned(),
        text,
        beside,
    }
}

/// What it comes to; `None` where nothing can be used.
fn figures(
    test: &CuttingTest,
    typed: &Typed,
    piece: &BoughtPiece,
    visit: &Visit,
) -> Option<Vec<Figure>> {
    let unit = visit.units.price();
    let price = |price: UnitPrice| price_with_unit(price, unit, Rounding::HalfEven);
    let per_usable = test.cost_per_usable()?;
    let share = test.usable_share(piece.bought).map(percent);
    let mut all = vec![
        figure(
            text!("Cost per usable weight"),
            price(per_usable),
            say!("bought at {price}", price(test.price)),
        ),
        figure(
            text!("Usable share"),
            share.unwrap_or_default(),
            mass_with_unit(piece.usable, visit.units),
        ),
        figure(
            text!("Cost of the piece"),
            money(test.cost),
            say!("{value} in what can be used", money(test.usable_value())),
        ),
    ];
    if let Some(factor) = test.cost_factor() {
        all.push(figure(
            text!("Cost factor"),
            number(factor, 4, Rounding::HalfEven),
            text!("times the price paid").to_owned(),
        ));
    }
    let portion = typed.portion.filter(|portion| portion.is_positive());
    if let Some(cost) = portion.and_then(|portion| test.portion_cost(portion)) {
        let factor = portion.and_then(|portion| test.portion_factor(portion, visit.units.mass()));
        all.push(figure(
            text!("Cost of a portion"),
            money(cost),
            factor.map_or_else(String::new, |factor| {
                let factor = number(factor, 4, Rounding::HalfEven);
                say!("portion factor {factor}", factor)
            }),
        ));
    }
    if let Some(new_price) = typed.new_price
        && let Some(repriced) = test.repriced(new_price)
    {
        all.push(figure(
            text!("Cost per usable weight at the new price"),
            price(repriced),
            say!("bought at {price}", price(new_price)),
        ));
        if let Some(portion) = portion
            && let Some(cost) = test.repriced_portion(new_price, portion)
        {
            let label = text!("A portion at the new price");
            all.push(figure(label, money(cost), String::new()));
        }
    }
    Some(all)
}

/// Every part with its weight, its share and what it is worth.
fn parts(piece: &BoughtPiece, visit: &Visit) -> Block {
    let heads = [
        text!("Part"),
        text!("Weight"),
        text!("Share of what was bought"),
        text!("Value"),
    ];
    let share = |weight: Mass| piece.share_of(weight).map_or_else(String::new, percent);
    let row = |name: String, weight: Mass, value: Money| {
        vec![
            name,
            mass_with_unit(weight, visit.units),
            share(weight),
            money(value),
        ]
    };
    let mut rows: Vec<Vec<String>> = Vec::new();
    for (place, part) in piece.others.iter().enumerate() {
        let name = if part.name.is_empty() {
            say!("Part {number}", place + 1)
        } else {
            part.name.clone()
        };
        rows.push(row(name, part.weight, part.value));
    }
    let usable_value = piece.test().usable_value();
    rows.push(row(text!("Usable").to_owned(), piece.usable, usable_value));
    Block::Table(
        text!("Part by part").to_owned(),
        heads.map(str::to_owned).to_vec(),
        rows,
    )
}
