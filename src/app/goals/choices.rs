//! What a rule is played for, the balls that it is reached in, and the goals to choose among.

use crate::app::work::goals::Game;
use crate::domain::drill::{Board, DrillSpec};
use crate::domain::plan::expect::{Each, Expected};
use crate::domain::rule::{DuelBetween, InRow, InTime, Rule, Tens, Together, TransitionEnd, Whose};

const MOST_ROW: u32 = 40;
const MOST_RACE: u32 = 50;
/// Goals of a total go by twos, and by fives, from so many balls on: nobody cares for the one between.
const BY_TWOS_FROM: u32 = 30;
const BY_FIVES_FROM: u32 = 100;
const MOST_TOTAL: u32 = 200;
/// Points of two sides: each is worked out through every state there is.
const DUEL: [u32; 16] = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 15, 20, 25, 30];
const MATCH: [u32; 9] = [5, 8, 10, 12, 15, 18, 21, 25, 30];
/// Games in a row: as far as the drill's own number goes.
const STAY: std::ops::RangeInclusive<u32> = 2..=9;

/// How a rule's goal is worked out, with so many children.
pub(super) fn game(spec: &DrillSpec, n_here: usize) -> Game {
    let step = |falls: bool| if falls { 5 } else { 0 };
    match spec.rule {
        Rule::Tally { .. } | Rule::Together(Together { row: false, .. }) => Game::Total,
        Rule::InRow(InRow { whose: Whose::Child, falls_to_five, .. }) => Game::OwnRow { step: step(falls_to_five) },
        Rule::InRow(InRow { falls_to_five, .. }) => Game::GroupRow { step: step(falls_to_five) },
        Rule::Together(_) => Game::GroupRow { step: 0 },
        Rule::Tens(_) => Game::Own,
        Rule::InTime(InTime { whose: Whose::Child, .. }) => Game::OwnGood,
        Rule::InTime(_) => Game::GroupGood,
        Rule::FirstTo(_) => Game::Race,
        Rule::Transition(rule) => {
            let (n_easy, earn, n_hard) = (rule.n_easy.into(), rule.earn.unwrap_or(0).into(), rule.n_challenge.into());
            match (rule.end, rule.between) {
                (TransitionEnd::DuelPoints(_), DuelBetween::Sides) => Game::Duel { n_easy, earn, n_hard },
                (TransitionEnd::DuelPoints(_), DuelBetween::Children) => {
                    let n_places = match spec.board {
                        Board::Floor { n_places } => usize::from(n_places),
                        _ => 0,
                    };
                    // As `Lineup::opening` has it.
                    let n_servers = n_here.saturating_sub(n_places).min(usize::from(Board::MAX_SERVERS));
                    Game::Points { n_easy, earn, n_hard, n_places, n_servers, moves: rule.swap }
                }
                (TransitionEnd::Rounds(_), _) => Game::Rounds { n_easy, earn, n_hard },
                (TransitionEnd::Coach, _) => Game::Joint { n_easy, earn, n_hard },
            }
        }
        Rule::MatchGame(_) => Game::Match,
        Rule::WinnersStay(rule) => Game::Stay { to: rule.to.into() },
    }
}

/// The balls that a goal is reached in, and whether the rule itself says how many.
pub(super) fn tries(spec: &DrillSpec, game: Game, expected: &Expected, n_groups: usize) -> (u32, bool) {
    let all = expected.balls.likely;
    let each = match expected.each {
        Each::Contacts(range) => range.likely,
        Each::Court { rallies, .. } => rallies.likely,
    };
    match (spec.rule, game) {
        (Rule::Tens(Tens { n }), _) => (n.into(), true),
        (Rule::Together(Together { balls: Some(n), .. }), _) => (n.into(), true),
        (_, Game::OwnRow { .. } | Game::OwnGood) => (each, false),
        (_, Game::Race | Game::GroupRow { .. } | Game::GroupGood) => {
            (all / u32::try_from(n_groups).unwrap_or(1).max(1), false)
        }
        _ => (all, false),
    }
}

/// The goals to choose among, the easiest first.
pub(super) fn goals(spec: &DrillSpec, game: Game, tries: u32) -> Vec<u32> {
    let as_set = |all: &[u32]| all.iter().copied().filter(|goal| *goal <= tries.max(1)).collect();
    match game {
        Game::Total if matches!(spec.rule, Rule::Tally { .. }) && tries >= BY_TWOS_FROM => {
            let by = if tries < BY_FIVES_FROM { 2 } else { 5 };
            (by..=tries.min(MOST_TOTAL)).step_by(by as usize).collect()
        }
        Game::Total | Game::OwnGood | Game::GroupGood | Game::Joint { .. } => (1..=tries.min(MOST_TOTAL)).collect(),
        Game::Own => (1..=tries).collect(),
        Game::Rounds { n_easy, earn, n_hard } => {
            let least = if earn > 0 { earn } else { n_easy } + n_hard;
            (1..=tries / least).collect()
        }
        Game::Stay { to } => STAY.filter(|goal| goal * to <= tries).collect(),
        Game::Points { .. } => as_set(&DUEL[..12]),
        Game::OwnRow { .. } | Game::GroupRow { .. } => (2..=tries.clamp(2, MOST_ROW)).collect(),
        Game::Race => (1..=tries.min(MOST_RACE)).collect(),
        // Easy balls that must be earned have many states: fewer goals are looked at.
        Game::Duel { n_easy, earn, .. } if n_easy * earn > 20 => as_set(&DUEL[..12]),
        Game::Duel { .. } => as_set(&DUEL),
        Game::Match => as_set(&MATCH),
    }
}
