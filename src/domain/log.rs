//! The log: a set of entries by identity. Merging is set union. Refuses to interpret them.

use std::collections::BTreeMap;

use super::entry::Entry;
use super::ids::{Clock, EntryId};

/// Where an entry stands in time: by clock, ties by identity. The same on every phone, whatever the order of arrival.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Order {
    pub clock: Clock,
    pub id: EntryId,
}

impl Entry {
    pub const fn order(&self) -> Order {
        Order { clock: self.clock, id: self.id }
    }
}

/// Invariant: one identity, one content. The one that was here first stands; another is set aside and shown.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Log {
    entries: BTreeMap<EntryId, Entry>,
    aside: Vec<Entry>,
}

/// What became of an entry offered to the log.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arrival {
    New,
    /// The very same entry is here already.
    Here,
    /// The identity is here with other content: damage or forgery.
    SetAside,
}

impl Log {
    pub fn add(&mut self, entry: Entry) -> Arrival {
        match self.entries.get(&entry.id) {
            None => {
                self.entries.insert(entry.id, entry);
                Arrival::New
            }
            Some(here) if *here == entry => Arrival::Here,
            Some(_) => {
                if !self.aside.contains(&entry) {
                    self.aside.push(entry);
                }
                Arrival::SetAside
            }
        }
    }

    pub fn get(&self, id: EntryId) -> Option<&Entry> {
        self.entries.get(&id)
    }

    /// In the order of identity.
    pub fn iter(&self) -> impl Iterator<Item = &Entry> {
        self.entries.values()
    }

    pub fn len(&self) -> usize {
        self.entries.len()
    }

    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    pub fn aside(&self) -> &[Entry] {
        &self.aside
    }

    /// Set union.
    pub fn union(mut self, other: Log) -> Log {
        for entry in other.entries.into_values().chain(other.aside) {
            self.add(entry);
        }
        self
    }
}

impl FromIterator<Entry> for Log {
    fn from_iter<T: IntoIterator<Item = Entry>>(entries: T) -> Self {
        let mut log = Log::default();
        log.extend(entries);
        log
    }
}

impl Extend<Entry> for Log {
    fn extend<T: IntoIterator<Item = Entry>>(&mut self, entries: T) {
        for entry in entries {
            self.add(entry);
        }
    }
}
