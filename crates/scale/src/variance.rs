//! What yield, price and labour each had to do with the margin in money.
//!
//! The variance analysis of standard costing (Horngren et al., *Cost
//! Accounting*, ch. 7 and 8, from memory), one thing after another:
//!
//! | variance | weights | prices | time and wage |
//! |---|---|---|---|
//! | by yield | actual less planned | planned | planned |
//! | by price | actual | actual less planned | planned |
//! | by labour | actual | actual | actual less planned |
//!
//! A price variance is thus taken on the actual quantity and a quantity variance
//! at the planned price, as the handbook has it; what a cut gains by being both
//! heavier and dearer counts as price. Labour adds to the cost by itself, so its
//! place in the order changes nothing. By price falls into what the till took and
//! what the side was bought for. Below nothing is money lost.
//!
//! Each amount is the difference of two margins that were cut to twelve places,
//! where sums are exact: the variances add up to the last digit.

use pricing::Totals;
use quantity::{Money, Rounding};

/// Decimal places at which margins are compared.
const PLACES: u32 = 12;

/// Money at the places at which margins are compared.
pub(crate) fn at_places(money: Money) -> Money {
    Money::from_units(Rounding::HalfEven.to_places(money.units(), PLACES))
}

/// Where the difference between two margins comes from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Variance {
    /// The margin in money by the plan.
    pub planned: Money,
    /// What came of it.
    pub actual: Money,
    /// By what the side gave.
    pub by_yield: Money,
    /// By what cuts and by-products were sold for, their unsold weight and
    /// packaging.
    pub by_board: Money,
    /// By what the side and its charges cost.
    pub by_purchase: Money,
    /// By time, wage and overhead.
    pub by_labour: Money,
}

impl Variance {
    /// Between four totals, each of which changes one thing: planned, then the
    /// weights, then the prices, then the labour.
    pub(crate) fn of([planned, by_yield, by_price, actual]: [&Totals; 4]) -> Self {
        let profit = |totals: &Totals| at_places(totals.profit());
        let bought = |totals: &Totals| at_places(totals.side + totals.charges);
        let by_purchase = bought(by_yield) - bought(by_price);
        Self {
            planned: profit(planned),
            actual: profit(actual),
            by_yield: profit(by_yield) - profit(planned),
            by_board: profit(by_price) - profit(by_yield) - by_purchase,
            by_purchase,
            by_labour: profit(actual) - profit(by_price),
        }
    }

    /// By price: at the till and at the supplier's.
    pub fn by_price(&self) -> Money {
        self.by_board + self.by_purchase
    }

    /// The whole difference: what came of it less the plan.
    pub fn total(&self) -> Money {
        self.actual - self.planned
    }
}

#[cfg(test)]
mod tests {
    use carcass::{CutPlan, What};
    use litemap::LiteMap;
    use pricing::{Charge, ChargeAmount, price_side};
    use proptest::prelude::*;
    use quantity::{Decimal, LabourRate, Mass, Minutes, Share, UnitPrice};

    use super::*;
    use crate::any_side::{CATALOGUE, deal, per_kg, shop, simulated};
    use crate::closing::ClosedWeights;
    use crate::composition::products;
    use crate::report::{Outcome, PartLine, Planned, Report, report};

    fn plan(choices: &[prop::sample::Index]) -> CutPlan {
        let mut plan = CutPlan::default();
        for ((part, data), choice) in CATALOGUE.parts().zip(choices.iter().cycle()) {
            plan.choose(part, *choice.get(&data.ways));
        }
        plan
    }

    /// A side with everything that moves its margin.
    #[derive(Clone, Debug)]
    struct AnyOutcome {
        plan: CutPlan,
        seed: u64,
        board: Vec<i64>,
        price: i64,
        charge: i64,
        wage: i64,
        minutes: Vec<i64>,
    }

    fn any_outcome() -> impl Strategy<Value = AnyOutcome> {
        (
            prop::collection::vec(any::<prop::sample::Index>(), 64),
            0_u64..1_000_000,
            prop::collection::vec(-300_i64..500, 1..20),
            1_i64..3000,
            -10_000_i64..10_000,
            0_i64..9000,
            prop::collection::vec(0_i64..600, 1..10),
        )
            .prop_map(
                |(choices, seed, board, price, charge, wage, minutes)| AnyOutcome {
                    plan: plan(&choices),
                    seed,
                    board,
                    price,
                    charge,
                    wage,
                    minutes,
                },
            )
    }

