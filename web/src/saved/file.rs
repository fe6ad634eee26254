//! Everything as a file, the saved plans and the records of the scale: handed
//! out, and taken in again after a look at what it would bring.

use std::rc::Rc;
use wording::{key, say};

use advice::wire;
use draft::Draft;
use shelf::{Shelf, add};
use yew::prelude::*;

use crate::clock::now;
use crate::element::{Element, button, element};
use crate::keeping;
use crate::piece::{self, Ears};
use crate::reckoner::{self, no_worker, use_answer};
use crate::scale;
use crate::taking_in::take_in;

use super::browser::{Browser, OnShelf};
use super::news::News;
use super::suggested;

/// What is read of a file, in bytes: more than any has, so that what looks at
/// it sees that a file is too long.
const MOST_READ: i32 = 9 * 1024 * 1024;

/// What a [`SavedFile`] needs.
#[derive(Properties, PartialEq)]
pub struct SavedFileProps {
    /// The plans.
    pub shelf: OnShelf,
    /// What is typed and chosen now.
    pub draft: Rc<Draft>,
    /// Told of what was done.
    pub tell: Callback<News>,
}

/// A button that hands out a file of everything, what is typed now among the
/// saved plans.
#[inline(never)]
pub fn save_everything(shelf: &Rc<Shelf>, draft: &Rc<Draft>) -> Element {
    let (shelf, draft) = (Rc::clone(shelf), Rc::clone(draft));
    let hand_out = Callback::from(move |_: MouseEvent| {
        let is_saved = shelf.plans.iter().any(|(_, plan)| plan.draft == *draft);
        let typed = (!is_saved && !draft.is_untouched()).then(|| shelf::Saved {
            name: suggested(&shelf),
            changed: now(),
            revision: 0,
            draft: Draft::clone(&draft),
        });
        let plans = shelf.plans.iter().map(|(_, plan)| plan);
        scale::hand_over();
        reckoner::ask(&wire::kept_request(plans.chain(&typed)));
    });
    button("quiet", hand_out).tell(key!("Save everything as a file"))
}

/// Everything as a file.
#[component]
pub fn SavedFile(props: &SavedFileProps) -> Html {
    let heard = use_answer(wire::KEPT_FILE.to_owned());
    let taken = use_answer(ledger::wire::TAKE_FILE.to_owned());
    let file = use_mut_ref(String::new);
    let chosen = {
        let (shelf, file) = (Rc::clone(&props.shelf.shelf), file.clone());
        let taken = taken.setter();
        Callback::from(move |event: Event| {
            taken.set(None);
            let (shelf, file) = (Rc::clone(&shelf), file.clone());
            take_in(&event, MOST_READ, move |text| {
                let plans = shelf.plans.iter().map(|(_, plan)| plan);
                reckoner::ask(&wire::kept_file_request(plans, &text));
                *file.borrow_mut() = text;
            });
        })
    };
    let answer = element("div").class("answer").set("aria-live", "polite");
    let looked_at = heard
        .as_ref()
        .map(|heard| heard.as_ref().map(|answer| wire::coming(answer)));
    let answer = match looked_at {
        None | Some(Ok(None)) => answer,
        Some(Err(())) => answer.put(element("p").class("fault").say(no_worker())),
        Some(Ok(Some((coming, piece)))) => {
            let is_any = !coming.is_empty();
            // The only button of the piece takes in what the scale recorded.
            let ears = Ears {
                take: {
                    let heard = heard.setter();
                    Callback::from(move |_| {
                        scale::hand_over();
                        reckoner::ask(&ledger::wire::take_file(&file.borrow()));
                        if !is_any {
                            heard.set(None);
                        }
                    })
                },
                ..Ears::default()
            };
            let put_there = {
                let (tell, heard) = (props.tell.clone(), heard.setter());
                // The records that came along are still to be taken.
                let rest = piece
                    .contains(ledger::TAKE_IN)
                    .then(|| Ok(format!("0\n{piece}")));
                Callback::from(move |_: MouseEvent| {
                    heard.set(rest.clone());
                    let taken = coming
                        .iter()
                        .take_while(|plan| add(&Browser, plan).is_ok())
                        .count();
                    tell.emit(if taken == coming.len() {
                        News::Says(say!("Taken in: {taken}.", taken))
                    } else {
                        News::Refused
                    });
                })
            };
            let offer = is_any.then(|| {
                button("offer", put_there)
                    .set("id", "take-saved")
                    .tell(key!("Take them in"))
            });
            answer
                .put_all(piece::drawn(piece, &Vec::new(), &ears))
                .maybe(offer)
        }
    };
    let answer = match &*taken {
        Some(Ok(_)) if scale::is_all_kept() => {
            answer.put(element("p").tell(key!("The records are taken in.")))
        }
        Some(Ok(_)) => answer.maybe(
            keeping::Keeping::Full
                .notice()
                .map(|notice| element("p").class("fault").set("role", "alert").say(notice)),
        ),
        _ => answer,
    };
    element("details")
        .class("more")
        .put(element("summary").tell(key!("Keep in a file")))
        .put(save_everything(&props.shelf.shelf, &props.draft).set("id", "save-saved"))
        .put(
            element("div")
                .class("field")
                .put(
                    element("label")
                        .set("for", "saved-file")
                        .tell(key!("Take in a file")),
                )
                .put(
                    element("div").class("box").put(
                        element("input")
                            .set("id", "saved-file")
                            .set("type", "file")
                            .set("accept", ".json,application/json")
                            .on(Rc::new(html::onchange::Wrapper::new(chosen))),
                    ),
                ),
        )
        .put(answer)
        .html()
}
