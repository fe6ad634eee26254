//! A field for typed text with its label, its unit and what it has to say.

use std::rc::Rc;
use wording::{say, text};

use gloo_events::{EventListener, EventListenerOptions};
use quantity::{Mass, UnitPrice};
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::element::{button, element};
use crate::state::Action;
use draft::reading::Faults;
use draft::{Draft, Entry, Field, Units, reading};

/// The text a field shows. What was typed in the units in force, or cannot be
/// read, stands as it was typed; what was typed in the other units is shown
/// converted. The amount itself stays what was typed.
pub fn shown_text(field: &Field, entry: &Entry, units: Units) -> String {
    if entry.units == units {
        return if entry.own {
            entry.text.clone()
        } else {
            notation::as_typed(&entry.text)
        };
    }
    match field {
        Field::Weight => reading::mass(entry)
            .map_or_else(|_| entry.text.clone(), |(mass, _)| mass_text(mass, units)),
        Field::Price
        | Field::Packaging
        | Field::Board(_)
        | Field::Pin(_)
        | Field::Floor(_)
        | Field::Cap(_) => reading::by_product_price(entry).map_or_else(
            |_| entry.text.clone(),
            |(price, _)| price_text(price, units),
        ),
        _ => entry.text.clone(),
    }
}

fn mass_text(mass: Mass, units: Units) -> String {
    notation::in_field(mass.in_unit(units.mass()), 2)
}

/// The text of a price in a field.
pub fn price_text(price: UnitPrice, units: Units) -> String {
    let amount = price.in_unit(units.price());
    let mut text = notation::plain(amount, 2);
    // 12.5 reads as a slip beside a board of 12.50s.
    if text
        .split_once('.')
        .is_some_and(|(_, cents)| cents.len() == 1)
    {
        text.push('0');
    }
    notation::as_typed(&text)
}

/// Hands on what is typed into an input.
pub fn typed(field: Field, dispatch: &Callback<Action>) -> Callback<InputEvent> {
    let dispatch = dispatch.clone();
    Callback::from(move |event: InputEvent| {
        let input: HtmlInputElement = event.target_unchecked_into();
        dispatch.emit(Action::Type(field.clone(), input.value()));
    })
}

/// Marks all text of an input when it is entered, so that typing replaces it.
/// `WebKit` marks it too, but takes the mark away when the tap that enters ends, or,
/// on a busy machine, has already done so by then.
pub fn mark_all() -> Callback<FocusEvent> {
    Callback::from(|event: FocusEvent| {
        let input: HtmlInputElement = event.target_unchecked_into();
        input.select();
        let options = EventListenerOptions::enable_prevent_default();
        let entered = input.clone();
        EventListener::once_with_options(&input, "mouseup", options, move |event| {
            event.prevent_default();
            entered.select();
        })
        .forget();
    })
}

/// What an [`EntryField`] shows.
#[derive(Properties)]
pub struct EntryFieldProps {
    /// Which field.
    pub field: Field,
    /// Its label.
    pub label: AttrValue,
    /// Its unit, or the control that switches it.
    #[prop_or_default]
    pub unit: Html,
    /// What was typed.
    pub draft: Rc<Draft>,
    /// Why it cannot be read.
    #[prop_or_default]
    pub fault: Option<AttrValue>,
    /// What it is, in one line.
    #[prop_or_default]
    pub hint: AttrValue,
    /// What stands in it until something is typed, where the draft has no
    /// sample of its own.
    #[prop_or_default]
    pub stand_in: Option<AttrValue>,
    /// What the stand-in is: “Sample”, “Estimate”.
    #[prop_or_default]
    pub stand_in_mark: Option<AttrValue>,
    /// Whether what was typed can be dropped for the stand-in again.
    #[prop_or_default]
    pub can_go_back: bool,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

impl PartialEq for EntryFieldProps {
    /// Of the draft only what this field shows: a keystroke in one field must
    /// not redraw all others.
    fn eq(&self, other: &Self) -> bool {
        self.field == other.field
            && self.draft.units == other.draft.units
            && self.draft.entry(&self.field) == other.draft.entry(&other.field)
            && self.label == other.label
            && self.unit == other.unit
            && self.fault == other.fault
            && self.hint == other.hint
            && self.stand_in == other.stand_in
            && self.stand_in_mark == other.stand_in_mark
            && self.can_go_back == other.can_go_back
            && self.dispatch == other.dispatch
    }
}

/// What all fields of one form share.
pub struct Form<'a> {
    /// What was typed.
    pub draft: &'a Rc<Draft>,
    /// What cannot be read.
    pub faults: &'a Faults,
    /// Where events go.
    pub dispatch: &'a Callback<Action>,
}

