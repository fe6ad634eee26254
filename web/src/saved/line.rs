//! The line of one saved plan.

use js_sys::{Date, Object};
use shelf::Saved;
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::element::{Element, button, element};
use draft::{Draft, Field};

/// What is done with a saved plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Deed {
    /// It takes the place of what is typed now.
    Open,
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
                .write("aria-label", format!("Open: {}", plan.name))
                .say("Open"),
        );
    let tools = match new_name {
        None => element("div")
            .class("saved-tools")
            .put(tool(Deed::StartRenaming, "Rename"))
            .put(tool(Deed::Duplicate, "Duplicate"))
            .put(tool(Deed::Delete, "Delete")),
        Some(name) => {
            let typed = {
                let (deed, key) = (deed.clone(), key.to_owned());
                Callback::from(move |event: InputEvent| {
                    let input: HtmlInputElement = event.target_unchecked_into();
                    deed.emit((key.clone(), Deed::TypeName(input.value())));
                })
            };
            element("div")
                .class("saved-tools")
                .put(
                    element("div").class("box").put(
                        element("input")
                            .set("type", "text")
                            .set("maxlength", "80")
                            .write("aria-label", format!("New name of {}", plan.name))
                            .value(name.to_owned())
                            .on_input(typed),
                    ),
                )
                .put(button("", does(Deed::Rename(name.to_owned()))).say("Rename"))
                .put(button("quiet", does(Deed::LeaveName)).say("Leave it"))
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
    let mut parts = vec![day(plan.changed)];
    parts.extend(weight_and_price(&plan.draft));
    parts.push(match plan.draft.grass_percent {
        0 => "grain-fed".to_owned(),
        100 => "grass-fed".to_owned(),
        percent => format!("{percent} % to grass-fed"),
    });
    parts.join(" · ")
}

/// Weight and price as they were typed.
fn weight_and_price(draft: &Draft) -> Option<String> {
    let [weight, price] = [Field::Weight, Field::Price].map(|field| draft.entry(&field));
    if weight.text.is_empty() || price.text.is_empty() {
        return None;
    }
    Some(format!(
        "{} at {}",
        weight.with_unit(" "),
        price.with_unit("/")
    ))
}

/// A day as the person's language writes it: there is no language of the name
/// that is asked for, and so the browser takes its own.
pub fn day(milliseconds: u64) -> String {
    let options = Object::new();
    // Neither can fail on an object of one's own.
    let _ = js_sys::Reflect::set(&options, &"dateStyle".into(), &"medium".into());
    #[expect(
        clippy::cast_precision_loss,
        reason = "a date is far below 2^53 milliseconds"
    )]
    let date = Date::new(&(milliseconds as f64).into());
    String::from(date.to_locale_date_string("default", &options))
}
