//! The place of the scale. The worker holds the ledger and writes the place as
//! a piece of the page; what is here keeps what it says is to be kept, hands it
//! what is typed and pressed, and puts the piece together.

use std::cell::RefCell;
use std::mem;
use std::rc::Rc;
use wording::{key, text};

use gloo_events::EventListener;
use gloo_storage::{LocalStorage, Storage};
use gloo_timers::callback::Timeout;
use ledger::{IN_VIEW, PREFIX, YIELDS, wire};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::StorageEvent;
use yew::prelude::*;

use crate::clock::now;
use crate::element::{button, element};
use crate::focus;
use crate::keeping::{Keeping, is_allowed};
use crate::piece::{self, Ears, Entries};
use crate::reckoner::{self, Heard, no_worker};
use crate::saved::{address, ask_to_persist};
use draft::Draft;

/// The key of what stands in the fields. The ledger is told of it with every
/// request and does not keep it.
const TYPED: &str = "typed";

/// How long after the start the ledger is handed what is kept, in a shop that has closed sides:
/// once the verdict stands, and before a thumb is at the place.
const READY_AFTER_MS: u32 = 500;

/// What [`Scale`] needs.
#[derive(Properties, PartialEq)]
pub struct ScaleProps {
    /// What is typed and chosen for the side.
    pub draft: Rc<Draft>,
    /// Whether the place is worked in.
    pub is_open: bool,
    /// Takes the shop's own yields where they are others.
    pub learn: Callback<String>,
}

/// The place as it stands.
#[derive(Default)]
struct Standing {
    entries: Entries,
    /// The last piece; `Err` when there is nobody to ask.
    piece: Option<Result<String, ()>>,
    /// What was pressed last and is not answered yet.
    pressed: String,
    /// Whether the ledger has been handed what is kept.
    has_kept: bool,
    /// The draft that was asked about last.
    asked: Option<Rc<Draft>>,
}

thread_local! {
    /// What is to be kept and is not yet, since the browser took nothing more;
    /// [`wire::NOTHING`] for what is to be let go of.
    static UNKEPT: RefCell<Entries> = const { RefCell::new(Vec::new()) };
}

type Stands = Rc<RefCell<Standing>>;

/// The place of the scale.
#[component]
pub fn Scale(props: &ScaleProps) -> Html {
    let stands: Stands = use_mut_ref(Default::default);
    let update = use_force_update();
    let redraw = Callback::from(move |()| update.force_update());
    {
        let (stands, redraw, learn) = (stands.clone(), redraw, props.learn.clone());
        use_effect_with((), move |()| {
            let others = others(&stands, &learn);
            let hearing = stands.clone();
            let listening = reckoner::listen(Callback::from(move |heard: Heard| {
                if hear(&hearing, heard, &learn) {
                    redraw.emit(());
                }
                look_anew(&hearing);
            }));
            // A shop that has yields of its own has sides that take a while to read.
            let early = stands.clone();
            let wait = (!own_yields().is_empty())
                .then(|| Timeout::new(READY_AFTER_MS, move || fetch(&early)));
            move || drop((listening, others, wait))
        });
    }
    let draft = props.draft.clone();
    {
        let (stands, draft, is_open) = (stands.clone(), draft.clone(), props.is_open);
        use_effect(move || {
            let asked = stands.borrow().asked.clone();
            // Nothing is asked before someone has opened the place once.
            let is_due = match asked {
                None => is_open,
                Some(asked) => !Rc::ptr_eq(&asked, &draft),
            };
            if is_due {
                open(&stands, &draft);
            }
        });
    }
    let take = {
        let (stands, draft) = (stands.clone(), draft.clone());
        Callback::from(move |pressed: String| ask(&stands, &draft, &pressed))
    };
    let ears = Ears {
        set: {
            let (stands, take) = (stands.clone(), take.clone());
            Callback::from(move |(name, text): (String, String)| {
                let is_chosen = {
                    let mut stands = stands.borrow_mut();
                    write(&mut stands.entries, &name, Some(text));
                    keep_typed(&stands);
                    name.starts_with(wire::AT_ONCE) || name.starts_with(wire::FILE)
                };
                // What is weighed waits for its button; what is chosen does not.
                if is_chosen {
                    take.emit(String::new());
                }
            })
        },
        take,
        ..Ears::default()
    };
    let opened = stands.clone();
    let stands = stands.borrow();
    let keeping = if is_allowed() {
        Keeping::Full
    } else {
        Keeping::Blocked
    };
    let full = keeping.notice().filter(|_| !is_all_kept()).map(|notice| {
        let save = ears.take.reform(|_: MouseEvent| "file-all".to_owned());
        element("div")
            .class("fault")
            .set("role", "alert")
            .say(notice)
            .put(button("quiet", save).tell(key!("Save everything as a file")))
    });
    let place = element("div").class("scale").maybe(full);
    match &stands.piece {
        Some(Ok(piece)) => place.put_all(piece::drawn(piece, &stands.entries, &ears)),
        Some(Err(())) => place.put(element("p").class("fault").say(no_worker())),
        None if stands.asked.is_some() || props.is_open => {
            place.put(element("p").class("note").tell(key!("Working it out…")))
        }
        None => {
            let (stands, draft) = (opened, draft.clone());
            let open = Callback::from(move |_: MouseEvent| open(&stands, &draft));
            place.put(button("offer", open).say(text!("Weigh a side")))
        }
    }
    .html()
}

