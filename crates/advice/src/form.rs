//! What was typed into a panel, read; and what can be set in it, to be shown
//! again. What cannot be read is named at its control, and the plan's own
//! figure is taken in its place.

use std::collections::BTreeMap;

use draft::Draft;
use notation::Units;
use quantity::{Decimal, LabourRate, Mass, Minutes, Money, Share, TypedError, UnitPrice, typed};

use crate::answer::{Control, ControlKind};
use crate::wire;

/// A panel's controls as they are read, one after the other.
pub struct Form<'a> {
    entries: &'a BTreeMap<String, String>,
    units: Units,
    controls: Vec<Control>,
}

/// What a control is called and what it is.
#[derive(Clone, Copy)]
pub struct Label<'a> {
    /// Its id.
    pub id: &'a str,
    /// Its name.
    pub name: &'a str,
    /// What it is, in one line.
    pub hint: &'a str,
}

/// How far a slider reaches to both sides of the plan's figure.
#[derive(Clone, Copy)]
pub enum Reach {
    /// No slider.
    None,
    /// By this share of the figure.
    Share(i64),
    /// From one number to another.
    FromTo(i64, i64),
}

impl<'a> Form<'a> {
    /// A form of what was typed, in the units in force.
    pub fn new(entries: &'a BTreeMap<String, String>, units: Units) -> Self {
        Self {
            entries,
            units,
            controls: Vec::new(),
        }
    }

    /// What was read, ready to be shown again.
    pub fn into_controls(self) -> Vec<Control> {
        self.controls
    }

    /// Reads on without showing the controls again, unless `is_shown`.
    pub fn shown<T>(&mut self, is_shown: bool, read: impl FnOnce(&mut Self) -> T) -> T {
        let before = self.controls.len();
        let read = read(self);
        if !is_shown {
            self.controls.truncate(before);
        }
        read
    }

    /// Whether something was typed into a control that could be read.
    pub fn is_set(&self, id: &str) -> bool {
        self.entries.contains_key(id)
            && self
                .controls
                .iter()
                .any(|control| control.id == id && control.fault.is_none())
    }

    /// The saved plans that came along, each with the id of its entry and its
    /// name, by name.
    pub fn saved(&self) -> Vec<(&'a str, &'a str, Draft)> {
        let mut saved: Vec<_> = self
            .entries
            .iter()
            .filter(|(id, _)| id.starts_with(wire::SAVED))
            .filter_map(|(id, entry)| {
                let (name, draft) = entry.split_once('\n')?;
                Some((id.as_str(), name, Draft::of_text(draft)?))
            })
            .collect();
        saved.sort_by_key(|(_, name, _)| name.to_lowercase());
        saved
    }

    /// A price of the units in force.
    pub fn price(&mut self, label: Label, plan: UnitPrice, reach: Reach) -> UnitPrice {
        let unit = self.units.price();
        let number = plan.in_unit(unit);
        self.read(label, unit.symbol(), (number, 2), reach, |text| {
            typed::unit_price(text, unit).map(|(price, _)| price)
        })
        .unwrap_or(plan)
    }

    /// A weight in the units in force.
    pub fn mass(&mut self, label: Label, plan: Mass, reach: Reach) -> Mass {
        let unit = self.units.mass();
        let number = plan.in_unit(unit);
        self.read(label, unit.symbol(), (number, 2), reach, |text| {
            typed::mass(text, unit).map(|(mass, _)| mass)
        })
        .unwrap_or(plan)
    }

    /// A share in percent.
    pub fn percent(&mut self, label: Label, plan: Share, reach: Reach) -> Share {
        self.read(label, "%", (plan.percent(), 2), reach, typed::percent)
            .unwrap_or(plan)
    }

    /// A change in percent or percentage points, which may be below zero.
    pub fn change(&mut self, label: Label, unit: &str, plan: Share, reach: Reach) -> Share {
        self.read(label, unit, (plan.percent(), 2), reach, |text| {
            match text.trim().strip_prefix(['-', '−']) {
                Some(less) => typed::percent(less).map(|share| Share::ZERO - share),
                None => typed::percent(text.trim().trim_start_matches('+')),
            }
        })
        .unwrap_or(plan)
    }

