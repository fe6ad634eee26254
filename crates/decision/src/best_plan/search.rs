//! The search itself: labels are built from the leaves of the tree to its root,
//! and a label is dropped only when it is proven needless.
//!
//! Three proofs are used. Its bound, what it and the best of everything else are
//! worth at the prices of the limits ([`super::limit_prices`]), lies below the
//! plans known already. It uses so much of a limit that no completion keeps it.
//! Another label is at least as good in every way,
//! where limits that are kept whatever completes the two do not count.
//! (Dynamic programming with bounds: Kellerer, Pferschy and Pisinger, *Knapsack
//! Problems*, 2004, ch. 11, multiple choice; from memory.)
//!
//! A pass may keep only the most promising labels of each place; it then knows
//! the best bound among those it dropped, and the answer is proven when no
//! dropped bound reaches it. Passes widen until it is, or the work allowed is
//! used up.

use std::collections::BinaryHeap;

use super::labels::{Label, Labels, Trail, Trails, by_name};
use super::limit_prices::{LimitPrices, seek};
use super::problem::{Problem, SLACK, Sweep};

/// Labels kept at a place in the first pass and by what factor that grows.
const FIRST_WIDTH: usize = 64;
const WIDENING: usize = 8;
/// How far below nothing the bound must fall before it proves that no plan
/// keeps the limits: a slack of every limit at the price of that limit.
const BELOW_NOTHING: f64 = 1e-6;

/// A plan within the limits.
#[derive(Clone, Debug)]
pub(super) struct Solution {
    /// What it is worth.
    pub worth: f64,
    /// How long it takes.
    pub minutes: f64,
    /// Its branches.
    pub branches: Vec<usize>,
    /// Its choices, by which it is told from others.
    pub key: Vec<(usize, usize)>,
}

impl Solution {
    /// Puts it into its place among `best`, of which there are `most` at most;
    /// a plan that is there already stays there once.
    pub fn put_into(self, best: &mut Vec<Self>, most: usize) {
        if best.iter().any(|other| other.key == self.key) {
            return;
        }
        let at = best
            .iter()
            .position(|other| comes_before(&self, other))
            .unwrap_or(best.len());
        best.insert(at, self);
        best.truncate(most);
    }
}

/// What a search came to.
#[derive(Clone, Debug)]
pub(super) struct Searched {
    /// The best plans, best first.
    pub solutions: Vec<Solution>,
    /// No plan within the limits is worth more.
    pub bound: f64,
    /// Whether no plan that is missing here is worth more than any of these.
    pub is_list_proven: bool,
}

impl Searched {
    /// Whether no plan within the limits is worth more than the first.
    pub fn is_proven(&self) -> bool {
        match self.solutions.first() {
            Some(best) => self.bound <= best.worth + SLACK,
            None => self.bound == f64::NEG_INFINITY,
        }
    }
}

/// How much work a search may do; shared by all searches of one question.
#[derive(Clone, Copy, Debug)]
pub(super) struct Budget {
    left: u64,
    done: u64,
}

impl Budget {
    pub const fn new(most: u64) -> Self {
        Self {
            left: most,
            done: 0,
        }
    }

    /// Labels looked at so far.
    pub const fn done(&self) -> u64 {
        self.done
    }

    fn spend(&mut self) -> bool {
        if self.left == 0 {
            return false;
        }
        self.left -= 1;
        self.done += 1;
        true
    }
}

/// The `wanted` best plans within the limits. `known` are plans within the
/// limits to start from.
pub(super) fn search(
    problem: Problem,
    wanted: usize,
    known: &[Vec<usize>],
    budget: &mut Budget,
) -> Searched {
    let wanted = wanted.max(1);
    run(problem, Aim::Best { wanted }, known, budget)
}

/// Whether some plan keeps every limit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Within {
    /// This one does.
    Some(Vec<usize>),
    /// None does.
    None,
    /// The work allowed ran out before that was known.
    CutOff,
}

