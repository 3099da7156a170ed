//! Who goes on with a run: a page that opens it, takes it over, starts it once more or opens a finished one again. What is tapped on
//! it is `run`'s.

use super::super::effect::{Effect, LockState};
use super::super::model::{BoardMemory, Model};
use super::super::screen::Screen;
use super::run::taking_back;
use super::{floor, go, write};
use crate::domain::entry::Fact;
use crate::domain::ids::RunId;
use crate::domain::replay::run::RunState;

/// A run's screen opens: goes on with it where this page may.
pub fn open(model: &mut Model) -> Vec<Effect> {
    let on_screen = match model.screen {
        Screen::Run(id) => Some(id),
        _ => None,
    };
    // Opened again (after a look at the list, say), the board is as it was left.
    if model.board.run != on_screen {
        // What was slept through is of a clock and a turn, whichever board is open.
        let BoardMemory { n_taps, slept, turn_slept, .. } = model.board;
        model.board = BoardMemory { n_taps, slept, turn_slept, run: on_screen, ..Default::default() };
    }
    model.board.last_tap_ms = model.now.mono_ms;
    let mut effects = vec![Effect::RunOn(true)];
    effects.extend(go_on(model));
    effects
}

/// Goes on with the run on screen by itself, if no other window of this phone is writing.
pub fn go_on(model: &mut Model) -> Vec<Effect> {
    let Screen::Run(id) = model.screen else { return Vec::new() };
    if model.lock != LockState::Held {
        return Vec::new();
    }
    let Some(run) = model.runs.get(&id) else { return Vec::new() };
    let ours = model.own.get(id.0).is_some();
    // A window that is at it keeps it until the coach says that it goes on here.
    if model.is_mine(run) || model.is_elsewhere(run) || run.main.finished || !ours {
        return Vec::new();
    }
    let taken = taken_over(model, run);
    write(model, vec![taken])
}

pub fn taken_over(model: &Model, run: &RunState) -> Fact {
    Fact::RunTakenOver { run: run.id, after: run.last_seen(), recorder: model.writer.device.clone() }
}

pub(super) fn take_over(model: &mut Model, id: RunId) -> Vec<Effect> {
    let Some(run) = model.runs.get(&id) else { return Vec::new() };
    let facts = if model.is_mine(run) { Vec::new() } else { vec![taken_over(model, run)] };
    let mut effects = vec![Effect::TakeLock];
    effects.extend(write(model, facts));
    effects.extend(go(model, Screen::Run(id)));
    effects
}

/// The run is finished, and its drill starts once more as it is kept now.
pub(super) fn again(model: &mut Model, id: RunId) -> Vec<Effect> {
    let Some(run) = model.runs.get(&id).filter(|run| model.is_mine(run)) else { return Vec::new() };
    let Some(drill) = run.drill.filter(|drill| model.base.drill(*drill).is_some()) else { return Vec::new() };
    let ends = if run.main.finished { Vec::new() } else { floor::ending(model, run).collect() };
    let played = (run.main.lineup.groups.clone(), run.main.group_steps.clone());
    let mut effects = write(model, ends);
    effects.extend(super::practice::start_as(model, drill, &played));
    effects
}

/// A finished run is opened again: its end is taken back, and this page goes on with it.
pub(super) fn reopen(model: &mut Model, id: RunId) -> Vec<Effect> {
    let Some(run) = model.runs.get(&id) else { return Vec::new() };
    let ends = run.entries().filter(|e| matches!(e.fact, Fact::RunFinished { .. }) && !run.amended.is_taken_back(e.id));
    let mut facts: Vec<Fact> = ends.map(|e| taking_back(run, e.id)).collect();
    if !model.is_mine(run) {
        facts.push(taken_over(model, run));
    }
    let practice = run.practice;
    if model.is_own(practice) {
        if let Some(ended) = model.base.ended_by(practice).filter(|_| model.leads(practice)) {
            let revision = model.base.next_take_back(ended);
            facts.push(Fact::EntryTakenBack { run: None, target: ended, revision, back: true });
        }
        model.packed.remove(&practice);
    }
    let mut effects = write(model, facts);
    effects.extend(go(model, Screen::Run(id)));
    effects
}
