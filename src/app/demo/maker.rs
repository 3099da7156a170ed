//! Writes the invented entries: one series for the squad, one for each practice; who is away, which drills, how many balls each.

use super::super::words;
use crate::domain::drill::{Board, DrillSpec};
use crate::domain::entry::{Entry, Fact, Lineup};
use crate::domain::ids::{Clock, DrillId, EntryId, EntryNo, PlanId, PlayerId, PracticeId, Revision, RunId, SeriesId};
use crate::domain::plan::PlanPart;
use crate::domain::time::Stamp;

const SERIES: u64 = 0xde30_0000_0000_0000;
const BEFORE_RUN_MS: u64 = 30_000;
const BETWEEN_RUNS_MS: u64 = 180_000;

/// Before the first drill of a practice by plan: played and warmed up, in minutes.
const BEFORE_DRILLS_MIN: [u64; 2] = [9, 8];

pub struct Maker {
    pub rng: fastrand::Rng,
    clock: u64,
    series: u64,
    no: u32,
    entries: Vec<Entry>,
}

/// A practice: its number, when it begins, and whether it runs by a plan.
pub struct Night {
    pub n: u64,
    pub start: Stamp,
    pub by_plan: bool,
}

/// Who plays, and how far the season has come, from 0 to 1.
pub struct Evening<'a> {
    pub squad: &'a [PlayerId],
    pub here: Vec<PlayerId>,
    pub progress: f64,
}

impl Maker {
    pub fn new(seed: u64) -> Maker {
        Maker { rng: fastrand::Rng::with_seed(seed), clock: 0, series: SERIES, no: 0, entries: Vec::new() }
    }

    pub fn note(&mut self, fact: Fact, at: Stamp) -> EntryId {
        let id = EntryId { series: SeriesId(self.series), no: EntryNo(self.no) };
        self.no += 1;
        self.clock += 1;
        self.entries.push(Entry { id, clock: Clock(self.clock), at, fact, extra: None });
        id
    }

    pub fn open(&mut self, at: Stamp) {
        let app_version = env!("CARGO_PKG_VERSION").to_owned();
        self.note(Fact::SeriesOpened { device: words::DEMO_PHONE.to_owned(), app_version }, at);
    }

    /// What was written since the last time.
    pub fn taken(&mut self) -> Vec<Entry> {
        std::mem::take(&mut self.entries)
    }

    pub fn practice(
        &mut self,
        night: &Night,
        squad: &[PlayerId],
        drills: &[&(DrillId, DrillSpec)],
        progress: f64,
        n_contacts: u32,
    ) -> Vec<Entry> {
        self.series = SERIES + night.n;
        self.no = 0;
        let mut at = night.start;
        self.open(at);
        let title = words::counts::practice_title(night.start.day());
        let practice = PracticeId(self.note(Fact::PracticeStarted { title }, at));
        let away = self.rng.usize(..squad.len());
        self.note(Fact::PresenceNoted { practice, player: squad[away], revision: Revision(1), here: false }, at);
        let here: Vec<PlayerId> = squad.iter().copied().filter(|p| *p != squad[away]).collect();
        let mut evening = Evening { squad, here, progress };
        let mut left = n_contacts;
        let made = night.by_plan.then(|| super::plan(drills));
        let plan = made.map(|made| (PlanId(self.note(Fact::PlanMade { plan: made.clone() }, at)), made));
        if let Some((id, made)) = &plan {
            for (part, minutes) in made.parts.iter().zip(BEFORE_DRILLS_MIN) {
                self.begin(practice, *id, part, at);
                at = later(at, minutes * 60_000);
            }
        }
        for (i, drill) in drills.iter().enumerate() {
            if let Some((id, made)) = &plan
                && let Some(part) = made.parts.get(BEFORE_DRILLS_MIN.len() + i)
            {
                self.begin(practice, *id, part, at);
            }
            let turn = self.rng.usize(1..evening.here.len());
            evening.here.rotate_left(turn);
            let runs_left = u32::try_from(drills[i..].iter().filter(|(_, spec)| makes_contacts(spec)).count());
            // A told count makes none, a duel may be over before its share is used: the last run takes what is left.
            let share = left.div_ceil(runs_left.unwrap_or(1).max(1));
            let n_before = self.n_contacts();
            at = self.run(practice, drill, &evening, at, share);
            left = left.saturating_sub(self.n_contacts() - n_before);
            at = later(at, BETWEEN_RUNS_MS);
        }
        if let Some(last) = plan.and_then(|(_, made)| made.parts.last().map(|part| part.no)) {
            self.note(Fact::PartEnded { practice, part: last }, at);
        }
        self.note(Fact::PracticeEnded { practice }, at);
        self.taken()
    }

    fn begin(&mut self, practice: PracticeId, plan: PlanId, part: &PlanPart, at: Stamp) {
        let (part, title) = (part.no, part.title.clone());
        self.note(Fact::PartBegun { practice, plan, part, title }, at);
    }

    fn n_contacts(&self) -> u32 {
        let noted = self.entries.iter().filter(|e| matches!(e.fact, Fact::ContactNoted { .. })).count();
        u32::try_from(noted).unwrap_or(u32::MAX)
    }

    fn run(
        &mut self,
        practice: PracticeId,
        (drill, spec): &(DrillId, DrillSpec),
        evening: &Evening,
        start: Stamp,
        n_contacts: u32,
    ) -> Stamp {
        let at = later(start, BEFORE_RUN_MS);
        let lineup = Lineup::opening(spec, &evening.here, &[]);
        let recorder = words::DEMO_PHONE.to_owned();
        let started =
            Fact::RunStarted { practice, drill: Some(*drill), spec: spec.clone(), lineup: lineup.clone(), recorder };
        let run = RunId(self.note(started, at));
        let at = self.play(run, spec, lineup, evening, at, n_contacts);
        self.note(Fact::RunFinished { run }, at);
        at
    }
}

fn makes_contacts(spec: &DrillSpec) -> bool {
    !matches!(spec.board, Board::Told { .. })
}

pub fn later(at: Stamp, ms: u64) -> Stamp {
    Stamp { wall_ms: at.wall_ms.saturating_add_unsigned(ms), mono_ms: at.mono_ms.saturating_add(ms), ..at }
}
