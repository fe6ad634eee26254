//! What is typed of a bought-in piece, and what of it can be read.

use std::collections::BTreeMap;

use notation::Units;
use quantity::{Mass, MassUnit, Money, UnitPrice, typed};
use scale::{BoughtPiece, OtherPart};

use crate::entries::Entries;
use crate::visit::Visit;

/// Before the names of its fields.
pub(crate) const BOUGHT: &str = "at.bought.";

/// The entry of the weight as bought.
pub(crate) const WEIGHT: &str = "at.bought.weight";
/// The entry of the price paid.
pub(crate) const PRICE: &str = "at.bought.price";
/// The entry of the weight that can be used.
pub(crate) const USABLE: &str = "at.bought.usable";
/// The entry of what a portion weighs.
pub(crate) const PORTION: &str = "at.bought.portion";
/// The entry of another price of the supplier's.
pub(crate) const NEW_PRICE: &str = "at.bought.new-price";

/// So many other parts a piece has at most.
const MOST_PARTS: usize = 12;

/// The longest name of a part or a piece, in characters.
pub(crate) const LONGEST: usize = 80;

/// The fields of an other part: its name, its weight, what a weight of it is
/// worth.
pub(crate) fn part_names(place: usize) -> [String; 3] {
    ["part", "part-weight", "part-value"].map(|of| format!("{BOUGHT}{of}.{place}"))
}

/// The entry of the units in which the first of the others was typed.
const UNITS: &str = "at.bought.units";

/// Between the weighings in a field.
pub(crate) const PLUS: char = '+';

/// The units in which the piece is typed: they stay when others come in force, so
/// that no amount becomes another.
pub(crate) fn units(visit: &Visit) -> Units {
    units_of(&visit.entries, visit.units)
}

fn units_of(entries: &Entries, in_force: Units) -> Units {
    match entries.text(UNITS) {
        "" => in_force,
        symbol => Units::from_symbol(symbol),
    }
}

/// Holds to the units in force from the first amount on, until all are gone.
pub(crate) fn keep_units(visit: &mut Visit) {
    if is_any(&visit.entries) {
        let kept = units(visit).mass().symbol();
        visit.entries.set(UNITS, kept);
    } else {
        visit.entries.clear(UNITS);
    }
}

/// Whether anything is typed.
pub(crate) fn is_any(entries: &Entries) -> bool {
    let mut fields = entries.under(BOUGHT);
    fields.any(|(name, text)| name != UNITS && !text.trim().is_empty())
}

/// The unit in which a portion is weighed.
pub(crate) fn portion_unit(units: Units) -> MassUnit {
    match units {
        Units::Kilograms => MassUnit::Gram,
        Units::Pounds => MassUnit::Ounce,
    }
}

/// What is typed, as far as it can be read, and what is wrong with the rest.
pub(crate) struct Typed {
    /// The weight as bought.
    pub(crate) bought: Option<Mass>,
    /// The price paid.
    pub(crate) price: Option<UnitPrice>,
    /// What can be used.
    pub(crate) usable: Option<Mass>,
    /// What a portion weighs.
    pub(crate) portion: Option<Mass>,
    /// Another price of the supplier's.
    pub(crate) new_price: Option<UnitPrice>,
    /// What comes off, where it has a weight.
    pub(crate) others: Vec<OtherPart>,
    /// What is wrong, by the field.
    pub(crate) faults: BTreeMap<String, String>,
}

impl Typed {
    /// What stands in the fields.
    pub(crate) fn of(visit: &Visit) -> Self {
        Self::of_fields(&visit.entries, visit.units)
    }

    /// What stands in these fields, typed in the units in force where they hold to
    /// none.
    pub(crate) fn of_fields(entries: &Entries, in_force: Units) -> Self {
        let mut faults = BTreeMap::new();
        let units = units_of(entries, in_force);
        let mass = |faults: &mut BTreeMap<String, String>, name: &str, unit: MassUnit| {
            read(entries, faults, name, |text| summed(text, unit))
        };
        let price = |faults: &mut BTreeMap<String, String>, name: &str| {
            read(entries, faults, name, |text| {
                Ok(typed::unit_price(text, units.price())?.0)
            })
        };
        let bought = mass(&mut faults, WEIGHT, units.mass());
        let usable = mass(&mut faults, USABLE, units.mass());
        let portion = mass(&mut faults, PORTION, portion_unit(units));
        let paid = price(&mut faults, PRICE);
        let new_price = price(&mut faults, NEW_PRICE);
        let mut others = Vec::new();
        for place in 0..MOST_PARTS {
            let [name, weight, value] = part_names(place);
            let Some(weight) = mass(&mut faults, &weight, units.mass()) else {
                continue;
            };
            // One whose removal costs has a value below nothing.
            let is_cost = entries.text(&value).starts_with(['-', '−']);
            let worth = read(entries, &mut faults, &value, |text| {
                let text = text.trim_start_matches(['-', '−']);
                Ok(typed::unit_price(text, units.price())?.0)
            });
            let worth = worth.map_or(Money::ZERO, |worth| worth * weight);
            let name = entries.text(&name);
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
    pub(crate) fn piece(&self) -> Option<BoughtPiece> {
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
    entries: &Entries,
    faults: &mut BTreeMap<String, String>,
    name: &str,
    of: impl Fn(&str) -> Result<T, typed::TypedError>,
) -> Option<T> {
    let text = entries.text(name);
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

/// The weighings of a field, one after the other as they were added.
pub(crate) fn weighings(text: &str) -> impl Iterator<Item = &str> {
    let all = text.split(PLUS).map(str::trim);
    all.filter(|weighing| !weighing.is_empty())
}

/// The weighings of a field together.
pub(crate) fn summed(text: &str, unit: MassUnit) -> Result<Mass, typed::TypedError> {
    let all = weighings(text);
    all.map(|weighing| Ok(typed::mass(weighing, unit)?.0)).sum()
}

/// How many rows of other parts are shown: those that are filled in and one more.
pub(crate) fn rows(visit: &Visit) -> usize {
    let is_filled = |place: &usize| {
        let names = part_names(*place);
        names
            .iter()
            .any(|name| !visit.entries.text(name).is_empty())
    };
    let filled = (0..MOST_PARTS).rev().find(is_filled);
    filled.map_or(1, |last| (last + 2).min(MOST_PARTS))
}
