//! Seeded normal deviates that have the same bits on every machine.
//!
//! A deviate is the normal quantile of a uniform one: Wichura, Algorithm AS 241
//! (PPND16), Applied Statistics 37: 477–484 (1988), exact to about one part in
//! 10¹⁶. A library's normals take `exp` and `ln` from wherever the whole build
//! takes them, and those of a browser and of a native library differ in the
//! last digit; here the one logarithm, in the tails, comes from `libm`.
//!
//! The uniform deviate has 32 bits and lies in the middle of its step, so a
//! deviate is never beyond 6.4 standard deviations, and one word of the
//! generator gives two of them. Each draw has a generator of its own, so a draw
//! depends on the seed and its number alone.

use std::array::from_fn;

use rand_core::Rng;
use rand_pcg::Pcg64Mcg;

use super::lanes::{LANES, Lanes};

/// The generator of draw `index` of a run with `seed`.
fn generator(seed: u64, index: u64) -> Pcg64Mcg {
    let high = scrambled(seed.wrapping_add(scrambled(index)));
    let low = scrambled(high ^ index);
    Pcg64Mcg::new(u128::from(high) << 64 | u128::from(low))
}

/// The output function of `SplitMix64` (Steele, Lea and Flood, OOPSLA 2014):
/// neighbouring numbers become unrelated ones.
const fn scrambled(number: u64) -> u64 {
    let mut z = number.wrapping_add(0x9e37_79b9_7f4a_7c15);
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// Fills `deviates` with the independent standard normal ones of draw `index` of
/// a run with `seed`.
pub fn normal_deviates(seed: u64, index: u64, deviates: &mut [f64]) {
    let mut generator = generator(seed, index);
    for some in deviates.chunks_mut(LANES) {
        let mut lanes = [Lanes::default()];
        for pair in lanes.iter_mut().flat_map(|Lanes(all)| all.chunks_mut(2)) {
            pair.copy_from_slice(&halves(generator.next_u64()).map(off_middle));
        }
        to_quantiles(&mut lanes);
        for (deviate, quantile) in some.iter_mut().zip(lanes.iter().flat_map(|lanes| lanes.0)) {
            *deviate = quantile;
        }
    }
}

/// The same for the draws from `first` on, side by side.
pub(super) fn normal_lanes(seed: u64, first: u32, deviates: &mut [Lanes]) {
    let mut generators: [Pcg64Mcg; LANES] = from_fn(|lane| {
        let index = u64::from(first).wrapping_add(lane as u64);
        generator(seed, index)
    });
    for some in deviates.chunks_mut(TOGETHER) {
        for pair in some.chunks_mut(2) {
            let words = generators.each_mut().map(|it| halves(it.next_u64()));
            for (half, middle) in pair.iter_mut().enumerate() {
                *middle =
                    Lanes(words.map(|[high, low]| off_middle(if half == 0 { high } else { low })));
            }
        }
        to_quantiles(some);
    }
}

/// The two halves of a word.
#[allow(clippy::cast_possible_truncation)]
#[inline]
const fn halves(word: u64) -> [u32; 2] {
    [(word >> 32) as u32, word as u32]
}

/// How far `(half + ½) ⁄ 2³²` lies from a half; exact.
#[inline]
fn off_middle(half: u32) -> f64 {
    const STEP: f64 = 1.0 / 4_294_967_296.0;
    (f64::from(half) + 0.5) * STEP - 0.5
}

/// How many lanes of uniform deviates are turned over together.
const TOGETHER: usize = 16;

/// Turns up to [`TOGETHER`] lanes of uniform deviates, told by how far they lie
/// from the middle, into normal ones. Which of them lie in the tails is chance,
/// which a processor cannot foresee: they are listed without a branch, then
/// worked out side by side as those in the middle are.
fn to_quantiles(all: &mut [Lanes]) {
    let mut places = [(0, 0); TOGETHER * LANES];
    let mut count = 0;
    for (row, Lanes(middles)) in all.iter().enumerate() {
        for (lane, q) in middles.iter().enumerate() {
            if let Some(place) = places.get_mut(count) {
                *place = (row, lane);
            }
            count += usize::from(!is_central(*q));
        }
    }
    let places = places.get(..count).unwrap_or_default();
    let mut tails = [Lanes::default(); TOGETHER];
    for (some, tails) in places.chunks(LANES).zip(&mut tails) {
        let Lanes(middles) = tails;
        for ((row, lane), middle) in some.iter().zip(middles) {
            *middle = all.get(*row).map_or(0.0, |lanes| lanes.lane(*lane));
        }
        *tails = outer(*tails);
    }
    for middles in all.iter_mut() {
        *middles = central(*middles);
    }
    for ((row, lane), tail) in places.iter().zip(tails.iter().flat_map(|lanes| lanes.0)) {
        if let Some(deviate) = all.get_mut(*row).and_then(|lanes| lanes.0.get_mut(*lane)) {
            *deviate = tail;
        }
    }
}

#[inline]
fn is_central(q: f64) -> bool {
    q.abs() <= 0.425
}

/// Farther from the middle.
fn outer(q: Lanes) -> Lanes {
    // The square root is one of the operations of IEEE 754.
    let r = q.map(|q| (-libm::log(0.5 - q.abs())).sqrt());
    let Lanes(mut tails) = tail(r);
    for (tail, q) in tails.iter_mut().zip(q.0) {
        *tail = tail.copysign(q);
    }
    Lanes(tails)
}

/// Within 0.425 of the middle.
// The digits are those that were published.
#[allow(clippy::excessive_precision)]
#[inline]
fn central(q: Lanes) -> Lanes {
    let r = Lanes::all(0.180_625) - q * q;
    let above = ((((((r * 2_509.080_928_730_122_672_7 + 33_430.575_583_588_128_105) * r
        + 67_265.770_927_008_700_853)
        * r
        + 45_921.953_931_549_871_457)
        * r
        + 13_731.693_765_509_461_125)
        * r
        + 1_971.590_950_306_551_442_7)
        * r
        + 133.141_667_891_784_377_45)
        * r
        + 3.387_132_872_796_366_608;
    let below = ((((((r * 5_226.495_278_852_854_561 + 28_729.085_735_721_942_674) * r
        + 39_307.895_800_092_710_61)
        * r
        + 21_213.794_301_586_595_867)
        * r
        + 5_394.196_021_424_751_107_7)
        * r
        + 687.187_007_492_057_908_3)
        * r
        + 42.313_330_701_600_911_252)
        * r
        + 1.0;
    q * above / below
}

/// In the tails, `r = √(−ln p)` up to 5; 32 bits reach no further than 4.8.
#[allow(clippy::excessive_precision)]
fn tail(r: Lanes) -> Lanes {
    let r = r - 1.6;
    let above = ((((((r * 7.745_450_142_783_414_076_4e-4 + 2.272_384_498_926_918_458_33e-2)
        * r
        + 2.417_807_251_774_506_117_7e-1)
        * r
        + 1.270_458_252_452_368_382_58)
        * r
        + 3.647_848_324_763_204_605_04)
        * r
        + 5.769_497_221_460_691_405_5)
        * r
        + 4.630_337_846_156_545_295_9)
        * r
        + 1.423_437_110_749_683_577_34;
    let below = ((((((r * 1.050_750_071_644_416_843_24e-9 + 5.475_938_084_995_344_946e-4) * r
        + 1.519_866_656_361_645_719_66e-2)
        * r
        + 1.481_039_764_274_800_745_9e-1)
        * r
        + 6.897_673_349_851_000_045_5e-1)
        * r
        + 1.676_384_830_183_803_849_4)
        * r
        + 2.053_191_626_637_758_821_87)
        * r
        + 1.0;
    above / below
}

#[cfg(test)]
mod tests {
    use super::*;

    fn quantile(half: u32) -> f64 {
        let mut lanes = [Lanes::all(off_middle(half))];
        to_quantiles(&mut lanes);
        lanes[0].lane(LANES - 1)
    }

    /// Some deviates with their quantiles.
    const QUANTILES: [(u32, f64); 12] = [
        (0, -6.337_957_754_553_789),
        (1, -6.166_429_517_819_749),
        (1_000, -5.039_851_125_968_711),
        (67_108_864, -2.153_874_691_093_315_5),
        (322_122_547, -1.439_531_470_445_015_3),
        (644_245_093, -1.036_433_390_392_523_1),
        (1_073_741_824, -0.674_489_749_829_738_4),
        (2_147_483_647, -2.918_099_372_916_623_4e-10),
        (2_147_483_648, 2.918_099_372_916_623_4e-10),
        (3_221_225_472, 0.674_489_750_562_425_1),
        (4_284_967_296, 2.829_875_460_680_759),
        (4_294_967_295, 6.337_957_754_553_789),
    ];

    // Values of AS 241 as CPython's `statistics.NormalDist().inv_cdf` gives
    // them, at the uniform deviates that 32 bits can stand for.
    #[test]
    fn quantiles_are_those_of_the_published_algorithm() {
        for (half, expected) in QUANTILES {
            let got = quantile(half);
            assert!(
                (got - expected).abs() <= 1e-15 * expected.abs().max(0.01),
                "{half}: {got:e}"
            );
        }
    }

    #[test]
    fn the_two_halves_mirror_each_other() {
        for half in (0..=u32::MAX).step_by(1_000_003) {
            let mirrored = quantile(u32::MAX - half);
            assert!((quantile(half) + mirrored).abs() <= 1e-14, "{half}");
        }
    }

    #[test]
    fn every_lane_is_the_draw_of_its_number() {
        for (seed, first) in [(0, 0), (9, 1000), (u64::MAX, 7)] {
            let mut lanes = [Lanes::default(); 75];
            normal_lanes(seed, first, &mut lanes);
            for lane in 0..LANES {
                let mut alone = [0.0; 75];
                normal_deviates(seed, u64::from(first) + lane as u64, &mut alone);
                let bits = |number: f64| number.to_bits();
                assert_eq!(
                    lanes.map(|it| bits(it.lane(lane))),
                    alone.map(bits),
                    "{seed} {first} {lane}"
                );
            }
        }
    }

    #[test]
    fn deviates_have_the_moments_of_the_normal_distribution() {
        let mut sums = [0.0_f64; 4];
        let draws = 4000_u32;
        for index in 0..draws {
            let mut deviates = [0.0; 50];
            normal_deviates(7, u64::from(index), &mut deviates);
            for deviate in deviates {
                for (power, sum) in (1..).zip(&mut sums) {
                    *sum += deviate.powi(power);
                }
            }
        }
        let n = f64::from(draws) * 50.0;
        // Variances of the powers of a normal deviate: 1, 2, 15, 96.
        for ((sum, moment), variance) in sums
            .iter()
            .zip([0.0, 1.0, 0.0, 3.0])
            .zip([1.0, 2.0, 15.0, 96.0_f64])
        {
            let off = (sum / n - moment) / (variance / n).sqrt();
            assert!(off.abs() < 4.0, "{moment}: {off}");
        }
    }

    #[test]
    fn neighbouring_draws_are_unrelated() {
        let first = |index| {
            let mut deviates = [0.0; 2];
            normal_deviates(3, index, &mut deviates);
            deviates
        };
        let n = 20_000;
        let (mut with_next, mut within) = (0.0, 0.0);
        for index in 0..n {
            with_next += first(index)[0] * first(index + 1)[0];
            within += first(index)[0] * first(index)[1];
        }
        let standard = f64::from(u32::try_from(n).expect("small")).sqrt();
        assert!((with_next / standard).abs() < 4.0, "{with_next}");
        assert!((within / standard).abs() < 4.0, "{within}");
    }
}
