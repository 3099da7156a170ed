//! Practices that are one: begun on several phones of an evening, each without knowing of the others. Entries, packed bytes and summaries stay
//! each practice's own; summaries are read together. Knows neither who said so nor which of them are here.

use std::collections::BTreeSet;

use super::ids::{Clock, PlayerId, PracticeId};
use super::summary::{PracticeSummary, RunSummary};
use crate::stats::arrange::arranged;

/// Sets of two or more, the one that stays first. No practice is in two.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct AsOne(Vec<Vec<PracticeId>>);

impl AsOne {
    pub fn new(sets: Vec<Vec<PracticeId>>) -> AsOne {
        AsOne(sets)
    }

    pub fn sets(&self) -> &[Vec<PracticeId>] {
        &self.0
    }

    /// All that are one with this, itself too; nothing where it stands alone.
    pub fn set(&self, practice: PracticeId) -> &[PracticeId] {
        self.0.iter().find(|set| set.contains(&practice)).map_or(&[], Vec::as_slice)
    }

    pub fn are_one(&self, one: PracticeId, other: PracticeId) -> bool {
        one == other || self.set(one).contains(&other)
    }
}

impl PracticeSummary {
    /// Of several that are one, the one that stays first: its name, its beginning and, where it has one, its plan. The runs of all, in the order
    /// of their time. Nothing is counted anew.
    pub fn joined(all: &[&PracticeSummary]) -> Option<PracticeSummary> {
        let stays = *all.first()?;
        let (away, in_part) = presence(all);
        let runs: Vec<RunSummary> = all.iter().flat_map(|practice| practice.runs.iter().cloned()).collect();
        let by_time: Vec<&PracticeSummary> = arranged(all.to_vec(), |a, b| began(a).cmp(&began(b)));
        let highest = |clock: fn(&PracticeSummary) -> Clock| all.iter().map(|p| clock(p)).max().unwrap_or_default();
        Some(PracticeSummary {
            practice: stays.practice,
            title: stays.title.clone(),
            started: stays.started,
            clock: highest(|practice| practice.clock),
            counted: highest(|practice| practice.counted),
            endings: all.iter().flat_map(|practice| practice.endings.iter().copied()).collect(),
            ended: all.iter().all(|practice| practice.ended),
            away,
            in_part,
            rounds: by_time.iter().flat_map(|practice| practice.rounds.iter().cloned()).collect(),
            plan: all.iter().find_map(|practice| practice.plan.clone()),
            remarks: all.iter().flat_map(|practice| practice.remarks.iter().cloned()).collect(),
            remark_ids: all.iter().flat_map(|practice| practice.remark_ids.iter().copied()).collect(),
            same: stays.same.clone(),
            runs: arranged(runs, |a, b| (a.started.wall_ms, a.run).cmp(&(b.started.wall_ms, b.run))),
        })
    }
}

fn began(practice: &PracticeSummary) -> (i64, PracticeId) {
    (practice.started.wall_ms, practice.practice)
}

/// Who was away, and who was there for a part of it. A phone speaks of a child where it noted who is away at all, or counted something of the
/// child. Here in one is here: a child that is away at one station is mostly at another. But who came late to a station it was at, or left one
/// early, was there for a part: where it was meanwhile nobody knows, and nobody shall be short for having been away.
fn presence(all: &[&PracticeSummary]) -> (BTreeSet<PlayerId>, BTreeSet<PlayerId>) {
    let speaks = |practice: &PracticeSummary, player: PlayerId| {
        !practice.away.is_empty() || !practice.in_part.is_empty() || practice.took_part(player)
    };
    let of_all = |player: PlayerId, said: fn(&PracticeSummary) -> &BTreeSet<PlayerId>| {
        all.iter().filter(|practice| speaks(practice, player)).all(|practice| said(practice).contains(&player))
    };
    let partly =
        |player: PlayerId| all.iter().any(|practice| practice.in_part.contains(&player) && practice.took_part(player));
    let (mut away, mut in_part) = (BTreeSet::new(), BTreeSet::new());
    // Of each some practice speaks: it was noted away there.
    for player in all.iter().flat_map(|practice| practice.away.iter().chain(&practice.in_part)).copied() {
        if of_all(player, |practice| &practice.away) {
            away.insert(player);
        }
        if partly(player) || of_all(player, |practice| &practice.in_part) {
            in_part.insert(player);
        }
    }
    (away, in_part)
}
