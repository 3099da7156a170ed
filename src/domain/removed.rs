//! A child that was removed for good: what goes from which entry. The removal is final and needs no order: it is a union of whom it names, so
//! whatever else arrives, before or after, is emptied in the same way, and an entry that was emptied once stays so. Refuses to delete an
//! entry: identity, clock and stamp stay, so that a copy shows no gap and union stays union.
//!
//! What is the child's alone says nothing any more (`Fact::Emptied`). Where others stand in the same entry the child goes and they stay. A
//! contact becomes nobody's and counts nothing, as if it were taken back, but its identity and round stay: a correction that gave it to another
//! child still does. So scores of balls are those of the children who remain; were they kept as they were played, what the child did could be
//! told from the difference. A rally stays, with one fewer on the court. An effort stays as nobody's. What the coach saw of such a ball
//! (`Fact::BallChecked`) names the ball alone: it goes where the two stand together, in a log or a list.

use std::collections::BTreeSet;

use super::entry::{Contact, Correction, Entry, Fact, Lineup, Wishes};
use super::ids::{EntryId, NoteId, PlayerId, PracticeId, RunId};
use super::notes::{NoteAbout, What};
use super::skill::Outcome;
use super::summary::PracticeSummary;

/// Whom and which notes the removals name that are known.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Removed {
    players: BTreeSet<PlayerId>,
    notes: BTreeSet<EntryId>,
}

impl Removed {
    pub fn of<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Removed {
        let mut removed = Removed::default();
        for entry in entries {
            removed.learn(entry);
        }
        removed
    }

    /// Whether this entry tells of a removal that wasn't known.
    pub fn learn(&mut self, entry: &Entry) -> bool {
        let Fact::ChildRemoved { players, notes } = &entry.fact else { return false };
        let before = (self.players.len(), self.notes.len());
        self.players.extend(players);
        self.notes.extend(notes.iter().map(|note| note.0));
        before != (self.players.len(), self.notes.len())
    }

    /// Whether the other one tells of a removal that wasn't known.
    pub fn join(&mut self, other: &Removed) -> bool {
        let before = (self.players.len(), self.notes.len());
        self.players.extend(&other.players);
        self.notes.extend(&other.notes);
        before != (self.players.len(), self.notes.len())
    }

    /// These go as well.
    pub fn also(&mut self, notes: impl IntoIterator<Item = NoteId>) {
        self.notes.extend(notes.into_iter().map(|note| note.0));
    }

    pub fn is_empty(&self) -> bool {
        self.players.is_empty() && self.notes.is_empty()
    }

    pub fn has(&self, player: PlayerId) -> bool {
        self.players.contains(&player)
    }

    pub fn has_note(&self, note: NoteId) -> bool {
        self.notes.contains(&note.0)
    }

    /// A fact that removes what is removed here and not there.
    pub fn beyond(&self, there: &Removed) -> Option<Fact> {
        let players: Vec<PlayerId> = self.players.difference(&there.players).copied().collect();
        let notes: Vec<NoteId> = self.notes.difference(&there.notes).map(|id| NoteId(*id)).collect();
        (!players.is_empty() || !notes.is_empty()).then_some(Fact::ChildRemoved { players, notes })
    }

    /// Whether anything of the entry goes.
    pub fn concerns(&self, entry: &Entry) -> bool {
        !self.is_empty() && self.emptied(entry.clone()) != *entry
    }

    /// The entry without anything of those removed. Twice is as once, and one removal after another as both together.
    pub fn emptied(&self, mut entry: Entry) -> Entry {
        if self.is_empty() {
            return entry;
        }
        if entry.extra.as_ref().is_some_and(|extra| self.named_in(extra)) {
            entry.extra = None;
        }
        if self.is_theirs(&entry) {
            return unsaid(&entry);
        }
        match &mut entry.fact {
            Fact::RunStarted { lineup, .. } | Fact::LineupSet { lineup, .. } => self.leave_lineup(lineup),
            Fact::GroupsMade { groups, .. } => self.leave_groups(groups),
            Fact::WishesChanged { wishes, .. } => self.leave_wishes(wishes),
            Fact::ContactNoted { contact, .. } => self.leave_contact(contact),
            Fact::ContactsCorrected { changes, .. } => changes.iter_mut().for_each(|change| self.leave_change(change)),
            Fact::RallyNoted { rally, .. } => {
                rally.near.retain(|player| !self.has(*player));
                rally.far.retain(|player| !self.has(*player));
            }
            Fact::EffortNoted { player, kind, .. } | Fact::EffortCorrected { player, kind, .. } => {
                self.leave_effort(player, kind);
            }
            _ => {}
        }
        entry
    }

    /// The same of a list in which a ball and its check may stand together.
    pub fn emptied_all(&self, entries: Vec<Entry>) -> Vec<Entry> {
        let mut entries: Vec<Entry> = entries.into_iter().map(|entry| self.emptied(entry)).collect();
        let mut nobodys = BTreeSet::new();
        nobodys.extend(entries.iter().filter(|entry| is_nobodys(entry)).map(|entry| entry.id));
        for entry in &mut entries {
            if checks(entry).is_some_and(|ball| nobodys.contains(&ball)) {
                *entry = unsaid(entry);
            }
        }
        entries
    }

