//! The line of one saved plan.

use std::rc::Rc;

use shelf::Saved;
use web_sys::HtmlInputElement;
use wording::{key, say, text};
use yew::prelude::*;

use crate::element::{Element, button, element};
use crate::locale;
use draft::{Draft, Field};

/// The id of the field for a new name.
pub const NEW_NAME: &str = "new-name";

/// What is done with a saved plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Deed {
    /// It takes the place of what is typed now.
    Open,
    /// The same, but for the costs and prices of the shop as they are now.
    OpenByNow,
    /// It is saved once more under another name.
    Duplicate,
    /// It is taken away.
    Delete,
    /// A new name is asked for.
    StartRenaming,
    /// A new name is being typed.
    TypeName(String),
    /// The name stays.
    LeaveName,
    /// It is called so from now on.
    Rename(String),
}

/// The line. `new_name` is what is typed as its new name.
pub fn line(
    key: &str,
    plan: &Saved,
    new_name: Option<&str>,
    deed: &Callback<(String, Deed)>,
) -> Element {
    let does = |what: Deed| {
        let (deed, key) = (deed.clone(), key.to_owned());
        Callback::from(move |_: MouseEvent| deed.emit((key.clone(), what.clone())))
    };
    let tool = |what: Deed, word: &'static str| {
        button("quiet", does(what))
            .write("aria-label", format!("{word}: {}", plan.name))
            .say(word)
    };
    let head = element("div")
        .class("saved-head")
        .put(
            element("div")
                .put(element("strong").text(plan.name.clone()))
                .put(element("p").class("note").text(brief(plan))),
        )
        .put(
            button("", does(Deed::Open))
                .write("aria-label", say!("Open: {plan}", plan.name))
                .tell(key!("Open")),
        );
    let tools = match new_name {
        None => element("div")
            .class("saved-tools")
            .put(tool(Deed::OpenByNow, text!("Open with the prices of now")))
            .put(tool(Deed::StartRenaming, text!("Rename")))
            .put(tool(Deed::Duplicate, text!("Duplicate")))
            .put(tool(Deed::Delete, text!("Delete"))),
        Some(name) => {
            let typed = {
                let (deed, key) = (deed.clone(), key.to_owned());
                Callback::from(move |event: InputEvent| {
                    let input: HtmlInputElement = event.target_unchecked_into();
                    deed.emit((key.clone(), Deed::TypeName(input.value())));
                })
            };
            let entered = {
                let (deed, done) = (deed.clone(), Deed::Rename(name.to_owned()));
                let key = key.to_owned();
                Callback::from(move |event: SubmitEvent| {
                    event.prevent_default();
                    deed.emit((key.clone(), done.clone()));
                })
            };
            element("form")
                .class("saved-tools")
                .on(Rc::new(html::onsubmit::Wrapper::new(entered)))
                .put(
                    element("div").class("box").put(
                        element("input")
                            .set("id", NEW_NAME)
                            .set("type", "text")
                            .set("maxlength", "80")
                            .write("aria-label", say!("New name of {plan}", plan.name))
                            .value(name.to_owned())
                            .on_input(typed),
                    ),
                )
                .put(element("button").set("type", "submit").tell(key!("Rename")))
                .put(button("quiet", does(Deed::LeaveName)).tell(key!("Leave it")))
        }
    };
    element("li")
        .key(key)
        .write("data-saved", plan.name.clone())
        .put(head)
        .put(tools)
}

/// What tells it from others at a glance.
fn brief(plan: &Saved) -> String {
    let mut parts = vec![locale::day(plan.changed)];
    parts.extend(weight_and_price(&plan.draft));
    parts.push(match plan.draft.grass_percent {
        0 => text!("grain-fed").to_owned(),
        100 => text!("grass-fed").to_owned(),
        percent => say!("{percent} % to grass-fed", percent),
    });
    parts.join(" · ")
}

/// Weight and price as they were typed.
fn weight_and_price(draft: &Draft) -> Option<String> {
    let [weight, price] = [Field::Weight, Field::Price].map(|field| draft.entry(&field));
    if weight.text.is_empty() || price.text.is_empty() {
        return None;
    }
    Some(say!(
        "{weight} at {price}",
        weight.with_unit(" "),
        price.with_unit("/")
    ))
}
