//! Any case that a shop could meet, for the property tests.

use std::sync::LazyLock;

use carcass::{Catalogue, CutPlan, Kind, Stock};
use litemap::LiteMap;
use pricing::{
    Age, AllocationMethod, Charge, ChargeAmount, Deal, Labour, LabourTime, Packaging, PriceBoard,
    PriceRounding, SaleLoss, Shop, WeightBasis,
};
use proptest::prelude::*;
use proptest::sample::Index;
use quantity::{Decimal, LabourRate, Mass, Minutes, Money, Share, UnitPrice};

use crate::case::Case;

/// The published catalogue, loaded once.
pub(crate) static CATALOGUE: LazyLock<Catalogue> =
    LazyLock::new(|| Catalogue::published().expect("published data"));

/// An invented side, bought cold and cut by the boneless plan.
pub(crate) fn plain_case() -> Case<'static> {
    Case {
        catalogue: &CATALOGUE,
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
        days_hung: None,
    }
}

/// Any deal, any way of any part with any split, any shop. Every case can be
/// priced: ground beef, which every plan gives, keeps its price.
pub(crate) fn any_case() -> impl Strategy<Value = Case<'static>> {
    (any_deal(), any_plan(), any_shop()).prop_map(|(deal, plan, shop)| Case {
        catalogue: &CATALOGUE,
        deal,
        plan,
        shop,
        days_hung: None,
    })
}

/// From `least` to `most` units of the last place.
fn number(least: i64, most: i64, places: u32) -> impl Strategy<Value = Decimal> {
    (least..=most).prop_map(move |units| Decimal::new(units, places))
}

fn share_up_to(most_percent: i64) -> impl Strategy<Value = Share> {
    number(0, most_percent * 10, 1).prop_map(Share::from_percent)
}

fn price_up_to(most: i64) -> impl Strategy<Value = UnitPrice> {
    number(0, most * 100, 2).prop_map(UnitPrice::from_per_kg)
}

fn any_deal() -> impl Strategy<Value = Deal> {
    let basis = prop_oneof![
        Just(WeightBasis::Cold),
        share_up_to(6).prop_map(|shrink| WeightBasis::Hot { shrink }),
        (share_up_to(60), share_up_to(6)).prop_map(|(loss, shrink)| WeightBasis::Live {
            dressing: loss.complement(),
            shrink,
        }),
    ];
    let charge = prop_oneof![
        number(-10_000, 30_000, 2).prop_map(|amount| ChargeAmount::Flat(Money::from_units(amount))),
        price_up_to(3).prop_map(ChargeAmount::PerWeight),
    ]
    .prop_map(|amount| Charge {
        what: "a charge".to_owned(),
        amount,
    });
    let labour = prop_oneof![
        Just(LabourTime::PlanEstimate),
        number(0, 6000, 1).prop_map(|minutes| LabourTime::Total(Minutes::from_minutes(minutes))),
    ];
    (
        number(20_000, 1_000_000, 3),
        basis,
        price_up_to(40),
        prop::collection::vec(charge, 0..4),
        share_up_to(100),
        labour,
        1_u32..=4,
    )
        .prop_map(|(kg, basis, price, charges, grass, labour, sides)| Deal {
            sides,
            weight: Mass::from_kg(kg),
            basis,
            price,
            charges,
            stock: Stock::grass_share(grass),
            age: Age::Unknown,
            labour,
        })
}

fn any_plan() -> impl Strategy<Value = CutPlan> {
    let choice = (any::<Index>(), any::<Index>(), share_up_to(100));
    prop::collection::vec(choice, CATALOGUE.parts().count()).prop_map(|choices| {
        let mut plan = CutPlan::default();
        for ((part, data), (first, second, share)) in CATALOGUE.parts().zip(choices) {
            plan.choose(part, *first.get(&data.ways));
            plan.split(&CATALOGUE, part, *second.get(&data.ways), share);
        }
        plan
    })
}

fn any_board() -> impl Strategy<Value = PriceBoard> {
    let price = prop::option::weighted(0.3, price_up_to(60));
    prop::collection::vec(price, CATALOGUE.products().count()).prop_map(|prices| {
        let mut board = PriceBoard::default();
        for ((id, product), price) in CATALOGUE.products().zip(prices) {
            let Some(price) = price else { continue };
            if product.kind.is_by_product() {
                let removal = UnitPrice::from_per_kg(Decimal::ONE);
                board.set(id, price.times(Decimal::new(1, 1)) - removal);
            } else if product.kind == Kind::Cut && product.id != "ground-beef" {
                board.set(id, price);
            }
        }
        board
    })
}

fn any_losses() -> impl Strategy<Value = SaleLoss> {
    [5, 50, 50, 90]
        .map(share_up_to)
        .prop_map(|[purge, unsold, marked_down, discount]| SaleLoss {
            purge,
            unsold,
            marked_down,
            discount,
        })
}

fn any_shop() -> impl Strategy<Value = Shop> {
    let packaging = prop_oneof![
        price_up_to(2).prop_map(Packaging::PerWeight),
        (0_i64..200, 1_i64..3000).prop_map(|(cents, grams)| Packaging::PerPack {
            cost: Money::from_cents(cents),
            holds: Mass::from_g(Decimal::from(grams)),
        }),
    ];
    let labour = (
        number(0, 12_000, 2),
        share_up_to(40),
        number(0, 3_000, 2),
        prop::collection::vec(
            prop::option::weighted(0.2, number(0, 600, 1)),
            CATALOGUE.ways().count(),
        ),
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
        });
    let own_losses = prop::collection::vec(
        prop::option::weighted(0.2, any_losses()),
        CATALOGUE.products().count(),
    )
    .prop_map(|losses| {
        CATALOGUE
            .products()
            .zip(losses)
            .filter_map(|((product, _), own)| Some((product, own?)))
            .collect()
    });
    (
        labour,
        share_up_to(90),
        packaging,
        (any_losses(), own_losses),
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
