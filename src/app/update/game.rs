//! A game between two rallies: what is said of the serve that comes, and its pace. The rally itself is one entry of `floor`.

use super::super::action::Action;
use super::super::effect::{Call, Effect, Signal};
use super::super::model::Model;
use super::super::screen::Screen;
use super::super::words::board_lines;
use super::run::on_screen;
use crate::domain::entry::Side;
use crate::domain::ids::RunId;
use crate::domain::replay::run::RunState;

/// When each word of the count comes after the rally: the serve after about two seconds, ready or not (common practice, no source).
const COUNT_MS: [u32; 3] = [700, 1_400, 2_100];

/// The side that serves next: the rule's, or the other one if the coach said so.
pub fn serves(model: &Model, run: &RunState) -> Side {
    let proposed = run.main.score.serves_next().unwrap_or(Side::Far);
    if model.board.other_serves { proposed.other() } else { proposed }
}

/// A second serve, or the other side's: of the rally that comes, and forgotten when it is over.
pub fn serve_tapped(model: &mut Model, action: &Action) -> Vec<Effect> {
    let Some(run) = on_screen(model).filter(|run| run.spec.rule.is_game() && model.is_mine(run)) else {
        return Vec::new();
    };
    let has_second = run.spec.rule.has_second_serve();
    let board = &mut model.board;
    match action {
        Action::SecondServeTapped if has_second => board.second_serve = !board.second_serve,
        Action::OtherServesTapped => board.other_serves = !board.other_serves,
        _ => return Vec::new(),
    }
    board.last_tap_ms = model.now.mono_ms;
    board.n_taps = board.n_taps.wrapping_add(1);
    // The serve that was being counted for is served again.
    hush(model).into_iter().collect()
}

/// What was said of the serve is said of one rally. (The entry is worked out before.)
pub fn rally_over(model: &mut Model, run: RunId, action: &Action) {
    if model.runs.get(&run).is_some_and(|run| run.spec.rule.is_game())
        && matches!(action, Action::SideWon(_) | Action::UndoTapped | Action::TeamsMixed)
    {
        model.board.second_serve = false;
        model.board.other_serves = false;
    }
}

/// After a rally the phone counts to the next serve; every other tap breaks it off.
pub fn pace(model: &Model, run: RunId, action: &Action) -> Option<Effect> {
    let run = model.runs.get(&run)?;
    if !is_told(model) || !run.spec.rule.is_paced() {
        return None;
    }
    if !matches!(action, Action::SideWon(_)) {
        return Some(Effect::TellLater(Vec::new()));
    }
    let over = run.main.score.rule().over(0).is_some() && !model.board.play_on;
    let words = COUNT_MS.into_iter().zip(board_lines::PACE).filter(|_| !over);
    Some(Effect::TellLater(words.map(|(ms, word)| (ms, Signal::Call(Call::Pace, word.to_owned()))).collect()))
}

/// Leaving the board breaks a count off.
pub fn hush(model: &Model) -> Option<Effect> {
    let Screen::Run(run) = model.screen else { return None };
    let run = model.runs.get(&run)?;
    (is_told(model) && run.spec.rule.is_paced()).then(|| Effect::TellLater(Vec::new()))
}

/// The one place that says whether the count is heard at all.
fn is_told(model: &Model) -> bool {
    model.settings.voice || model.settings.sound
}
