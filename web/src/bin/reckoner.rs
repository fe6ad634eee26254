//! The worker that answers the questions of the place “What if”, so that the
//! page itself is never held up: takes requests, works them off in small steps
//! between which newer requests come in, posts answers.

use std::cell::RefCell;
use std::rc::Rc;

use advice::{Desk, wire};
use carcass::Catalogue;
use js_sys::Function;
use wasm_bindgen::prelude::*;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

/// The data files, checked and packed when the app is built.
const CATALOGUE: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/catalogue.packed"));

/// What the page hears once it may ask: what is sent before would be lost.
const READY: &str = "ready";

fn main() {
    let Ok(scope) = js_sys::global().dyn_into::<DedicatedWorkerGlobalScope>() else {
        return;
    };
    let Ok(catalogue) = Catalogue::from_packed(CATALOGUE) else {
        return;
    };
    let desk = Rc::new(RefCell::new(Desk::new(catalogue)));
    let step = stepping(&scope, &desk);
    let take = Closure::<dyn FnMut(MessageEvent)>::new({
        let scope = scope.clone();
        move |event: MessageEvent| {
            let Some(text) = event.data().as_string() else {
                return;
            };
            let mut desk = desk.borrow_mut();
            let at_once = wire::file(desk.catalogue(), &text)
                .or_else(|| wire::told(desk.catalogue(), &text))
                .or_else(|| wire::board_file(desk.catalogue(), &text));
            if let Some(answer) = at_once {
                post(&scope, &JsValue::from_str(&answer));
                return;
            }
            let Some(request) = wire::read_request(desk.catalogue(), &text) else {
                return;
            };
            let was_idle = desk.is_idle();
            desk.ask(request);
            if was_idle {
                in_a_moment(&scope, &step);
            }
        }
    });
    scope.set_onmessage(Some(take.as_ref().unchecked_ref()));
    take.forget();
    post(&scope, &JsValue::from_str(READY));
}

/// What does a step of the work and comes back for the next one after whatever
/// has come in meanwhile.
fn stepping(scope: &DedicatedWorkerGlobalScope, desk: &Rc<RefCell<Desk>>) -> Function {
    let scope = scope.clone();
    let desk = Rc::clone(desk);
    let itself: Rc<RefCell<Option<Function>>> = Rc::default();
    let step = Closure::<dyn FnMut()>::new({
        let itself = Rc::clone(&itself);
        move || {
            let mut desk = desk.borrow_mut();
            let answer = desk.step();
            if let Some(answer) = answer {
                post(&scope, &JsValue::from_str(&wire::answer(&answer)));
            }
            if let (false, Some(step)) = (desk.is_idle(), &*itself.borrow()) {
                in_a_moment(&scope, step);
            }
        }
    });
    let step: Function = step.into_js_value().unchecked_into();
    itself.replace(Some(step.clone()));
    step
}

/// Neither call can fail in a worker that runs.
fn in_a_moment(scope: &DedicatedWorkerGlobalScope, step: &Function) {
    let _ = scope.set_timeout_with_callback(step);
}

fn post(scope: &DedicatedWorkerGlobalScope, message: &JsValue) {
    let _ = scope.post_message(message);
}
