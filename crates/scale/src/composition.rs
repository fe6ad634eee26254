//! What a side gave, way by way: the weight of each output, and its share.
//!
//! The products of a breakdown are what lies on the scale; a part weighs what
//! comes off it. Each way is then a composition of its own: how the part was
//! divided, whatever the part weighed.

use core::cmp::Ordering;

use carcass::{Breakdown, Catalogue, Node, Output, ProductId, Role, Way, WayId, What};
use quantity::{Decimal, Mass, Rounding, Share};

/// Decimal places of a share of a part, those of the published model.
pub(crate) const PLACES: u32 = 9;

/// What came off one way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WayWeights {
    /// The way.
    pub way: WayId,
    /// Weight of each of its outputs, in their order.
    pub outputs: Vec<Mass>,
}

impl WayWeights {
    /// All that came off it.
    pub fn total(&self) -> Mass {
        self.outputs.iter().copied().sum()
    }

    /// The shares of the outputs, together exactly one; `None` where nothing
    /// came off.
    pub fn shares(&self) -> Option<Vec<Share>> {
        closed(self.outputs.iter().map(|output| output.kg()))
    }
}

/// The products of a breakdown in its order, with the place of each among the
/// nodes.
pub fn products(breakdown: &Breakdown) -> impl Iterator<Item = (usize, ProductId, &Node)> {
    breakdown
        .nodes()
        .iter()
        .enumerate()
        .filter_map(|(index, node)| match node.what {
            What::Product(product) => Some((index, product, node)),
            What::Part { .. } => None,
        })
}

/// The weight of every piece of the breakdown when its products weigh
/// `products`, in the order of [`products`]. One that is missing or below
/// nothing weighs nothing.
pub fn piece_weights(breakdown: &Breakdown, products: &[Mass]) -> Vec<Mass> {
    let nodes = breakdown.nodes();
    let mut leaves = products.iter().copied();
    let mut weights: Vec<Mass> = nodes
        .iter()
        .map(|node| match node.what {
            What::Product(_) => leaves.next().unwrap_or_default().max(Mass::ZERO),
            What::Part { .. } => Mass::ZERO,
        })
        .collect();
    // Children stand behind their parents, so from the back every piece is
    // complete before it is added to its parent.
    for (index, node) in nodes.iter().enumerate().rev() {
        let weight = weights.get(index).copied().unwrap_or_default();
        if let Some(parent) = node.parent.and_then(|parent| weights.get_mut(parent)) {
            *parent += weight;
        }
    }
    weights
}

/// What came off every way of the breakdown when its products weigh
/// `products`, in the order of [`products`]. A way that stands there twice is
/// told once. What a part lost in ageing came off before it was broken and
/// counts for no output; a class of grind counts for the trim it was made of.
pub fn way_weights(
    catalogue: &Catalogue,
    breakdown: &Breakdown,
    products: &[Mass],
) -> Vec<WayWeights> {
    let weights = piece_weights(breakdown, products);
    let nodes = breakdown.nodes();
    let mut ways: Vec<WayWeights> = Vec::new();
    let mut place_of_node: Vec<Option<usize>> = vec![None; nodes.len()];
    for (index, node) in nodes.iter().enumerate() {
        if let What::Part { way, .. } = node.what {
            let place = ways
                .iter()
                .position(|seen| seen.way == way)
                .unwrap_or_else(|| {
                    ways.push(WayWeights {
                        way,
                        outputs: vec![Mass::ZERO; catalogue[way].outputs.len()],
                    });
                    ways.len() - 1
                });
            if let Some(of_node) = place_of_node.get_mut(index) {
                *of_node = Some(place);
            }
        }
        let parent = node
            .parent
            .and_then(|parent| place_of_node.get(parent).copied().flatten());
        if let Some(seen) = parent.and_then(|place| ways.get_mut(place))
            && let Some(output) = output_of(catalogue, &catalogue[seen.way], node)
            && let Some(sum) = seen.outputs.get_mut(output)
        {
            *sum += weights.get(index).copied().unwrap_or_default();
        }
    }
    ways
}

/// Which output of `way` a piece is that came off it.
fn output_of(catalogue: &Catalogue, way: &Way, piece: &Node) -> Option<usize> {
    let is_it = |output: Output| match (output, piece.what) {
        (Output::Part(part), What::Part { part: it, .. }) => part == it,
        (Output::Product(product), What::Product(it)) => product == it,
        _ => false,
    };
    let is_trim = |output: Output| match output {
        Output::Product(product) => matches!(
            catalogue[product].role,
            Some(Role::LeanTrim | Role::FatTrim)
        ),
        Output::Part(_) => false,
    };
    let outputs = &way.outputs;
    outputs
        .iter()
        .position(|output| is_it(output.output))
        .or_else(|| {
            // A class of grind keeps the fat of the trim it was parted from.
            outputs.iter().position(|output| {
                piece.fat.is_some() && output.fat == piece.fat && is_trim(output.output)
            })
        })
}

/// A billion: shares of a part are counted in billionths.
pub(crate) const WHOLE: i64 = 1_000_000_000;

