//! Counts over weeks: every child's balls of one kind, day by day, as summaries have them. What levels are worked out from; says nothing of
//! how good anyone is.

use super::checks::Checks;
use super::ids::PlayerId;
use super::lots::{Lot, Seen, What};
use super::met::{Served, Sides};
use super::skill::{Feed, Skill};
use super::summary::{PracticeSummary, RunSummary};
use crate::stats::agreement::{drawn, reading};
use crate::stats::arrange::arranged;
use crate::stats::proportion::Count;
use crate::stats::{faced, level};
use chrono::{Days, NaiveDate};

/// Everyone's balls of one kind: a skill, and how the ball was given.
#[derive(Clone, Debug, PartialEq)]
pub struct Series {
    pub skill: Skill,
    pub feed: Feed,
    /// Of passes and serves: by grade or by where it went, so by one line for all; else the drill or whoever told it said what is good.
    pub by_one_line: bool,
    pub children: Vec<(PlayerId, Vec<level::Seen>)>,
    pub n_tries: u32,
    /// Whose serves these were, as far as that is known.
    pub served: Vec<ServedOn>,
}

/// Serves of one child that another passed on one day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ServedOn {
    pub day: i32,
    pub passer: PlayerId,
    pub server: PlayerId,
    pub count: Count,
}

/// What a ball of a told number is worth beside one that the coach tapped. Nobody sees those balls twice, so no check can show it. A choice of
/// ours, no published value.
const TOLD: f64 = 0.5;

/// What was checked, over all practices: for stations as a whole, never a child.
pub fn checked(practices: &[&PracticeSummary]) -> Checks {
    let mut all = Checks::default();
    practices.iter().flat_map(|practice| &practice.runs).for_each(|run| all.add(&run.checks));
    all
}

/// One series for each kind of ball, the one with most balls first. Games are left out: what is noted there is some of the balls, not all.
/// `practices` in any order; those of a day to come are left out, for a clock was wrong then or is now.
pub fn series(practices: &[&PracticeSummary], today: NaiveDate) -> Vec<Series> {
    let mut all: Vec<Series> = Vec::new();
    let mut by_day: Vec<(i32, &PracticeSummary)> =
        practices.iter().map(|practice| (day_no(practice.started.day()), *practice)).collect();
    by_day.retain(|(day, _)| *day <= day_no(today));
    let past: Vec<&PracticeSummary> = by_day.iter().map(|(_, practice)| *practice).collect();
    let checks = checked(&past);
    for (day, practice) in arranged(by_day, |a, b| a.0.cmp(&b.0)) {
        for run in practice.runs.iter().filter(|run| run.game.is_none()) {
            for lot in &run.lots {
                note(&mut all, &skill_of(lot, &run.skill), day, lot, worth(lot, &checks));
            }
            note_served(&mut all, day, run);
        }
    }
    read_own_scores(&mut all, &checks);
    arranged(all, |a: &Series, b| b.n_tries.cmp(&a.n_tries))
}

/// What games say of who met whom: a match's passes by whose serve they were, and rallies by their sides, over all the time until today.
pub fn games(practices: &[&PracticeSummary], today: NaiveDate) -> (Vec<ServedOn>, Vec<Sides>) {
    let (mut served, mut all): (Vec<ServedOn>, Vec<Sides>) = (Vec::new(), Vec::new());
    for practice in practices.iter().filter(|practice| practice.started.day() <= today) {
        let day = day_no(practice.started.day());
        for met in practice.runs.iter().filter(|run| run.game.is_some()).map(|run| &run.met) {
            let of = |one: &Served| ServedOn { day, passer: one.passer, server: one.server, count: one.count };
            served.extend(met.served.iter().map(of));
            for one in &met.sides {
                let is =
                    |had: &&mut Sides| (had.served, &had.first, &had.second) == (one.served, &one.first, &one.second);
                match all.iter_mut().find(is) {
                    Some(had) => {
                        (had.won, had.lost) = (had.won.saturating_add(one.won), had.lost.saturating_add(one.lost))
                    }
                    None => all.push(one.clone()),
                }
            }
        }
    }
    (served, all)
}

