//! Which yields a line of the sheet rests on: the shop's own or published ones.

use carcass::{Breakdown, Catalogue, Node, ProductId, Stock, What};

/// What the weight of a product rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Yields {
    /// Published yields alone.
    Published,
    /// The shop's own alone.
    Own,
    /// Own ones of some parts, published ones of others.
    Both,
}

impl Yields {
    /// What the weight of a product rests on: the yields of the parts that it comes
    /// off, by the ways in which they are cut.
    pub fn of(
        catalogue: &Catalogue,
        breakdown: &Breakdown,
        stock: Stock,
        product: ProductId,
    ) -> Self {
        let nodes = breakdown.nodes();
        let is_own = |node: &Node| match nodes.get(node.parent?)?.what {
            What::Part { way, .. } => Some(catalogue[way].own.counts_at(stock)),
            What::Product(_) => None,
        };
        let mut found = [false; 2];
        for node in nodes.iter().filter(|it| it.what == What::Product(product)) {
            if let Some(is_own) = is_own(node) {
                found[usize::from(is_own)] = true;
            }
        }
        match found {
            [_, false] => Self::Published,
            [false, true] => Self::Own,
            [true, true] => Self::Both,
        }
    }
}
