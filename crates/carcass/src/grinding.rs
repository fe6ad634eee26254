//! Blends the trims of a broken-down side to the classes that its plan asks
//! for.
//!
//! The leaf of a trim is parted where it hangs: into one leaf for each class
//! that takes some of it, and what is left. A class is thus a cut like any
//! other, with a weight under each part that its trim came off; its fat, over
//! all its leaves, is within its limit.
//!
//! Blending is done in shares of the side and not in kilograms, so that the
//! leaves of a trim sum to it exactly.

use quantity::{Mass, Rounding, Share, typed};

use crate::blend::{Batch, Blend, RanOut, Wanted};
use crate::breakdown::{Node, PLACES, What};
use crate::catalogue::{Catalogue, ProductId, Role};
use crate::fat_ledger::{FatLedger, GrindClass, Trim};
use crate::grind_plan::{GrindAmount, GrindPlan};

/// What could be made of a class that a plan asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroundClass {
    /// The cut it is sold as.
    pub product: ProductId,
    /// The most fat it was allowed: the limit of the class less the plan's
    /// margin.
    pub most_fat: Share,
    /// What was asked for.
    pub wanted: Mass,
    /// What was made.
    pub weight: Mass,
    /// What of it is fat; `None` where nothing was made.
    pub fat: Option<Share>,
    /// What of it was fat trim.
    pub fat_trim: Mass,
    /// What ran out before enough was made.
    pub ran_out: Option<RanOut>,
    /// How much more lean like the leanest trim of the side would make good
    /// what is missing. `None` where nothing is, or no trim is lean enough.
    pub lean_lacking: Option<Mass>,
    /// Fat content of that lean.
    pub leanest: Option<Share>,
    /// How much fat trim like that of the side could still go in where all
    /// trim ran out.
    pub fat_lacking: Option<Mass>,
}

impl GroundClass {
    /// How much less was made than asked for.
    pub fn missing(&self) -> Mass {
        self.wanted - self.weight
    }
}

/// A share of the side, blended as so many kilograms.
pub(crate) fn as_mass(share: Share) -> Mass {
    Mass::from_kg(share.fraction())
}

/// Parts the trims among `nodes` into the classes of `plan`; the side weighs
/// `side`.
pub(crate) fn grind(
    catalogue: &Catalogue,
    plan: &GrindPlan,
    side: Mass,
    nodes: Vec<Node>,
) -> (Vec<Node>, Vec<GroundClass>) {
    let asked = asked_of(catalogue, plan);
    if asked.is_empty() {
        return (nodes, Vec::new());
    }
    let all_trims: Vec<(Role, Trim)> = nodes
        .iter()
        .enumerate()
        .filter_map(|(index, node)| {
            let What::Product(product) = node.what else {
                return None;
            };
            let role = catalogue[product].role?;
            let trim = Trim {
                node: index,
                weight: as_mass(node.share),
                fat: node.fat?,
            };
            Some((role, trim))
        })
        .collect();
    let fattest = all_trims
        .iter()
        .filter(|(role, _)| *role == Role::FatTrim)
        .map(|(_, trim)| trim.fat)
        .max();
    let trims: Vec<(Role, Trim)> = all_trims
        .into_iter()
        .filter(|(role, _)| plan.blends(*role))
        .collect();
    let lean = lean_of(&trims);
    let wanted: Vec<Wanted> = asked
        .iter()
        .map(|(class, amount)| Wanted {
            most_fat: most_fat(class, plan),
            weight: Some(wanted_of(*amount, lean, side)),
        })
        .collect();
    let blend = FatLedger::new(trims.iter().map(|(_, trim)| *trim).collect())
        .and_then(|ledger| ledger.blend(&wanted));
    // Trims of a whole and limits of a whole are never refused.
    let Ok(blend) = blend else {
        return (nodes, Vec::new());
    };
    let ground = asked
        .iter()
        .zip(&blend.batches)
        .map(|((class, _), batch)| told(class, batch, &blend, &trims, fattest, side))
        .collect();
    let classes: Vec<ProductId> = asked.iter().map(|(class, _)| class.product).collect();
    (parted(nodes, &trims, &blend, &classes, side), ground)
}

/// The classes that `plan` asks for, leanest first.
pub(crate) fn asked_of<'a>(
    catalogue: &'a Catalogue,
    plan: &GrindPlan,
) -> Vec<(&'a GrindClass, GrindAmount)> {
    catalogue
        .grind_classes()
        .iter()
        .filter_map(|class| Some((class, plan.amount_of(class.product)?)))
        .collect()
}

