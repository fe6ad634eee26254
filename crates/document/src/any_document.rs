//! Any document that somebody could hand in, for the property tests.

use std::sync::LazyLock;

use carcass::Catalogue;
use litemap::LiteMap;
use proptest::prelude::*;

use crate::amount::{MassAmount, PriceAmount};
use crate::format::{
    AgeForm, AgeingForm, BasisForm, CarcassForm, ChargeAmountForm, ChargeForm, DealForm, Document,
    GrindAmountForm, GrindForm, LossForm, MeasureAmount, MethodForm, PackagingForm, PlanForm,
    RoundToForm, RoundingForm, RuleForm, ShopForm, SplitForm, StockFromForm,
};

/// The published catalogue, loaded once.
pub(crate) static CATALOGUE: LazyLock<Catalogue> =
    LazyLock::new(|| Catalogue::published().expect("published data"));

/// A map of so many entries or, where keys are the same, fewer.
fn any_map<V: core::fmt::Debug>(
    keys: impl Strategy<Value = String>,
    values: impl Strategy<Value = V>,
    count: core::ops::Range<usize>,
) -> impl Strategy<Value = LiteMap<String, V>> {
    prop::collection::vec((keys, values), count).prop_map(|entries| entries.into_iter().collect())
}

/// A number as a document writes it.
pub(crate) fn plain_number() -> impl Strategy<Value = String> {
    "[0-9]{1,4}(\\.[0-9]{1,4})?"
}

/// Text where a number belongs: a number, something like one, anything.
fn any_number_text() -> impl Strategy<Value = String> {
    text_for(plain_number())
}

/// Text where a percentage belongs.
fn any_percent_text() -> impl Strategy<Value = String> {
    text_for("[0-9]{1,2}(\\.[0-9]{1,3})?")
}

fn text_for(right: impl Strategy<Value = String>) -> impl Strategy<Value = String> {
    prop_oneof![
        120 => right,
        1 => prop::sample::select(vec![
            "", " ", "-", "-0", "-1", "--1", "1e30", "1E-9", "1,5", "1.2.3", "1 2", "NaN", "inf",
            "0.0000000001", "1000000000", "1000000001", "999999999.999999999",
            "1000000000000000000000000000000", "$5", "5 kg", "100", "99.999999999", "\u{663}",
        ]).prop_map(str::to_owned),
        1 => ".{0,12}",
    ]
}

fn any_unit(known: &'static [&'static str]) -> impl Strategy<Value = String> {
    prop_oneof![
        60 => prop::sample::select(known).prop_map(str::to_owned),
        1 => ".{0,6}",
    ]
}

fn any_mass() -> impl Strategy<Value = MassAmount> {
    (any_number_text(), any_unit(&["kg", "lb"]))
        .prop_map(|(amount, unit)| MassAmount { amount, unit })
}

fn any_price() -> impl Strategy<Value = PriceAmount> {
    (any_number_text(), any_unit(&["/kg", "/lb", "/100 g"]))
        .prop_map(|(amount, unit)| PriceAmount { amount, unit })
}

fn any_name() -> impl Strategy<Value = String> {
    prop_oneof![60 => "[\\pL\\pN ]{0,40}", 1 => ".{0,90}"]
}

fn any_id(known: Vec<String>) -> impl Strategy<Value = String> {
    prop_oneof![60 => prop::sample::select(known), 1 => ".{0,12}"]
}

