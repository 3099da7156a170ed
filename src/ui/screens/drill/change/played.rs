//! What a drill is played for: which rules fit its board, and the few settings of each.

use super::{step_u8, step_u16};
use crate::domain::drill::DrillFault::{NeedsEach, NeedsMisses};
use crate::domain::drill::{Board, DrillSpec, FirstTo, InRow, InTime, OnFloor, Rule, Tens, Together, Whose};
use crate::domain::roles;

/// A goal to start from.
const GOAL: u16 = 30;
/// The rule of a board that can't keep the one before.
pub(super) const USUAL: Rule = Rule::Tally { goal: Some(GOAL) };

/// Most of a goal, of a row, of a race, of balls played together.
pub const MAX_GOAL: u16 = 200;
pub const MAX_RACE: u16 = 50;
/// Balls of one series.
pub const MAX_SERIES: u8 = 30;
/// The clock goes by quarters of a minute, ten minutes at most.
const QUARTER_S: u16 = 15;
pub const MAX_S: u16 = 600;

/// The answers to "What is it played for?".
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Played {
    Goal,
    InRow,
    Tens,
    FirstTo,
    InTime,
    Together,
}

impl Played {
    pub const ALL: [Played; 6] =
        [Played::Goal, Played::InRow, Played::Tens, Played::FirstTo, Played::InTime, Played::Together];

    /// `None` for a rule that its board brings along: rounds of a duel, a game.
    pub const fn of(rule: &Rule) -> Option<Played> {
        match rule {
            Rule::Tally { .. } => Some(Played::Goal),
            Rule::InRow(_) => Some(Played::InRow),
            Rule::Tens(_) => Some(Played::Tens),
            Rule::FirstTo(_) => Some(Played::FirstTo),
            Rule::InTime(_) => Some(Played::InTime),
            Rule::Together(_) => Some(Played::Together),
            Rule::Transition(_) | Rule::WinnersStay(_) | Rule::MatchGame(_) => None,
        }
    }

    const fn usual(self) -> Rule {
        match self {
            Played::Goal => USUAL,
            Played::InRow => Rule::InRow(InRow { goal: Some(10), whose: Whose::Child, falls_to_five: true }),
            Played::Tens => Rule::Tens(Tens { n: 10 }),
            Played::FirstTo => Rule::FirstTo(FirstTo { n: 10, by_two: false }),
            Played::InTime => Rule::InTime(InTime { seconds: 120, whose: Whose::Child }),
            Played::Together => Rule::Together(Together { row: false, balls: None, to_beat: None }),
        }
    }
}

/// What may be chosen on this board: a rule that doesn't fit it is never offered.
pub fn offered(spec: &DrillSpec) -> Vec<Played> {
    let is_kept = |which: &Played| Played::of(&with_played(spec, *which).rule) == Some(*which);
    if Played::of(&spec.rule).is_none() { Vec::new() } else { Played::ALL.into_iter().filter(is_kept).collect() }
}

pub fn with_played(spec: &DrillSpec, which: Played) -> DrillSpec {
    if Played::of(&spec.rule) == Some(which) {
        return spec.clone();
    }
    with_rule(spec, which.usual())
}

/// The draft with this rule, and what follows from it.
pub fn with_rule(spec: &DrillSpec, rule: Rule) -> DrillSpec {
    settled(DrillSpec { rule, ..spec.clone() })
}

/// Roles stay on the floor; balls with no child named can only be a group's; groups are as many as board and rule can have; a rule that its board can't keep
/// gives way to a goal.
pub(super) fn settled(mut spec: DrillSpec) -> DrillSpec {
    if !spec.board.names_children() {
        match &mut spec.rule {
            Rule::InRow(InRow { whose, .. }) | Rule::InTime(InTime { whose, .. }) => *whose = Whose::Group,
            _ => {}
        }
    }
    spec = grouped(roles::kept_to_floor(spec));
    if let Some(NeedsEach | NeedsMisses) = spec.rule_fault() {
        spec = grouped(DrillSpec { rule: USUAL, ..spec });
    }
    spec
}

fn grouped(spec: DrillSpec) -> DrillSpec {
    let had = spec.on_floor.groups;
    let groups = match (spec.board, spec.rule) {
        (Board::Lanes, _) => Some(had.unwrap_or(Board::MAX_LANES).clamp(2, Board::MAX_LANES)),
        (_, Rule::FirstTo(_)) => Some(had.unwrap_or(2).clamp(2, Board::MAX_GROUPS)),
        (board, rule) if rule.has_groups() && board.names_children() => had.map(|n| n.clamp(2, Board::MAX_GROUPS)),
        _ => None,
    };
    DrillSpec { on_floor: OnFloor { groups, ..spec.on_floor }, ..spec }
}

/// Groups with the fewest and the most there may be, 1 where everyone may be one; `None` where the rule has none.
pub fn groups(spec: &DrillSpec) -> Option<(u8, u8, u8)> {
    let n = spec.on_floor.groups.unwrap_or(1);
    match (spec.board, spec.rule) {
        (Board::Lanes, _) => Some((n, 2, Board::MAX_LANES)),
        (_, Rule::FirstTo(_)) => Some((n, 2, Board::MAX_GROUPS)),
        (board, rule) if rule.has_groups() && board.names_children() => Some((n, 1, Board::MAX_GROUPS)),
        _ => None,
    }
}

