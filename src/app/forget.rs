//! Those removed for good taken out of what this page has in memory: the logs and what is folded of them, what is drafted, a file that is
//! looked at. What lies stored is `update::removal`'s.

use super::model::{Drafts, GroupsDraft, Model};
use super::notes::{Ask, NotesDraft, Pad, Subject};
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
        let changed = self.own.know(&all);
        self.stale.extend(changed.into_iter().filter(|id| self.loose.contains(id)));
        self.theirs.know(&all);
        if grew {
            self.packed.values_mut().for_each(|packed| packed.summary.leave(&all));
            self.weeks.forget();
            self.drafts.forget(&all);
            // What was said of it was said as the squad was.
            self.copy.offered = None;
            if self.copy.looking.take().is_some() {
                self.copy.reading = None;
            }
        }
        self.fold_all();
        true
    }
}

impl Drafts {
    fn forget(&mut self, removed: &Removed) {
        // Groups that aren't played yet may hold them.
        self.groups = GroupsDraft::default();
        self.child.take_if(|draft| removed.has(draft.player));
        self.removal.take_if(|player| removed.has(*player));
        if let Some((_, away)) = &mut self.away {
            away.retain(|player| !removed.has(*player));
        }
        self.notes.forget(removed);
    }
}

impl NotesDraft {
    fn forget(&mut self, removed: &Removed) {
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
        self.edit.take_if(|(id, note)| removed.has_note(*id) || is_of_none(&note.about));
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
