//! What the worker tells about the plan where it is opened.

use advice::wire::Told;
use yew::prelude::*;

use crate::element::{all, element};
use crate::piece::{self, Ears};
use crate::reckoner::{self, Heard, NO_WORKER};
use crate::state::Figures;

/// What a [`Telling`] is about.
#[derive(Properties, PartialEq)]
pub struct TellingProps {
    /// The figures.
    pub figures: Figures,
    /// What is told.
    pub told: Told,
    /// About which of its kind.
    #[prop_or_default]
    pub about: AttrValue,
}

/// A piece that the worker tells, asked for anew with new figures.
#[component]
pub fn Telling(props: &TellingProps) -> Html {
    let heard = use_state(|| None::<Result<String, ()>>);
    let (told, about) = (props.told, props.about.clone());
    {
        let heard = heard.setter();
        let line = told.first_line(&about);
        use_effect_with((), move |()| {
            let listening = reckoner::listen(Callback::from(move |news: Heard| match news {
                None => heard.set(Some(Err(()))),
                Some((kind, piece)) if kind == line => heard.set(Some(Ok(piece))),
                Some(_) => {}
            }));
            move || drop(listening)
        });
    }
    use_effect_with(props.figures.clone(), move |figures| {
        reckoner::ask(&told.request(&figures.draft.to_text(), &about));
    });
    match &*heard {
        Some(Ok(piece)) => all(piece::drawn(piece, &Vec::new(), &Ears::default())),
        Some(Err(())) => element("p").class("fault").say(NO_WORKER).html(),
        None => Html::default(),
    }
}