fn any_deal() -> impl Strategy<Value = DealForm> {
    let hung = || {
        let days = prop_oneof![20 => 0_u32..40, 1 => any::<u32>()];
        (
            prop::option::weighted(0.7, any_percent_text()),
            prop::option::of(days),
        )
    };
    let basis = prop_oneof![
        Just(BasisForm::Cold),
        hung().prop_map(|(shrink_percent, days_hung)| BasisForm::Hot {
            shrink_percent,
            days_hung,
        }),
        (any_percent_text(), hung()).prop_map(|(dressing_percent, (shrink_percent, days_hung))| {
            BasisForm::Live {
                dressing_percent,
                shrink_percent,
                days_hung,
            }
        }),
    ];
    let amount = prop_oneof![
        any_number_text().prop_map(ChargeAmountForm::Flat),
        any_price().prop_map(ChargeAmountForm::PerWeight),
    ];
    let charge = (any_name(), amount).prop_map(|(what, amount)| ChargeForm { what, amount });
    (
        any_mass(),
        basis,
        any_price(),
        prop::collection::vec(charge, 0..3),
        (any_percent_text(), any_carcass()),
        prop::option::of(any_number_text()),
        prop_oneof![20 => 1_u32..=20, 1 => any::<u32>()],
        prop::sample::select(vec![
            AgeForm::Under30Months,
            AgeForm::Over30Months,
            AgeForm::Unknown,
        ]),
    )
        .prop_map(
            |(
                weight,
                basis,
                price,
                charges,
                (grass_percent, graded),
                labour_minutes,
                sides,
                age,
            )| {
                let (carcass, stock_from) = graded;
                DealForm {
                    sides,
                    weight,
                    basis,
                    price,
                    charges,
                    grass_percent,
                    carcass,
                    stock_from,
                    age,
                    labour_minutes,
                }
            },
        )
}

fn any_carcass() -> impl Strategy<Value = (Option<CarcassForm>, StockFromForm)> {
    let measure = |known: &'static [&'static str]| {
        (text_for("[0-9]{1,3}(\\.[0-9])?"), any_unit(known))
            .prop_map(|(amount, unit)| MeasureAmount { amount, unit })
    };
    let carcass = (
        any_mass(),
        measure(&["cm", "mm", "in"]),
        measure(&["cm2", "in2"]),
        text_for("[0-9]"),
    )
        .prop_map(
            |(hot_weight, back_fat, ribeye_area, kidney_fat_percent)| CarcassForm {
                hot_weight,
                back_fat,
                ribeye_area,
                kidney_fat_percent,
            },
        );
    let from = prop::sample::select(vec![StockFromForm::Preset, StockFromForm::Grade]);
    prop_oneof![
        3 => Just((None, StockFromForm::Preset)),
        1 => (prop::option::of(carcass), from),
    ]
}

fn any_grind() -> impl Strategy<Value = GrindForm> {
    let ids = CATALOGUE
        .grind_classes()
        .iter()
        .map(|class| class.id.clone());
    let amount = prop_oneof![
        any_percent_text().prop_map(GrindAmountForm::SharePercent),
        any_mass().prop_map(GrindAmountForm::Weight),
    ];
    (
        any_map(any_id(ids.collect()), amount, 0..4),
        any::<bool>(),
        text_for("[0-9](\\.[0-9])?"),
    )
        .prop_map(|(classes, with_fat_trim, margin_points)| GrindForm {
            classes,
            with_fat_trim,
            margin_points,
        })
}

fn any_rendering() -> impl Strategy<Value = LiteMap<String, String>> {
    let ids = CATALOGUE.parts().map(|(_, part)| part.id.clone());
    any_map(any_id(ids.collect()), any_percent_text(), 0..3)
}

fn any_ageing() -> impl Strategy<Value = LiteMap<String, AgeingForm>> {
    let ids = CATALOGUE.parts().map(|(_, part)| part.id.clone());
    let ageing = (0_u32..40, prop::option::weighted(0.8, any_percent_text()))
        .prop_map(|(days, loss_percent)| AgeingForm { days, loss_percent });
    any_map(any_id(ids.collect()), ageing, 0..3)
}

