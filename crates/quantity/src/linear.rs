//! What every quantity with a zero has in common: sums, differences, scaling
//! by a plain number, order.

/// Gives a newtype over [`rust_decimal::Decimal`] a zero and the operators
/// that make sense for any amount: `+`, `−`, negation, a sum over an iterator
/// and multiplication by a [`crate::Share`].
macro_rules! linear {
    ($quantity:ident) => {
        impl $quantity {
            /// Nothing of it.
            pub const ZERO: Self = Self(rust_decimal::Decimal::ZERO);

            /// Whether it is exactly nothing.
            pub const fn is_zero(self) -> bool {
                self.0.is_zero()
            }

            /// Whether it is more than nothing.
            pub fn is_positive(self) -> bool {
                self.0 > rust_decimal::Decimal::ZERO
            }

            /// This amount as a share of `whole`; `None` when `whole` is zero
            /// or the quotient leaves the range of a decimal.
            pub fn ratio_to(self, whole: Self) -> Option<crate::Share> {
                self.0.checked_div(whole.0).map(crate::Share::from_fraction)
            }

            /// The amount times a plain number.
            #[must_use]
            pub fn times(self, factor: rust_decimal::Decimal) -> Self {
                Self(crate::arithmetic::product(self.0, factor))
            }
        }

        impl core::ops::Add for $quantity {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(crate::arithmetic::sum(self.0, other.0))
            }
        }

        impl core::ops::AddAssign for $quantity {
            fn add_assign(&mut self, other: Self) {
                *self = *self + other;
            }
        }

        impl core::ops::Sub for $quantity {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(crate::arithmetic::difference(self.0, other.0))
            }
        }

        impl core::ops::Neg for $quantity {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl core::ops::Mul<crate::Share> for $quantity {
            type Output = Self;
            fn mul(self, share: crate::Share) -> Self {
                self.times(share.fraction())
            }
        }

        impl core::iter::Sum for $quantity {
            fn sum<I: Iterator<Item = Self>>(amounts: I) -> Self {
                amounts.fold(Self::ZERO, |sum, amount| sum + amount)
            }
        }
    };
}

pub(crate) use linear;
