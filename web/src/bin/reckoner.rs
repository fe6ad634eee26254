//! The worker that answers the questions of the place “What if”, so that the
//! page itself is never held up: takes requests, works them off in small steps
//! between which newer requests come in, posts answers.

#[path = "../clock.rs"]
mod clock;

use std::cell::RefCell;
use std::rc::Rc;

use advice::{Desk, wire};
use carcass::Catalogue;
// For its allocator.
use heap as _;
use language::loaded;
use ledger::{Ledger, would_take};
use wasm_bindgen::prelude::*;
use wasm_bindgen::throw_str;
use web_sys::{DedicatedWorkerGlobalScope, MessageChannel, MessageEvent, MessagePort};
use wording::speak;

/// The data files, checked and packed when the app is built.
const CATALOGUE: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/catalogue.packed"));

/// What the page hears once it may ask: what is sent before would be lost.
const READY: &str = "ready";

fn main() {
    let Ok(scope) = js_sys::global().dyn_into::<DedicatedWorkerGlobalScope>() else {
        return;
    };
    match catalogue() {
        Some(catalogue) => start(&scope, catalogue),
        // The page hears it and says that there is nobody to ask.
        None => throw_str("what came with the worker is not of this version"),
    }
}

/// The catalogue in the language that is spoken from now on.
fn catalogue() -> Option<Catalogue> {
    let mut catalogue = Catalogue::from_packed(CATALOGUE).ok()?;
    let (language, texts) = loaded()?;
    let [page, names, rest, uses] = texts.try_into().ok()?;
    speak(language, &[&page, &rest]).ok()?;
    catalogue.call_by(&names).ok()?;
    catalogue.use_by(&uses).ok()?;
    Some(catalogue)
}

/// Takes requests from now on.
fn start(scope: &DedicatedWorkerGlobalScope, catalogue: Catalogue) {
    let ledger = RefCell::new(Ledger::new(catalogue.clone()));
    let desk = Rc::new(RefCell::new(Desk::new(catalogue.clone())));
    let Some(again) = stepping(scope, &desk) else {
        return;
    };
    let take = Closure::<dyn FnMut(MessageEvent)>::new({
        let scope = scope.clone();
        move |event: MessageEvent| {
            let Some(text) = event.data().as_string() else {
                return;
            };
            if let Some(manner) = wire::read_manner(&text) {
                notation::write_by(manner);
                return;
            }
            if let Some(own_yields) = wire::read_own_yields(&text) {
                let mut own = catalogue.clone();
                own.lay_own(own_yields);
                desk.replace(Desk::new(own));
                return;
            }
            if ledger.borrow_mut().take(&text) {
                return;
            }
            let of_the_scale = ledger.borrow_mut().answer(&text);
            let mut desk = desk.borrow_mut();
            let at_once = of_the_scale
                .or_else(|| wire::file(desk.catalogue(), &text))
                .or_else(|| wire::told(desk.catalogue(), &text))
                .or_else(|| wire::worked_out(desk.catalogue(), &text))
                .or_else(|| wire::board_file(desk.catalogue(), &text))
                .or_else(|| wire::share(desk.catalogue(), &text))
                .or_else(|| wire::print(desk.catalogue(), &text))
                .or_else(|| wire::kept_file(desk.catalogue(), &text, clock::now(), would_take))
                .or_else(|| wire::kept(&text, ledger.borrow().all_kept()))
                .or_else(|| wire::opened(desk.catalogue(), &text));
            if let Some(answer) = at_once {
                post(&scope, &JsValue::from_str(&wire::marked(answer)));
                return;
            }
            let Some(request) = wire::read_request(desk.catalogue(), &text) else {
                return;
            };
            let was_idle = desk.is_idle();
            desk.ask(request);
            if was_idle {
                in_a_moment(&again);
            }
        }
    });
    scope.set_onmessage(Some(take.as_ref().unchecked_ref()));
    take.forget();
    post(scope, &JsValue::from_str(READY));
}

/// What does a step of the work and comes back for the next one after whatever
/// has come in meanwhile. It comes back by a message to itself: a timer that is
/// set again and again is made to wait for milliseconds.
fn stepping(scope: &DedicatedWorkerGlobalScope, desk: &Rc<RefCell<Desk>>) -> Option<MessagePort> {
    let channel = MessageChannel::new().ok()?;
    let (again, ringing) = (channel.port1(), channel.port2());
    let scope = scope.clone();
    let desk = Rc::clone(desk);
    let step = Closure::<dyn FnMut()>::new({
        let again = again.clone();
        move || {
            let mut desk = desk.borrow_mut();
            let answer = desk.step();
            if let Some(answer) = answer {
                post(&scope, &JsValue::from_str(&wire::answer(&answer)));
            }
            if !desk.is_idle() {
                in_a_moment(&again);
            }
        }
    });
    ringing.set_onmessage(Some(step.as_ref().unchecked_ref()));
    step.forget();
    Some(again)
}

/// Neither call can fail in a worker that runs.
fn in_a_moment(again: &MessagePort) {
    let _ = again.post_message(&JsValue::NULL);
}

fn post(scope: &DedicatedWorkerGlobalScope, message: &JsValue) {
    let _ = scope.post_message(message);
}
