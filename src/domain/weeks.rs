//! Counts over weeks: every child's balls of one kind, day by day, as summaries have them. What levels are worked out from; says nothing of
//! how good anyone is.

use super::ids::PlayerId;
use super::lots::{Lot, Seen, What};
use super::skill::{Feed, Skill};
use super::summary::PracticeSummary;
use crate::stats::arrange::arranged;
use crate::stats::level;
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
}

/// What a ball is worth that nobody but the child itself has judged, beside one that the coach tapped, until a check of both has shown what
/// it is worth. A choice of ours, no published value.
const BY_THE_CHILD: f64 = 0.5;

/// One series for each kind of ball, the one with most balls first. Games are left out: what is noted there is some of the balls, not all.
/// `practices` in any order; those of a day to come are left out, for a clock was wrong then or is now.
pub fn series(practices: &[&PracticeSummary], today: NaiveDate) -> Vec<Series> {
    let mut all: Vec<Series> = Vec::new();
    let mut by_day: Vec<(i32, &PracticeSummary)> =
        practices.iter().map(|practice| (day_no(practice.started.day()), *practice)).collect();
    by_day.retain(|(day, _)| *day <= day_no(today));
    for (day, practice) in arranged(by_day, |a, b| a.0.cmp(&b.0)) {
        for run in practice.runs.iter().filter(|run| run.game.is_none()) {
            for lot in &run.lots {
                note(&mut all, &skill_of(lot, &run.skill), day, lot);
            }
        }
    }
    arranged(all, |a: &Series, b| b.n_tries.cmp(&a.n_tries))
}

fn note(all: &mut Vec<Series>, skill: &Skill, day: i32, lot: &Lot) {
    let by_one_line = matches!(skill, Skill::Own(_)) || lot.is_by_one_line();
    let is_it =
        |series: &Series| series.skill == *skill && series.feed == lot.feed && series.by_one_line == by_one_line;
    let at = all.iter().position(is_it).unwrap_or_else(|| {
        all.push(Series { skill: skill.clone(), feed: lot.feed, by_one_line, children: Vec::new(), n_tries: 0 });
        all.len() - 1
    });
    let series = &mut all[at];
    let child = series.children.iter().position(|(player, _)| *player == lot.player).unwrap_or_else(|| {
        series.children.push((lot.player, Vec::new()));
        series.children.len() - 1
    });
    let count = lot.by_the_common_line();
    series.n_tries = series.n_tries.saturating_add(count.tries());
    let weight = match lot.seen {
        Seen::Tapped | Seen::Watched => 1.0,
        Seen::BySelf | Seen::Told => BY_THE_CHILD,
    };
    let seen = &mut series.children[child].1;
    // The same day's balls of the same worth are one occasion.
    match seen.iter_mut().find(|had| had.day == day && had.weight == weight) {
        Some(had) => had.count = had.count + count,
        None => seen.push(level::Seen { day, count, weight }),
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
