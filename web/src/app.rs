//! The frame: header, verdict, places, and the way between them.

use std::rc::Rc;
use wording::{Language, text};

use advice::wire;
use carcass::Catalogue;
use gloo_events::{EventListener, EventListenerOptions};
use gloo_timers::callback::Timeout;
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, KeyboardEvent};
use yew::prelude::*;

use crate::cuts::Cuts;
use crate::element::{Element, button, element};
use crate::elsewhere::{choice, use_elsewhere, use_kept};
use crate::foot::foot;
use crate::history::History;
use crate::keeping::{self, Keeping};
use crate::locale;
use crate::offline::OfflineNotice;
use crate::opened::Opened;
use crate::piece::{self, Ears};
use crate::prices::Prices;
use crate::reckoner::{self, Heard};
use crate::saved::{Saved, save_everything, use_shelf};
use crate::scale::{self, Scale};
use crate::side::Side;
use crate::state::{Action, Data, Place, State};
use crate::value::use_value;
use crate::verdict_strip::VerdictStrip;
use crate::what_if::WhatIf;
use draft::{Currency, Draft, Field};

/// What a verdict takes of the data files, checked and packed when the app is
/// built.
const CATALOGUE: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/brief.packed"));

/// How the app is started.
#[derive(Properties, PartialEq)]
pub struct AppProps {
    /// The language it speaks.
    pub language: Language,
    /// What parts and cuts are called in it.
    pub names: String,
}

/// The whole app.
#[component]
pub fn App(props: &AppProps) -> Html {
    let opened = use_memo((), |()| {
        let (draft, keeping) = keeping::fetch();
        mark("data");
        let data = data(&props.names, &scale::own_yields());
        mark("data-read");
        data.map(|data| (data, draft, keeping))
    });
    if let Some((data, draft, keeping)) = &*opened {
        return html! {
            <Counter language={props.language} names={props.names.clone()} data={data.clone()} draft={draft.clone()} keeping={*keeping} />
        };
    }
    let trouble = text!("The figures that come with the app are damaged. Reload the page.");
    element("main")
        .class("column")
        .put(element("h1").say("Sideworth"))
        .put(element("p").set("role", "alert").text(trouble))
        .html()
}

/// What comes with the app, called by the names of the language in use, with the
/// shop's own yields; the worker reckons with these from now on too.
fn data(names: &str, own_yields: &str) -> Option<Data> {
    reckoner::lay_own(own_yields);
    let mut catalogue = Catalogue::from_packed(CATALOGUE).ok()?;
    // Those of another build would stand at other cuts.
    catalogue.call_by(names).ok()?;
    catalogue.lay_own(own_yields);
    Some(Data::new(catalogue))
}

/// Marks a moment in the browser's own timeline, where `cargo xtask measure` and
/// its developer tools find it.
pub fn mark(moment: &str) {
    if let Some(timeline) = web_sys::window().and_then(|window| window.performance()) {
        // A timeline that is full keeps its older marks.
        let _ = timeline.mark(moment);
    }
}

#[derive(Properties, PartialEq)]
struct CounterProps {
    language: Language,
    names: String,
    data: Data,
    draft: Draft,
    keeping: Keeping,
}

