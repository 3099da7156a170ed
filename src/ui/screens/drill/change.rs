//! What one tap in a drill's form makes of the draft. Pure; keeps the draft fit for use, so that a fault is only ever a missing name.

mod played;
pub use played::*;

pub use crate::app::stepper::{step_u8, step_u16};

use crate::app::view::today::Picture;
use crate::domain::drill::{Board, DrillSpec, LineOrder, Rule, Transition, TransitionEnd, WinnersStay};
use crate::domain::ids::Step;
use crate::domain::skill::{GoodFrom, PassGrade, Skill};

/// Most of told balls, of points and rounds to play to.
pub const MAX_TOLD: u8 = 20;
pub const MAX_END: u16 = 30;
/// Steps of a drill's ladder that the form offers.
pub const MAX_STEP: u8 = 9;
/// Most easy or challenge balls of a round.
pub const MAX_ROUND: u8 = 10;

/// The three large answers to "What is practised?".
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SkillChoice {
    Pass,
    Serve,
    Own,
}

impl SkillChoice {
    pub const ALL: [SkillChoice; 3] = [SkillChoice::Pass, SkillChoice::Serve, SkillChoice::Own];

    pub fn of(skill: &Skill) -> SkillChoice {
        match skill {
            Skill::Pass => SkillChoice::Pass,
            Skill::Serve => SkillChoice::Serve,
            Skill::Own(_) => SkillChoice::Own,
        }
    }

    /// The pictures to choose from.
    pub fn boards(self) -> &'static [Picture] {
        match self {
            SkillChoice::Pass => &[
                Picture::Floor,
                Picture::Duel,
                Picture::Line,
                Picture::Told,
                Picture::Group,
                Picture::Lanes,
                Picture::Propped,
            ],
            SkillChoice::Serve => {
                &[Picture::ServeLine, Picture::Serve, Picture::Told, Picture::Group, Picture::Lanes, Picture::Propped]
            }
            SkillChoice::Own => {
                &[Picture::Line, Picture::Told, Picture::Group, Picture::Lanes, Picture::Propped, Picture::Court]
            }
        }
    }

    /// What counts as good until the coach says otherwise.
    const fn usual_good(self) -> GoodFrom {
        match self {
            SkillChoice::Pass => GoodFrom::Grade(PassGrade::Moved),
            SkillChoice::Serve => GoodFrom::ServeIn,
            SkillChoice::Own => GoodFrom::GoodKey,
        }
    }

    /// The answers to "What counts as good?" on a board; one alone is not asked.
    pub fn goods(self, board: Picture) -> &'static [GoodFrom] {
        if is_good_key(board) {
            return &[GoodFrom::GoodKey];
        }
        match self {
            SkillChoice::Pass => &[
                GoodFrom::Grade(PassGrade::Stood),
                GoodFrom::Grade(PassGrade::Moved),
                GoodFrom::Grade(PassGrade::Chased),
            ],
            SkillChoice::Serve => &[GoodFrom::ServeIn, GoodFrom::FastServeIn],
            SkillChoice::Own => &[GoodFrom::GoodKey],
        }
    }
}

/// Boards on which the coach's own eye says good, whatever the skill.
const fn is_good_key(board: Picture) -> bool {
    matches!(board, Picture::Lanes | Picture::Propped)
}

/// The picture of a draft.
pub fn picture(spec: &DrillSpec) -> Picture {
    match (spec.board, spec.rule) {
        (Board::Floor { .. }, Rule::Transition(_)) => Picture::Duel,
        (Board::Floor { .. }, _) => Picture::Floor,
        (Board::Line { .. }, _) => Picture::Line,
        (Board::ServeLine { .. }, _) => Picture::ServeLine,
        (Board::ServeFloor { .. }, _) => Picture::Serve,
        (Board::Told { .. }, _) => Picture::Told,
        (Board::Group, _) => Picture::Group,
        (Board::Lanes, _) => Picture::Lanes,
        (Board::Court, _) => Picture::Court,
        (Board::Propped { .. }, _) => Picture::Propped,
    }
}

