//! All saved plans, in a store that may refuse, fill up, or be changed by
//! another tab.

use crate::saved::{self, Saved, Unreadable};
use wording::text;

/// What the key of every saved plan begins with.
pub const KEY: &str = "sideworth/saved/";

/// Where the plans are: keys with texts, as browsers have it.
pub trait Store {
    /// Every key.
    fn keys(&self) -> Vec<String>;

    /// The text under a key.
    fn read(&self, key: &str) -> Option<String>;

    /// Puts a text under a key.
    ///
    /// # Errors
    /// When there is no room, or nothing may be stored.
    fn write(&self, key: &str, text: &str) -> Result<(), Refused>;

    /// Takes a key and its text away.
    fn remove(&self, key: &str);
}

/// The store did not take it, or does not give back what it took.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Refused;

/// What the plans are listed by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Order {
    /// The last changed first.
    #[default]
    Newest,
    /// By name.
    Name,
}

/// What became of a plan that was put on the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Put {
    /// It is there under this key.
    Done(String),
    /// Another tab had changed it meanwhile: that stays, and this one is kept
    /// beside it under this key and a name of its own.
    Both(String),
}

/// All saved plans as they were when they were fetched.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Shelf {
    /// The plans with their keys.
    pub plans: Vec<(String, Saved)>,
    /// The keys of what cannot be read. It stays where it is.
    pub unreadable: Vec<(String, Unreadable)>,
}

impl Shelf {
    /// All that a store holds.
    pub fn fetch(store: &impl Store) -> Self {
        let mut shelf = Self::default();
        for key in store.keys() {
            let Some(text) = key.strip_prefix(KEY).and_then(|_| store.read(&key)) else {
                continue;
            };
            match Saved::of_text(&text) {
                Ok(saved) => shelf.plans.push((key, saved)),
                Err(why) => shelf.unreadable.push((key, why)),
            }
        }
        shelf
    }

    /// The plans whose names hold all words of `sought`, in order. `fold` makes
    /// large letters small: a browser has its own tables for that.
    pub fn listed(
        &self,
        sought: &str,
        order: Order,
        fold: impl Fn(&str) -> String,
    ) -> Vec<&(String, Saved)> {
        let sought = fold(sought);
        let mut found: Vec<_> = self
            .plans
            .iter()
            .map(|plan| (fold(&plan.1.name), plan))
            .filter(|(name, _)| sought.split(' ').all(|word| name.contains(word)))
            .collect();
        found.sort_by(|(one, (one_key, first)), (other, (other_key, second))| {
            let by_order = match order {
                Order::Newest => second.changed.cmp(&first.changed),
                Order::Name => one.cmp(other),
            };
            by_order.then_with(|| one_key.cmp(other_key))
        });
        found.into_iter().map(|(_, plan)| plan).collect()
    }

    /// The plan of a name, and its key.
    pub fn named(&self, name: &str) -> Option<&(String, Saved)> {
        let name = saved::tidy(name)?;
        self.plans.iter().find(|(_, saved)| saved.name == name)
    }

    /// A name that no plan has: `name`, or that with a number after it.
    pub fn free_name(&self, name: &str) -> String {
        let name = saved::tidy(name).unwrap_or_else(|| text!("Side").to_owned());
        if self.named(&name).is_none() {
            return name;
        }
        let stem: String = name.chars().take(saved::LONGEST_NAME - 6).collect();
        // One more than there are plans: one of these is free.
        (2..=self.plans.len() + 2)
            .map(|number| format!("{} {number}", stem.trim_end()))
            .find(|name| self.named(name).is_none())
            .unwrap_or(name)
    }
}

/// Puts a new plan on the shelf.
///
/// # Errors
/// When the store refuses.
pub fn add(store: &impl Store, saved: &Saved) -> Result<String, Refused> {
    let key = (0..=store.keys().len())
        .map(|number| format!("{KEY}{:x}-{number}", saved.changed))
        .find(|key| store.read(key).is_none())
        .ok_or(Refused)?;
    write(store, &key, saved)?;
    Ok(key)
}

/// Puts a plan in the place of the one under `key`, whose revision it bears as
/// it was when it was fetched. A plan that was taken away meanwhile comes back.
///
/// # Errors
/// When the store refuses; what was there before is there still.
pub fn replace(store: &impl Store, key: &str, plan: &Saved) -> Result<Put, Refused> {
    let is_unchanged = store.read(key).is_none_or(|text| {
        Saved::of_text(&text).is_ok_and(|there| there.revision == plan.revision)
    });
    if is_unchanged {
        write(store, key, &next(plan))?;
        return Ok(Put::Done(key.to_owned()));
    }
    let beside = Saved {
        name: Shelf::fetch(store).free_name(&plan.name),
        ..plan.clone()
    };
    add(store, &beside).map(Put::Both)
}

