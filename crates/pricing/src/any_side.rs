//! Any side that a shop could meet, for the property tests.

use litemap::LiteMap;
use std::sync::LazyLock;

use carcass::{Catalogue, CutPlan, GrindAmount, GrindPlan, Kind, ProductId, Stock};
use proptest::prelude::*;
use proptest::sample::Index;
use quantity::{
    Decimal, LabourRate, Mass, MassUnit, Minutes, Money, PriceUnit, Share, UnitPrice, typed,
};

use crate::deal::MOST_SIDES;
use crate::{
    Age, AllocationMethod, Charge, ChargeAmount, CostSheet, Deal, Labour, LabourTime, Packaging,
    PriceBoard, PriceRounding, PricingError, SaleLoss, Shop, WeightBasis, price_side,
};

/// The published catalogue, loaded once.
pub(crate) static CATALOGUE: LazyLock<Catalogue> =
    LazyLock::new(|| Catalogue::published().expect("published data"));

/// A side with everything that prices it.
#[derive(Clone, Debug)]
pub(crate) struct AnySide {
    pub deal: Deal,
    pub plan: CutPlan,
    pub shop: Shop,
}

impl AnySide {
    pub fn price(&self) -> Result<CostSheet, PricingError> {
        price_side(&CATALOGUE, &self.deal, &self.plan, &self.shop)
    }

    #[track_caller]
    pub fn sheet(&self) -> CostSheet {
        self.price().expect("a side that can be priced")
    }
}

/// An invented side, bought cold and cut by the boneless plan.
pub(crate) fn plain_side() -> AnySide {
    AnySide {
        deal: Deal {
            sides: 1,
            weight: Mass::from_kg(Decimal::from(180)),
            basis: WeightBasis::Cold,
            price: UnitPrice::from_per_kg(Decimal::new(920, 2)),
            charges: Vec::new(),
            stock: Stock::GRAIN,
            age: Age::Under30Months,
            labour: LabourTime::PlanEstimate,
        },
        plan: CATALOGUE
            .plan("boneless")
            .expect("a named plan")
            .plan
            .clone(),
        shop: Shop {
            labour: Labour {
                rate: LabourRate::from_per_hour(Decimal::from(32)),
                ..Labour::default()
            },
            target_margin: Share::from_percent(Decimal::from(28)),
            packaging: Packaging::PerWeight(UnitPrice::from_per_kg(Decimal::new(35, 2))),
            losses: SaleLoss {
                unsold: Share::from_percent(Decimal::from(4)),
                ..SaleLoss::default()
            },
            own_losses: LiteMap::new(),
            method: AllocationMethod::NetRealisableValue,
            board: PriceBoard::default(),
            rules: LiteMap::new(),
            rounding: PriceRounding::default(),
        },
    }
}

/// Any way of any part, any stock, any price of the board, any deal.
pub(crate) fn any_side() -> impl Strategy<Value = AnySide> {
    (any_deal(), any_plan(), any_shop()).prop_map(|(deal, plan, shop)| AnySide { deal, plan, shop })
}

/// Hundredths, thousandths … of one, up to `most` of them.
fn up_to(most: i64, places: u32) -> impl Strategy<Value = Decimal> {
    (0..=most).prop_map(move |units| Decimal::new(units, places))
}

fn share_up_to(most_percent: i64) -> impl Strategy<Value = Share> {
    up_to(most_percent * 10, 1).prop_map(Share::from_percent)
}

fn any_unit_price(most: i64) -> impl Strategy<Value = UnitPrice> {
    (up_to(most * 100, 2), any::<bool>()).prop_map(|(amount, per_kg)| {
        if per_kg {
            UnitPrice::from_per_kg(amount)
        } else {
            UnitPrice::from_per_lb(amount)
        }
    })
}

fn any_basis() -> impl Strategy<Value = WeightBasis> {
    prop_oneof![
        Just(WeightBasis::Cold),
        share_up_to(6).prop_map(|shrink| WeightBasis::Hot { shrink }),
        (share_up_to(60), share_up_to(6)).prop_map(|(loss, shrink)| WeightBasis::Live {
            dressing: loss.complement(),
            shrink,
        }),
    ]
}

fn any_charge() -> impl Strategy<Value = Charge> {
    let amount = prop_oneof![
        (-10_000_i64..30_000).prop_map(|cents| ChargeAmount::Flat(Money::from_cents(cents))),
        any_unit_price(3).prop_map(ChargeAmount::PerWeight),
    ];
    amount.prop_map(|amount| Charge {
        what: "a charge".to_owned(),
        amount,
    })
}