pub fn step_groups(spec: &DrillSpec, more: bool) -> DrillSpec {
    let Some((n, least, most)) = groups(spec) else { return spec.clone() };
    let n = step_u8(n, more, least, most);
    DrillSpec { on_floor: OnFloor { groups: (n > 1).then_some(n), ..spec.on_floor }, ..spec.clone() }
}

/// Whose balls are counted together, where that may be chosen.
pub fn whose(spec: &DrillSpec) -> Option<Whose> {
    match spec.rule {
        Rule::InRow(InRow { whose, .. }) | Rule::InTime(InTime { whose, .. }) if spec.board.names_children() => {
            Some(whose)
        }
        _ => None,
    }
}

pub fn with_whose(spec: &DrillSpec, to: Whose) -> DrillSpec {
    let rule = match spec.rule {
        rule if whose(spec).is_none() => rule,
        Rule::InRow(rule) => Rule::InRow(InRow { whose: to, ..rule }),
        Rule::InTime(rule) => Rule::InTime(InTime { whose: to, ..rule }),
        rule => rule,
    };
    with_rule(spec, rule)
}

/// The number that may be switched off: a goal, a row's goal, the balls of a total; the outer `None` where the rule has none.
pub fn goal(spec: &DrillSpec) -> Option<Option<u16>> {
    match spec.rule {
        Rule::Tally { goal } => Some(goal),
        Rule::InRow(rule) => Some(rule.goal),
        Rule::Together(rule) if !rule.row && spec.board != Board::Lanes => Some(rule.balls),
        _ => None,
    }
}

pub fn with_goal(spec: &DrillSpec, on: bool) -> DrillSpec {
    let usual = match spec.rule {
        Rule::InRow(_) => 10,
        _ => GOAL,
    };
    if goal(spec).is_some() { set_goal(spec, on.then_some(usual)) } else { spec.clone() }
}

/// By fives where the goal is a round one; a row by ones.
pub fn step_goal(spec: &DrillSpec, more: bool) -> DrillSpec {
    let Some(Some(goal)) = goal(spec) else { return spec.clone() };
    let by_fives = goal % 5 == 0 && (more || goal > 5) && !matches!(spec.rule, Rule::InRow(_));
    set_goal(spec, Some(step_u16(goal, more, if by_fives { 5 } else { 1 }, 1, MAX_GOAL)))
}

fn set_goal(spec: &DrillSpec, goal: Option<u16>) -> DrillSpec {
    let rule = match spec.rule {
        Rule::Tally { .. } => Rule::Tally { goal },
        Rule::InRow(rule) => Rule::InRow(InRow { goal, ..rule }),
        Rule::Together(rule) => Rule::Together(Together { balls: goal, ..rule }),
        rule => rule,
    };
    with_rule(spec, rule)
}

/// The one number that a rule always has: balls of a series, points of a race, seconds on the clock. With its least and most.
pub fn number(spec: &DrillSpec) -> Option<(u16, u16, u16)> {
    match spec.rule {
        Rule::Tens(Tens { n }) => Some((u16::from(n), 2, u16::from(MAX_SERIES))),
        Rule::FirstTo(FirstTo { n, .. }) => Some((n, 1, MAX_RACE)),
        Rule::InTime(InTime { seconds, .. }) => Some((seconds, QUARTER_S, MAX_S)),
        _ => None,
    }
}

pub fn step_number(spec: &DrillSpec, more: bool) -> DrillSpec {
    let Some((now, least, most)) = number(spec) else { return spec.clone() };
    let rule = match spec.rule {
        Rule::Tens(Tens { n }) => Rule::Tens(Tens { n: step_u8(n, more, 2, MAX_SERIES) }),
        Rule::FirstTo(rule) => Rule::FirstTo(FirstTo { n: step_u16(now, more, 1, least, most), ..rule }),
        Rule::InTime(rule) => {
            // By quarters of a minute, by halves from two minutes on.
            let by = if now > 120 || (now == 120 && more) { 2 * QUARTER_S } else { QUARTER_S };
            Rule::InTime(InTime { seconds: step_u16(now, more, by, least, most), ..rule })
        }
        rule => rule,
    };
    with_rule(spec, rule)
}

/// The one thing that a rule may do besides: fall to the last five, win by two.
pub fn besides(spec: &DrillSpec) -> Option<bool> {
    match spec.rule {
        Rule::InRow(rule) => Some(rule.falls_to_five),
        Rule::FirstTo(rule) => Some(rule.by_two),
        _ => None,
    }
}

pub fn with_besides(spec: &DrillSpec, on: bool) -> DrillSpec {
    let rule = match spec.rule {
        Rule::InRow(rule) => Rule::InRow(InRow { falls_to_five: on, ..rule }),
        Rule::FirstTo(rule) => Rule::FirstTo(FirstTo { by_two: on, ..rule }),
        rule => rule,
    };
    with_rule(spec, rule)
}

/// One row that everyone keeps alive, or one total; `None` where the board knows no misses that would end a row.
pub fn one_row(spec: &DrillSpec) -> Option<bool> {
    match spec.rule {
        Rule::Together(rule) if spec.board != Board::Lanes => Some(rule.row),
        _ => None,
    }
}

pub fn with_one_row(spec: &DrillSpec, row: bool) -> DrillSpec {
    match spec.rule {
        Rule::Together(rule) if one_row(spec).is_some() => {
            with_rule(spec, Rule::Together(Together { row, balls: rule.balls.filter(|_| !row), ..rule }))
        }
        _ => spec.clone(),
    }
}
