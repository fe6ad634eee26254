//! The state of the app and all that can happen to it.

use std::rc::Rc;
use wording::{key, say};

use carcass::Catalogue;
use document::format::{AgeForm, RoundToForm, StockFromForm};
use document::{Document, Resolved};
use pricing::{CostSheet, price_side};
use yew::Reducible;

use crate::history::{History, Stretch};
use draft::reading::{self, Faults};
use draft::{Basis, Currency, Draft, Field, Units};

/// The places of the app.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Place {
    /// The deal.
    #[default]
    Side,
    /// The plan.
    Cuts,
    /// The sheet and the board.
    Prices,
    /// What moves the answer.
    WhatIf,
    /// What sides weighed, and what is learnt from it.
    Scale,
    /// Plans kept by name.
    Saved,
}

impl Place {
    /// Every place, in the order they are offered.
    pub const ALL: [Self; 6] = [
        Self::Side,
        Self::Cuts,
        Self::Prices,
        Self::WhatIf,
        Self::Scale,
        Self::Saved,
    ];

    /// Its name.
    pub fn name(self) -> &'static str {
        let name = match self {
            Self::Side => key!("Side|the place"),
            Self::Cuts => key!("Cuts"),
            Self::Prices => key!("Prices"),
            Self::WhatIf => key!("What if"),
            Self::Scale => key!("Scale|the place"),
            Self::Saved => key!("Saved"),
        };
        name.said()
    }

    /// Its id in the page.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Side => "place-side",
            Self::Cuts => "place-cuts",
            Self::Prices => "place-prices",
            Self::WhatIf => "place-what-if",
            Self::Scale => "place-scale",
            Self::Saved => "place-saved",
        }
    }
}

/// A plan that could be priced, with its figures.
#[derive(Debug)]
pub struct Priced {
    /// What was typed and chosen for them.
    pub draft: Rc<Draft>,
    /// The plan as it was computed with.
    pub resolved: Resolved,
    /// Its figures.
    pub sheet: CostSheet,
}

/// Figures shared with the components; two are the same when they are one.
#[derive(Clone, Debug)]
pub struct Figures(Rc<Priced>);

impl PartialEq for Figures {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl core::ops::Deref for Figures {
    type Target = Priced;
    fn deref(&self) -> &Priced {
        &self.0
    }
}

/// The catalogue, shared with the components.
#[derive(Clone, Debug)]
pub struct Data(Rc<Catalogue>);

impl Data {
    /// Shares a catalogue.
    pub fn new(catalogue: Catalogue) -> Self {
        Self(Rc::new(catalogue))
    }
}

impl PartialEq for Data {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl core::ops::Deref for Data {
    type Target = Catalogue;
    fn deref(&self) -> &Catalogue {
        &self.0
    }
}

/// What can happen.
#[derive(Clone, Debug)]
pub enum Action {
    /// Something was typed into a field.
    Type(Field, String),
    /// A field goes back to its sample or estimate.
    Forget(Field),
    /// The units were switched.
    SwitchUnits(Units),
    /// The stock control was moved: percent of the way to grass-fed.
    MoveStock(u8),
    /// What the priced weight is a weight of.
    ChooseBasis(Basis),
    /// A named plan was chosen; ways chosen before are dropped.
    ChoosePlan(String),
    /// A way was chosen for a part: part id, way id.
    ChooseWay(String, String),
    /// A second way was chosen to share a part, or none: part id, way id.
    ChooseSecondWay(String, Option<String>),
    /// What says how the animal was finished was chosen.
    ChooseStockFrom(StockFromForm),
    /// Whether packaging is counted by the pack was chosen.
    CountPacks(bool),
    /// Whether fat trim may go into classes of grind was chosen.
    GrindWithFat(bool),
    /// The age of the animal was told.
    TellAge(AgeForm),
    /// Which neighbour suggested prices are rounded to was chosen.
    ChooseRounding(RoundToForm),
    /// Whether suggested prices end as asked per 100 g was chosen.
    RoundPer100g(bool),
    /// The method of dividing joint cost was chosen.
    ChooseMethod(document::format::MethodForm),
    /// The invented side is to be filled in.
    FillInSample,
    /// The currency of all amounts was chosen.
    ChooseCurrency(Currency),
    /// A new side is offered: weight, price and working time are dropped, the
    /// plan and the shop stay.
    NewSide,
    /// An offer was accepted: what it writes goes into the plan.
    TakeOver(String),
    /// The shop's own yields are others: parts, ways and products with them.
    LayOwn(Data),
    /// This paper is to be printed.
    Print(String),
    /// A saved plan was opened.
    OpenSaved(Rc<Draft>),
    /// All goes back to what it was a step before.
    Undo,
    /// All goes forth again to what it was before the last step back.
    Redo,
    /// Another place was opened.
    Open(Place),
}

/// The state of the app.
#[derive(Clone, Debug)]
pub struct State {
    /// Parts, ways, products, with the shop's own yields.
    pub data: Data,
    /// What was typed and chosen.
    pub draft: Rc<Draft>,
    /// The currency of a draft that names none.
    local_currency: Option<Currency>,
    /// The fields that cannot be read now.
    pub faults: Rc<Faults>,
    /// What is wrong beyond a single field.
    pub trouble: Option<String>,
    /// The last figures that could be worked out.
    pub figures: Option<Figures>,
    /// The way back and forth.
    pub history: Rc<History>,
    /// Whether the last step took over an offer.
    pub has_taken_over: bool,
    /// What stood here before a plan was opened in its place.
    pub replaced: Option<Rc<Draft>>,
    /// The paper that was printed last, as a piece of the page, until something is
    /// typed.
    pub paper: Rc<str>,
    /// The place that is open; where all are in sight, the one that is worked
    /// in.
    pub place: Place,
}

impl State {
    /// The state for a draft; `local_currency` is that of a draft which names
    /// none.
    pub fn new(data: Data, mut draft: Draft, local_currency: Option<Currency>) -> Self {
        draft.currency = draft.currency.or(local_currency);
        let state = Self {
            data,
            draft: Rc::new(draft),
            local_currency,
            faults: Rc::new(Faults::new()),
            trouble: None,
            figures: None,
            history: Rc::default(),
            has_taken_over: false,
            replaced: None,
            paper: Rc::default(),
            place: Place::default(),
        };
        state.worked_out()
    }

