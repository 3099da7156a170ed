//! Groups at once: a key and an undo for each. Only good ones are counted, so no rate is told.

use super::{GroupFigure, Keys, Lane, figures};
use crate::app::model::Model;
use crate::domain::ids::GroupNo;
use crate::domain::replay::run::RunState;

pub fn lanes(model: &Model, run: &RunState) -> Keys {
    let groups = run.main.lineup.groups_numbered();
    let lane = |(no, players): (GroupNo, &Vec<_>)| {
        let figure: GroupFigure = figures::group(model, run, no, players);
        Lane { can_undo: run.main.last_of_lane(no).is_some(), empty: players.is_empty(), figure }
    };
    Keys::Lanes { lanes: groups.map(lane).collect() }
}
