//! Browser tests; see `tests/`.
