//! The price board as a file: handed out as CSV, and taken in again after a look
//! at what it would change.

use std::rc::Rc;
use wording::key;

use advice::wire;
use yew::prelude::*;

use crate::element::{button, element};
use crate::piece::{self, Ears};
use crate::reckoner::{self, no_worker, use_answer};
use crate::state::{Action, Figures};
use crate::taking_in::take_in;
use crate::what_if::undo_notice;

/// What is read of a file, in bytes: more than any board has, so that what looks
/// at it sees that a file is too long.
const MOST_READ: i32 = 512 * 1024;

/// What a [`BoardFile`] needs.
#[derive(Properties, PartialEq)]
pub struct BoardFileProps {
    /// The last figures that could be worked out.
    pub figures: Figures,
    /// Whether something was just taken over that can be undone.
    pub can_undo: bool,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// The price board as a file.
#[component]
pub fn BoardFile(props: &BoardFileProps) -> Html {
    let heard = use_answer(wire::BOARD_FILE.to_owned());
    let hand_out = |file| {
        let draft = Rc::clone(&props.figures.draft);
        Callback::from(move |_: MouseEvent| {
            reckoner::ask(&wire::file_request(file, &draft.to_text(), ""));
        })
    };
    let chosen = {
        let draft = Rc::clone(&props.figures.draft);
        Callback::from(move |event: Event| {
            let draft = draft.to_text();
            take_in(&event, MOST_READ, move |text| {
                reckoner::ask(&wire::board_request(&draft, &text));
            });
        })
    };
    let take = {
        let dispatch = props.dispatch.clone();
        let heard = heard.setter();
        Callback::from(move |writes: String| {
            heard.set(None);
            dispatch.emit(Action::TakeOver(writes));
        })
    };
    let ears = Ears {
        take,
        ..Ears::default()
    };
    let answer = element("div").class("answer").set("aria-live", "polite");
    let answer = match &*heard {
        None => answer,
        Some(Ok(piece)) => answer.put_all(piece::drawn(piece, &Vec::new(), &ears)),
        Some(Err(())) => answer.put(element("p").class("fault").say(no_worker())),
    };
    let undo = props
        .can_undo
        .then(|| undo_notice("undo-board", &props.dispatch));
    let input = element("input")
        .set("id", "board-file")
        .set("type", "file")
        .set("accept", ".csv,text/csv")
        .on(Rc::new(html::onchange::Wrapper::new(chosen)))
        .set("aria-describedby", "board-file-note");
    element("details")
        .class("more")
        .put(element("summary").tell(key!("Price board and cost sheet as files")))
        .put(element("p").class("note").set("id", "board-file-note").tell(key!("CSV, as a spreadsheet opens it. Nothing changes before you have seen what would.")))
        .put(
            button("quiet", hand_out(wire::File::Board))
                .set("id", "save-board")
                .tell(key!("Save the board as a file")),
        )
        .put(
            button("quiet", hand_out(wire::File::Sheet))
                .set("id", "save-sheet")
                .tell(key!("Save the cost sheet as a file")),
        )
        .put(
            element("div")
                .class("field")
                .put(
                    element("label")
                        .set("for", "board-file")
                        .tell(key!("Take in a board file")),
                )
                .put(element("div").class("box").put(input)),
        )
        .put(answer)
        .maybe(undo)
        .html()
}
