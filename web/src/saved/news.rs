//! What was done last with the saved plans, and what is wrong with any.

use std::rc::Rc;
use wording::{key, say, text};

use shelf::{Put, Unreadable, replace};
use yew::prelude::*;

use crate::element::{Element, button, element};
use crate::state::Action;
use draft::Draft;

use super::browser::Browser;

/// The id of the button that leads back.
pub const UNDO: &str = "undo-saved";

/// What is said where another tab was quicker.
pub fn both() -> &'static str {
    text!("Another tab has changed this plan meanwhile. Both are kept.")
}

/// What was done last.
#[derive(Clone, Debug, PartialEq)]
pub enum News {
    /// Something without a way back.
    Says(String),
    /// Something else stood under a key before, which can be brought back.
    Was(String, String, shelf::Saved),
    /// The plan of this name was opened, which is this.
    Opened(String, Rc<Draft>),
    /// The storage took nothing more.
    Refused,
}

impl News {
    /// Whether it is still so with what is typed now: the way back from opening
    /// a plan would else take back something else.
    pub fn holds(&self, draft: &Rc<Draft>) -> bool {
        match self {
            Self::Opened(_, opened) => opened == draft,
            _ => true,
        }
    }
}

/// What was done last, with the way back.
pub fn notice(news: &News, dispatch: &Callback<Action>, told: impl Fn(News) + 'static) -> Element {
    let line = element("p").class("undo").set("role", "status");
    let undo = |tapped: Callback<MouseEvent>| button("", tapped).set("id", UNDO).tell(key!("Undo"));
    match news {
        News::Says(text) => line.text(text.clone()),
        News::Refused => element("p").class("fault").set("role", "alert").tell(key!("The browser's storage took nothing more: this was not saved, and what was there is there still. Delete a plan that is no longer needed, or save this one as a file.")),
        News::Opened(name, _) => line
            .text(say!("“{name}” is open now. ", name))
            .put(undo(dispatch.reform(|_: MouseEvent| Action::Undo))),
        News::Was(text, key, before) => {
            let (key, before) = (key.clone(), before.clone());
            let back = Callback::from(move |_: MouseEvent| {
                told(match replace(&Browser, &key, &before) {
                    Ok(Put::Done(_)) => News::Says(say!("“{before}” is back as it was.", before.name)),
                    Ok(Put::Both(_)) => News::Says(both().to_owned()),
                    Err(_) => News::Refused,
                });
            });
            line.text(format!("{text} ")).put(undo(back))
        }
    }
}

/// What cannot be read, and that it is still there.
pub fn unreadable(shelf: &shelf::Shelf) -> Option<Element> {
    let count = |why| {
        shelf
            .unreadable
            .iter()
            .filter(|(_, found)| *found == why)
            .count()
    };
    let (newer, damaged) = (count(Unreadable::Newer), count(Unreadable::Damaged));
    if newer + damaged == 0 {
        return None;
    }
    let mut text = Vec::new();
    if newer > 0 {
        text.push(say!("Saved by a newer version of the app and not readable by this one: {newer}. Reload to get the newer one.", newer));
    }
    if damaged > 0 {
        text.push(say!("Damaged and not readable: {damaged}.", damaged));
    }
    text.push(text!("Nothing of it is deleted.").to_owned());
    Some(
        element("p")
            .class("fault")
            .set("id", "saved-unreadable")
            .set("role", "alert")
            .text(text.join(" ")),
    )
}