/// All lean trim.
pub(crate) fn lean_of(trims: &[(Role, Trim)]) -> Mass {
    trims
        .iter()
        .filter(|(role, _)| *role == Role::LeanTrim)
        .map(|(_, trim)| trim.weight)
        .sum()
}

/// The most fat that `plan` allows a class.
pub(crate) fn most_fat(class: &GrindClass, plan: &GrindPlan) -> Share {
    (class.most_fat - plan.margin).clamp(Share::ZERO, Share::WHOLE)
}

/// The share of the side that is asked for, cut to the places of a share.
pub(crate) fn wanted_of(amount: GrindAmount, lean: Mass, side: Mass) -> Mass {
    let share = match amount {
        GrindAmount::Share(share) => lean * share,
        GrindAmount::Weight(weight) => as_mass(weight.ratio_to(side).unwrap_or_default()),
    };
    let within = share.kg().clamp(quantity::Decimal::ZERO, typed::LARGEST);
    Mass::from_kg(Rounding::Down.to_places(within, PLACES))
}

/// What is to be said of a class that was made.
pub(crate) fn told(
    class: &GrindClass,
    batch: &Batch,
    blend: &Blend,
    trims: &[(Role, Trim)],
    fattest: Option<Share>,
    side: Mass,
) -> GroundClass {
    let weighed = |part: Mass| side * Share::from_fraction(part.kg());
    let leanest = trims.iter().map(|(_, trim)| trim.fat).min();
    GroundClass {
        product: class.product,
        most_fat: batch.wanted.most_fat,
        wanted: weighed(batch.wanted.weight.unwrap_or(batch.weight)),
        weight: weighed(batch.weight),
        fat: batch.fat(),
        fat_trim: batch
            .portions
            .iter()
            .filter(|portion| {
                trims
                    .get(portion.trim)
                    .is_some_and(|(role, _)| *role == Role::FatTrim)
            })
            .map(|portion| weighed(portion.weight))
            .sum(),
        ran_out: batch.ran_out,
        lean_lacking: batch
            .ran_out
            .and(leanest)
            .and_then(|leanest| blend.lean_lacking(batch, leanest))
            .map(weighed),
        leanest,
        fat_lacking: batch
            .ran_out
            .filter(|ran_out| *ran_out == RanOut::Trim)
            .and(fattest)
            .and_then(|fattest| batch.fat_lacking(fattest))
            .map(weighed),
    }
}

