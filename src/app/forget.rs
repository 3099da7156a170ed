//! Those removed for good taken out of what this page has in memory: the logs and what is folded of them, what is drafted, a file that is
//! looked at. What lies stored is `update::removal`'s.

use super::model::{Drafts, GroupsDraft, Model};
use super::named::{Named, note_in};
use super::notes::{Ask, NotesDraft, Pad, Subject, Typing};
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{NoteId, PlayerId};
use crate::domain::notes::NoteAbout;
use crate::domain::removed::Removed;

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
        }
        let changed = self.own.know(&all);
        self.stale.extend(changed.into_iter().filter(|id| self.loose.contains(id)));
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
        let of = |entry: &Entry| match &entry.fact {
            Fact::PlayerAdded { name, .. } if is_it(PlayerId(entry.id)) => Some(name.clone()),
            Fact::PlayerChanged { player, name, .. } if is_it(*player) => Some(name.clone()),
            _ => None,
        };
        let once: Vec<String> = self.own.iter().chain(self.theirs.iter()).filter_map(of).collect();
        Named::alone(&self.base, &once, is_it)
    }

    /// While the names of those who go are known. A child that stays under another of its identities keeps its name.
    fn remember_called(&mut self, removed: &Removed) {
        let same = self.base.same();
        let named = self.called(&|player| removed.has(player) && removed.has(same.of(player)));
        for key in named.keys() {
            if !self.settings.called.contains(key) {
                self.settings.called.push(key.clone());
            }
        }
    }
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
