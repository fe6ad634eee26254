//! The named rules by which a figure leaves the exact world.
//!
//! Called once, at the edge: when a figure is shown, printed or charged.

use rust_decimal::{Decimal, RoundingStrategy};

use crate::Money;
use crate::arithmetic::{difference, sum};

/// A rule for cutting a number to a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Rounding {
    /// To the nearest, an exact half to the even neighbour. The rule for the
    /// money value a scale shows in Canada (Weights and Measures Regulations
    /// s. 153).
    HalfEven,
    /// Towards plus infinity: a price that must not fall short.
    Up,
    /// Towards minus infinity: an offer that must not be overpaid.
    Down,
}

impl Rounding {
    /// `number` with so many digits after the point and no groups, so that any
    /// program reads it. A zero has no sign.
    pub fn fixed(self, number: Decimal, places: u32) -> String {
        let rounded = self.to_places(number, places);
        let rounded = if rounded.is_zero() {
            Decimal::ZERO
        } else {
            rounded
        };
        let places = usize::try_from(places).unwrap_or_default();
        format!("{rounded:.places$}")
    }

    /// `number` at `places` decimal places.
    pub fn to_places(self, number: Decimal, places: u32) -> Decimal {
        number.round_dp_with_strategy(
            places,
            match self {
                Self::HalfEven => RoundingStrategy::MidpointNearestEven,
                Self::Up => RoundingStrategy::ToPositiveInfinity,
                Self::Down => RoundingStrategy::ToNegativeInfinity,
            },
        )
    }

    /// `number` to two decimal places.
    pub fn to_cent(self, number: Decimal) -> Decimal {
        self.to_places(number, 2)
    }
}

/// Rounds every amount to the cent so that the rounded amounts add up to the
/// rounded total (largest remainder, Hamilton's method): each is cut down to
/// the cent, and the cents still missing go to those that lost most, the
/// earlier one first where two lost the same.
pub fn tie_to_cents(amounts: &[Money]) -> Vec<Money> {
    tie_to_total(amounts, amounts.iter().copied().sum())
}

/// As [`tie_to_cents`], to a total that is told: what a sum is shown as where it
/// is itself tied to others. It may be off the amounts by a cent or two.
pub fn tie_to_total(amounts: &[Money], total: Money) -> Vec<Money> {
    let total = Rounding::HalfEven.to_cent(total.units());
    let mut cut: Vec<Decimal> = amounts
        .iter()
        .map(|amount| Rounding::Down.to_cent(amount.units()))
        .collect();
    let mut missing = difference(
        total,
        cut.iter()
            .fold(Decimal::ZERO, |all, amount| sum(all, *amount)),
    );

    let mut by_loss: Vec<(Decimal, usize)> = amounts
        .iter()
        .zip(&cut)
        .map(|(amount, cut)| difference(amount.units(), *cut))
        .zip(0..)
        .collect();
    by_loss.sort_unstable_by_key(|&(lost, index)| (core::cmp::Reverse(lost), index));
    // Where the total lies below what was cut, those that lost least give a cent.
    let cent = if missing < Decimal::ZERO {
        by_loss.reverse();
        Decimal::new(-1, 2)
    } else {
        Decimal::new(1, 2)
    };
    for (_, index) in by_loss {
        if missing.abs() < cent.abs() {
            break;
        }
        if let Some(amount) = cut.get_mut(index) {
            *amount = sum(*amount, cent);
            missing = difference(missing, cent);
        }
    }
    cut.into_iter().map(Money::from_units).collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_half_cent_goes_to_the_even_cent() {
        // Weights and Measures Regulations s. 153.
        for (exact, shown) in [("0.125", "0.12"), ("0.135", "0.14"), ("0.1251", "0.13")] {
            assert_eq!(
                Rounding::HalfEven.to_cent(exact.parse().unwrap()),
                shown.parse::<Decimal>().unwrap()
            );
        }
    }

    #[test]
    fn three_thirds_of_a_dollar_are_a_dollar() {
        let third = Money::from_units(Decimal::ONE / Decimal::from(3));
        let tied = tie_to_cents(&[third, third, third]);
        assert_eq!(
            tied,
            [34, 33, 33].map(Money::from_cents),
            "the first of equals takes the cent"
        );
        assert!(tie_to_cents(&[]).is_empty());
    }

    proptest! {
        #[test]
        fn rounded_amounts_add_up_and_move_less_than_a_cent(
            millionths in proptest::collection::vec(-10_000_000_i64..1_000_000_000, 0..80)
        ) {
            let exact: Vec<Money> = millionths
                .iter()
                .map(|amount| Money::from_units(Decimal::new(*amount, 6)))
                .collect();
            let tied = tie_to_cents(&exact);
            let total: Money = exact.iter().copied().sum();
            prop_assert_eq!(
                tied.iter().copied().sum::<Money>().units(),
                Rounding::HalfEven.to_cent(total.units())
            );
            for (exact, tied) in exact.iter().zip(&tied) {
                prop_assert!((tied.units() - exact.units()).abs() <= Decimal::new(1, 2));
            }
        }
    }

    #[test]
    fn a_total_that_is_told_is_kept_to() {
        let amounts = [104, 206, 305].map(|mills| Money::from_units(Decimal::new(mills, 3)));
        for (total, tied) in [
            (61, [10, 21, 30]),
            (62, [10, 21, 31]),
            (60, [10, 20, 30]),
            (59, [9, 20, 30]),
        ] {
            let total = Money::from_cents(total);
            assert_eq!(tie_to_total(&amounts, total), tied.map(Money::from_cents));
        }
    }

    #[test]
    fn numbers_have_their_digits_and_zero_no_sign() {
        let written = |text: &str| {
            let number = text.parse().expect("a number");
            Rounding::HalfEven.fixed(number, 2)
        };
        assert_eq!(written("12345.6"), "12345.60");
        assert_eq!(written("-0.001"), "0.00");
        assert_eq!(written("-1.005"), "-1.00");
    }
}
