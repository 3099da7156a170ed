//! Levels over weeks, worked out of counts: takes some hundred milliseconds on a slow phone, so it is the worker's.

pub mod days;

use serde::{Deserialize, Serialize};

use self::days::OddDay;
use super::Answer;
use super::doing::Done;
use super::rated::{self, Met};
use crate::stats::level::{Levels, Seen, fit};
use crate::stats::many::standing;
use crate::stats::proportion::{Confidence, Count};

/// One child's occasions: day, good, tries, worth of a try in hundredths, offset in hundredths of log-odds.
pub type Counts = Vec<(i32, u32, u32, u8, i16)>;

/// One child in one kind of ball. Levels are mean and spread of the log-odds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Found {
    /// After each occasion, with all that was seen before and since.
    pub at: Vec<(i32, f64, f64)>,
    /// Today.
    pub now: (f64, f64),
    pub change: Option<Changed>,
    /// How the level of each occasion hangs together with the last one's: covariances, from which a change since any of them is told.
    pub with_last: Vec<f64>,
    /// What each occasion was held against: the share that all the others lead to, for tries as hard as that day's, and how far so many stray from it
    /// (a standard deviation).
    pub expected: Vec<Option<(f64, f64)>>,
    /// Of these occasions, in their order, those that are far from all the others.
    pub odd: Vec<OddDay>,
}

/// From some weeks ago to the last occasion, in shares of 1.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Changed {
    /// The day since when.
    pub since: i32,
    pub low: f64,
    pub likely: f64,
    pub high: f64,
    /// The chance that it is higher now.
    pub up: f64,
    /// It stands though everyone else was looked at too: of such claims about one in ten is none.
    pub stands: bool,
}

/// A change is told from the first occasion of so many days before the last one.
const FURTHEST: i32 = 42;
/// And not of a shorter time than this.
const NEAREST: i32 = 14;
/// Nothing is told of a child that hasn't been seen for so many days: what it was then isn't what it is.
const AWAY: i32 = 21;
/// Of the changes that are told, so many may be none (Benjamini and Hochberg 1995).
const FALSE_SHARE: f64 = 0.1;

pub fn work_out(today: i32, series: &[Vec<Counts>], met: &Met) -> Done {
    let of_child = |counts: &Counts| counts.iter().filter_map(seen).collect();
    let mut all_seen: Vec<Vec<Vec<Seen>>> =
        series.iter().map(|children| children.iter().map(of_child).collect()).collect();
    rated::correct(&mut all_seen, met);
    let mut all: Vec<Vec<Found>> = all_seen.iter().map(|seen| of_one(today, seen)).collect();
    hold_down(&mut all);
    days::hold_down(&mut all);
    all.iter_mut().flatten().for_each(shorten);
    Done::said(Answer::Levels { series: all, sides: rated::sides(met) })
}

/// Six digits after the point are more than anything that is drawn or told: the rest is left out, so that the page, which must not be kept
/// long, has less to read.
fn shorten(found: &mut Found) {
    let short = |n: &mut f64| *n = (*n * 1e6).round() / 1e6;
    let pair = |(a, b): &mut (f64, f64)| [a, b].into_iter().for_each(short);
    found.at.iter_mut().for_each(|(_, mean, sd)| [mean, sd].into_iter().for_each(short));
    pair(&mut found.now);
    found.with_last.iter_mut().for_each(short);
    found.expected.iter_mut().flatten().for_each(pair);
    if let Some(change) = &mut found.change {
        [&mut change.low, &mut change.likely, &mut change.high, &mut change.up].into_iter().for_each(short);
    }
}

fn of_one(today: i32, seen: &[Vec<Seen>]) -> Vec<Found> {
    let Some(levels) = fit(seen) else { return Vec::new() };
    let found = |(child, seen): (usize, &Vec<Seen>)| {
        let at = seen.iter().enumerate();
        let at = at.filter_map(|(n, seen)| levels.at(child, n).map(|level| (seen.day, level.parts())));
        let now = levels.on(child, today).unwrap_or(levels.newcomer());
        Found {
            at: at.map(|(day, (mean, sd))| (day, mean, sd)).collect(),
            now: now.parts(),
            change: change(&levels, today, child, seen),
            with_last: (0..seen.len()).filter_map(|n| levels.with_last(child, n)).collect(),
            expected: seen.iter().enumerate().map(|(n, seen)| levels.expected(child, n, *seen)).collect(),
            odd: days::odd(&levels, child, seen),
        }
    };
    seen.iter().enumerate().map(found).collect()
}

/// Over all children and all kinds of balls at once, since a coach looks at all of them.
fn hold_down(all: &mut [Vec<Found>]) {
    let changes = || all.iter().flatten().filter_map(|found| found.change);
    // Both ways are looked at, so either counts twice.
    let two_sided: Vec<f64> = changes().map(|change| 2.0 * change.up.min(1.0 - change.up)).collect();
    let stand = standing(&two_sided, FALSE_SHARE);
    let changes = all.iter_mut().flatten().filter_map(|found| found.change.as_mut());
    changes.zip(stand).for_each(|(change, stands)| change.stands = stands);
}

pub(super) fn seen((day, good, tries, worth, offset): &(i32, u32, u32, u8, i16)) -> Option<Seen> {
    let [weight, offset] = [f64::from(*worth), f64::from(*offset)].map(|hundredths| hundredths / 100.0);
    Some(Seen { day: *day, count: Count::new(*good, *tries)?, weight, offset })
}

/// Since the first occasion of the last weeks; of a shorter time nothing is said.
fn change(levels: &Levels, today: i32, child: usize, seen: &[Seen]) -> Option<Changed> {
    let last = seen.last().map(|last| last.day).filter(|last| today.saturating_sub(*last) <= AWAY)?;
    let since = seen.iter().position(|seen| last.saturating_sub(seen.day) <= FURTHEST)?;
    let day = seen.get(since).filter(|then| last.saturating_sub(then.day) >= NEAREST)?.day;
    let change = levels.change(child, since, Confidence::P95)?;
    Some(Changed {
        since: day,
        low: change.low,
        likely: change.likely,
        high: change.high,
        up: change.up,
        stands: false,
    })
}
