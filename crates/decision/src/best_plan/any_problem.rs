//! Invented problems for the tests, with every plan of theirs.

use proptest::prelude::*;

use super::problem::{Branch, Problem, Row, SLACK};

/// A part of an invented problem: its branches with what hangs on each.
#[derive(Clone, Debug)]
pub(crate) struct Twig(Vec<(i32, i32, Vec<i32>, Vec<Twig>)>);

/// Any tree of parts, at most three ways deep, with uses of `rows` limits.
pub(crate) fn any_problem(rows: usize) -> impl Strategy<Value = Problem> {
    let branch = move || {
        (
            -300_i32..900,
            0_i32..400,
            prop::collection::vec(-20_i32..200, rows),
        )
    };
    let leaf = prop::collection::vec(branch(), 1..5).prop_map(|branches| {
        Twig(
            branches
                .into_iter()
                .map(|(w, m, u)| (w, m, u, Vec::new()))
                .collect(),
        )
    });
    let tree = leaf.prop_recursive(3, 24, 4, move |inner| {
        prop::collection::vec((branch(), prop::collection::vec(inner, 0..4)), 1..4).prop_map(
            |branches| {
                Twig(
                    branches
                        .into_iter()
                        .map(|((w, m, u), below)| (w, m, u, below))
                        .collect(),
                )
            },
        )
    });
    (tree, prop::collection::vec(0_i32..100, rows)).prop_map(move |(tree, tightness)| {
        let mut problem = Problem {
            places: Vec::new(),
            branches: Vec::new(),
            rows: vec![
                Row {
                    most: 0.0,
                    uses: Vec::new()
                };
                rows
            ],
        };
        plant(&mut problem, &tree);
        // From what no plan keeps to what every plan keeps.
        let mosts: Vec<f64> = problem
            .rows
            .iter()
            .zip(&tightness)
            .map(|(row, tightness)| {
                let most = problem.sweep(|branch| row.uses[branch]).inside[0];
                let least = -problem.sweep(|branch| -row.uses[branch]).inside[0];
                least + (most - least) * (f64::from(*tightness) - 3.0) / 90.0
            })
            .collect();
        for (row, most) in problem.rows.iter_mut().zip(mosts) {
            row.most = most;
        }
        problem
    })
}

fn plant(problem: &mut Problem, twig: &Twig) -> usize {
    let place = problem.places.len();
    problem.places.push(Vec::new());
    for (way, (worth, minutes, uses, below)) in twig.0.iter().enumerate() {
        let branch = problem.branches.len();
        problem.branches.push(Branch {
            places: Vec::new(),
            worth: f64::from(*worth) / 7.0,
            minutes: f64::from(*minutes) / 10.0,
            key: (place, way),
        });
        for (row, used) in problem.rows.iter_mut().zip(uses) {
            row.uses.push(f64::from(*used) / 9.0);
        }
        problem.places[place].push(branch);
        for twig in below {
            let below = plant(problem, twig);
            problem.branches[branch].places.push(below);
        }
    }
    place
}

/// Every plan of a problem, whether within its limits or not.
pub(crate) fn every_plan(problem: &Problem) -> Vec<Vec<usize>> {
    at_place(problem, 0)
}

fn at_place(problem: &Problem, place: usize) -> Vec<Vec<usize>> {
    let mut plans = Vec::new();
    for &branch in &problem.places[place] {
        let mut partial = vec![vec![branch]];
        for &below in &problem.branches[branch].places {
            let fillings = at_place(problem, below);
            partial = partial
                .iter()
                .flat_map(|plan| {
                    fillings
                        .iter()
                        .map(move |filling| plan.iter().chain(filling).copied().collect::<Vec<_>>())
                })
                .collect();
        }
        plans.extend(partial);
    }
    plans
}

/// The worths of all plans within the limits, greatest first.
pub(crate) fn worths_by_enumeration(problem: &Problem) -> Vec<f64> {
    let mut worths: Vec<f64> = every_plan(problem)
        .iter()
        .filter(|plan| {
            problem.rows.iter().all(|row| {
                plan.iter().map(|&branch| row.uses[branch]).sum::<f64>() <= row.most + SLACK
            })
        })
        .map(|plan| {
            plan.iter()
                .map(|&branch| problem.branches[branch].worth)
                .sum()
        })
        .collect();
    worths.sort_by(|one: &f64, other| other.total_cmp(one));
    worths
}

/// The greatest worth within the limits by a general solver of mixed integer
/// programs: one binary for each branch, exactly one at each place whose branch
/// is chosen.
pub(crate) fn best_by_solver(problem: &Problem) -> Option<f64> {
    use microlp::{ComparisonOp, OptimizationDirection, Problem as Program, SolveOutcome};
    let mut program = Program::new(OptimizationDirection::Maximize);
    let chosen: Vec<_> = problem
        .branches
        .iter()
        .map(|branch| program.add_binary_var(branch.worth))
        .collect();
    let mut opened_by = vec![None; problem.places.len()];
    for (index, branch) in problem.branches.iter().enumerate() {
        for &place in &branch.places {
            opened_by[place] = Some(index);
        }
    }
    for (place, branches) in problem.places.iter().enumerate() {
        let mut terms: Vec<_> = branches
            .iter()
            .map(|&branch| (chosen[branch], 1.0))
            .collect();
        let is_root = match opened_by[place] {
            Some(branch) => {
                terms.push((chosen[branch], -1.0));
                0.0
            }
            None => 1.0,
        };
        program.add_constraint(terms, ComparisonOp::Eq, is_root);
    }
    for row in &problem.rows {
        let terms: Vec<_> = chosen
            .iter()
            .copied()
            .zip(row.uses.iter().copied())
            .collect();
        program.add_constraint(terms, ComparisonOp::Le, row.most + SLACK);
    }
    match program.solve() {
        Ok(SolveOutcome::Solution(solution)) => Some(solution.objective()),
        Err(microlp::Error::Infeasible) => None,
        other => panic!("the solver gives up: {other:?}"),
    }
}