    /// Money.
    pub fn money(&mut self, label: Label, plan: Money, reach: Reach) -> Money {
        self.read(
            label,
            &notation::currency(),
            (plan.units(), 2),
            reach,
            typed::money,
        )
        .unwrap_or(plan)
    }

    /// Minutes.
    pub fn minutes(&mut self, label: Label, plan: Minutes, reach: Reach) -> Minutes {
        self.read(label, "min", (plan.minutes(), 0), reach, typed::minutes)
            .unwrap_or(plan)
    }

    /// Minutes, where some are typed.
    pub fn optional_minutes(&mut self, label: Label) -> Option<Minutes> {
        self.optional(label, "min", typed::minutes)
    }

    /// A weight in the units in force, where one is typed.
    pub fn optional_mass(&mut self, label: Label) -> Option<Mass> {
        let unit = self.units.mass();
        self.optional(label, unit.symbol(), |text| {
            typed::mass(text, unit).map(|(mass, _)| mass)
        })
    }

    /// Money for an hour of work.
    pub fn rate(&mut self, label: Label, plan: LabourRate, reach: Reach) -> LabourRate {
        self.read(
            label,
            &format!("{}/h", notation::currency()),
            (plan.per_hour(), 2),
            reach,
            typed::labour_rate,
        )
        .unwrap_or(plan)
    }

    /// One of a few, each a value and its name; the first unless another is
    /// chosen.
    pub fn choice(&mut self, label: Label, choices: Vec<(String, String)>) -> String {
        let typed = self.entries.get(label.id);
        let chosen = choices
            .iter()
            .find(|(value, _)| Some(value) == typed)
            .or_else(|| choices.first())
            .map(|(value, _)| value.clone())
            .unwrap_or_default();
        self.push(
            label,
            "",
            chosen.clone(),
            None,
            ControlKind::Choice(choices),
        );
        chosen
    }

    /// What was typed, where it can be read.
    fn read<T>(
        &mut self,
        label: Label,
        unit: &str,
        (plan, places): (Decimal, u32),
        reach: Reach,
        read: impl Fn(&str) -> Result<T, TypedError>,
    ) -> Option<T> {
        let (value, fault) = self.typed(label.id, read);
        let text = notation::in_field(plan, places);
        self.push(label, unit, text, fault, slider(plan, places, reach));
        value
    }

    /// What was typed into a control that stands empty until then.
    fn optional<T>(
        &mut self,
        label: Label,
        unit: &str,
        read: impl Fn(&str) -> Result<T, TypedError>,
    ) -> Option<T> {
        let (value, fault) = self.typed(label.id, read);
        self.push(label, unit, String::new(), fault, ControlKind::Typed);
        value
    }

    /// What was typed, or why it cannot be read; nothing typed is no fault.
    fn typed<T>(
        &self,
        id: &str,
        read: impl Fn(&str) -> Result<T, TypedError>,
    ) -> (Option<T>, Option<String>) {
        let text = self.entries.get(id).filter(|text| !text.trim().is_empty());
        match text.map(|text| read(text)) {
            None => (None, None),
            Some(Ok(value)) => (Some(value), None),
            Some(Err(error)) => (None, Some(error.to_string())),
        }
    }

    fn push(
        &mut self,
        label: Label,
        unit: &str,
        text: String,
        fault: Option<String>,
        kind: ControlKind,
    ) {
        self.controls.push(Control {
            id: label.id.to_owned(),
            label: label.name.to_owned(),
            unit: unit.to_owned(),
            text,
            hint: label.hint.to_owned(),
            fault,
            kind,
        });
    }
}

/// A slider about the plan's figure.
fn slider(plan: Decimal, places: u32, reach: Reach) -> ControlKind {
    let hundredth = Decimal::new(1, 2);
    let (low, high) = match reach {
        Reach::None => return ControlKind::Typed,
        Reach::Share(percent) => {
            let reach = (plan * Decimal::from(percent) * hundredth).round_dp(places);
            (plan - reach, plan + reach)
        }
        Reach::FromTo(low, high) => (Decimal::from(low), Decimal::from(high)),
    };
    let step = ((high - low) * hundredth).round_dp(places);
    let finest = Decimal::new(1, places);
    let texts = [low, high, step.max(finest)].map(|number| notation::plain(number, places));
    ControlKind::Slider(texts)
}
