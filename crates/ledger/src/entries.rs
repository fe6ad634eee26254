//! What is typed and chosen in the fields of the page.

use std::collections::{BTreeMap, BTreeSet};

/// What is typed and chosen, by the names of the fields, and what the ledger
/// changes in them.
#[derive(Debug, Default)]
pub struct Entries {
    typed: BTreeMap<String, String>,
    changed: BTreeSet<String>,
}

impl Entries {
    /// What stands in the fields.
    pub fn of(typed: impl IntoIterator<Item = (String, String)>) -> Self {
        Self {
            typed: typed.into_iter().collect(),
            changed: BTreeSet::new(),
        }
    }

    /// What stands in a field, without blanks around it; nothing where it is
    /// empty.
    pub fn text(&self, name: &str) -> &str {
        self.typed.get(name).map_or("", |text| text.trim())
    }

    /// What stands in a field, to the letter.
    pub fn exact(&self, name: &str) -> Option<&str> {
        self.typed.get(name).map(String::as_str)
    }

    /// The fields whose name begins so, with what stands in them.
    pub fn under<'a>(&'a self, beginning: &'a str) -> impl Iterator<Item = (&'a str, &'a str)> {
        let fields = self.typed.iter();
        let fields = fields.map(|(name, text)| (name.as_str(), text.as_str()));
        fields.filter(move |(name, _)| name.starts_with(beginning))
    }

    /// Writes into a field.
    pub fn set(&mut self, name: &str, text: &str) {
        if self.exact(name) != Some(text) {
            self.typed.insert(name.to_owned(), text.to_owned());
            self.changed.insert(name.to_owned());
        }
    }

    /// Empties a field.
    pub fn clear(&mut self, name: &str) {
        if self.typed.remove(name).is_some() {
            self.changed.insert(name.to_owned());
        }
    }

    /// Empties every field whose name begins so.
    pub fn clear_under(&mut self, beginning: &str) {
        let names: Vec<String> = self
            .typed
            .keys()
            .filter(|name| name.starts_with(beginning))
            .cloned()
            .collect();
        for name in names {
            self.clear(&name);
        }
    }

    /// The fields that were changed here, with what stands in them now; nothing
    /// where they are empty.
    pub fn changes(&self) -> impl Iterator<Item = (&str, Option<&str>)> {
        self.changed
            .iter()
            .map(|name| (name.as_str(), self.exact(name)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_typed_is_no_change_and_what_is_set_is() {
        let typed = [("a.1", " 2,5 "), ("a.2", "x"), ("b", "")];
        let typed = typed.map(|(name, text)| (name.to_owned(), text.to_owned()));
        let mut entries = Entries::of(typed);
        assert_eq!(entries.text("a.1"), "2,5");
        assert_eq!(entries.text("c"), "");
        assert_eq!(entries.changes().count(), 0);
        entries.set("a.2", "x");
        assert_eq!(entries.changes().count(), 0);
        entries.set("b", "y");
        entries.clear_under("a.");
        let changes: Vec<_> = entries.changes().collect();
        assert_eq!(changes, [("a.1", None), ("a.2", None), ("b", Some("y"))]);
    }
}