/// Whether the browser has all that is to be kept.
pub fn is_all_kept() -> bool {
    UNKEPT.with_borrow(Vec::is_empty)
}

/// Shows how the place looks, the first time by what the browser keeps.
fn open(stands: &Stands, draft: &Rc<Draft>) {
    fetch(stands);
    ask(stands, draft, "");
}

/// Hands the ledger what the browser keeps, where it has not been, and fills in the fields.
fn fetch(stands: &Stands) {
    if mem::replace(&mut stands.borrow_mut().has_kept, true) {
        return;
    }
    if let Some(typed) = hand_over() {
        stands.borrow_mut().entries = wire::pairs(&typed);
    }
}

/// Hands the ledger what the browser keeps; what stood in the fields.
pub fn hand_over() -> Option<String> {
    let mut typed = None;
    let mut kept = Entries::new();
    if is_allowed() {
        let storage = LocalStorage::raw();
        for index in 0..LocalStorage::length() {
            let Ok(Some(key)) = storage.key(index) else {
                continue;
            };
            if let Some(name) = key.strip_prefix(PREFIX)
                && let Ok(Some(text)) = storage.get_item(&key)
            {
                if name == TYPED {
                    typed = Some(text);
                } else {
                    kept.push((name.to_owned(), text));
                }
            }
        }
    }
    UNKEPT.with_borrow(|unkept| {
        for (name, text) in unkept.iter().filter(|(name, _)| name != TYPED) {
            write(&mut kept, name, something(text));
        }
    });
    let kept = kept.iter().map(|(key, text)| (key.as_str(), text.as_str()));
    reckoner::ask(&wire::take(kept));
    typed
}

/// Asks what comes of a button; of none, how the place looks.
fn ask(stands: &Stands, draft: &Rc<Draft>, pressed: &str) {
    let request = {
        let mut stands = stands.borrow_mut();
        // Tapped twice before the first tap has emptied the fields: once is meant.
        if !pressed.is_empty() && stands.pressed == pressed {
            return;
        }
        if !pressed.is_empty() {
            pressed.clone_into(&mut stands.pressed);
        }
        stands.asked = Some(draft.clone());
        let entries = stands.entries.iter();
        let entries = entries.map(|(name, text)| (name.as_str(), text.as_str()));
        let moment = format!("{} {} {}", moment(), draft.units.mass().symbol(), address());
        wire::request(&draft.to_text(), &moment, entries, pressed)
    };
    // With no hold on what stands here, which the answer changes.
    reckoner::ask(&request);
    if !pressed.is_empty() {
        ask_to_persist();
    }
}

/// Milliseconds, and the day and time that they are here.
fn moment() -> String {
    let now = now();
    let date = js_sys::Date::new(&JsValue::from_f64(js_sys::Date::now()));
    let shifted = js_sys::Date::now() - date.get_timezone_offset() * 60_000.0;
    date.set_time(shifted);
    // “2026-09-21T07:45:00.000Z”, whatever the language.
    let text: String = date.to_iso_string().into();
    let day = text.get(..10).unwrap_or_default();
    let time = text.get(11..16).unwrap_or_default();
    format!("{now} {day} {time}")
}

/// Takes an answer, or that there will be none; whether it was for here.
fn hear(stands: &Stands, heard: Heard, learn: &Callback<String>) -> bool {
    let mut stands = stands.borrow_mut();
    let Some((kind, answer)) = heard else {
        stands.pressed.clear();
        stands.piece = Some(Err(()));
        return true;
    };
    // Files and papers too are answers to a button.
    if [wire::ASK, reckoner::FILE, advice::wire::PRINT].contains(&kind.as_str()) {
        if !stands.pressed.is_empty() {
            focus::hand_on(&[IN_VIEW]);
        }
        stands.pressed.clear();
    }
    let is_taken = kind == wire::TAKE_FILE;
    if kind != wire::ASK && !is_taken {
        return false;
    }
    let mut lines = answer.splitn(3, '\n');
    let (Some(keep), Some(changes)) = (lines.next(), lines.next()) else {
        return false;
    };
    for (name, text) in wire::pairs(keep) {
        if name == YIELDS {
            learn.emit(something(&text).unwrap_or_default());
        }
        is_to_be_kept(&name, text);
    }
    keep_all();
    for (name, text) in wire::pairs(changes) {
        write(&mut stands.entries, &name, something(&text));
    }
    if is_taken {
        // All that is kept is another: the place is opened anew.
        *stands = Standing::default();
    } else {
        stands.piece = lines.next().map(|piece| Ok(piece.to_owned()));
    }
    keep_typed(&stands);
    true
}

