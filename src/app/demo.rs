//! An invented squad with an invented season, the same for the same seed. Lives in a database of its own; names nobody real.

mod maker;
mod play;

use chrono::{Datelike, Weekday};

use maker::Maker;

use super::words;
use crate::domain::drill::{Board, DrillSpec, LineOrder, OnFloor, Rule};
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{DrillId, PlayerId, Revision, ShirtNumber};
use crate::domain::skill::{GoodFrom, ServeStyle, Skill};
use crate::domain::time::Stamp;

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

/// How each of them serves.
const STYLES: [ServeStyle; 12] = {
    use ServeStyle::{Jump, Roundhouse, StandingOverhead as Standing, Underhand};
    [
        Underhand, Standing, Standing, Underhand, Roundhouse, Standing, Jump, Underhand, Underhand, Standing,
        Roundhouse, Standing,
    ]
};

/// What was practised, one evening after another and round again: indexes of the drills. Every kind of board comes round, and the
/// last of an evening is one that takes as many contacts as are left.
const EVENINGS: [&[usize]; 4] = [&[0, 3, 2], &[1, 5, OWN], &[0, 7, 4], &[1, 6, 3]];

/// The drill of the coach's own stands behind those that every squad finds ready.
const OWN: usize = words::drills::STARTERS.len();

const MINUTE_MS: i64 = 60_000;
const DAY_MS: i64 = 86_400_000;
/// Half past five, when the hall is theirs.
const START_MS: i64 = (17 * 60 + 30) * MINUTE_MS;
/// The squad was typed on the first evening, before practice.
const TYPED_BEFORE_MS: i64 = 20 * MINUTE_MS;

/// Makes a season that ends with the last practice evening before the day of `now`.
///
/// Every practice has exactly so many contacts as its size says; told counts and efforts come on top.
pub fn season(seed: u64, size: Size, now: Stamp) -> Season {
    let evenings = evenings(size.n_practices, now);
    let typed_ms = evenings.first().map_or(now.wall_ms, |first| first.wall_ms) - TYPED_BEFORE_MS;
    let typed = Stamp { wall_ms: typed_ms, mono_ms: 0, ..now };
    let mut maker = Maker::new(seed);
    maker.open(typed);
    let squad: Vec<PlayerId> = SQUAD
        .iter()
        .map(|(name, number, ..)| {
            let fact = Fact::PlayerAdded { name: (*name).to_owned(), number: Some(ShirtNumber(*number)) };
            PlayerId(maker.note(fact, typed))
        })
        .collect();
    for (player, style) in squad.iter().zip(STYLES) {
        maker.note(Fact::StyleNoted { player: *player, revision: Revision(1), style }, typed);
    }
    let mut specs = DrillSpec::starters(|i| words::drills::STARTERS[i].to_owned());
    specs.push(own_drill());
    let drills: Vec<(DrillId, DrillSpec)> = specs
        .into_iter()
        .map(|spec| (DrillId(maker.note(Fact::DrillAdded { spec: spec.clone() }, typed)), spec))
        .collect();
    let base = maker.taken();
    let practices = evenings.into_iter().zip(0_u32..).map(|(start, i)| {
        let progress = f64::from(i) / f64::from(size.n_practices.max(2) - 1);
        let evening = EVENINGS[i as usize % EVENINGS.len()];
        let plan: Vec<&(DrillId, DrillSpec)> = evening.iter().map(|drill| &drills[*drill]).collect();
        maker.practice(u64::from(i) + 1, start, &squad, &plan, progress, size.n_contacts_a_practice)
    });
    Season { practices: practices.collect(), base }
}

/// A skill with a name of the coach's.
fn own_drill() -> DrillSpec {
    DrillSpec {
        name: words::drills::DEMO_OWN.0.to_owned(),
        skill: Skill::Own(words::drills::DEMO_OWN.1.to_owned()),
        board: Board::Line { order: LineOrder::InTurn },
        rule: Rule::Tally { goal: Some(25) },
        good_from: GoodFrom::GoodKey,
        feed: DrillSpec::EASY,
        on_floor: OnFloor::default(),
    }
}

/// The last so many Tuesdays and Fridays before today, the earliest first, each at the hour when practice begins.
fn evenings(n: u32, now: Stamp) -> Vec<Stamp> {
    let local_ms = now.wall_ms + i64::from(now.offset_min) * MINUTE_MS;
    let midnight_ms = now.wall_ms - local_ms.rem_euclid(DAY_MS);
    // Two evenings in seven days: so many days hold enough of them.
    let days = 1..=i64::from(n) * 4 + 7;
    let starts = days.map(|n_days| midnight_ms - n_days * DAY_MS + START_MS);
    let starts = starts.map(|wall_ms| Stamp { wall_ms, mono_ms: 0, ..now });
    let practised = starts.filter(|start| matches!(start.day().weekday(), Weekday::Tue | Weekday::Fri));
    let mut evenings: Vec<Stamp> = practised.take(n as usize).collect();
    evenings.reverse();
    evenings
}
