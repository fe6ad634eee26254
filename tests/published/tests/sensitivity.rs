//! What moves the margin: bars against the derivatives of the highest side
//! price, yields against the published slope, break-even against a published
//! worked example.
//!
//! The side and the shop are invented; the formulas and the figures that are
//! checked are not.

use carcass::{Catalogue, Kind, ProductId, Stock};
use decision::{BreakEven, Case, Input, InputSpread, WhatIf, bars, break_even, saleable_share};
use litemap::LiteMap;
use pricing::{
    Age, AllocationMethod, Charge, ChargeAmount, Deal, Labour, LabourTime, Packaging, PriceBoard,
    PriceRounding, SaleLoss, Shop, WeightBasis,
};
use published_checks::printed::{agrees, number};
use published_checks::sides::{catalogue, percent_of_kinds};
use quantity::{Decimal, LabourRate, Mass, Minutes, Money, Share, UnitPrice};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

fn percent(text: &str) -> Share {
    Share::from_percent(number(text))
}

/// An invented side of 180 kg by the boneless plan.
fn invented(catalogue: &Catalogue) -> Case<'_> {
    Case {
        catalogue,
        deal: Deal {
            sides: 1,
            weight: Mass::from_kg(number("180")),
            basis: WeightBasis::Hot {
                shrink: percent("2"),
            },
            price: UnitPrice::from_per_kg(number("9.2")),
            charges: vec![Charge {
                what: "Haul".to_owned(),
                amount: ChargeAmount::Flat(Money::from_units(number("40"))),
            }],
            stock: Stock::GRAIN,
            age: Age::Under30Months,
            labour: LabourTime::Total(Minutes::from_minutes(number("240"))),
        },
        plan: catalogue
            .plan("boneless")
            .expect("a named plan")
            .plan
            .clone(),
        shop: Shop {
            labour: Labour {
                rate: LabourRate::from_per_hour(number("32")),
                ..Labour::default()
            },
            target_margin: percent("28"),
            packaging: Packaging::PerWeight(UnitPrice::from_per_kg(number("0.35"))),
            losses: SaleLoss {
                unsold: percent("4"),
                ..SaleLoss::default()
            },
            own_losses: LiteMap::new(),
            method: AllocationMethod::NetRealisableValue,
            board: PriceBoard::default(),
            rules: LiteMap::new(),
            rounding: PriceRounding::default(),
        },
        days_hung: None,
    }
}

/// Holds the bar of `input`, moved by `by` to either side, against the
/// coefficient of the walk-away price per kilogram: the ends lie
/// `coefficient · by` from the middle, the swing is the coefficient times the
/// range.
#[track_caller]
fn bar_is(case: &Case, input: Input, by: &str, coefficient: Decimal) {
    let by = number(by);
    let stands = input.planned(case);
    let spread = InputSpread {
        input,
        low: stands - by,
        high: stands + by,
    };
    let bars = bars(case, &WhatIf::default(), &[spread]).expect("bars");
    let [bar] = bars.bars[..] else {
        panic!("one bar");
    };
    let per_kg = |price: UnitPrice| price.per_kg();
    let middle = per_kg(bars.middle.walk_away);
    let digits = Decimal::new(1, 18);
    for (end, off) in [(bar.low, -by), (bar.high, by)] {
        let apart = per_kg(end.reading.walk_away) - middle - coefficient * off;
        assert!(apart.abs() < digits, "{input:?} at {off}: {apart}");
    }
    let swing = per_kg(bar.walk_away_swing()) - coefficient.abs() * by * Decimal::TWO;
    assert!(swing.abs() < digits, "{input:?}: {swing}");
}

/// `P_max = ((1 − m)·Σ w·p·(1 − u) + B − Σ w·k − L − K) ⁄ W` (D) differentiated
/// by each of its terms; one input at a time gives a bar `c · (high − low)`,
/// symmetric about the middle (M).
#[test]
fn bars_are_the_derivatives_of_the_highest_price() {
    let catalogue = catalogue();
    let case = invented(&catalogue);
    let sheet = case.sheet().expect("a sheet");
    let priced = number("180");
    let kept_of_target = number("0.72");
    let sold = number("0.96");

    // dP/dL = −1/W, a minute costing a sixtieth of 32.
    let minute = number("32") / number("60");
    bar_is(&case, Input::LabourMinutes, "30", -minute / priced);
    // dP/dL for the rate: four hours of it.
    bar_is(&case, Input::LabourRate, "5", -number("4") / priced);
    // dP/dK = −1/W.
    bar_is(&case, Input::Charges, "25", -Decimal::ONE / priced);
    // dP/dk = −Σ w ⁄ W.
    let saleable = sheet.totals.saleable.kg();
    bar_is(&case, Input::Packaging, "0.1", -saleable / priced);
    // dP/dp = (1 − m)·w·(1 − u) ⁄ W, for every cut of the plan.
    for row in sheet.rows.iter().filter(|row| !row.is_by_product) {
        let coefficient = kept_of_target * row.weight.kg() * sold / priced;
        bar_is(&case, Input::Price(row.product), "1.5", coefficient);
    }
    // The whole board by one percent: (1 − m)·R ⁄ 100·W.
    let sales = sheet.totals.sales.units();
    let coefficient = kept_of_target * sales / number("100") / priced;
    bar_is(&case, Input::Board, "5", coefficient);
    // The unsold share by one point: −(1 − m)·Σ w·p ⁄ 100·W.
    let coefficient = -coefficient / sold;
    bar_is(&case, Input::Unsold, "2", coefficient);
    // The price asked moves the margin and not what the side is worth.
    bar_is(&case, Input::SidePrice, "1", Decimal::ZERO);
}