/// Writes into a field, or empties it.
fn write(entries: &mut Entries, name: &str, text: Option<String>) {
    entries.retain(|(kept, _)| kept != name);
    if let Some(text) = text {
        entries.push((name.to_owned(), text));
    }
}

fn is_to_be_kept(name: &str, text: String) {
    UNKEPT.with_borrow_mut(|unkept| write(unkept, name, Some(text)));
}

/// A text, or nothing where it stands for that.
fn something(text: &str) -> Option<String> {
    (text != wire::NOTHING).then(|| text.to_owned())
}

/// Keeps what is to be kept, and only when all of it is lets go of what is not
/// needed any more: a side that is closed must not be lost between the two.
fn keep_all() {
    UNKEPT.with_borrow_mut(|unkept| {
        for is_last in [false, true] {
            if !is_last || unkept.iter().all(|(_, text)| text == wire::NOTHING) {
                unkept.retain(|(name, text)| {
                    (text == wire::NOTHING) != is_last || !kept(name, something(text).as_deref())
                });
            }
        }
    });
}

fn keep_typed(stands: &Standing) {
    // What stood in the fields belongs to what is still kept.
    if UNKEPT.with_borrow(|unkept| unkept.iter().any(|(name, _)| name != TYPED)) {
        return;
    }
    let entries = stands.entries.iter();
    let entries = entries.filter(|(name, _)| !name.starts_with(wire::FILE));
    let text = wire::form(entries.map(|(name, text)| (name.as_str(), text.as_str())));
    is_to_be_kept(TYPED, text);
    keep_all();
}

/// Keeps a text or lets go of it; whether the browser has it then.
fn kept(name: &str, text: Option<&str>) -> bool {
    if !is_allowed() {
        return false;
    }
    let key = format!("{PREFIX}{name}");
    match text {
        None => {
            LocalStorage::delete(&key);
            true
        }
        Some(text) => {
            let storage = LocalStorage::raw();
            storage.set_item(&key, text).is_ok()
                && storage.get_item(&key).ok().flatten().as_deref() == Some(text)
        }
    }
}

/// Looks at everything anew when another tab has changed something.
fn others(stands: &Stands, learn: &Callback<String>) -> Option<EventListener> {
    let (stands, learn) = (stands.clone(), learn.clone());
    let window = web_sys::window()?;
    Some(EventListener::new(&window, "storage", move |event| {
        let event = event.dyn_ref::<StorageEvent>();
        // No key where all was cleared.
        let key = event.and_then(StorageEvent::key);
        let name = key.as_deref().map(|key| key.strip_prefix(PREFIX));
        // What another tab types into its fields is its own.
        if matches!(name, Some(None | Some(TYPED))) {
            return;
        }
        if matches!(name, None | Some(Some(YIELDS))) {
            let yields = event.and_then(StorageEvent::new_value);
            learn.emit(yields.unwrap_or_default());
        }
        // It is handed over anew now, or when the place is opened.
        stands.borrow_mut().has_kept = false;
        if is_all_gone() {
            // What stands in the fields was about what is deleted.
            stands.borrow_mut().entries.clear();
        }
        look_anew(&stands);
    }))
}

/// Hands the ledger what the browser keeps by now, and shows how the place looks,
/// where that is due. While a button waits for its answer it is not: what comes of
/// the button is not kept yet and would be lost.
fn look_anew(stands: &Stands) {
    let (draft, typed) = {
        let stands = stands.borrow();
        if stands.has_kept || !stands.pressed.is_empty() {
            return;
        }
        (stands.asked.clone(), stands.entries.clone())
    };
    if let Some(draft) = draft {
        fetch(stands);
        stands.borrow_mut().entries = typed;
        ask(stands, &draft, "");
    }
}

/// Whether the browser keeps nothing for the scale but what stands in fields.
fn is_all_gone() -> bool {
    let storage = LocalStorage::raw();
    let mut keys =
        (0..LocalStorage::length()).filter_map(|index| storage.key(index).ok().flatten());
    keys.all(|key| key.strip_prefix(PREFIX).is_none_or(|name| name == TYPED))
}

/// The shop's own yields as they were kept last time.
pub fn own_yields() -> String {
    let read = |key: &str| LocalStorage::raw().get_item(key).ok().flatten();
    is_allowed()
        .then(|| read(&format!("{PREFIX}{YIELDS}")))
        .flatten()
        .unwrap_or_default()
}
