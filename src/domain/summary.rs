//! What is kept in memory of a finished practice: per run and child the counts that reports and a season need.
//! Worked out from a folded run; a season is a sum of these.

use std::collections::BTreeSet;

use super::ids::{Clock, DrillId, EntryId, PlayerId, PracticeId, RunId};
use super::replay::base::Practice;
use super::replay::run::RunState;
use super::scoring::tally::Tally;
use super::scoring::transition::Duel;
use super::skill::{FeedKind, Skill};
use super::time::Stamp;
pub use crate::stats::proportion::Count;

/// The version of the folding that made a summary: a summary of another version is made again.
pub const FOLD_VERSION: u32 = 2;

#[derive(Clone, Debug, PartialEq)]
pub struct PracticeSummary {
    pub practice: PracticeId,
    pub title: String,
    pub started: Stamp,
    /// The highest clock among this phone's own entries of it: the phone's clock never falls behind what lies packed.
    pub clock: Clock,
    /// The entries that ended it: taking them back opens it again.
    pub endings: Vec<EntryId>,
    pub away: BTreeSet<PlayerId>,
    pub runs: Vec<RunSummary>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct RunSummary {
    pub run: RunId,
    pub drill: Option<DrillId>,
    pub name: String,
    pub skill: Skill,
    pub started: Stamp,
    pub n_contacts: u32,
    pub everyone: Counts,
    pub children: Vec<(PlayerId, Counts)>,
    /// The order in which the children stood at the end, for next time.
    pub order: Vec<PlayerId>,
    pub joint: u16,
    pub duel: Duel,
}

#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Counts {
    pub easy: Count,
    pub challenge: Count,
    pub told: Count,
    pub best_row: u32,
    pub n_no_chance: u32,
    pub n_efforts: u32,
}

impl Counts {
    pub fn of(tally: &Tally) -> Counts {
        Counts {
            easy: tally.of(FeedKind::Easy),
            challenge: tally.of(FeedKind::Challenge),
            told: tally.told(),
            best_row: tally.rows.best(),
            n_no_chance: tally.n_no_chance,
            n_efforts: tally.n_efforts,
        }
    }

    pub fn all(&self) -> Count {
        self.easy + self.challenge + self.told
    }

    /// What two parts or runs counted; the best row is the better one.
    pub fn plus(self, other: Counts) -> Counts {
        Counts {
            easy: self.easy + other.easy,
            challenge: self.challenge + other.challenge,
            told: self.told + other.told,
            best_row: self.best_row.max(other.best_row),
            n_no_chance: self.n_no_chance + other.n_no_chance,
            n_efforts: self.n_efforts + other.n_efforts,
        }
    }
}

impl RunSummary {
    /// All parts of the run together: rates add up, rows don't run on from one part to another.
    pub fn of(run: &RunState) -> RunSummary {
        let mut everyone = Counts::default();
        let mut children: std::collections::BTreeMap<PlayerId, Counts> = std::collections::BTreeMap::new();
        let mut n_contacts = 0;
        for part in run.parts() {
            everyone = everyone.plus(Counts::of(&part.everyone));
            for (player, tally) in &part.by_child {
                let slot = children.entry(*player).or_default();
                *slot = slot.plus(Counts::of(tally));
            }
            n_contacts += part.contacts.len();
        }
        RunSummary {
            run: run.id,
            drill: run.drill,
            name: run.spec.name.clone(),
            skill: run.spec.skill.clone(),
            started: run.started,
            n_contacts: u32::try_from(n_contacts).unwrap_or(u32::MAX),
            everyone,
            children: children.into_iter().collect(),
            order: run.main.lineup.everyone().collect(),
            joint: run.main.transition.joint,
            duel: run.main.transition.duel,
        }
    }
}

impl PracticeSummary {
    pub fn of<'a>(practice: &Practice, runs: impl Iterator<Item = &'a RunState>) -> PracticeSummary {
        PracticeSummary {
            practice: practice.id,
            title: practice.title.clone(),
            started: practice.started,
            clock: Clock::default(),
            endings: practice.endings.clone(),
            away: practice.away.clone(),
            runs: runs.map(RunSummary::of).collect(),
        }
    }

    /// With the highest clock among this phone's own entries of it.
    pub fn with_clock(self, clock: Clock) -> PracticeSummary {
        PracticeSummary { clock, ..self }
    }

    /// Contacts and told counts, of all runs.
    pub fn n_counted(&self) -> usize {
        let of = |run: &RunSummary| {
            run.n_contacts as usize + usize::from(run.everyone.told.tries() > 0) * run.children.len()
        };
        self.runs.iter().map(of).sum()
    }
}
