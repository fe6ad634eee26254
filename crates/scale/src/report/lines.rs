//! The lines of a report: cuts, parts and losses, each with what it has of the
//! variance.

use carcass::{Catalogue, Kind, ProductId, What};
use litemap::LiteMap;
use pricing::CostSheet;
use quantity::{Mass, Money, Share};

use super::{CutLine, Pair, PartLine};
use crate::composition::products;
use crate::variance::{Variance, at_places};

/// Makes `amounts`, cut to the places of a variance, sum to `whole` by changing
/// the largest one.
fn tied<'a>(amounts: impl Iterator<Item = &'a mut Money>, whole: Money) {
    let mut amounts: Vec<&mut Money> = amounts.collect();
    for amount in &mut amounts {
        **amount = at_places(**amount);
    }
    let sum: Money = amounts.iter().map(|amount| **amount).sum();
    let largest = amounts
        .into_iter()
        .max_by_key(|amount| amount.units().abs());
    if let Some(largest) = largest {
        *largest += whole - sum;
    }
}

/// One row of a sheet, or one that is empty where it has none.
#[derive(Clone, Copy, Default)]
struct Cell {
    weight: Mass,
    share: Share,
    cost: Money,
    sales: Money,
    margin: Option<Share>,
    /// What it brings before its share of the side: packaging taken off.
    worth: Money,
}

fn cell(sheet: &CostSheet, product: ProductId) -> Cell {
    let Some(row) = sheet.rows.iter().find(|row| row.product == product) else {
        return Cell::default();
    };
    let packaging = sheet
        .breakdown
        .nodes()
        .iter()
        .zip(&sheet.costs)
        .filter(|(node, _)| node.what == What::Product(product))
        .map(|(_, cost)| cost.packaging)
        .sum();
    Cell {
        weight: row.weight,
        share: row.share,
        cost: row.exact_cost,
        sales: row.sales,
        margin: row.margin,
        worth: row.sales - packaging,
    }
}

/// The sheets of a side, all of the same pieces in the same order.
pub(super) struct Sheets<'a> {
    pub(super) planned: &'a CostSheet,
    /// Planned, with the weights of the closed side.
    pub(super) by_yield: &'a CostSheet,
    /// The same, with the prices.
    pub(super) by_price: &'a CostSheet,
    /// The same, with the labour.
    pub(super) actual: &'a CostSheet,
    /// What every piece weighs by the scale.
    pub(super) weighed: &'a [Mass],
}

