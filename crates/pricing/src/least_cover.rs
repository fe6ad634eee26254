//! Which amounts to take so that their sum covers a need with the least
//! excess.
//!
//! The problem is that of the subset sum, for which no quick exact method is
//! known, so the work is bounded instead. Every choice among the
//! [`TRIED_WHOLLY`] smallest amounts is tried by meeting in the middle
//! (Horowitz and Sahni, *Journal of the ACM* 21(2), 1974; from memory): each
//! half's sums in rising order, and for every sum of one half the least of the
//! other that covers the rest. That is 2¹⁰ sums twice, whatever the amounts:
//! enough to come within a small part of a cent of what a board asks, and quick
//! enough to follow every key that is pressed.
//! Larger amounts are settled before, one after the other from the largest, so
//! that what is left to cover stays nearest to half of what is left to take,
//! where the choices lie thickest.

/// The most amounts among which every choice is tried.
pub(crate) const TRIED_WHOLLY: usize = 20;

/// What to take.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Cover {
    /// Whether each amount is taken, in the order given.
    pub taken: Vec<bool>,
    /// Whether no other choice has less excess.
    pub is_proven_least: bool,
}

/// The choice among `amounts` that covers `need`; all of them where they do
/// not reach it. The amounts must sum to no more than `u64::MAX`.
pub(crate) fn least_cover(amounts: &[u64], need: u64) -> Cover {
    let mut order: Vec<(usize, u64)> = amounts.iter().copied().enumerate().collect();
    order.sort_by_key(|&(_, amount)| core::cmp::Reverse(amount));
    let mut left_to_take: u64 = amounts.iter().fold(0, |sum, a| sum.saturating_add(*a));
    let mut left_to_cover = need.min(left_to_take);
    let mut taken = vec![false; amounts.len()];

    let settled = order.len().saturating_sub(TRIED_WHOLLY);
    let (large, small) = order.split_at_checked(settled).unwrap_or_default();
    for &(index, amount) in large {
        left_to_take = left_to_take.saturating_sub(amount);
        if !takes(amount, left_to_cover, left_to_take) {
            continue;
        }
        left_to_cover = left_to_cover.saturating_sub(amount);
        if let Some(taken) = taken.get_mut(index) {
            *taken = true;
        }
    }

    let choice = best_of_all_choices(small, left_to_cover);
    for (bit, &(index, _)) in small.iter().enumerate() {
        if let Some(taken) = taken.get_mut(index) {
            *taken = choice & (1 << bit) != 0;
        }
    }
    let sum = amounts
        .iter()
        .zip(&taken)
        .filter(|(_, taken)| **taken)
        .fold(0_u64, |sum, (amount, _)| sum.saturating_add(*amount));
    Cover {
        is_proven_least: settled == 0 || sum == need,
        taken,
    }
}

/// Whether taking `amount` leaves the rest to cover nearer to half of the rest
/// to take.
fn takes(amount: u64, left_to_cover: u64, left_to_take: u64) -> bool {
    if left_to_cover > left_to_take {
        return true;
    }
    let from_half = |cover: i128| (2 * cover - i128::from(left_to_take)).abs();
    from_half(i128::from(left_to_cover) - i128::from(amount)) < from_half(left_to_cover.into())
}

/// A sum with the amounts it is made of, one bit for each.
type Sum = (u64, u32);

/// The bits of the amounts that cover `need` with the least excess.
fn best_of_all_choices(amounts: &[(usize, u64)], need: u64) -> u32 {
    let with_bits = |parity: usize| {
        let half: Vec<Sum> = amounts
            .iter()
            .enumerate()
            .filter(|(bit, _)| bit % 2 == parity)
            .map(|(bit, &(_, amount))| (amount, 1 << bit))
            .collect();
        rising_sums(&half)
    };
    let (left, right) = (with_bits(0), with_bits(1));
    let mut best: Option<Sum> = None;
    let mut covering = right.as_slice();
    for &(sum, bits) in &left {
        let covers = |other: &Sum| sum.saturating_add(other.0) >= need;
        // The larger the sum of this half, the less is asked of the other.
        while let [less @ .., _] = covering
            && less.last().is_some_and(covers)
        {
            covering = less;
        }
        if let Some(other) = covering.last().filter(|other| covers(other)) {
            let whole = (sum.saturating_add(other.0), bits | other.1);
            if best.is_none_or(|best| whole.0 < best.0) {
                best = Some(whole);
            }
        }
    }
    best.map_or(u32::MAX, |(_, bits)| bits)
}

