//! What a browser keeps for the ledger: texts by their keys.

use std::collections::{BTreeMap, BTreeSet};

/// What stands before every key in the browser's storage.
pub const PREFIX: &str = "sideworth/scale/";

/// The shop's own yields, as [`carcass::Catalogue::lay_own`] takes them: written
/// here, read by the page at its start.
pub const YIELDS: &str = "yields";

/// So many bytes are what a browser surely gives a page, less a third: what
/// stands in its storage beside the ledger needs some too. Common to browsers
/// today are about 5 MB for each origin (WHATWG Storage leaves it to them).
pub(crate) const ROOM: usize = 3_300_000;

/// Texts by their keys, and which of them changed.
#[derive(Default)]
pub(crate) struct Kept {
    items: BTreeMap<String, String>,
    changed: BTreeSet<String>,
}

impl Kept {
    /// What a browser has kept.
    pub(crate) fn of(items: impl IntoIterator<Item = (String, String)>) -> Self {
        Self {
            items: items.into_iter().collect(),
            changed: BTreeSet::new(),
        }
    }

    /// The text under a key.
    pub(crate) fn text(&self, key: &str) -> Option<&str> {
        self.items.get(key).map(String::as_str)
    }

    /// Every text whose key begins so, with the rest of the key.
    pub(crate) fn under<'a>(
        &'a self,
        beginning: &'a str,
    ) -> impl Iterator<Item = (&'a str, &'a str)> {
        self.items
            .iter()
            .filter_map(move |(key, text)| Some((key.strip_prefix(beginning)?, text.as_str())))
    }

    /// Keeps a text from now on.
    pub(crate) fn put(&mut self, key: &str, text: String) {
        if self.items.get(key) != Some(&text) {
            self.changed.insert(key.to_owned());
            self.items.insert(key.to_owned(), text);
        }
    }

    /// Keeps nothing under a key from now on.
    pub(crate) fn remove(&mut self, key: &str) {
        if self.items.remove(key).is_some() {
            self.changed.insert(key.to_owned());
        }
    }

    /// Keeps nothing at all from now on.
    pub(crate) fn clear(&mut self) {
        let items = core::mem::take(&mut self.items);
        self.changed.extend(items.into_keys());
    }

    /// What changed since it was last asked, in the order of the keys; then what
    /// was removed, with nothing. Where the writing is cut off, nothing is gone
    /// whose successor is not there.
    pub(crate) fn take_changes(&mut self) -> Vec<(String, Option<String>)> {
        let mut changes: Vec<_> = core::mem::take(&mut self.changed)
            .into_iter()
            .map(|key| {
                let text = self.items.get(&key).cloned();
                (key, text)
            })
            .collect();
        changes.sort_by_key(|(_, text)| text.is_none());
        changes
    }

    /// All of it.
    pub(crate) fn all(&self) -> impl Iterator<Item = (&str, &str)> {
        self.items
            .iter()
            .map(|(key, text)| (key.as_str(), text.as_str()))
    }

    /// How many bytes it is, its keys counted.
    pub(crate) fn bytes(&self) -> usize {
        self.all()
            .map(|(key, text)| PREFIX.len() + key.len() + text.len())
            .sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_changed_is_told_and_once() {
        let mut kept = Kept::of([("a".to_owned(), "1".to_owned())]);
        assert!(kept.take_changes().is_empty());
        kept.put("a", "1".to_owned());
        assert!(kept.take_changes().is_empty());
        kept.put("a", "2".to_owned());
        kept.put("b", "3".to_owned());
        kept.remove("c");
        let told = kept.take_changes();
        assert_eq!(
            told,
            [
                ("a".to_owned(), Some("2".to_owned())),
                ("b".to_owned(), Some("3".to_owned()))
            ]
        );
        kept.remove("a");
        kept.put("c", "4".to_owned());
        assert_eq!(
            kept.take_changes(),
            [
                ("c".to_owned(), Some("4".to_owned())),
                ("a".to_owned(), None)
            ]
        );
        kept.remove("c");
        kept.take_changes();
        kept.clear();
        assert_eq!(kept.take_changes(), [("b".to_owned(), None)]);
        assert_eq!(kept.bytes(), 0);
    }
}
