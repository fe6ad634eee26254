//! The place where the plan is questioned: what moves the answer, how sure it
//! is, what would be better. The worker writes every answer as the piece of the
//! page that it is; what is here asks, keeps what is typed, and puts the piece
//! together.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wording::key;

use advice::{Panel, wire};
use wasm_bindgen::prelude::*;
use yew::prelude::*;

use crate::element::{Element, button, element};
use crate::piece::{self, Ears, Entries};
use crate::reckoner::{self, Heard, no_worker};
use crate::saved::OnShelf;
use crate::state::{Action, Figures};

/// What [`WhatIf`] asks about.
#[derive(Properties, PartialEq)]
pub struct WhatIfProps {
    /// The last figures that could be worked out.
    pub figures: Option<Figures>,
    /// Whether the place is in sight.
    pub is_shown: bool,
    /// Whether something was just taken over that can be undone.
    pub can_undo: bool,
    /// What this plan can be held against.
    pub shelf: OnShelf,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// A panel as it stands.
#[derive(Default)]
struct Standing {
    is_open: bool,
    entries: Entries,
    /// The last question that went out, and the figures it was about.
    asked: Option<(String, Figures)>,
    /// The last answer; `Err` when there is nobody to ask.
    answer: Option<Result<String, ()>>,
}

type Panels = Rc<RefCell<[Standing; Panel::ALL.len()]>>;

/// The place where the plan is questioned.
#[component]
pub fn WhatIf(props: &WhatIfProps) -> Html {
    let panels: Panels = use_mut_ref(Default::default);
    let redraw = {
        let update = use_force_update();
        Callback::from(move |()| update.force_update())
    };
    {
        let panels = panels.clone();
        let redraw = redraw.clone();
        use_effect_with((), move |()| {
            let is_due = Rc::new(Cell::new(false));
            let listening = reckoner::listen(Callback::from(move |heard: Heard| {
                hear(&panels, heard);
                if !is_due.replace(true) {
                    let (is_due, redraw) = (is_due.clone(), redraw.clone());
                    in_next_frame(move || {
                        is_due.set(false);
                        redraw.emit(());
                    });
                }
            }));
            move || drop(listening)
        });
    }
    {
        let panels = panels.clone();
        let asked_about = props.figures.clone().filter(|_| props.is_shown);
        let shelf = props.shelf.clone();
        // After drawing, since an answer may come at once.
        use_effect(move || {
            if let Some(figures) = asked_about {
                ask(&panels, &figures, &shelf);
            }
        });
    }
    let Some(figures) = &props.figures else {
        return element("p")
            .class("note")
            .tell(key!("Type the side's weight and price first."))
            .html();
    };
    let undo = props.can_undo.then(|| undo_notice("undo", &props.dispatch));
    let drawn = Panel::ALL
        .iter()
        .enumerate()
        .map(|(index, panel)| question(index, *panel, &panels, figures, &redraw, props).html());
    element("div").maybe(undo).put_all(drawn).html()
}

/// Does something when the page is about to be painted. Of answers that come
/// faster than that only the last is drawn, and none comes between a key and
/// the verdict on it.
fn in_next_frame(what: impl FnOnce() + 'static) {
    let what = Closure::once_into_js(what);
    if let Some(window) = web_sys::window() {
        // It fails only where there is no function.
        let _ = window.request_animation_frame(what.unchecked_ref());
    }
}

/// What is said after an offer was accepted, with the way back.
pub fn undo_notice(id: &'static str, dispatch: &Callback<Action>) -> Element {
    let undo = dispatch.reform(|_: MouseEvent| Action::Undo);
    element("p")
        .class("undo")
        .set("role", "status")
        .tell(key!("Taken over into the plan. "))
        .put(button("", undo).set("id", id).tell(key!("Undo")))
}

/// Takes an answer, or that there will be none.
fn hear(panels: &Panels, heard: Heard) {
    let mut panels = panels.borrow_mut();
    let Some((id, text)) = heard else {
        for panel in panels.iter_mut() {
            panel.answer = Some(Err(()));
        }
        return;
    };
    if let Some(index) = Panel::ALL.iter().position(|panel| panel.id() == id) {
        panels[index].answer = Some(Ok(text));
    }
}

/// Asks for every panel that is open about what has changed since.
fn ask(panels: &Panels, figures: &Figures, shelf: &OnShelf) {
    let draft = figures.draft.to_text();
    for (index, panel) in Panel::ALL.into_iter().enumerate() {
        let request = {
            let standing = &mut panels.borrow_mut()[index];
            if !standing.is_open {
                continue;
            }
            let plans = shelf.shelf.plans.iter();
            let saved: Vec<_> = plans
                .filter(|_| wire::takes_saved(panel))
                .map(|(key, plan)| wire::saved_entry(key, &plan.name, &plan.draft))
                .collect();
            let entries = standing.entries.iter().chain(&saved);
            let entries = entries.map(|(name, text)| (name.as_str(), text.as_str()));
            let request = wire::request(panel, &draft, entries);
            let asked = Some((request.clone(), figures.clone()));
            if asked == standing.asked {
                continue;
            }
            standing.asked = asked;
            request
        };
        // With no hold on the panels, which the answer changes.
        reckoner::ask(&request);
    }
}

/// A panel: a question, what can be set about it, and its answer.
fn question(
    index: usize,
    panel: Panel,
    panels: &Panels,
    figures: &Figures,
    redraw: &Callback<()>,
    props: &WhatIfProps,
) -> Element {
    let change = |change: fn(&mut Standing, String)| {
        let (panels, redraw) = (panels.clone(), redraw.clone());
        Callback::from(move |what: String| {
            change(&mut panels.borrow_mut()[index], what);
            redraw.emit(());
        })
    };
    let toggle = {
        let toggle = change(|panel, open| panel.is_open = !open.is_empty());
        Callback::from(move |event: Event| {
            let details: web_sys::HtmlDetailsElement = event.target_unchecked_into();
            let open = if details.open() { "open" } else { "" };
            toggle.emit(open.to_owned());
        })
    };
    let ears = Ears {
        forget: change(|panel, name| {
            panel
                .entries
                .retain(|(kept, _)| name != wire::EVERYTHING && *kept != name);
        }),
        set: {
            let (panels, figures) = (panels.clone(), figures.clone());
            let shelf = props.shelf.clone();
            Callback::from(move |(name, text): (String, String)| {
                {
                    let entries = &mut panels.borrow_mut()[index].entries;
                    match entries.iter_mut().find(|(kept, _)| *kept == name) {
                        Some((_, kept)) => *kept = text,
                        None => entries.push((name, text)),
                    }
                }
                // The control shows it already; the rest waits for the answer.
                ask(&panels, &figures, &shelf);
            })
        },
        take: props.dispatch.reform(Action::TakeOver),
    };
    let panels = panels.borrow();
    let standing = &panels[index];
    let question = element("details")
        .class("question")
        .set("id", panel.id())
        .on(Rc::new(html::ontoggle::Wrapper::new(toggle)))
        .put(element("summary").say(panel.name()));
    match &standing.answer {
        Some(Ok(answer)) => question.put_all(piece::drawn(answer, &standing.entries, &ears)),
        Some(Err(())) => question.put(
            element("p")
                .class("fault")
                .set("role", "alert")
                .say(no_worker()),
        ),
        None => question.put(
            element("p")
                .class("note")
                .set("role", "status")
                .tell(key!("Working it out…")),
        ),
    }
}
