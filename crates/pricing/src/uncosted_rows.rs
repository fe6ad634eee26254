//! The rows of a cost sheet before cost is divided.

use carcass::{Breakdown, Catalogue, Kind, Node, ProductId, What};
use quantity::{Mass, Money, Share};

use crate::cost::NodeCost;
use crate::sheet::Row;
use crate::shop::Shop;

/// One row for each cut and by-product with all but its cost.
#[derive(Clone)]
pub(crate) struct UncostedRows {
    /// In the order of the catalogue.
    rows: Vec<Row>,
    /// The row that each piece of the side is in; none for parts and losses.
    row_of: Vec<Option<usize>>,
}

impl UncostedRows {
    /// The rows of a side whose pieces are worth `values`.
    pub fn of(
        catalogue: &Catalogue,
        breakdown: &Breakdown,
        values: &[NodeCost],
        shop: &Shop,
    ) -> Self {
        let in_a_row = |node: &Node| match node.what {
            What::Product(product) if catalogue[product].kind != Kind::Loss => Some(product),
            _ => None,
        };
        let nodes = breakdown.nodes();
        // Put in where each belongs: a sort would be larger for a phone to load.
        let mut products: Vec<ProductId> = Vec::new();
        for product in nodes.iter().filter_map(in_a_row) {
            if let Err(place) = products.binary_search(&product) {
                products.insert(place, product);
            }
        }
        let mut rows: Vec<Row> = products
            .iter()
            .map(|&product| Row {
                product,
                is_by_product: catalogue[product].kind.is_by_product(),
                weight: Mass::ZERO,
                share: Share::ZERO,
                exact_cost: Money::ZERO,
                cost: Money::ZERO,
                cost_per_mass: None,
                price: shop.board.price(catalogue, product),
                sales: Money::ZERO,
                margin: None,
                suggested: None,
                card: None,
            })
            .collect();
        let row_of: Vec<Option<usize>> = nodes
            .iter()
            .map(|node| products.binary_search(&in_a_row(node)?).ok())
            .collect();
        for ((row, node), value) in row_of.iter().zip(nodes).zip(values) {
            if let Some(row) = row.and_then(|row| rows.get_mut(row)) {
                row.weight += node.weight;
                row.share = row.share + node.share;
                row.sales += value.sales + value.by_products;
            }
        }
        Self { rows, row_of }
    }

    /// The rows with their cost, in the order of the sheet.
    pub fn costed(self, costs: &[NodeCost]) -> Vec<Row> {
        let Self { mut rows, row_of } = self;
        for (row, cost) in row_of.iter().zip(costs) {
            if let Some(row) = row.and_then(|row| rows.get_mut(row)) {
                row.exact_cost += cost.full_cost();
            }
        }
        for row in &mut rows {
            row.cost_per_mass = row.exact_cost.per(row.weight);
            row.margin = (row.sales - row.exact_cost).ratio_to(row.sales);
        }
        rows.sort_unstable_by(|a, b| {
            (a.is_by_product, b.cost_per_mass, a.product).cmp(&(
                b.is_by_product,
                a.cost_per_mass,
                b.product,
            ))
        });
        rows
    }
}
