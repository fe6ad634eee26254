//! How much of a draft goes into a link.

use wording::text;

/// How much goes in, each with all that the one before has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Scope {
    /// The cut plan.
    Plan,
    /// And the deal: weight, price, charges, stock.
    Deal,
    /// And what the work, the packaging and the losses cost the shop.
    Costs,
    /// And the shop's own prices.
    Prices,
}

/// Names of the plan, or what they begin with.
const PLAN: [&str; 9] = [
    "way.",
    "second-way.",
    "draft.plan",
    "draft.grind-with-fat",
    "grind-margin",
    "split-",
    "ageing-",
    "rendering-yield-",
    "grind-",
];

/// Names of the deal, or what they begin with.
const DEAL: [&str; 18] = [
    "draft.currency",
    "draft.basis",
    "draft.grass-percent",
    "draft.stock-from",
    "draft.age",
    "sides",
    "side-",
    "shrink",
    "dressing",
    "kill",
    "haul",
    "cut-and-wrap",
    "rebate",
    "days-hung",
    "carcass-weight",
    "back-fat",
    "ribeye-area",
    "kidney-fat-share",
];

/// Names of the shop's costs, or what they begin with.
const COSTS: [&str; 15] = [
    "draft.counts-packs",
    "draft.method",
    "labour-",
    "on-cost",
    "overhead",
    "target-margin",
    "packaging",
    "pack-",
    "purge",
    "unsold",
    "marked-down",
    "discount",
    "minutes-",
    "unsold-",
    "marked-down-",
];

impl Scope {
    /// Every scope, the smallest first.
    pub const ALL: [Self; 4] = [Self::Plan, Self::Deal, Self::Costs, Self::Prices];

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Plan => text!("The cut plan alone"),
            Self::Deal => text!("The plan and the deal"),
            Self::Costs => text!("The plan, the deal and my costs"),
            Self::Prices => text!("All of it, my prices too"),
        }
    }

    /// How it is written in a link.
    pub(crate) const fn byte(self) -> u8 {
        match self {
            Self::Plan => 1,
            Self::Deal => 2,
            Self::Costs => 3,
            Self::Prices => 4,
        }
    }

    pub(crate) fn of_byte(byte: u8) -> Option<Self> {
        Self::ALL.into_iter().find(|scope| scope.byte() == byte)
    }

    /// Whether what is kept under a name goes in.
    pub fn takes(self, name: &str) -> bool {
        Self::of_name(name).is_some_and(|needed| needed <= self)
    }

    /// The smallest scope that takes a name in; `None` for what is no part of a
    /// draft but says how to read it or how to show it.
    fn of_name(name: &str) -> Option<Self> {
        let is_among = |names: &[&str]| {
            names.iter().any(|known| {
                name == *known || known.ends_with(['-', '.']) && name.starts_with(known)
            })
        };
        if matches!(name, "draft.version" | "draft.units") {
            None
        } else if is_among(&PLAN) {
            Some(Self::Plan)
        } else if is_among(&DEAL) {
            Some(Self::Deal)
        } else if is_among(&COSTS) {
            Some(Self::Costs)
        } else {
            Some(Self::Prices)
        }
    }
}
