//! Plans among what is known outside the runs: which practice follows which, which waits for the next, what was begun when.

use super::super::ids::{PartNo, PlanId, PracticeId, Revision};
use super::super::plan::clock::{Mark, done};
use super::super::plan::{Plan, PlanDone};
use super::base::{Base, PracticeFacts, after};

impl Base {
    pub fn plan(&self, id: PlanId) -> Option<&Plan> {
        self.plans.get(&id).map(|(_, plan)| plan)
    }

    pub fn next_plan_revision(&self, id: PlanId) -> Revision {
        after(self.plans.get(&id).map(|((revision, _), _)| *revision))
    }

    /// The plan that no practice follows yet and no date has, the latest changed of them that weren't taken back. That of a date which was
    /// dropped waits with the others.
    pub fn plan_waiting(&self) -> Option<PlanId> {
        let taken: Vec<PlanId> = self.practices.values().filter_map(|facts| self.plan_followed(facts)).collect();
        let waits = |id: &PlanId| !taken.contains(id) && !self.is_taken_back(id.0) && !self.is_of_date(*id);
        let free = self.plans.iter().filter(|(id, _)| waits(id));
        free.max_by_key(|(id, ((_, order), _))| (*order, **id)).map(|(id, _)| *id)
    }

    /// Parts begun and ended in a practice, in the order of their entries, without those taken back.
    pub fn marks(&self, practice: PracticeId) -> Vec<Mark> {
        let facts = self.practices.get(&practice);
        let marks = facts.into_iter().flat_map(|facts| facts.marks.values()).map(|(mark, _)| mark);
        marks.filter(|mark| !self.is_taken_back(mark.id)).cloned().collect()
    }

    /// The latest of them that still stands: what undo takes back.
    pub fn last_mark(&self, practice: PracticeId) -> Option<&Mark> {
        let marks = self.practices.get(&practice)?.marks.values().rev();
        marks.map(|(mark, _)| mark).find(|mark| !self.is_taken_back(mark.id))
    }

    /// The plan that a practice follows and its latest mark; what a board asks at every tap.
    pub fn last_of_plan(&self, practice: PracticeId) -> Option<(&Plan, &Mark)> {
        let plan = self.plan_followed(self.practices.get(&practice)?)?;
        self.plan(plan).zip(self.last_mark(practice))
    }

    /// The plan of a practice with how long each part went on; nothing where it follows none.
    pub fn plan_done(&self, practice: PracticeId) -> Option<PlanDone> {
        let id = self.plan_followed(self.practices.get(&practice)?)?;
        let plan = self.plan(id)?.clone();
        let marks = self.marks(practice);
        let mut out: Vec<(PartNo, String)> = Vec::new();
        for mark in marks.iter().filter(|mark| !mark.ends && plan.part(mark.part).is_none()) {
            if out.iter().all(|(no, _)| *no != mark.part) {
                out.push((mark.part, mark.title.clone()));
            }
        }
        Some(PlanDone { id, plan, done: done(&marks), out })
    }

    /// It is here, and no practice whose entries are here follows it.
    pub fn is_unbegun(&self, plan: PlanId) -> bool {
        self.plans.contains_key(&plan) && self.follower(plan).is_none()
    }

    pub(super) fn follower(&self, plan: PlanId) -> Option<PracticeId> {
        self.practices.iter().find(|(_, facts)| self.plan_followed(facts) == Some(plan)).map(|(id, _)| *id)
    }

    pub(super) fn plan_followed(&self, facts: &PracticeFacts) -> Option<PlanId> {
        let begun = facts.marks.values().rev().filter(|(mark, _)| !self.is_taken_back(mark.id));
        begun.filter_map(|(_, plan)| *plan).next()
    }
}
