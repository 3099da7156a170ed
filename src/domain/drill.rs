//! What a drill is made of: skill, board, rule, goal, what is good. A drill is a value; changing it is an entry.

use super::ids::Step;
use super::skill::{Feed, FeedKind, GoodFrom, PassGrade, Skill};

/// The tapping surface of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Board {
    /// Up to three passers as they stand × grades: one tap says who and how good.
    Floor { n_places: u8 },
    /// One child at a time.
    Line { order: LineOrder },
    /// Up to six servers as they stand; the next is proposed in that order, a tap on a name says otherwise.
    ServeFloor { n_places: u8, receiver: bool },
    /// Servers one after another.
    ServeLine { order: LineOrder, receiver: bool },
    /// At the whistle every name with a row 0 to `of`: "eight of ten".
    Told { of: u8 },
    /// Balls of the group, no child named.
    Group,
}

impl Board {
    /// Most places of a floor board.
    pub const MAX_FLOOR: u8 = 3;
    /// Most places of a serve board.
    pub const MAX_SERVERS: u8 = 6;
}

/// Who comes next on a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LineOrder {
    /// One after another.
    InTurn,
    /// The same child until a tap on another name.
    Stays,
}

/// Who wins a challenge ball.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum DuelBetween {
    /// Passers against servers, as two sides.
    Sides,
    /// Points follow the child.
    Children,
}

/// When a transition run is over. The coach can always end it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TransitionEnd {
    /// A side (or child) has so many duel points.
    DuelPoints(u16),
    /// So many rounds are played.
    Rounds(u16),
    /// When the coach ends it.
    Coach,
}

/// Easy balls together, then challenge balls as a duel, round after round.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Transition {
    /// Easy balls a round, 1 to 10.
    pub n_easy: u8,
    /// Challenge balls a round, 1 to 10.
    pub n_challenge: u8,
    /// "Earn it": so many good easy balls are needed, else the easy balls start over.
    pub earn: Option<u8>,
    pub between: DuelBetween,
    pub end: TransitionEnd,
    /// Places swap after each round.
    pub swap: bool,
}

impl Default for Transition {
    /// Four easy balls, then three challenge balls (common practice, no source), sides, to eight duel points, with a swap.
    fn default() -> Self {
        Self {
            n_easy: 4,
            n_challenge: 3,
            earn: None,
            between: DuelBetween::Sides,
            end: TransitionEnd::DuelPoints(8),
            swap: true,
        }
    }
}

/// How a run is scored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Rule {
    /// Good ones are counted towards a goal, if there is one.
    Tally {
        goal: Option<u16>,
    },
    Transition(Transition),
}

/// Everything that makes a drill. Copied whole into `RunStarted`.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct DrillSpec {
    pub name: String,
    pub skill: Skill,
    pub board: Board,
    pub rule: Rule,
    pub good_from: GoodFrom,
    pub feed: Feed,
}

/// Why a drill can't be used as it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrillFault {
    NoName,
    /// A skill of the coach's own that isn't named.
    NoSkillName,
    NameTooLong,
    /// The board can't judge this skill.
    BoardForOtherSkill,
    /// Places outside 1 to 3 (passers) or 1 to 6 (servers).
    Places,
    /// Easy or challenge balls outside 1 to 10.
    RoundBalls,
    /// More good easy balls asked for than there are easy balls, or none.
    Earn,
    /// A goal, an end or a told count of 0.
    GoalOfNothing,
    /// Transition scoring runs on the floor board for passing.
    TransitionBoard,
    /// What counts as good doesn't fit the skill.
    GoodFrom,
}

/// Longest name of a drill, child or skill, in characters.
pub const MAX_NAME: usize = 60;

impl DrillSpec {
    /// Easy balls at the first step.
    pub const EASY: Feed = Feed { kind: FeedKind::Easy, step: Step(0) };

