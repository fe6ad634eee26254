//! A side that gives more or less saleable meat than planned.
//!
//! The published slope says what a leaner side trades: one yield grade leaner
//! gives 4.3 points more saleable meat (4.0 to 4.6, Kansas State University
//! 1996 and 1976) and 1.0 point more bone, and fat trim gives up both. So of
//! every point that saleable meat gains, bone gains `1.0 ⁄ 4.3` of a point and
//! fat loses the two together. The slope is the catalogue's own; it is a mean
//! over carcasses and says nothing of one cut, so all cuts move by one factor,
//! as do all fat and all bone. Saw dust, drip and other losses stay.
//!
//! Where the slope would leave less than nothing of fat or of bone, that one
//! goes to nothing and the other takes the rest; where the plan gives neither
//! bone nor fat to take it, the cuts stop there.

use carcass::grade::YieldGrade;
use carcass::{Breakdown, Catalogue, Kind, What};
use quantity::{Decimal, Share};

/// `breakdown` with the saleable share of the side moved by `by`: 0.01 is one
/// point more. What is moved may be less where nothing is left to take it;
/// [`saleable_share`] before and after says how far it went.
pub fn shift_saleable(catalogue: &Catalogue, breakdown: &Breakdown, by: Share) -> Breakdown {
    let of = |kind: Kind| breakdown.share_of(|product| catalogue[product].kind == kind);
    let (cuts, fat, bone) = (of(Kind::Cut), of(Kind::Fat), of(Kind::Bone));
    let Some(after) = shifted(cuts, fat, bone, by, bone_for_saleable(catalogue)) else {
        return breakdown.clone();
    };
    let shares: Vec<Share> = breakdown
        .nodes()
        .iter()
        .filter_map(|node| {
            let What::Product(product) = node.what else {
                return None;
            };
            Some(match catalogue[product].kind {
                Kind::Cut => scaled(node.share, cuts, after.cuts),
                Kind::Fat => scaled(node.share, fat, after.fat),
                Kind::Bone => scaled(node.share, bone, after.bone),
                Kind::Loss => node.share,
            })
        })
        .collect();
    breakdown.reshared(catalogue, &shares)
}

/// Share of the side that its cuts make up.
pub fn saleable_share(catalogue: &Catalogue, breakdown: &Breakdown) -> Share {
    breakdown.share_of(|product| catalogue[product].kind == Kind::Cut)
}

/// Shares of the side after the move.
struct Shifted {
    cuts: Share,
    fat: Share,
    bone: Share,
}

/// `None` where nothing moves.
fn shifted(cuts: Share, fat: Share, bone: Share, by: Share, slope: Share) -> Option<Shifted> {
    // What is not there cannot grow: there is no telling where it would come off.
    let can_take = cuts > Share::ZERO && (fat > Share::ZERO || bone > Share::ZERO);
    let by = by.clamp(Share::ZERO - cuts, fat + bone);
    if !can_take || by == Share::ZERO {
        return None;
    }
    let rest = fat + bone - by;
    let bone_after = if fat == Share::ZERO {
        rest
    } else if bone == Share::ZERO {
        Share::ZERO
    } else {
        (bone + by * slope).clamp(Share::ZERO, rest)
    };
    Some(Shifted {
        cuts: cuts + by,
        fat: rest - bone_after,
        bone: bone_after,
    })
}

/// What bone gains where saleable meat gains one: the ratio of the slopes.
fn bone_for_saleable(catalogue: &Catalogue) -> Share {
    let [lean, fat] =
        [YieldGrade::LEANEST, YieldGrade::FATTEST].map(|grade| catalogue.expected_yield(grade));
    (lean.bone - fat.bone)
        .fraction()
        .checked_div((lean.saleable - fat.saleable).fraction())
        .map_or(Share::ZERO, Share::from_fraction)
}