/// Every sum of a choice among `amounts`, in rising order.
fn rising_sums(amounts: &[Sum]) -> Vec<Sum> {
    let mut sums: Vec<Sum> = vec![(0, 0)];
    for &(amount, bit) in amounts {
        let mut merged = Vec::with_capacity(sums.len() * 2);
        let mut without = sums.iter().copied().peekable();
        for &(sum, bits) in &sums {
            let with = sum.saturating_add(amount);
            while let Some(smaller) = without.next_if(|(sum, _)| *sum <= with) {
                merged.push(smaller);
            }
            merged.push((with, bits | bit));
        }
        merged.extend(without);
        sums = merged;
    }
    sums
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn sum(amounts: &[u64], cover: &Cover) -> u64 {
        let taken = amounts.iter().zip(&cover.taken);
        taken.filter(|(_, taken)| **taken).map(|(a, _)| a).sum()
    }

    fn least_by_trying_all(amounts: &[u64], need: u64) -> u64 {
        (0_u32..1 << amounts.len())
            .map(|choice| {
                let taken = amounts.iter().enumerate();
                let taken = taken.filter(|(bit, _)| choice & (1 << bit) != 0);
                taken.map(|(_, amount)| amount).sum::<u64>()
            })
            .filter(|sum| *sum >= need)
            .min()
            .unwrap_or_else(|| amounts.iter().sum())
    }

    #[test]
    fn nothing_is_taken_for_no_need_and_all_for_too_much() {
        assert_eq!(least_cover(&[3, 5], 0).taken, [false, false]);
        assert_eq!(least_cover(&[3, 5], 9).taken, [true, true]);
        let none = least_cover(&[], 4);
        assert!(none.taken.is_empty() && none.is_proven_least);
    }

    #[test]
    fn a_large_amount_is_taken_where_the_small_ones_do_not_reach() {
        let mut amounts = vec![1; TRIED_WHOLLY];
        amounts.push(100);
        let cover = least_cover(&amounts, 21);
        assert_eq!(sum(&amounts, &cover), 100);
        let cover = least_cover(&amounts, 20);
        assert_eq!(sum(&amounts, &cover), 20, "the small ones reach it exactly");
    }

    #[test]
    fn an_exact_cover_is_proven_however_many_amounts_there_are() {
        let amounts: Vec<u64> = (1..=40).collect();
        let cover = least_cover(&amounts, 500);
        assert_eq!(sum(&amounts, &cover), 500);
        assert!(cover.is_proven_least);
        // Even amounts never make an odd sum.
        let even: Vec<u64> = (1..=40).map(|amount| amount * 2).collect();
        let cover = least_cover(&even, 501);
        assert_eq!(sum(&even, &cover), 502);
        assert!(!cover.is_proven_least);
    }

    proptest! {
        #[test]
        fn what_is_proven_is_what_trying_all_finds(
            amounts in prop::collection::vec(0_u64..10_000, 0..13),
            part in 0_u64..1200,
        ) {
            let need = amounts.iter().sum::<u64>() * part / 1000;
            let cover = least_cover(&amounts, need);
            prop_assert!(cover.is_proven_least);
            prop_assert_eq!(sum(&amounts, &cover), least_by_trying_all(&amounts, need));
        }

        #[test]
        fn many_amounts_are_covered_closely(
            amounts in prop::collection::vec(1_u64..1_000_000_000_000, TRIED_WHOLLY + 1..90),
            part in 0_u64..=1000,
        ) {
            let need = amounts.iter().map(|amount| amount / 1000).sum::<u64>() * part;
            let cover = least_cover(&amounts, need);
            let sum = sum(&amounts, &cover);
            prop_assert!(sum >= need);
            if (250..750).contains(&part) {
                // Two to the 20th choices among amounts below 10¹²; towards the
                // ends of the range few of them are near.
                prop_assert!(sum - need < 1_000_000_000, "{}", sum - need);
            }
        }

        #[test]
        fn the_ends_of_the_range_do_not_panic(
            amounts in prop::collection::vec(any::<u64>(), 0..40),
            need in any::<u64>(),
        ) {
            let cover = least_cover(&amounts, need);
            prop_assert_eq!(cover.taken.len(), amounts.len());
        }
    }
}
