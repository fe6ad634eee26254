//! What would be if: inputs moved over a copy of a case, which itself stays
//! untouched.

use std::collections::BTreeMap;

use carcass::{Breakdown, Kind, Stock};
use pricing::{
    Charge, ChargeAmount, CostSheet, Deal, Judged, LabourTime, Outcome, Packaging, PricingError,
    Shop, Verdict, judge_breakdown, price_breakdown,
};
use quantity::{Decimal, LabourRate, Mass, Minutes, Money, Share, UnitPrice};

use crate::case::Case;
use crate::cut_shift::shift_cut;
use crate::input::Input;
use crate::saleable_shift::shift_saleable;

/// Inputs that are moved, each with its number in the unit of
/// [`Input::unit`]. Without any it is the plan.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WhatIf {
    moved: BTreeMap<Input, Decimal>,
}

/// What a sheet says in a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reading {
    /// What the margin means.
    pub outcome: Outcome,
    /// Share of sales that is left.
    pub margin: Share,
    /// The margin in money.
    pub profit: Money,
    /// The highest price at which the side makes the target margin.
    pub walk_away: UnitPrice,
}

impl Reading {
    /// What `verdict` says.
    pub fn of(verdict: &Verdict) -> Self {
        Self {
            outcome: verdict.outcome,
            margin: verdict.margin,
            profit: verdict.profit,
            walk_away: verdict.walk_away,
        }
    }
}

/// A deal and a shop as they are after a what-if was taken for real.
#[derive(Clone, Debug)]
pub struct WrittenBack {
    /// The deal.
    pub deal: Deal,
    /// The shop.
    pub shop: Shop,
    /// What could not be taken over, since neither deal nor shop has a place
    /// for it.
    pub left_out: Vec<Input>,
}

impl WhatIf {
    /// Moves `input` to `value`.
    pub fn set(&mut self, input: Input, value: Decimal) {
        self.moved.insert(input, value);
    }

    /// Puts `input` back to the plan.
    pub fn clear(&mut self, input: Input) {
        self.moved.remove(&input);
    }

    /// A copy with `input` moved to `value`.
    #[must_use]
    pub fn with(&self, input: Input, value: Decimal) -> Self {
        let mut other = self.clone();
        other.set(input, value);
        other
    }

    /// Whether nothing is moved.
    pub fn is_plan(&self) -> bool {
        self.moved.is_empty()
    }

    /// What is moved and where to, in the order in which it is moved.
    pub fn moved(&self) -> impl Iterator<Item = (Input, Decimal)> {
        self.moved.iter().map(|(&input, &value)| (input, value))
    }

    /// The number of `input`: where it was moved to, else what `case` has once
    /// the other inputs are moved.
    pub fn value(&self, case: &Case, input: Input) -> Decimal {
        match self.moved.get(&input) {
            Some(value) => *value,
            None => input.planned(&self.adjusted(case)),
        }
    }

    /// `case` with everything moved that a deal or a shop has a place for.
    /// Times, rates, weights and what packs cost are not taken below nothing.
    pub fn adjusted<'a>(&self, case: &Case<'a>) -> Case<'a> {
        let mut case = case.clone();
        for (input, value) in self.moved() {
            // Back and forth between units may lose the last digit.
            if value != input.planned(&case) {
                adjust(&mut case, input, value);
            }
        }
        case
    }

    /// The sheet of `case` with everything moved.
    ///
    /// # Errors
    /// As [`Case::sheet`].
    pub fn apply(&self, case: &Case) -> Result<CostSheet, PricingError> {
        let case = self.adjusted(case);
        price_breakdown(
            case.catalogue,
            self.broken_down(&case),
            &case.deal,
            &case.shop,
        )
    }

    /// The totals and the verdict of that sheet, for what is asked many times
    /// over.
    ///
    /// # Errors
    /// As [`Case::sheet`].
    pub fn judge(&self, case: &Case) -> Result<Judged, PricingError> {
        let case = self.adjusted(case);
        judge_breakdown(
            case.catalogue,
            &self.broken_down(&case),
            &case.deal,
            &case.shop,
        )
    }

    /// The adjusted case broken down, with moved yields.
    fn broken_down(&self, case: &Case) -> Breakdown {
        let mut breakdown = case.breakdown();
        for (input, value) in self.moved().filter(|(_, value)| !value.is_zero()) {
            let by = Share::from_percent(value);
            breakdown = match input {
                Input::Saleable => shift_saleable(case.catalogue, &breakdown, by),
                Input::Yield(product) => shift_cut(case.catalogue, &breakdown, product, by),
                _ => breakdown,
            };
        }
        breakdown
    }

    /// What the sheet of `case` says with everything moved.
    ///
    /// # Errors
    /// As [`Case::sheet`].
    pub fn reading(&self, case: &Case) -> Result<Reading, PricingError> {
        self.judge(case).map(|judged| Reading::of(&judged.verdict))
    }

    /// The deal and the shop with everything moved that can be kept, and what
    /// cannot. A moved board becomes the shop's own prices, the samples on it
    /// too.
    pub fn write_back(&self, case: &Case) -> WrittenBack {
        let adjusted = self.adjusted(case);
        WrittenBack {
            deal: adjusted.deal,
            shop: adjusted.shop,
            left_out: self
                .moved
                .keys()
                .copied()
                .filter(|input| !input.can_be_kept())
                .collect(),
        }
    }
}

