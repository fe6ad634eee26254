//! The cost sheet: every cut's weight, cost, margin and suggested price, the
//! side's totals, the verdict.

use carcass::{Breakdown, Catalogue, CutPlan, ProductId, break_down};
use quantity::{Mass, Minutes, Money, Rounding, Share, UnitPrice, rounding};

use crate::PricingError;
use crate::allocation::give_rest_to_largest;
use crate::cost::{Division, NodeCost};
use crate::cost_trail::{CostTrail, trails_of};
use crate::deal::Deal;
use crate::judged::Valued;
use crate::price_rule::PricedLine;
use crate::rounded_board::round_board;
use crate::shop::Shop;
use crate::suggestion_error::SuggestionError;
use crate::uncosted_rows::UncostedRows;
use crate::verdict::{Verdict, judge};
use crate::working_time::WorkingTime;

/// One cut or by-product, all its pieces together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What it is.
    pub product: ProductId,
    /// Whether it is a by-product, whose cost is what it brings.
    pub is_by_product: bool,
    /// Weight cut.
    pub weight: Mass,
    /// Share of the chilled side.
    pub share: Share,
    /// Cost with packaging, exact.
    pub exact_cost: Money,
    /// Cost to the cent; the costs of all rows sum to the spend to the cent.
    pub cost: Money,
    /// Cost for each weight cut.
    pub cost_per_mass: Option<UnitPrice>,
    /// Price on the board.
    pub price: UnitPrice,
    /// What it brings at that price, unsold weight taken off.
    pub sales: Money,
    /// Share of its sales left after its cost; `None` without sales.
    pub margin: Option<Share>,
    /// The price at which the whole side makes the target margin, every cut
    /// keeping its place on the board. Exact.
    pub suggested: Option<UnitPrice>,
    /// The suggested price with the shop's price ending.
    pub card: Option<UnitPrice>,
}

/// The side as a whole.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Totals {
    /// The chilled side on the block.
    pub chilled: Mass,
    /// Weight of all cuts.
    pub saleable: Mass,
    /// Working time.
    pub time: Minutes,
    /// What of it is spent at the band saw.
    pub saw_time: Minutes,
    /// Paid for the priced weight.
    pub side: Money,
    /// Charges on top.
    pub charges: Money,
    /// Labour with on-costs.
    pub labour: Money,
    /// Overhead that the working time carries.
    pub overhead: Money,
    /// Packaging.
    pub packaging: Money,
    /// What the cuts sell for, unsold weight taken off.
    pub sales: Money,
    /// What the by-products bring, their disposal taken off.
    pub by_products: Money,
}

impl Totals {
    /// Everything paid out.
    pub fn spend(&self) -> Money {
        self.side + self.charges + self.labour + self.overhead + self.packaging
    }

    /// What the cuts must carry: the spend less the by-products.
    pub fn net_spend(&self) -> Money {
        self.spend() - self.by_products
    }

    /// What is left.
    pub fn profit(&self) -> Money {
        self.sales - self.net_spend()
    }
}

/// What the suggested prices bring beyond what the target asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SuggestedBoard {
    /// Whether pins and floors alone, or by-products, pay for the target: the
    /// cuts that are free to follow the board have then no price that the
    /// target asks for, and their suggested price is nothing.
    pub is_met_by_held_prices: bool,
    /// What pins and floors alone bring above it.
    pub surplus: Money,
    /// What the rounded prices bring above it.
    pub excess: Money,
    /// Whether no other rounding to neighbouring prices brings less.
    pub is_proven_least: bool,
}

