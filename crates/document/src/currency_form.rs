//! A currency as its code (ISO 4217), where it is told.

use quantity::Currency;
use serde::{Deserialize, Deserializer, Serializer, de};

#[expect(
    clippy::ref_option,
    clippy::trivially_copy_pass_by_ref,
    reason = "the writer hands over a reference to the field"
)]
pub(crate) fn serialize<S: Serializer>(
    currency: &Option<Currency>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    match currency {
        Some(currency) => serializer.serialize_str(&currency.code()),
        None => serializer.serialize_none(),
    }
}

pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
    deserializer: D,
) -> Result<Option<Currency>, D::Error> {
    let code = String::deserialize(deserializer)?;
    code.parse()
        .map(Some)
        .map_err(|error| de::Error::custom(format_args!("“{code}”: {error}")))
}
