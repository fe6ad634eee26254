//! What stands behind one line of the cost sheet: what may be done to it, and
//! what the worker tells about it.

use advice::wire;
use carcass::ProductId;
use yew::prelude::*;

use super::origin;
use crate::element::{all, element};
use crate::entry_field::{Form, Looks};
use crate::piece::{self, Ears};
use crate::reckoner::{self, Heard, NO_WORKER};
use crate::state::{Data, Figures};
use draft::Field;

/// What a [`Detail`] is about.
#[derive(Properties, PartialEq)]
pub struct DetailProps {
    /// Products.
    pub data: Data,
    /// The figures.
    pub figures: Figures,
    /// The product of the line.
    pub product: ProductId,
}

/// What the worker tells about a line.
#[component]
pub fn Detail(props: &DetailProps) -> Html {
    let heard = use_state(|| None::<Result<String, ()>>);
    let id = &props.data[props.product].id;
    {
        let heard = heard.setter();
        let line = wire::behind_line(id);
        use_effect_with((), move |()| {
            let listening = reckoner::listen(Callback::from(move |news: Heard| match news {
                None => heard.set(Some(Err(()))),
                Some((kind, piece)) if kind == line => heard.set(Some(Ok(piece))),
                Some(_) => {}
            }));
            move || drop(listening)
        });
    }
    {
        let id = id.clone();
        use_effect_with(props.figures.clone(), move |figures| {
            reckoner::ask(&wire::behind_request(&figures.draft.to_text(), &id));
        });
    }
    match &*heard {
        Some(Ok(piece)) => all(piece::drawn(piece, &Vec::new(), &Ears::default())),
        Some(Err(())) => element("p").class("fault").say(NO_WORKER).html(),
        None => Html::default(),
    }
}

/// All that stands behind the line of `product`.
pub fn detail(
    form: &Form,
    data: &Data,
    figures: &Figures,
    product: ProductId,
    is_by_product: bool,
) -> Html {
    let id = &data[product].id;
    let entry = |field: Field, label, hint| form.field(field, label, Looks::hinted(hint));
    let of_a_cut = (!is_by_product).then(|| {
        all(vec![
            element("h3").say("Hold its suggested price").html(),
            element("div")
                .class("triple")
                .node(entry(Field::Pin(id.clone()), "At", "My price, as it is."))
                .node(entry(Field::Floor(id.clone()), "Not below", ""))
                .node(entry(Field::Cap(id.clone()), "Not above", ""))
                .html(),
            element("p")
                .class("note")
                .say("The other cuts make up for it, so that the side still meets the target.")
                .html(),
            entry(
                Field::CutUnsold(id.clone()),
                "Unsold of this cut, %",
                "Empty: as for all cuts.",
            ),
        ])
    });
    element("div")
        .class("detail")
        .node(origin::cautions_of(data, figures, product))
        .node(of_a_cut.unwrap_or_default())
        .node(html! {
            <Detail key={id.clone()} data={data.clone()} figures={figures.clone()} {product} />
        })
        .html()
}
