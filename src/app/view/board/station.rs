//! What children see who score themselves: whose turn it is, their own balls played, their names. No rate, no rank, nobody else's
//! numbers. And for the coach: to whom the phone can be handed.

use super::{NameKey, OutcomeKey, keys};
use crate::app::model::Model;
use crate::app::update::{clock_goes, fits_station, own_last};
use crate::app::words::{board_lines, station as words};
use crate::domain::drill::Board;
use crate::domain::ids::{GroupNo, PlayerId, RunId};
use crate::domain::replay::part::Station;
use crate::domain::replay::run::RunState;
use crate::domain::scoring::Who;
use crate::domain::skill::Skill;

/// The screen of a station.
#[derive(Clone, Debug, PartialEq)]
pub struct StationView {
    /// "Group 2", where it is one group's.
    pub group: Option<String>,
    /// Whose turn it is; where no names are kept, all together.
    pub turn: String,
    /// "Mira: 10 done", until the next child's first ball.
    pub ten: Option<String>,
    /// "12 balls played"
    pub played: String,
    /// Each child taps its own; none where no names are kept.
    pub names: Vec<NameKey>,
    pub keys: StationKeys,
    /// "Undo my last (Mira)", where the last tap can be undone.
    pub undo: Option<String>,
    /// The rule says that it is over.
    pub done: bool,
    /// No child is here.
    pub nobody: bool,
    /// The clock stands: the keys rest, and the children are told why.
    pub waits: bool,
    /// The keys of a ball rest: it is over, nobody is here, or the clock stands. Never on the coach's turn: that ball was played.
    pub rests: bool,
    /// The coach stands beside and judges ten balls too, each right after the child.
    pub check: Option<StationCheck>,
}

/// Who is to tap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StationCheck {
    Child,
    /// The ball that was just scored.
    Coach,
}

#[derive(Clone, Debug, PartialEq)]
pub enum StationKeys {
    Outcomes(Vec<OutcomeKey>),
    /// A good one of this group.
    Lane(GroupNo),
}

pub fn station(model: &Model, run: &RunState) -> Option<StationView> {
    let part = &run.main;
    let Station { group, .. } = part.station?;
    let over = part.score.rule().over(part.clock.shown_ms(model.writer.series(), model.now)).is_some();
    let current = part.current(&run.spec);
    let line = part.turn_order(&run.spec);
    let all_played = || words::played(part.everyone.all().tries());
    let of_lane = |group| words::good_together(part.score.rule().standing(Who::Group(group)).now);
    let checking = part.to_check();
    let (turn, played) = match (&line, current) {
        // The coach's turn, at the ball that was just scored.
        _ if checking.is_some() => {
            let of = checking.and_then(|ball| ball.contact.player);
            (of.map_or_else(|| words::ALL.to_owned(), |player| model.name_of(player)), String::new())
        }
        (Some(_), Some(player)) => (model.name_of(player), words::played(n_played(run, player))),
        (Some(_), None) => (words::NOBODY.to_owned(), String::new()),
        (None, _) => match group.filter(|_| run.spec.board == Board::Lanes) {
            Some(group) => (board_lines::group_name(group), of_lane(group)),
            None => (words::ALL.to_owned(), all_played()),
        },
    };
    let played = match part.n_checked() {
        Some(n) if played.is_empty() => words::checked(n),
        Some(n) => words::and_checked(&played, n),
        None => played,
    };
    // Who has had its ten, twenty … sees so, and whose turn is next.
    let ten = part.contacts.last().and_then(|last| last.contact.player).filter(|last| Some(*last) != current);
    let ten = ten.map(|last| (last, n_played(run, last))).filter(|(_, n)| *n > 0 && n % TEN == 0);
    let ten = ten.filter(|_| line.is_some() && checking.is_none());
    let nobody = line.is_some() && current.is_none();
    let waits = !over && !clock_goes(model, run);
    Some(StationView {
        group: group.map(board_lines::group_name),
        turn,
        ten: ten.map(|(last, n)| words::ten_done(&board_lines::brief(&model.name_of(last)), n)),
        played,
        names: keys::names(model, run, line.as_deref().unwrap_or_default()),
        keys: match (run.spec.board, group) {
            (Board::Lanes, group) => StationKeys::Lane(group.unwrap_or(GroupNo(0))),
            _ => StationKeys::Outcomes(outcomes(run)),
        },
        undo: own_last(run).and_then(|_| part.contacts.last()).map(|last| match last.contact.player {
            Some(player) => words::undo(&board_lines::brief(&model.name_of(player))),
            None => words::UNDO.to_owned(),
        }),
        done: over,
        nobody,
        waits,
        rests: checking.is_none() && (over || nobody || waits),
        check: part.n_checked().map(|_| if checking.is_some() { StationCheck::Coach } else { StationCheck::Child }),
    })
}

/// Whether the coach can judge beside the children who score themselves: where each ball is some child's, or the one ball of all.
pub fn can_check(model: &Model, run: RunId) -> bool {
    model.runs.get(&run).is_some_and(|run| fits_station(run) && run.spec.board != Board::Lanes)
}

/// To whom the phone can be handed: everyone, or one of the groups. Nobody where the board needs the coach. Asked for only while the
/// strip shows it.
pub fn stations(model: &Model, run: RunId) -> Vec<(Option<GroupNo>, String)> {
    let Some(run) = model.runs.get(&run).filter(|run| fits_station(run)) else { return Vec::new() };
    let groups = run.main.lineup.groups_numbered().filter(|(_, players)| !players.is_empty());
    let group = |(no, players): (GroupNo, &Vec<PlayerId>)| {
        let names: Vec<String> = players.iter().map(|player| model.name_of(*player)).collect();
        (Some(no), board_lines::group_with(no, &names))
    };
    // A lane is one group's.
    let all = (run.spec.board != Board::Lanes).then(|| (None, words::OPEN_ALL.to_owned()));
    all.into_iter().chain(groups.map(group)).collect()
}

/// Balls after which a child has done its part.
const TEN: u32 = 10;

fn n_played(run: &RunState, player: PlayerId) -> u32 {
    run.main.by_child.get(&player).map_or(0, |tally| tally.all().tries())
}

/// Four vessels of a pass, four places of a serve (nobody judges its own swing), else good or not.
fn outcomes(run: &RunState) -> Vec<OutcomeKey> {
    match (run.spec.board, &run.spec.skill) {
        (Board::Line { .. }, Skill::Pass) => keys::grades().to_vec(),
        (Board::ServeLine { .. } | Board::ServeFloor { .. }, _) => {
            keys::serves(false).into_iter().map(|(steady, _)| steady).collect()
        }
        _ => keys::two_keys().to_vec(),
    }
}
