//! From exact decimals to floats and back.
//!
//! Digits and scale are turned over separately, by one division, so that every
//! machine gets the same bits; a power that is computed need not be the same
//! everywhere.

use quantity::{Decimal, Money, Share, UnitPrice};

/// Powers of ten, each the float nearest to it.
const POWERS: [f64; 29] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
    1e17, 1e18, 1e19, 1e20, 1e21, 1e22, 1e23, 1e24, 1e25, 1e26, 1e27, 1e28,
];

/// Decimal places that a result of the simulation is given with: more than its
/// sampling error leaves meaningful.
const PLACES: u32 = 9;

/// The float nearest to `number`, but for the last digit.
#[allow(clippy::cast_precision_loss)]
pub(super) fn float(number: Decimal) -> f64 {
    let power = POWERS.get(number.scale() as usize).copied().unwrap_or(1e28);
    number.mantissa() as f64 / power
}

/// The decimal for a result; nothing for what is no number.
pub(super) fn decimal(number: f64) -> Decimal {
    Decimal::from_f64_retain(number)
        .unwrap_or_default()
        .round_dp(PLACES)
}

/// A result in money.
pub(super) fn money(units: f64) -> Money {
    Money::from_units(decimal(units))
}

/// A result as a share.
pub(super) fn share(fraction: f64) -> Share {
    Share::from_fraction(decimal(fraction))
}

/// A result as a price for each kilogram.
pub(super) fn per_kg(amount: f64) -> UnitPrice {
    UnitPrice::from_per_kg(decimal(amount))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_is_no_number_is_nothing() {
        assert_eq!(decimal(f64::NAN), Decimal::ZERO);
        assert_eq!(decimal(f64::INFINITY), Decimal::ZERO);
    }

    proptest! {
        #[test]
        fn a_decimal_and_its_float_agree(digits in -(1_i128 << 90)..1_i128 << 90, scale in 0_u32..=28) {
            let number = Decimal::from_i128_with_scale(digits, scale);
            let parsed: f64 = number.to_string().parse().expect("a number");
            prop_assert!((float(number) - parsed).abs() <= 4.0 * f64::EPSILON * parsed.abs());
        }

        #[test]
        fn a_result_keeps_its_places(billionths in -(1_i64 << 50)..1_i64 << 50) {
            let number = Decimal::new(billionths, PLACES);
            prop_assert_eq!(decimal(float(number)), number);
        }
    }
}