    /// The report of an outcome with its parts: plan alone where `is_plan`.
    fn reported(of: &AnyOutcome, [weights, prices, labour]: [bool; 3]) -> Report {
        let (planned_deal, planned_shop) = (deal(), shop());
        let sheet = price_side(&CATALOGUE, &planned_deal, &of.plan, &planned_shop).expect("priced");
        let pieces = if weights {
            simulated(&CATALOGUE, &sheet.breakdown, of.seed, 0)
        } else {
            products(&sheet.breakdown)
                .map(|(_, _, node)| node.weight)
                .collect()
        };
        let closed = ClosedWeights::all_found(pieces);
        let (mut deal, mut shop) = (planned_deal.clone(), planned_shop.clone());
        if prices {
            deal.price = per_kg(of.price);
            deal.charges.push(Charge {
                what: String::new(),
                amount: ChargeAmount::Flat(Money::from_cents(of.charge)),
            });
            for ((product, data), cents) in CATALOGUE.products().zip(of.board.iter().cycle()) {
                if !data.kind.is_by_product() {
                    let price = shop.board.price(&CATALOGUE, product) + per_kg(*cents);
                    shop.board.set(product, price.max(UnitPrice::ZERO));
                }
            }
        }
        let mut minutes = LiteMap::new();
        if labour {
            shop.labour.rate = LabourRate::from_per_hour(Decimal::new(of.wage, 2));
            for ((way, _), tenths) in CATALOGUE.ways().zip(of.minutes.iter().cycle()) {
                if tenths % 3 != 0 {
                    minutes.insert(way, Minutes::from_minutes(Decimal::new(*tenths, 1)));
                }
            }
        }
        report(
            &CATALOGUE,
            &Planned {
                deal: &planned_deal,
                shop: &planned_shop,
                sheet: &sheet,
            },
            &closed,
            &Outcome {
                deal: &deal,
                shop: &shop,
                minutes: &minutes,
            },
        )
        .expect("priced")
    }

    fn close_to(one: Money, other: Money) -> bool {
        (one - other).units().abs() <= Decimal::new(1, 9)
    }

    // Invented, worked by hand: 180 kg, wage 32 an hour. Six minutes more at the
    // first way cost 3.20; a side bought 0.10 a kilogram dearer costs 18.00.
    #[test]
    fn each_change_is_worth_what_it_costs_by_hand() {
        let (planned_deal, planned_shop) = (deal(), shop());
        let plan = &CATALOGUE.plan("boneless").expect("a plan").plan;
        let sheet = price_side(&CATALOGUE, &planned_deal, plan, &planned_shop).expect("priced");
        let What::Part { way, .. } = sheet.breakdown.nodes()[0].what else {
            panic!("the side is a part");
        };
        let mut pieces: Vec<Mass> = products(&sheet.breakdown)
            .map(|(_, _, node)| node.weight)
            .collect();
        // Half a kilogram of a cut turned out to be a loss.
        let place = |is_it: &dyn Fn(carcass::ProductId) -> bool| {
            products(&sheet.breakdown)
                .position(|(_, product, _)| is_it(product))
                .expect("a piece")
        };
        let tenderloin = CATALOGUE
            .product_id("tenderloin-steak")
            .filter(|id| products(&sheet.breakdown).any(|(_, product, _)| product == *id))
            .or_else(|| {
                products(&sheet.breakdown)
                    .map(|(_, product, _)| product)
                    .find(|product| CATALOGUE[*product].kind == carcass::Kind::Cut)
            })
            .expect("a cut");
        let half = Mass::from_kg(Decimal::new(5, 1));
        let (from, to) = (
            place(&|product| product == tenderloin),
            place(&|product| CATALOGUE[product].kind == carcass::Kind::Loss),
        );
        pieces[from] = pieces[from] - half;
        pieces[to] += half;
        let mut actual_deal = planned_deal.clone();
        actual_deal.price = per_kg(1150);
        let planned_minutes = sheet.time.of_piece(0);
        let minutes = LiteMap::from_iter([(
            way,
            planned_minutes + Minutes::from_minutes(Decimal::from(6)),
        )]);
        let report = report(
            &CATALOGUE,
            &Planned {
                deal: &planned_deal,
                shop: &planned_shop,
                sheet: &sheet,
            },
            &ClosedWeights::all_found(pieces),
            &Outcome {
                deal: &actual_deal,
                shop: &planned_shop,
                minutes: &minutes,
            },
        )
        .expect("priced");
        let variance = report.variance;
        assert!(
            close_to(variance.by_labour, Money::from_cents(-320)),
            "{variance:?}"
        );
        assert!(
            close_to(variance.by_purchase, Money::from_cents(-1800)),
            "{variance:?}"
        );
        assert!(close_to(variance.by_board, Money::ZERO));
        // Half a kilogram at its price less 4 % unsold and 0.35 a kilogram of
        // packaging that is no longer needed.
        let price = planned_shop.board.price(&CATALOGUE, tenderloin);
        let kept = Share::from_percent(Decimal::from(96));
        let lost = price * half * kept - per_kg(35) * half;
        assert!(close_to(variance.by_yield, -lost), "{variance:?} {lost:?}");
        let line = report
            .cuts
            .iter()
            .find(|line| line.product == tenderloin)
            .expect("a line");
        assert!(close_to(line.by_yield, -lost));
        // The part that it comes off has the same, and the side the minutes.
        let nodes = sheet.breakdown.nodes();
        let piece = nodes
            .iter()
            .find(|node| node.what == What::Product(tenderloin));
        let parent = piece.and_then(|piece| piece.parent).expect("a part");
        let What::Part { way: cut_by, .. } = nodes[parent].what else {
            panic!("it comes off a part");
        };
        for part in &report.parts {
            let [by_yield, by_labour] = [(cut_by, -lost), (way, Money::from_cents(-320))]
                .map(|(of, amount)| if of == part.way { amount } else { Money::ZERO });
            assert!(close_to(part.by_yield, by_yield), "{part:?}");
            assert!(close_to(part.by_price, Money::ZERO), "{part:?}");
            assert!(close_to(part.by_labour, by_labour), "{part:?}");
        }
        assert_eq!(
            report.parts[0].minutes.actual,
            planned_minutes + Minutes::from_minutes(Decimal::from(6))
        );
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]

