//! What there is to say about the app on this device: that it works offline
//! now, that a new version is ready.
//!
//! `offline.js` deals with the browser. What there is to say stands in an
//! attribute of the page's root, and events go to and fro over the document.

use std::rc::Rc;
use wording::{key, spoken};

use gloo_events::EventListener;
use gloo_timers::callback::Timeout;
use web_sys::{Document, Event};
use yew::prelude::*;

use crate::element::{button, element};
use crate::keeping;
use draft::Draft;

/// The attribute that says what there is to say.
const NEWS: &str = "data-offline";

/// Goes out when the attribute has changed.
const NEWS_EVENT: &str = "offline-news";

/// Asks for the new version.
const WANTED_EVENT: &str = "update-wanted";

/// Goes out before the page is reloaded for the new version.
const BEFORE_EVENT: &str = "before-update";

/// How long a message that asks for nothing stays.
const PASSES_AFTER_MS: u32 = 8_000;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum News {
    /// Everything is kept on the device.
    Works,
    /// A new version is kept beside this one.
    Update,
}

impl News {
    fn of_page() -> Option<Self> {
        match document()?
            .document_element()?
            .get_attribute(NEWS)?
            .as_str()
        {
            "works" => Some(Self::Works),
            "update" => Some(Self::Update),
            _ => None,
        }
    }
}

fn document() -> Option<Document> {
    web_sys::window()?.document()
}

/// What an [`OfflineNotice`] needs.
#[derive(Properties, PartialEq)]
pub struct OfflineNoticeProps {
    /// What comes along over the reload for a new version.
    pub draft: Rc<Draft>,
}

/// The message, when there is one. It covers no more than a strip above the
/// thumb and moves nothing that is being tapped.
#[component]
pub fn OfflineNotice(props: &OfflineNoticeProps) -> Html {
    let news = use_state_eq(News::of_page);
    let latest = use_mut_ref(|| props.draft.clone());
    latest.replace(props.draft.clone());
    {
        let news = news.setter();
        use_effect_with((), move |()| {
            // What came between the first look and the listening.
            news.set(News::of_page());
            let listeners = document().map(|document| {
                [
                    EventListener::new(&document, NEWS_EVENT, move |_| news.set(News::of_page())),
                    EventListener::new(&document, BEFORE_EVENT, move |_| {
                        keeping::carry(&latest.borrow(), spoken());
                    }),
                ]
            });
            move || drop(listeners)
        });
    }
    {
        let setter = news.setter();
        use_effect_with(*news, move |news| {
            let wait = (*news == Some(News::Works))
                .then(|| Timeout::new(PASSES_AFTER_MS, move || setter.set(None)));
            move || drop(wait)
        });
    }
    let put_off = {
        let news = news.setter();
        Callback::from(move |_: MouseEvent| news.set(None))
    };
    let notice = element("div").class("offline").set("role", "status");
    match *news {
        None => notice,
        Some(News::Works) => notice.put(
            element("p")
                .class("passing")
                .tell(key!("Works offline now.")),
        ),
        Some(News::Update) => notice
            .put(element("p").tell(key!("A new version is ready.")))
            .put(button("quiet", put_off).tell(key!("Later")))
            .put(
                button("", ask_for_update())
                    .set("id", "take-update")
                    .tell(key!("Reload")),
            ),
    }
    .html()
}

fn ask_for_update() -> Callback<MouseEvent> {
    Callback::from(|_: MouseEvent| {
        if let (Some(document), Ok(event)) = (document(), Event::new(WANTED_EVENT)) {
            // Fails only for an event that is being sent already.
            let _ = document.dispatch_event(&event);
        }
    })
}