impl Sheets<'_> {
    /// A weight by the scale as a share of the side.
    fn share(&self, weight: Mass) -> Share {
        weight
            .ratio_to(self.planned.totals.chilled)
            .unwrap_or_default()
    }

    pub(super) fn cut_lines(&self, variance: &Variance) -> Vec<CutLine> {
        let mut cuts: Vec<ProductId> = self.planned.rows.iter().map(|row| row.product).collect();
        for row in &self.actual.rows {
            if !cuts.contains(&row.product) {
                cuts.push(row.product);
            }
        }
        let mut lines: Vec<CutLine> = cuts
            .into_iter()
            .map(|product| self.cut_line(product))
            .collect();
        tied(
            lines.iter_mut().map(|line| &mut line.by_yield),
            variance.by_yield,
        );
        tied(
            lines.iter_mut().map(|line| &mut line.by_price),
            variance.by_board,
        );
        lines
    }

    fn cut_line(&self, product: ProductId) -> CutLine {
        let before = cell(self.planned, product);
        let after = cell(self.actual, product);
        let weighed = cell(self.by_yield, product).worth;
        let weight: Mass = products(&self.planned.breakdown)
            .filter(|(_, of, _)| *of == product)
            .filter_map(|(index, _, _)| self.weighed.get(index))
            .copied()
            .sum();
        CutLine {
            product,
            weight: Pair {
                planned: before.weight,
                actual: weight,
            },
            share: Pair {
                planned: before.share,
                actual: self.share(weight),
            },
            cost: Pair {
                planned: before.cost,
                actual: after.cost,
            },
            sales: Pair {
                planned: before.sales,
                actual: after.sales,
            },
            margin: Pair {
                planned: before.margin,
                actual: after.margin,
            },
            by_yield: weighed - before.worth,
            by_price: cell(self.by_price, product).worth - weighed,
        }
    }

    pub(super) fn part_lines(&self, catalogue: &Catalogue, variance: &Variance) -> Vec<PartLine> {
        let margins = Pair {
            planned: margins(catalogue, self.planned),
            actual: margins(catalogue, self.actual),
        };
        let worth = [self.planned, self.by_yield, self.by_price].map(worth_at_once);
        let at = |amounts: &[Money], index: usize| amounts.get(index).copied().unwrap_or_default();
        let of_planned = self
            .planned
            .breakdown
            .nodes()
            .iter()
            .zip(&self.planned.costs);
        let mut lines: Vec<PartLine> = of_planned
            .zip(&self.actual.costs)
            .zip(self.weighed)
            .enumerate()
            .filter_map(|(index, (((node, cost), costed), weighed))| {
                let What::Part { part, way } = node.what else {
                    return None;
                };
                let [planned, by_yield, by_price] = &worth;
                Some(PartLine {
                    part,
                    way,
                    weight: Pair {
                        planned: node.weight,
                        actual: *weighed,
                    },
                    share: Pair {
                        planned: node.share,
                        actual: self.share(*weighed),
                    },
                    cost: Pair {
                        planned: cost.cost,
                        actual: costed.cost,
                    },
                    minutes: Pair {
                        planned: self.planned.time.of_piece(index),
                        actual: self.actual.time.of_piece(index),
                    },
                    labour: Pair {
                        planned: cost.labour,
                        actual: costed.labour,
                    },
                    sales: Pair {
                        planned: cost.sales,
                        actual: costed.sales,
                    },
                    margin: Pair {
                        planned: margins.planned.get(index).copied().flatten(),
                        actual: margins.actual.get(index).copied().flatten(),
                    },
                    by_yield: at(by_yield, index) - at(planned, index),
                    by_price: at(by_price, index) - at(by_yield, index),
                    by_labour: cost.labour - costed.labour,
                })
            })
            .collect();
        tied(
            lines.iter_mut().map(|line| &mut line.by_yield),
            variance.by_yield,
        );
        tied(
            lines.iter_mut().map(|line| &mut line.by_price),
            variance.by_board,
        );
        tied(
            lines.iter_mut().map(|line| &mut line.by_labour),
            variance.by_labour,
        );
        lines
    }

    pub(super) fn losses(&self, catalogue: &Catalogue) -> Vec<(ProductId, Pair<Mass>)> {
        let mut losses: LiteMap<ProductId, Pair<Mass>> = LiteMap::new();
        for (index, product, node) in products(&self.planned.breakdown) {
            if catalogue[product].kind == Kind::Loss {
                let before = losses.get(&product).copied().unwrap_or_default();
                let weighed = self.weighed.get(index).copied().unwrap_or_default();
                losses.insert(
                    product,
                    Pair {
                        planned: before.planned + node.weight,
                        actual: before.actual + weighed,
                    },
                );
            }
        }
        losses.into_iter().collect()
    }
}

/// What comes off every part at once brings, its packaging taken off.
fn worth_at_once(sheet: &CostSheet) -> Vec<Money> {
    let mut worth = vec![Money::ZERO; sheet.costs.len()];
    for (node, cost) in sheet.breakdown.nodes().iter().zip(&sheet.costs) {
        let parent = node.parent.and_then(|parent| worth.get_mut(parent));
        if let (What::Product(_), Some(parent)) = (node.what, parent) {
            *parent += cost.sales + cost.by_products - cost.packaging;
        }
    }
    worth
}

/// The margin of every piece: what its cuts sell for, less all that these cost.
fn margins(catalogue: &Catalogue, sheet: &CostSheet) -> Vec<Option<Share>> {
    let mut costs = vec![Money::ZERO; sheet.costs.len()];
    // Children stand behind their parents, so from the back every piece is
    // complete before it is added to its parent.
    for (index, node) in sheet.breakdown.nodes().iter().enumerate().rev() {
        if let What::Product(product) = node.what
            && catalogue[product].kind == Kind::Cut
            && let (Some(sum), Some(cost)) = (costs.get_mut(index), sheet.costs.get(index))
        {
            *sum = cost.full_cost();
        }
        let cost = costs.get(index).copied().unwrap_or_default();
        if let Some(parent) = node.parent.and_then(|parent| costs.get_mut(parent)) {
            *parent += cost;
        }
    }
    let of_all = sheet.costs.iter().zip(costs);
    of_all
        .map(|(piece, cost)| (piece.sales - cost).ratio_to(piece.sales))
        .collect()
}
