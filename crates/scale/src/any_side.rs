//! Sides for the tests: the published catalogue, and sides that differ from
//! their plan as published spread says.

use std::sync::LazyLock;

use carcass::{Breakdown, Catalogue, Kind, Stock};
use decision::spread::normal_deviates;
use litemap::LiteMap;
use pricing::{
    Age, AllocationMethod, Deal, Labour, LabourTime, Packaging, PriceBoard, PriceRounding,
    SaleLoss, Shop, WeightBasis,
};
use quantity::{Decimal, LabourRate, Mass, Share, UnitPrice};

use crate::composition::products;

/// The published catalogue, loaded once.
pub(crate) static CATALOGUE: LazyLock<Catalogue> =
    LazyLock::new(|| Catalogue::published().expect("published data"));

pub(crate) fn float(number: Decimal) -> f64 {
    number.to_string().parse().expect("a number")
}

/// Kilograms to the gram.
pub(crate) fn grams(kilograms: f64) -> Mass {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "sides weigh hundreds of kilograms"
    )]
    let grams = (kilograms * 1000.0).round() as i64;
    Mass::from_kg(Decimal::new(grams.max(0), 3))
}

/// What the products of side number `index` weigh: each differs by the
/// coefficient of variation of its group, fat, lean and bone together as the
/// side is fat or lean (Koch et al., Kansas State University; the figures of
/// `spread.csv`), and all sum to the weight of the side, to the gram.
pub(crate) fn simulated(
    catalogue: &Catalogue,
    breakdown: &Breakdown,
    seed: u64,
    index: u64,
) -> Vec<Mass> {
    let pieces: Vec<_> = products(breakdown).collect();
    let mut deviates = vec![0.0; pieces.len() + 1];
    normal_deviates(seed, index, &mut deviates);
    let spread = catalogue.spread();
    let by_fatness = float(spread.unknown.value.fraction()) * deviates[0];
    let (lean_for_fat, bone_for_lean) = (4.3 / 5.3, 1.0 / 4.3);
    let of = |kinds: &[Kind]| {
        float(
            breakdown
                .share_of(|product| kinds.contains(&catalogue[product].kind))
                .fraction(),
        )
    };
    let growth = |kind: Kind| match kind {
        Kind::Fat => 1.0 + by_fatness / lean_for_fat / of(&[Kind::Fat]),
        Kind::Cut => 1.0 - by_fatness / of(&[Kind::Cut]),
        Kind::Bone | Kind::Loss => 1.0 - by_fatness * bone_for_lean / of(&[Kind::Bone, Kind::Loss]),
    };
    let mut weights: Vec<f64> = pieces
        .iter()
        .zip(&deviates[1..])
        .map(|((_, product, node), deviate)| {
            let cv = catalogue
                .spread_of(*product)
                .map_or(0.0, |group| float(group.cv.fraction()));
            let kind = catalogue[*product].kind;
            let factor = growth(kind) * (1.0 + cv * deviate);
            float(node.weight.kg()) * factor.max(0.0)
        })
        .collect();
    let side = float(breakdown.nodes()[0].weight.kg());
    let scale = side / weights.iter().sum::<f64>();
    for weight in &mut weights {
        *weight *= scale;
    }
    weights.into_iter().map(grams).collect()
}

/// A price per kilogram in cents.
pub(crate) fn per_kg(cents: i64) -> UnitPrice {
    UnitPrice::from_per_kg(Decimal::new(cents, 2))
}

/// An invented side, bought cold.
pub(crate) fn deal() -> Deal {
    Deal {
        sides: 1,
        weight: Mass::from_kg(Decimal::from(180)),
        basis: WeightBasis::Cold,
        price: per_kg(1140),
        charges: Vec::new(),
        stock: Stock::GRAIN,
        age: Age::Unknown,
        labour: LabourTime::PlanEstimate,
    }
}

/// An invented shop.
pub(crate) fn shop() -> Shop {
    Shop {
        labour: Labour {
            rate: LabourRate::from_per_hour(Decimal::from(32)),
            ..Labour::default()
        },
        target_margin: Share::from_percent(Decimal::from(28)),
        packaging: Packaging::PerWeight(per_kg(35)),
        losses: SaleLoss {
            unsold: Share::from_percent(Decimal::from(4)),
            ..SaleLoss::default()
        },
        own_losses: LiteMap::new(),
        method: AllocationMethod::NetRealisableValue,
        board: PriceBoard::default(),
        rules: LiteMap::new(),
        rounding: PriceRounding::default(),
    }
}
