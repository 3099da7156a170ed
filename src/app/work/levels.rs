//! Levels over weeks, worked out of counts: takes some hundred milliseconds on a slow phone, so it is the worker's.

use serde::{Deserialize, Serialize};

use super::Answer;
use super::doing::Done;
use crate::stats::level::{Levels, Seen, fit};
use crate::stats::many::standing;
use crate::stats::proportion::{Confidence, Count};

/// One child's occasions: day, good, tries, worth of a try in hundredths.
pub type Counts = Vec<(i32, u32, u32, u8)>;

/// One child in one kind of ball. Levels are mean and spread of the log-odds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Found {
    /// After each occasion, with all that was seen before and since.
    pub at: Vec<(i32, f64, f64)>,
    /// Today.
    pub now: (f64, f64),
    pub change: Option<Changed>,
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

/// So far back a change is looked for, and no less: in days.
const FURTHEST: i32 = 42;
const NEAREST: i32 = 14;
/// Of the changes that are told, so many may be none (Benjamini and Hochberg 1995).
const FALSE_SHARE: f64 = 0.1;

pub fn work_out(today: i32, series: &[Vec<Counts>]) -> Done {
    Done::said(Answer::Levels { series: series.iter().map(|children| of_one(today, children)).collect() })
}

fn of_one(today: i32, children: &[Counts]) -> Vec<Found> {
    let seen: Vec<Vec<Seen>> = children.iter().map(|counts| counts.iter().filter_map(seen).collect()).collect();
    let Some(levels) = fit(&seen) else { return Vec::new() };
    let changes: Vec<Option<Changed>> = (0..seen.len()).map(|child| change(&levels, child, &seen[child])).collect();
    let up: Vec<f64> = changes.iter().flatten().map(|change| change.up).collect();
    // Both ways are looked at, so either counts twice.
    let two_sided: Vec<f64> = up.iter().map(|up| 2.0 * up.min(1.0 - up)).collect();
    let mut stands = standing(&two_sided, FALSE_SHARE).into_iter();
    let found = |(child, changed): (usize, Option<Changed>)| {
        let stands = changed.is_some() && stands.next().unwrap_or(false);
        let at = seen[child].iter().enumerate();
        let at = at.filter_map(|(n, seen)| levels.at(child, n).map(|level| (seen.day, level.parts())));
        let now = levels.on(child, today).unwrap_or(levels.newcomer());
        Found {
            at: at.map(|(day, (mean, sd))| (day, mean, sd)).collect(),
            now: now.parts(),
            change: changed.map(|change| Changed { stands, ..change }),
        }
    };
    changes.into_iter().enumerate().map(found).collect()
}

fn seen((day, good, tries, worth): &(i32, u32, u32, u8)) -> Option<Seen> {
    Some(Seen { day: *day, count: Count::new(*good, *tries)?, weight: f64::from(*worth) / 100.0 })
}

/// Since the first occasion of the last weeks; of a shorter time nothing is said.
fn change(levels: &Levels, child: usize, seen: &[Seen]) -> Option<Changed> {
    let last = seen.last()?.day;
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