/// Looks for any plan that keeps every limit.
pub(super) fn any_within(mut problem: Problem, budget: &mut Budget) -> Within {
    for branch in &mut problem.branches {
        branch.worth = 0.0;
    }
    let mut searched = run(problem, Aim::Any, &[], budget);
    match searched.solutions.pop() {
        Some(solution) => Within::Some(solution.branches),
        None if searched.is_proven() => Within::None,
        None => Within::CutOff,
    }
}

/// What is sought.
#[derive(Clone, Copy)]
enum Aim {
    /// The best plans, so many of them.
    Best { wanted: usize },
    /// Any plan within the limits; all are worth nothing.
    Any,
}

fn run(mut problem: Problem, aim: Aim, known: &[Vec<usize>], budget: &mut Budget) -> Searched {
    if !problem.narrow() {
        return Searched {
            solutions: Vec::new(),
            bound: f64::NEG_INFINITY,
            is_list_proven: true,
        };
    }
    let mut search = Search {
        problem: &problem,
        aim,
        wanted: match aim {
            Aim::Best { wanted } => wanted,
            Aim::Any => 1,
        },
        found: Vec::new(),
        budget,
    };
    for branches in known {
        search.add(branches.clone());
    }
    let prices = search.seek_prices(None);
    search.widen(prices)
}

struct Search<'a> {
    problem: &'a Problem,
    aim: Aim,
    wanted: usize,
    found: Vec<Solution>,
    budget: &'a mut Budget,
}

/// What is known while one place is filled.
struct Pass<'a> {
    prices: &'a LimitPrices,
    trails: Trails,
    width: usize,
    /// Best bound among the labels dropped for want of width.
    dropped: f64,
    /// Least and most that the branches of a plan use of each row.
    least: Vec<Sweep>,
    most: Vec<Sweep>,
}

/// What the branches beyond a label use of each row, at least and at most.
struct Beyond {
    least: Vec<f64>,
    most: Vec<f64>,
}