fn any_deal() -> impl Strategy<Value = Deal> {
    let weight = (1_i64..1_000_000, any::<bool>()).prop_map(|(thousandths, kilograms)| {
        let amount = Decimal::new(thousandths, 3);
        if kilograms {
            Mass::from_kg(amount)
        } else {
            Mass::from_lb(amount)
        }
    });
    let labour = prop_oneof![
        Just(LabourTime::PlanEstimate),
        up_to(6000, 1).prop_map(|minutes| LabourTime::Total(Minutes::from_minutes(minutes))),
    ];
    (
        weight,
        any_basis(),
        any_unit_price(40),
        prop::collection::vec(any_charge(), 0..4),
        up_to(1_000_000, 6),
        labour,
        1..=MOST_SIDES,
    )
        .prop_map(
            |(weight, basis, price, charges, grass, labour, sides)| Deal {
                sides,
                weight,
                basis,
                price,
                charges,
                stock: Stock::grass_share(Share::from_fraction(grass)),
                age: Age::Unknown,
                labour,
            },
        )
}

fn any_grind() -> impl Strategy<Value = GrindPlan> {
    let amount = prop_oneof![
        2 => Just(None),
        1 => share_up_to(100).prop_map(|share| Some(GrindAmount::Share(share))),
        1 => (0_i64..30_000).prop_map(|grams| {
            Some(GrindAmount::Weight(Mass::from_g(Decimal::from(grams))))
        }),
    ];
    let classes = CATALOGUE.grind_classes();
    (
        prop::collection::vec(amount, classes.len()),
        any::<bool>(),
        share_up_to(5),
    )
        .prop_map(move |(amounts, with_fat_trim, margin)| {
            let mut grind = GrindPlan::default();
            grind.with_fat_trim = with_fat_trim;
            grind.margin = margin;
            for (class, amount) in classes.iter().zip(amounts) {
                if let Some(amount) = amount {
                    grind.ask(class.product, amount);
                }
            }
            grind
        })
}

fn any_plan() -> impl Strategy<Value = CutPlan> {
    let aged = prop_oneof![
        4 => Just(None),
        1 => share_up_to(40).prop_map(Some),
    ];
    let choice = (any::<Index>(), any::<Index>(), share_up_to(100), aged);
    let choices = prop::collection::vec(choice, CATALOGUE.parts().count());
    (choices, any_grind()).prop_map(|(choices, grind)| {
        let mut plan = CutPlan::default();
        for ((part, data), (first, second, share, aged)) in CATALOGUE.parts().zip(choices) {
            plan.choose(part, *first.get(&data.ways));
            plan.split(&CATALOGUE, part, *second.get(&data.ways), share);
            if let Some(lost) = aged {
                plan.age(&CATALOGUE, part, 28, Some(lost))
                    .expect("a loss that leaves something");
            }
        }
        plan.grind = grind;
        plan
    })
}

/// The sample board with any of its prices replaced; a by-product may cost
/// money to be rid of. Ground beef, which every plan gives, keeps its price in
/// every class, so that something sells.
fn any_board() -> impl Strategy<Value = PriceBoard> {
    let price = prop_oneof![
        2 => Just(None),
        1 => any_unit_price(60).prop_map(Some),
    ];
    prop::collection::vec(price, CATALOGUE.products().count()).prop_map(|prices| {
        let mut board = PriceBoard::default();
        for ((id, product), price) in CATALOGUE.products().zip(prices) {
            let Some(price) = price else { continue };
            if product.kind.is_by_product() {
                board.set(
                    id,
                    price.times(Decimal::new(1, 1)) - UnitPrice::from_per_kg(Decimal::ONE),
                );
            } else if product.kind == Kind::Cut
                && product.role.is_none()
                && CATALOGUE.grind_class_of(id).is_none()
            {
                board.set(id, price);
            }
        }
        board
    })
}

fn any_labour() -> impl Strategy<Value = Labour> {
    let own_time = prop_oneof![
        3 => Just(None),
        1 => up_to(600, 1).prop_map(Some),
    ];
    (
        up_to(12_000, 2),
        share_up_to(40),
        up_to(3_000, 2),
        prop::collection::vec(own_time, CATALOGUE.ways().count()),
    )
        .prop_map(|(rate, on_cost, overhead, times)| Labour {
            rate: LabourRate::from_per_hour(rate),
            on_cost,
            overhead: LabourRate::from_per_hour(overhead),
            own_times: CATALOGUE
                .ways()
                .zip(times)
                .filter_map(|((way, _), time)| Some((way, Minutes::from_minutes(time?))))
                .collect(),
        })
}

