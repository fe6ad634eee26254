//! The place of the plans saved by name.

mod browser;
mod file;
mod line;
mod news;
mod print;
mod share;

use std::rc::Rc;
use wording::{key, say, text};

use js_sys::JsString;
use shelf::{Order, Put, add, remove, replace};
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::clock::now;
use crate::element::{Element, button, element};
use crate::focus;
use crate::keeping::is_allowed;
use crate::locale;
use crate::select_field::select_field;
use crate::state::Action;
use crate::value::use_value;
use draft::Draft;

use browser::Browser;
pub use browser::{OnShelf, ask_to_persist, use_shelf};
use file::SavedFile;
pub use file::save_everything;
use line::{Deed, line};
use news::{News, both, notice, unreadable};
use print::Print;
use share::Share;
pub use share::address;

/// The id of the button that saves.
const SAVE: &str = "save-plan";

/// So many plans are looked over without a search.
const FEW: usize = 4;

/// What a [`Saved`] needs.
#[derive(Properties, PartialEq)]
pub struct SavedProps {
    /// The plans.
    pub shelf: OnShelf,
    /// What is typed and chosen now.
    pub draft: Rc<Draft>,
    /// What was typed before a plan was opened in its place.
    pub before: Option<Rc<Draft>>,
    /// Where events go.
    pub dispatch: Callback<Action>,
}