/// Amounts as shares of their sum in billionths, together exactly a billion, the
/// largest taking what rounding leaves. What is below nothing counts as nothing,
/// digits past the ninth of an amount do not count. `None` where all of them are
/// nothing, or more than any side weighs.
pub(crate) fn billionths(amounts: impl Iterator<Item = Decimal> + Clone) -> Option<Vec<i64>> {
    // Whole numbers of the smallest unit that any amount has: 96 bits and nine
    // digits more at the most.
    let places = amounts.clone().map(|amount| amount.scale()).max();
    let places = places.unwrap_or_default().min(PLACES);
    let ten_to = |places: u32| {
        let power = usize::try_from(places).ok();
        power.and_then(|power| TENS.get(power)).copied()
    };
    let most = MOST * ten_to(places)?;
    let amounts = amounts
        .map(|amount| {
            if amount.is_sign_negative() {
                return Some(0);
            }
            let amount = match amount.scale().cmp(&places) {
                Ordering::Equal => amount.mantissa(),
                Ordering::Less => amount.mantissa() * ten_to(places - amount.scale())?,
                Ordering::Greater => {
                    let amount = Rounding::HalfEven.to_places(amount, places);
                    amount.mantissa() * ten_to(places.saturating_sub(amount.scale()))?
                }
            };
            (amount <= most).then_some(amount)
        })
        .collect::<Option<Vec<i128>>>()?;
    let sum: i128 = amounts.iter().sum();
    if sum == 0 {
        return None;
    }
    let mut shares = match i64::try_from(sum) {
        // Sides in grams: dividing in 128 bits takes many times as long.
        Ok(sum) if sum < i64::MAX / (WHOLE + 1) => amounts
            .iter()
            .map(|amount| Some((i64::try_from(*amount).ok()? * WHOLE + sum / 2) / sum))
            .collect::<Option<Vec<i64>>>()?,
        _ => amounts
            .iter()
            .map(|amount| i64::try_from((amount * i128::from(WHOLE) + sum / 2) / sum).ok())
            .collect::<Option<Vec<i64>>>()?,
    };
    let given: i64 = shares.iter().sum();
    if let Some(largest) = shares.iter_mut().max() {
        *largest += WHOLE - given;
    }
    Some(shares)
}

/// More than any field takes.
const MOST: i128 = 10_000_000_000;

/// Powers of ten, up to the digits of a share.
const TENS: [i128; 10] = [
    1,
    10,
    100,
    1000,
    10_000,
    100_000,
    1_000_000,
    10_000_000,
    100_000_000,
    1_000_000_000,
];

/// Amounts as shares of their sum, as [`billionths`].
pub(crate) fn closed(amounts: impl Iterator<Item = Decimal> + Clone) -> Option<Vec<Share>> {
    let share = |share| Share::from_fraction(Decimal::new(share, PLACES));
    Some(billionths(amounts)?.into_iter().map(share).collect())
}

#[cfg(test)]
mod tests {
    use carcass::{CutPlan, GrindAmount, Stock, StockEnd, break_down};
    use proptest::prelude::*;

    use super::*;
    use crate::any_side::CATALOGUE;

    fn planned(breakdown: &Breakdown) -> Vec<Mass> {
        products(breakdown)
            .map(|(_, _, node)| node.weight)
            .collect()
    }

    fn assert_published(breakdown: &Breakdown) {
        for seen in way_weights(&CATALOGUE, breakdown, &planned(breakdown)) {
            let shares = seen.shares().expect("something came off");
            assert_eq!(shares.iter().copied().sum::<Share>(), Share::WHOLE);
            let way = &CATALOGUE[seen.way];
            for (share, published) in shares.iter().zip(way.shares_at(StockEnd::Grain)) {
                let apart = (*share - published).fraction().abs();
                assert!(
                    apart <= Decimal::new(2, 9),
                    "{} {share:?} {published:?}",
                    way.id
                );
            }
        }
    }

    #[test]
    fn a_side_cut_as_planned_gives_the_shares_of_its_ways() {
        for named in CATALOGUE.plans() {
            let weight = Mass::from_kg(Decimal::from(180));
            assert_published(&break_down(
                &CATALOGUE,
                weight,
                1,
                &named.plan,
                Stock::GRAIN,
            ));
        }
    }

    #[test]
    fn grind_ageing_and_a_split_do_not_hide_the_shares_of_a_way() {
        let mut plan: CutPlan = CATALOGUE.plan("boneless").expect("a plan").plan.clone();
        plan.grind.with_fat_trim = true;
        for class in CATALOGUE.grind_classes() {
            let share = Share::from_percent(Decimal::from(20));
            plan.grind.ask(class.product, GrindAmount::Share(share));
        }
        let ribeye = CATALOGUE.part_id("ribeye-roll").expect("a part");
        plan.age(&CATALOGUE, ribeye, 28, None).expect("published");
        let loin = CATALOGUE.part_id("short-loin").expect("a part");
        let second = CATALOGUE[loin].ways[1];
        plan.split(
            &CATALOGUE,
            loin,
            second,
            Share::from_percent(Decimal::from(40)),
        );
        let weight = Mass::from_kg(Decimal::from(360));
        let side = break_down(&CATALOGUE, weight, 2, &plan, Stock::GRAIN);
        assert!(!side.ground().is_empty());
        assert_published(&side);
    }

    proptest! {
        #[test]
        fn any_amounts_close_to_one(
            grams in prop::collection::vec(-1000_i64..1_000_000, 0..30),
        ) {
            let amounts: Vec<Decimal> = grams.iter().map(|grams| Decimal::new(*grams, 3)).collect();
            match closed(amounts.into_iter()) {
                Some(shares) => {
                    prop_assert_eq!(shares.iter().copied().sum::<Share>(), Share::WHOLE);
                    prop_assert!(shares.iter().all(|share| share.is_part_of_whole()));
                }
                None => prop_assert!(grams.iter().all(|grams| *grams <= 0)),
            }
        }
    }
}
