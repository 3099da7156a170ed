//! Practices of this squad as summaries, without copying those that lie packed.

use super::model::Model;
use crate::domain::summary::PracticeSummary;
use crate::stats::arrange::arranged;

/// Summaries of the practices that lie packed, and of the others, summed now.
pub struct Practices<'a> {
    loose: Vec<PracticeSummary>,
    packed: Vec<&'a PracticeSummary>,
}

impl Practices<'_> {
    pub fn of(model: &Model) -> Practices<'_> {
        let loose = model.base.practices().into_iter().filter(|p| !model.packed.contains_key(&p.id));
        let loose = loose.map(|p| PracticeSummary::of(&p, model.runs_of(&p)).with_plan(model.base.plan_done(p.id)));
        Practices { loose: loose.collect(), packed: model.packed.values().map(|p| &p.summary).collect() }
    }

    pub fn latest_first(&self) -> Vec<&PracticeSummary> {
        let all = self.loose.iter().chain(self.packed.iter().copied()).collect();
        arranged(all, |a: &&PracticeSummary, b| b.started.wall_ms.cmp(&a.started.wall_ms))
    }
}
