//! The longest row of good ones at each practice. Shown, and never called anything: rows come by chance, too.

use super::Told;
use super::chart::{Columns, columns};
use super::past::drills;
use crate::app::model::Model;
use crate::app::words::counts;
use crate::app::words::weeks::rows as words;
use crate::domain::ids::PlayerId;
use crate::domain::summary::PracticeSummary;

/// So many practices stand side by side.
const MOST: usize = 12;

pub fn rows(model: &Model, practices: &[&PracticeSummary], player: PlayerId) -> Option<Told> {
    let today = model.now.day();
    // Practices in which a row could be seen: a child's balls one by one.
    let mut all: Vec<(&PracticeSummary, u32)> = Vec::new();
    for practice in practices {
        let of = drills(practice).flat_map(|run| &run.children).filter(|(child, _)| *child == player);
        let seen: Vec<u32> = of
            .filter(|(_, counts)| (counts.easy + counts.challenge).tries() > 0)
            .map(|(_, counts)| counts.best_easy.max(counts.best_challenge))
            .collect();
        if let Some(best) = seen.into_iter().max() {
            all.push((practice, best));
        }
    }
    // The latest of the longest.
    let (when, best) = all.iter().fold(None, |best: Option<(&PracticeSummary, u32)>, one| match best {
        Some((_, n)) if n >= one.1 => best,
        _ => Some(*one),
    })?;
    let shown: Vec<&(&PracticeSummary, u32)> = all.iter().take(MOST).rev().collect();
    let told = |practice: &PracticeSummary| counts::date(practice.started.day(), today);
    let columns = (shown.len() > 1).then(|| Columns {
        columns: columns(&shown.iter().map(|(_, n)| (*n, 0)).collect::<Vec<_>>()),
        first: shown.first().map(|(practice, _)| told(practice)).unwrap_or_default(),
        last: shown.last().map(|(practice, _)| told(practice)).unwrap_or_default(),
        label: words::columns(shown.len()),
        rows: shown.iter().rev().map(|(practice, n)| (told(practice), words::row(*n))).collect(),
    });
    Some(Told { line: words::longest(best, &told(when)), columns })
}
