//! Keeping the draft in the browser's storage while it is typed.
//!
//! A browser can refuse storage altogether or run out of room; then the app
//! works on in memory and says so.

use std::rc::Rc;

use gloo_storage::{LocalStorage, SessionStorage, Storage};
use wording::{Text, key};

use draft::Draft;

/// The key of the draft.
pub const DRAFT: &str = "sideworth/draft";

/// The key of what another tab had typed when this one took the place of it.
const OTHER: &str = "sideworth/draft-of-another-tab";

/// Where a stored draft goes that cannot be read, so that no bytes are lost.
const SET_ASIDE: &str = "sideworth/draft-set-aside";

/// The key under which a tab hands its draft to itself over a reload.
const CARRIED: &str = "sideworth/draft-carried";

/// How keeping stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keeping {
    /// What is typed is kept.
    Kept,
    /// The browser does not let the page store anything.
    Blocked,
    /// The storage is full.
    Full,
    /// What was stored could not be read and was set aside.
    SetAside,
}

impl Keeping {
    /// What to tell the user, when there is something.
    pub fn notice(self) -> Option<&'static str> {
        let notice = match self {
            Self::Kept => None,
            Self::Blocked => Some(key!(
                "This browser does not let the page store anything. Everything works, but nothing is kept when the page closes."
            )),
            Self::Full => Some(key!(
                "The browser's storage is full. Everything works, but changes from now on are not kept when the page closes."
            )),
            Self::SetAside => Some(key!(
                "What was kept from last time could not be read. It has been set aside, and you start with a clean sheet."
            )),
        };
        notice.map(Text::said)
    }
}

/// Whether the page may use storage at all. Asking for it can throw, which the
/// storage library does not survive.
pub fn is_allowed() -> bool {
    web_sys::window().is_some_and(|window| matches!(window.local_storage(), Ok(Some(_))))
}

/// The draft kept last time, or a clean one.
pub fn fetch() -> (Draft, Keeping) {
    if !is_allowed() {
        return (Draft::default(), Keeping::Blocked);
    }
    if let Some(draft) = carried() {
        return (draft, Keeping::Kept);
    }
    match LocalStorage::raw().get_item(DRAFT) {
        Ok(Some(text)) => match Draft::of_text(&text) {
            Some(draft) => (draft, Keeping::Kept),
            None => set_aside(&text),
        },
        _ => (Draft::default(), Keeping::Kept),
    }
}

/// What another tab had typed, where nobody has chosen between the two.
pub fn other() -> Option<Rc<Draft>> {
    if !is_allowed() {
        return None;
    }
    let text = LocalStorage::raw().get_item(OTHER).ok()??;
    Draft::of_text(&text).map(Rc::new)
}

/// Takes the draft along over a reload of this tab. What is kept for all tabs
/// may be another's, and may lack what was typed after the storage filled up.
pub fn carry(draft: &Draft) {
    if is_allowed() {
        // Where there is no room for it, what is kept for all tabs comes back.
        let _ = SessionStorage::raw().set_item(CARRIED, &draft.to_text());
    }
}

fn carried() -> Option<Draft> {
    let text = SessionStorage::raw().get_item(CARRIED).ok()??;
    let draft = Draft::of_text(&text)?;
    SessionStorage::delete(CARRIED);
    Some(draft)
}

fn set_aside(text: &str) -> (Draft, Keeping) {
    let keeping = match LocalStorage::raw().set_item(SET_ASIDE, text) {
        Ok(()) => Keeping::SetAside,
        Err(_) => Keeping::Full,
    };
    (Draft::default(), keeping)
}

/// Keeps the draft, and beside it what another tab has typed, where nobody has
/// chosen between the two.
pub fn keep(draft: &Draft, other: Option<&Draft>) -> Keeping {
    if !is_allowed() {
        return Keeping::Blocked;
    }
    let storage = LocalStorage::raw();
    let beside = match other {
        Some(other) => storage.set_item(OTHER, &other.to_text()),
        None => storage.remove_item(OTHER),
    };
    match beside.and_then(|()| storage.set_item(DRAFT, &draft.to_text())) {
        Ok(()) => Keeping::Kept,
        Err(_) => Keeping::Full,
    }
}
