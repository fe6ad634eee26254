//! How many draws fall where, in bins with round edges.

/// Bins of equal width that meet; an edge belongs to the bin above it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Histogram {
    /// Lower edge of the first bin, a multiple of the width.
    pub first: f64,
    /// Width of a bin: 1, 2 or 5 times a power of ten.
    pub width: f64,
    /// Draws in each bin.
    pub counts: Vec<u32>,
}

/// About as many bins as a narrow screen can show.
const BINS: f64 = 24.0;

impl Histogram {
    /// The histogram of `values`, each times `scale`.
    pub(super) fn of(values: &[f64], scale: f64) -> Self {
        let scaled = || values.iter().map(|value| value * scale);
        let low = scaled().fold(f64::INFINITY, f64::min);
        let high = scaled().fold(f64::NEG_INFINITY, f64::max);
        if !(low.is_finite() && high.is_finite()) {
            return Self::default();
        }
        let width = round_width((high - low) / BINS, low.abs().max(high.abs()));
        let first = (low / width).floor();
        // The last bin holds the highest value.
        let bins = whole((high / width).floor() - first) + 1;
        let mut counts = vec![0; bins];
        for value in scaled() {
            if let Some(count) = counts.get_mut(whole((value / width).floor() - first)) {
                *count += 1;
            }
        }
        Self {
            first: first * width,
            width,
            counts,
        }
    }

    /// Lower edge of the bin at `index`.
    #[allow(clippy::cast_precision_loss)]
    pub fn edge(&self, index: usize) -> f64 {
        self.first + self.width * index as f64
    }
}

/// The least round width that is not below `width`. Values that are all the
/// same still get a bin, small against them.
fn round_width(width: f64, size: f64) -> f64 {
    let least = width.max(size * 1e-6);
    if least.is_nan() || least <= 1e-12 {
        return 1.0;
    }
    let mut power = 1e-12;
    while power * 10.0 <= least && power < 1e300 {
        power *= 10.0;
    }
    [1.0, 2.0, 5.0, 10.0]
        .map(|digit| digit * power)
        .into_iter()
        .find(|round| *round >= least * (1.0 - 1e-9))
        .unwrap_or(power * 10.0)
}

/// A bin's place; what lies below the first counts there.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn whole(place: f64) -> usize {
    place as usize
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn edges_are_round_and_the_same_value_is_one_bin() {
        let histogram = Histogram::of(&[0.21, 0.284, 0.33], 100.0);
        assert!((histogram.width - 0.5).abs() < 1e-12 && (histogram.first - 21.0).abs() < 1e-9);
        assert_eq!(histogram.counts.iter().sum::<u32>(), 3);
        assert_eq!(Histogram::of(&[7.0; 9], 1.0).counts, [9]);
        assert_eq!(Histogram::of(&[0.0; 9], 1.0).counts, [9]);
        assert_eq!(Histogram::of(&[], 1.0), Histogram::default());
        assert_eq!(Histogram::of(&[f64::NAN], 1.0), Histogram::default());
    }

    proptest! {
        #[test]
        fn every_value_lies_in_one_bin(values in proptest::collection::vec(-1e6_f64..1e6, 1..200), scale in 0.001_f64..1000.0) {
            let histogram = Histogram::of(&values, scale);
            let count: u32 = histogram.counts.iter().sum();
            prop_assert_eq!(usize::try_from(count).expect("small"), values.len());
            prop_assert!(histogram.counts.len() <= 26, "{}", histogram.counts.len());
            let below = values.iter().filter(|value| **value * scale < histogram.edge(1)).count();
            prop_assert!(below.abs_diff(histogram.counts[0] as usize) <= 1);
        }
    }
}
