//! A game beside its rallies: what is said of the serve that comes, a match's serves and passes, the pace. The rally itself is one
//! entry of `floor`.

use super::super::action::Action;
use super::super::effect::{Call, Effect, Signal};
use super::super::model::Model;
use super::super::screen::Screen;
use super::super::words::board_lines;
use super::floor;
use crate::domain::entry::{Contact, Fact, Said, Side};
use crate::domain::ids::{GroupNo, Place, PlayerId, RunId};
use crate::domain::replay::run::RunState;
use crate::domain::scoring::match_game::{NoteNext, RallyOn, decided_by};
use crate::domain::skill::{GoodFrom, Outcome, PassGrade, Role};

/// When each word of the count comes after the rally: the serve after about two seconds, ready or not (common practice, no source).
const COUNT_MS: [u32; 3] = [700, 1_400, 2_100];

/// The side that serves next: the rule's, or the other one if the coach said so.
pub fn serves(run: &RunState) -> Side {
    let proposed = run.main.score.serves_next().unwrap_or(Side::Far);
    if run.main.serve_said.other_side { proposed.other() } else { proposed }
}

/// A second serve, or the other side's, of the rally that comes; or not after all. Once that serve is noted it is too late, and one side
/// alone plays none.
pub(super) fn serve_said(model: &Model, run: &RunState, what: Said) -> Option<Fact> {
    let said = run.main.serve_said;
    let (was, may) = match what {
        Said::OtherSide => (said.other_side, run.spec.rule.is_game() && !is_served(run)),
        Said::Second => (said.second, run.spec.rule.has_second_serve()),
    };
    let plays = [Side::Near, Side::Far].into_iter().all(|side| !floor::on_court(run, side).is_empty());
    (may && plays && floor::counts_now(model, run)).then_some(Fact::ServeSaid { run: run.id, what, on: !was })
}

/// Something of the rally that is on is noted.
pub fn is_served(run: &RunState) -> bool {
    run.main.score.match_game().is_some_and(|score| score.on() != RallyOn::default())
}

/// This child passes the serve, if it stands where the serve comes.
pub(super) fn passer(model: &Model, run: &RunState, player: PlayerId) -> Option<Fact> {
    let may = matches!(run.main.note_next(), Some(NoteNext::Passer | NoteNext::Grade(_)));
    let stands = floor::on_court(run, serves(run).other()).contains(&player);
    (may && stands && floor::counts_now(model, run)).then_some(Fact::TurnGiven { run: run.id, player })
}

/// A serve with its outcome, or the pass of the child that was named; with the rally that the serve decides.
pub(super) fn noted(model: &Model, run: &RunState, outcome: Outcome) -> Vec<Fact> {
    let served = serves(run);
    let server = floor::on_court(run, served).first().copied();
    let none = floor::on_court(run, served.other()).is_empty() || !floor::counts_now(model, run);
    match (run.main.note_next(), outcome, server) {
        (Some(NoteNext::Serve), Outcome::Serve { outcome: went, .. }, Some(player)) if !none => {
            let style = model.base.style_of(player);
            let serve = Contact { style, ..contact(model, run, player, (served, Role::Server), outcome) };
            let rally = decided_by(went, served).and_then(|won| floor::rally(model, run, won));
            [Fact::ContactNoted { run: run.id, contact: serve }].into_iter().chain(rally).collect()
        }
        (Some(NoteNext::Grade(player)), Outcome::Pass { .. }, Some(_)) if !none => {
            let pass = Contact { server, ..contact(model, run, player, (served.other(), Role::Passer), outcome) };
            vec![Fact::ContactNoted { run: run.id, contact: pass }]
        }
        _ => Vec::new(),
    }
}

/// The facts as they are on screen: the position is the place.
fn contact(model: &Model, run: &RunState, player: PlayerId, (side, role): (Side, Role), outcome: Outcome) -> Contact {
    let at = floor::on_court(run, side).iter().position(|stands| *stands == player);
    let good_from = match role {
        Role::Server => GoodFrom::ServeIn,
        _ => GoodFrom::Grade(PassGrade::Moved),
    };
    let group = Some(GroupNo(if side == Side::Near { 0 } else { 1 }));
    Contact {
        player: Some(player),
        role,
        place: at.and_then(|at| u8::try_from(at).ok()).map(Place),
        outcome,
        good_from,
        feed: floor::feed_of(model, run, Some(player), group),
        style: None,
        turn: None,
        server: None,
        self_scored: false,
        group,
        clock_ms: floor::shown(model, run),
        watched: false,
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
