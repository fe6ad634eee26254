//! Numbers of several draws side by side.
//!
//! Draws are made a few at a time, the same step of each next to one another:
//! a processor then does a step for two or four of them at once, and the walk
//! over the plan is paid for once. Lanes never mix, so a draw has the same bits
//! whichever lane it is in.

use std::array::from_fn;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// Draws that are made together.
pub(super) const LANES: usize = 4;

/// One number of each of the draws.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Lanes(pub [f64; LANES]);

impl Default for Lanes {
    fn default() -> Self {
        Self::all(0.0)
    }
}

impl Lanes {
    /// The same number in every draw.
    #[inline]
    pub(super) const fn all(number: f64) -> Self {
        Self([number; LANES])
    }

    /// What `function` makes of each number.
    #[inline]
    pub(super) fn map(self, function: impl Fn(f64) -> f64) -> Self {
        Self(self.0.map(function))
    }

    /// What `function` makes of the two numbers of each draw.
    #[inline]
    fn with(self, other: Self, function: impl Fn(f64, f64) -> f64) -> Self {
        let Self(mut numbers) = self;
        for (number, other) in numbers.iter_mut().zip(other.0) {
            *number = function(*number, other);
        }
        Self(numbers)
    }

    /// The greater of the two numbers of each draw.
    #[inline]
    pub(super) fn max(self, other: Self) -> Self {
        self.with(other, |one, other| if one > other { one } else { other })
    }

    /// Each number, or nothing where it is below.
    #[inline]
    pub(super) fn at_least_nothing(self) -> Self {
        self.max(Self::all(0.0))
    }

    /// Each number without its sign.
    #[inline]
    pub(super) fn abs(self) -> Self {
        self.map(f64::abs)
    }

    /// The number of one draw.
    #[inline]
    pub(super) fn lane(self, lane: usize) -> f64 {
        self.0.get(lane).copied().unwrap_or(0.0)
    }

    /// What `function` makes of every draw.
    #[inline]
    pub(super) fn each(function: impl FnMut(usize) -> f64) -> Self {
        Self(from_fn(function))
    }
}

impl Add for Lanes {
    type Output = Self;

    #[inline]
    fn add(self, other: Self) -> Self {
        self.with(other, |one, other| one + other)
    }
}

impl Sub for Lanes {
    type Output = Self;

    #[inline]
    fn sub(self, other: Self) -> Self {
        self.with(other, |one, other| one - other)
    }
}

impl Mul for Lanes {
    type Output = Self;

    #[inline]
    fn mul(self, other: Self) -> Self {
        self.with(other, |one, other| one * other)
    }
}

impl Div for Lanes {
    type Output = Self;

    #[inline]
    fn div(self, other: Self) -> Self {
        self.with(other, |one, other| one / other)
    }
}

impl Neg for Lanes {
    type Output = Self;

    #[inline]
    fn neg(self) -> Self {
        self.map(|number| -number)
    }
}

impl Add<f64> for Lanes {
    type Output = Self;

    #[inline]
    fn add(self, other: f64) -> Self {
        self.map(|number| number + other)
    }
}

impl Sub<f64> for Lanes {
    type Output = Self;

    #[inline]
    fn sub(self, other: f64) -> Self {
        self.map(|number| number - other)
    }
}

impl Mul<f64> for Lanes {
    type Output = Self;

    #[inline]
    fn mul(self, other: f64) -> Self {
        self.map(|number| number * other)
    }
}

impl AddAssign for Lanes {
    #[inline]
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl SubAssign for Lanes {
    #[inline]
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}