/// The app with its data.
#[component]
fn Counter(props: &CounterProps) -> Html {
    let state = use_reducer(|| {
        let local = locale::local_currency();
        State::new(props.data.clone(), props.draft.clone(), local)
    });
    let keeping = use_state_eq(|| props.keeping);
    let learn = {
        let dispatcher = state.dispatcher();
        use_callback(props.names.clone(), move |own_yields: String, names| {
            // What was read once can be read again.
            if let Some(data) = data(names, &own_yields) {
                dispatcher.dispatch(Action::LayOwn(data));
            }
        })
    };
    let elsewhere = use_elsewhere();
    let before = use_kept(keeping::BEFORE);
    let dispatch = {
        let dispatcher = state.dispatcher();
        use_callback((), move |action: Action, ()| dispatcher.dispatch(action))
    };
    {
        let keeping = keeping.clone();
        let elsewhere = elsewhere.clone();
        let (before, replaced) = (before.clone(), state.replaced.clone());
        let first = use_mut_ref(|| true);
        use_effect_with(state.draft.clone(), move |draft| {
            // What was just fetched need not be stored again.
            if first.replace(false) {
                return;
            }
            if replaced.is_some() && replaced != *before {
                replaced.as_deref().map(keeping::keep_before);
                before.set(replaced);
            }
            let (kept, other) = keeping::keep(draft, elsewhere.as_ref());
            keeping.set(kept);
            if other != *elsewhere {
                elsewhere.set(other);
            }
        });
    }

    // Before anything is drawn or asked that has amounts in it.
    use_memo(state.draft.currency, |currency| write_in(*currency));
    let currency = state.draft.currency.map(Currency::code).unwrap_or_default();
    let shelf = use_shelf();
    use_undo_keys(&dispatch);
    use_printer(&dispatch);
    let settled = use_settled(&state);
    let is_wide = is_wide();
    let is_whole = use_follows();
    let trouble = state.trouble.clone().map(AttrValue::from);
    let places = Place::ALL.map(|place| {
        let is_open = place == state.place;
        // What nobody works in may follow a moment later, but for what appears
        // in sight for the first time and would push away what is aimed at.
        // What is asked of the worker goes out at once and holds nothing up.
        let appears = is_wide && settled.figures.is_none();
        let state: &State = if is_open || appears || place == Place::WhatIf {
            &state
        } else {
            &settled
        };
        let content = match place {
            _ if !(is_open || is_wide || is_whole) => Html::default(),
            Place::Side => html! {
                <Side data={state.data.clone()} draft={state.draft.clone()} faults={state.faults.clone()}
                    figures={state.figures.clone()} shelf={Rc::clone(&shelf.shelf)} dispatch={dispatch.clone()} />
            },
            Place::Cuts => html! {
                <Cuts data={state.data.clone()} figures={state.figures.clone()}
                    draft={state.draft.clone()} faults={state.faults.clone()} dispatch={dispatch.clone()} />
            },
            Place::Prices => html! {
                <Prices data={state.data.clone()} draft={state.draft.clone()} faults={state.faults.clone()}
                    figures={state.figures.clone()} is_current={state.is_current()}
                    can_undo={state.has_taken_over} dispatch={dispatch.clone()} />
            },
            Place::WhatIf => html! {
                <WhatIf figures={state.figures.clone()} is_shown={is_wide || is_open}
                    can_undo={state.has_taken_over} shelf={shelf.clone()} dispatch={dispatch.clone()} />
            },
            Place::Scale => html! {
                <Scale draft={state.draft.clone()} {is_open} learn={learn.clone()} />
            },
            Place::Saved => html! {
                <Saved shelf={shelf.clone()} draft={state.draft.clone()} before={(*before).clone()} dispatch={dispatch.clone()} />
            },
        };
        let heading = (place != Place::Side).then(|| element("h2").say(place.name()));
        let work_in = {
            let dispatch = dispatch.clone();
            Callback::from(move |_: FocusEvent| {
                if !is_open {
                    dispatch.emit(Action::Open(place));
                }
            })
        };
        element("section")
            .key(place.id())
            .on(Rc::new(html::onfocusin::Wrapper::new(work_in)))
            .set("id", place.id())
            .class(if is_open { "place is-open" } else { "place" })
            .set("aria-label", place.name())
            .maybe(heading)
            .node(content)
            .html()
    });

    let verdict = html! {
        <VerdictStrip figures={state.figures.clone()} is_current={state.is_current()}
            trouble={trouble} units={state.draft.units} />
    };
    let notice = keeping.notice().map(|notice| {
        element("div")
            .class("banner")
            .set("role", "alert")
            .say(notice)
            .maybe(
                keeping
                    .is_lost_with_the_page()
                    .then(|| save_everything(&shelf.shelf, &state.draft)),
            )
    });
    element("div")
        // Another currency stands in every amount there is.
        .key(&currency)
        .class("frame")
        .put(
            element("header")
                .class("top")
                .put(element("h1").say("Sideworth"))
                // At the block the last weighing has a way back of its own, with the same sign.
                .maybe(
                    (is_wide || state.place != Place::Scale)
                        .then(|| steps(&state.history, &dispatch)),
                )
                .node(verdict),
        )
        .maybe(notice)
        .maybe(choice(&elsewhere, &state.draft, &dispatch))
        .node(html! { <Opened draft={state.draft.clone()} dispatch={dispatch.clone()} /> })
        .put(element("main").put_all(places))
        .put(foot(props.language, &state.draft, &dispatch))
        .node(html! { <OfflineNotice draft={state.draft.clone()} /> })
        .node(ways(state.place, &dispatch))
        .put(
            // Out of sight of all but the printer.
            element("div")
                .class("paper")
                .set("id", "paper")
                .put_all(piece::drawn(&state.paper, &Vec::new(), &Ears::default())),
        )
        .html()
}

/// Writes all amounts in a currency from now on, here and in the worker.
#[inline(never)]
fn write_in(currency: Option<Currency>) {
    let manner = currency.map(locale::manner).unwrap_or_default();
    reckoner::write_by(&manner);
    notation::write_by(manner);
}

