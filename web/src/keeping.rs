//! Keeping the draft in the browser's storage while it is typed.
//!
//! A browser can refuse storage altogether or run out of room; then the app
//! works on in memory and says so.

use std::cell::RefCell;
use std::rc::Rc;

use gloo_storage::{LocalStorage, SessionStorage, Storage};
use wasm_bindgen::JsValue;
use wording::{Language, Text, key, spoken};

use draft::Draft;

/// The key of the draft.
pub const DRAFT: &str = "sideworth/draft";

/// The key of what another tab had typed when this one took the place of it.
pub const OTHER: &str = "sideworth/draft-of-another-tab";

/// The key of what was typed before a plan was opened in its place.
pub const BEFORE: &str = "sideworth/draft-before";

/// What begins the key that a stored draft goes to that cannot be read, so that no bytes are lost.
const SET_ASIDE: &str = "sideworth/draft-set-aside";

/// The key under which a tab hands its draft to itself over a reload.
const CARRIED: &str = "sideworth/draft-carried";

thread_local! {
    /// The draft as this tab read or wrote it last, or heard of it. What else
    /// stands there was written by a tab that was not heard.
    static LAST: RefCell<Option<String>> = const { RefCell::new(None) };
}

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
    /// What is stored is of a newer version and stays as it is.
    Newer,
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
            Self::Newer => Some(key!(
                "What is kept here is of a newer version of the app. Reload the page; until then nothing that you type is kept."
            )),
        };
        notice.map(Text::said)
    }

    /// Whether what is typed is lost with the page, unless a file takes it.
    pub const fn is_lost_with_the_page(self) -> bool {
        matches!(self, Self::Blocked | Self::Full | Self::Newer)
    }
}

/// Whether the page may use storage at all. Asking for it can throw, which the
/// storage library does not survive.
pub fn is_allowed() -> bool {
    web_sys::window().is_some_and(|window| matches!(window.local_storage(), Ok(Some(_))))
}

/// The draft kept last time, or a clean one.
pub fn fetch() -> (Draft, Keeping) {
    let allowed = is_allowed();
    let kept = if allowed {
        Keeping::Kept
    } else {
        Keeping::Blocked
    };
    if let Some(draft) = carried(allowed) {
        return (draft, kept);
    }
    match allowed.then(stored).flatten() {
        Some(text) => match Draft::of_text(&text) {
            Some(draft) => {
                heard(text);
                (draft, kept)
            }
            None => (Draft::default(), out_of_the_way(&text)),
        },
        None => (Draft::default(), kept),
    }
}

fn stored() -> Option<String> {
    LocalStorage::raw().get_item(DRAFT).ok().flatten()
}

/// Another tab has written the draft, and this one knows.
pub fn heard(text: String) {
    LAST.with(|last| last.replace(Some(text)));
}

/// The draft that is kept under a key.
pub fn kept_under(key: &str) -> Option<Rc<Draft>> {
    if !is_allowed() {
        return None;
    }
    let text = LocalStorage::raw().get_item(key).ok()??;
    Draft::of_text(&text).map(Rc::new)
}

/// Keeps what a plan is opened in the place of.
pub fn keep_before(draft: &Draft) {
    if is_allowed() {
        // Where there is no room, the way back in this tab is what is left.
        let _ = LocalStorage::raw().set_item(BEFORE, &draft.to_text());
    }
}

/// Takes the draft along over a reload of this tab. What is kept for all tabs
/// may be another's, and may lack what was typed after the storage filled up.
/// Where nothing may be stored, the browser's memory of where the tab has been
/// takes the draft and the language, which `language.js` reads there.
pub fn carry(draft: &Draft, language: Language) {
    let text = draft.to_text();
    if is_allowed() {
        // Where there is no room for it, what is kept for all tabs comes back.
        let _ = SessionStorage::raw().set_item(CARRIED, &text);
    } else {
        remember(&format!("{}\n{text}", language.primary()));
    }
}

fn remember(text: &str) {
    if let Some(history) = web_sys::window().and_then(|window| window.history().ok()) {
        // A browser that keeps no more than so much of it starts with a clean sheet.
        let _ = history.replace_state_with_url(&JsValue::from_str(text), "", None);
    }
}

fn carried(allowed: bool) -> Option<Draft> {
    if allowed {
        let text = SessionStorage::raw().get_item(CARRIED).ok()??;
        let draft = Draft::of_text(&text)?;
        SessionStorage::delete(CARRIED);
        return Some(draft);
    }
    let state = web_sys::window()?.history().ok()?.state().ok()?;
    let text = state.as_string()?;
    let (_, draft) = text.split_once('\n')?;
    // The language stays for the next start.
    remember(spoken().primary());
    Draft::of_text(draft)
}

/// Sees to it that what is stored and cannot be read is not written over.
fn out_of_the_way(text: &str) -> Keeping {
    if Draft::is_newer(text) {
        return Keeping::Newer;
    }
    // One does not take the place of another.
    let mut key = SET_ASIDE.to_owned();
    while matches!(LocalStorage::raw().get_item(&key), Ok(Some(_))) {
        key.push('+');
    }
    if LocalStorage::raw().set_item(&key, text).is_ok() {
        LocalStorage::delete(DRAFT);
        Keeping::SetAside
    } else {
        Keeping::Full
    }
}

/// Keeps the draft, and beside it what another tab has typed, where nobody has
/// chosen between the two: `other`, or what a tab that was not heard has
/// written since.
pub fn keep(draft: &Draft, other: Option<&Rc<Draft>>) -> (Keeping, Option<Rc<Draft>>) {
    let mut other = other.cloned();
    if !is_allowed() {
        return (Keeping::Blocked, other);
    }
    let is_news = |text: &String| LAST.with(|last| last.borrow().as_ref() != Some(text));
    if let Some(text) = stored().filter(is_news) {
        match Draft::of_text(&text) {
            Some(unheard) => other = Some(Rc::new(unheard)),
            None => match out_of_the_way(&text) {
                Keeping::SetAside => {}
                why => return (why, other),
            },
        }
    }
    let storage = LocalStorage::raw();
    let text = draft.to_text();
    // Of what another tab has nothing is written over before it stands beside.
    let beside = match &other {
        Some(other) => storage.set_item(OTHER, &other.to_text()),
        None => storage.remove_item(OTHER),
    };
    let is_kept = beside.is_ok()
        && storage.set_item(DRAFT, &text).is_ok()
        && stored().as_ref() == Some(&text);
    if is_kept {
        heard(text);
        (Keeping::Kept, other)
    } else {
        (Keeping::Full, other)
    }
}