/// What its balls are worth: those that a child scored itself, what checks of such balls have shown.
pub(super) fn worth(lot: &Lot, checks: &Checks) -> f64 {
    match lot.seen {
        Seen::Tapped | Seen::Watched => 1.0,
        Seen::BySelf => reading(checks.good(lot.what)).worth,
        Seen::Told => TOLD,
    }
}

/// Once such balls were checked, what each child scored itself is read as the checks say: by their sensitivity and specificity, from its own share
/// of all its days.
fn read_own_scores(all: &mut [Series], checks: &Checks) {
    for series in all {
        let what = if series.by_one_line { What::of(&series.skill) } else { What::Own };
        read_as_checked(&mut series.children, checks.good(what));
    }
}

/// The same of some children's balls of one kind, by what checks of such balls have shown.
pub(super) fn read_as_checked(children: &mut [(PlayerId, Vec<level::Seen>)], good: [u32; 4]) {
    if good == [0; 4] {
        return;
    }
    let reading = reading(good);
    let scored = |seen: &[level::Seen]| -> Count {
        seen.iter().filter(|seen| seen.weight == reading.worth).map(|seen| seen.count).sum()
    };
    let everyone = children.iter().map(|(_, seen)| scored(seen)).sum();
    for (_, seen) in children {
        let (offset, error) = reading.offset(drawn(scored(seen), everyone));
        for one in seen.iter_mut().filter(|seen| seen.weight == reading.worth) {
            (one.offset, one.weight) = (offset, one.weight * faced::worth(one.count, error));
        }
    }
}

/// Of passes alone something is known of who served them; a game's are in no series.
fn note_served(all: &mut [Series], day: i32, run: &RunSummary) {
    for one in &run.met.served {
        let is = |series: &&mut Series| series.skill == Skill::Pass && series.feed == one.feed && series.by_one_line;
        if let Some(series) = all.iter_mut().find(is) {
            series.served.push(ServedOn { day, passer: one.passer, server: one.server, count: one.count });
        }
    }
}

fn note(all: &mut Vec<Series>, skill: &Skill, day: i32, lot: &Lot, weight: f64) {
    let by_one_line = matches!(skill, Skill::Own(_)) || lot.is_by_one_line();
    let is_it =
        |series: &Series| series.skill == *skill && series.feed == lot.feed && series.by_one_line == by_one_line;
    let at = all.iter().position(is_it).unwrap_or_else(|| {
        let (children, served) = (Vec::new(), Vec::new());
        all.push(Series { skill: skill.clone(), feed: lot.feed, by_one_line, children, n_tries: 0, served });
        all.len() - 1
    });
    let series = &mut all[at];
    let child = series.children.iter().position(|(player, _)| *player == lot.player).unwrap_or_else(|| {
        series.children.push((lot.player, Vec::new()));
        series.children.len() - 1
    });
    let count = lot.by_the_common_line();
    series.n_tries = series.n_tries.saturating_add(count.tries());
    let seen = &mut series.children[child].1;
    // The same day's balls of the same worth are one occasion.
    match seen.iter_mut().find(|had| had.day == day && had.weight == weight) {
        Some(had) => had.count = had.count + count,
        None => seen.push(level::Seen { day, count, weight, offset: 0.0 }),
    }
}

fn skill_of(lot: &Lot, of_run: &Skill) -> Skill {
    match lot.what {
        What::Pass => Skill::Pass,
        What::Serve => Skill::Serve,
        What::Own => of_run.clone(),
    }
}

/// Days since the first of January 1970.
pub fn day_no(day: NaiveDate) -> i32 {
    i32::try_from(day.signed_duration_since(NaiveDate::default()).num_days()).unwrap_or(i32::MAX)
}

pub fn day_of(no: i32) -> NaiveDate {
    let days = Days::new(u64::try_from(no).unwrap_or(0));
    NaiveDate::default().checked_add_days(days).unwrap_or_default()
}
