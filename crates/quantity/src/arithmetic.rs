//! Decimal arithmetic that saturates instead of panicking.
//!
//! Out of line on purpose: copied into every operator of every quantity it
//! would make up a tenth of what a phone has to load.

use rust_decimal::Decimal;

/// `a + b`, at most the largest decimal.
#[inline(never)]
pub(crate) fn sum(a: Decimal, b: Decimal) -> Decimal {
    a.saturating_add(b)
}

/// `a − b`, at least the smallest decimal.
#[inline(never)]
pub(crate) fn difference(a: Decimal, b: Decimal) -> Decimal {
    a.saturating_sub(b)
}

/// `a × b` within the range of a decimal.
#[inline(never)]
pub(crate) fn product(a: Decimal, b: Decimal) -> Decimal {
    a.saturating_mul(b)
}

/// `a ÷ b`; `None` when `b` is zero or the quotient leaves the range.
#[inline(never)]
pub(crate) fn quotient(a: Decimal, b: Decimal) -> Option<Decimal> {
    a.checked_div(b)
}
