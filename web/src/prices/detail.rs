//! What stands behind one line of the cost sheet: what may be done to it, and
//! what the worker tells about it.

use advice::wire::Told;
use carcass::ProductId;
use wording::{key, text};
use yew::prelude::*;

use super::origin;
use crate::element::{all, element};
use crate::entry_field::{Form, Looks};
use crate::state::{Data, Figures};
use crate::told::Telling;
use draft::Field;

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
            element("h3").tell(key!("Hold its suggested price")).html(),
            element("div")
                .class("triple")
                .node(entry(
                    Field::Pin(id.clone()),
                    text!("At"),
                    text!("My price, as it is."),
                ))
                .node(entry(Field::Floor(id.clone()), text!("Not below"), ""))
                .node(entry(Field::Cap(id.clone()), text!("Not above"), ""))
                .html(),
            element("p")
                .class("note")
                .tell(key!(
                    "The other cuts make up for it, so that the side still meets the target."
                ))
                .html(),
            element("div")
                .class("pair")
                .node(entry(
                    Field::CutUnsold(id.clone()),
                    text!("Unsold of this cut, %"),
                    text!("Empty: as for all cuts."),
                ))
                .node(entry(
                    Field::CutMarkedDown(id.clone()),
                    text!("Marked down, %"),
                    text!("Empty: as for all cuts."),
                ))
                .html(),
        ])
    });
    element("div")
        .class("detail")
        .node(origin::cautions_of(data, figures, product))
        .node(of_a_cut.unwrap_or_default())
        .node(html! {
            <Telling key={id.clone()} figures={figures.clone()} told={Told::Behind} about={id.clone()} />
        })
        .html()
}
