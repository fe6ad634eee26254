//! How far a learnt yield may be off: Student's t.

use quantity::{Decimal, Rounding, Share};
use statrs::distribution::{ContinuousCDF, StudentsT};

use crate::composition::PLACES;

/// A credible interval of a share.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Interval {
    /// Lower end, none below nothing.
    pub low: Share,
    /// Upper end, none above the whole.
    pub high: Share,
}

impl Interval {
    /// `middle` with `half` on either side, within nothing and the whole.
    pub(crate) fn around(middle: Share, half: Share) -> Self {
        Self {
            low: (middle - half).max(Share::ZERO),
            high: (middle + half).min(Share::WHOLE),
        }
    }

    /// Whether `share` lies in it.
    pub fn holds(&self, share: Share) -> bool {
        self.low <= share && share <= self.high
    }
}

/// Both tails together lie outside a 90 % interval.
pub(crate) const TAILS: f64 = 0.1;

/// Student's t with so many degrees of freedom beyond which both tails together
/// hold `tails`; nothing for what is no distribution.
pub(crate) fn student(freedom: f64, tails: f64) -> f64 {
    StudentsT::new(0.0, 1.0, freedom).map_or(0.0, |student| student.inverse_cdf(1.0 - tails / 2.0))
}

/// For the distribution alone: the digits beyond the sixteenth are dropped.
pub(crate) fn float(number: Decimal) -> f64 {
    let tens = usize::try_from(number.scale()).ok();
    let tens = tens.and_then(|places| TENS.get(places));
    match (i32::try_from(number.mantissa()), tens) {
        // Both are exact, so their quotient is the nearest float; dividing in 128 bits takes
        // many times as long.
        (Ok(digits), Some(tens)) => f64::from(digits) / tens,
        _ => f64::try_from(number).unwrap_or_default(),
    }
}

/// Powers of ten, up to the digits of a share.
const TENS: [f64; 10] = [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9];

/// A share from a float, at the digits of a share; nothing for what is no
/// number.
pub(crate) fn share_of(number: f64) -> Share {
    let number = Decimal::try_from(number).unwrap_or_default();
    Share::from_fraction(Rounding::HalfEven.to_places(number, PLACES))
}

#[cfg(test)]
mod tests {
    use super::*;

    // Student's t, two-sided 10 %: any printed table, such as Gelman et al., or
    // NIST/SEMATECH e-Handbook, 1.3.6.7.2 (from memory).
    #[test]
    fn quantiles_are_those_of_the_tables() {
        for (freedom, printed) in [(1.0, 6.314), (5.0, 2.015), (10.0, 1.812), (30.0, 1.697)] {
            let t = student(freedom, TAILS);
            assert!((t - printed).abs() < 0.0006, "{freedom}: {t}");
        }
        assert!((student(1e6, TAILS) - 1.6449).abs() < 0.0001);
        assert!(student(0.0, TAILS).abs() < 1e-12);
    }

    #[test]
    fn an_interval_stays_within_the_whole() {
        let share = |percent: i64| Share::from_percent(Decimal::from(percent));
        let interval = Interval::around(share(2), share(5));
        assert_eq!((interval.low, interval.high), (Share::ZERO, share(7)));
        assert!(interval.holds(share(7)) && !interval.holds(share(8)));
        assert_eq!(Interval::around(share(98), share(5)).high, Share::WHOLE);
        assert_eq!(share_of(f64::NAN), Share::ZERO);
    }
}
