//! What the scale's place says of own yields, suppliers, records and bought-in
//! pieces. The worker says it.

use super::Row;

/// The rows, by where they are said.
pub(super) const ROWS: &[Row] = &[];
