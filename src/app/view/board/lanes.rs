//! Groups at once: a key and an undo for each. Only good ones are counted, so no rate is told.

use super::{GroupFigure, Keys, Lane, LaneStep, figures};
use crate::app::model::Model;
use crate::app::words::ladder;
use crate::domain::ids::{GroupNo, Step};
use crate::domain::replay::run::RunState;

pub fn lanes(model: &Model, run: &RunState) -> Keys {
    let groups = run.main.lineup.groups_numbered();
    let lane = |(no, players): (GroupNo, &Vec<_>)| {
        let figure: GroupFigure = figures::group(model, run, no, players);
        Lane {
            can_undo: run.main.last_of_lane(no).is_some(),
            empty: players.is_empty(),
            step: run.spec.rule.has_groups().then(|| step(run, no)),
            figure,
        }
    };
    Keys::Lanes { lanes: groups.map(lane).collect() }
}

/// The ball this group is fed, and the next on the ladder.
fn step(run: &RunState, group: GroupNo) -> LaneStep {
    let skill = &run.spec.skill;
    let now = run.main.group_steps.get(&group).copied().unwrap_or(run.main.feed.step);
    let next = if now >= ladder::TOP { Step(0) } else { Step(now.0 + 1) };
    LaneStep { word: ladder::step(skill, now), next }
}