fn any_plan() -> impl Strategy<Value = PlanForm> {
    let own_ways: Vec<(String, String)> = CATALOGUE
        .ways()
        .map(|(_, way)| (CATALOGUE[way.part].id.clone(), way.id.clone()))
        .collect();
    let way = prop_oneof![
        60 => prop::sample::select(own_ways),
        1 => (".{0,8}", ".{0,8}"),
    ];
    let bases = CATALOGUE
        .plans()
        .iter()
        .map(|plan| plan.id.clone())
        .collect();
    let split = (way.clone(), any_percent_text())
        .prop_map(|((part, way), percent)| (part, SplitForm { way, percent }));
    (
        any_id(bases),
        prop::collection::vec(way, 0..4),
        prop::collection::vec(split, 0..2),
        any_ageing(),
        any_rendering(),
        prop::option::of(any_grind()),
    )
        .prop_map(|(base, ways, splits, ageing, rendering, grind)| PlanForm {
            base,
            ways: ways.into_iter().collect(),
            splits: splits.into_iter().collect(),
            ageing,
            rendering,
            grind,
        })
}

fn any_shop() -> impl Strategy<Value = ShopForm> {
    let product = || {
        let ids = CATALOGUE.products().map(|(_, product)| product.id.clone());
        any_id(ids.collect())
    };
    let method = prop::sample::select(vec![
        MethodForm::PhysicalWeight,
        MethodForm::SalesValueAtSplitOff,
        MethodForm::NetRealisableValue,
        MethodForm::ConstantGrossMargin,
    ]);
    let ways = CATALOGUE.ways().map(|(_, way)| way.id.clone()).collect();
    (
        (
            any_number_text(),
            any_percent_text(),
            any_number_text(),
            any_map(any_id(ways), any_number_text(), 0..3),
        ),
        any_percent_text(),
        any_packaging(),
        (any_loss(), any_map(product(), any_loss(), 0..3)),
        method,
        (
            any_map(product(), any_price(), 0..4),
            any_map(product(), any_rule(), 0..3),
            any_rounding(),
        ),
    )
        .prop_map(
            |(labour, target_margin_percent, packaging, (losses, own_losses), method, prices)| {
                let (board, rules, rounding) = prices;
                let (labour_per_hour, on_cost_percent, overhead_per_hour, own_minutes) = labour;
                ShopForm {
                    labour_per_hour,
                    on_cost_percent,
                    overhead_per_hour,
                    own_minutes,
                    target_margin_percent,
                    packaging,
                    losses,
                    own_losses,
                    method,
                    board,
                    rules,
                    rounding,
                }
            },
        )
}

fn any_rule() -> impl Strategy<Value = RuleForm> {
    let bound = || prop::option::of(any_price());
    prop_oneof![
        any_price().prop_map(RuleForm::Pinned),
        (bound(), bound()).prop_map(|(floor, cap)| RuleForm::Between { floor, cap }),
    ]
}

fn any_rounding() -> impl Strategy<Value = RoundingForm> {
    let endings = prop_oneof![
        60 => "([0-9]{2}(, ?[0-9]{2}){0,3})?",
        1 => ".{0,8}",
    ];
    let to = prop::sample::select(vec![RoundToForm::Up, RoundToForm::Nearest]);
    (endings, to, any_unit(&["/kg", "/lb", "/100 g"]))
        .prop_map(|(endings, to, unit)| RoundingForm { endings, to, unit })
}

fn any_packaging() -> impl Strategy<Value = PackagingForm> {
    prop_oneof![
        any_price().prop_map(PackagingForm::PerWeight),
        (any_number_text(), any_mass())
            .prop_map(|(cost, holds)| PackagingForm::PerPack { cost, holds }),
    ]
}

/// Small losses, so that most of the time something is left to sell.
fn any_loss() -> impl Strategy<Value = LossForm> {
    let small = || text_for("[0-9](\\.[0-9])?");
    (small(), small(), small(), small()).prop_map(|(purge, unsold, marked_down, discount)| {
        LossForm {
            purge,
            unsold,
            marked_down,
            discount,
        }
    })
}

/// A document of the right shape with any texts in it.
pub(crate) fn any_document() -> impl Strategy<Value = Document> {
    let currency = prop::option::of("[A-Z]{3}".prop_map(|code| code.parse().expect("a code")));
    (any_name(), currency, any_deal(), any_plan(), any_shop()).prop_map(
        |(name, currency, deal, plan, shop)| Document {
            name,
            currency,
            deal,
            plan,
            shop,
            ..Document::sample()
        },
    )
}
