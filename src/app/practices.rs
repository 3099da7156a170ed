//! Practices of this squad as summaries, without copying those that lie packed; those that are one are read as one. One that goes on here
//! stands by itself, whatever was said of it: what is on is never a part of anything else.

use super::model::Model;
use crate::domain::ids::PracticeId;
use crate::domain::replay::base::Practice;
use crate::domain::summary::PracticeSummary;
use crate::stats::arrange::arranged;

/// Summaries of the practices that lie packed, and of the others, summed now.
pub struct Practices<'a> {
    /// Those too that are read as one.
    summed: Vec<PracticeSummary>,
    packed: Vec<&'a PracticeSummary>,
}

impl Practices<'_> {
    pub fn of(model: &Model) -> Practices<'_> {
        let mut all = Practices::each(model);
        for set in model.base.as_one().sets() {
            let set = model.there(set);
            if set.len() > 1 {
                let of = |id: &PracticeId| all.by_start().find(|practice| practice.practice == *id);
                let joined = PracticeSummary::joined(&set.iter().filter_map(of).collect::<Vec<_>>());
                all.summed.retain(|practice| !set.contains(&practice.practice));
                all.packed.retain(|practice| !set.contains(&practice.practice));
                all.summed.extend(joined);
            }
        }
        all
    }

    /// Each by itself, as it was begun.
    pub fn each(model: &Model) -> Practices<'_> {
        let loose = model.base.practices().into_iter().filter(|p| !model.packed.contains_key(&p.id));
        let summed = loose.map(|p| sum(model, &p)).collect();
        Practices { summed, packed: model.packed.values().map(|p| &p.summary).collect() }
    }

    fn by_start(&self) -> impl Iterator<Item = &PracticeSummary> {
        self.summed.iter().chain(self.packed.iter().copied())
    }

    pub fn latest_first(&self) -> Vec<&PracticeSummary> {
        let all = self.by_start().collect();
        arranged(all, |a: &&PracticeSummary, b| b.started.wall_ms.cmp(&a.started.wall_ms))
    }
}

/// One practice with all that are one with it: of one that lies packed and is read, what is in memory.
pub fn one(model: &Model, id: PracticeId) -> Option<PracticeSummary> {
    let of = |id: &PracticeId| match model.packed.get(id).filter(|packed| !packed.read) {
        Some(packed) => Some(packed.summary.clone()),
        None => model.base.practice(*id).map(|practice| sum(model, &practice)),
    };
    let all: Vec<PracticeSummary> = model.one_with(id).iter().filter_map(of).collect();
    PracticeSummary::joined(&all.iter().collect::<Vec<_>>())
}

fn sum(model: &Model, practice: &Practice) -> PracticeSummary {
    PracticeSummary::of(practice, model.runs_of(practice)).with_plan(model.base.plan_done(practice.id))
}

impl Model {
    /// Of these, those that are known here and over.
    fn there(&self, set: &[PracticeId]) -> Vec<PracticeId> {
        let is_there = |id: &PracticeId| self.packed.contains_key(id) || self.base.practice(*id).is_some();
        set.iter().copied().filter(|id| is_there(id) && !self.goes_on(*id)).collect()
    }

    /// It is open on this phone.
    pub fn goes_on(&self, id: PracticeId) -> bool {
        !self.packed.contains_key(&id) && self.base.practice(id).is_some_and(|practice| self.is_open(&practice))
    }

    /// All that are read as one with this, the one that they are read under first; itself alone where none is.
    pub fn one_with(&self, id: PracticeId) -> Vec<PracticeId> {
        let set = self.there(self.base.as_one().set(id));
        if set.contains(&id) { set } else { vec![id] }
    }

    /// The practice that this one is read under: mostly itself.
    pub fn read_under(&self, id: PracticeId) -> PracticeId {
        self.one_with(id).first().copied().unwrap_or(id)
    }
}
