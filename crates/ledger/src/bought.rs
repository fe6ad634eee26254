//! A bought-in piece: what comes off it, what its usable weight costs, and what
//! another price of the supplier makes of that. All of it stands in the fields
//! and is worked out at each answer; it can be kept by a name.

use advice::steps::Steps;
use advice::{Block, Figure, Tone, blocks};
use notation::{mass_with_unit, money, number, percent, price_with_unit};
use pricing::CuttingTest;
use quantity::{Mass, Money, Rounding, Share, UnitPrice};
use scale::BoughtPiece;
use wording::{say, text};

use crate::bought_entries::{
    BOUGHT, NEW_PRICE, PLUS, PORTION, PRICE, Typed, USABLE, WEIGHT, part_names, portion_unit, rows,
    summed, units, weighings,
};
use crate::bought_kept;
use crate::cautions::cautions;
use crate::controls::{Field, Takes, button_named, button_surely, field_with, fold, heading, note};
use crate::ledger::Ledger;
use crate::visit::{Done, Outcome, Visit};

/// Cautions of the catalogue that belong beside a piece on the block.
const CAUTIONS: [&str; 3] = ["knife", "saw", "cold-chain"];

/// Does what is asked about the piece that is typed, or about those that are kept.
pub(crate) fn press(ledger: &mut Ledger, visit: &mut Visit, verb: &str, about: &str) -> Outcome {
    match verb {
        "clear-bought" => {
            visit.entries.clear_under(BOUGHT);
            bought_kept::clear(visit);
        }
        "add-bought" if about.starts_with(BOUGHT) => {
            let so_far = visit.entries.text(about).to_owned();
            visit.entries.set(about, &format!("{so_far} {PLUS} "));
        }
        _ => return bought_kept::press(ledger, visit, verb, about),
    }
    Some(Ok(Done::Shown))
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
        Some(piece) => {
            answers(ledger, visit, &typed, &piece, steps);
            bought_kept::keeping(ledger, visit, steps);
        }
        None => note(
            steps,
            text!("Fill in what was bought, its price and what can be used."),
        ),
    }
    cautions(ledger, &CAUTIONS, steps);
    button_surely(
        steps,
        visit,
        "clear-bought",
        [
            text!("Clear the fields"),
            text!("All that is typed for this piece is dropped."),
            text!("Keep it"),
        ],
    );
    bought_kept::written(ledger, visit, steps);
}

fn fields(visit: &Visit, typed: &Typed, steps: &mut Steps) {
    let weight = Takes::Number(units(visit).mass().symbol());
    let price = Takes::Number(units(visit).price().symbol());
    let small = Takes::Number(portion_unit(units(visit)).symbol());
    let one = |steps: &mut Steps, (name, label): (&str, &str), takes, note: &str| {
        let about = Field {
            name,
            label,
            takes,
            usual: "",
            note,
        };
        field_with(steps, visit, &about, typed.faults.get(name));
    };
    // What is too much for the scale at once is weighed in trays that add up.
    let weighed = |steps: &mut Steps, (name, label): (&str, &str)| {
        let text = visit.entries.text(name);
        let sum = match (summed(text, units(visit).mass()), weighings(text).count()) {
            (Ok(sum), count @ 2..) => {
                say!(
                    "{sum} in {count} weighings",
                    mass_with_unit(sum, units(visit)),
                    count
                )
            }
            _ => String::new(),
        };
        steps.element("div", &[("key", name)], |steps| {
            one(steps, (name, label), weight, &sum);
            if text.is_empty() || text.ends_with(PLUS) || typed.faults.contains_key(name) {
                steps.nothing();
            } else {
                let add = format!("add-bought {name}");
                let said = say!("Add a weighing: {label}", label);
                button_named(steps, "quiet", &add, text!("Add a weighing"), &said);
            }
        });
    };
    steps.element("div", &[("class", "pair")], |steps| {
        weighed(steps, (WEIGHT, text!("Weight as bought")));
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
            weighed(steps, (&part_weight, &label));
            let label = say!("Value of part {number}", number);
            let about = text!("Empty: nothing. Below nothing where its removal costs.");
            one(steps, (&value, &label), price, about);
        });
    }
    heading(steps, text!("What can be used"));
    steps.element("div", &[("class", "pair")], |steps| {
        weighed(steps, (USABLE, text!("Usable weight")));
        let about = text!("Empty: no portions.");
        one(steps, (PORTION, text!("A portion weighs")), small, about);
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
    let off = mass_with_unit(Mass::from_kg(difference.kg().abs()), units(visit));
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
    let unit = units(visit).price();
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
            mass_with_unit(piece.usable, units(visit)),
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
        let factor = portion.and_then(|portion| test.portion_factor(portion, units(visit).mass()));
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
            mass_with_unit(weight, units(visit)),
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
