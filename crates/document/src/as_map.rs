//! A sorted list of keys and values, kept as the object with fields that it
//! stands for: for `#[serde(with = "…")]`.
//!
//! The list takes the place of a tree in all that the app carries: there are
//! never more entries than cuts, and each type of tree would cost the app some
//! kilobytes of code for the splitting and joining of its branches.

use core::fmt;
use core::marker::PhantomData;

use litemap::LiteMap;
use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
use serde::{Serialize, Serializer};

/// Writes the entries in the order of their keys.
///
/// # Errors
/// When an entry cannot be written.
pub fn serialize<K: Serialize, V: Serialize, S: Serializer>(
    map: &LiteMap<K, V>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    serializer.collect_map(map.iter())
}

/// Reads entries in any order; of two with one key the later stands.
///
/// # Errors
/// When there is no object, or an entry cannot be read.
pub fn deserialize<'de, K, V, D>(deserializer: D) -> Result<LiteMap<K, V>, D::Error>
where
    K: Deserialize<'de> + Ord,
    V: Deserialize<'de>,
    D: Deserializer<'de>,
{
    deserializer.deserialize_map(Entries(PhantomData))
}

struct Entries<K, V>(PhantomData<(K, V)>);

impl<'de, K: Deserialize<'de> + Ord, V: Deserialize<'de>> Visitor<'de> for Entries<K, V> {
    type Value = LiteMap<K, V>;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("an object")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Self::Value, A::Error> {
        let mut map = LiteMap::new();
        while let Some((key, value)) = entries.next_entry()? {
            map.insert(key, value);
        }
        Ok(map)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Debug, PartialEq, Serialize, serde::Deserialize)]
    struct Kept {
        #[serde(with = "super")]
        map: LiteMap<String, u8>,
    }

    #[test]
    fn a_map_is_an_object_even_when_it_is_empty() {
        let empty = Kept {
            map: LiteMap::new(),
        };
        assert_eq!(serde_json::to_string(&empty).unwrap(), r#"{"map":{}}"#);
        let read: Kept = serde_json::from_str(r#"{"map":{"b":2,"a":1,"b":3}}"#).unwrap();
        assert_eq!(
            serde_json::to_string(&read).unwrap(),
            r#"{"map":{"a":1,"b":3}}"#
        );
        assert!(serde_json::from_str::<Kept>(r#"{"map":[]}"#).is_err());
    }
}