/// The place of the plans saved by name.
#[component]
pub fn Saved(props: &SavedProps) -> Html {
    let name = use_value(String::new);
    let sought = use_value(String::new);
    let order = use_state_eq(Order::default);
    let renaming = use_state_eq(|| None::<(String, String)>);
    let news = use_state_eq(|| None::<News>);
    let shelf = &props.shelf.shelf;
    let told = {
        let (news, look) = (news.setter(), props.shelf.look.clone());
        move |what: News| {
            news.set(Some(what));
            look.emit(());
        }
    };
    let save = {
        let (shelf, draft) = (Rc::clone(shelf), Rc::clone(&props.draft));
        let (name, told) = (name.clone(), told.clone());
        Callback::from(move |event: SubmitEvent| {
            event.prevent_default();
            let typed = shelf::tidy(&name).unwrap_or_else(|| suggested(&shelf));
            told(saved(&shelf, &typed, &draft));
            name.set(typed);
            ask_to_persist();
        })
    };
    let deed = {
        let (shelf, dispatch) = (Rc::clone(shelf), props.dispatch.clone());
        let (name, renaming) = (name.setter(), renaming.setter());
        let (told, now_typed) = (told.clone(), Rc::clone(&props.draft));
        Callback::from(move |(key, deed): (String, Deed)| {
            let Some((_, plan)) = shelf.plans.iter().find(|(found, _)| *found == key) else {
                return;
            };
            match deed {
                Deed::Open | Deed::OpenByNow => {
                    let opened = Rc::new(match deed {
                        Deed::OpenByNow => plan.draft.with_shop_of(&now_typed),
                        _ => plan.draft.clone(),
                    });
                    dispatch.emit(Action::OpenSaved(Rc::clone(&opened)));
                    name.set(plan.name.clone());
                    told(News::Opened(plan.name.clone(), opened));
                }
                Deed::Duplicate => told(kept_as_new(&shelf, &plan.name, &plan.draft)),
                Deed::Delete => {
                    remove(&Browser, &key);
                    let says = say!("“{plan}” is deleted.", plan.name);
                    told(News::Was(says, key, plan.clone()));
                }
                Deed::StartRenaming => renaming.set(Some((key, plan.name.clone()))),
                Deed::TypeName(name) => renaming.set(Some((key, name))),
                Deed::LeaveName => renaming.set(None),
                Deed::Rename(typed) => {
                    renaming.set(None);
                    let Some(tidy) = shelf::tidy(&typed).filter(|tidy| *tidy != plan.name) else {
                        return;
                    };
                    let renamed = shelf::Saved {
                        name: shelf.free_name(&tidy),
                        changed: now(),
                        ..plan.clone()
                    };
                    let says = say!("It is called “{renamed}” now.", renamed.name);
                    told(match replace(&Browser, &key, &renamed) {
                        Ok(Put::Done(_)) => News::Says(says),
                        Ok(Put::Both(_)) => News::Says(both().to_owned()),
                        Err(_) => News::Refused,
                    });
                }
            }
        })
    };
    let plans: Vec<_> = shelf
        .listed(&sought, *order, |name| {
            String::from(JsString::from(name).to_lower_case())
        })
        .into_iter()
        .map(|(key, plan)| {
            let new_name = renaming
                .as_ref()
                .filter(|(found, _)| found == key)
                .map(|(_, name)| name.as_str());
            line(key, plan, new_name, &deed).html()
        })
        .collect();
    let is_empty = plans.is_empty();
    let nothing = if shelf.plans.is_empty() {
        text!(
            "Nothing is saved yet. What is typed is kept all the same until you start a new side."
        )
    } else {
        text!("No name has these words.")
    };
    // Where nothing can be stored there is nothing to save into, and all else works.
    let (by_name, lasts) = if is_allowed() {
        (
            save_form(shelf, &name, save),
            key!(
                "Kept in this browser and nowhere else. A browser may clear it when it runs out of room, when you clear its data, or, as some do, when the page has not been opened for a week or more. What must last belongs in a file."
            ),
        )
    } else {
        (
            element("div"),
            key!(
                "This browser does not let the page store anything, so nothing can be saved by name. A plan can be saved as a file or handed on as a link."
            ),
        )
    };
    let brief = is_empty.then(|| element("p").class("note").say(nothing));
    let tools = (shelf.plans.len() > FEW).then(|| {
        element("div")
            .class("pair")
            .put(search(&sought))
            .node(order_field(*order, order.setter()))
    });
    let called = shelf::tidy(&name).unwrap_or_else(|| say!("Side of {now}", locale::day(now())));
    element("div")
        .class("sheet")
        // Much of what is worked by keys here goes away with the key, for which a click has no
        // count; a tap beside all buttons is no choice of one.
        .on_click(Callback::from(|event: MouseEvent| {
            if event.detail() == 0 {
                focus::hand_on(&[line::NEW_NAME, news::UNDO, SAVE]);
            }
        }))
        .put(by_name)
        .maybe(news.as_ref().filter(|news| news.holds(&props.draft)).map(|told_of| {
            notice(told_of, &props.dispatch, {
                let told = told.clone();
                move |news| told(news)
            })
        }))
        .maybe(props.before.as_ref().and_then(|before| left(before, props)))
        .maybe(tools)
        .put(element("ul").class("saved").put_all(plans))
        .maybe(brief)
        .maybe(unreadable(shelf))
        .node(html! { <Share draft={props.draft.clone()} /> })
        .node(html! { <Print draft={props.draft.clone()} name={called} /> })
        .node(html! { <SavedFile shelf={props.shelf.clone()} draft={props.draft.clone()} tell={Callback::from(told)} /> })
        .put(element("p").class("note").tell(lasts))
        .html()
}

/// What was typed before a plan was opened, where it is nowhere else.
fn left(before: &Rc<Draft>, props: &SavedProps) -> Option<Element> {
    let mut elsewhere = props.shelf.shelf.plans.iter().map(|(_, plan)| &plan.draft);
    if *before == props.draft || elsewhere.any(|draft| draft == &**before) {
        return None;
    }
    let bring = {
        let before = Rc::clone(before);
        props
            .dispatch
            .reform(move |_: MouseEvent| Action::OpenSaved(Rc::clone(&before)))
    };
    Some(
        element("p")
            .class("undo")
            .set("id", "typed-before")
            .tell(key!("What was typed before a plan was opened is kept."))
            .say(" ")
            .put(button("", bring).tell(key!("Bring it back"))),
    )
}

