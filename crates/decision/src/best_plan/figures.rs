//! What a plan comes to, from its exact cost sheet.

use carcass::CutPlan;
use pricing::{CostSheet, PricingError, Totals, Verdict};
use quantity::{Decimal, Mass, Minutes, Money, Share};

use super::limits::Limits;
use super::problem::SLACK;
use super::side_tree::{bench_and_saw, float};
use crate::Case;

/// A plan with its exact figures.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanFigures {
    /// The plan.
    pub plan: CutPlan,
    /// The totals of its cost sheet.
    pub totals: Totals,
    /// The verdict of its cost sheet.
    pub verdict: Verdict,
    /// Minutes at the bench: all that is not spent at the saw.
    pub bench: Minutes,
    /// Minutes at the band saw.
    pub saw: Minutes,
    /// Whether its exact figures keep every limit. Where grind is made to
    /// classes, which the search does not see, it may fail.
    pub keeps_limits: bool,
}

impl PlanFigures {
    pub(super) fn of(
        case: &Case,
        plan: CutPlan,
        limits: &Limits,
        speed: Share,
    ) -> Result<Self, PricingError> {
        let case = Case {
            plan,
            deal: case.deal.clone(),
            shop: case.shop.clone(),
            ..*case
        };
        let sheet = case.sheet()?;
        let (bench, saw) = bench_and_saw(&case, &sheet.breakdown, speed);
        Ok(Self {
            keeps_limits: keeps(limits, &sheet, bench, saw),
            plan: case.plan,
            totals: sheet.totals,
            verdict: sheet.verdict,
            bench,
            saw,
        })
    }

    /// The margin in money.
    pub fn profit(&self) -> Money {
        self.verdict.profit
    }

    /// Profit for each hour at the bench; `None` where it takes no time.
    pub fn profit_per_bench_hour(&self) -> Option<Money> {
        let hour = Decimal::from(60);
        let rate = self.profit().times(hour).units();
        rate.checked_div(self.bench.minutes())
            .map(Money::from_units)
    }
}

fn keeps(limits: &Limits, sheet: &CostSheet, bench: Minutes, saw: Minutes) -> bool {
    let weight_of = |product| -> Mass {
        let rows = sheet.rows.iter().filter(|row| row.product == product);
        rows.map(|row| row.weight).sum()
    };
    // What the search let pass is let pass here, its own rounding included.
    let is_within = |used: Decimal, most: Decimal| float(used - most) <= 2.0 * SLACK;
    let is_open = sheet.breakdown.nodes().iter().all(|node| match node.what {
        carcass::What::Part { way, .. } => !limits.closed.contains(&way),
        carcass::What::Product(_) => true,
    });
    let grind_is_enough = limits.grind.as_ref().is_none_or(|grind| {
        let made: Mass = grind
            .products
            .iter()
            .map(|product| weight_of(*product))
            .sum();
        is_within(grind.weight.kg(), made.kg())
    });
    is_open
        && grind_is_enough
        && limits
            .bench
            .is_none_or(|most| is_within(bench.minutes(), most.minutes()))
        && limits
            .saw
            .is_none_or(|most| is_within(saw.minutes(), most.minutes()))
        && limits
            .most
            .iter()
            .all(|(product, most)| is_within(weight_of(*product).kg(), most.kg()))
        && limits
            .must
            .iter()
            .all(|product| weight_of(*product).is_positive())
        && !limits
            .must_not
            .iter()
            .any(|product| weight_of(*product).is_positive())
}