        #[test]
        fn the_variances_add_up_exactly(of in any_outcome()) {
            let report = reported(&of, [true, true, true]);
            let variance = report.variance;
            prop_assert_eq!(
                variance.by_yield + variance.by_price() + variance.by_labour,
                variance.total()
            );
            prop_assert!(close_to(variance.actual, report.actual.totals.profit()));
            let by_yield: Money = report.cuts.iter().map(|line| line.by_yield).sum();
            prop_assert_eq!(by_yield, variance.by_yield);
            let by_board: Money = report.cuts.iter().map(|line| line.by_price).sum();
            prop_assert_eq!(by_board, variance.by_board);
            let parts = |of: fn(&PartLine) -> Money| report.parts.iter().map(of).sum::<Money>();
            prop_assert_eq!(parts(|part| part.by_yield), variance.by_yield);
            prop_assert_eq!(parts(|part| part.by_price), variance.by_board);
            prop_assert_eq!(parts(|part| part.by_labour), variance.by_labour);
            let paid = parts(|part| part.labour.planned) - parts(|part| part.labour.actual);
            prop_assert!(close_to(paid, variance.by_labour), "{:?} {:?}", paid, variance);
            // Division leaves nothing worth a thousandth of a cent anywhere.
            for line in &report.parts {
                let labour = line.labour.planned - line.labour.actual;
                prop_assert!(close_to(line.by_labour, labour), "{:?}", line);
            }
            let side = &report.parts[0];
            let totals = &report.actual.totals;
            let margin = totals.profit().ratio_to(totals.sales);
            let apart = side.margin.actual.zip(margin).map(|(one, other)| one - other);
            prop_assert!(
                apart.is_none_or(|apart| apart.fraction().abs() < Decimal::new(1, 9)),
                "{:?} {:?}", side, margin
            );
        }

        #[test]
        fn one_change_alone_moves_its_own_variance_alone(of in any_outcome()) {
            for only in 0..3 {
                let mut changes = [false; 3];
                changes[only] = true;
                let variance = reported(&of, changes).variance;
                let parts = [variance.by_yield, variance.by_price(), variance.by_labour];
                for (place, part) in parts.into_iter().enumerate() {
                    let is_still = place != only;
                    prop_assert!(!is_still || close_to(part, Money::ZERO), "{only} {variance:?}");
                }
            }
        }
    }
}