/// What a plan is called that nobody named.
fn suggested(shelf: &shelf::Shelf) -> String {
    shelf.free_name(&say!("Side of {now}", locale::day(now())))
}

/// Saves what is typed now under a name; a plan that has it is replaced.
fn saved(shelf: &shelf::Shelf, name: &str, draft: &Draft) -> News {
    let Some((key, before)) = shelf.named(name) else {
        return kept_as_new(shelf, name, draft);
    };
    let plan = shelf::Saved {
        draft: draft.clone(),
        changed: now(),
        ..before.clone()
    };
    match replace(&Browser, key, &plan) {
        Ok(Put::Done(key)) => {
            let mut before = before.clone();
            // As it is stored now, so that bringing it back is no conflict.
            before.revision = plan.revision.wrapping_add(1);
            News::Was(say!("“{name}” is replaced.", name), key, before)
        }
        Ok(Put::Both(_)) => News::Says(both().to_owned()),
        Err(_) => News::Refused,
    }
}

fn kept_as_new(shelf: &shelf::Shelf, name: &str, draft: &Draft) -> News {
    let plan = shelf::Saved {
        name: shelf.free_name(name),
        changed: now(),
        revision: 0,
        draft: draft.clone(),
    };
    match add(&Browser, &plan) {
        Ok(_) => News::Says(say!("“{plan}” is saved.", plan.name)),
        Err(_) => News::Refused,
    }
}

/// What was typed into an input, handed to a setter.
fn typed_into(setter: UseStateSetter<String>) -> Callback<InputEvent> {
    Callback::from(move |event: InputEvent| {
        let input: HtmlInputElement = event.target_unchecked_into();
        setter.set(input.value());
    })
}

fn text_field(
    id: &'static str,
    label: &'static str,
    value: &str,
    typed: Callback<InputEvent>,
) -> (Element, Element) {
    let input = element("input")
        .set("id", id)
        .set("type", "text")
        .set("autocomplete", "off")
        .set("maxlength", "80")
        .value(value.to_owned())
        .on_input(typed);
    (element("label").set("for", id).say(label), input)
}

fn save_form(
    shelf: &shelf::Shelf,
    name: &UseStateHandle<String>,
    save: Callback<SubmitEvent>,
) -> Element {
    let (label, input) = text_field(
        "saved-name",
        text!("Save this side as"),
        name,
        typed_into(name.setter()),
    );
    let word = match shelf.named(name) {
        Some((_, plan)) => say!("Replace “{plan}”", plan.name),
        None => text!("Save").to_owned(),
    };
    element("form")
        .class("field")
        .on(Rc::new(html::onsubmit::Wrapper::new(save)))
        .put(label)
        .put(
            element("div").class("box").put(
                input
                    .write("placeholder", suggested(shelf))
                    .set("aria-describedby", "saved-name-note"),
            ),
        )
        .put(
            element("p")
                .class("note")
                .set("id", "saved-name-note")
                .tell(key!("The deal, the plan and the shop as they stand now.")),
        )
        .put(
            element("button")
                .set("type", "submit")
                .set("id", SAVE)
                .text(word),
        )
}

fn search(sought: &UseStateHandle<String>) -> Element {
    let (label, input) = text_field(
        "saved-search",
        text!("Find"),
        sought,
        typed_into(sought.setter()),
    );
    element("div")
        .class("field")
        .put(label)
        .put(element("div").class("box").put(input))
}

fn order_field(order: Order, setter: UseStateSetter<Order>) -> Html {
    let choices = [
        ("newest".into(), text!("Last changed").into()),
        ("name".into(), text!("Name").into()),
    ];
    let in_force = match order {
        Order::Newest => "newest",
        Order::Name => "name",
    };
    select_field(
        "saved-order",
        text!("In order of"),
        &choices,
        in_force,
        "",
        move |chosen| {
            setter.set(if chosen == "name" {
                Order::Name
            } else {
                Order::Newest
            });
        },
    )
}
