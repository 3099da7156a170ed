//! What was taken back and corrected, resolved: the highest (revision, clock, series) wins. Knows no totals.

use std::collections::HashMap;

use super::super::entry::{Contact, Correction, Entry, Fact, Side};
use super::super::ids::{ContactId, EffortId, EntryId, PlayerId, RallyId, Revision};
use super::super::log::Order;
use super::super::skill::Feed;

/// How corrections compete. Invariant: the highest stands, so folding doesn't depend on arrival.
pub type Rank = (Revision, Order);

/// Whose effort it was, and of which kind, as far as anyone said.
pub type EffortReading = (Option<PlayerId>, Option<String>);

/// The winning amendments among some entries.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Amended {
    taken: HashMap<EntryId, (Rank, bool)>,
    contacts: HashMap<ContactId, (Rank, Correction)>,
    efforts: HashMap<EffortId, (Rank, EffortReading)>,
    rallies: HashMap<RallyId, (Rank, Side)>,
}

/// Keeps the higher of the two.
pub fn keep_higher<V>(slot: &mut Option<(Rank, V)>, rank: Rank, value: V) {
    if slot.as_ref().is_none_or(|(had, _)| rank > *had) {
        *slot = Some((rank, value));
    }
}

impl Amended {
    /// Resolves takings-back first, then the corrections that still stand.
    pub fn resolve<'a>(entries: impl Iterator<Item = &'a Entry> + Clone) -> Self {
        let mut amended = Amended::default();
        for entry in entries.clone() {
            if let Fact::EntryTakenBack { target, revision, back, .. } = &entry.fact {
                insert(&mut amended.taken, *target, (*revision, entry.order()), *back);
            }
        }
        for entry in entries {
            if amended.is_taken_back(entry.id) {
                continue;
            }
            match &entry.fact {
                Fact::ContactsCorrected { changes, .. } => {
                    for change in changes {
                        let rank = (change.revision, entry.order());
                        insert(&mut amended.contacts, change.contact, rank, change.clone());
                    }
                }
                Fact::EffortCorrected { effort, revision, player, kind, .. } => {
                    insert(&mut amended.efforts, *effort, (*revision, entry.order()), (*player, kind.clone()));
                }
                Fact::RallyCorrected { rally, revision, won, .. } => {
                    insert(&mut amended.rallies, *rally, (*revision, entry.order()), *won);
                }
                _ => {}
            }
        }
        amended
    }

    pub fn is_taken_back(&self, id: EntryId) -> bool {
        self.taken.get(&id).is_some_and(|(_, back)| *back)
    }

    /// When the taking-back that stands was noted.
    pub fn taken_at(&self, id: EntryId) -> Option<Order> {
        self.taken.get(&id).filter(|(_, back)| *back).map(|((_, order), _)| *order)
    }

    /// What the correction that stands, and the taking or putting back that stands, rank by.
    pub fn ranks(&self, id: ContactId) -> (Option<Rank>, Option<Rank>) {
        let (corrected, taken) = (self.contacts.get(&id), self.taken.get(&id.0));
        (corrected.map(|(rank, _)| *rank), taken.map(|(rank, _)| *rank))
    }

    pub fn contact(&self, id: ContactId) -> Option<&Correction> {
        self.contacts.get(&id).map(|(_, c)| c)
    }

    /// A contact with its correction: who, what came of it, which step; the other facts stay as they were.
    pub fn read(&self, id: ContactId, contact: &Contact) -> Contact {
        let Some(fix) = self.contact(id) else { return contact.clone() };
        Contact {
            player: fix.player,
            outcome: fix.outcome,
            feed: Feed { step: fix.step, ..contact.feed },
            ..contact.clone()
        }
    }

    pub fn effort(&self, id: EffortId) -> Option<&EffortReading> {
        self.efforts.get(&id).map(|(_, e)| e)
    }

    /// Who won a rally after all, where that was corrected.
    pub fn rally(&self, id: RallyId) -> Option<Side> {
        self.rallies.get(&id).map(|(_, won)| *won)
    }

    pub fn next_rally_revision(&self, id: RallyId) -> Revision {
        next(self.rallies.get(&id).map(|(rank, _)| rank.0))
    }

    /// The revision that the next taking-back of this entry has to carry.
    pub fn next_take_back(&self, id: EntryId) -> Revision {
        next(self.taken.get(&id).map(|(rank, _)| rank.0))
    }

    pub fn next_contact_revision(&self, id: ContactId) -> Revision {
        next(self.contacts.get(&id).map(|(rank, _)| rank.0))
    }

    pub fn next_effort_revision(&self, id: EffortId) -> Revision {
        next(self.efforts.get(&id).map(|(rank, _)| rank.0))
    }
}

fn next(had: Option<Revision>) -> Revision {
    Revision(had.map_or(1, |r| r.0.saturating_add(1)))
}

fn insert<K: std::hash::Hash + Eq, V>(map: &mut HashMap<K, (Rank, V)>, key: K, rank: Rank, value: V) {
    match map.entry(key) {
        std::collections::hash_map::Entry::Occupied(mut had) if rank > had.get().0 => {
            had.insert((rank, value));
        }
        std::collections::hash_map::Entry::Occupied(_) => {}
        std::collections::hash_map::Entry::Vacant(free) => {
            free.insert((rank, value));
        }
    }
}
