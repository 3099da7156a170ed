//! Dates among what is known outside the runs: as they were set and changed, which plan each has, which practice was held on it.

use super::super::calendar::{Dated, PracticeDate};
use super::super::entry::{Entry, Fact};
use super::super::ids::{DateId, EntryId, PlanId, PracticeId, Revision};
use super::amend::{Rank, keep_higher};
use super::base::Base;
use crate::stats::arrange::arranged;

#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct DateFacts {
    date: Option<(Rank, PracticeDate)>,
    dropped: Option<(Rank, bool)>,
    plan: Option<(Rank, Option<PlanId>)>,
    held: Option<(Rank, Option<PracticeId>)>,
}

impl Base {
    /// Takes in what is said of a date; any other entry leaves no mark.
    pub(super) fn note_date(&mut self, entry: &Entry) {
        let rank = |revision: Revision| (revision, entry.order());
        match &entry.fact {
            Fact::DateSet { date } => {
                keep_higher(&mut self.date_mut(DateId(entry.id)).date, rank(Revision(0)), date.clone());
            }
            Fact::DateChanged { date, revision, changed } => {
                keep_higher(&mut self.date_mut(*date).date, rank(*revision), changed.clone());
            }
            Fact::DateDropped { date, revision, dropped } => {
                keep_higher(&mut self.date_mut(*date).dropped, rank(*revision), *dropped);
            }
            Fact::DatePlanned { date, revision, plan } => {
                keep_higher(&mut self.date_mut(*date).plan, rank(*revision), *plan);
            }
            Fact::DateHeld { date, revision, practice } => {
                keep_higher(&mut self.date_mut(*date).held, rank(*revision), *practice);
            }
            _ => {}
        }
    }

    /// Every date that was set and not taken back, dropped or not, in the order of their hours.
    pub fn dates(&self) -> Vec<Dated> {
        self.dates_ever().into_iter().filter(|dated| !dated.undone).collect()
    }

    /// Those taken back too.
    pub fn dates_ever(&self) -> Vec<Dated> {
        let known: Vec<Dated> = self.dates.iter().filter_map(|(id, facts)| self.dated(*id, facts)).collect();
        let hours = |dated: &Dated| (dated.date.day, dated.date.start_min, dated.id);
        arranged(known, |a, b| hours(a).cmp(&hours(b)))
    }

    pub fn date(&self, id: DateId) -> Option<Dated> {
        self.dated(id, self.date_facts(id)?)
    }

    /// The revision that any next change of it has: higher than all before, so that its sequence never falls.
    pub fn next_date_revision(&self, id: DateId) -> Revision {
        Revision(self.date_facts(id).map_or(0, |facts| self.sequence(facts)).saturating_add(1))
    }

    /// The entries that say how a date stands now, with its plan's as long as its sequence counts them.
    pub fn date_written(&self, id: DateId) -> Vec<EntryId> {
        let Some(facts) = self.date_facts(id) else { return Vec::new() };
        let ranks = [
            facts.date.as_ref().map(|(rank, _)| *rank),
            facts.dropped.map(|(rank, _)| rank),
            facts.plan.map(|(rank, _)| rank),
            facts.held.map(|(rank, _)| rank),
            self.plan_counted(facts),
        ];
        ranks.into_iter().flatten().map(|(_, order)| order.id).collect()
    }

    /// Whether a date that stands has this plan.
    pub(super) fn is_of_date(&self, plan: PlanId) -> bool {
        let has = |facts: &DateFacts| facts.plan.is_some_and(|(_, of)| of == Some(plan));
        let stands = |id: DateId, facts: &DateFacts| !self.is_taken_back(id.0) && !is_dropped(facts);
        self.dates.iter().any(|(id, facts)| has(facts) && stands(*id, facts))
    }

    fn dated(&self, id: DateId, facts: &DateFacts) -> Option<Dated> {
        let held = facts.held.and_then(|(_, practice)| practice);
        let plan = facts.plan.and_then(|(_, plan)| plan).filter(|plan| {
            // Thrown away, or begun by a practice that wasn't held on it: it isn't this date's any more. One that isn't here lies packed with
            // the practice that began it.
            let by = self.follower(*plan);
            let here = self.plans.contains_key(plan) || held.is_some();
            here && !self.is_taken_back(plan.0) && by.is_none_or(|by| held == Some(by))
        });
        Some(Dated {
            id,
            date: facts.date.as_ref()?.1.clone(),
            dropped: is_dropped(facts),
            undone: self.is_taken_back(id.0),
            plan,
            held,
            unheld: facts.held.is_some() && held.is_none(),
            sequence: self.sequence(facts),
        })
    }

    /// The highest revision of it, and how often its plan was changed.
    fn sequence(&self, facts: &DateFacts) -> u32 {
        let ranks = [
            facts.date.as_ref().map(|(rank, _)| rank.0),
            facts.dropped.map(|(rank, _)| rank.0),
            facts.plan.map(|(rank, _)| rank.0),
            facts.held.map(|(rank, _)| rank.0),
        ];
        let own = ranks.into_iter().flatten().max().unwrap_or_default().0;
        own.saturating_add(self.plan_counted(facts).map_or(0, |(revision, _)| revision.0))
    }

    /// The last change of its plan, as long as no practice follows that: then it lies packed with the practice, and what was counted of it is
    /// in the revision of the entry which says that the practice is held on the date, or that the plan is the date's no more.
    fn plan_counted(&self, facts: &DateFacts) -> Option<Rank> {
        let plan = facts.plan.and_then(|(_, plan)| plan).filter(|plan| self.is_unbegun(*plan))?;
        self.plans.get(&plan).map(|(rank, _)| *rank)
    }

    fn date_facts(&self, id: DateId) -> Option<&DateFacts> {
        let at = self.dates.binary_search_by(|(known, _)| known.cmp(&id)).ok()?;
        self.dates.get(at).map(|(_, facts)| facts)
    }

    fn date_mut(&mut self, id: DateId) -> &mut DateFacts {
        let at = match self.dates.binary_search_by(|(known, _)| known.cmp(&id)) {
            Ok(at) => at,
            Err(at) => {
                self.dates.insert(at, (id, DateFacts::default()));
                at
            }
        };
        &mut self.dates[at].1
    }
}

fn is_dropped(facts: &DateFacts) -> bool {
    facts.dropped.is_some_and(|(_, dropped)| dropped)
}
