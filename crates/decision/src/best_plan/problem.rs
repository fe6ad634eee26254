//! The search's own picture of the question, free of meat and money: places
//! where one branch must be chosen, branches that open further places, a worth
//! for each branch, and rows `Σ use ≤ most`.
//!
//! A place stands behind the branch that opens it, so that going through the
//! places backwards meets every place before the branch it hangs on.
//! Indices of places, branches and rows are made here and stay within range.

/// How far past a limit still counts as kept: a billionth of a minute or
/// kilogram, the digits that floating point may lose.
pub(super) const SLACK: f64 = 1e-9;

/// A branch: one way at one spot of the tree.
#[derive(Clone, Debug)]
pub(super) struct Branch {
    /// The places it opens, all of which must be filled.
    pub places: Vec<usize>,
    /// What choosing it adds to the worth.
    pub worth: f64,
    /// Working time, which decides between plans of one worth.
    pub minutes: f64,
    /// Rank of the part and of the way by name, which decides what is left.
    pub key: (usize, usize),
}

/// A limit: the uses of the chosen branches must not sum to more than `most`.
#[derive(Clone, Debug)]
pub(super) struct Row {
    /// The limit.
    pub most: f64,
    /// What each branch uses; below zero where it gives.
    pub uses: Vec<f64>,
}

/// Places, branches and rows. Place 0 is the root.
#[derive(Clone, Debug)]
pub(super) struct Problem {
    /// The open branches of each place.
    pub places: Vec<Vec<usize>>,
    /// Every branch.
    pub branches: Vec<Branch>,
    /// Every limit.
    pub rows: Vec<Row>,
}

/// The greatest sum of a value over the branches of a plan, taken apart by
/// where in the tree it arises.
#[derive(Clone, Debug)]
pub(super) struct Sweep {
    /// At a place and all that hangs on it.
    pub inside: Vec<f64>,
    /// At a branch and all that hangs on it.
    pub through: Vec<f64>,
    /// Everywhere but at a place and what hangs on it, that place reached.
    pub outside: Vec<f64>,
}

impl Problem {
    /// The greatest sums of `value` over plans.
    pub fn sweep(&self, value: impl Fn(usize) -> f64) -> Sweep {
        let mut inside = vec![f64::NEG_INFINITY; self.places.len()];
        let mut through = vec![f64::NEG_INFINITY; self.branches.len()];
        let mut outside = inside.clone();
        for (place, branches) in self.places.iter().enumerate().rev() {
            for &branch in branches {
                let below: f64 = self.branches[branch]
                    .places
                    .iter()
                    .map(|&below| inside[below])
                    .sum();
                through[branch] = value(branch) + below;
                inside[place] = inside[place].max(through[branch]);
            }
        }
        outside[0] = 0.0;
        for (place, branches) in self.places.iter().enumerate() {
            for &branch in branches {
                for &below in &self.branches[branch].places {
                    outside[below] = outside[place] + through[branch] - inside[below];
                }
            }
        }
        Sweep {
            inside,
            through,
            outside,
        }
    }

    /// The plan that a sweep found best: its branches, parents first.
    pub fn best_of(&self, sweep: &Sweep) -> Vec<usize> {
        let mut chosen = Vec::new();
        let mut open = vec![0];
        while let Some(place) = open.pop() {
            let best = self.places[place].iter().copied().reduce(|best, other| {
                if sweep.through[other] > sweep.through[best] {
                    other
                } else {
                    best
                }
            });
            if let Some(branch) = best {
                chosen.push(branch);
                open.extend(&self.branches[branch].places);
            }
        }
        chosen
    }

    /// Closes every branch that no plan within all limits can hold, as far as
    /// the limits show one by one, and drops the rows that no plan can break.
    /// `false` when nothing is left.
    pub fn narrow(&mut self) -> bool {
        loop {
            let mut is_changed = self.close_dead_ends();
            if self.places.first().is_none_or(Vec::is_empty) {
                return false;
            }
            for row in 0..self.rows.len() {
                let row = &self.rows[row];
                let least = self.sweep(|branch| -row.uses[branch]);
                for (place, branches) in self.places.iter_mut().enumerate() {
                    let before = branches.len();
                    branches.retain(|&branch| {
                        -(least.outside[place] + least.through[branch]) <= row.most + SLACK
                    });
                    is_changed |= branches.len() < before;
                }
                self.close_dead_ends();
                if self.places[0].is_empty() {
                    return false;
                }
            }
            if !is_changed {
                break;
            }
        }
        let mut rows = core::mem::take(&mut self.rows);
        rows.retain(|row| self.sweep(|branch| row.uses[branch]).inside[0] > row.most);
        self.rows = rows;
        true
    }

    /// Closes the branches that open a place without open branches, and all
    /// that hangs on a closed branch.
    fn close_dead_ends(&mut self) -> bool {
        let mut is_changed = false;
        for place in (0..self.places.len()).rev() {
            let mut open = core::mem::take(&mut self.places[place]);
            let before = open.len();
            open.retain(|&branch| {
                let mut below = self.branches[branch].places.iter();
                below.all(|&below| !self.places[below].is_empty())
            });
            is_changed |= open.len() < before;
            self.places[place] = open;
        }
        let mut is_reached = vec![false; self.places.len()];
        if let Some(root) = is_reached.first_mut() {
            *root = true;
        }
        for (place, branches) in self.places.iter_mut().enumerate() {
            if !is_reached[place] {
                branches.clear();
            }
            for &branch in branches.iter() {
                for &below in &self.branches[branch].places {
                    is_reached[below] = true;
                }
            }
        }
        is_changed
    }

    /// How many plans are open.
    pub fn plans(&self) -> u128 {
        let mut plans = vec![0_u128; self.places.len()];
        for (place, branches) in self.places.iter().enumerate().rev() {
            for &branch in branches {
                let below = &self.branches[branch].places;
                let product = below.iter().fold(1_u128, |product, &below| {
                    product.saturating_mul(plans[below])
                });
                plans[place] = plans[place].saturating_add(product);
            }
        }
        plans.first().copied().unwrap_or(0)
    }

    /// What a plan is worth and how long it takes.
    pub fn worth_and_minutes(&self, chosen: &[usize]) -> (f64, f64) {
        chosen.iter().fold((0.0, 0.0), |(worth, minutes), &branch| {
            let branch = &self.branches[branch];
            (worth + branch.worth, minutes + branch.minutes)
        })
    }

    /// Whether a plan keeps every limit.
    pub fn keeps_limits(&self, chosen: &[usize]) -> bool {
        self.rows.iter().all(|row| {
            let used: f64 = chosen.iter().map(|&branch| row.uses[branch]).sum();
            used <= row.most + SLACK
        })
    }

    /// The choices of a plan in an order that depends on names alone.
    pub fn key_of(&self, chosen: &[usize]) -> Vec<(usize, usize)> {
        let mut key: Vec<_> = chosen
            .iter()
            .map(|&branch| self.branches[branch].key)
            .collect();
        key.sort_unstable();
        key
    }
}
