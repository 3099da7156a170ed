//! The page is seen again after a long sleep: no clock and no turn by minutes is over by it alone, since a wall clock that was put forward
//! meanwhile looks like sleep. Short ones go on as if nobody had slept.

use super::super::effect::Effect;
use super::super::model::{Model, TurnSlept};
use super::{floor, write};
use crate::domain::entry::Fact;
use crate::domain::replay::run::RunState;
use crate::domain::time::Absence;

/// A clock that would have run out stands at what it showed before, and the board says why.
pub(super) fn woke(model: &mut Model, absence: Absence) -> Vec<Effect> {
    if !absence.is_long() {
        return Vec::new();
    }
    super::plan::woke(model, absence);
    let on = |run: &&RunState| model.is_mine(run) && !run.main.finished;
    let turn = model.runs.values().filter(on).find_map(|run| turn_slept(model, run, absence));
    let stops: Vec<Fact> = model.runs.values().filter(on).filter_map(|run| stop(model, run, absence)).collect();
    model.board.turn_slept = turn.or(model.board.turn_slept);
    model.board.slept |= !stops.is_empty();
    write(model, stops)
}

fn stop(model: &Model, run: &RunState, absence: Absence) -> Option<Fact> {
    let going = run.main.clock.is_going() && floor::left_ms(model, run)? == 0;
    let shown = run.main.clock.shown_ms(model.writer.series(), model.now);
    let before = shown.saturating_sub(u32::try_from(absence.hidden_ms).unwrap_or(u32::MAX));
    let over = run.main.score.rule().over(before).is_some();
    (going && !over).then_some(Fact::ClockSet { run: run.id, going: false, shown_ms: before, slept: true })
}

/// What a turn that goes by minutes slept through is no part of it, where it would be over by that.
fn turn_slept(model: &Model, run: &RunState, absence: Absence) -> Option<TurnSlept> {
    let (_, from) = run.main.turn_from?;
    let before = model.turn_slept_ms(run);
    let is_over = |slept_ms| run.turn_lasted(model.writer.series(), model.now, slept_ms);
    (is_over(before) && !is_over(before + absence.slept_ms))
        .then_some(TurnSlept { from, ms: before + absence.slept_ms })
}
