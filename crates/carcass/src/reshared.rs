//! The same cuts off the same side with other weights: what a scale said, what
//! a shop's own yields are, what a what-if or a draw supposes.

use quantity::{Minutes, Share};

use crate::breakdown::{Breakdown, What, cut, give_rest_to_largest, planned_time};
use crate::catalogue::Catalogue;
use crate::ground_anew::ground_anew;

impl Breakdown {
    /// The breakdown with other shares of the side for what leaves the block.
    ///
    /// `shares` are those of the products, in the order in which they stand in
    /// [`Breakdown::nodes`]; one below nothing counts as nothing, one above the
    /// whole as the whole, one that is missing as nothing. They are cut to the
    /// places that a breakdown keeps. Shares that do not sum to the whole are
    /// scaled until they do, and the largest takes what rounding leaves, so that
    /// nothing is lost and nothing made; shares that are all nothing leave the
    /// breakdown as it is.
    ///
    /// Parts weigh what comes off them, and the plan's estimate of the labour
    /// follows their weight. The weight of the side stays. The classes of grind
    /// are told anew: what of each there now is, and what of it is fat.
    #[must_use]
    pub fn reshared(&self, catalogue: &Catalogue, shares: &[Share]) -> Self {
        let products = self
            .nodes
            .iter()
            .filter(|node| matches!(node.what, What::Product(_)))
            .count();
        let Some(closed) = closed(products, shares) else {
            return self.clone();
        };
        let Some(whole) = self.nodes.first().map(|side| side.weight) else {
            return self.clone();
        };

        let mut nodes = self.nodes.clone();
        let mut closed = closed.into_iter();
        for node in &mut nodes {
            node.share = match node.what {
                What::Product(_) => closed.next().unwrap_or_default(),
                What::Part { .. } => Share::ZERO,
            };
        }
        // Children stand behind their parents, so from the back every piece is
        // complete before it is added to its parent.
        for index in (1..nodes.len()).rev() {
            let (before, from) = nodes.split_at_mut(index);
            if let Some(child) = from.first()
                && let Some(parent) = child.parent.and_then(|parent| before.get_mut(parent))
            {
                parent.share = parent.share + child.share;
            }
        }
        for node in &mut nodes {
            node.weight = whole * node.share;
            node.labour = match node.what {
                What::Part { way, .. } => planned_time(&catalogue[way], node.pieces, node.weight),
                What::Product(_) => Minutes::ZERO,
            };
        }
        Self {
            ground: ground_anew(catalogue, &self.grind, whole, &nodes),
            grind: self.grind.clone(),
            nodes,
        }
    }
}

/// `shares` for so many products, none below nothing, together the whole;
/// `None` where all of them are nothing.
fn closed(products: usize, shares: &[Share]) -> Option<Vec<Share>> {
    let mut closed: Vec<Share> = shares
        .iter()
        .map(|share| cut((*share).clamp(Share::ZERO, Share::WHOLE)))
        .chain(core::iter::repeat(Share::ZERO))
        .take(products)
        .collect();
    let sum: Share = closed.iter().copied().sum();
    if sum == Share::ZERO {
        return None;
    }
    if sum != Share::WHOLE {
        for share in &mut closed {
            let scaled = share.fraction().checked_div(sum.fraction())?;
            *share = cut(Share::from_fraction(scaled));
        }
        give_rest_to_largest(&mut closed, Share::WHOLE);
    }
    Some(closed)
}

#[cfg(test)]
mod tests {
    use std::sync::LazyLock;

    use proptest::prelude::*;
    use quantity::{Decimal, Mass};

    use super::*;
    use crate::blend::RanOut;
    use crate::breakdown::{Node, awkward_weight, break_down};
    use crate::catalogue::Kind;
    use crate::grind_plan::GrindAmount;
    use crate::plan::CutPlan;
    use crate::stock::Stock;

    static CATALOGUE: LazyLock<Catalogue> =
        LazyLock::new(|| Catalogue::published().expect("published data"));

    fn broken_down(grass: i64, choices: &[prop::sample::Index]) -> Breakdown {
        let mut plan = CutPlan::default();
        for ((part, data), choice) in CATALOGUE.parts().zip(choices.iter().cycle()) {
            plan.choose(part, *choice.get(&data.ways));
        }
        let stock = Stock::grass_share(Share::from_fraction(Decimal::new(grass, 3)));
        break_down(&CATALOGUE, awkward_weight(), 3, &plan, stock)
    }

    fn own_shares(breakdown: &Breakdown) -> Vec<Share> {
        breakdown
            .nodes()
            .iter()
            .filter(|node| matches!(node.what, What::Product(_)))
            .map(|node| node.share)
            .collect()
    }

    fn assert_closed(breakdown: &Breakdown) {
        let nodes = breakdown.nodes();
        assert_eq!(nodes[0].share, Share::WHOLE);
        assert_eq!(nodes[0].weight, awkward_weight());
        for (index, node) in nodes.iter().enumerate() {
            assert!(node.share >= Share::ZERO, "{node:?}");
            if matches!(node.what, What::Part { .. }) {
                let below = || nodes.iter().filter(|child| child.parent == Some(index));
                assert_eq!(below().map(|child| child.share).sum::<Share>(), node.share);
                assert_eq!(below().map(|child| child.weight).sum::<Mass>(), node.weight);
            }
        }
    }

    #[test]
    fn no_shares_at_all_leave_it_as_it_is() {
        let plain = broken_down(0, &[]);
        let same = plain.reshared(&CATALOGUE, &[]);
        assert_eq!(format!("{same:?}"), format!("{plain:?}"));
    }