/// A side broken down, costed, priced and judged.
#[derive(Clone, Debug)]
pub struct CostSheet {
    /// Every piece of the side.
    pub breakdown: Breakdown,
    /// The time of every piece.
    pub time: WorkingTime,
    /// Value and cost of every piece.
    pub costs: Vec<NodeCost>,
    /// Cuts first, dearest cost per weight first; then by-products.
    pub rows: Vec<Row>,
    /// The side as a whole.
    pub totals: Totals,
    /// The answer at the counter.
    pub verdict: Verdict,
    /// How the suggested prices came out, or which lines stand in their way: a
    /// line is named by the place of its cut in `rows`.
    pub board: Result<SuggestedBoard, SuggestionError>,
}

impl CostSheet {
    /// How the cost of a cut or by-product came about.
    pub fn trails_of(&self, product: ProductId) -> Vec<CostTrail> {
        trails_of(&self.breakdown, &self.costs, product)
    }
}

/// Prices a side: the whole chain from the deal to the verdict.
///
/// # Errors
/// [`PricingError`] says what is missing or out of range and what would be
/// right.
pub fn price_side(
    catalogue: &Catalogue,
    deal: &Deal,
    plan: &CutPlan,
    shop: &Shop,
) -> Result<CostSheet, PricingError> {
    let chilled = deal.basis.chilled(deal.weight);
    let breakdown = break_down(catalogue, chilled, deal.sides, plan, deal.stock);
    price_breakdown(catalogue, breakdown, deal, shop)
}

/// Prices a side that has been broken down: what [`price_side`] does after the
/// knife. For a breakdown whose weights are not the plan's own.
///
/// # Errors
/// As [`price_side`].
pub fn price_breakdown(
    catalogue: &Catalogue,
    breakdown: Breakdown,
    deal: &Deal,
    shop: &Shop,
) -> Result<CostSheet, PricingError> {
    let Valued {
        time,
        values: mut costs,
        totals,
    } = Valued::of(catalogue, &breakdown, deal, shop)?;
    let uncosted = UncostedRows::of(catalogue, &breakdown, &costs, shop);
    Division::of(&breakdown, deal).divide(&mut costs, shop.method);
    let mut rows = uncosted.costed(&costs);
    round_costs(&mut rows, totals.spend());
    let board = suggest(&mut rows, &totals, shop);
    let verdict = judge(deal, shop, &totals)?;
    Ok(CostSheet {
        breakdown,
        time,
        costs,
        rows,
        totals,
        verdict,
        board,
    })
}

/// Decimal places at which exact costs are summed before they are rounded.
const PLACES: u32 = 12;

/// Rounds the costs of all rows to the cent so that they sum to the spend to
/// the cent. Division loses the last of 28 digits here and there; a spend that
/// ends on half a cent would then tip the other way, so the sum is first made
/// equal to the spend at a place where adding is exact: with 28 digits that is
/// up to 10¹⁵, a thousand billion times what a side costs.
pub(crate) fn round_costs(rows: &mut [Row], spend: Money) {
    let cut = |money: Money| Money::from_units(Rounding::HalfEven.to_places(money.units(), PLACES));
    let mut costs: Vec<Money> = rows.iter().map(|row| cut(row.exact_cost)).collect();
    give_rest_to_largest(&mut costs, cut(spend));
    for (row, cost) in rows.iter_mut().zip(rounding::tie_to_cents(&costs)) {
        row.cost = cost;
    }
}

