//! A child's own small goal: one more than it usually has. For the coach's eyes; never at a station, never beside another's.

use crate::app::model::Model;
use crate::domain::ids::{PlayerId, RunId};
use crate::domain::replay::run::RunState;
use crate::domain::rule::Rule;
use crate::domain::summary::{Counts, Reached};
use crate::stats::arrange::arranged;

/// Of so many earlier runs of the same drill a goal can be told.
const RUNS: usize = 3;

/// One more than the median of the child's good ones in its last three runs of this drill before this one, by the same rule
/// and of as many balls; nothing while it has fewer, or where everyone isn't playing together.
pub fn of(model: &Model, run: &RunState, player: PlayerId) -> Option<u32> {
    worked_out(model, run, player, |when| when < (run.started.wall_ms, run.id))
}

/// The same for next time: this run is the last of the three.
pub fn next(model: &Model, run: &RunState, player: PlayerId) -> Option<u32> {
    worked_out(model, run, player, |when| when <= (run.started.wall_ms, run.id))
}

fn worked_out(
    model: &Model,
    run: &RunState,
    player: PlayerId,
    counts_in: impl Fn((i64, RunId)) -> bool,
) -> Option<u32> {
    let Rule::Together(rule) = run.spec.rule else { return None };
    let alike = |had: Option<Reached>| had.is_some_and(|had| had.is_of(&rule));
    let mut had: Vec<((i64, RunId), u32)> = Vec::new();
    let mut take = |when, counts: Counts| {
        if counts_in(when) && counts.n_noted() > 0 {
            had.push((when, counts.good()));
        }
    };
    for other in model.runs.values().filter(|r| r.drill == run.drill && r.drill.is_some() && alike(Reached::of(r))) {
        if let Some(tally) = other.main.by_child.get(&player) {
            take((other.started.wall_ms, other.id), Counts::of(tally));
        }
    }
    let packed = model.packed.values().flat_map(|p| &p.summary.runs);
    let packed = packed.filter(|r| r.drill == run.drill && r.drill.is_some() && alike(r.together));
    for other in packed.filter(|r| !model.runs.contains_key(&r.run)) {
        if let Some((_, counts)) = other.children.iter().find(|(child, _)| *child == player) {
            take((other.started.wall_ms, other.run), *counts);
        }
    }
    let latest = arranged(had, |(a, _), (b, _)| b.cmp(a)).into_iter().take(RUNS).map(|(_, good)| good).collect();
    let last: Vec<u32> = arranged(latest, Ord::cmp);
    (last.len() == RUNS).then(|| last[RUNS / 2] + 1)
}
