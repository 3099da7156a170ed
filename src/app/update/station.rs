//! The phone is with children who score themselves: what they can do, and what leads nowhere until the coach has it back.

use super::super::action::Action;
use super::super::model::Model;
use super::super::screen::Screen;
use super::run::taking_back;
use crate::domain::drill::Board;
use crate::domain::entry::Fact;
use crate::domain::ids::{ContactId, RunId};
use crate::domain::replay::run::RunState;
use crate::domain::skill::Outcome;

/// Two taps on one key within this time are one.
const DOUBLE_TAP_MS: u64 = 350;

/// Where the phone stays: the run of today whose station is open, unless another window is at it.
pub fn held(model: &Model) -> Option<RunId> {
    match model.screen {
        // Asked at every tap: the run on screen tells it without a search.
        Screen::Run(id) => model.runs.get(&id).filter(|run| is_open(model, run)).map(|run| run.id),
        _ => open_today(model),
    }
}

/// The same, whatever the address says: for the start of a page. Another window may have begun a run of its own since.
pub(super) fn open_today(model: &Model) -> Option<RunId> {
    let practice = model.practice_today()?;
    let open = |id: &&RunId| model.runs.get(id).is_some_and(|run| is_open(model, run));
    practice.runs.iter().rev().find(open).copied()
}

fn is_open(model: &Model, run: &RunState) -> bool {
    let open = run.main.station.is_some() && !run.main.finished;
    open && !model.is_elsewhere(run) && model.own.get(run.id.0).is_some()
}

/// Where a way leads: back to the station while it is open.
pub(super) fn led(model: &Model, screen: Screen) -> Screen {
    held(model).map_or(screen, Screen::Run)
}

/// What a child can't ask for.
pub(super) fn refuses(model: &Model, action: &Action) -> bool {
    let allowed = matches!(
        action,
        Action::Go(_)
            | Action::OutcomeTapped(_)
            | Action::NameTapped(_)
            | Action::LaneTapped(_)
            | Action::UndoTapped
            | Action::StationLeft
            | Action::Uncovered
            | Action::TakeOver(_)
            | Action::ReadAgain
            | Action::SaveAgain
    );
    !allowed && held(model).is_some()
}

/// The second of a double tap. Drumming on one key is one tap too.
pub(super) fn is_double(model: &mut Model, action: &Action) -> bool {
    let counts = matches!(action, Action::OutcomeTapped(_) | Action::LaneTapped(_));
    if !counts || held(model).is_none() {
        return false;
    }
    let now_ms = model.now.mono_ms;
    let before = model.board.station_tap.replace((action.clone(), now_ms));
    before.is_some_and(|(was, at)| was == *action && now_ms.saturating_sub(at) < DOUBLE_TAP_MS)
}

/// The phone can't have changed hands within this time of the child's tap: what is tapped until then is the child's second tap.
const HANDED_MS: u64 = 1_000;

/// Which boards children can score on by themselves.
pub fn fits(run: &RunState) -> bool {
    run.spec.rule.transition().is_none()
        && matches!(
            run.spec.board,
            Board::Line { .. }
                | Board::ServeLine { .. }
                | Board::ServeFloor { .. }
                | Board::Propped { .. }
                | Board::Group
                | Board::Lanes
        )
}

/// What a child may undo: the very last tap, if that was a ball noted here. Never twice in a row.
pub fn own_last(run: &RunState) -> Option<ContactId> {
    let station = run.main.station?;
    let goes_on = |fact: &Fact| matches!(fact, Fact::RunTakenOver { .. });
    let last = run.lately().find(|entry| !goes_on(&entry.fact))?;
    let noted = run.main.contacts.last().filter(|c| c.id.0 == last.id && run.main.contacts.len() > station.from)?;
    noted.contact.self_scored.then_some(noted.id)
}

/// What the coach saw of the child's ball; a kind of outcome that the ball can't have, not seen. Nothing right after the child's tap, by the reading
/// of the page that noted it; a page that began since has a reading of its own, and nobody taps while it begins.
pub(super) fn check(model: &Model, run: &RunState, outcome: Outcome) -> Option<Fact> {
    let ball = run.main.to_check()?;
    let is_own = ball.id.0.series == model.writer.series();
    let is_childs = is_own && model.now.mono_ms.saturating_sub(ball.at.mono_ms) < HANDED_MS;
    (!is_childs).then_some(Fact::BallChecked { run: run.id, contact: ball.id, outcome })
}

/// The fact of a child's undo.
pub(super) fn undo(run: &RunState) -> Option<Fact> {
    own_last(run).map(|contact| taking_back(run, contact.0))
}