impl Search<'_> {
    fn best_worth(&self) -> Option<f64> {
        self.found.first().map(|best| best.worth)
    }

    /// What a plan must be worth to matter.
    fn threshold(&self) -> f64 {
        let floor = match self.aim {
            Aim::Best { .. } => f64::NEG_INFINITY,
            Aim::Any => -BELOW_NOTHING,
        };
        self.found
            .get(self.wanted - 1)
            .map_or(floor, |last| last.worth - SLACK)
    }

    fn is_enough(&self) -> bool {
        matches!(self.aim, Aim::Any) && !self.found.is_empty()
    }

    /// Prices of the limits for the plans known so far; keeps the plans that
    /// turn up.
    fn seek_prices(&mut self, start: Option<&[f64]>) -> LimitPrices {
        let mut found = Vec::new();
        let prices = seek(self.problem, start, self.best_worth(), |plan| {
            found.push(plan);
        });
        for plan in found {
            self.add(plan);
        }
        prices
    }

    fn add(&mut self, branches: Vec<usize>) {
        if !self.problem.keeps_limits(&branches) {
            return;
        }
        let (worth, minutes) = self.problem.worth_and_minutes(&branches);
        let key = self.problem.key_of(&branches);
        let solution = Solution {
            worth,
            minutes,
            branches,
            key,
        };
        solution.put_into(&mut self.found, self.wanted);
    }

    fn widen(mut self, mut prices: LimitPrices) -> Searched {
        let mut width = FIRST_WIDTH;
        let mut bound = prices.bound;
        let mut is_list_proven = false;
        while bound >= self.threshold() && !self.is_enough() {
            let before = self.best_worth();
            let Some(dropped) = self.pass(&prices, width) else {
                break;
            };
            let best = self.best_worth().unwrap_or(f64::NEG_INFINITY);
            bound = bound.min(dropped.max(best));
            is_list_proven = dropped < self.threshold();
            if is_list_proven || dropped == f64::NEG_INFINITY {
                is_list_proven = true;
                break;
            }
            width *= WIDENING;
            if self.best_worth() > before {
                // A better plan is a better goal for the prices.
                prices = self.seek_prices(Some(&prices.prices));
                bound = bound.min(prices.bound);
            }
        }
        if self.found.is_empty() && bound < self.threshold() {
            bound = f64::NEG_INFINITY;
        }
        Searched {
            is_list_proven: is_list_proven || bound < self.threshold(),
            solutions: self.found,
            bound,
        }
    }

    /// One pass that keeps at most `width` labels at a place. Gives the best
    /// bound among the labels it dropped; `None` when the work ran out.
    fn pass(&mut self, prices: &LimitPrices, width: usize) -> Option<f64> {
        let problem = self.problem;
        let ranges = |sign: f64| -> Vec<_> {
            problem
                .rows
                .iter()
                .map(|row| problem.sweep(|branch| sign * row.uses[branch]))
                .collect()
        };
        let mut pass = Pass {
            prices,
            trails: Trails::default(),
            width,
            dropped: f64::NEG_INFINITY,
            least: ranges(-1.0),
            most: ranges(1.0),
        };
        let rows = problem.rows.len();
        let mut filled: Vec<Labels> = vec![Labels::new(rows); problem.places.len()];
        for place in (0..problem.places.len()).rev() {
            let outside = prices.sweep.outside[place] + prices.offset;
            if outside + prices.sweep.inside[place] < self.threshold() {
                continue;
            }
            let mut all = Labels::new(rows);
            for &branch in &problem.places[place] {
                if outside + prices.sweep.through[branch] >= self.threshold() {
                    all.append(&self.fill(&mut pass, &filled, place, branch)?);
                }
            }
            filled[place] = self.select(&mut pass, &all, outside);
        }
        for label in filled.first().map(Labels::all).unwrap_or_default() {
            if label.worth >= self.threshold() {
                self.add(pass.trails.branches(label.trail));
            }
        }
        Some(pass.dropped)
    }

    /// The labels of a branch with all its places filled.
    fn fill(
        &mut self,
        pass: &mut Pass<'_>,
        filled: &[Labels],
        place: usize,
        branch: usize,
    ) -> Option<Labels> {
        let problem = self.problem;
        let below = &problem.branches[branch].places;
        let inside = |sweeps: &[Sweep], sign: f64| -> Vec<f64> {
            sweeps
                .iter()
                .map(|sweep| {
                    let below: f64 = below.iter().map(|&below| sweep.inside[below]).sum();
                    sign * (sweep.outside[place] + below)
                })
                .collect()
        };
        let mut beyond = Beyond {
            least: inside(&pass.least, -1.0),
            most: inside(&pass.most, 1.0),
        };
        let mut rest: f64 = below
            .iter()
            .map(|&below| pass.prices.sweep.inside[below])
            .sum();
        let used: Vec<f64> = problem.rows.iter().map(|row| row.uses[branch]).collect();
        let mut felt = used.clone();
        let mut labels = Labels::new(problem.rows.len());
        if !leaves_room(problem, &used, &mut felt, &beyond) {
            return Some(labels);
        }
        let trail = pass.trails.push(Trail::Branch(branch));
        labels.push(
            Label {
                worth: problem.branches[branch].worth,
                minutes: problem.branches[branch].minutes,
                value: pass.prices.values[branch],
                trail,
            },
            &used,
            &felt,
        );
        let outside = pass.prices.sweep.outside[place] + pass.prices.offset;
        for &below in below {
            rest -= pass.prices.sweep.inside[below];
            for (row, (least, most)) in beyond.least.iter_mut().zip(&mut beyond.most).enumerate() {
                *least += pass.least[row].inside[below];
                *most -= pass.most[row].inside[below];
            }
            labels = self.join(pass, &labels, &filled[below], &beyond, outside + rest)?;
            if labels.len() == 0 {
                break;
            }
        }
        Some(labels)
    }

    /// Every label of `ones` with every label of `others`, both most valuable
    /// first, as far as it matters. `elsewhere` is the best value of all that
    /// neither holds.
    fn join(
        &mut self,
        pass: &mut Pass<'_>,
        ones: &Labels,
        others: &Labels,
        beyond: &Beyond,
        elsewhere: f64,
    ) -> Option<Labels> {
        let problem = self.problem;
        let mut joined = Labels::new(problem.rows.len());
        let value = |one: usize, other: usize| -> Option<Pair> {
            let value = ones.all().get(one)?.value + others.all().get(other)?.value;
            Some(Pair { value, one, other })
        };
        // Pairs come out of the heap most valuable first.
        let mut pairs = BinaryHeap::from_iter(value(0, 0));
        let mut used = vec![0.0; problem.rows.len()];
        let mut felt = used.clone();
        while let Some(pair) = pairs.pop() {
            if elsewhere + pair.value < self.threshold() {
                break;
            }
            if joined.len() >= pass.width {
                pass.dropped = pass.dropped.max(elsewhere + pair.value);
                break;
            }
            if !self.budget.spend() {
                return None;
            }
            pairs.extend(value(pair.one, pair.other + 1));
            if pair.other == 0 {
                pairs.extend(value(pair.one + 1, 0));
            }
            for (used, (one, other)) in used
                .iter_mut()
                .zip(ones.used(pair.one).iter().zip(others.used(pair.other)))
            {
                *used = one + other;
            }
            if !leaves_room(problem, &used, &mut felt, beyond) {
                continue;
            }
            let (one, other) = (&ones.all()[pair.one], &others.all()[pair.other]);
            let mut label = Label {
                worth: one.worth + other.worth,
                minutes: one.minutes + other.minutes,
                value: pair.value,
                trail: 0,
            };
            let branches = || {
                let mut branches = pass.trails.branches(one.trail);
                branches.extend(pass.trails.branches(other.trail));
                branches
            };
            if !joined.make_needless(&label, &felt, self.wanted, problem, &pass.trails, branches) {
                label.trail = pass.trails.push(Trail::Both(one.trail, other.trail));
                joined.push(label, &used, &felt);
            }
        }
        Some(joined)
    }

    /// The labels of a place that are needed, most valuable first.
    fn select(&self, pass: &mut Pass<'_>, all: &Labels, outside: f64) -> Labels {
        let mut kept = Labels::new(self.problem.rows.len());
        for index in all.by_value() {
            let label = all.all()[index];
            if kept.len() >= pass.width {
                pass.dropped = pass.dropped.max(outside + label.value);
                break;
            }
            let felt = all.felt(index);
            let branches = || pass.trails.branches(label.trail);
            let enough = self.wanted;
            if !kept.make_needless(&label, felt, enough, self.problem, &pass.trails, branches) {
                kept.push(label, all.used(index), felt);
            }
        }
        kept
    }
}

