//! The log: a set of entries by identity. Merging is set union. Refuses to interpret them, but for removals: what was said of a child that was
//! removed is emptied wherever it stands and whenever it comes.

use std::collections::BTreeMap;

use super::entry::{Entry, Fact};
use super::ids::{Clock, EntryId};
use super::removed::{Removed, checks, is_nobodys, unsaid};

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

/// Invariant: one identity, one content. The one that was here first stands; another is set aside and shown. One that was emptied
/// beats any other, and no entry says anything of those that the removals in it name.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Log {
    entries: BTreeMap<EntryId, Entry>,
    aside: Vec<Entry>,
    removed: Removed,
    /// Balls and what the coach saw of each, as far as it is said here, in order.
    checks: Vec<(EntryId, EntryId)>,
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
        if self.removed.learn(&entry) {
            self.empty();
        }
        let mut entry = self.removed.emptied(entry);
        if checks(&entry).and_then(|ball| self.entries.get(&ball)).is_some_and(is_nobodys) {
            entry = unsaid(&entry);
        }
        let Some(here) = self.entries.get(&entry.id) else {
            self.insert(entry);
            return Arrival::New;
        };
        if *here == entry {
            return Arrival::Here;
        }
        match (place(here), place(&entry)) {
            (None, None) => {
                if !self.aside.contains(&entry) {
                    self.aside.push(entry);
                }
                return Arrival::SetAside;
            }
            // Two that were emptied differ by damage alone: the same of them stands everywhere.
            (Some(here), Some(other)) if here <= other => {}
            (Some(_), None) => {}
            (_, Some(_)) => {
                let ball = checks(here);
                self.aside.retain(|aside| aside.id != entry.id);
                if let Some(at) = ball.and_then(|ball| self.checks.binary_search(&(ball, entry.id)).ok()) {
                    self.checks.remove(at);
                }
                self.entries.insert(entry.id, entry);
            }
        }
        Arrival::Here
    }

    /// Learns of removals that are told elsewhere. Those whose content goes by it.
    pub fn know(&mut self, removed: &Removed) -> Vec<EntryId> {
        if self.removed.join(removed) { self.empty() } else { Vec::new() }
    }

    /// What is removed, as far as this log knows.
    pub fn removed(&self) -> &Removed {
        &self.removed
    }

    fn insert(&mut self, entry: Entry) {
        if let Some(ball) = checks(&entry)
            && let Err(at) = self.checks.binary_search(&(ball, entry.id))
        {
            self.checks.insert(at, (ball, entry.id));
        }
        let nobodys = is_nobodys(&entry).then_some(entry.id);
        self.entries.insert(entry.id, entry);
        if let Some(ball) = nobodys {
            self.unsay_checks_of(ball);
        }
    }

    /// A removed child has many balls, and all of them come one by one: only the checks of this one are looked at.
    fn unsay_checks_of(&mut self, ball: EntryId) {
        let from = self.checks.partition_point(|(of, _)| *of < ball);
        let n = self.checks[from..].iter().take_while(|(of, _)| *of == ball).count();
        for (_, id) in self.checks.drain(from..from + n) {
            if let Some(check) = self.entries.get_mut(&id) {
                *check = unsaid(check);
            }
        }
    }

    /// Of balls that are nobody's any more. Those that go by it.
    fn unsay_checks(&mut self) -> Vec<EntryId> {
        let is_nobodys = |ball: &EntryId| self.entries.get(ball).is_some_and(is_nobodys);
        let (gone, stay): (Vec<_>, Vec<_>) = self.checks.iter().copied().partition(|(ball, _)| is_nobodys(ball));
        self.checks = stay;
        let gone: Vec<EntryId> = gone.into_iter().map(|(_, check)| check).collect();
        for id in &gone {
            if let Some(check) = self.entries.get_mut(id) {
                *check = unsaid(check);
            }
        }
        gone
    }

    fn empty(&mut self) -> Vec<EntryId> {
        let mut changed = Vec::new();
        for entry in self.entries.values_mut().filter(|entry| self.removed.concerns(entry)) {
            *entry = self.removed.emptied(entry.clone());
            changed.push(entry.id);
        }
        changed.extend(self.unsay_checks());
        std::mem::take(&mut self.aside).into_iter().for_each(|aside| {
            self.add(aside);
        });
        changed
    }

    pub fn get(&self, id: EntryId) -> Option<&Entry> {
        self.entries.get(&id)
    }

    /// In the order of identity.
    pub fn iter(&self) -> impl Iterator<Item = &Entry> + Clone {
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
        self.know(&other.removed);
        for entry in other.entries.into_values().chain(other.aside) {
            self.add(entry);
        }
        self
    }
}

/// What an emptied entry still says; `None` for any other.
fn place(entry: &Entry) -> Option<(Option<EntryId>, Option<EntryId>)> {
    match &entry.fact {
        Fact::Emptied { practice, run } => Some((practice.map(|id| id.0), run.map(|id| id.0))),
        _ => None,
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