    #[test]
    fn a_heavier_product_takes_its_weight_and_its_labour_from_the_others() {
        let plain = broken_down(0, &[]);
        let mut shares = own_shares(&plain);
        let first = shares[0];
        let last = shares.len() - 1;
        let moved = Share::from_fraction(first.fraction() / Decimal::TWO);
        shares[0] = first - moved;
        shares[last] = shares[last] + moved;
        let other = plain.reshared(&CATALOGUE, &shares);
        assert_eq!(own_shares(&other)[0], first - moved);
        assert_eq!(own_shares(&other)[last], shares[last]);
        assert_eq!(other.nodes()[0].labour, plain.nodes()[0].labour);
        let of_first = plain
            .nodes()
            .iter()
            .find(|node| matches!(node.what, What::Product(_)))
            .and_then(|node| node.parent)
            .expect("a part above it");
        assert!(other.nodes()[of_first].labour < plain.nodes()[of_first].labour);
    }

    /// Every class of the catalogue as a share of the lean trim, by the boneless
    /// plan.
    fn ground(share: i64, with_fat_trim: bool) -> Breakdown {
        let mut plan = CATALOGUE.plan("boneless").expect("a plan").plan.clone();
        plan.grind.with_fat_trim = with_fat_trim;
        for class in CATALOGUE.grind_classes() {
            let share = Share::from_percent(Decimal::from(share));
            plan.grind.ask(class.product, GrindAmount::Share(share));
        }
        break_down(&CATALOGUE, awkward_weight(), 1, &plan, Stock::GRAIN)
    }

    #[test]
    fn the_classes_of_grind_weigh_what_their_leaves_weigh() {
        let plain = ground(20, true);
        let class = plain.ground()[0].clone();
        // Half of the leanest class is found to be loss.
        let is_class = |node: &Node| node.what == What::Product(class.product);
        let mut shares = own_shares(&plain);
        let products = || {
            plain
                .nodes()
                .iter()
                .filter(|node| matches!(node.what, What::Product(_)))
        };
        let loss = products()
            .position(|node| match node.what {
                What::Product(product) => CATALOGUE[product].kind == Kind::Loss,
                What::Part { .. } => false,
            })
            .expect("a loss");
        for (index, _) in products().enumerate().filter(|(_, node)| is_class(node)) {
            let half = cut(Share::from_fraction(
                shares[index].fraction() / Decimal::TWO,
            ));
            shares[index] = shares[index] - half;
            shares[loss] = shares[loss] + half;
        }
        let other = plain.reshared(&CATALOGUE, &shares);
        assert_eq!(other.ground().len(), plain.ground().len());
        for (told, before) in other.ground().iter().zip(plain.ground()) {
            let leaves = || {
                let is_leaf = |node: &&Node| node.what == What::Product(told.product);
                other.nodes().iter().filter(is_leaf)
            };
            let weight: Mass = leaves().map(|node| node.weight).sum();
            let fat: Mass = leaves()
                .map(|node| node.weight * node.fat.expect("of a trim"))
                .sum();
            let close = |one: Mass, other: Mass| {
                assert!(
                    (one - other).kg().abs() < Decimal::new(1, 20),
                    "{one:?} {other:?}"
                );
            };
            close(told.weight, weight);
            close(told.weight * told.fat.expect("something was made"), fat);
            // A share of the lean trim is less of less lean trim.
            assert!(told.wanted < before.wanted);
        }
        let told = &other.ground()[0];
        assert!(told.missing().is_positive() && told.ran_out == Some(RanOut::Lean));
        assert!(told.lean_lacking.is_some_and(Mass::is_positive));
        assert_eq!(other.ground()[1].ran_out, None);
    }

    proptest! {
        #[test]
        fn its_own_shares_tell_the_same_of_the_grind(
            share in 0_i64..120,
            with_fat_trim in any::<bool>(),
        ) {
            let plain = ground(share, with_fat_trim);
            let same = plain.reshared(&CATALOGUE, &own_shares(&plain));
            prop_assert_eq!(same.ground(), plain.ground());
        }

        #[test]
        fn its_own_shares_change_nothing(
            grass in 0_i64..=1000,
            choices in proptest::collection::vec(any::<prop::sample::Index>(), 64),
        ) {
            let plain = broken_down(grass, &choices);
            let same = plain.reshared(&CATALOGUE, &own_shares(&plain));
            prop_assert_eq!(format!("{same:?}"), format!("{plain:?}"));
        }

        #[test]
        fn any_shares_close(
            choices in proptest::collection::vec(any::<prop::sample::Index>(), 64),
            digits in proptest::collection::vec(-1_000_000_i64..i64::MAX, 0..200),
            places in 0_u32..=20,
        ) {
            let plain = broken_down(0, &choices);
            let shares: Vec<Share> = digits
                .iter()
                .map(|digits| Share::from_fraction(Decimal::new(*digits, places)))
                .collect();
            assert_closed(&plain.reshared(&CATALOGUE, &shares));
        }

        #[test]
        fn shares_twice_as_large_are_the_same_shares(
            choices in proptest::collection::vec(any::<prop::sample::Index>(), 64),
        ) {
            let plain = broken_down(0, &choices);
            let double: Vec<Share> = own_shares(&plain)
                .into_iter()
                .map(|share| Share::from_fraction(share.fraction() * Decimal::TWO))
                .collect();
            let same = plain.reshared(&CATALOGUE, &double);
            prop_assert_eq!(own_shares(&same), own_shares(&plain));
        }
    }
}