/// Another skill: the board stays where it fits, else the skill's first; what is good becomes the usual.
pub fn with_skill(spec: &DrillSpec, choice: SkillChoice) -> DrillSpec {
    if SkillChoice::of(&spec.skill) == choice {
        return spec.clone();
    }
    let skill = match choice {
        SkillChoice::Pass => Skill::Pass,
        SkillChoice::Serve => Skill::Serve,
        SkillChoice::Own => Skill::Own(String::new()),
    };
    // One after another stays that, with the skill's own picture.
    let before = match (picture(spec), choice) {
        (Picture::Line, SkillChoice::Serve) => Picture::ServeLine,
        (Picture::ServeLine, SkillChoice::Pass | SkillChoice::Own) => Picture::Line,
        (before, _) => before,
    };
    let boards = choice.boards();
    let wanted = if boards.contains(&before) { before } else { boards[0] };
    with_board(&DrillSpec { skill, good_from: choice.usual_good(), ..spec.clone() }, wanted)
}

/// Another board: its rule and places as usual, the goal kept where there was one.
pub fn with_board(spec: &DrillSpec, wanted: Picture) -> DrillSpec {
    let serves = spec.skill == Skill::Serve;
    let board = match wanted {
        Picture::Floor | Picture::Duel => match spec.board {
            Board::Floor { .. } => spec.board,
            _ => Board::Floor { n_places: Board::MAX_FLOOR },
        },
        Picture::Line | Picture::ServeLine => {
            let order = order(spec).unwrap_or(LineOrder::InTurn);
            match serves {
                true => Board::ServeLine { order, receiver: receiver(spec).unwrap_or(false) },
                false => Board::Line { order },
            }
        }
        Picture::Serve => match spec.board {
            Board::ServeFloor { .. } => spec.board,
            _ => Board::ServeFloor { n_places: Board::MAX_SERVERS, receiver: receiver(spec).unwrap_or(false) },
        },
        Picture::Told => match spec.board {
            Board::Told { .. } => spec.board,
            _ => Board::Told { of: 10 },
        },
        Picture::Group => Board::Group,
        Picture::Lanes => Board::Lanes,
        Picture::Court => Board::Court,
        Picture::Propped => Board::Propped { order: order(spec).unwrap_or(LineOrder::InTurn) },
    };
    let rule = match (wanted, spec.rule) {
        (Picture::Duel, Rule::Transition(t)) => Rule::Transition(t),
        (Picture::Duel, _) => Rule::Transition(Transition::default()),
        (Picture::Court, rule) if rule.is_game() => rule,
        (Picture::Court, _) => Rule::WinnersStay(WinnersStay::default()),
        (_, Rule::Transition(_) | Rule::WinnersStay(_) | Rule::MatchGame(_)) => USUAL,
        (_, rule) => rule,
    };
    let skill = SkillChoice::of(&spec.skill);
    let good_from = match spec.good_from {
        good if skill.goods(wanted).contains(&good) => good,
        _ => skill.goods(wanted).iter().copied().find(|good| *good == skill.usual_good()).unwrap_or(GoodFrom::GoodKey),
    };
    settled(DrillSpec { board, rule, good_from, ..spec.clone() })
}

/// Places on the floor with the most there may be; `None` on other boards.
pub fn places(spec: &DrillSpec) -> Option<(u8, u8)> {
    match spec.board {
        Board::Floor { n_places } => Some((n_places, Board::MAX_FLOOR)),
        Board::ServeFloor { n_places, .. } => Some((n_places, Board::MAX_SERVERS)),
        _ => None,
    }
}

pub fn step_places(spec: &DrillSpec, more: bool) -> DrillSpec {
    let board = match spec.board {
        Board::Floor { n_places } => Board::Floor { n_places: step_u8(n_places, more, 1, Board::MAX_FLOOR) },
        Board::ServeFloor { n_places, receiver } => {
            Board::ServeFloor { n_places: step_u8(n_places, more, 1, Board::MAX_SERVERS), receiver }
        }
        other => other,
    };
    DrillSpec { board, ..spec.clone() }
}

pub fn order(spec: &DrillSpec) -> Option<LineOrder> {
    match spec.board {
        Board::Line { order } | Board::ServeLine { order, .. } | Board::Propped { order } => Some(order),
        _ => None,
    }
}

