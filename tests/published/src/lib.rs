//! Published checks; see `tests/`.