    /// The drills a new squad finds ready.
    pub fn starters(name_of: impl Fn(usize) -> String) -> Vec<DrillSpec> {
        let spec = |i, skill, board, rule, good_from| DrillSpec {
            name: name_of(i),
            skill,
            board,
            rule,
            good_from,
            feed: Self::EASY,
        };
        let moved = GoodFrom::Grade(PassGrade::Moved);
        let tally = |goal| Rule::Tally { goal };
        vec![
            spec(0, Skill::Pass, Board::Floor { n_places: 3 }, tally(Some(30)), moved),
            DrillSpec {
                // Thrown over the net: one step remains below it for when the easy balls start over.
                feed: Feed { step: Step(1), ..Self::EASY },
                ..spec(1, Skill::Pass, Board::Floor { n_places: 3 }, Rule::Transition(Transition::default()), moved)
            },
            spec(2, Skill::Pass, Board::Line { order: LineOrder::InTurn }, tally(Some(30)), moved),
            spec(
                3,
                Skill::Serve,
                Board::ServeLine { order: LineOrder::InTurn, receiver: false },
                tally(Some(30)),
                GoodFrom::ServeIn,
            ),
            spec(
                4,
                Skill::Serve,
                Board::ServeFloor { n_places: 6, receiver: false },
                tally(Some(30)),
                GoodFrom::ServeIn,
            ),
            spec(5, Skill::Serve, Board::Told { of: 10 }, tally(None), GoodFrom::ServeIn),
            spec(
                6,
                Skill::Own(name_of(6)),
                Board::Line { order: LineOrder::InTurn },
                tally(Some(20)),
                GoodFrom::GoodKey,
            ),
            spec(7, Skill::Own(name_of(7)), Board::Group, tally(Some(20)), GoodFrom::GoodKey),
        ]
    }

    /// The first fault found, if any.
    pub fn fault(&self) -> Option<DrillFault> {
        let chars = self.name.chars().count();
        if matches!(&self.skill, Skill::Own(name) if name.trim().is_empty()) {
            return Some(DrillFault::NoSkillName);
        }
        if self.name.trim().is_empty() {
            return Some(DrillFault::NoName);
        }
        if chars > MAX_NAME || matches!(&self.skill, Skill::Own(name) if name.chars().count() > MAX_NAME) {
            return Some(DrillFault::NameTooLong);
        }
        self.board_fault().or_else(|| self.rule_fault()).or_else(|| self.good_fault())
    }

    fn board_fault(&self) -> Option<DrillFault> {
        match self.board {
            Board::Floor { .. } if self.skill != Skill::Pass => Some(DrillFault::BoardForOtherSkill),
            Board::ServeFloor { .. } | Board::ServeLine { .. } if self.skill != Skill::Serve => {
                Some(DrillFault::BoardForOtherSkill)
            }
            Board::Line { .. } if self.skill == Skill::Serve => Some(DrillFault::BoardForOtherSkill),
            Board::Floor { n_places } if !(1..=Board::MAX_FLOOR).contains(&n_places) => Some(DrillFault::Places),
            Board::ServeFloor { n_places, .. } if !(1..=Board::MAX_SERVERS).contains(&n_places) => {
                Some(DrillFault::Places)
            }
            Board::Told { of: 0 } => Some(DrillFault::GoalOfNothing),
            _ => None,
        }
    }

    fn rule_fault(&self) -> Option<DrillFault> {
        match self.rule {
            Rule::Tally { goal: Some(0) } => Some(DrillFault::GoalOfNothing),
            Rule::Tally { .. } => None,
            Rule::Transition(_) if !matches!(self.board, Board::Floor { .. }) => Some(DrillFault::TransitionBoard),
            Rule::Transition(t) if !(1..=10).contains(&t.n_easy) || !(1..=10).contains(&t.n_challenge) => {
                Some(DrillFault::RoundBalls)
            }
            Rule::Transition(t) if t.earn.is_some_and(|x| x == 0 || x > t.n_easy) => Some(DrillFault::Earn),
            Rule::Transition(t) if matches!(t.end, TransitionEnd::DuelPoints(0) | TransitionEnd::Rounds(0)) => {
                Some(DrillFault::GoalOfNothing)
            }
            Rule::Transition(_) => None,
        }
    }

    fn good_fault(&self) -> Option<DrillFault> {
        let fits = match (&self.skill, self.good_from) {
            (Skill::Pass, GoodFrom::Grade(grade)) => grade > PassGrade::Gone,
            (Skill::Serve, GoodFrom::ServeIn | GoodFrom::FastServeIn) | (Skill::Own(_), GoodFrom::GoodKey) => true,
            // Told and group counts know only good or not, whatever the skill.
            (_, GoodFrom::GoodKey) => matches!(self.board, Board::Told { .. } | Board::Group),
            _ => false,
        };
        (!fits).then_some(DrillFault::GoodFrom)
    }
}
