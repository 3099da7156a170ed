//! The floor of a game: who plays on which side, who waits, who serves.

use super::{GameView, TeamView};
use crate::app::model::Model;
use crate::app::words::board_lines;
use crate::domain::entry::Side;
use crate::domain::ids::PlayerId;
use crate::domain::replay::run::RunState;
use crate::domain::scoring::Score;

pub fn game(model: &Model, run: &RunState) -> GameView {
    let part = &run.main;
    let is_match = matches!(part.score, Score::MatchGame(_));
    let a_side = usize::from(run.spec.rule.a_side().unwrap_or(u8::MAX));
    let names = |group: &[PlayerId]| -> Vec<String> { group.iter().map(|player| model.name_of(*player)).collect() };
    let team = |side: Side| {
        let at = if side == Side::Near { 0 } else { 1 };
        let group = part.lineup.groups.get(at).map_or(&[][..], Vec::as_slice);
        // In a match who is over the number a side waits beside the court.
        let on_court = if is_match { &group[..group.len().min(a_side)] } else { group };
        TeamView {
            side: board_lines::side(side, is_match),
            who: names(on_court),
            points: match &part.score {
                Score::MatchGame(score) => Some(score.points(side)),
                Score::WinnersStay(score) if score.is_short_game() => {
                    Some(if side == Side::Near { score.game().0 } else { score.game().1 })
                }
                _ => None,
            },
            more: match &part.score {
                Score::WinnersStay(score) if side == Side::Near && score.streak() > 0 => {
                    Some(board_lines::streak(score.streak()))
                }
                _ => None,
            },
        }
    };
    GameView {
        near: team(Side::Near),
        far: team(Side::Far),
        line: part.lineup.groups.iter().skip(2).map(|group| names(group).join(", ")).collect(),
        serves: serves(run),
        turned: model.settings.turned,
    }
}

/// The side that the rule lets serve next.
pub fn serves(run: &RunState) -> Side {
    match &run.main.score {
        Score::WinnersStay(score) => score.serves_next(),
        Score::MatchGame(score) => score.serves_next(),
        _ => Side::Far,
    }
}
