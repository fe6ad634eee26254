//! What each limit costs: prices that turn the limits into money, so that the
//! best plan at these prices bounds every plan within the limits.
//!
//! For prices `λ ≥ 0` the greatest `worth − Σ λ·(use − most)` over all plans,
//! found by one sweep of the tree, is no less than the worth of any plan within
//! the limits. The prices that make this bound small are sought by subgradient
//! steps (Held, Wolfe and Crowder, “Validation of subgradient optimization”,
//! Mathematical Programming 6, 1974; from memory). Any prices give a valid
//! bound, so how well they are found decides the speed and never the answer.

use super::problem::{Problem, SLACK, Sweep};

/// Steps taken at most.
const STEPS: usize = 300;
/// Steps without gain before they are halved.
const PATIENCE: usize = 12;

/// Prices of the limits, the bound they give and how it splits over the tree.
#[derive(Clone, Debug)]
pub(super) struct LimitPrices {
    /// One price for each row.
    pub prices: Vec<f64>,
    /// No plan within the limits is worth more.
    pub bound: f64,
    /// Of each branch, its worth less what it uses at these prices.
    pub values: Vec<f64>,
    /// The sweep of these values.
    pub sweep: Sweep,
    /// `Σ λ·most`, which belongs to no branch.
    pub offset: f64,
}

/// Seeks prices, starting from `start`. Plans within the limits that turn up on
/// the way go to `found`; `at_least` is the worth of a plan known already.
pub(super) fn seek(
    problem: &Problem,
    start: Option<&[f64]>,
    mut at_least: Option<f64>,
    mut found: impl FnMut(Vec<usize>),
) -> LimitPrices {
    let rows = problem.rows.len();
    // Rows are in minutes, kilograms and counts: steps are made comparable.
    let reach: Vec<f64> = problem
        .rows
        .iter()
        .map(|row| {
            let most = problem.sweep(|branch| row.uses[branch]).inside[0];
            let least = -problem.sweep(|branch| -row.uses[branch]).inside[0];
            (most - least).max(SLACK)
        })
        .collect();
    let start = match start {
        Some(start) if start.len() == rows => start.to_vec(),
        _ => vec![0.0; rows],
    };
    let mut best = at(problem, start);
    let mut current = best.clone();
    let spread = best.bound
        + problem
            .sweep(|branch| -problem.branches[branch].worth)
            .inside[0];
    let mut stride = 1.0;
    let mut waited = 0;
    for _ in 0..STEPS {
        let chosen = problem.best_of(&current.sweep);
        let left: Vec<f64> = problem
            .rows
            .iter()
            .map(|row| row.most - chosen.iter().map(|&branch| row.uses[branch]).sum::<f64>())
            .collect();
        if left.iter().all(|left| *left >= -SLACK) {
            let (worth, _) = problem.worth_and_minutes(&chosen);
            at_least = Some(at_least.map_or(worth, |known| known.max(worth)));
            found(chosen);
        }
        // Only what can move a price counts: one at zero cannot fall.
        let steps: Vec<f64> = left
            .iter()
            .zip(&reach)
            .zip(&current.prices)
            .map(|((left, reach), price)| {
                if *left > 0.0 && *price <= 0.0 {
                    0.0
                } else {
                    left / reach
                }
            })
            .collect();
        let length: f64 = steps.iter().map(|step| step * step).sum();
        if length <= f64::EPSILON {
            break;
        }
        let goal = at_least.unwrap_or(best.bound - 0.1 * spread.abs().max(1.0));
        let step = stride * (current.bound - goal).max(SLACK) / length;
        let prices = current
            .prices
            .iter()
            .zip(steps.iter().zip(&reach))
            .map(|(price, (along, reach))| (price - step * along / reach).max(0.0))
            .collect();
        current = at(problem, prices);
        if current.bound < best.bound - SLACK {
            best = current.clone();
            waited = 0;
        } else {
            waited += 1;
            if waited > PATIENCE {
                waited = 0;
                stride /= 2.0;
                current = best.clone();
            }
        }
        if stride < 1e-4 {
            break;
        }
    }
    best
}

/// The bound that `prices` give.
fn at(problem: &Problem, prices: Vec<f64>) -> LimitPrices {
    let mut values: Vec<f64> = problem.branches.iter().map(|branch| branch.worth).collect();
    let mut offset = 0.0;
    for (row, &price) in problem.rows.iter().zip(&prices) {
        if price > 0.0 {
            offset += price * row.most;
            for (value, used) in values.iter_mut().zip(&row.uses) {
                *value -= price * used;
            }
        }
    }
    let sweep = problem.sweep(|branch| values[branch]);
    LimitPrices {
        bound: sweep.inside[0] + offset,
        prices,
        values,
        sweep,
        offset,
    }
}
