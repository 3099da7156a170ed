//! Notes and questions among what is known outside the runs. Lists in the order of identity and no maps: they are short, and searched
//! at no tap of a board.

use super::super::entry::{Entry, Fact};
use super::super::ids::{DrillId, EntryId, NoteId, Revision, RunId};
use super::super::log::Order;
use super::super::notes::{Note, NoteAbout, Remark, Spot, What};
use super::super::time::Stamp;
use super::amend::{Rank, keep_higher};
use super::base::{Base, Practice, after};
use crate::stats::arrange::arranged;

/// Folded notes and questions.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Noted {
    remarks: Vec<RemarkFacts>,
    /// Those that name a run and no practice, as notes once did: which practice that is may be known later.
    of_runs: Vec<(RunId, EntryId)>,
    tags: Option<(Rank, Vec<String>)>,
    questions: Vec<(Option<DrillId>, Rank, Vec<String>)>,
}

#[derive(Clone, Debug, PartialEq)]
struct RemarkFacts {
    id: EntryId,
    /// `None` while the entry that wrote it is still on another phone.
    written: Option<(Order, Stamp, Spot)>,
    what: Option<(Rank, What)>,
}

impl Noted {
    /// Takes in one entry of these kinds.
    pub(super) fn note(&mut self, entry: &Entry) {
        let order = entry.order();
        let first = (Revision(0), order);
        match &entry.fact {
            Fact::NoteWritten { spot, note } => self.write(entry, *spot, (first, What::Note(note.clone()))),
            Fact::QuestionAsked { spot, asked } => self.write(entry, *spot, (first, What::Asked(asked.clone()))),
            Fact::NoteChanged { note, revision, changed } => {
                keep_higher(&mut self.remark(note.0).what, (*revision, order), What::Note(changed.clone()));
            }
            Fact::NoteTagsChanged { revision, tags } => keep_higher(&mut self.tags, (*revision, order), tags.clone()),
            Fact::QuestionsChanged { drill, revision, questions } => {
                let rank = (*revision, order);
                match self.questions.binary_search_by(|(known, ..)| known.cmp(drill)) {
                    Ok(at) if rank > self.questions[at].1 => self.questions[at] = (*drill, rank, questions.clone()),
                    Ok(_) => {}
                    Err(at) => self.questions.insert(at, (*drill, rank, questions.clone())),
                }
            }
            _ => {}
        }
    }

    fn write(&mut self, entry: &Entry, spot: Spot, (rank, what): (Rank, What)) {
        if let (None, Some(run)) = (spot.practice, spot.run)
            && let Err(at) = self.of_runs.binary_search(&(run, entry.id))
        {
            self.of_runs.insert(at, (run, entry.id));
        }
        let facts = self.remark(entry.id);
        facts.written = Some((entry.order(), entry.at, spot));
        keep_higher(&mut facts.what, rank, what);
    }

    fn remark(&mut self, id: EntryId) -> &mut RemarkFacts {
        let at = match self.remarks.binary_search_by(|facts| facts.id.cmp(&id)) {
            Ok(at) => at,
            Err(at) => {
                self.remarks.insert(at, RemarkFacts { id, written: None, what: None });
                at
            }
        };
        &mut self.remarks[at]
    }

    /// What was noted of these runs by naming the run alone.
    pub(super) fn of_runs_alone<'a>(&'a self, runs: &'a [RunId]) -> impl Iterator<Item = EntryId> + 'a {
        self.of_runs.iter().filter(|(run, _)| runs.contains(run)).map(|(_, id)| *id)
    }

    fn find(&self, id: EntryId) -> Option<&RemarkFacts> {
        self.remarks.binary_search_by(|facts| facts.id.cmp(&id)).ok().and_then(|at| self.remarks.get(at))
    }
}

impl Base {
    /// A note or question as it stands, taken back or not.
    pub fn remark(&self, id: EntryId) -> Option<Remark> {
        self.remark_of(self.noted.find(id)?).map(|(_, remark)| remark)
    }

    /// All that stand, of these places, in the order in which they were noted.
    pub fn remarks(&self, at: impl Fn(&Spot) -> bool) -> Vec<Remark> {
        let here = |facts: &&RemarkFacts| {
            facts.written.as_ref().is_some_and(|(.., spot)| at(spot)) && !self.is_taken_back(facts.id)
        };
        let found = self.noted.remarks.iter().filter(here).filter_map(|facts| self.remark_of(facts)).collect();
        let found = arranged(found, |a: &(Order, Remark), b| a.0.cmp(&b.0));
        found.into_iter().map(|(_, remark)| remark).collect()
    }

    pub fn remarks_of(&self, practice: &Practice) -> Vec<Remark> {
        self.remarks(|spot| practice.holds_spot(spot))
    }

    /// The coach's own tags, if she has changed them.
    pub fn note_tags(&self) -> Option<&[String]> {
        self.noted.tags.as_ref().map(|(_, tags)| tags.as_slice())
    }

    pub fn next_tags_revision(&self) -> Revision {
        after(self.noted.tags.as_ref().map(|(rank, _)| rank.0))
    }

    /// The coach's own questions of a drill, or of any.
    pub fn questions(&self, drill: Option<DrillId>) -> &[String] {
        self.asked_of(drill).map_or(&[], |(.., questions)| questions.as_slice())
    }

    pub fn next_questions_revision(&self, drill: Option<DrillId>) -> Revision {
        after(self.asked_of(drill).map(|(_, rank, _)| rank.0))
    }

    pub fn next_note_revision(&self, note: NoteId) -> Revision {
        let had = self.noted.find(note.0).and_then(|facts| facts.what.as_ref());
        after(had.map(|(rank, _)| rank.0))
    }

    /// With the children who stay for those it names.
    fn remark_of(&self, facts: &RemarkFacts) -> Option<(Order, Remark)> {
        let (order, at, spot) = facts.written?;
        let mut what = facts.what.as_ref()?.1.clone();
        match &mut what {
            What::Note(Note { about: NoteAbout::Children(children), .. }) => self.same().list(children),
            What::Asked(asked) => asked.player = self.same().of(asked.player),
            What::Note(_) => {}
        }
        Some((order, Remark { id: facts.id, at, spot, what }))
    }

    fn asked_of(&self, drill: Option<DrillId>) -> Option<&(Option<DrillId>, Rank, Vec<String>)> {
        self.noted.questions.iter().find(|(known, ..)| *known == drill)
    }
}

impl Practice {
    pub(super) fn holds_spot(&self, spot: &Spot) -> bool {
        spot.practice == Some(self.id)
            || spot.practice.is_none() && spot.run.is_some_and(|run| self.runs.contains(&run))
    }
}