/// The nodes with every trim parted into the classes that took some of it and
/// what is left of it.
fn parted(
    nodes: Vec<Node>,
    trims: &[(Role, Trim)],
    blend: &Blend,
    classes: &[ProductId],
    side: Mass,
) -> Vec<Node> {
    let mut taken: Vec<Vec<(ProductId, Mass)>> = vec![Vec::new(); nodes.len()];
    for (&class, batch) in classes.iter().zip(&blend.batches) {
        for portion in &batch.portions {
            let node = trims.get(portion.trim).map(|(_, trim)| trim.node);
            if let Some(taken) = node.and_then(|node| taken.get_mut(node)) {
                taken.push((class, portion.weight));
            }
        }
    }
    let mut all = Vec::with_capacity(nodes.len());
    let mut moved_to = Vec::with_capacity(nodes.len());
    for (mut node, taken) in nodes.into_iter().zip(taken) {
        // A parent stands before what comes off it, so its place is known.
        node.parent = node.parent.and_then(|parent| moved_to.get(parent).copied());
        moved_to.push(all.len());
        let was_there = node.share > Share::ZERO;
        for (class, portion) in taken {
            let share = Share::from_fraction(portion.kg());
            node.share = node.share - share;
            all.push(Node {
                what: What::Product(class),
                share,
                weight: side * share,
                ..node.clone()
            });
        }
        if node.share > Share::ZERO || !was_there {
            node.weight = side * node.share;
            all.push(node);
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use std::sync::LazyLock;

    use proptest::prelude::*;
    use quantity::Decimal;

    use super::*;
    use crate::blend::tests::{grams, kilograms, percent};
    use crate::breakdown::{Breakdown, break_down};
    use crate::catalogue::Kind;
    use crate::plan::CutPlan;
    use crate::stock::Stock;

    static CATALOGUE: LazyLock<Catalogue> =
        LazyLock::new(|| Catalogue::published().expect("published data"));

    fn class(index: usize) -> &'static GrindClass {
        &CATALOGUE.grind_classes()[index]
    }

    fn boneless(edit: impl Fn(&mut GrindPlan)) -> CutPlan {
        let mut plan = CATALOGUE.plan("boneless").expect("a plan").plan.clone();
        edit(&mut plan.grind);
        plan
    }

    fn side_by(plan: &CutPlan) -> Breakdown {
        break_down(&CATALOGUE, kilograms(200), 1, plan, Stock::GRAIN)
    }

    fn weight_of(side: &Breakdown, wanted: impl Fn(ProductId) -> bool) -> Mass {
        side.nodes()
            .iter()
            .filter(|node| matches!(node.what, What::Product(product) if wanted(product)))
            .map(|node| node.weight)
            .sum()
    }

    fn in_role(role: Role) -> impl Fn(ProductId) -> bool {
        move |product| CATALOGUE[product].role == Some(role)
    }

    /// Every part weighs what comes off it, and the side what was put in.
    fn assert_closes(side: &Breakdown, whole: Mass) {
        let nodes = side.nodes();
        for (index, node) in nodes.iter().enumerate() {
            if let Some(parent) = node.parent {
                assert!(parent < index && nodes[parent].depth + 1 == node.depth);
                assert!(matches!(nodes[parent].what, What::Part { .. }));
            }
            if matches!(node.what, What::Part { .. }) {
                let below = nodes.iter().filter(|child| child.parent == Some(index));
                let share: Share = below.clone().map(|child| child.share).sum();
                assert_eq!(share, node.share, "{node:?}");
                let weight: Mass = below.map(|child| child.weight).sum();
                assert_eq!(weight, node.weight, "{node:?}");
            }
        }
        assert_eq!(weight_of(side, |_| true), whole);
    }

    #[test]
    fn nothing_asked_changes_nothing() {
        let plain = side_by(&boneless(|_| {}));
        let with_fat = side_by(&boneless(|grind| grind.with_fat_trim = true));
        assert!(plain.ground().is_empty());
        assert_eq!(plain.nodes().len(), with_fat.nodes().len());
    }

    #[test]
    fn a_class_takes_its_weight_out_of_the_grind() {
        let plain = side_by(&boneless(|_| {}));
        let side = side_by(&boneless(|grind| {
            grind.ask(class(1).product, GrindAmount::Weight(kilograms(8)));
        }));
        assert_closes(&side, kilograms(200));
        let ground = &side.ground()[0];
        assert_eq!(
            (ground.weight, ground.missing()),
            (kilograms(8), Mass::ZERO)
        );
        assert_eq!(ground.fat_trim, Mass::ZERO);
        assert_eq!(
            weight_of(&side, |product| product == class(1).product),
            kilograms(8)
        );
        let lean = |side: &Breakdown| weight_of(side, in_role(Role::LeanTrim));
        assert_eq!(lean(&side), lean(&plain) - kilograms(8));
        // It stands under the part its trim came off.
        assert!(
            side.nodes().iter().all(|node| {
                node.what != What::Product(class(1).product) || node.parent.is_some()
            })
        );
    }

    #[test]
    fn fat_trim_goes_in_only_where_the_plan_wants_it() {
        let with_fat = |wanted| {
            side_by(&boneless(|grind| {
                grind.with_fat_trim = wanted;
                grind.ask(class(3).product, GrindAmount::Share(percent(60)));
            }))
        };
        let (without, with) = (with_fat(false), with_fat(true));
        assert_closes(&with, kilograms(200));
        let fat = |side: &Breakdown| weight_of(side, in_role(Role::FatTrim));
        let added = with.ground()[0].fat_trim;
        assert!(added.is_positive());
        assert_eq!(fat(&with), fat(&without) - added);
        assert_eq!(
            with.ground()[0].fat.map(|fat| fat <= class(3).most_fat),
            Some(true)
        );
        // The more fat goes in, the more lean is left for other grind.
        let lean = |side: &Breakdown| weight_of(side, in_role(Role::LeanTrim));
        assert_eq!(lean(&with), lean(&without) + added);
    }

    #[test]
    fn what_lacks_is_said_and_what_can_be_made_is_made() {
        let side = side_by(&boneless(|grind| {
            grind.ask(class(0).product, GrindAmount::Share(Share::WHOLE));
        }));
        let ground = &side.ground()[0];
        assert_eq!(ground.ran_out, Some(RanOut::Lean));
        assert!(ground.weight.is_positive() && ground.missing().is_positive());
        let lean = ground.lean_lacking.expect("lean would help");
        assert!(lean.is_positive() && lean < ground.missing());
        assert_eq!(ground.fat_lacking, None);

        let side = side_by(&boneless(|grind| {
            grind.with_fat_trim = true;
            grind.ask(class(3).product, GrindAmount::Weight(kilograms(190)));
        }));
        let ground = &side.ground()[0];
        assert_eq!(ground.ran_out, Some(RanOut::Lean));
        let side = side_by(&boneless(|grind| {
            grind.ask(class(3).product, GrindAmount::Weight(kilograms(190)));
        }));
        let ground = &side.ground()[0];
        assert_eq!(ground.ran_out, Some(RanOut::Trim));
        assert!(ground.fat_lacking.is_some_and(Mass::is_positive));
        assert!(!weight_of(&side, in_role(Role::LeanTrim)).is_positive());
    }

    #[test]
    fn a_margin_makes_the_class_leaner_or_less() {
        let made = |margin| {
            let side = side_by(&boneless(|grind| {
                grind.margin = percent(margin);
                grind.ask(class(0).product, GrindAmount::Share(Share::WHOLE));
            }));
            side.ground()[0].clone()
        };
        let (at_limit, below) = (made(0), made(3));
        assert!(below.weight < at_limit.weight);
        assert!(below.fat <= Some(percent(7)));
        let none = made(50);
        assert_eq!((none.weight, none.fat), (Mass::ZERO, None));
    }

    fn any_amount() -> impl Strategy<Value = Option<GrindAmount>> {
        prop_oneof![
            Just(None),
            (0_i64..=1000).prop_map(|tenths| Some(GrindAmount::Share(Share::from_percent(
                Decimal::new(tenths, 1)
            )))),
            (0_i64..60_000).prop_map(|weight| Some(GrindAmount::Weight(grams(weight)))),
        ]
    }

    proptest! {
        #[test]
        fn any_classes_close_and_keep_within_their_limits(
            choices in proptest::collection::vec(any::<prop::sample::Index>(), 64),
            amounts in proptest::collection::vec(any_amount(), 4),
            with_fat_trim: bool,
            margin in 0_i64..12,
            grass in 0_i64..=1000,
            weight in 1_i64..400_000,
        ) {
            let mut plan = CutPlan::default();
            for ((part, data), choice) in CATALOGUE.parts().zip(choices.iter().cycle()) {
                plan.choose(part, *choice.get(&data.ways));
            }
            let stock = Stock::grass_share(Share::from_fraction(Decimal::new(grass, 3)));
            let plain = break_down(&CATALOGUE, grams(weight), 1, &plan, stock);
            plan.grind.with_fat_trim = with_fat_trim;
            plan.grind.margin = percent(margin);
            for (class, amount) in CATALOGUE.grind_classes().iter().zip(amounts) {
                if let Some(amount) = amount {
                    plan.grind.ask(class.product, amount);
                }
            }
            let side = break_down(&CATALOGUE, grams(weight), 1, &plan, stock);
            assert_closes(&side, grams(weight));

            for ground in side.ground() {
                let leaves = side
                    .nodes()
                    .iter()
                    .filter(|node| node.what == What::Product(ground.product));
                let made: Mass = leaves.clone().map(|node| node.weight).sum();
                let fat: Mass = leaves
                    .map(|node| node.weight * node.fat.expect("a trim"))
                    .sum();
                let close = Decimal::new(1, 12);
                prop_assert!((made - ground.weight).kg().abs() <= close);
                prop_assert!((fat - made * ground.most_fat).kg() <= close);
                prop_assert!(ground.missing() >= Mass::ZERO);
                prop_assert_eq!(ground.missing().is_positive(), ground.ran_out.is_some());
            }
            // Only trims change hands.
            let untouched = |product: ProductId| {
                CATALOGUE[product].role.is_none() && CATALOGUE.grind_class_of(product).is_none()
            };
            prop_assert_eq!(weight_of(&side, untouched), weight_of(&plain, untouched));
            let cuts = |side: &Breakdown| {
                weight_of(side, |product| CATALOGUE[product].kind == Kind::Cut)
            };
            let added: Mass = side.ground().iter().map(|ground| ground.fat_trim).sum();
            let grown = cuts(&side) - cuts(&plain) - added;
            prop_assert!(grown.kg().abs() <= Decimal::new(1, 12));
        }
    }
}
