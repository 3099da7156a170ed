//! Which practices and balls a page over the weeks looks at: those up to today, for a practice of a day to come has a wrong clock, or this phone
//! has; and what is called lately.

use crate::app::model::Model;
use crate::domain::ids::PlayerId;
use crate::domain::lots::{Lot, Seen};
use crate::domain::skill::Skill;
use crate::domain::summary::{PracticeSummary, RunSummary};
use crate::domain::weeks::day_no;

/// What is told as lately.
pub const WEEKS: u32 = 6;
/// So many weeks stand side by side.
pub const N_WEEKS: i32 = 8;

pub fn up_to_today<'a>(model: &Model, practices: Vec<&'a PracticeSummary>) -> Vec<&'a PracticeSummary> {
    let today = day_no(model.now.day());
    practices.into_iter().filter(|practice| day_no(practice.started.day()) <= today).collect()
}

pub fn is_recent(model: &Model, practice: &PracticeSummary) -> bool {
    let ago = day_no(model.now.day()) - day_no(practice.started.day());
    (0..=i32::try_from(WEEKS * 7).unwrap_or(0)).contains(&ago)
}

/// How many weeks before this one, 0 for this one; weeks begin on a Monday. `None` before all those that are shown, or in the future.
pub fn weeks_ago(model: &Model, practice: &PracticeSummary) -> Option<i32> {
    // The first of January 1970 was a Thursday.
    let week = |day: i32| (day + 3).div_euclid(7);
    let ago = week(day_no(model.now.day())) - week(day_no(practice.started.day()));
    (0..N_WEEKS).contains(&ago).then_some(ago)
}

/// The Monday of a week so many weeks ago.
pub fn monday(model: &Model, ago: i32) -> i32 {
    let today = day_no(model.now.day());
    today - (today + 3).rem_euclid(7) - 7 * ago
}

/// Runs that are no games: not every ball of a game is noted.
pub fn drills(practice: &PracticeSummary) -> impl Iterator<Item = &RunSummary> {
    practice.runs.iter().filter(|run| run.game.is_none())
}

/// Balls of one child in drills of the last weeks, that somebody else saw.
pub fn recent_seen<'a>(
    model: &'a Model,
    practices: &'a [&'a PracticeSummary],
    player: PlayerId,
) -> impl Iterator<Item = (&'a Skill, &'a Lot)> {
    let runs = practices.iter().filter(|p| is_recent(model, p)).flat_map(|p| drills(p));
    let lots = runs.flat_map(|run| run.lots.iter().map(move |lot| (&run.skill, lot)));
    lots.filter(move |(_, lot)| lot.player == player && matches!(lot.seen, Seen::Tapped | Seen::Watched))
}