/// Whether what is used leaves room for some completion. Writes to `felt` what
/// is used or, where that is more, the point below which the limit is kept
/// whatever comes beyond: labels do not differ where it cannot matter.
fn leaves_room(problem: &Problem, used: &[f64], felt: &mut [f64], beyond: &Beyond) -> bool {
    for (row, (used, felt)) in used.iter().zip(felt).enumerate() {
        let most = problem.rows[row].most;
        if used + beyond.least[row] > most + SLACK {
            return false;
        }
        *felt = used.max(most - beyond.most[row]);
    }
    true
}

/// Whether one plan stands before another in the answer.
fn comes_before(one: &Solution, other: &Solution) -> bool {
    if (one.worth - other.worth).abs() > SLACK {
        return one.worth > other.worth;
    }
    if (one.minutes - other.minutes).abs() > SLACK {
        return one.minutes < other.minutes;
    }
    by_name(&one.key, &other.key).is_lt()
}

/// A label of one list with a label of another.
struct Pair {
    value: f64,
    one: usize,
    other: usize,
}

impl Ord for Pair {
    fn cmp(&self, other: &Self) -> core::cmp::Ordering {
        let places = (other.one, other.other).cmp(&(self.one, self.other));
        self.value.total_cmp(&other.value).then(places)
    }
}