    /// Whether the figures shown belong to what is typed now.
    pub fn is_current(&self) -> bool {
        self.faults.is_empty() && self.trouble.is_none()
    }

    /// Works the figures out of the draft; keeps the last good ones where the
    /// draft cannot be read.
    fn worked_out(mut self) -> Self {
        self.trouble = None;
        match reading::read(&self.draft, &self.data) {
            Err(faults) => self.faults = Rc::new(faults),
            Ok(document) => {
                self.faults = Rc::new(Faults::new());
                match priced(&document, &self.draft, &self.data) {
                    Ok(priced) => self.figures = Some(Figures(Rc::new(priced))),
                    Err(trouble) => self.trouble = Some(trouble),
                }
            }
        }
        self
    }

    fn edited(&self, edit: impl FnOnce(&mut Draft)) -> Rc<Self> {
        self.stepped(None, edit)
    }

    /// Another draft takes the place of the one that is here.
    fn opened(&self, other: &Draft) -> Rc<Self> {
        let mut next = Self::clone(&self.edited(|draft| *draft = other.clone()));
        if next.draft != self.draft && !self.draft.is_untouched() {
            next.replaced = Some(Rc::clone(&self.draft));
        }
        Rc::new(next)
    }

    /// Edits the draft as one step of the history, or as more of the last.
    fn stepped(&self, stretch: Option<Stretch>, edit: impl FnOnce(&mut Draft)) -> Rc<Self> {
        let mut draft = Draft::clone(&self.draft);
        edit(&mut draft);
        draft.currency = draft.currency.or(self.local_currency);
        if draft == *self.draft {
            return Rc::new(self.clone());
        }
        let mut history = Rc::clone(&self.history);
        Rc::make_mut(&mut history).step(&self.draft, stretch);
        self.with_draft(Rc::new(draft), history)
    }

    /// Goes along the history, where there is a way.
    fn gone(&self, go: impl FnOnce(&mut History, &Rc<Draft>) -> Option<Rc<Draft>>) -> Rc<Self> {
        let mut history = Rc::clone(&self.history);
        match go(Rc::make_mut(&mut history), &self.draft) {
            Some(draft) => self.with_draft(draft, history),
            None => Rc::new(self.clone()),
        }
    }

