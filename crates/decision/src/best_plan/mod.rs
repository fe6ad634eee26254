//! The best plan: over every way of every part at once, the plan with the
//! greatest profit, or the greatest profit for each hour at the bench, that
//! keeps to what the shop can do and sell.
//!
//! The tree of the side is built exactly ([`carcass::break_down`]), searched in
//! floating point ([`search`](self)), and every plan that is handed out is
//! priced again on the exact path, whose figures are the ones given. Plans are
//! compared to a billionth: of two that lie closer the one that takes less time
//! comes first, then the one that comes first by the names of its ways, so the
//! answer does not depend on the order of anything.
//!
//! Plans are of whole parts: a part that the present plan splits between two
//! ways is compared with, and told as it is, but not offered.
//!
//! Nothing is applied: the answer is a plan, and the case stays as it is.

mod changes;
mod clash;
mod figures;
mod labels;
mod limit_prices;
mod limits;
mod per_hour;
mod problem;
mod search;
mod side_tree;

#[cfg(test)]
mod any_problem;

use core::fmt;

use carcass::{CutPlan, PartId};
use pricing::PricingError;
use quantity::{Decimal, Minutes, Money, Share};

pub use changes::{Change, Effect, Ways};
pub use clash::Clash;
pub use figures::PlanFigures;
pub use limits::{LeastGrind, Limit, Limits};

use self::per_hour::{Rates, search_rates};
use self::problem::SLACK;
use self::search::{Budget, Searched, any_within, search};
use self::side_tree::SideTree;
use crate::Case;

/// What is to be greatest.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Objective {
    /// The margin in money.
    #[default]
    Profit,
    /// The margin in money for each hour at the bench.
    ProfitPerBenchHour,
}

/// What is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// What is to be greatest.
    pub objective: Objective,
    /// What the plan must keep to.
    pub limits: Limits,
    /// How many next-best plans are told.
    pub next_best: usize,
    /// How many partial plans each search may look at before it is cut off; a
    /// whole side takes some thousands.
    pub most_work: u64,
}

impl Default for Question {
    fn default() -> Self {
        Self {
            objective: Objective::default(),
            limits: Limits::default(),
            next_best: 3,
            most_work: 4_000_000,
        }
    }
}

/// Why there is no answer at all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BestPlanError {
    /// The side cannot be priced.
    Pricing(PricingError),
    /// A plan meets a part twice, so its ways are not free choices.
    PartTwice {
        /// The part.
        part: PartId,
    },
    /// Some plan takes no time at the bench, so profit per hour is without end.
    NoBenchTime,
}

impl fmt::Display for BestPlanError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Pricing(error) => error.fmt(f),
            Self::PartTwice { .. } => write!(
                f,
                "A part comes off twice in one plan: let each way give a part once only."
            ),
            Self::NoBenchTime => write!(
                f,
                "A plan takes no time at the bench: enter times above 0, or ask for the greatest margin."
            ),
        }
    }
}

impl core::error::Error for BestPlanError {}

impl From<PricingError> for BestPlanError {
    fn from(error: PricingError) -> Self {
        Self::Pricing(error)
    }
}

/// The answer.
#[derive(Clone, Debug)]
pub struct BestPlan {
    /// How many plans there are, limits aside.
    pub plans: u128,
    /// The present plan as it is, splits included.
    pub present: PlanFigures,
    /// What was found.
    pub outcome: Outcome,
}

/// What was found.
#[derive(Clone, Debug)]
pub enum Outcome {
    /// A plan.
    Found(Box<Findings>),
    /// No plan keeps all limits: these clash.
    Clash(Clash),
    /// The search was cut off before it found a plan or proved that none is.
    CutOff,
}

/// The best plan and what is to know about it.
#[derive(Clone, Debug)]
pub struct Findings {
    /// The best plan.
    pub best: PlanFigures,
    /// The next-best plans, best first, each different from all before.
    pub next: Vec<PlanFigures>,
    /// What it does otherwise than the present plan.
    pub changes: Vec<Change>,
    /// The profit that one more hour at the bench would add, the plan sought
    /// anew; `None` where the bench has no limit or the search was cut off.
    pub one_more_bench_hour: Option<Money>,
    /// How sure it is.
    pub proof: Proof,
}

/// How sure it is that a plan is the best.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Proof {
    /// Whether no plan within the limits is better by more than a billionth.
    pub is_proven: bool,
    /// Whether no plan is missing among the next-best.
    pub is_next_proven: bool,
    /// By how much some plan could be better at most, in what was to be
    /// greatest; nothing where it is proven.
    pub gap: Money,
    /// Partial plans looked at.
    pub work: u64,
}

