//! The time of day, for the page and its worker alike.

/// Milliseconds since 1970 began in UTC.
pub fn now() -> u64 {
    // Whole and not negative: browsers count so.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "see above"
    )]
    let now = js_sys::Date::now() as u64;
    now
}