    fn with_draft(&self, draft: Rc<Draft>, history: Rc<History>) -> Rc<Self> {
        let mut next = self.clone();
        next.draft = draft;
        next.history = history;
        next.has_taken_over = false;
        next.paper = Rc::default();
        Rc::new(next.worked_out())
    }
}

/// A draft worked out; nothing where something in it cannot be read or priced.
pub fn worked_out(data: &Data, draft: Draft) -> Option<Priced> {
    let document = reading::read(&draft, data).ok()?;
    priced(&document, &Rc::new(draft), data).ok()
}

fn priced(document: &Document, draft: &Rc<Draft>, data: &Data) -> Result<Priced, String> {
    // What can be typed is told at its field; the place is enough for what a draft from
    // elsewhere may hold besides, and spares the page all that a file can have wrong.
    let resolved = document.resolve(data).map_err(|error| {
        say!(
            "The plan cannot be priced: look over {place}.",
            error.place()
        )
    })?;
    let sheet = price_side(data, &resolved.deal, &resolved.plan, &resolved.shop)
        .map_err(|error| error.to_string())?;
    Ok(Priced {
        draft: Rc::clone(draft),
        resolved,
        sheet,
    })
}

impl Reducible for State {
    type Action = Action;

    fn reduce(self: Rc<Self>, action: Action) -> Rc<Self> {
        match action {
            Action::Type(field, text) => {
                let stretch = Stretch::Typing(field.clone());
                self.stepped(Some(stretch), |draft| draft.type_into(field, text))
            }
            Action::Forget(field) => self.edited(|draft| draft.forget(&field)),
            Action::SwitchUnits(units) => self.edited(|draft| draft.units = units),
            Action::MoveStock(percent) => self.stepped(Some(Stretch::Stock), |draft| {
                draft.grass_percent = percent.min(100);
            }),
            Action::ChooseBasis(basis) => self.edited(|draft| draft.basis = basis),
            Action::ChoosePlan(plan) => self.edited(|draft| {
                draft.plan = plan;
                draft.ways.clear();
                draft.second_ways.clear();
            }),
            Action::ChooseWay(part, way) => self.edited(|draft| {
                draft.ways.insert(part, way);
            }),
            Action::ChooseSecondWay(part, way) => self.edited(|draft| {
                match way {
                    Some(way) => draft.second_ways.insert(part, way),
                    None => draft.second_ways.remove(&part),
                };
            }),
            Action::ChooseStockFrom(from) => self.edited(|draft| draft.stock_from = from),
            Action::CountPacks(yes) => self.edited(|draft| draft.counts_packs = yes),
            Action::GrindWithFat(yes) => self.edited(|draft| draft.grind_with_fat = yes),
            Action::TellAge(age) => self.edited(|draft| draft.age = age),
            Action::ChooseRounding(to) => self.edited(|draft| draft.round_to = to),
            Action::RoundPer100g(yes) => self.edited(|draft| draft.round_per_100g = yes),
            Action::ChooseMethod(method) => self.edited(|draft| draft.method = method),
            Action::FillInSample => self.edited(Draft::fill_in_sample),
            Action::ChooseCurrency(currency) => {
                self.edited(|draft| draft.currency = Some(currency))
            }
            Action::NewSide => self.edited(|draft| {
                for field in [Field::Weight, Field::Price, Field::LabourMinutes] {
                    draft.forget(&field);
                }
            }),
            Action::TakeOver(writes) => {
                let taken = if let Some(whole) = Draft::of_text(&writes) {
                    self.opened(&whole)
                } else {
                    self.edited(|draft| draft.take_over(&writes))
                };
                let mut next = Self::clone(&taken);
                next.has_taken_over = taken.draft != self.draft;
                Rc::new(next)
            }
            Action::Print(paper) => {
                let mut next = Self::clone(&self);
                next.paper = paper.into();
                Rc::new(next)
            }
            Action::LayOwn(data) => {
                let mut next = Self::clone(&self);
                next.data = data;
                Rc::new(next.worked_out())
            }
            Action::OpenSaved(saved) => self.opened(&saved),
            Action::Undo => self.gone(History::undo),
            Action::Redo => self.gone(History::redo),
            Action::Open(place) => {
                let mut next = Self::clone(&self);
                next.place = place;
                Rc::new(next)
            }
        }
    }
}
