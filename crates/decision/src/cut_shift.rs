//! One cut that weighs more or less than planned.
//!
//! A cut is heavier because less was trimmed off it, so the trim of its own
//! branch gives the weight: grind, stew and fat trim that come off the same
//! part, in proportion. Where the part leaves too little, the part above it
//! gives the rest, and so on up to the side; after all trim the other cuts
//! give, and what nobody can give stays. A lighter cut leaves its weight to the
//! same trim. A cut made of trim takes from, and leaves to, the other cuts of
//! its branch in the same way. This is a model: no table says where the
//! knife of a shop leaves the weight.

use carcass::{Breakdown, Catalogue, Kind, Node, ProductId, What};
use quantity::Share;

use crate::saleable_shift::scaled;

/// `breakdown` with the weight of `product` changed by the share `by` of its
/// own: 0.05 is one twentieth more. What is moved may be less where nothing is
/// left to give; a product that the side does not give changes nothing.
pub fn shift_cut(
    catalogue: &Catalogue,
    breakdown: &Breakdown,
    product: ProductId,
    by: Share,
) -> Breakdown {
    let nodes = breakdown.nodes();
    let mut shares: Vec<Share> = nodes.iter().map(|node| node.share).collect();
    let by = by.max(Share::ZERO - Share::WHOLE);
    let (own, is_trim) = nodes
        .iter()
        .filter(|node| node.what == What::Product(product))
        .fold((Vec::new(), false), |(mut own, is_trim), node| {
            own.push(node.share);
            (own, is_trim || node.fat.is_some())
        });
    let givers = Givers {
        catalogue,
        nodes,
        product,
        is_trim,
    };
    let mut own = own.into_iter();
    for (index, node) in nodes.iter().enumerate() {
        if node.what == What::Product(product)
            && let Some(share) = own.next()
        {
            let moved = givers.take(&mut shares, index, share * by);
            if let Some(share) = shares.get_mut(index) {
                *share = *share + moved;
            }
        }
    }
    let of_products: Vec<Share> = nodes
        .iter()
        .zip(shares)
        .filter(|(node, _)| matches!(node.what, What::Product(_)))
        .map(|(_, share)| share)
        .collect();
    breakdown.reshared(catalogue, &of_products)
}

/// What gives weight to a product, or takes it.
struct Givers<'a> {
    catalogue: &'a Catalogue,
    nodes: &'a [Node],
    product: ProductId,
    is_trim: bool,
}

