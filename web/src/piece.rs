//! A piece of the page that the worker wrote, put together step by step:
//! [`advice::wire`] says how it is written.

use std::rc::Rc;

use advice::wire::{ATTRIBUTES, ELEMENTS, ENTRY, FORGET, WRITES};
use web_sys::{HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;
use yew::virtual_dom::{Key, VList};

use crate::element::{Element, element};
use crate::entry_field::mark_all;
use crate::taking_in::take_in;

/// The most bytes that are read of a file: more than a browser keeps for a page.
const LARGEST_FILE: i32 = 12_000_000;

/// What is typed into controls, by their names.
pub type Entries = Vec<(String, String)>;

/// Where a piece is heard.
#[derive(Default)]
pub struct Ears {
    /// A control was set: its name, its text.
    pub set: Callback<(String, String)>,
    /// What is kept under a name is let go of.
    pub forget: Callback<String>,
    /// An offer was accepted: what it writes.
    pub take: Callback<String>,
}

/// The elements of a piece. What was typed stands in its controls, however
/// old the piece is.
pub fn drawn(piece: &str, entries: &Entries, ears: &Ears) -> Vec<Html> {
    let mut open = Vec::new();
    let mut drawn = Vec::new();
    for step in piece.lines() {
        let (sign, rest) = step.split_at_checked(1).unwrap_or_default();
        match sign {
            "<" => open.push(Open::of(known(&ELEMENTS, rest).unwrap_or("span"))),
            ">" => {
                if let Some(last) = open.pop() {
                    let place = place(&open, &drawn);
                    put(last.finished(&place, entries, ears), &mut open, &mut drawn);
                }
            }
            "." => {
                let nothing = VList::with_children(Vec::new(), Some(place(&open, &drawn)));
                put(nothing.into(), &mut open, &mut drawn);
            }
            "=" => {
                if let (Some(last), Some((name, value))) = (open.last_mut(), rest.split_once(' '))
                    && let Some(name) = known(&ATTRIBUTES, name)
                {
                    last.attributes.push((name, value.to_owned()));
                }
            }
            _ => put(
                Html::from(AttrValue::from(rest.to_owned())),
                &mut open,
                &mut drawn,
            ),
        }
    }
    drawn
}

/// The key of what comes next, where it has none of its own: how many stand before
/// it. Siblings without keys are told apart from the last one on, so that an element
/// which comes at the end would replace all before it, and what is typed in would
/// lose the focus.
fn place(open: &[Open], drawn: &[Html]) -> Key {
    let before = open
        .last()
        .map_or(drawn.len(), |outer| outer.children.len());
    Key::from(format!("·{before}"))
}

/// Puts what is finished into the element around it.
fn put(html: Html, open: &mut [Open], drawn: &mut Vec<Html>) {
    match open.last_mut() {
        Some(outer) => outer.children.push(html),
        None => drawn.push(html),
    }
}

fn known(names: &[&'static str], name: &str) -> Option<&'static str> {
    names.iter().copied().find(|known| *known == name)
}

/// An element whose end has not come yet.
struct Open {
    name: &'static str,
    attributes: Vec<(&'static str, String)>,
    children: Vec<Html>,
}

impl Open {
    fn of(name: &'static str) -> Self {
        Self {
            name,
            attributes: Vec::new(),
            children: Vec::new(),
        }
    }

    fn finished(self, place: &Key, entries: &Entries, ears: &Ears) -> Html {
        let mut made = element(self.name).key(place);
        let mut entry = None;
        let mut value = None;
        let mut is_file = false;
        for (name, text) in self.attributes {
            made = match name {
                "key" => made.key(&text),
                "selectedIndex" => made.property("selectedIndex", text.parse().unwrap_or(0)),
                ENTRY => {
                    entry = Some(text);
                    made
                }
                "value" if self.name == "input" => {
                    value = Some(text);
                    made
                }
                FORGET => made.on_click(telling(&ears.forget, text)),
                WRITES if self.name == "form" => handing_in(made, &ears.take, text),
                WRITES => made.on_click(telling(&ears.take, text)),
                _ => {
                    is_file |= name == "type" && text == "file";
                    made.write(name, text)
                }
            };
        }
        if let Some(entry) = entry {
            if is_file {
                return reading(made, entry, ears).put_all(self.children).html();
            }
            let typed = entries.iter().find(|(name, _)| *name == entry);
            value = typed.map(|(_, text)| text.clone()).or(value);
            made = listening(made, self.name == "select", entry, ears);
        }
        if let Some(value) = value {
            made = made.value(value);
        }
        made.put_all(self.children).html()
    }
}

fn telling(ear: &Callback<String>, what: String) -> Callback<MouseEvent> {
    let ear = ear.clone();
    Callback::from(move |_: MouseEvent| ear.emit(what.clone()))
}

/// A form that tells that it is handed in, by its button or the enter key.
fn handing_in(form: Element, ear: &Callback<String>, what: String) -> Element {
    let ear = ear.clone();
    let handed_in = Callback::from(move |event: SubmitEvent| {
        event.prevent_default();
        ear.emit(what.clone());
    });
    form.on(Rc::new(html::onsubmit::Wrapper::new(handed_in)))
}

/// A control that tells the text of the file that is chosen in it.
fn reading(control: Element, name: String, ears: &Ears) -> Element {
    let set = ears.set.clone();
    let chosen = Callback::from(move |event: Event| {
        let (set, name) = (set.clone(), name.clone());
        take_in(&event, LARGEST_FILE, move |text| set.emit((name, text)));
    });
    control.on(Rc::new(html::onchange::Wrapper::new(chosen)))
}

/// A control that tells what is set in it.
fn listening(control: Element, is_select: bool, name: String, ears: &Ears) -> Element {
    let set = ears.set.clone();
    if is_select {
        let chosen = Callback::from(move |event: Event| {
            let select: HtmlSelectElement = event.target_unchecked_into();
            set.emit((name.clone(), select.value()));
        });
        return control.on(Rc::new(html::onchange::Wrapper::new(chosen)));
    }
    let typed = Callback::from(move |event: InputEvent| {
        let input: HtmlInputElement = event.target_unchecked_into();
        set.emit((name.clone(), input.value()));
    });
    control.on_input(typed).on_focus(mark_all())
}
