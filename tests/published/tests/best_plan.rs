//! Published problems with a known best, held against the general solver that
//! the search for the best plan is tested with.
//!
//! These check the oracle and how it is asked, not the search: that the solver
//! maximises, that a limit is a limit, and that what is read from it is the best
//! worth and what gives it. The search itself is held against this solver and
//! against every plan of small problems in the tests of `decision::best_plan`;
//! no published problem of its kind, one way for each part, was found with its
//! best printed.

use microlp::{ComparisonOp, OptimizationDirection, Problem, Solution, SolveOutcome, Variable};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

/// What a shop's best load is made of: name, kilograms, value of them all.
///
/// Rosetta Code, “Knapsack problem/Continuous” (R).
const CUTS: [(&str, f64, f64); 9] = [
    ("beef", 3.8, 36.0),
    ("pork", 5.4, 43.0),
    ("ham", 3.6, 90.0),
    ("greaves", 2.4, 45.0),
    ("flitch", 4.0, 30.0),
    ("brawn", 2.5, 56.0),
    ("welt", 3.7, 67.0),
    ("salami", 3.0, 95.0),
    ("sausage", 5.9, 98.0),
];

/// Kilograms that can be carried.
const CAPACITY: f64 = 15.0;

#[track_caller]
fn solved(program: &Problem) -> Solution {
    match program.solve() {
        Ok(SolveOutcome::Solution(solution)) => solution,
        other => panic!("the solver gives up: {other:?}"),
    }
}

/// Agrees to a billionth.
#[track_caller]
fn is(what: &str, got: f64, expected: f64) {
    let apart = (got - expected).abs();
    assert!(
        apart < 1e-9 * expected.abs().max(1.0),
        "{what}: {got} against {expected}"
    );
}

/// Two products within rows `a·x + b·y ≤ most`, both at least nothing.
fn mix(worth: [f64; 2], rows: &[([f64; 2], f64)]) -> (Solution, [Variable; 2]) {
    let mut program = Problem::new(OptimizationDirection::Maximize);
    let amounts = worth.map(|worth| program.add_var(worth, (0.0, f64::INFINITY)));
    for (uses, most) in rows {
        let terms: Vec<_> = amounts.into_iter().zip(*uses).collect();
        program.add_constraint(terms, ComparisonOp::Le, *most);
    }
    (solved(&program), amounts)
}

/// The load with any part of a cut: salami, ham, brawn and greaves whole,
/// 3.5 kg of welt, 349.378 in all (Rosetta Code; R, the last digits D:
/// 286 + 67 · 3.5 ⁄ 3.7).
#[test]
fn the_best_load_of_cuts_that_can_be_divided() {
    let mut program = Problem::new(OptimizationDirection::Maximize);
    let parts = CUTS.map(|(_, _, value)| program.add_var(value, (0.0, 1.0)));
    let weights: Vec<_> = parts.into_iter().zip(CUTS.map(|(_, kg, _)| kg)).collect();
    program.add_constraint(weights, ComparisonOp::Le, CAPACITY);
    let solution = solved(&program);

    assert_eq!(format!("{:.3}", solution.objective()), "349.378");
    is("value", solution.objective(), 286.0 + 67.0 * 3.5 / 3.7);
    for ((name, kg, _), part) in CUTS.into_iter().zip(parts) {
        let taken = match name {
            "salami" | "ham" | "brawn" | "greaves" => kg,
            "welt" => 3.5,
            _ => 0.0,
        };
        is(name, solution.var_value(part) * kg, taken);
    }
}

/// The same load with whole cuts only, each taken or left as each way of a part
/// is: as good as the best of all 512 loads (D).
#[test]
fn the_best_load_of_whole_cuts() {
    let mut program = Problem::new(OptimizationDirection::Maximize);
    let taken = CUTS.map(|(_, _, value)| program.add_binary_var(value));
    let weights: Vec<_> = taken.into_iter().zip(CUTS.map(|(_, kg, _)| kg)).collect();
    program.add_constraint(weights, ComparisonOp::Le, CAPACITY + 1e-9);
    let solution = solved(&program);

    let loads = (0_u32..1 << CUTS.len()).map(|load| {
        let cuts = CUTS.iter().enumerate();
        let cuts = cuts.filter(|(place, _)| load >> place & 1 == 1);
        cuts.fold((0.0, 0.0), |(weight, worth), (_, (_, kg, value))| {
            (weight + kg, worth + value)
        })
    });
    let best = loads
        .filter(|(weight, _)| *weight <= CAPACITY + 1e-9)
        .map(|(_, worth)| worth)
        .fold(0.0, f64::max);
    is("value", solution.objective(), best);
}

/// Two products through three plants: most `3x + 5y` with `x ≤ 4`, `2y ≤ 12`,
/// `3x + 2y ≤ 18` is 36 at (2, 6). Hillier and Lieberman, *Introduction to
/// Operations Research* (R; M).
#[test]
fn the_mix_of_two_products_in_three_plants() {
    let rows = [([1.0, 0.0], 4.0), ([0.0, 2.0], 12.0), ([3.0, 2.0], 18.0)];
    let (solution, [x, y]) = mix([3.0, 5.0], &rows);
    is("profit", solution.objective(), 36.0);
    is("first", solution.var_value(x), 2.0);
    is("second", solution.var_value(y), 6.0);
}

/// Two paints of two materials: most `5x + 4y` with `6x + 4y ≤ 24`,
/// `x + 2y ≤ 6`, `y − x ≤ 1`, `y ≤ 2` is 21 at (3, 1.5). Taha, *Operations
/// Research: An Introduction* (M).
#[test]
fn the_mix_of_two_paints() {
    let rows = [
        ([6.0, 4.0], 24.0),
        ([1.0, 2.0], 6.0),
        ([-1.0, 1.0], 1.0),
        ([0.0, 1.0], 2.0),
    ];
    let (solution, [x, y]) = mix([5.0, 4.0], &rows);
    is("profit", solution.objective(), 21.0);
    is("first", solution.var_value(x), 3.0);
    is("second", solution.var_value(y), 1.5);
}
