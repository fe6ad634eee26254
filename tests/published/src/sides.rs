//! Sides to hold against the tables.

use carcass::{Breakdown, Catalogue, Kind, ProductId, Stock, What, break_down};
use quantity::{Decimal, Mass};

/// The catalogue that ships with the tool.
///
/// # Panics
/// When its data does not load.
#[track_caller]
pub fn catalogue() -> Catalogue {
    match Catalogue::published() {
        Ok(catalogue) => catalogue,
        Err(error) => panic!("the published data does not load: {error}"),
    }
}

/// A side of one hundred kilograms, so that a kilogram is a percent.
///
/// # Panics
/// When no plan has the id `plan`.
#[track_caller]
pub fn broken_down(catalogue: &Catalogue, plan: &str, stock: Stock) -> Breakdown {
    let Some(named) = catalogue.plan(plan) else {
        panic!("no plan “{plan}”");
    };
    break_down(
        catalogue,
        Mass::from_kg(Decimal::ONE_HUNDRED),
        1,
        &named.plan,
        stock,
    )
}

/// Percent of the side in products of the `kinds`.
pub fn percent_of_kinds(catalogue: &Catalogue, side: &Breakdown, kinds: &[Kind]) -> Decimal {
    side.share_of(|product| kinds.contains(&catalogue[product].kind))
        .percent()
}

/// Percent of the side in the products with these ids, wherever they come
/// off it.
///
/// # Panics
/// When an id is unknown.
#[track_caller]
pub fn percent_of_products(catalogue: &Catalogue, side: &Breakdown, ids: &[&str]) -> Decimal {
    let wanted: Vec<ProductId> = ids
        .iter()
        .map(|id| match catalogue.product_id(id) {
            Some(product) => product,
            None => panic!("no product “{id}”"),
        })
        .collect();
    side.share_of(|product| wanted.contains(&product)).percent()
}

/// Percent of the side in the parts with these ids.
///
/// # Panics
/// When an id is unknown.
#[track_caller]
pub fn percent_of_parts(catalogue: &Catalogue, side: &Breakdown, ids: &[&str]) -> Decimal {
    let wanted: Vec<_> = ids
        .iter()
        .map(|id| match catalogue.part_id(id) {
            Some(part) => part,
            None => panic!("no part “{id}”"),
        })
        .collect();
    side.nodes()
        .iter()
        .filter(|node| matches!(node.what, What::Part { part, .. } if wanted.contains(&part)))
        .map(|node| node.share.percent())
        .sum()
}