pub fn with_order(spec: &DrillSpec, order: LineOrder) -> DrillSpec {
    let board = match spec.board {
        Board::Line { .. } => Board::Line { order },
        Board::Propped { .. } => Board::Propped { order },
        Board::ServeLine { receiver, .. } => Board::ServeLine { order, receiver },
        other => other,
    };
    DrillSpec { board, ..spec.clone() }
}

pub fn receiver(spec: &DrillSpec) -> Option<bool> {
    match spec.board {
        Board::ServeLine { receiver, .. } | Board::ServeFloor { receiver, .. } => Some(receiver),
        _ => None,
    }
}

pub fn with_receiver(spec: &DrillSpec, receiver: bool) -> DrillSpec {
    let board = match spec.board {
        Board::ServeLine { order, .. } => Board::ServeLine { order, receiver },
        Board::ServeFloor { n_places, .. } => Board::ServeFloor { n_places, receiver },
        other => other,
    };
    DrillSpec { board, ..spec.clone() }
}

pub fn told_of(spec: &DrillSpec) -> Option<u8> {
    match spec.board {
        Board::Told { of } => Some(of),
        _ => None,
    }
}

pub fn step_told(spec: &DrillSpec, more: bool) -> DrillSpec {
    let board = match spec.board {
        Board::Told { of } => Board::Told { of: step_u8(of, more, 1, MAX_TOLD) },
        other => other,
    };
    DrillSpec { board, ..spec.clone() }
}

pub fn transition(spec: &DrillSpec) -> Option<Transition> {
    spec.rule.transition().copied()
}

/// Changes the transition rule; what is to be earned never exceeds the easy balls.
pub fn with_transition(spec: &DrillSpec, change: impl FnOnce(&mut Transition)) -> DrillSpec {
    let Some(mut t) = transition(spec) else { return spec.clone() };
    change(&mut t);
    t.earn = t.earn.map(|x| x.clamp(1, t.n_easy));
    DrillSpec { rule: Rule::Transition(t), ..spec.clone() }
}

/// How a run is over, without its figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EndChoice {
    Points,
    Rounds,
    Coach,
}

impl EndChoice {
    pub const ALL: [EndChoice; 3] = [EndChoice::Points, EndChoice::Rounds, EndChoice::Coach];

    pub fn of(end: TransitionEnd) -> EndChoice {
        match end {
            TransitionEnd::DuelPoints(_) => EndChoice::Points,
            TransitionEnd::Rounds(_) => EndChoice::Rounds,
            TransitionEnd::Coach => EndChoice::Coach,
        }
    }

    pub const fn usual(self) -> TransitionEnd {
        match self {
            EndChoice::Points => TransitionEnd::DuelPoints(8),
            EndChoice::Rounds => TransitionEnd::Rounds(4),
            EndChoice::Coach => TransitionEnd::Coach,
        }
    }
}

/// The figure of an end, if it has one.
pub fn end_figure(end: TransitionEnd) -> Option<u16> {
    match end {
        TransitionEnd::DuelPoints(n) | TransitionEnd::Rounds(n) => Some(n),
        TransitionEnd::Coach => None,
    }
}

pub fn step_end(end: TransitionEnd, more: bool) -> TransitionEnd {
    match end {
        TransitionEnd::DuelPoints(n) => TransitionEnd::DuelPoints(step_u16(n, more, 1, 1, MAX_END)),
        TransitionEnd::Rounds(n) => TransitionEnd::Rounds(step_u16(n, more, 1, 1, MAX_END)),
        TransitionEnd::Coach => TransitionEnd::Coach,
    }
}

/// Those easier than where the ladder begins, where the skill has any, come before it.
pub fn step_ladder(skill: &Skill, step: Step, more: bool) -> Step {
    let next = if more { step.one_harder(MAX_STEP) } else { step.one_easier(skill) };
    next.unwrap_or(step)
}

pub fn is_lowest(skill: &Skill, step: Step) -> bool {
    step.one_easier(skill).is_none()
}

pub fn is_highest(step: Step) -> bool {
    step.one_harder(MAX_STEP).is_none()
}

#[cfg(test)]
mod tests;
