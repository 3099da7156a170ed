//! Groups: which ones a run opens with.

use super::super::model::Model;
use crate::domain::drill::DrillSpec;
use crate::domain::ids::PlayerId;

/// The groups of a run that is about to start: those of this practice where they fit, else everyone dealt out evenly. None where
/// the drill wants none.
pub(super) fn opening(model: &Model, spec: &DrillSpec, here: &[PlayerId]) -> Vec<Vec<PlayerId>> {
    let Some(n) = wanted(spec, here.len()) else { return Vec::new() };
    let made = model.practice_today().map(|practice| practice.groups).unwrap_or_default();
    let made: Vec<Vec<PlayerId>> =
        made.into_iter().map(|group| group.into_iter().filter(|player| here.contains(player)).collect()).collect();
    let whole = made.iter().flatten().count() == here.len() && made.iter().all(|group: &Vec<_>| !group.is_empty());
    if made.len() == n && whole {
        return made;
    }
    (0..n).map(|at| here.iter().copied().skip(at).step_by(n).collect()).collect()
}

/// How many groups a drill wants of so many children: its own number, or teams of so many a side.
pub(super) fn wanted(spec: &DrillSpec, n_here: usize) -> Option<usize> {
    let teams = spec.rule.a_side().map(|a_side| match spec.rule {
        crate::domain::rule::Rule::MatchGame(_) => 2,
        // To the nearest number of teams, and always two.
        _ => ((n_here + usize::from(a_side) / 2) / usize::from(a_side)).max(2),
    });
    teams.or(spec.on_floor.groups.map(usize::from))
}
