//! The views of the place, and the way between them.

use advice::steps::Steps;
use wording::{key, text};

use crate::controls::button;
use crate::visit::Visit;

/// What of the ledger is in sight.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum View {
    /// The weigh-in.
    #[default]
    WeighIn,
    /// Closed tests and their reports.
    Tests,
    /// The shop's own yields.
    Yields,
    /// Suppliers, farms, stock, seasons.
    Standing,
    /// Lots, grinding log, files.
    Record,
    /// A bought-in piece.
    Bought,
}

/// The entry that holds the view.
pub(crate) const VIEW: &str = "view";

/// Before a view that is asked for.
pub(crate) const GO: &str = "view ";

impl View {
    /// Every view, in the order in which they are offered.
    pub(crate) const ALL: [Self; 6] = [
        Self::WeighIn,
        Self::Tests,
        Self::Yields,
        Self::Standing,
        Self::Record,
        Self::Bought,
    ];

    /// Its id.
    pub(crate) const fn id(self) -> &'static str {
        match self {
            Self::WeighIn => "weigh-in",
            Self::Tests => "tests",
            Self::Yields => "yields",
            Self::Standing => "standing",
            Self::Record => "record",
            Self::Bought => "bought",
        }
    }

    fn name(self) -> &'static str {
        let name = match self {
            Self::WeighIn => key!("Weigh-in"),
            Self::Tests => key!("Cutting tests"),
            Self::Yields => key!("Own yields"),
            Self::Standing => key!("Suppliers"),
            Self::Record => key!("Record"),
            Self::Bought => key!("Bought piece"),
        };
        name.said()
    }

    /// The view that is in sight.
    pub(crate) fn of(visit: &Visit) -> Self {
        let id = visit.entries.text(VIEW);
        let view = Self::ALL.into_iter().find(|view| view.id() == id);
        view.unwrap_or_default()
    }
}

/// The way between the views.
pub(crate) fn ways(steps: &mut Steps, open: View) {
    let marks = [
        ("class", "views"),
        ("role", "group"),
        ("aria-label", text!("What the scale says")),
    ];
    steps.element("div", &marks, |steps| {
        for view in View::ALL {
            let class = if view == open { "view is-open" } else { "view" };
            button(steps, class, &format!("{GO}{}", view.id()), view.name());
        }
    });
}
