//! An invented squad with an invented season, the same for the same seed. Lives in a database of its own; names nobody real.

use crate::domain::drill::{Board, DrillSpec, Rule};
use crate::domain::entry::{Contact, Entry, Fact, Lineup};
use crate::domain::ids::{
    Clock, DrillId, EntryId, EntryNo, Place, PlayerId, PracticeId, Revision, RunId, SeriesId, ShirtNumber,
};
use crate::domain::skill::{Feed, FeedKind, Outcome, PassGrade, Role, ServeOutcome, ServeStyle, Skill};
use crate::domain::time::Stamp;

use super::words;

/// How large a season is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Size {
    pub n_practices: u32,
    pub n_contacts_a_practice: u32,
}

impl Size {
    /// A season one can look through: two practices a week for twelve weeks.
    pub const DEMO: Size = Size { n_practices: 24, n_contacts_a_practice: 180 };
}

/// A season: the squad and drills, and each practice by itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Season {
    pub base: Vec<Entry>,
    pub practices: Vec<Vec<Entry>>,
}

/// Invented nicknames, numbers and how often a pass is good at the start and at the end of the season, in hundredths.
const SQUAD: [(&str, u16, u8, u8); 12] = [
    ("Mira", 7, 55, 72),
    ("Tove", 9, 45, 60),
    ("Odile", 11, 60, 66),
    ("Bram", 4, 40, 62),
    ("Iva", 5, 50, 55),
    ("Lasse", 6, 48, 70),
    ("Juno", 8, 62, 75),
    ("Pepe", 10, 35, 50),
    ("Runa", 12, 52, 58),
    ("Elif", 14, 58, 71),
    ("Nilo", 15, 42, 47),
    ("Wren", 16, 47, 64),
];

const SERIES: u64 = 0xde30_0000_0000_0000;
const HOUR_MS: i64 = 3_600_000;

/// Makes a season that ends a few days before `now`.
pub fn season(seed: u64, size: Size, now: Stamp) -> Season {
    let mut maker = Maker { rng: fastrand::Rng::with_seed(seed), clock: 0, series: SERIES, no: 0, entries: Vec::new() };
    let first = Stamp { wall_ms: now.wall_ms - i64::from(size.n_practices + 1) * 84 * HOUR_MS, mono_ms: 0, ..now };
    maker.open(first);
    let squad: Vec<PlayerId> = SQUAD
        .iter()
        .map(|(name, number, ..)| {
            let fact = Fact::PlayerAdded { name: (*name).to_owned(), number: Some(ShirtNumber(*number)) };
            PlayerId(maker.note(fact, first))
        })
        .collect();
    for (i, player) in squad.iter().enumerate() {
        let style = ServeStyle::ALL[[0, 2, 2, 0, 1, 2, 3, 0, 0, 2, 1, 2][i % 12]];
        maker.note(Fact::StyleNoted { player: *player, revision: Revision(1), style }, first);
    }
    let drills: Vec<(DrillId, DrillSpec)> = DrillSpec::starters(|i| words::drills::STARTERS[i].to_owned())
        .into_iter()
        .map(|spec| (DrillId(maker.note(Fact::DrillAdded { spec: spec.clone() }, first)), spec))
        .collect();
    let base = std::mem::take(&mut maker.entries);
    let practices = (0..size.n_practices).map(|i| {
        let start = Stamp { wall_ms: first.wall_ms + i64::from(i + 1) * 84 * HOUR_MS, ..first };
        let progress = f64::from(i) / f64::from(size.n_practices.max(2) - 1);
        maker.practice(u64::from(i) + 1, start, &squad, &drills, progress, size.n_contacts_a_practice)
    });
    Season { practices: practices.collect(), base }
}

struct Maker {
    rng: fastrand::Rng,
    clock: u64,
    series: u64,
    no: u32,
    entries: Vec<Entry>,
}

impl Maker {
    fn note(&mut self, fact: Fact, at: Stamp) -> EntryId {
        let id = EntryId { series: SeriesId(self.series), no: EntryNo(self.no) };
        self.no += 1;
        self.clock += 1;
        self.entries.push(Entry { id, clock: Clock(self.clock), at, fact, extra: None });
        id
    }

    fn open(&mut self, at: Stamp) {
        let app_version = env!("CARGO_PKG_VERSION").to_owned();
        self.note(Fact::SeriesOpened { device: words::DEMO_PHONE.to_owned(), app_version }, at);
    }

