//! Where a cut comes off the side: the share it is taken to be with its source
//! and mark, and the cautions of the way that gives it.

use carcass::{Catalogue, Caution, Kind, Node, Output, ProductId, WayId, WayOutput, What};
use yew::Html;

use crate::cautions::prominent_caution;
use crate::element::{all, element};
use crate::state::{Data, Figures};

/// The caution that bones to be sold bring with them.
const BONES: &str = "bones-for-sale";

/// The ways of the plan that give `product`, each with what it gives.
fn givers<'a>(
    data: &'a Catalogue,
    figures: &'a Figures,
    product: ProductId,
) -> Vec<(WayId, &'a WayOutput)> {
    let nodes = figures.sheet.breakdown.nodes();
    let gives = |node: &Node| {
        let parent = nodes.get(node.parent?)?;
        let What::Part { way, .. } = parent.what else {
            return None;
        };
        let output = data[way]
            .outputs
            .iter()
            .find(|output| output.output == Output::Product(product))?;
        Some((way, output))
    };
    nodes
        .iter()
        .filter(|node| node.what == What::Product(product))
        .filter_map(gives)
        .collect()
}

/// What stands out about a product from an older animal, or one of unknown
/// age: its own cautions whole.
pub fn cautions_of(data: &Data, figures: &Figures, product: ProductId) -> Html {
    if !figures.resolved.deal.age.counts_as_older() {
        return Html::default();
    }
    let kind = data[product].kind;
    let has_bone = kind == Kind::Cut && !data[product].bone.fraction().is_zero();
    let bears = |caution: &Caution| {
        (has_bone && caution.is_prominent) || (kind == Kind::Bone && caution.id == BONES)
    };
    let mut shown: Vec<&Caution> = Vec::new();
    for (way, _) in givers(data, figures, product) {
        for caution in data.cautions_of(way).filter(|caution| bears(caution)) {
            if shown.iter().all(|other| other.id != caution.id) {
                shown.push(caution);
            }
        }
    }
    all(shown.into_iter().map(prominent_caution).collect())
}

/// The share of each part that a product is taken to be, with its source and
/// how well it is known.
pub fn sources(data: &Data, figures: &Figures, product: ProductId) -> Html {
    let mut list = element("ul");
    for (way, output) in givers(data, figures, product) {
        let share = notation::percent(output.grain);
        let part = data[data[way].part].name.to_ascii_lowercase();
        let mut line = format!("{share} of the {part}, grain-fed: {}.", output.mark.words());
        if let Some(source) = data.source_of(output) {
            line = line + " " + &source.title;
            if let Some(year) = &source.year {
                line = line + ", " + year;
            }
            line.push('.');
        }
        if let Some(note) = &output.note {
            line = line + " " + note + ".";
        }
        list = list.put(element("li").text(line));
    }
    element("details")
        .class("cautions sources")
        .put(element("summary").say("Where its share comes from"))
        .put(list)
        .html()
}