fn next(plan: &Saved) -> Saved {
    Saved {
        revision: plan.revision.wrapping_add(1),
        ..plan.clone()
    }
}

/// Writes, and reads back what was written.
fn write(store: &impl Store, key: &str, saved: &Saved) -> Result<(), Refused> {
    let before = store.read(key);
    let text = saved.to_text();
    let written = store.write(key, &text);
    if written.is_ok() && store.read(key).as_deref() == Some(text.as_str()) {
        return Ok(());
    }
    // A store that took half of it gets back what it had, as far as it will.
    match before {
        Some(before) => {
            let _ = store.write(key, &before);
        }
        None => store.remove(key),
    }
    Err(Refused)
}

/// Takes a plan off the shelf. [`replace`] with the same key brings it back.
pub fn remove(store: &impl Store, key: &str) {
    store.remove(key);
}

#[cfg(test)]
mod tests {
    use std::cell::{Cell, RefCell};
    use std::collections::BTreeMap;

    use draft::{Draft, Field};
    use proptest::prelude::*;

    use super::*;

    /// A store with so much room, in bytes.
    struct Room {
        texts: RefCell<BTreeMap<String, String>>,
        bytes: Cell<usize>,
    }

    impl Room {
        fn of(bytes: usize) -> Self {
            Self {
                texts: RefCell::default(),
                bytes: Cell::new(bytes),
            }
        }
    }

    impl Store for Room {
        fn keys(&self) -> Vec<String> {
            self.texts.borrow().keys().cloned().collect()
        }

        fn read(&self, key: &str) -> Option<String> {
            self.texts.borrow().get(key).cloned()
        }

        fn write(&self, key: &str, text: &str) -> Result<(), Refused> {
            let mut texts = self.texts.borrow_mut();
            let others = texts.iter().filter(|(other, _)| *other != key);
            let used: usize = others.map(|(_, text)| text.len()).sum();
            if used + text.len() > self.bytes.get() {
                return Err(Refused);
            }
            texts.insert(key.to_owned(), text.to_owned());
            Ok(())
        }

        fn remove(&self, key: &str) {
            self.texts.borrow_mut().remove(key);
        }
    }

    fn side(name: &str, weight: &str, changed: u64) -> Saved {
        let mut draft = Draft::default();
        draft.type_into(Field::Weight, weight.to_owned());
        Saved {
            name: name.to_owned(),
            changed,
            revision: 0,
            draft,
        }
    }

    #[test]
    fn what_is_put_there_is_there() {
        let store = Room::of(100_000);
        add(&store, &side("Farm B", "170", 5)).expect("room");
        add(&store, &side("farm a", "180", 5)).expect("room");
        add(&store, &side("Yard", "190", 9)).expect("room");
        let shelf = Shelf::fetch(&store);
        let names = |sought, order| -> Vec<String> {
            let listed = shelf.listed(sought, order, str::to_lowercase);
            listed.iter().map(|(_, saved)| saved.name.clone()).collect()
        };
        assert_eq!(names("", Order::Newest)[0], "Yard");
        assert_eq!(names("", Order::Name), ["farm a", "Farm B", "Yard"]);
        assert_eq!(names("B far", Order::Name), ["Farm B"]);
        assert_eq!(names("goat", Order::Name), Vec::<String>::new());
    }

    #[test]
    fn a_name_is_given_once() {
        let store = Room::of(100_000);
        add(&store, &side("Farm", "170", 5)).expect("room");
        add(&store, &side("Farm 2", "170", 6)).expect("room");
        let shelf = Shelf::fetch(&store);
        assert_eq!(shelf.free_name(" Farm "), "Farm 3");
        assert_eq!(shelf.free_name("Yard"), "Yard");
        assert_eq!(shelf.free_name("  "), "Side");
        assert_eq!(
            shelf.named(" Farm\n2").map(|(_, saved)| saved.changed),
            Some(6)
        );
    }

