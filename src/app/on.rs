//! Which practice and which run are on, whose they are, and who is here. All of it follows from the entries, the moment and a few choices of this
//! phone; nothing is kept.

use std::collections::BTreeSet;

use super::effect::LockState;
use super::model::Model;
use super::screen::Screen;
use crate::domain::ids::{EntryId, EntryNo, PlayerId, PracticeId};
use crate::domain::replay::base::{Player, Practice};
use crate::domain::replay::run::RunState;
use crate::domain::summary::PracticeSummary;
use crate::stats::arrange::arranged;

impl Model {
    /// Practices that are open, the latest first.
    fn practices_open(&self) -> impl Iterator<Item = Practice> {
        let open = |p: &Practice| self.is_open(p) && !self.packed.contains_key(&p.id);
        self.base.practices().into_iter().filter(open)
    }

    /// What is counted here may still belong to it. One that this phone leads, until it was ended. One in which it takes part, on its day,
    /// until it was ended or this phone went; and for as long as a run of this phone goes on in it.
    pub fn is_open(&self, practice: &Practice) -> bool {
        if !self.is_own(practice.id) {
            return false;
        }
        if self.leads(practice.id) {
            return !practice.ended;
        }
        let takes_part = || self.is_on(practice) && !self.has_left(practice.id);
        !practice.ended && takes_part() || self.runs_on(practice)
    }

    /// A run that was begun here goes on in it.
    fn runs_on(&self, practice: &Practice) -> bool {
        let goes_on = |run: &&RunState| !run.main.finished && self.own.get(run.id.0).is_some();
        self.runs_of(practice).any(|run| goes_on(&run))
    }

    /// The practice that is on: of this phone, of this day, not ended. What was left open on another day is not on.
    pub fn practice_today(&self) -> Option<Practice> {
        self.practices_open().find(|p| self.is_on(p))
    }

    /// So long after the gym's time what is still on of a plan may be going on.
    pub const MARGIN_MIN: u16 = 60;

    /// Of this day; past midnight while a part of its plan is on, until the gym's time is over and an hour more.
    pub fn is_on(&self, practice: &Practice) -> bool {
        if practice.started.day() == self.now.day() {
            return true;
        }
        let Some(plan) = practice.plan.and_then(|id| self.base.plan(id)) else { return false };
        let marks = self.base.marks(practice.id);
        let (Some(first), Some(last)) = (marks.first(), marks.last()) else { return false };
        let gone_ms = self.now.wall_ms.saturating_sub(first.at.wall_ms);
        !last.ends && (0..=i64::from(plan.gym_min + Self::MARGIN_MIN) * 60_000).contains(&gone_ms)
    }

    /// Practices of other days that were never ended, or were opened again, the latest first.
    pub fn left_open(&self) -> Vec<Practice> {
        self.practices_open().filter(|p| !self.is_on(p)).collect()
    }

    /// It was begun on this phone: the page that wrote its start was opened here. Known of those in memory.
    pub fn leads(&self, practice: PracticeId) -> bool {
        let opened = EntryId { series: practice.0.series, no: EntryNo(0) };
        self.is_own(practice) && self.own.get(opened).is_some()
    }

    /// The coach said that this phone no longer takes part in it.
    fn has_left(&self, practice: PracticeId) -> bool {
        self.settings.left.contains(&practice.0.to_string())
    }

    /// The practice that is on, where another phone leads it.
    pub fn along(&self) -> Option<PracticeId> {
        self.practice_today().map(|practice| practice.id).filter(|id| !self.leads(*id))
    }

    /// The practice that is on, where this phone leads it: its plan, groups and who is there are said here. Who takes part in another's
    /// says such things for her own station alone.
    pub fn practice_led(&self) -> Option<Practice> {
        self.practice_today().filter(|practice| self.leads(practice.id))
    }

    /// A practice in which this phone takes part, or is about to, is being read: in a moment it is known what is on.
    pub fn is_known_soon(&self) -> bool {
        let is_read = |id: &PracticeId| self.reading.get(id).is_some_and(Option::is_none);
        let may_be_on = |summary: &PracticeSummary| {
            let (id, today) = (summary.practice, summary.started.day() == self.now.day());
            today && is_read(&id) && self.is_own(id) && !self.leads(id) && !self.has_left(id)
        };
        self.taking_part.is_some() || self.packed.values().any(|packed| may_be_on(&packed.summary))
    }

