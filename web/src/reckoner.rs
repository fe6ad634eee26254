//! The page's end of the worker. The worker starts with the first question and
//! lives as long as the page.

use std::cell::{Cell, RefCell};
use wording::{spoken, text};

use advice::wire;
use notation::Manner;
use wasm_bindgen::prelude::*;
use web_sys::{MessageEvent, Worker, WorkerOptions, WorkerType};
use yew::prelude::*;

use crate::app::mark;
use crate::handing_out::hand_out;

/// What a person is told when there is no worker to ask.
pub fn no_worker() -> &'static str {
    text!(
        "This browser could not start the part of the app that works this out. \
     Reload the page; if that does not help, a newer browser may."
    )
}

/// The first line of an answer that is a file; its name and its kind follow.
pub const FILE: &str = "file";

/// What is heard: the first line of an answer and the rest of it, or that none
/// will come.
pub type Heard = Option<(String, String)>;

thread_local! {
    static LINE: Line = const { Line::new() };
}

struct Line {
    worker: RefCell<Option<Worker>>,
    /// How amounts are to be written, as a request that says so.
    manner: RefCell<String>,
    /// The shop's own yields, as a request to lay them.
    own_yields: RefCell<String>,
    is_ready: Cell<bool>,
    has_failed: Cell<bool>,
    /// Asked before the worker could hear.
    unsent: RefCell<Vec<String>>,
    /// Each with its number.
    listeners: RefCell<Vec<(u32, Callback<Heard>)>>,
    numbers: Cell<u32>,
}

/// One who hears every answer, for as long as it is held.
pub struct Listening(u32);

impl Drop for Listening {
    fn drop(&mut self) {
        LINE.with(|line| {
            line.listeners
                .borrow_mut()
                .retain(|(number, _)| *number != self.0);
        });
    }
}

/// Adds one who hears every answer.
pub fn listen(listener: Callback<Heard>) -> Listening {
    LINE.with(|line| {
        let number = line.numbers.get();
        line.numbers.set(number.wrapping_add(1));
        line.listeners.borrow_mut().push((number, listener));
        Listening(number)
    })
}

/// What was answered last: nothing yet, the rest of an answer, or that none
/// will come.
pub type Answered = Option<Result<String, ()>>;

/// The last answer whose first line is this one.
#[hook]
pub fn use_answer(first_line: String) -> UseStateHandle<Answered> {
    let answered = use_state(|| None);
    let setter = answered.setter();
    use_effect_with((), move |()| {
        let listening = listen(Callback::from(move |heard: Heard| match heard {
            None => setter.set(Some(Err(()))),
            Some((kind, answer)) if kind == first_line => setter.set(Some(Ok(answer))),
            Some(_) => {}
        }));
        move || drop(listening)
    });
    answered
}

/// Asks. A newer question of a kind, which its first line names, takes the
/// place of an older one that has not gone out.
pub fn ask(request: &str) {
    LINE.with(|line| {
        if line.has_failed.get() {
            line.refuse(request);
        } else if line.is_ready.get() {
            line.send(request);
        } else {
            {
                let mut unsent = line.unsent.borrow_mut();
                unsent.retain(|older| older.split('\n').next() != request.split('\n').next());
                unsent.push(request.to_owned());
            }
            if line.worker.borrow().is_none() {
                line.start();
            }
        }
    });
}

/// Lets the worker write amounts in this manner from now on.
pub fn write_by(manner: &Manner) {
    LINE.with(|line| {
        let request = wire::manner(manner);
        if line.is_ready.get() {
            line.send(&request);
        }
        line.manner.replace(request);
    });
}

/// Lets the worker reckon with the shop's own yields from now on; with the
/// published ones where there are none.
pub fn lay_own(own_yields: &str) {
    LINE.with(|line| {
        let request = wire::own_yields(own_yields);
        if line.is_ready.get() {
            line.send(&request);
        }
        line.own_yields.replace(request);
    });
}

impl Line {
    const fn new() -> Self {
        Self {
            worker: RefCell::new(None),
            manner: RefCell::new(String::new()),
            own_yields: RefCell::new(String::new()),
            is_ready: Cell::new(false),
            has_failed: Cell::new(false),
            unsent: RefCell::new(Vec::new()),
            listeners: RefCell::new(Vec::new()),
            numbers: Cell::new(0),
        }
    }

    fn send(&self, request: &str) {
        if let Some(worker) = &*self.worker.borrow() {
            // A text can always be cloned into a worker.
            let _ = worker.post_message(&JsValue::from_str(request));
        }
    }

    fn heard(&self, message: &JsValue) {
        // The one message that is no answer is the first: the worker can hear.
        if !self.is_ready.replace(true) {
            mark("worker-ready");
            self.send(&self.manner.borrow());
            self.send(&self.own_yields.borrow());
            for request in self.unsent.take() {
                self.send(&request);
            }
            return;
        }
        let Some(text) = message.as_string() else {
            return;
        };
        let mut lines = text.splitn(4, '\n');
        let (Some(kind), Some(second)) = (lines.next(), lines.next()) else {
            return;
        };
        if kind == FILE {
            if let (Some(media_type), Some(content)) = (lines.next(), lines.next()) {
                hand_out(second, media_type, content);
            }
            self.tell(&Some((FILE.to_owned(), String::new())));
        } else {
            let rest = text.get(kind.len() + 1..).unwrap_or_default();
            self.tell(&Some((kind.to_owned(), rest.to_owned())));
        }
    }

    fn tell(&self, heard: &Heard) {
        let listeners = self.listeners.borrow().clone();
        for (_, listener) in listeners {
            listener.emit(heard.clone());
        }
    }

    fn failed(&self) {
        self.has_failed.set(true);
        for request in self.unsent.take() {
            self.refuse(&request);
        }
    }

    /// Says that there is nobody to ask. What waits for a file or a paper has no
    /// place of its own to say it.
    fn refuse(&self, request: &str) {
        if matches!(request.split('\n').next(), Some(FILE | wire::PRINT)) {
            if let Some(window) = web_sys::window() {
                // A browser that shows no messages shows none.
                let _ = window.alert_with_message(no_worker());
            }
        } else {
            self.tell(&None);
        }
    }

    fn start(&self) {
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        // It loads the texts of the language by itself. A query would not reach
        // it: what comes from the service worker has the address without one.
        options.set_name(spoken().primary());
        let Ok(worker) = Worker::new_with_options("./reckoner-boot.js", &options) else {
            self.failed();
            return;
        };
        let hear = Closure::<dyn FnMut(MessageEvent)>::new(|event: MessageEvent| {
            LINE.with(|line| line.heard(&event.data()));
        });
        let fail = Closure::<dyn FnMut()>::new(|| LINE.with(Line::failed));
        worker.set_onmessage(Some(hear.as_ref().unchecked_ref()));
        worker.set_onerror(Some(fail.as_ref().unchecked_ref()));
        hear.forget();
        fail.forget();
        self.worker.replace(Some(worker));
        dress();
    }
}

/// Brings the style sheet of what the worker writes.
fn dress() {
    let document = web_sys::window().and_then(|window| window.document());
    let root = document
        .as_ref()
        .and_then(web_sys::Document::document_element);
    let link = document.and_then(|document| document.create_element("link").ok());
    if let (Some(root), Some(link)) = (root, link) {
        // Names that any element takes, in a page that takes elements: none fails.
        let _ = link.set_attribute("rel", "stylesheet");
        let _ = link.set_attribute("href", "./answers.css");
        let _ = root.append_child(&link);
    }
}