/// `share` of a group that was `before` and is `after`.
pub(crate) fn scaled(share: Share, before: Share, after: Share) -> Share {
    let product = share.fraction().saturating_mul(after.fraction());
    product
        .checked_div(before.fraction())
        .map_or(share, |scaled| {
            Share::from_fraction(scaled.max(Decimal::ZERO))
        })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::any_case::{CATALOGUE, any_case, plain_case};

    fn of(breakdown: &Breakdown, kind: Kind) -> Decimal {
        breakdown
            .share_of(|product| CATALOGUE[product].kind == kind)
            .percent()
    }

    fn points(tenths: i64) -> Share {
        Share::from_percent(Decimal::new(tenths, 1))
    }

    /// Rounding of a share to its places, over all products.
    fn last_digits() -> Decimal {
        Decimal::new(1, 9)
    }

    /// One yield grade: +4.3 saleable, +1.0 bone, −5.3 fat.
    #[test]
    fn one_grade_leaner_trades_as_published() {
        let plain = plain_case().sheet().expect("a sheet").breakdown;
        let leaner = shift_saleable(&CATALOGUE, &plain, points(43));
        for (kind, moved) in [
            (Kind::Cut, 43),
            (Kind::Bone, 10),
            (Kind::Fat, -53),
            (Kind::Loss, 0),
        ] {
            let apart = of(&leaner, kind) - of(&plain, kind) - Decimal::new(moved, 1);
            assert!(apart.abs() < last_digits(), "{kind:?}: {apart}");
        }
    }

    #[test]
    fn bone_gives_once_fat_has_run_out_and_then_the_cuts_stop() {
        let plain = plain_case().sheet().expect("a sheet").breakdown;
        let fat = of(&plain, Kind::Fat);
        let bone = of(&plain, Kind::Bone);
        let by = Share::from_percent(fat + Decimal::ONE);
        let lean = shift_saleable(&CATALOGUE, &plain, by);
        assert!(of(&lean, Kind::Fat).is_zero());
        assert!((bone - of(&lean, Kind::Bone) - Decimal::ONE).abs() < last_digits());

        let most = shift_saleable(&CATALOGUE, &plain, Share::WHOLE);
        assert!(of(&most, Kind::Bone).is_zero());
        let losses = of(&plain, Kind::Loss);
        assert!((of(&most, Kind::Cut) + losses - Decimal::ONE_HUNDRED).abs() < last_digits());
    }

    #[test]
    fn without_fat_bone_takes_it_and_without_bone_fat_does() {
        let share = |percent: i64| Share::from_percent(Decimal::from(percent));
        let slope = Share::from_fraction(Decimal::new(25, 2));
        let after = |fat, bone| {
            shifted(share(70), share(fat), share(bone), share(4), slope)
                .map(|after| [after.cuts, after.fat, after.bone])
        };
        assert_eq!(after(20, 10), Some([share(74), share(15), share(11)]));
        assert_eq!(after(0, 30), Some([share(74), share(0), share(26)]));
        assert_eq!(after(30, 0), Some([share(74), share(26), share(0)]));
        assert_eq!(after(0, 0), None);
    }

    proptest! {
        #[test]
        fn cuts_move_as_asked_and_keep_their_relations(case in any_case(), tenths in -80_i64..80) {
            let plain = case.sheet().expect("a sheet").breakdown;
            let moved = shift_saleable(&CATALOGUE, &plain, points(tenths));
            let by = of(&moved, Kind::Cut) - of(&plain, Kind::Cut);
            prop_assert!((by - Decimal::new(tenths, 1)).abs() < last_digits(), "{}", by);
            prop_assert!((of(&moved, Kind::Loss) - of(&plain, Kind::Loss)).abs() < last_digits());
            let factor = of(&moved, Kind::Cut) / of(&plain, Kind::Cut);
            for (before, after) in plain.nodes().iter().zip(moved.nodes()) {
                prop_assert!(after.share >= Share::ZERO);
                if let What::Product(product) = before.what
                    && CATALOGUE[product].kind == Kind::Cut
                {
                    let expected = before.share.fraction() * factor;
                    prop_assert!((after.share.fraction() - expected).abs() < last_digits());
                }
            }
        }
    }
}
