//! An invented squad with an invented season, the same for the same seed. Lives in a database of its own; names nobody real.

mod maker;
mod play;

use chrono::{Datelike, Days, Weekday};

use maker::{Maker, Night};

use super::words;
use crate::domain::calendar::PracticeDate;
use crate::domain::drill::{Board, DrillSpec, LineOrder, OnFloor, Rule};
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{DateId, DrillId, PlanId, PlayerId, Revision, ShirtNumber};
use crate::domain::plan::{PartKind, Plan, PlanPart};
use crate::domain::skill::{GoodFrom, ServeStyle, Skill};
use crate::domain::time::Stamp;

/// How large a season is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Size {
    /// Of the invented squad, at most all twenty.
    pub n_children: usize,
    pub n_practices: u32,
    pub n_contacts_a_practice: u32,
}

impl Size {
    /// A season one can look through: two practices a week for twelve weeks.
    pub const DEMO: Size = Size { n_children: 12, n_practices: 24, n_contacts_a_practice: 180 };
}

/// A season: the squad and drills, and each practice by itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Season {
    pub base: Vec<Entry>,
    pub practices: Vec<Vec<Entry>>,
}

/// Invented nicknames, numbers and how often a pass is good at the start and at the end of the season, in hundredths.
const SQUAD: [(&str, u16, u8, u8); 20] = [
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
    ("Anouk", 17, 56, 63),
    ("Tibo", 18, 44, 57),
    ("Fenna", 19, 61, 74),
    ("Malo", 20, 38, 52),
    ("Isra", 21, 50, 68),
    ("Yuna", 22, 57, 60),
    ("Sorin", 23, 46, 51),
    ("Kalle", 24, 53, 65),
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
/// Half past five, when the hall is theirs, for ninety minutes.
const START_MIN: u16 = 17 * 60 + 30;
const START_MS: i64 = START_MIN as i64 * MINUTE_MS;
/// So many of the last practices ran by a plan; so many days ahead stand in the calendar.
const N_PLANNED: usize = 8;
const DAYS_AHEAD: u64 = 35;
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
        .take(size.n_children)
        .map(|(name, number, ..)| {
            let fact = Fact::PlayerAdded { name: (*name).to_owned(), number: Some(ShirtNumber(*number)) };
            PlayerId(maker.note(fact, typed))
        })
        .collect();
    for (player, style) in squad.iter().zip(STYLES.iter().copied().cycle()) {
        maker.note(Fact::StyleNoted { player: *player, revision: Revision(1), style }, typed);
    }
    let mut specs = DrillSpec::starters(|i| words::drills::STARTERS[i].to_owned());
    specs.push(own_drill());
    let drills: Vec<(DrillId, DrillSpec)> = specs
        .into_iter()
        .map(|spec| (DrillId(maker.note(Fact::DrillAdded { spec: spec.clone() }, typed)), spec))
        .collect();
    dates(&mut maker, &evenings, &drills, now, typed);
    let base = maker.taken();
    let first_planned = evenings.len().saturating_sub(N_PLANNED);
    let practices = evenings.into_iter().zip(0_u32..).map(|(start, i)| {
        let progress = f64::from(i) / f64::from(size.n_practices.max(2) - 1);
        let evening = EVENINGS[i as usize % EVENINGS.len()];
        let plan: Vec<&(DrillId, DrillSpec)> = evening.iter().map(|drill| &drills[*drill]).collect();
        let evening = Night { n: u64::from(i) + 1, start, by_plan: i as usize >= first_planned };
        maker.practice(&evening, &squad, &plan, progress, size.n_contacts_a_practice)
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

/// A date for every evening and for those of the next weeks: the first of these has a plan, the third is dropped.
fn dates(maker: &mut Maker, evenings: &[Stamp], drills: &[(DrillId, DrillSpec)], now: Stamp, typed: Stamp) {
    let ahead = (1..DAYS_AHEAD).filter_map(|n| now.day().checked_add_days(Days::new(n)));
    let ahead = ahead.filter(|day| is_evening(day.weekday()));
    let n_past = evenings.len();
    for (i, day) in evenings.iter().map(|start| start.day()).chain(ahead).enumerate() {
        let place = words::calendar::DEMO_PLACE.to_owned();
        let date = PracticeDate { day, start_min: START_MIN, minutes: Plan::GYM_MIN, place };
        let date = DateId(maker.note(Fact::DateSet { date }, typed));
        if i == n_past {
            let plan = PlanId(maker.note(Fact::PlanMade { plan: plan(&[&drills[0], &drills[5], &drills[3]]) }, typed));
            maker.note(Fact::DatePlanned { date, revision: Revision(1), plan: Some(plan) }, typed);
        }
        if i == n_past + 2 {
            maker.note(Fact::DateDropped { date, revision: Revision(1), dropped: true }, typed);
        }
    }
}

/// An arrival game, a warm-up without a ball, then these drills.
fn plan(drills: &[&(DrillId, DrillSpec)]) -> Plan {
    let plain = |kind, minutes| PlanPart::plain(kind, words::plan::kind(kind).to_owned(), minutes);
    let mut plan = Plan::new();
    plan.put(usize::MAX, plain(PartKind::Arrival, 8));
    plan.put(usize::MAX, plain(PartKind::Other, 7));
    for (drill, spec) in drills {
        plan.put(usize::MAX, PlanPart::of_drill(*drill, spec, 22));
    }
    plan
}

fn is_evening(weekday: Weekday) -> bool {
    matches!(weekday, Weekday::Tue | Weekday::Fri)
}

/// The last so many Tuesdays and Fridays before today, the earliest first, each at the hour when practice begins.
fn evenings(n: u32, now: Stamp) -> Vec<Stamp> {
    let local_ms = now.wall_ms + i64::from(now.offset_min) * MINUTE_MS;
    let midnight_ms = now.wall_ms - local_ms.rem_euclid(DAY_MS);
    // Two evenings in seven days: so many days hold enough of them.
    let days = 1..=i64::from(n) * 4 + 7;
    let starts = days.map(|n_days| midnight_ms - n_days * DAY_MS + START_MS);
    let starts = starts.map(|wall_ms| Stamp { wall_ms, mono_ms: 0, ..now });
    let practised = starts.filter(|start| is_evening(start.day().weekday()));
    let mut evenings: Vec<Stamp> = practised.take(n as usize).collect();
    evenings.reverse();
    evenings
}
