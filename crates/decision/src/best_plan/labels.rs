//! Labels: ways to fill a place and all that hangs on it, each with its worth
//! and what it uses of every limit, and the rules by which one makes another
//! needless.

use core::cmp::Ordering;

use super::problem::{Problem, SLACK};

/// With how many kept labels a new one is compared; more would cost more time
/// than it saves. Comparing with fewer keeps more labels and loses none.
const COMPARED: usize = 600;

/// Where a label comes from.
#[derive(Clone, Copy, Debug)]
pub(super) enum Trail {
    /// A branch alone.
    Branch(usize),
    /// Two trails taken together.
    Both(usize, usize),
}

/// Every trail of a pass.
#[derive(Clone, Debug, Default)]
pub(super) struct Trails(Vec<Trail>);

impl Trails {
    pub fn push(&mut self, trail: Trail) -> usize {
        self.0.push(trail);
        self.0.len() - 1
    }

    /// The branches of a trail.
    pub fn branches(&self, trail: usize) -> Vec<usize> {
        let mut branches = Vec::new();
        let mut open = vec![trail];
        while let Some(trail) = open.pop() {
            match self.0[trail] {
                Trail::Branch(branch) => branches.push(branch),
                Trail::Both(one, other) => open.extend([one, other]),
            }
        }
        branches
    }
}

/// One label.
#[derive(Clone, Copy, Debug)]
pub(super) struct Label {
    /// Worth of its branches.
    pub worth: f64,
    /// Minutes of its branches.
    pub minutes: f64,
    /// Worth less what it uses at the prices of the limits.
    pub value: f64,
    /// Where it comes from.
    pub trail: usize,
}

/// Labels of one place, or of a branch with some of its places filled.
#[derive(Clone, Debug)]
pub(super) struct Labels {
    rows: usize,
    each: Vec<Label>,
    used: Vec<f64>,
    felt: Vec<f64>,
}

impl Labels {
    pub fn new(rows: usize) -> Self {
        Self {
            rows,
            each: Vec::new(),
            used: Vec::new(),
            felt: Vec::new(),
        }
    }

    pub fn len(&self) -> usize {
        self.each.len()
    }

    pub fn all(&self) -> &[Label] {
        &self.each
    }

    /// What a label uses of each limit.
    pub fn used(&self, index: usize) -> &[f64] {
        &self.used[index * self.rows..(index + 1) * self.rows]
    }

    /// What it uses of each limit as far as it can matter: all that stays under
    /// the limit whatever completes the label counts alike.
    pub fn felt(&self, index: usize) -> &[f64] {
        &self.felt[index * self.rows..(index + 1) * self.rows]
    }

    pub fn push(&mut self, label: Label, used: &[f64], felt: &[f64]) {
        self.each.push(label);
        self.used.extend_from_slice(used);
        self.felt.extend_from_slice(felt);
    }

    pub fn append(&mut self, other: &Self) {
        self.each.extend_from_slice(&other.each);
        self.used.extend_from_slice(&other.used);
        self.felt.extend_from_slice(&other.felt);
    }

    /// Places of the labels, most valuable first.
    pub fn by_value(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.each.len()).collect();
        order.sort_by(|&one, &other| {
            let value = |index: usize| self.each[index].value;
            value(other).total_cmp(&value(one))
        });
        order
    }

    /// Whether `enough` labels here are at least as good as another in every
    /// way, so that whatever completes it completes those no worse.
    pub fn make_needless(
        &self,
        label: &Label,
        felt: &[f64],
        enough: usize,
        problem: &Problem,
        trails: &Trails,
        trail_of: impl Fn() -> Vec<usize>,
    ) -> bool {
        let mut better = 0;
        for index in 0..self.each.len().min(COMPARED) {
            let kept = &self.each[index];
            if kept.worth < label.worth - SLACK {
                continue;
            }
            let uses_no_more = self
                .felt(index)
                .iter()
                .zip(felt)
                .all(|(kept, felt)| *kept <= felt + SLACK / 64.0);
            if uses_no_more && comes_first(kept, label, problem, trails, &trail_of) {
                better += 1;
                if better >= enough {
                    return true;
                }
            }
        }
        false
    }
}

/// Whether `kept` is worth more than `label`, or as much in less time, or as
/// much in the same time and earlier by name.
fn comes_first(
    kept: &Label,
    label: &Label,
    problem: &Problem,
    trails: &Trails,
    trail_of: &impl Fn() -> Vec<usize>,
) -> bool {
    if kept.worth > label.worth + SLACK {
        return true;
    }
    if (kept.minutes - label.minutes).abs() > SLACK {
        return kept.minutes < label.minutes;
    }
    let kept = problem.key_of(&trails.branches(kept.trail));
    by_name(&kept, &problem.key_of(&trail_of())) == Ordering::Less
}

/// The order of two plans by name: that of the first part, by name, that they
/// treat differently; a part that one of them does not reach comes last. The
/// order stays the same when both are completed alike.
pub(super) fn by_name(one: &[(usize, usize)], other: &[(usize, usize)]) -> Ordering {
    let last = (usize::MAX, usize::MAX);
    (0..one.len().max(other.len()))
        .map(|index| {
            let one = one.get(index).unwrap_or(&last);
            one.cmp(other.get(index).unwrap_or(&last))
        })
        .find(|order| order.is_ne())
        .unwrap_or(Ordering::Equal)
}
