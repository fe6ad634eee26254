//! The plans that earn most in an hour at the bench.
//!
//! Profit over time is no sum over the ways, but Dinkelbach's method turns it
//! into a row of searches that are (W. Dinkelbach, “On nonlinear fractional
//! programming”, Management Science 13, 1967; from memory): take the best rate
//! `q` known and seek the greatest `profit − q·time`. Where that is above
//! nothing its plan has a better rate; where it is nothing, no plan has. For
//! the best `k` plans `q` is the rate of the k-th best known: as long as fewer
//! than `k` plans are above nothing at `q`, none is missing.

use super::problem::Problem;
use super::search::{Budget, Searched, Solution, search};

/// Searches at most; the method takes five or six.
const SEARCHES: usize = 40;

/// Profit and time of plans, branch by branch.
pub(super) struct Rates<'a> {
    /// Minutes at the bench of each branch.
    pub bench: &'a [f64],
    /// What the side itself adds to the profit of any plan.
    pub fixed: f64,
}

impl Rates<'_> {
    fn bench_of(&self, plan: &[usize]) -> f64 {
        plan.iter().map(|&branch| self.bench[branch]).sum()
    }

    /// The plans with the best rates, which become their worths.
    fn best_of(&self, problem: &Problem, wanted: usize, plans: Vec<Solution>) -> Vec<Solution> {
        let mut best: Vec<Solution> = Vec::new();
        for mut plan in plans {
            let (profit, _) = problem.worth_and_minutes(&plan.branches);
            plan.worth = (profit + self.fixed) / self.bench_of(&plan.branches);
            plan.put_into(&mut best, wanted);
        }
        best
    }
}

/// The `wanted` plans with the greatest profit for each minute at the bench,
/// which is what the worths and the bound of the answer are. The worths of
/// `problem` are profits; every plan of it takes `least_bench` minutes or more,
/// which is above nothing.
pub(super) fn search_rates(
    problem: &Problem,
    rates: &Rates,
    least_bench: f64,
    wanted: usize,
    budget: &mut Budget,
) -> Searched {
    let mut found = search(problem.clone(), wanted, &[], budget);
    let mut known = rates.best_of(problem, wanted, core::mem::take(&mut found.solutions));
    let mut bound = f64::INFINITY;
    let mut is_list_proven = found.is_list_proven && known.len() < wanted;
    for _ in 0..SEARCHES {
        let Some(last) = known.last().filter(|_| !is_list_proven) else {
            break;
        };
        let rate = last.worth;
        let mut at_rate = problem.clone();
        for (branch, bench) in at_rate.branches.iter_mut().zip(rates.bench) {
            branch.worth -= rate * bench;
        }
        let start: Vec<_> = known.iter().map(|plan| plan.branches.clone()).collect();
        found = search(at_rate, wanted, &start, budget);
        // No plan is further above the rate than this, in money; for each
        // minute it is at most that over the shortest time.
        let above = (found.bound + rates.fixed).max(0.0);
        bound = bound.min(rate + above / least_bench);
        let before: Vec<_> = known.iter().map(|plan| plan.key.clone()).collect();
        known.append(&mut found.solutions);
        known = rates.best_of(problem, wanted, known);
        if known.iter().map(|plan| &plan.key).eq(&before) {
            is_list_proven = found.is_list_proven;
            break;
        }
    }
    if is_list_proven {
        bound = known.first().map_or(f64::NEG_INFINITY, |best| best.worth);
    }
    Searched {
        solutions: known,
        bound,
        is_list_proven,
    }
}