/// One yield grade leaner (R, Kansas State University 1976 and 1996): +4.0 to
/// +4.6 points saleable, +1.0 bone; fat trim gives both, here 5.3 points on the
/// middle slope of 4.3, published 5.6 on the upper.
#[test]
fn a_leaner_side_trades_as_published() {
    let catalogue = catalogue();
    let case = invented(&catalogue);
    let planned = case.breakdown();
    let leaner = WhatIf::default()
        .with(Input::Saleable, number("4.3"))
        .apply(&case)
        .expect("a sheet")
        .breakdown;
    for (what, kinds, moved) in [
        ("saleable", &[Kind::Cut][..], "4.3"),
        ("bone", &[Kind::Bone], "1.0"),
        ("fat trim", &[Kind::Fat], "-5.3"),
        ("losses", &[Kind::Loss], "0.0"),
    ] {
        let after = percent_of_kinds(&catalogue, &leaner, kinds);
        let before = percent_of_kinds(&catalogue, &planned, kinds);
        agrees(what, after - before, moved);
    }
}

/// Michigan State University Extension 2024 (R), freezer beef: 819 lb of
/// carcass at $3.00, harvest $100, processing $0.70/lb of carcass, 68 % taken
/// home = 556.92 lb: $5.62/lb, 22 % below $7.20.
///
/// Read backwards: a board of $7.20/lb on every cut can come down by 22 %, to
/// $5.62/lb, before such a side leaves nothing. The yield is put to 68 % by the
/// what-if, by-products bring nothing, and the shop adds no work of its own.
#[test]
fn a_board_may_fall_to_the_published_cost_of_freezer_beef() {
    let catalogue = catalogue();
    let mut case = invented(&catalogue);
    case.deal.weight = Mass::from_lb(number("819"));
    case.deal.basis = WeightBasis::Cold;
    case.deal.price = UnitPrice::from_per_lb(number("3"));
    case.deal.charges = [
        ChargeAmount::Flat(Money::from_units(number("100"))),
        ChargeAmount::PerWeight(UnitPrice::from_per_lb(number("0.70"))),
    ]
    .map(|amount| Charge {
        what: String::new(),
        amount,
    })
    .to_vec();
    case.deal.labour = LabourTime::Total(Minutes::ZERO);
    case.shop.target_margin = Share::ZERO;
    case.shop.packaging = Packaging::PerWeight(UnitPrice::ZERO);
    case.shop.losses = SaleLoss::default();
    for (product, data) in catalogue.products() {
        let price = match data.kind {
            Kind::Cut => number("7.20"),
            Kind::Fat | Kind::Bone | Kind::Loss => Decimal::ZERO,
        };
        case.shop.board.set(product, UnitPrice::from_per_lb(price));
    }

    let planned = saleable_share(&catalogue, &case.breakdown()).percent();
    let what_if = WhatIf::default().with(Input::Saleable, number("68") - planned);
    let sheet = what_if.apply(&case).expect("a sheet");
    agrees("pounds taken home", sheet.totals.saleable.lb(), "556.92");
    agrees("spent", sheet.totals.spend().units(), "3130.30");

    let answer = break_even(&case, &what_if, Input::Board).expect("an answer");
    let BreakEven::AtLeast(change) = answer else {
        panic!("{answer:?}");
    };
    agrees("percent below the board", change, "-22");
    let left = Decimal::ONE + change / Decimal::ONE_HUNDRED;
    agrees("least price per pound", number("7.20") * left, "5.62");

    // The same question asked of the yield: 68 % at a board of $5.62/lb.
    let cheap = WhatIf::default().with(Input::Board, change);
    let answer = break_even(&case, &cheap, Input::Saleable).expect("an answer");
    let BreakEven::AtLeast(moved) = answer else {
        panic!("{answer:?}");
    };
    agrees("percent taken home", planned + moved, "68.0000");
}

/// dm/dP = −W ⁄ R: the margin falls by the weight over the sales for each unit
/// of price, and the walk-away price is where it meets the target (D).
#[test]
fn the_margin_falls_by_the_weight_over_the_sales() {
    let catalogue = catalogue();
    let case = invented(&catalogue);
    let sheet = case.sheet().expect("a sheet");
    let spread = InputSpread {
        input: Input::SidePrice,
        low: number("8.2"),
        high: number("10.2"),
    };
    let bars = bars(&case, &WhatIf::default(), &[spread]).expect("bars");
    let slope = number("180") / sheet.totals.sales.units();
    let swing = bars.bars[0].margin_swing().fraction();
    assert!((swing - slope * Decimal::TWO).abs() < Decimal::new(1, 18));
    let answer = break_even(&case, &WhatIf::default(), Input::SidePrice).expect("an answer");
    let BreakEven::AtMost(at) = answer else {
        panic!("{answer:?}");
    };
    let by_slope = sheet.verdict.margin.fraction() - (at - number("9.2")) * slope;
    assert!((by_slope - number("0.28")).abs() < Decimal::new(1, 18));
}

/// A cut that the plan does not give moves nothing.
#[test]
fn a_cut_that_is_not_there_has_no_bar() {
    let catalogue = catalogue();
    let case = invented(&catalogue);
    let sheet = case.sheet().expect("a sheet");
    let there: Vec<ProductId> = sheet.rows.iter().map(|row| row.product).collect();
    let (absent, _) = catalogue
        .products()
        .find(|(product, data)| data.kind == Kind::Cut && !there.contains(product))
        .expect("a cut of another plan");
    bar_is(&case, Input::Price(absent), "5", Decimal::ZERO);
    bar_is(&case, Input::Yield(absent), "50", Decimal::ZERO);
}
