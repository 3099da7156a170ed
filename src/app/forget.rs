//! Those removed for good taken out of what this page has in memory: the logs and what is folded of them, what is drafted, a file that is
//! looked at. What lies stored is `update::removal`'s.

use super::model::{Drafts, GroupsDraft, Model};
use super::named::{Named, name_in, note_in};
use super::notes::{Ask, NotesDraft, Pad, Subject, Typing};
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{NoteId, PlayerId};
use crate::domain::log::Log;
use crate::domain::notes::NoteAbout;
use crate::domain::removed::Removed;
use crate::domain::replay::base::Base;
use crate::wire::record;

impl Model {
    /// Whoever tells of it: this phone's log and what was accepted learn of each other's. Whether there was anything new, and all was folded
    /// again.
    pub fn forget(&mut self, removed: &Removed) -> bool {
        let mut all = removed.clone();
        all.join(self.own.removed());
        all.join(self.theirs.removed());
        let grew = *self.own.removed() != all;
        if !grew && *self.theirs.removed() == all {
            return false;
        }
        if grew {
            self.remember_called(&all);
            // A note that was once about the child goes whole, whoever it was given to since.
            let said = self.own.iter().chain(self.theirs.iter()).filter_map(note_in);
            let about: Vec<NoteId> = said.filter(|(_, note)| all.is_about(&note.about)).map(|(id, _)| id).collect();
            all.also(about);
            let names = self.own.iter().filter(|entry| names_one_of(entry, &|player| all.has(player)));
            self.held.extend(names.map(|entry| entry.id).filter(|id| self.loose.contains(id)));
        }
        let changed = self.own.know(&all);
        self.stale.extend(changed.into_iter().filter(|id| self.loose.contains(id) && !self.held.contains(id)));
        self.theirs.know(&all);
        if grew {
            self.packed.values_mut().for_each(|packed| packed.summary.leave(&all));
            self.weeks.forget();
            self.drafts.forget(&all, &Named::of_keys(&self.settings.called));
            // What was said of it was said as the squad was.
            self.copy.offered = None;
            if self.copy.looking.take().is_some() {
                (self.copy.reading, self.copy.dropped) = (None, true);
            }
        }
        self.fold_all();
        true
    }

    /// These, by the words that nobody else is called by.
    pub fn called(&self, is_it: &dyn Fn(PlayerId) -> bool) -> Named {
        called_in(&self.base, &mut self.own.iter().chain(self.theirs.iter()), is_it)
    }

    /// At a start, before those removed are known: what they are called as it lies stored, as long as the rest may not have been gone through.
    /// The small store may be behind, and then its words are lost. These are the children that are still named so.
    pub fn remember_stored(&mut self, own: &[&Entry]) -> Vec<PlayerId> {
        let removals = own.iter().copied().filter(|entry| matches!(entry.fact, Fact::ChildRemoved { .. }));
        let through = removals.clone().filter(|entry| self.settings.emptied.contains(&entry.id.to_string()));
        let removed = Removed::of(removals.clone());
        let players = match removed.beyond(&Removed::of(through)) {
            Some(Fact::ChildRemoved { players, .. }) if !players.is_empty() => players,
            _ => return Vec::new(),
        };
        // Another's word may be the child's own as well, so the squad is read as it was.
        let kept = self.accepted_as_kept();
        let others = own.iter().copied().chain(&kept).filter(|entry| !matches!(entry.fact, Fact::ChildRemoved { .. }));
        let stored = Log::from_iter(others.cloned());
        let base = Base::fold(stored.iter());
        let same = base.same();
        let is_it = |player: PlayerId| players.contains(&player) && removed.has(same.of(player));
        let named = called_in(&base, &mut stored.iter(), &is_it);
        self.remember(&named);
        players
    }

    /// While the names of those who go are known. A child that stays under another of its identities keeps its name.
    fn remember_called(&mut self, removed: &Removed) {
        // In memory it may be emptied already.
        let kept = self.accepted_as_kept();
        let same = self.base.same();
        let is_it = |player: PlayerId| removed.has(player) && removed.has(same.of(player));
        let named = called_in(&self.base, &mut self.own.iter().chain(&kept), &is_it);
        self.remember(&named);
    }

    /// What was accepted and belongs to no practice, as it lies stored.
    fn accepted_as_kept(&self) -> Vec<Entry> {
        let records = self.parcels.iter().filter(|parcel| parcel.note.accepted).flat_map(|parcel| &parcel.note.base);
        records.filter_map(|text| record::decode(text).ok()).collect()
    }

    fn remember(&mut self, named: &Named) {
        for key in named.keys() {
            if !self.settings.called.contains(key) {
                self.settings.called.push(key.clone());
            }
        }
    }
}

/// Whether an entry gives a name to one of these.
pub fn names_one_of(entry: &Entry, is_it: &dyn Fn(PlayerId) -> bool) -> bool {
    name_in(entry).is_some_and(|(player, _)| is_it(player))
}

fn called_in(base: &Base, entries: &mut dyn Iterator<Item = &Entry>, is_it: &dyn Fn(PlayerId) -> bool) -> Named {
    let once: Vec<String> =
        entries.filter_map(name_in).filter(|(player, _)| is_it(*player)).map(|(_, name)| name.clone()).collect();
    Named::alone(base, &once, is_it)
}

impl Drafts {
    fn forget(&mut self, removed: &Removed, named: &Named) {
        // Groups that aren't played yet may hold them.
        self.groups = GroupsDraft::default();
        self.child.take_if(|draft| removed.has(draft.player));
        self.removal.take_if(|player| removed.has(*player));
        if let Some((_, away)) = &mut self.away {
            away.retain(|player| !removed.has(*player));
        }
        self.notes.forget(removed, named);
    }
}

impl NotesDraft {
    fn forget(&mut self, removed: &Removed, named: &Named) {
        if matches!(self.pad.about, Some(Subject::Child(player)) if removed.has(player)) {
            self.pad = Pad { of: self.pad.of, ..Pad::default() };
        }
        self.ask.forget(removed);
        if let Some((_, note)) = &mut self.edit
            && let NoteAbout::Children(players) = &mut note.about
        {
            players.retain(|player| !removed.has(*player));
        }
        // Of nobody, and so of nothing.
        let is_of_none = |about: &NoteAbout| matches!(about, NoteAbout::Children(players) if players.is_empty());
        self.edit.take_if(|(id, note)| removed.has_note(*id) || is_of_none(&note.about) || named.stand_in_note(note));
        for typing in [&mut self.tag, &mut self.own] {
            if named.stand_in(&typing.text) {
                *typing = Typing::default();
            }
        }
        self.sought.child.take_if(|player| removed.has(*player));
    }
}

impl Ask {
    /// The question that is being read out to somebody else stays.
    fn forget(&mut self, removed: &Removed) {
        let to = self.player().filter(|player| !removed.has(*player));
        self.children.retain(|turn| !removed.has(turn.player));
        self.child = self.children.iter().position(|turn| Some(turn.player) == to).unwrap_or(0);
        if to.is_none() {
            self.asked = None;
        }
    }
}