fn adjust(case: &mut Case, input: Input, value: Decimal) {
    let catalogue = case.catalogue;
    let deal = &mut case.deal;
    let shop = &mut case.shop;
    let amount = value.max(Decimal::ZERO);
    match input {
        Input::Weight => deal.weight = Mass::from_kg(amount),
        Input::Stock => case.set_stock(Stock::grass_share(Share::from_percent(value))),
        Input::SidePrice => deal.price = UnitPrice::from_per_kg(value),
        Input::Charges => deal.charges.push(Charge {
            what: String::new(),
            amount: ChargeAmount::Flat(Money::from_units(value)),
        }),
        Input::LabourMinutes => {
            deal.labour = LabourTime::Total(Minutes::from_minutes(amount));
        }
        Input::LabourRate => shop.labour.rate = LabourRate::from_per_hour(amount),
        Input::Packaging => {
            shop.packaging = match shop.packaging {
                Packaging::PerWeight(_) => Packaging::PerWeight(UnitPrice::from_per_kg(amount)),
                Packaging::PerPack { holds, .. } => Packaging::PerPack {
                    cost: Money::from_units(amount),
                    holds,
                },
            };
        }
        Input::Unsold => shop.losses.unsold = Share::from_percent(value),
        Input::Board => {
            let factor = Share::WHOLE + Share::from_percent(value);
            for (product, data) in catalogue.products() {
                if data.kind == Kind::Cut {
                    let price = shop.board.price(catalogue, product);
                    shop.board.set(product, price * factor);
                }
            }
        }
        Input::Price(product) => shop.board.set(product, UnitPrice::from_per_kg(value)),
        // A yield is a difference from the plan; a deal has no place for it.
        Input::Saleable | Input::Yield(_) => {}
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use carcass::ProductId;
    use pricing::WeightBasis;
    use proptest::prelude::*;
    use proptest::sample::Index;
    use quantity::typed;

    use super::*;
    use crate::any_case::{CATALOGUE, any_case, plain_case};

    /// Every input of a case, with a cut that it gives.
    pub(crate) fn inputs(cut: ProductId) -> [Input; 12] {
        [
            Input::Weight,
            Input::Stock,
            Input::SidePrice,
            Input::Charges,
            Input::LabourMinutes,
            Input::LabourRate,
            Input::Packaging,
            Input::Unsold,
            Input::Board,
            Input::Price(cut),
            Input::Saleable,
            Input::Yield(cut),
        ]
    }

    pub(crate) fn any_cut(sheet: &CostSheet, choice: Index) -> ProductId {
        let cuts: Vec<ProductId> = sheet
            .rows
            .iter()
            .filter(|row| !row.is_by_product)
            .map(|row| row.product)
            .collect();
        *choice.get(&cuts)
    }

    fn id(id: &str) -> ProductId {
        CATALOGUE.product_id(id).expect("a product")
    }

    #[test]
    fn every_input_moves_the_sheet_and_leaves_the_case() {
        let case = plain_case();
        let before = case.sheet().expect("a sheet");
        for input in inputs(id("ribeye-steak")) {
            let planned = input.planned(&case);
            let what_if = WhatIf::default().with(input, planned + Decimal::TWO);
            let after = what_if.apply(&case).expect("a sheet");
            assert_ne!(after.verdict, before.verdict, "{input:?}");
            assert_eq!(what_if.value(&case, input), planned + Decimal::TWO);
        }
        assert_eq!(case.sheet().expect("a sheet").rows, before.rows);
    }

    #[test]
    fn what_is_written_back_is_what_was_tried_but_for_yields() {
        let mut case = plain_case();
        let mut what_if = WhatIf::default();
        for input in inputs(id("ribeye-steak")) {
            what_if.set(input, input.planned(&case) + Decimal::ONE);
        }
        let written = what_if.write_back(&case);
        assert_eq!(
            written.left_out,
            [Input::Saleable, Input::Yield(id("ribeye-steak"))]
        );
        for input in written.left_out {
            what_if.clear(input);
        }
        let tried = what_if.apply(&case).expect("a sheet");
        case.deal = written.deal;
        case.shop = written.shop;
        let kept = case.sheet().expect("a sheet");
        assert_eq!(kept.totals, tried.totals);
        assert_eq!(kept.rows, tried.rows);
    }

    #[test]
    fn a_leaner_side_loses_more_in_the_days_it_hung() {
        let mut case = plain_case();
        case.days_hung = Some(14);
        case.deal.basis = WeightBasis::Hot {
            shrink: Share::ZERO,
        };
        case.set_stock(Stock::GRAIN);
        let lost = |stock| {
            let loss = CATALOGUE.cooler_shrink(stock).after(14).expect("a loss");
            WeightBasis::Hot { shrink: loss.lost }
        };
        assert_eq!(case.deal.basis, lost(Stock::GRAIN));
        let grass = WhatIf::default().with(Input::Stock, Decimal::ONE_HUNDRED);
        assert_eq!(grass.adjusted(&case).deal.basis, lost(Stock::GRASS));
        assert_ne!(lost(Stock::GRASS), lost(Stock::GRAIN));
        let chilled = grass.apply(&case).expect("a sheet").totals.chilled;
        assert_eq!(chilled, lost(Stock::GRASS).chilled(case.deal.weight));
        // Where a loss was typed, the stock does not change it.
        case.days_hung = None;
        assert_eq!(grass.adjusted(&case).deal.basis, lost(Stock::GRAIN));
    }

    #[test]
    fn minutes_of_a_moved_weight_are_those_of_that_weight() {
        let case = plain_case();
        let planned = Input::LabourMinutes.planned(&case);
        let heavier = WhatIf::default().with(Input::Weight, Decimal::from(360));
        assert!(heavier.value(&case, Input::LabourMinutes) > planned);
        assert_eq!(heavier.value(&case, Input::Weight), Decimal::from(360));
        assert!(!heavier.is_plan());
    }

    proptest! {
            #![proptest_config(ProptestConfig::with_cases(48))]

            #[test]
            fn what_stays_where_it_was_planned_gives_the_plan(
                case in any_case(),
                choice in any::<Index>(),
            ) {
                let plan = case.sheet().expect("a sheet");
                let cut = any_cut(&plan, choice);
                let mut what_if = WhatIf::default();
                prop_assert!(what_if.is_plan());
                for input in inputs(cut) {
                    what_if.set(input, input.planned(&case));
                }
                let same = what_if.apply(&case).expect("a sheet");
                prop_assert_eq!(same.rows, plan.rows);
                prop_assert_eq!(same.totals, plan.totals);
                prop_assert_eq!(same.verdict, plan.verdict);
            }

            /// Whatever a field takes, and its opposite: a sheet or a reason.
            #[test]
            fn no_number_does_harm(
                case in any_case(),
                choice in any::<Index>(),
                values in prop::collection::vec(
                    prop::option::of(prop::sample::select(vec![
                        Decimal::ZERO,
                        Decimal::new(1, typed::MOST_PLACES),
                        Decimal::ONE_HUNDRED,
                        typed::LARGEST,
                        -Decimal::ONE_HUNDRED,
                        -typed::LARGEST,
                    ])),
                    12,
                ),
            ) {
                let cut = any_cut(&case.sheet().expect("a sheet"), choice);
                let mut what_if = WhatIf::default();
                for (input, value) in inputs(cut).into_iter().zip(values) {
                    if let Some(value) = value {
                        what_if.set(input, value);
                    }
                }
                let sheet = what_if.apply(&case);
            prop_assert_eq!(
                what_if.judge(&case).map(|judged| judged.verdict),
                sheet.as_ref().map(|sheet| sheet.verdict.clone()).map_err(Clone::clone)
            );
            if let Ok(sheet) = sheet {
                    let side = sheet.breakdown.share_of(|_| true);
                    prop_assert_eq!(side, Share::WHOLE);
                    for node in sheet.breakdown.nodes() {
                        prop_assert!(node.share >= Share::ZERO);
                    }
                }
                for input in inputs(cut) {
                    let bounds = input.bounds(&what_if.adjusted(&case));
                    prop_assert!(bounds.least <= bounds.most, "{:?}", input);
                }
            }
    }
}