/// The best plan for a case.
///
/// # Errors
/// [`BestPlanError`] when the side cannot be priced, or the question has no
/// meaning for it.
pub fn best_plan(case: &Case, question: &Question) -> Result<BestPlan, BestPlanError> {
    let limits = &question.limits;
    let speed = side_tree::speed(case);
    let present = PlanFigures::of(case, case.plan.clone(), limits, speed)?;
    let tree = SideTree::of(case)?;
    let mut budget = Budget::new(question.most_work);
    let wanted = question.next_best.saturating_add(1);
    let searched = tree.search(question.objective, limits, wanted, &mut budget)?;
    let outcome = if searched.solutions.is_empty() {
        let is_known = searched.is_proven()
            || any_within(tree.problem(limits), &mut Budget::new(question.most_work)) == Some(None);
        if is_known {
            Outcome::Clash(clash::find(&tree, limits, question.most_work))
        } else {
            Outcome::CutOff
        }
    } else {
        let findings = Finding { case, question, tree: &tree, speed };
        findings.write(&searched, budget.done())?
    };
    Ok(BestPlan {
        plans: tree.problem(&Limits::default()).plans(),
        present,
        outcome,
    })
}

impl SideTree {
    fn search(
        &self,
        objective: Objective,
        limits: &Limits,
        wanted: usize,
        budget: &mut Budget,
    ) -> Result<Searched, BestPlanError> {
        let problem = self.problem(limits);
        match objective {
            Objective::Profit => Ok(search(problem, wanted, &[], budget)),
            Objective::ProfitPerBenchHour => {
                let bench: Vec<f64> = (0..problem.branches.len()).map(|at| self.bench(at)).collect();
                let mut open = problem.clone();
                if !open.narrow() {
                    return Ok(search(problem, wanted, &[], budget));
                }
                let least = -open.sweep(|branch| -bench[branch]).inside[0];
                if least <= SLACK {
                    return Err(BestPlanError::NoBenchTime);
                }
                let rates = Rates { bench: &bench, fixed: self.fixed() };
                Ok(search_rates(&problem, &rates, least, wanted, budget))
            }
        }
    }
}

/// What the findings are written from.
struct Finding<'a> {
    case: &'a Case<'a>,
    question: &'a Question,
    tree: &'a SideTree,
    speed: Share,
}

impl Finding<'_> {
    fn write(&self, searched: &Searched, work: u64) -> Result<Outcome, BestPlanError> {
        let Self { case, question, speed, .. } = *self;
        let limits = &question.limits;
        let mut plans = Vec::with_capacity(searched.solutions.len());
        for solution in &searched.solutions {
            plans.push(self.figures(&solution.branches)?);
        }
        let mut plans = plans.into_iter();
        let (Some(best), Some(first)) = (plans.next(), searched.solutions.first()) else {
            return Ok(Outcome::CutOff);
        };
        let is_proven = searched.is_proven();
        let per_what = match question.objective {
            Objective::Profit => 1.0,
            Objective::ProfitPerBenchHour => 60.0,
        };
        let gap = if is_proven { 0.0 } else { (searched.bound - first.worth) * per_what };
        Ok(Outcome::Found(Box::new(Findings {
            changes: changes::between(case, &best, limits, speed)?,
            one_more_bench_hour: self.one_more_bench_hour(&best)?,
            next: plans.collect(),
            best,
            proof: Proof {
                is_proven,
                is_next_proven: searched.is_list_proven,
                gap: Decimal::try_from(gap).map_or(Money::ZERO, Money::from_units),
                work,
            },
        })))
    }

    fn figures(&self, branches: &[usize]) -> Result<PlanFigures, PricingError> {
        let mut plan: CutPlan = self.case.plan.clone();
        for &branch in branches {
            let there = self.tree.way(branch);
            plan.choose(there.part, there.way);
        }
        PlanFigures::of(self.case, plan, &self.question.limits, self.speed)
    }

    fn one_more_bench_hour(&self, best: &PlanFigures) -> Result<Option<Money>, BestPlanError> {
        let Some(bench) = self.question.limits.bench else {
            return Ok(None);
        };
        let mut limits = self.question.limits.clone();
        limits.bench = Some(bench + Minutes::from_hours(Decimal::ONE));
        let mut budget = Budget::new(self.question.most_work);
        let searched = self.tree.search(self.question.objective, &limits, 1, &mut budget)?;
        match searched.solutions.first() {
            Some(solution) if searched.is_proven() => {
                let with_more = self.figures(&solution.branches)?;
                Ok(Some(with_more.profit() - best.profit()))
            }
            _ => Ok(None),
        }
    }
}
