//! The floor of a game as the coach sees it: who stands where on which side, who serves, who waits.

use super::{Figures, GameView, NameKey, NoteDue, NotesView, TeamView, Token, WaitView};
use crate::app::model::Model;
use crate::app::update::{is_served, on_court, serves};
use crate::app::words::{board_lines, in_match};
use crate::domain::entry::Side;
use crate::domain::ids::PlayerId;
use crate::domain::replay::run::RunState;
use crate::domain::rule::{MatchGame, Rule, WinnersStay};
use crate::domain::scoring::Score;
use crate::domain::scoring::match_game::NoteNext;

pub fn game(model: &Model, run: &RunState) -> GameView {
    let serves = serves(run);
    GameView {
        near: team(model, run, Side::Near, serves),
        far: team(model, run, Side::Far, serves),
        line: line(model, run),
        serves,
        turned: model.settings.turned,
        second: run.spec.rule.has_second_serve().then_some(run.main.serve_said.second),
        other: run.main.serve_said.other_side,
        no_other: is_served(run),
        notes: notes(model, run, serves),
        paced: (run.spec.rule.is_paced() && !run.main.rallies.is_empty())
            .then_some(run.main.rallies.len().is_multiple_of(2)),
    }
}

/// The one line over the figures: who serves the rally that comes, and what may be noted of the one that is on.
pub fn call(model: &Model, run: &RunState) -> Option<String> {
    if !run.spec.rule.is_game() {
        return None;
    }
    if let Some(line) = note_call(model, run) {
        return Some(line);
    }
    let side = serves(run);
    let is_match = is_match(run);
    let server = on_court(run, side).first().filter(|_| is_match).map(|server| model.name_of(*server));
    let second = run.main.serve_said.second && run.spec.rule.has_second_serve();
    Some(board_lines::side_serves(side, is_match, server.as_deref(), second))
}

/// Nothing where it is to be said who serves.
fn note_call(model: &Model, run: &RunState) -> Option<String> {
    let server = || on_court(run, serves(run)).first().map(|server| model.name_of(*server));
    Some(match run.main.note_next()? {
        NoteNext::Serve => return None,
        NoteNext::Passer if is_served(run) => in_match::WHO_PASSED.to_owned(),
        NoteNext::Passer => in_match::serves_who_passes(&server()?),
        NoteNext::Grade(player) => in_match::target_moved(&model.name_of(player)),
        NoteNext::Rally => in_match::TAP_WINNER.to_owned(),
    })
}

fn notes(model: &Model, run: &RunState, serves: Side) -> Option<NotesView> {
    let score = run.main.score.match_game()?;
    let due = match run.main.note_next()? {
        NoteNext::Serve => NoteDue::Serve,
        NoteNext::Passer => NoteDue::Passer,
        NoteNext::Grade(_) => NoteDue::Grade,
        NoteNext::Rally => NoteDue::Rally,
    };
    let side = serves.other();
    let receivers = on_court(run, side);
    let at_top = is_at_top(model, side);
    let mut rows = stand(receivers.len(), true, at_top);
    // Rows of unequal length: those at the net always first, so that no key moves when the other side receives.
    if at_top && rows.first().map(Vec::len) != rows.last().map(Vec::len) {
        rows.reverse();
    }
    let key = |at: usize| NameKey { player: receivers[at], name: model.name_of(receivers[at]), current: false };
    Some(NotesView {
        due,
        passes: score.rule().passes,
        receivers: rows.into_iter().map(|row| row.into_iter().map(key).collect()).collect(),
        noted: in_match::noted(score.on().serve, score.on().pass),
    })
}

fn is_at_top(model: &Model, side: Side) -> bool {
    (side == Side::Near) == model.settings.turned
}

pub fn figures(run: &RunState) -> Option<Figures> {
    let now = run.main.score.rule().standing(crate::domain::scoring::Who::Everyone).now;
    let (of, goal) = match run.spec.rule {
        Rule::WinnersStay(WinnersStay { to, .. }) => {
            let how = (to > 1).then(|| board_lines::short_games(to));
            (board_lines::games(now), how.or((now == 0).then(|| board_lines::TAP_WHO_WON.to_owned())))
        }
        Rule::MatchGame(MatchGame { to, .. }) => (board_lines::rallies(now), Some(board_lines::match_to(to))),
        _ => return None,
    };
    Some(Figures { n_good: now, of, goal, reached: false })
}