/// Puts every paper that the worker writes into the page, and hands it to the
/// printer once it is drawn.
#[hook]
fn use_printer(dispatch: &Callback<Action>) {
    let dispatch = dispatch.clone();
    use_effect_with((), move |()| {
        let listening = reckoner::listen(Callback::from(move |heard: Heard| {
            if let Some((kind, piece)) = heard
                && kind == wire::PRINT
            {
                dispatch.emit(Action::Print(piece));
                let print = || {
                    if let Some(window) = web_sys::window() {
                        // A browser that cannot print does nothing.
                        let _ = window.print();
                    }
                };
                Timeout::new(50, print).forget();
            }
        }));
        move || drop(listening)
    });
}

/// The way back and forth over all that was typed and chosen.
fn steps(history: &History, dispatch: &Callback<Action>) -> Element {
    let step = |id, name, sign, action: Action, is_open: bool| {
        button("step", dispatch.reform(move |_: MouseEvent| action.clone()))
            .set("id", id)
            .set("aria-label", name)
            .set("title", name)
            .set_if(!is_open, "disabled", "disabled")
            .say(sign)
    };
    element("div")
        .class("steps")
        .put(step(
            "undo-step",
            text!("Undo"),
            "↶",
            Action::Undo,
            history.can_undo(),
        ))
        .put(step(
            "redo-step",
            text!("Redo"),
            "↷",
            Action::Redo,
            history.can_redo(),
        ))
}

/// The same by the keys that are usual for it. What a field of the draft would
/// undo by itself is only its own text, which the app writes anyway; a field of
/// something else keeps its own way back.
#[hook]
fn use_undo_keys(dispatch: &Callback<Action>) {
    let dispatch = dispatch.clone();
    use_effect_with((), move |()| {
        let listener = web_sys::window().map(|window| {
            let options = EventListenerOptions::enable_prevent_default();
            EventListener::new_with_options(&window, "keydown", options, move |event| {
                let Some(event) = event.dyn_ref::<KeyboardEvent>() else {
                    return;
                };
                if !(event.ctrl_key() || event.meta_key()) || event.alt_key() {
                    return;
                }
                let field = event
                    .target()
                    .and_then(|target| target.dyn_into::<HtmlInputElement>().ok())
                    .filter(|input| input.type_() == "text");
                if field.is_some_and(|input| Field::of_id(&input.id()).is_none()) {
                    return;
                }
                // Capital where the shift key is held or locked.
                let action = match (event.key().as_str(), event.shift_key()) {
                    ("z" | "Z", false) => Action::Undo,
                    ("z" | "Z", true) | ("y" | "Y", false) => Action::Redo,
                    _ => return,
                };
                event.prevent_default();
                dispatch.emit(action);
            })
        });
        move || drop(listener)
    });
}

/// Whether what is out of sight is drawn too: in a task of its own after what
/// is in sight, so that a phone can show that and answer a touch.
#[hook]
fn use_follows() -> bool {
    let follows = use_value(bool::default);
    let setter = follows.setter();
    use_effect_with((), move |()| {
        let wait = Timeout::new(0, move || setter.set(true));
        move || drop(wait)
    });
    *follows
}

/// How long nothing must change before the places follow that nobody works in.
const SETTLED_AFTER_MS: u32 = 150;

/// The state as it was when nothing had changed for a moment, or when another
/// place was opened. Redrawing all places would hold up the verdict at every
/// keystroke.
#[hook]
fn use_settled(state: &UseReducerHandle<State>) -> State {
    let settled = use_mut_ref(|| State::clone(state));
    let update = use_force_update();
    // What was worked in until now must not fall back to what it was before.
    if settled.borrow().place != state.place {
        settled.replace(State::clone(state));
    }
    let shown = settled.borrow().clone();
    let latest = State::clone(state);
    let changed = (state.draft.clone(), state.figures.clone());
    use_effect_with(changed, move |_| {
        let wait = Timeout::new(SETTLED_AFTER_MS, move || {
            settled.replace(latest);
            update.force_update();
        });
        move || drop(wait)
    });
    shown
}

/// Whether all places are in sight at once, as the style sheet has it.
fn is_wide() -> bool {
    web_sys::window()
        .and_then(|window| window.match_media("(min-width: 64rem)").ok().flatten())
        .is_some_and(|query| query.matches())
}

/// The way from place to place on a narrow screen.
fn ways(open: Place, dispatch: &Callback<Action>) -> Html {
    let buttons = Place::ALL.map(|place| {
        let dispatch = dispatch.clone();
        let go = Callback::from(move |_: MouseEvent| {
            dispatch.emit(Action::Open(place));
            if let Some(window) = web_sys::window() {
                window.scroll_to_with_x_and_y(0.0, 0.0);
            }
        });
        button("", go)
            .key(place.id())
            .set_if(place == open, "aria-current", "page")
            .say(place.name())
            .html()
    });
    element("nav")
        .class("ways")
        .set("aria-label", text!("Places"))
        .put_all(buttons)
        .html()
}
