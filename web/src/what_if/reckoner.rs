//! The page's end of the worker.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;

use advice::{Answer, Panel, Request};
use js_sys::Uint8Array;
use wasm_bindgen::prelude::*;
use web_sys::{MessageEvent, Worker, WorkerOptions, WorkerType};
use yew::Callback;

/// What a panel hears.
pub type Heard = Result<Rc<Answer>, &'static str>;

/// What a panel is told when there is no worker to ask.
const NO_WORKER: &str = "This browser could not start the part of the app that works this out. \
     Reload the page; if that does not help, a newer browser may.";

/// A worker that starts with the first question. Two handles are the same when
/// they are of one worker.
#[derive(Clone, Default)]
pub struct Reckoner(Rc<Line>);

#[derive(Default)]
struct Line {
    worker: RefCell<Option<Worker>>,
    is_ready: Cell<bool>,
    has_failed: Cell<bool>,
    /// Asked before the worker could hear.
    unsent: RefCell<BTreeMap<Panel, Request>>,
    listeners: RefCell<BTreeMap<Panel, Callback<Heard>>>,
}

impl PartialEq for Reckoner {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl Reckoner {
    /// Who hears the answers for a panel.
    pub fn listen(&self, panel: Panel, listener: Callback<Heard>) {
        self.0.listeners.borrow_mut().insert(panel, listener);
    }

    /// Asks. A newer question of a panel takes the place of an older one.
    pub fn ask(&self, request: Request) {
        let line = &self.0;
        if line.has_failed.get() {
            tell(line, request.panel, Err(NO_WORKER));
        } else if line.is_ready.get() {
            line.send(&request);
        } else {
            line.unsent.borrow_mut().insert(request.panel, request);
            if line.worker.borrow().is_none() {
                start(line);
            }
        }
    }
}

impl Line {
    fn send(&self, request: &Request) {
        if let (Some(worker), Ok(bytes)) = (&*self.worker.borrow(), postcard::to_allocvec(request))
        {
            // Bytes can always be cloned into a worker.
            let _ = worker.post_message(&Uint8Array::from(bytes.as_slice()));
        }
    }

    fn heard(&self, message: &JsValue) {
        // The one message that is no answer is the first: the worker can hear.
        if self.is_ready.replace(true) {
            let bytes = Uint8Array::new(message).to_vec();
            if let Ok(answer) = postcard::from_bytes::<Answer>(&bytes) {
                tell(self, answer.panel, Ok(Rc::new(answer)));
            }
        } else {
            for request in std::mem::take(&mut *self.unsent.borrow_mut()).values() {
                self.send(request);
            }
        }
    }

    fn failed(&self) {
        self.has_failed.set(true);
        let panels: Vec<Panel> = self.listeners.borrow().keys().copied().collect();
        for panel in panels {
            tell(self, panel, Err(NO_WORKER));
        }
    }
}

fn tell(line: &Line, panel: Panel, heard: Heard) {
    let listener = line.listeners.borrow().get(&panel).cloned();
    if let Some(listener) = listener {
        listener.emit(heard);
    }
}

fn start(line: &Rc<Line>) {
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    let Ok(worker) = Worker::new_with_options("./reckoner-boot.js", &options) else {
        line.failed();
        return;
    };
    let hear = Closure::<dyn FnMut(MessageEvent)>::new({
        let line = Rc::clone(line);
        move |event: MessageEvent| line.heard(&event.data())
    });
    let fail = Closure::<dyn FnMut()>::new({
        let line = Rc::clone(line);
        move || line.failed()
    });
    worker.set_onmessage(Some(hear.as_ref().unchecked_ref()));
    worker.set_onerror(Some(fail.as_ref().unchecked_ref()));
    // The worker lives as long as the page.
    hear.forget();
    fail.forget();
    line.worker.replace(Some(worker));
}