fn any_packaging() -> impl Strategy<Value = Packaging> {
    prop_oneof![
        any_unit_price(2).prop_map(Packaging::PerWeight),
        (0_i64..200, 1_i64..3000).prop_map(|(cents, grams)| Packaging::PerPack {
            cost: Money::from_cents(cents),
            holds: Mass::from_g(Decimal::from(grams)),
        }),
    ]
}

fn any_losses() -> impl Strategy<Value = SaleLoss> {
    (
        share_up_to(5),
        share_up_to(50),
        share_up_to(50),
        share_up_to(90),
    )
        .prop_map(|(purge, unsold, marked_down, discount)| SaleLoss {
            purge,
            unsold,
            marked_down,
            discount,
        })
}

fn any_own_losses() -> impl Strategy<Value = LiteMap<ProductId, SaleLoss>> {
    let own = prop_oneof![
        5 => Just(None),
        1 => any_losses().prop_map(Some),
    ];
    prop::collection::vec(own, CATALOGUE.products().count()).prop_map(|losses| {
        CATALOGUE
            .products()
            .zip(losses)
            .filter_map(|((product, _), own)| Some((product, own?)))
            .collect()
    })
}

fn any_shop() -> impl Strategy<Value = Shop> {
    (
        any_labour(),
        share_up_to(90),
        any_packaging(),
        (any_losses(), any_own_losses()),
        prop::sample::select(&AllocationMethod::ALL[..]),
        any_board(),
    )
        .prop_map(
            |(labour, target_margin, packaging, (losses, own_losses), method, board)| Shop {
                labour,
                target_margin,
                packaging,
                losses,
                own_losses,
                method,
                board,
                rules: LiteMap::new(),
                rounding: PriceRounding::default(),
            },
        )
}

/// The ends of what any field takes.
fn any_extreme() -> impl Strategy<Value = Decimal> {
    let smallest = Decimal::new(1, typed::MOST_PLACES);
    prop::sample::select(vec![
        Decimal::ZERO,
        smallest,
        Decimal::ONE,
        typed::LARGEST - smallest,
        typed::LARGEST,
    ])
}

/// A side at the ends of every range; a charge and what a by-product
/// brings may be below zero.
pub(crate) fn any_extreme_side() -> impl Strategy<Value = AnySide> {
    let below_whole = || {
        prop::sample::select(vec![
            Share::ZERO,
            Share::from_fraction(Decimal::new(1, 11)),
            Share::WHOLE - Share::from_fraction(Decimal::new(1, 11)),
        ])
    };
    (
        any_side(),
        prop::collection::vec(any_extreme(), 8),
        prop::collection::vec(any::<Index>(), 4),
        [below_whole(), below_whole(), below_whole()],
    )
        .prop_map(|(mut side, numbers, choices, [margin, unsold, shrink])| {
            let mass_unit = [MassUnit::Kilogram, MassUnit::Pound, MassUnit::Gram];
            let price_unit = [
                PriceUnit::PerKilogram,
                PriceUnit::PerPound,
                PriceUnit::Per100Gram,
            ];
            let price =
                |index: usize| UnitPrice::from_unit(numbers[index], *choices[1].get(&price_unit));
            side.deal.weight = Mass::from_unit(numbers[0], *choices[0].get(&mass_unit));
            side.deal.price = price(1);
            side.deal.charges = vec![
                Charge {
                    what: String::new(),
                    amount: ChargeAmount::Flat(-Money::from_units(numbers[2])),
                },
                Charge {
                    what: String::new(),
                    amount: ChargeAmount::PerWeight(price(2)),
                },
            ];
            if choices[2].index(2) == 0 {
                side.deal.basis = WeightBasis::Hot { shrink };
            }
            side.deal.labour = LabourTime::Total(Minutes::from_hours(numbers[3]));
            side.shop.labour.rate = LabourRate::from_per_hour(numbers[4]);
            side.shop.labour.overhead = LabourRate::from_per_hour(numbers[4]);
            side.shop.packaging = Packaging::PerWeight(price(5));
            side.shop.target_margin = margin;
            side.shop.losses.unsold = unsold;
            side.shop.losses.marked_down = Share::ZERO;
            side.shop.own_losses.clear();
            for (product, data) in CATALOGUE.products() {
                if data.kind.is_by_product() {
                    side.shop.board.set(product, -price(6));
                } else if choices[3].index(2) == 0 {
                    side.shop.board.set(product, price(7));
                }
            }
            side
        })
}