impl PartialOrd for Pair {
    fn partial_cmp(&self, other: &Self) -> Option<core::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Pair {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Pair {}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::best_plan::any_problem::{any_problem, best_by_solver, worths_by_enumeration};

    fn plenty() -> Budget {
        Budget::new(u64::MAX)
    }

    fn worths(searched: &Searched) -> Vec<f64> {
        searched
            .solutions
            .iter()
            .map(|solution| solution.worth)
            .collect()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(500))]

        #[test]
        fn the_best_plan_is_that_of_the_solver(
            problem in (0_usize..6).prop_flat_map(any_problem),
        ) {
            let searched = search(problem.clone(), 1, &[], &mut plenty());
            prop_assert!(searched.is_proven());
            match (searched.solutions.first(), best_by_solver(&problem)) {
                (None, None) => {}
                (Some(found), Some(best)) => {
                    prop_assert!((found.worth - best).abs() < 1e-5 * best.abs().max(1.0), "{} against {best}", found.worth);
                }
                other => prop_assert!(false, "{other:?}"),
            }
        }
    }

    proptest! {
        #[test]
        fn the_best_plans_are_those_of_enumeration(
            problem in (0_usize..6).prop_flat_map(any_problem),
            wanted in 1_usize..6,
        ) {
            prop_assume!(problem.plans() <= 100_000);
            let all = worths_by_enumeration(&problem);
            let searched = search(problem, wanted, &[], &mut plenty());
            prop_assert!(searched.is_proven() && searched.is_list_proven);
            let found = worths(&searched);
            prop_assert_eq!(found.len(), all.len().min(wanted));
            for (found, best) in found.iter().zip(&all) {
                prop_assert!((found - best).abs() < 1e-9, "{found} against {best}");
            }
        }

        #[test]
        fn some_plan_is_within_the_limits_where_enumeration_finds_one(
            problem in (1_usize..6).prop_flat_map(any_problem),
        ) {
            prop_assume!(problem.plans() <= 100_000);
            let exists = !worths_by_enumeration(&problem).is_empty();
            match any_within(problem.clone(), &mut plenty()) {
                Within::Some(plan) => prop_assert!(exists && problem.keeps_limits(&plan)),
                Within::None => prop_assert!(!exists),
                Within::CutOff => prop_assert!(false, "cut off"),
            }
        }

        #[test]
        fn the_order_of_parts_and_ways_changes_nothing(
            problem in (0_usize..6).prop_flat_map(any_problem),
            wanted in 1_usize..4,
        ) {
            prop_assume!(problem.plans() <= 100_000);
            let mut turned = problem.clone();
            for branches in &mut turned.places {
                branches.reverse();
            }
            for branch in &mut turned.branches {
                branch.places.reverse();
            }
            turned.rows.reverse();
            let choices = |problem| -> Vec<_> {
                let searched = search(problem, wanted, &[], &mut plenty());
                searched.solutions.into_iter().map(|solution| solution.key).collect()
            };
            prop_assert_eq!(choices(problem), choices(turned));
        }

        #[test]
        fn a_search_that_is_cut_off_is_honest_about_its_bound(
            problem in (1_usize..6).prop_flat_map(any_problem),
            work in 0_u64..60,
        ) {
            prop_assume!(problem.plans() <= 100_000);
            let searched = search(problem.clone(), 1, &[], &mut Budget::new(work));
            let best = worths_by_enumeration(&problem).first().copied();
            let best = best.unwrap_or(f64::NEG_INFINITY);
            prop_assert!(searched.bound >= best - SLACK);
            let found = searched.solutions.first().map_or(f64::NEG_INFINITY, |found| found.worth);
            prop_assert!(found <= best + SLACK);
            prop_assert!(!searched.is_proven() || found >= best - SLACK);
        }
    }
}
