//! Overhead swings and jumps of a child, as far as they are noted: at its last practice, this week, the weeks before. Always "at least"; there is
//! the usual caution and no limit of ours.

use super::chart::{Columns, columns};
use super::kinds::told_day;
use super::past::{N_WEEKS, monday, weeks_ago};
use crate::app::model::Model;
use crate::app::words::weeks as words;
use crate::app::words::weeks::load as load_words;
use crate::domain::ids::PlayerId;
use crate::domain::summary::PracticeSummary;
use crate::domain::weeks::day_no;

#[derive(Clone, Debug, PartialEq)]
pub struct LoadView {
    /// At the last practice that the child was at, and this week; one sentence where there is nothing.
    pub lines: Vec<String>,
    /// Swings a week, jumps among them.
    pub weeks: Option<Columns>,
}

pub fn load(model: &Model, practices: &[&PracticeSummary], player: PlayerId) -> Option<LoadView> {
    let last = practices.iter().find(|practice| practice.took_part(player))?;
    // Of whom nothing was noted in all these weeks nothing is told.
    weeks_ago(model, last)?;
    let today = day_no(model.now.day());
    let day = day_no(last.started.day());
    let when = if day == today { words::TODAY.to_owned() } else { told_day(model, day) };
    let of_week = |ago: i32| {
        let of = practices.iter().filter(|practice| weeks_ago(model, practice) == Some(ago));
        of.map(|practice| sum(practice, player)).fold((0, 0), add)
    };
    let weeks: Vec<(i32, (u32, u32))> = (0..N_WEEKS).rev().map(|ago| (ago, of_week(ago))).collect();
    let week = |ago: i32| words::week(&told_day(model, monday(model, ago)), ago);
    let pairs: Vec<(u32, u32)> = weeks.iter().map(|(_, n)| *n).collect();
    let columns = pairs.iter().any(|(n, _)| *n > 0).then(|| Columns {
        columns: columns(&pairs),
        first: told_day(model, monday(model, N_WEEKS - 1)),
        last: words::THIS_WEEK.to_owned(),
        label: load_words::columns(N_WEEKS),
        rows: weeks
            .iter()
            .rev()
            .map(|(ago, (swings, jumps))| (week(*ago), load_words::noted(*swings, *jumps)))
            .collect(),
    });
    let (swings, jumps) = sum(last, player);
    let (in_week, jumps_in_week) = of_week(0);
    Some(LoadView {
        lines: match columns {
            None => vec![load_words::none(N_WEEKS)],
            Some(_) => vec![load_words::at_practice(&when, swings, jumps), load_words::in_week(in_week, jumps_in_week)],
        },
        weeks: columns,
    })
}

/// Of everyone this week, in the squad's order: those of whom something was noted.
pub fn this_week(model: &Model, practices: &[&PracticeSummary]) -> Vec<(String, String)> {
    let now: Vec<&PracticeSummary> = practices.iter().copied().filter(|p| weeks_ago(model, p) == Some(0)).collect();
    let one = |player: PlayerId| {
        let (swings, jumps) = now.iter().map(|practice| sum(practice, player)).fold((0, 0), add);
        (swings > 0).then(|| (model.name_of(player), load_words::noted(swings, jumps)))
    };
    model.squad().iter().filter_map(|player| one(player.id)).collect()
}

fn sum(practice: &PracticeSummary, player: PlayerId) -> (u32, u32) {
    let loads = practice.runs.iter().flat_map(|run| &run.loads).filter(|load| load.player == player);
    loads.map(|load| (load.swings, load.jumps)).fold((0, 0), add)
}

fn add(a: (u32, u32), b: (u32, u32)) -> (u32, u32) {
    (a.0.saturating_add(b.0), a.1.saturating_add(b.1))
}