/// What a field looks like beside its label.
#[derive(Default)]
pub struct Looks {
    /// Its unit, or the control that switches it.
    pub unit: Html,
    /// What it is, in one line.
    pub hint: &'static str,
    /// What stands in it until something is typed, where the draft has no
    /// sample of its own.
    pub stand_in: Option<AttrValue>,
    /// What the stand-in is: “Sample”, “Estimate”.
    pub stand_in_mark: Option<&'static str>,
    /// Whether what was typed can be dropped for the stand-in again.
    pub can_go_back: bool,
}

impl Looks {
    /// Only a hint.
    pub fn hinted(hint: &'static str) -> Self {
        Self {
            hint,
            ..Self::default()
        }
    }

    /// A unit, and a sample until something is typed.
    pub fn sample(symbol: impl Into<AttrValue>, hint: &'static str) -> Self {
        Self {
            unit: unit(symbol),
            stand_in_mark: Some(text!("Sample")),
            ..Self::hinted(hint)
        }
    }
}

/// The unit of a field.
pub fn unit(symbol: impl Into<AttrValue>) -> Html {
    element("span").class("unit").text(symbol).html()
}

impl Form<'_> {
    /// One field of the form. In one place for all, since the code that sets
    /// up a component is long.
    pub fn field(&self, field: Field, label: impl Into<AttrValue>, looks: Looks) -> Html {
        self.drawn(field, label.into(), looks)
    }

    #[inline(never)]
    fn drawn(&self, field: Field, label: AttrValue, looks: Looks) -> Html {
        let fault = self.faults.get(&field).cloned().map(AttrValue::from);
        html! {
            <EntryField {field} {label} {fault} unit={looks.unit} hint={looks.hint}
                stand_in={looks.stand_in} stand_in_mark={looks.stand_in_mark.map(AttrValue::from)}
                can_go_back={looks.can_go_back}
                draft={self.draft.clone()} dispatch={self.dispatch.clone()} />
        }
    }
}

/// A field for typed text.
#[component]
pub fn EntryField(props: &EntryFieldProps) -> Html {
    let field = &props.field;
    let entry = props.draft.entry(field);
    let id = field.id();
    let note_id = format!("{id}-note");
    let text = match &props.stand_in {
        Some(stand_in) if !entry.own => stand_in.to_string(),
        _ => shown_text(field, &entry, props.draft.units),
    };
    // An untouched field has nothing wrong in it yet; it is only not filled in.
    let fault = props.fault.as_ref().filter(|_| entry.own);
    let mark = props
        .stand_in_mark
        .as_ref()
        .filter(|_| !entry.own && !text.is_empty());
    let note_element = element("p").class("note").write("id", note_id.clone());
    let note = match fault {
        Some(fault) => note_element.put(
            element("span")
                .class("fault")
                .put(element("span").set("aria-hidden", "true").say("✕ "))
                .text(fault.clone()),
        ),
        None => note_element
            .maybe(mark.map(|mark| element("em").text(mark.clone()).say(". ")))
            .text(props.hint.clone()),
    };
    let forget = {
        let dispatch = props.dispatch.clone();
        let field = field.clone();
        Callback::from(move |_: MouseEvent| dispatch.emit(Action::Forget(field.clone())))
    };
    let input = element("input")
        .write("id", id.clone())
        .set_if(mark.is_some(), "class", "stand-in")
        .set("type", "text")
        .set("inputmode", "decimal")
        // Longer than any amount: a text pasted by mistake must not fill the storage.
        .set("maxlength", "200")
        .set("autocomplete", "off")
        .set("enterkeyhint", "next")
        .value(text)
        .on_input(typed(field.clone(), &props.dispatch))
        .on_focus(mark_all())
        .set_if(fault.is_some(), "aria-invalid", "true")
        .write("aria-describedby", note_id);
    let back = (entry.own && props.can_go_back).then(|| {
        let stand_in = props.stand_in_mark.as_deref().unwrap_or("stand-in");
        let stand_in = stand_in.to_ascii_lowercase();
        button("quiet", forget).text(say!("Use the {stand_in}", stand_in))
    });
    let class = if fault.is_some() {
        "field has-fault"
    } else {
        "field"
    };
    element("div")
        .class(class)
        .put(element("label").write("for", id).text(props.label.clone()))
        .put(
            element("div")
                .class("box")
                .put(input)
                .node(props.unit.clone()),
        )
        .put(note)
        .maybe(back)
        .html()
}