/// Suggested prices: the board lifted by one factor until the sales of the side
/// reach what the target asks, `net spend ⁄ (1 − m)`, around the prices that the
/// shop holds; then rounded for the card so that the side still meets it. The
/// lines are taken in the order of the catalogue, so that the prices do not
/// depend on how cost is divided.
pub(crate) fn suggest(
    rows: &mut [Row],
    totals: &Totals,
    shop: &Shop,
) -> Result<SuggestedBoard, SuggestionError> {
    let mut places: Vec<usize> = (0..rows.len())
        .filter(|place| rows.get(*place).is_some_and(|row| !row.is_by_product))
        .collect();
    places.sort_unstable_by_key(|place| rows.get(*place).map(|row| row.product));
    let lines: Vec<PricedLine> = places
        .iter()
        .filter_map(|place| rows.get(*place))
        .map(|row| PricedLine {
            weight: row.weight * shop.losses_of(row.product).kept(),
            board: row.price,
            rule: shop.rules.get(&row.product).copied().unwrap_or_default(),
        })
        .collect();
    // A target below the whole leaves something to divide by.
    let required = totals
        .net_spend()
        .units()
        .checked_div(shop.target_margin.complement().fraction())
        .map_or(Money::ZERO, Money::from_units);
    let board = round_board(&lines, required, &shop.rounding)
        .map_err(|error| error.at(|line| places.get(line).copied().unwrap_or(line)))?;
    let prices = board.exact.prices.iter().zip(&board.prices);
    for (place, (exact, card)) in places.into_iter().zip(prices) {
        if let Some(row) = rows.get_mut(place) {
            row.suggested = Some(*exact);
            row.card = Some(*card);
        }
    }
    Ok(SuggestedBoard {
        is_met_by_held_prices: board.exact.is_met_by_held_prices(),
        surplus: board.exact.surplus,
        excess: board.excess,
        is_proven_least: board.is_proven_least,
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use quantity::{Decimal, MassUnit, PriceUnit, typed};

    use wording::key;

    use super::*;
    use crate::Packaging;
    use crate::any_side::{AnySide, CATALOGUE, any_extreme_side, any_side, plain_side};
    use crate::{AllocationMethod, LabourTime, Outcome, WeightBasis};

    /// Where division leaves the last of 28 digits open.
    fn last_digits() -> Decimal {
        Decimal::new(1, 18)
    }

    /// `side` with the suggested prices on its board, by-products as they are.
    fn with_suggested_prices(side: &AnySide, sheet: &CostSheet) -> AnySide {
        let mut side = side.clone();
        for row in &sheet.rows {
            if let Some(suggested) = row.suggested {
                side.shop.board.set(row.product, suggested);
            }
        }
        side
    }

    fn cents(money: Money) -> Decimal {
        Rounding::HalfEven.to_cent(money.units())
    }

    fn cost_of_rows(sheet: &CostSheet) -> (Money, Money) {
        (
            sheet.rows.iter().map(|row| row.cost).sum(),
            sheet.rows.iter().map(|row| row.exact_cost).sum(),
        )
    }

    #[test]
    fn a_half_cent_of_spend_rounds_as_the_spend_does() {
        // With neither labour nor packaging the spend ends on an exact half
        // cent, where a digit lost in the division would tip the sum.
        let mut side = plain_side();
        side.shop.packaging = Packaging::PerWeight(UnitPrice::ZERO);
        side.deal.labour = LabourTime::Total(Minutes::ZERO);
        for method in AllocationMethod::ALL {
            side.shop.method = method;
            for tenths in 0..400 {
                side.deal.weight = Mass::from_kg(Decimal::new(1500 + tenths, 1));
                side.deal.price = UnitPrice::from_per_kg(Decimal::new(835, 2));
                let sheet = side.sheet();
                let (rounded, _) = cost_of_rows(&sheet);
                assert_eq!(
                    rounded.units(),
                    cents(sheet.totals.spend()),
                    "{:?} by {}",
                    side.deal.weight,
                    method.name()
                );
            }
        }
    }

    #[test]
    fn what_cannot_be_priced_is_refused_by_name() {
        let refused = |change: fn(&mut AnySide)| {
            let mut side = plain_side();
            change(&mut side);
            side.price().map(|sheet| sheet.verdict).unwrap_err()
        };
        assert_eq!(
            refused(|side| side.deal.weight = Mass::ZERO),
            PricingError::NoWeight
        );
        assert_eq!(
            refused(|side| side.deal.weight = -Mass::from_kg(Decimal::ONE)),
            PricingError::NoWeight
        );
        assert_eq!(
            refused(|side| side.shop.target_margin = Share::WHOLE),
            PricingError::MarginTooHigh
        );
        let negative = Share::from_percent(Decimal::NEGATIVE_ONE);
        for (what, error) in [
            (
                key!("Target margin"),
                refused(|side| {
                    side.shop.target_margin = Share::from_percent(Decimal::NEGATIVE_ONE);
                }),
            ),
            (
                key!("Between block and till"),
                refused(|side| side.shop.losses.unsold = Share::WHOLE),
            ),
            (
                key!("On-costs"),
                refused(|side| {
                    side.shop.labour.on_cost = Share::from_percent(Decimal::NEGATIVE_ONE);
                }),
            ),
            (
                key!("Shrink or dressing share"),
                refused(|side| {
                    side.deal.basis = WeightBasis::Hot {
                        shrink: Share::WHOLE,
                    };
                }),
            ),
            (
                key!("Shrink or dressing share"),
                refused(|side| {
                    side.deal.basis = WeightBasis::Live {
                        dressing: Share::ZERO,
                        shrink: Share::ZERO,
                    };
                }),
            ),
        ] {
            assert_eq!(error, PricingError::ShareOutOfRange { what });
            let said = format!("{}: it must be 0 % or more and below 100 %.", what.said());
            assert_eq!(error.to_string(), said);
        }
        assert!(!WeightBasis::Hot { shrink: negative }.is_sound());
        assert_eq!(
            refused(|side| {
                for (product, _) in CATALOGUE.products() {
                    side.shop.board.set(product, UnitPrice::ZERO);
                }
            }),
            PricingError::NoSales
        );
    }

    #[test]
    fn each_error_says_what_would_be_right() {
        for (error, sentence) in [
            (
                PricingError::NoWeight,
                "The side weighs nothing: enter a weight above 0.",
            ),
            (PricingError::SidesOutOfRange, "Enter from 1 to 20 sides."),
            (
                PricingError::MarginTooHigh,
                "A margin of 100 % or more leaves nothing to pay for the side: enter one below 100 %.",
            ),
            (
                PricingError::NoSales,
                "No cut of this plan has a price above 0: enter a price on the board.",
            ),
        ] {
            assert_eq!(error.to_string(), sentence);
        }
    }

    proptest! {
        #[test]
        fn costs_of_all_rows_sum_to_the_spend(side in any_side()) {
            let sheet = side.sheet();
            let (rounded, exact) = cost_of_rows(&sheet);
            prop_assert_eq!(rounded.units(), cents(sheet.totals.spend()));
            prop_assert!((exact - sheet.totals.spend()).units().abs() <= last_digits());
            for row in &sheet.rows {
                let moved = (row.cost - row.exact_cost).units().abs();
                prop_assert!(moved <= Decimal::new(1, 2), "{row:?}");
                if row.is_by_product {
                    prop_assert_eq!(row.exact_cost, row.sales, "a by-product neither earns nor loses");
                }
            }
        }

        #[test]
        fn sales_and_weights_of_all_rows_sum_to_the_totals(side in any_side()) {
            let sheet = side.sheet();
            let (mut sold, mut credited) = (Money::ZERO, Money::ZERO);
            let (mut saleable, mut share) = (Mass::ZERO, Share::ZERO);
            for row in &sheet.rows {
                share = share + row.share;
                let of_side = sheet.totals.chilled * row.share;
                prop_assert!((of_side - row.weight).kg().abs() <= Decimal::new(1, 15), "{row:?}");
                let left = row.sales - row.exact_cost;
                if let Some(margin) = row.margin {
                    let apart = row.sales * margin - left;
                    prop_assert!(apart.units().abs() <= Decimal::new(1, 15), "{row:?}");
                }
                if row.is_by_product {
                    credited += row.sales;
                } else {
                    sold += row.sales;
                    saleable += row.weight;
                }
            }
            prop_assert!((sold - sheet.totals.sales).units().abs() <= last_digits());
            prop_assert!((credited - sheet.totals.by_products).units().abs() <= last_digits());
            let apart = (saleable - sheet.totals.saleable).kg().abs();
            prop_assert!(apart <= last_digits(), "{apart}");
            prop_assert!(share <= Share::WHOLE && saleable < sheet.totals.chilled);
            prop_assert_eq!(sheet.totals.time, sheet.time.total);
            prop_assert_eq!(sheet.totals.saw_time, sheet.time.at_saw);
        }

        #[test]
        fn suggested_prices_on_the_board_make_the_target(side in any_side()) {
            let sheet = side.sheet();
            prop_assume!(sheet.totals.net_spend().is_positive());
            let suggested = with_suggested_prices(&side, &sheet);
            let again = suggested.sheet();
            let missed = again.verdict.margin - side.shop.target_margin;
            prop_assert!(missed.fraction().abs() <= last_digits(), "{missed:?}");
            prop_assert_eq!(again.totals.by_products, sheet.totals.by_products);
        }

        #[test]
        fn constant_gross_margin_earns_the_same_on_every_cut(mut side in any_side()) {
            side.shop.method = AllocationMethod::ConstantGrossMargin;
            let sheet = side.sheet();
            for row in sheet.rows.iter().filter(|row| !row.is_by_product && row.sales.is_positive()) {
                let apart = row.exact_cost - row.sales * sheet.verdict.margin.complement();
                prop_assert!(apart.units().abs() <= last_digits(), "{row:?}");
            }
        }

        #[test]
        fn the_method_moves_cost_between_cuts_and_nothing_else(mut side in any_side()) {
            side.shop.method = AllocationMethod::NetRealisableValue;
            let sheet = side.sheet();
            for method in AllocationMethod::ALL {
                side.shop.method = method;
                let other = side.sheet();
                prop_assert_eq!(&other.verdict, &sheet.verdict);
                prop_assert_eq!(other.totals, sheet.totals);
            }
        }

        #[test]
        fn pounds_or_kilograms_change_nothing(
            side in any_side(),
            tenths_lb in 1_i64..20_000,
            dimes_per_kg in 0_i64..500,
        ) {
            // With one decimal each, both units can be typed to the last digit.
            let kg_per_lb = Decimal::new(45_359_237, 8);
            let pounds = Decimal::new(tenths_lb, 1);
            let per_kg = Decimal::new(dimes_per_kg, 1);
            let mut sheets = Vec::new();
            for (weight, price) in [
                (format!("{pounds} lb"), format!("{per_kg}/kg")),
                (format!("{} kg", pounds * kg_per_lb), format!("{}/lb", per_kg * kg_per_lb)),
            ] {
                let mut side = side.clone();
                let (weight, _) = typed::mass(&weight, MassUnit::Gram).expect("a mass");
                let (price, _) = typed::unit_price(&price, PriceUnit::Per100Gram).expect("a price");
                side.deal.weight = weight;
                side.deal.price = price;
                sheets.push(side.sheet());
            }
            prop_assert_eq!(&sheets[0].rows, &sheets[1].rows);
            prop_assert_eq!(&sheets[0].verdict, &sheets[1].verdict);
        }

        #[test]
        fn the_ends_of_every_range_do_not_panic(side in any_extreme_side()) {
            if let Ok(sheet) = side.price() {
                let (rounded, _) = cost_of_rows(&sheet);
                let spend = sheet.totals.spend();
                let exact_below = Decimal::from(1_000_000_000_000_000_i64);
                let is_exact = |money: Money| money.units().abs() < exact_below;
                if is_exact(spend) && sheet.rows.iter().all(|row| is_exact(row.exact_cost)) {
                    prop_assert_eq!(rounded.units(), cents(spend));
                }
                prop_assert_eq!(
                    sheet.verdict.outcome == Outcome::Pays,
                    side.deal.price <= sheet.verdict.walk_away
                );
            }
        }
    }
}