    fn practice(
        &mut self,
        n: u64,
        start: Stamp,
        squad: &[PlayerId],
        drills: &[(DrillId, DrillSpec)],
        progress: f64,
        n_contacts: u32,
    ) -> Vec<Entry> {
        self.series = SERIES + n;
        self.no = 0;
        let mut at = start;
        self.open(at);
        let title = words::counts::practice_title(start.day());
        let practice = PracticeId(self.note(Fact::PracticeStarted { title }, at));
        let away = self.rng.usize(..squad.len());
        self.note(Fact::PresenceNoted { practice, player: squad[away], revision: Revision(1), here: false }, at);
        let mut here: Vec<PlayerId> = squad.iter().copied().filter(|p| *p != squad[away]).collect();
        let kinds = [0_usize, 3, 2];
        for (i, kind) in kinds.into_iter().enumerate() {
            let (drill, spec) = &drills[kind];
            let turn = self.rng.usize(1..here.len());
            here.rotate_left(turn);
            let share = n_contacts / 3 + u32::from(i == 0) * (n_contacts % 3);
            at = self.run(practice, *drill, spec, &here, squad, at, progress, share);
            at = later(at, 180_000);
        }
        self.note(Fact::PracticeEnded { practice }, at);
        std::mem::take(&mut self.entries)
    }

    #[expect(clippy::too_many_arguments, reason = "a run is made of that many things")]
    fn run(
        &mut self,
        practice: PracticeId,
        drill: DrillId,
        spec: &DrillSpec,
        here: &[PlayerId],
        squad: &[PlayerId],
        start: Stamp,
        progress: f64,
        n_contacts: u32,
    ) -> Stamp {
        let mut at = later(start, 30_000);
        let mut lineup = Lineup::opening(spec, here, &[]);
        let recorder = words::DEMO_PHONE.to_owned();
        let started =
            Fact::RunStarted { practice, drill: Some(drill), spec: spec.clone(), lineup: lineup.clone(), recorder };
        let run = RunId(self.note(started, at));
        for i in 0..n_contacts {
            at = later(at, 1_500 + self.rng.u64(..4_000));
            let (player, place) = match spec.board {
                Board::Floor { .. } => {
                    let place = Place(self.rng.u8(..3));
                    (lineup.at(place), Some(place))
                }
                _ => (lineup.waiting.get(i as usize % lineup.waiting.len().max(1)).copied(), None),
            };
            let Some(player) = player else { continue };
            let level = self.level(player, squad, progress);
            let contact = self.contact(player, place, spec, level);
            self.note(Fact::ContactNoted { run, contact }, at);
            if self.rng.u32(..25) == 0 {
                let kind = words::drills::EFFORT_KINDS[self.rng.usize(..4)].to_owned();
                self.note(Fact::EffortNoted { run, player: Some(player), kind: Some(kind) }, at);
            }
            if matches!(spec.board, Board::Floor { .. }) && i % 12 == 11 {
                lineup = lineup.slid();
                let cause = crate::domain::entry::LineupCause::Swap;
                self.note(Fact::LineupSet { run, lineup: lineup.clone(), cause }, at);
            }
        }
        self.note(Fact::RunFinished { run }, at);
        at
    }

    fn level(&self, player: PlayerId, squad: &[PlayerId], progress: f64) -> f64 {
        let i = squad.iter().position(|p| *p == player).unwrap_or(0);
        let (_, _, from, to) = SQUAD[i];
        (f64::from(from) + (f64::from(to) - f64::from(from)) * progress) / 100.0
    }

    fn contact(&mut self, player: PlayerId, place: Option<Place>, spec: &DrillSpec, level: f64) -> Contact {
        let good = self.rng.f64() < level;
        let outcome = match spec.skill {
            Skill::Pass => {
                let grade = match (good, self.rng.bool()) {
                    (true, true) => PassGrade::Stood,
                    (true, false) => PassGrade::Moved,
                    (false, true) => PassGrade::Chased,
                    (false, false) => PassGrade::Gone,
                };
                Outcome::Pass { grade, over_net: false }
            }
            Skill::Serve => {
                let missed = [ServeOutcome::Long, ServeOutcome::Wide, ServeOutcome::Net][self.rng.usize(..3)];
                Outcome::Serve { outcome: if good { ServeOutcome::In } else { missed }, fast: self.rng.u8(..3) == 0 }
            }
            Skill::Own(_) => Outcome::TwoKey { good },
        };
        let role = match spec.skill {
            Skill::Pass => Role::Passer,
            Skill::Serve => Role::Server,
            Skill::Own(_) => Role::Doer,
        };
        debug_assert!(matches!(spec.rule, Rule::Tally { .. }));
        let feed = Feed { kind: FeedKind::Easy, ..spec.feed };
        let good_from = spec.good_from;
        Contact {
            player: Some(player),
            role,
            place,
            outcome,
            good_from,
            feed,
            style: None,
            turn: None,
            server: None,
            self_scored: false,
        }
    }
}

fn later(at: Stamp, ms: u64) -> Stamp {
    Stamp { wall_ms: at.wall_ms.saturating_add_unsigned(ms), mono_ms: at.mono_ms.saturating_add(ms), ..at }
}