    /// Practices of today that another phone began and, as far as is known here, didn't end, the latest first. None while one is on here.
    pub fn can_take_part(&self) -> Vec<&PracticeSummary> {
        let of_today = |summary: &&PracticeSummary| {
            let (id, today) = (summary.practice, summary.started.day() == self.now.day());
            today && !summary.ended && (!self.is_own(id) || self.has_left(id)) && !self.leads(id)
        };
        if self.practice_today().is_some() || self.taking_part.is_some() {
            return Vec::new();
        }
        let found = self.packed.values().map(|packed| &packed.summary).filter(of_today).collect();
        arranged(found, |a: &&PracticeSummary, b| (b.started.wall_ms, b.practice).cmp(&(a.started.wall_ms, a.practice)))
    }

    /// Its start is among this phone's own entries: it was begun here, or this phone takes part in it. Known of those in memory.
    pub fn is_own(&self, practice: PracticeId) -> bool {
        self.own.get(practice.0).is_some()
    }

    /// The run that is on in the practice that is on: this page's, else the latest.
    pub fn run_on(&self) -> Option<&RunState> {
        let practice = self.practice_today()?;
        // Another phone's goes on there.
        let here = |run: &&RunState| !run.main.finished && self.own.get(run.id.0).is_some();
        let on = || practice.runs.iter().rev().filter_map(|id| self.runs.get(id)).filter(here);
        on().find(|run| self.is_mine(run)).or_else(|| on().next())
    }

    /// What the turn that is on slept through, which is no part of it.
    pub fn turn_slept_ms(&self, run: &RunState) -> u64 {
        let from = run.main.turn_from.map(|(_, from)| from);
        self.board.turn_slept.filter(|slept| Some(slept.from) == from).map_or(0, |slept| slept.ms)
    }

    /// The run that who is here, and who is with whom, is said of: this page's own that is on screen or was last, while it goes on;
    /// else the one that is on, if it is this page's. Two may be unfinished at once: one that was opened again ends no other.
    pub fn run_at_hand(&self) -> Option<&RunState> {
        let mine = |run: &&RunState| self.is_mine(run) && !run.main.finished;
        let on_screen = match self.screen {
            Screen::Run(id) => Some(id),
            _ => self.board.run,
        };
        let on_screen = on_screen.and_then(|id| self.runs.get(&id)).filter(mine);
        let of_today = |run: &&RunState| self.practice_today().is_some_and(|on| on.id == run.practice);
        on_screen.filter(of_today).or_else(|| self.run_on().filter(mine))
    }

    /// Another window of this phone is at this run, as far as can be known: it wrote while this page was open, or this page was
    /// told that it is not the only one.
    pub fn is_elsewhere(&self, run: &RunState) -> bool {
        !self.is_mine(run) && (self.lock == LockState::Elsewhere || self.live.contains(&run.writer))
    }

    /// Runs of a practice that are in memory, in order.
    pub fn runs_of<'a>(&'a self, practice: &'a Practice) -> impl Iterator<Item = &'a RunState> {
        practice.runs.iter().filter_map(|id| self.runs.get(id))
    }

    /// Children who are not archived.
    pub fn squad(&self) -> Vec<Player> {
        self.base.players().into_iter().filter(|p| !p.archived).collect()
    }

    /// Who is away: of the practice that is on; as tapped before it starts, or for this phone's station in another's.
    pub fn away(&self) -> BTreeSet<PlayerId> {
        let tapped = || self.drafts.away.clone().filter(|(day, _)| *day == self.now.day()).map(|(_, away)| away);
        match self.practice_today() {
            Some(practice) if self.leads(practice.id) => practice.away,
            on => tapped().unwrap_or_else(|| on.map(|practice| practice.away).unwrap_or_default()),
        }
    }

    /// The children who are here, in the order of the squad.
    pub fn here(&self) -> Vec<PlayerId> {
        let away = self.away();
        self.squad().into_iter().map(|p| p.id).filter(|p| !away.contains(p)).collect()
    }

    /// The run may be written by this page.
    pub fn is_mine(&self, run: &RunState) -> bool {
        run.writer == self.writer.series()
    }
}
