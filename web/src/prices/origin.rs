//! The cautions of the way that a cut comes off the side by.

use carcass::{Caution, Kind, Node, ProductId, WayId, What};
use yew::Html;

use crate::cautions::prominent_caution;
use crate::element::all;
use crate::state::{Data, Figures};

/// The caution that bones to be sold bring with them.
const BONES: &str = "bones-for-sale";

/// The ways of the plan that give `product`.
fn givers(figures: &Figures, product: ProductId) -> impl Iterator<Item = WayId> {
    let nodes = figures.sheet.breakdown.nodes();
    let giver = move |node: &Node| match nodes.get(node.parent?)?.what {
        What::Part { way, .. } if node.what == What::Product(product) => Some(way),
        _ => None,
    };
    nodes.iter().filter_map(giver)
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
    for way in givers(figures, product) {
        for caution in data.cautions_of(way).filter(|caution| bears(caution)) {
            if shown.iter().all(|other| other.id != caution.id) {
                shown.push(caution);
            }
        }
    }
    all(shown.into_iter().map(prominent_caution).collect())
}