/// How a match ended.
pub fn over(run: &RunState) -> Option<String> {
    let Score::MatchGame(score) = &run.main.score else { return None };
    let points = |side| score.points(side);
    let won = score.won()?;
    Some(board_lines::over_match(won, points(won), points(won.other())))
}

/// Everyone of a game in the order in which they play and wait.
pub fn in_order(run: &RunState) -> impl Iterator<Item = PlayerId> + '_ {
    run.main.lineup.groups.iter().flatten().copied()
}

fn is_match(run: &RunState) -> bool {
    matches!(run.spec.rule, Rule::MatchGame(_))
}

/// Who is over the number of a match waits beside the court.
fn beside(run: &RunState, side: Side) -> &[PlayerId] {
    let at = if side == Side::Near { 0 } else { 1 };
    let group = run.main.lineup.groups.get(at).map_or(&[][..], Vec::as_slice);
    &group[on_court(run, side).len()..]
}

fn team(model: &Model, run: &RunState, side: Side, serves: Side) -> TeamView {
    let is_match = is_match(run);
    let players = on_court(run, side);
    let at_top = is_at_top(model, side);
    let token = |at: usize| Token {
        name: model.name_of(players[at]),
        serves: is_match && at == 0 && serves == side,
        place: is_match.then(|| u8::try_from(at + 1).unwrap_or(u8::MAX)),
    };
    let rows = stand(players.len(), is_match, at_top);
    TeamView {
        side: board_lines::side(side, is_match),
        rows: rows.into_iter().map(|row| row.into_iter().map(token).collect()).collect(),
        n: players.len(),
        points: match &run.main.score {
            Score::MatchGame(score) => Some(score.points(side)),
            Score::WinnersStay(score) if score.is_short_game() => {
                Some(if side == Side::Near { score.game().0 } else { score.game().1 })
            }
            _ => None,
        },
        more: match &run.main.score {
            Score::WinnersStay(score) => Some(score.streak_of(players)).filter(|n| *n > 0).map(board_lines::streak),
            // Where serves or passes are noted their keys have the room of the line.
            Score::MatchGame(score) if score.note_next(None).is_some() && !beside(run, side).is_empty() => {
                Some(in_match::beside(&names(model, beside(run, side))))
            }
            _ => None,
        },
    }
}

/// Who stands where on a half, as rows from the top of the screen, each from its left. Seen from behind the half its net row is the
/// upper one; from across the net everything is the other way round.
///
/// In a match by the positions of the rule-book (FIVB Official Volleyball Rules 2025-28, 7.4.1): 4, 3, 2 at the net, 5, 6, 1 behind.
/// With fewer a side the order of rotation stays clockwise and the server stands behind at the right.
fn stand(n: usize, is_match: bool, at_top: bool) -> Vec<Vec<usize>> {
    let (net, behind): (Vec<usize>, Vec<usize>) = match (is_match, n) {
        (true, 6) => (vec![3, 2, 1], vec![4, 5, 0]),
        (true, 5) => (vec![3, 2, 1], vec![4, 0]),
        (true, 4) => (vec![2, 1], vec![3, 0]),
        (true, 3) => (vec![2, 1], vec![0]),
        (false, 0..=3) | (true, 0..=2) => ((0..n).rev().collect(), Vec::new()),
        _ => ((0..n.div_ceil(2)).rev().collect(), (n.div_ceil(2)..n).collect()),
    };
    let mut rows: Vec<Vec<usize>> = [net, behind].into_iter().filter(|row| !row.is_empty()).collect();
    if at_top {
        rows.reverse();
        rows.iter_mut().for_each(|row| row.reverse());
    }
    rows
}

fn line(model: &Model, run: &RunState) -> Vec<WaitView> {
    if is_match(run) {
        let beside = [Side::Near, Side::Far].map(|side| {
            let waiting = beside(run, side);
            (!waiting.is_empty())
                .then(|| WaitView { word: board_lines::side(side, true).to_owned(), who: names(model, waiting) })
        });
        return beside.into_iter().flatten().collect();
    }
    let teams = run.main.lineup.groups.iter().skip(2).enumerate();
    teams.map(|(at, team)| WaitView { word: board_lines::waits(at), who: names(model, team) }).collect()
}

fn names(model: &Model, group: &[PlayerId]) -> String {
    group.iter().map(|player| model.name_of(*player)).collect::<Vec<_>>().join(", ")
}