    #[test]
    fn what_another_tab_changed_is_kept_beside() {
        let store = Room::of(100_000);
        let key = add(&store, &side("Farm", "170", 5)).expect("room");
        let here = Shelf::fetch(&store).plans[0].1.clone();
        let there = side("Farm", "199", 7);
        assert_eq!(replace(&store, &key, &there), Ok(Put::Done(key.clone())));
        let mut mine = here;
        mine.draft.type_into(Field::Weight, "155".to_owned());
        let put = replace(&store, &key, &mine).expect("room");
        let Put::Both(other) = put else {
            panic!("{put:?}")
        };
        let shelf = Shelf::fetch(&store);
        let weight = |key: &str| {
            let (_, saved) = shelf.plans.iter().find(|(found, _)| found == key)?;
            Some((saved.name.clone(), saved.draft.entry(&Field::Weight).text))
        };
        assert_eq!(weight(&key), Some(("Farm".to_owned(), "199".to_owned())));
        assert_eq!(
            weight(&other),
            Some(("Farm 2".to_owned(), "155".to_owned()))
        );
    }

    #[test]
    fn what_was_taken_away_comes_back() {
        let store = Room::of(100_000);
        let key = add(&store, &side("Farm", "170", 5)).expect("room");
        let before = Shelf::fetch(&store).plans[0].1.clone();
        remove(&store, &key);
        assert_eq!(Shelf::fetch(&store), Shelf::default());
        assert_eq!(replace(&store, &key, &before), Ok(Put::Done(key)));
        assert_eq!(Shelf::fetch(&store).plans[0].1.draft, before.draft);
    }

    #[test]
    fn a_full_store_refuses_and_keeps_what_it_has() {
        let store = Room::of(100_000);
        let key = add(&store, &side("Farm", "170", 5)).expect("room");
        store.bytes.set(store.read(&key).expect("a text").len());
        let before = Shelf::fetch(&store);
        assert_eq!(add(&store, &side("Yard", "180", 6)), Err(Refused));
        let longer = side(&"Farm ".repeat(12), "170", 5);
        assert_eq!(replace(&store, &key, &longer), Err(Refused));
        assert_eq!(Shelf::fetch(&store), before);
    }

    #[test]
    fn what_cannot_be_read_is_reported_and_left() {
        let store = Room::of(100_000);
        let key = add(&store, &side("Farm", "170", 5)).expect("room");
        let newer = store
            .read(&key)
            .expect("a text")
            .replace("saved.version=1", "saved.version=9");
        store.write("sideworth/saved/a", &newer).expect("room");
        store.write("sideworth/saved/b", "junk").expect("room");
        store.write("another/app", "junk").expect("room");
        let shelf = Shelf::fetch(&store);
        assert_eq!(shelf.plans.len(), 1);
        assert_eq!(
            shelf.unreadable,
            [
                ("sideworth/saved/a".to_owned(), Unreadable::Newer),
                ("sideworth/saved/b".to_owned(), Unreadable::Damaged)
            ]
        );
        assert_eq!(
            replace(&store, "sideworth/saved/a", &side("Farm", "1", 1))
                .map(|put| matches!(put, Put::Both(_))),
            Ok(true)
        );
        assert_eq!(store.read("sideworth/saved/a"), Some(newer));
    }

    proptest! {
        /// Two tabs save in turn, each from what it fetched last: no weight that
        /// was said to be saved is lost unless the same tab saved over it.
        #[test]
        fn two_tabs_lose_nothing(turns in prop::collection::vec((any::<bool>(), any::<bool>()), 1..12)) {
            let store = Room::of(1_000_000);
            let key = add(&store, &side("Farm", "1000", 1)).expect("room");
            let mut seen = [Shelf::fetch(&store), Shelf::fetch(&store)];
            for (turn, (tab, looks_first)) in turns.into_iter().enumerate() {
                let tab = usize::from(tab);
                if looks_first {
                    seen[tab] = Shelf::fetch(&store);
                }
                let weight = turn.to_string();
                let weights_before: Vec<String> = Shelf::fetch(&store)
                    .plans
                    .iter()
                    .map(|(_, saved)| saved.draft.entry(&Field::Weight).text)
                    .collect();
                let (_, known) = seen[tab].plans.iter().find(|(found, _)| *found == key).expect("it is there").clone();
                let replaced = known.draft.entry(&Field::Weight).text;
                let mine = Saved { revision: known.revision, ..side("Farm", &weight, 2) };
                let put = replace(&store, &key, &mine).expect("room");
                seen[tab] = Shelf::fetch(&store);
                let weights: Vec<String> = seen[tab]
                    .plans
                    .iter()
                    .map(|(_, saved)| saved.draft.entry(&Field::Weight).text)
                    .collect();
                prop_assert!(weights.contains(&weight));
                for before in weights_before {
                    let may_go = matches!(put, Put::Done(_)) && before == replaced;
                    prop_assert!(may_go || weights.contains(&before));
                }
            }
        }
    }
}
