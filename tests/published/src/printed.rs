//! Figures as a source prints them.

use quantity::Decimal;

/// The number in `text`.
///
/// # Panics
/// When `text` is not a plain number: the check itself is wrong then.
#[track_caller]
pub fn number(text: &str) -> Decimal {
    match Decimal::from_str_exact(text) {
        Ok(number) => number,
        Err(error) => panic!("“{text}” is not a number: {error}"),
    }
}

/// Holds `actual` against a figure as its source prints it: they agree when
/// they differ by at most half a unit of the last printed digit.
///
/// # Panics
/// When they differ by more.
#[track_caller]
pub fn agrees(what: &str, actual: Decimal, printed: &str) {
    let places = number(printed).scale();
    agrees_within(what, actual, printed, Decimal::new(5, places + 1));
}

/// Holds `actual` against a figure that its source rounds more coarsely than
/// it prints; the check says why it takes `tolerance`.
///
/// # Panics
/// When they differ by more than `tolerance`.
#[track_caller]
pub fn agrees_within(what: &str, actual: Decimal, printed: &str, tolerance: Decimal) {
    let difference = (actual - number(printed)).abs();
    assert!(
        difference <= tolerance,
        "{what}: {actual} against {printed}, {difference} apart where {tolerance} is allowed"
    );
}

/// A figure as the printed tables of deviations show it: two places.
pub fn shown(figure: Decimal) -> Decimal {
    figure.round_dp(2)
}