    /// Nothing in the entry is anybody else's.
    fn is_theirs(&self, entry: &Entry) -> bool {
        match &entry.fact {
            Fact::PlayerAdded { .. } => self.has(PlayerId(entry.id)),
            Fact::PlayerChanged { player, .. }
            | Fact::PlayerArchived { player, .. }
            | Fact::StyleNoted { player, .. }
            | Fact::StepNoted { player, .. }
            | Fact::PresenceNoted { player, .. }
            | Fact::TurnGiven { player, .. }
            | Fact::CountTold { player, .. } => self.has(*player),
            Fact::QuestionAsked { asked, .. } => self.has(asked.player),
            // Words that are about several may tell of any of them.
            Fact::NoteWritten { note, .. } => self.notes.contains(&entry.id) || self.is_about(&note.about),
            Fact::NoteChanged { note, changed, .. } => self.notes.contains(&note.0) || self.is_about(&changed.about),
            // What it says of the child this version can't tell apart from the rest.
            Fact::Unknown { body, .. } => self.named_in(body),
            _ => false,
        }
    }

    pub fn is_about(&self, about: &NoteAbout) -> bool {
        matches!(about, NoteAbout::Children(players) if players.iter().any(|player| self.has(*player)))
    }

    fn named_in(&self, text: &str) -> bool {
        self.players.iter().any(|player| text.contains(&player.0.to_string()))
    }

    fn leave_lineup(&self, lineup: &mut Lineup) {
        for place in &mut lineup.places {
            place.take_if(|player| self.has(*player));
        }
        lineup.target.take_if(|player| self.has(*player));
        for list in [&mut lineup.waiting, &mut lineup.servers, &mut lineup.getters] {
            list.retain(|player| !self.has(*player));
        }
        self.leave_groups(&mut lineup.groups);
    }

    fn leave_groups(&self, groups: &mut [Vec<PlayerId>]) {
        groups.iter_mut().for_each(|group| group.retain(|player| !self.has(*player)));
    }

    fn leave_wishes(&self, wishes: &mut Wishes) {
        let one_less = |set: &Vec<PlayerId>| set.iter().any(|player| self.has(*player));
        for set in wishes.together.iter_mut().filter(|set| one_less(set)) {
            set.retain(|player| !self.has(*player));
            if set.len() < 2 {
                set.clear();
            }
        }
        wishes.together.retain(|set| !set.is_empty());
        wishes.apart.retain(|pair| !pair.iter().any(|player| self.has(*player)));
        wishes.tagged.retain(|player| !self.has(*player));
    }

    fn leave_contact(&self, contact: &mut Contact) {
        if contact.player.take_if(|player| self.has(*player)).is_some() {
            contact.outcome = Outcome::Removed;
            contact.style = None;
        }
        // The style of a serve that missed is the server's.
        if contact.server.take_if(|server| self.has(*server)).is_some() {
            contact.style = None;
        }
    }

    fn leave_effort(&self, player: &mut Option<PlayerId>, kind: &mut Option<String>) {
        if player.take_if(|player| self.has(*player)).is_some() {
            *kind = None;
        }
    }

    fn leave_change(&self, change: &mut Correction) {
        if change.player.take_if(|player| self.has(*player)).is_some() {
            change.outcome = Outcome::Removed;
        }
    }
}

impl PracticeSummary {
    /// Without what it tells of single children who were removed, until it is made again from what is left.
    pub fn leave(&mut self, removed: &Removed) {
        if removed.is_empty() {
            return;
        }
        let stays = |player: &PlayerId| !removed.has(*player);
        self.away.retain(stays);
        self.in_part.retain(stays);
        for round in &mut self.rounds {
            removed.leave_groups(round);
        }
        let tells = |what: &What| match what {
            What::Note(note) => removed.is_about(&note.about),
            What::Asked(asked) => removed.has(asked.player),
        };
        self.remarks.retain(|remark| !removed.notes.contains(&remark.id) && !tells(&remark.what));
        for run in &mut self.runs {
            run.children.retain(|(player, _)| stays(player));
            run.order.retain(stays);
            run.touches.retain(|(player, _)| stays(player));
            run.lots.retain(|lot| stays(&lot.player));
            run.loads.retain(|load| stays(&load.player));
            run.efforts.retain(|efforts| stays(&efforts.player));
            run.met.served.retain(|served| stays(&served.server) && stays(&served.passer));
            run.met.sides.retain(|sides| sides.first.iter().chain(&sides.second).all(stays));
            if let Some(game) = &mut run.game {
                game.children.retain(|child| stays(&child.player));
                game.noted.retain(|(player, _)| stays(player));
            }
        }
    }
}

/// The ball that an entry is a check of.
pub fn checks(entry: &Entry) -> Option<EntryId> {
    match &entry.fact {
        Fact::BallChecked { contact, .. } => Some(contact.0),
        _ => None,
    }
}

/// A ball that was a removed child's as it was noted. No other is noted so.
pub fn is_nobodys(entry: &Entry) -> bool {
    matches!(&entry.fact, Fact::ContactNoted { contact, .. } if contact.player.is_none() && contact.outcome == Outcome::Removed)
}

/// The entry with nothing in it but where it belongs.
pub fn unsaid(entry: &Entry) -> Entry {
    let (practice, run) = place_of(entry);
    Entry { id: entry.id, clock: entry.clock, at: entry.at, fact: Fact::Emptied { practice, run }, extra: None }
}

/// Where an entry of single children belongs.
fn place_of(entry: &Entry) -> (Option<PracticeId>, Option<RunId>) {
    match &entry.fact {
        Fact::PresenceNoted { practice, .. } => (Some(*practice), None),
        // As notes once did, one may name the run alone.
        Fact::NoteWritten { spot, .. } | Fact::QuestionAsked { spot, .. } => {
            (spot.practice, if spot.practice.is_none() { spot.run } else { None })
        }
        fact => (None, fact.run(entry.id)),
    }
}