impl Givers<'_> {
    /// Takes `wanted` for the piece at `index` from what stands nearest to it
    /// (gives, below nothing), and returns how much of it was found.
    fn take(&self, shares: &mut [Share], index: usize, wanted: Share) -> Share {
        let mut missing = wanted;
        for trims in [!self.is_trim, self.is_trim] {
            let mut above = self.parent(index);
            while let Some(part) = above {
                if missing == Share::ZERO {
                    break;
                }
                missing = missing - self.take_below(shares, part, trims, missing);
                above = self.parent(part);
            }
        }
        wanted - missing
    }

    fn take_below(&self, shares: &mut [Share], part: usize, trims: bool, wanted: Share) -> Share {
        let givers = self.below(part, trims);
        let before: Share = givers
            .iter()
            .filter_map(|&giver| shares.get(giver))
            .copied()
            .sum();
        let taken = wanted.min(before);
        if before == Share::ZERO {
            return Share::ZERO;
        }
        for giver in givers {
            if let Some(share) = shares.get_mut(giver) {
                *share = scaled(*share, before, before - taken);
            }
        }
        taken
    }

    fn parent(&self, index: usize) -> Option<usize> {
        self.nodes.get(index).and_then(|node| node.parent)
    }

    /// The trims, or else the other cuts, that come off the part at `part` or
    /// off anything below it.
    fn below(&self, part: usize, trims: bool) -> Vec<usize> {
        let depth = self.nodes.get(part).map_or(0, |node| node.depth);
        self.nodes
            .iter()
            .enumerate()
            .skip(part + 1)
            // Pre-order: the first piece that is no deeper is beside the part.
            .take_while(|(_, node)| node.depth > depth)
            .filter(|(_, node)| match node.what {
                What::Product(product) if product != self.product => {
                    let is_trim = node.fat.is_some();
                    is_trim == trims && (trims || self.catalogue[product].kind == Kind::Cut)
                }
                _ => false,
            })
            .map(|(index, _)| index)
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use quantity::{Decimal, Mass};

    use super::*;
    use crate::any_case::{CATALOGUE, any_case, plain_case};

    fn weight(breakdown: &Breakdown, product: ProductId) -> Mass {
        breakdown
            .nodes()
            .iter()
            .filter(|node| node.what == What::Product(product))
            .map(|node| node.weight)
            .sum()
    }

    fn last_digits() -> Decimal {
        Decimal::new(1, 8)
    }

    #[test]
    fn a_heavier_cut_takes_from_the_trim_beside_it() {
        let plain = plain_case().sheet().expect("a sheet").breakdown;
        let ribeye = CATALOGUE.product_id("ribeye-steak").expect("a product");
        let by = Share::from_percent(Decimal::ONE);
        let moved = shift_cut(&CATALOGUE, &plain, ribeye, by);
        let rise = weight(&moved, ribeye) - weight(&plain, ribeye) - weight(&plain, ribeye) * by;
        assert!(rise.kg().abs() < last_digits());
        let index = plain
            .nodes()
            .iter()
            .position(|node| node.what == What::Product(ribeye))
            .expect("a ribeye");
        let part = plain.nodes()[index].parent.expect("a part");
        // The part weighs what it did; only the trim in it gave.
        let apart = plain.nodes()[part].weight - moved.nodes()[part].weight;
        assert!(apart.kg().abs() < last_digits());
    }

    #[test]
    fn grind_takes_from_cuts() {
        let plain = plain_case().sheet().expect("a sheet").breakdown;
        let grind = CATALOGUE.product_id("ground-beef").expect("a product");
        let fat = CATALOGUE.product_id("fat-trim").expect("a product");
        let moved = shift_cut(&CATALOGUE, &plain, grind, Share::from_percent(Decimal::TEN));
        assert!(weight(&moved, grind) > weight(&plain, grind));
        assert!((weight(&moved, fat) - weight(&plain, fat)).kg().abs() < last_digits());
    }

    #[test]
    fn a_cut_that_would_take_everything_stops_at_what_can_give() {
        let plain = plain_case().sheet().expect("a sheet").breakdown;
        let ribeye = CATALOGUE.product_id("ribeye-steak").expect("a product");
        let hundredfold = Share::from_percent(Decimal::from(10_000));
        let moved = shift_cut(&CATALOGUE, &plain, ribeye, hundredfold);
        let others =
            moved.share_of(|product| product != ribeye && CATALOGUE[product].kind == Kind::Cut);
        assert!(others.fraction() < last_digits(), "{others:?}");
        let bone = |breakdown: &Breakdown| {
            breakdown.share_of(|product| CATALOGUE[product].kind == Kind::Bone)
        };
        assert!((bone(&moved) - bone(&plain)).fraction().abs() < last_digits());
    }

    proptest! {
        #[test]
        fn a_cut_moves_as_asked_and_bone_and_loss_stay(
            case in any_case(),
            choice in any::<prop::sample::Index>(),
            percent in -100_i64..=20,
        ) {
            let sheet = case.sheet().expect("a sheet");
            let cuts: Vec<ProductId> = sheet
                .rows
                .iter()
                .filter(|row| !row.is_by_product)
                .map(|row| row.product)
                .collect();
            let cut = *choice.get(&cuts);
            let by = Share::from_percent(Decimal::from(percent));
            let moved = shift_cut(&CATALOGUE, &sheet.breakdown, cut, by);
            for (product, data) in CATALOGUE.products() {
                let share = |breakdown: &Breakdown| breakdown.share_of(|one| one == product);
                let (before, after) = (share(&sheet.breakdown), share(&moved));
                let expected = if product == cut {
                    before * (Share::WHOLE + by)
                } else if matches!(data.kind, Kind::Bone | Kind::Loss) {
                    before
                } else {
                    prop_assert!(after >= Share::ZERO);
                    continue;
                };
                let apart = (after - expected).fraction().abs();
                prop_assert!(apart < last_digits(), "{}: {}", data.id, apart);
            }
        }
    }
}
