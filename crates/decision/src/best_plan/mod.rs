//! The best plan: over every way of every part at once, the plan with the
//! greatest profit, or the greatest profit for each hour at the bench, that
//! keeps to what the shop can do and sell.
//!
//! The tree of the side is built exactly ([`carcass::break_down`]), searched in
//! floating point, and every plan that is handed out is
//! priced again on the exact path, whose figures are the ones given. Plans are
//! compared to a billionth: of two that lie closer the one that takes less time
//! comes first, then the one that comes first by the names of its ways, so the
//! answer does not depend on the order of anything.
//!
//! Plans are of whole parts: a part that the present plan splits between two
//! ways is compared with, and told as it is, but not offered.
//!
//! Ageing stays as the present plan has it, and so do classes of grind; a class
//! is no cut that a way gives, so limits on it are only checked on the plans
//! handed out ([`PlanFigures::keeps_limits`]), and see [`Proof::averages_grind`].
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
use wording::text;

pub use changes::{Change, Effect, Ways};
pub use clash::Clash;
pub use figures::PlanFigures;
pub use limits::{LeastGrind, Limit, Limits};

use self::per_hour::{Rates, search_rates};
use self::problem::SLACK;
use self::search::{Budget, Searched, Within, any_within, search};
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
            Self::PartTwice { .. } => f.write_str(text!(
                "A part comes off twice in one plan: let each way give a part once only."
            )),
            Self::NoBenchTime => f.write_str(text!(
                "A plan takes no time at the bench: enter times above 0, or ask for the greatest margin."
            )),
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
    /// Whether the plan grinds to classes: the search then prices all grind at
    /// the average of the present plan's, the proof is one at that price, and
    /// only the figures of the plans handed out are exact.
    pub averages_grind: bool,
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
            || any_within(tree.problem(limits), &mut Budget::new(question.most_work))
                == Within::None;
        if is_known {
            Outcome::Clash(clash::find(&tree, limits, question.most_work))
        } else {
            Outcome::CutOff
        }
    } else {
        let findings = Finding {
            case,
            question,
            tree: &tree,
            speed,
        };
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
                let bench: Vec<f64> = (0..problem.branches.len())
                    .map(|at| self.bench(at))
                    .collect();
                let mut open = problem.clone();
                if !open.narrow() {
                    return Ok(search(problem, wanted, &[], budget));
                }
                let least = -open.sweep(|branch| -bench[branch]).inside[0];
                if least <= SLACK {
                    return Err(BestPlanError::NoBenchTime);
                }
                let rates = Rates {
                    bench: &bench,
                    fixed: self.fixed(),
                };
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
        let Self {
            case,
            question,
            speed,
            ..
        } = *self;
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
        let gap = if is_proven {
            0.0
        } else {
            (searched.bound - first.worth) * per_what
        };
        Ok(Outcome::Found(Box::new(Findings {
            changes: changes::between(case, &best, limits, speed)?,
            one_more_bench_hour: self.one_more_bench_hour(&best)?,
            next: plans.collect(),
            best,
            proof: Proof {
                is_proven,
                is_next_proven: searched.is_list_proven,
                gap: Decimal::try_from(gap).map_or(Money::ZERO, Money::from_units),
                averages_grind: self.tree.averages_grind(),
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
        let searched = self
            .tree
            .search(self.question.objective, &limits, 1, &mut budget)?;
        match searched.solutions.first() {
            Some(solution) if searched.is_proven() => {
                let with_more = self.figures(&solution.branches)?;
                Ok(Some(with_more.profit() - best.profit()))
            }
            _ => Ok(None),
        }
    }
}

#[cfg(test)]
mod tests {
    use carcass::What;
    use proptest::prelude::*;
    use proptest::sample::Index;
    use quantity::Mass;

    use super::any_problem::{every_plan, worths_by_enumeration};
    use super::side_tree::float;
    use super::*;
    use crate::any_case::{CATALOGUE, any_case, plain_case};

    fn minutes(minutes: i64) -> Minutes {
        Minutes::from_minutes(Decimal::from(minutes))
    }

    fn found(answer: BestPlan) -> Findings {
        match answer.outcome {
            Outcome::Found(findings) => *findings,
            other => panic!("no plan found: {other:?}"),
        }
    }

    fn close(one: f64, other: f64) -> bool {
        (one - other).abs() <= 1e-9 * one.abs().max(other.abs()).max(1.0)
    }

    /// Closes all ways but one of every part that `choices` does not leave open.
    fn closing(choices: &[(Index, bool)]) -> Limits {
        let mut limits = Limits::default();
        for ((_, part), (choice, is_open)) in CATALOGUE.parts().zip(choices) {
            let kept = choice.get(&part.ways);
            if !is_open {
                limits
                    .closed
                    .extend(part.ways.iter().filter(|way| *way != kept));
            }
        }
        limits
    }

    /// Limits in which a plan that is cut by chance would be just about held.
    fn any_limits() -> impl Strategy<Value = Limits> {
        let parts = CATALOGUE.parts().count();
        (
            prop::collection::vec((any::<Index>(), prop::bool::weighted(0.25)), parts),
            prop::option::of(40_i64..200),
            prop::option::of(3_i64..40),
            prop::collection::vec((any::<Index>(), 0_i64..8), 0..5),
            prop::option::of(10_i64..80),
        )
            .prop_map(|(choices, bench, saw, most, grind)| {
                let mut limits = closing(&choices);
                limits.bench = bench.map(minutes);
                limits.saw = saw.map(minutes);
                let products: Vec<_> = CATALOGUE.products().map(|(product, _)| product).collect();
                for (product, kg) in most {
                    limits
                        .most
                        .insert(*product.get(&products), Mass::from_kg(Decimal::from(kg)));
                }
                let ground = CATALOGUE.product_id("ground-beef").expect("a product");
                limits.grind = grind.map(|kg| LeastGrind {
                    products: [ground].into(),
                    weight: Mass::from_kg(Decimal::from(kg)),
                });
                limits
            })
    }

    #[test]
    fn a_question_without_an_answer_says_what_would_be_right() {
        let part = CATALOGUE.root();
        for (error, sentence) in [
            (
                BestPlanError::PartTwice { part },
                "A part comes off twice in one plan: let each way give a part once only.",
            ),
            (
                BestPlanError::NoBenchTime,
                "A plan takes no time at the bench: enter times above 0, or ask for the greatest margin.",
            ),
            (
                PricingError::NoWeight.into(),
                "The side weighs nothing: enter a weight above 0.",
            ),
        ] {
            assert_eq!(error.to_string(), sentence);
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]

        #[test]
        fn the_tree_has_the_profit_and_the_minutes_of_the_exact_sheet(
            case in any_case(),
            choices in prop::collection::vec((any::<Index>(), Just(false)), CATALOGUE.parts().count()),
        ) {
            let tree = SideTree::of(&case).expect("a tree");
            let plans = every_plan(&tree.problem(&closing(&choices)));
            prop_assert_eq!(plans.len(), 1);
            let question = Question::default();
            let finding = Finding {
                case: &case,
                question: &question,
                tree: &tree,
                speed: side_tree::speed(&case),
            };
            let exact = finding.figures(&plans[0]).expect("a sheet");
            let (worth, time) = tree.problem(&Limits::default()).worth_and_minutes(&plans[0]);
            let sales = float(exact.totals.sales.units());
            let apart = worth + tree.fixed() - float(exact.profit().units());
            prop_assert!(apart.abs() <= 1e-9 * sales.max(1.0), "{apart}");
            prop_assert!(close(time, float((exact.bench + exact.saw).minutes())));
            if case.deal.labour == pricing::LabourTime::PlanEstimate {
                prop_assert_eq!(exact.saw, exact.totals.saw_time);
            }
        }

        #[test]
        fn the_best_plan_of_a_side_is_that_of_enumeration(
            case in any_case(),
            limits in any_limits(),
        ) {
            let tree = SideTree::of(&case).expect("a tree");
            let problem = tree.problem(&limits);
            prop_assume!(problem.plans() <= 100_000);
            let all = worths_by_enumeration(&problem);
            let answer = best_plan(&case, &Question { limits, ..Question::default() });
            match answer.expect("an answer").outcome {
                Outcome::Found(findings) => {
                    prop_assert!(findings.proof.is_proven && findings.best.keeps_limits);
                    prop_assert_eq!(findings.proof.gap, Money::ZERO);
                    let profits = core::iter::once(&findings.best).chain(&findings.next);
                    for (plan, best) in profits.zip(&all) {
                        let profit = float(plan.profit().units());
                        let scale = 1e-9 * float(plan.totals.sales.units()).max(1.0);
                        prop_assert!((profit - best - tree.fixed()).abs() <= scale);
                    }
                    prop_assert_eq!(findings.next.len() + 1, all.len().min(4));
                }
                Outcome::Clash(_) => prop_assert!(all.is_empty()),
                Outcome::CutOff => prop_assert!(false, "cut off"),
            }
        }

        #[test]
        fn the_best_hour_is_that_of_enumeration(case in any_case(), limits in any_limits()) {
            let tree = SideTree::of(&case).expect("a tree");
            let problem = tree.problem(&limits);
            prop_assume!(problem.plans() <= 20_000);
            let bench = |plan: &[usize]| -> f64 { plan.iter().map(|&at| tree.bench(at)).sum() };
            let rates = every_plan(&problem).into_iter().filter(|plan| problem.keeps_limits(plan)).map(
                |plan| (problem.worth_and_minutes(&plan).0 + tree.fixed()) / bench(&plan),
            );
            let best = rates.fold(f64::NEG_INFINITY, f64::max);
            let objective = Objective::ProfitPerBenchHour;
            let question = Question { objective, limits, ..Question::default() };
            match best_plan(&case, &question) {
                Err(error) => prop_assert_eq!(error, BestPlanError::NoBenchTime),
                Ok(answer) => match answer.outcome {
                    Outcome::Found(findings) => {
                        prop_assert!(findings.proof.is_proven);
                        let rate = findings.best.profit_per_bench_hour().expect("some time");
                        let rate = float(rate.units()) / 60.0;
                        prop_assert!((rate - best).abs() <= 1e-7 * best.abs().max(1.0), "{rate} {best}");
                    }
                    Outcome::Clash(_) => prop_assert!(best == f64::NEG_INFINITY),
                    Outcome::CutOff => prop_assert!(false, "cut off"),
                },
            }
        }

        #[test]
        fn a_clash_is_one_and_is_none_without_any_of_its_limits(
            case in any_case(),
            mut limits in any_limits(),
        ) {
            let tree = SideTree::of(&case).expect("a tree");
            limits.bench = Some(minutes(20));
            prop_assume!(tree.problem(&limits).plans() <= 20_000);
            prop_assume!(worths_by_enumeration(&tree.problem(&limits)).is_empty());
            let clash = clash::find(&tree, &limits, 1_000_000);
            prop_assert!(clash.is_minimal);
            let mut clashing = limits.clone();
            for limit in limits.all() {
                if !clash.limits.contains(&limit) {
                    clashing = clashing.without(limit);
                }
            }
            let mut budget = Budget::new(1_000_000);
            prop_assert_eq!(any_within(tree.problem(&clashing), &mut budget), Within::None);
            for limit in &clash.limits {
                let problem = tree.problem(&clashing.without(*limit));
                let Within::Some(plan) = any_within(problem.clone(), &mut Budget::new(1_000_000)) else {
                    return Err(TestCaseError::fail(format!("{limit:?} does not clash")));
                };
                prop_assert!(problem.keeps_limits(&plan));
            }
        }
    }

    #[test]
    fn the_whole_side_is_searched_and_the_changes_are_told() {
        let case = plain_case();
        let mut limits = Limits {
            bench: Some(minutes(100)),
            saw: Some(minutes(14)),
            ..Limits::default()
        };
        limits.close_caution(&CATALOGUE, "vertebral-column");
        let question = Question {
            limits: limits.clone(),
            ..Question::default()
        };
        let answer = best_plan(&case, &question).expect("an answer");
        assert!(answer.plans > 1_000_000_000_000, "{}", answer.plans);
        let findings = found(answer);
        assert!(findings.proof.is_proven && findings.proof.is_next_proven);
        assert!(findings.best.keeps_limits);
        assert!(findings.one_more_bench_hour.expect("a limit") > Money::ZERO);
        assert_eq!(findings.next.len(), question.next_best);
        let mut profit = findings.best.profit();
        for next in &findings.next {
            assert!(next.profit() <= profit && next.plan != findings.best.plan);
            profit = next.profit();
        }
        assert!(!findings.changes.is_empty());
        for change in &findings.changes {
            assert_eq!(
                change.effect.is_none(),
                change.from.is_empty(),
                "{change:?}"
            );
        }
        let sheet = Case {
            plan: findings.best.plan,
            ..case
        }
        .sheet()
        .expect("a sheet");
        assert!(sheet.breakdown.nodes().iter().all(|node| {
            match node.what {
                What::Part { way, .. } => CATALOGUE
                    .cautions_of(way)
                    .all(|caution| caution.id != "vertebral-column"),
                What::Product(_) => true,
            }
        }));
    }

    #[test]
    fn with_classes_of_grind_the_figures_are_exact_and_the_proof_says_what_it_rests_on() {
        let mut case = plain_case();
        let lean = CATALOGUE.grind_classes().first().expect("a class").product;
        let half = carcass::GrindAmount::Share(Share::from_percent(Decimal::from(50)));
        case.plan.grind.ask(lean, half);
        let findings = found(best_plan(&case, &Question::default()).expect("an answer"));
        assert!(findings.proof.averages_grind);
        assert_eq!(findings.best.plan.grind, case.plan.grind);
        let sheet = Case {
            plan: findings.best.plan.clone(),
            ..case
        }
        .sheet()
        .expect("a sheet");
        assert_eq!(sheet.verdict, findings.best.verdict);
        assert!(sheet.rows.iter().any(|row| row.product == lean));
    }

    #[test]
    fn a_cut_that_must_and_must_not_be_there_is_the_clash() {
        let case = plain_case();
        let flank = CATALOGUE.product_id("flank-steak").expect("a product");
        let mut limits = Limits {
            bench: Some(minutes(500)),
            ..Limits::default()
        };
        limits.must.insert(flank);
        limits.must_not.insert(flank);
        let question = Question {
            limits,
            ..Question::default()
        };
        match best_plan(&case, &question).expect("an answer").outcome {
            Outcome::Clash(clash) => {
                assert_eq!(clash.limits, [Limit::Must(flank), Limit::MustNot(flank)]);
                assert!(clash.is_minimal);
            }
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_total_time_costs_the_same_whatever_the_plan() {
        let mut case = plain_case();
        case.deal.labour = pricing::LabourTime::Total(minutes(240));
        let answer = best_plan(&case, &Question::default()).expect("an answer");
        assert!(
            (float((answer.present.bench + answer.present.saw).minutes()) - 240.0).abs() < 1e-9
        );
        let labour = answer.present.totals.labour;
        let findings = found(answer);
        assert!(findings.proof.is_proven);
        assert_eq!(findings.best.totals.labour, labour);
    }
}
