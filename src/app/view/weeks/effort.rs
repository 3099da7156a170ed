//! What was noticed of a child's effort: moments and kinds over the weeks. No rate: it tells of the coach's eyes as much as of the child.

use super::chart::{Columns, columns};
use super::kinds::told_day;
use super::past::{N_WEEKS, WEEKS, is_recent, monday, weeks_ago};
use crate::app::model::Model;
use crate::app::words::weeks as words;
use crate::app::words::weeks::effort as effort_words;
use crate::domain::ids::PlayerId;
use crate::domain::summary::PracticeSummary;
use crate::stats::arrange::arranged;

#[derive(Clone, Debug, Default, PartialEq)]
pub struct EffortView {
    pub line: Option<String>,
    /// "3 dives, 2 chased to the wall": of the same weeks.
    pub kinds: Vec<(String, u32)>,
    /// Moments a week.
    pub weeks: Option<Columns>,
}

pub fn effort(model: &Model, practices: &[&PracticeSummary], player: PlayerId) -> EffortView {
    EffortView {
        line: efforts_line(model, practices, player),
        kinds: by_kind(model, practices, player),
        weeks: by_week(model, practices, player),
    }
}

pub fn efforts_line(model: &Model, practices: &[&PracticeSummary], player: PlayerId) -> Option<String> {
    let recent: Vec<&PracticeSummary> = practices.iter().copied().filter(|p| is_recent(model, p)).collect();
    let n_there = recent.iter().filter(|p| p.took_part(player)).count();
    words::efforts(recent.iter().map(|p| n_efforts(p, player)).sum(), n_there, recent.len(), WEEKS)
}

fn n_efforts(practice: &PracticeSummary, player: PlayerId) -> u32 {
    let of = practice.runs.iter().flat_map(|run| &run.children).filter(|(child, _)| *child == player);
    of.map(|(_, counts)| counts.n_efforts).sum()
}

/// The kind that was noticed most first; of as many, as they came.
fn by_kind(model: &Model, practices: &[&PracticeSummary], player: PlayerId) -> Vec<(String, u32)> {
    let mut kinds: Vec<(String, u32)> = Vec::new();
    let recent = practices.iter().filter(|p| is_recent(model, p)).flat_map(|p| &p.runs);
    for alike in recent.flat_map(|run| &run.efforts).filter(|alike| alike.player == player) {
        let kind = alike.kind.clone().unwrap_or_else(|| effort_words::NO_KIND.to_owned());
        match kinds.iter_mut().find(|(known, _)| *known == kind) {
            Some((_, n)) => *n += alike.n,
            None => kinds.push((kind, alike.n)),
        }
    }
    arranged(kinds, |a: &(String, u32), b| b.1.cmp(&a.1))
}

fn by_week(model: &Model, practices: &[&PracticeSummary], player: PlayerId) -> Option<Columns> {
    let n = |ago: i32| {
        let of_week = practices.iter().filter(|p| weeks_ago(model, p) == Some(ago));
        of_week.map(|p| n_efforts(p, player)).sum::<u32>()
    };
    let counts: Vec<(i32, u32)> = (0..N_WEEKS).rev().map(|ago| (ago, n(ago))).collect();
    // One week is no picture.
    if counts.iter().filter(|(_, n)| *n > 0).count() < 2 {
        return None;
    }
    let week = |ago: i32| words::week(&told_day(model, monday(model, ago)), ago);
    let pairs: Vec<(u32, u32)> = counts.iter().map(|(_, n)| (*n, 0)).collect();
    Some(Columns {
        columns: columns(&pairs),
        first: told_day(model, monday(model, N_WEEKS - 1)),
        last: words::THIS_WEEK.to_owned(),
        label: effort_words::columns(N_WEEKS),
        rows: counts.iter().rev().map(|(ago, n)| (week(*ago), n.to_string())).collect(),
    })
}
