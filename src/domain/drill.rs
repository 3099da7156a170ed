//! What a drill is made of: skill, board, rule, goal, what is good. A drill is a value; changing it is an entry.

use super::ids::Step;
pub use super::rule::*;
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
    /// Up to three groups at once, one key each: only good ones are counted.
    Lanes,
    /// The floor of a game: one tap on the side that won the rally.
    Court,
    /// The phone stands at a distance: two or three keys of a quarter of the screen each.
    Propped { order: LineOrder },
}

impl Board {
    /// Most places of a floor board.
    pub const MAX_FLOOR: u8 = 3;
    /// Most places of a serve board.
    pub const MAX_SERVERS: u8 = 6;
    /// Most groups that a lane board counts for.
    pub const MAX_LANES: u8 = 3;
    /// Most groups of a run that don't play games.
    pub const MAX_GROUPS: u8 = 4;

    /// Who comes next, where it has a line.
    pub const fn order(self) -> Option<LineOrder> {
        match self {
            Board::Line { order } | Board::ServeLine { order, .. } | Board::Propped { order } => Some(order),
            _ => None,
        }
    }

    /// Whether a ball on it has its child: else balls are everybody's or a group's.
    pub const fn names_children(self) -> bool {
        !matches!(self, Board::Group | Board::Lanes)
    }

    /// Whether it knows only good or not, whatever the skill.
    pub const fn is_two_key(self) -> bool {
        matches!(self, Board::Told { .. } | Board::Group | Board::Lanes | Board::Propped { .. } | Board::Court)
    }
}

/// Who comes next on a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LineOrder {
    /// One after another.
    InTurn,
    /// The same child until a tap on another name.
    Stays,
    /// The child of whom least is known, for ten balls; then the next: an honest sample of each.
    TenForOne,
}

impl LineOrder {
    /// Balls of one child before the next comes, where only one is watched.
    pub const WATCHED: u32 = 10;
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
    pub on_floor: OnFloor,
}

/// Who does what besides, and when they change.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct OnFloor {
    /// Groups of the run: 2 to 4; games make their own teams.
    pub groups: Option<u8>,
    /// Someone catches at the target.
    pub target: bool,
    /// Ball-getters.
    pub n_getters: u8,
    /// Servers or tossers beside the passers, where no rule makes them a side.
    pub n_feeders: u8,
    pub swap: SwapEvery,
    pub challenge: ChallengeBy,
}

/// When roles and places change by themselves.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum SwapEvery {
    /// On tap.
    #[default]
    Never,
    Balls(u8),
    Minutes(u8),
}

/// What makes a challenge ball one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum ChallengeBy {
    /// Served or thrown harder.
    #[default]
    Harder,
    /// A partner distracts, touching neither ball nor player.
    Distracted,
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
    /// The rule itself.
    Rule(RuleFault),
    /// A told count of 0.
    GoalOfNothing,
    /// Transition scoring runs on the floor board for passing.
    TransitionBoard,
    /// A game is played on the court's board, and nothing else is.
    CourtBoard,
    /// The rule needs misses, which this board doesn't count.
    NeedsMisses,
    /// Told counts and balls of the group have no order that the rule could follow.
    NeedsEach,
    /// The rule or board needs two to four groups (a lane board two or three).
    Groups,
    /// What counts as good doesn't fit the skill.
    GoodFrom,
}

/// Longest name of a drill, child or skill, in characters.
pub const MAX_NAME: usize = 60;

impl DrillSpec {
    /// Easy balls at the first step.
    pub const EASY: Feed = Feed { kind: FeedKind::Easy, step: Step(0) };

    /// What a game practises.
    pub const PLAYING: &str = "Playing";

    /// The drills a new squad finds ready.
    pub fn starters(name_of: impl Fn(usize) -> String) -> Vec<DrillSpec> {
        let spec = |i, skill, board, rule, good_from| DrillSpec {
            name: name_of(i),
            skill,
            board,
            rule,
            good_from,
            feed: Self::EASY,
            on_floor: OnFloor::default(),
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
            spec(
                8,
                Skill::Pass,
                Board::Line { order: LineOrder::InTurn },
                Rule::InRow(InRow { goal: Some(10), whose: Whose::Group, falls_to_five: true }),
                moved,
            ),
            spec(
                9,
                Skill::Serve,
                Board::ServeLine { order: LineOrder::Stays, receiver: false },
                Rule::Tens(Tens { n: 10 }),
                GoodFrom::ServeIn,
            ),
            DrillSpec {
                on_floor: OnFloor { groups: Some(Board::MAX_LANES), ..OnFloor::default() },
                ..spec(
                    10,
                    Skill::Own(name_of(6)),
                    Board::Lanes,
                    Rule::FirstTo(FirstTo { n: 10, by_two: false }),
                    GoodFrom::GoodKey,
                )
            },
            spec(
                11,
                Skill::Pass,
                Board::Propped { order: LineOrder::InTurn },
                Rule::Together(Together { row: false, balls: Some(40), to_beat: None }),
                GoodFrom::GoodKey,
            ),
            spec(
                12,
                Skill::Own(Self::PLAYING.to_owned()),
                Board::Court,
                Rule::WinnersStay(WinnersStay::default()),
                GoodFrom::GoodKey,
            ),
            spec(
                13,
                Skill::Own(Self::PLAYING.to_owned()),
                Board::Court,
                Rule::MatchGame(MatchGame::default()),
                GoodFrom::GoodKey,
            ),
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

    /// What its rule can't have, whatever else is missing still.
    pub fn rule_fault(&self) -> Option<DrillFault> {
        let told = matches!(self.board, Board::Told { .. });
        match self.rule {
            Rule::Transition(_) if !matches!(self.board, Board::Floor { .. }) => Some(DrillFault::TransitionBoard),
            rule if rule.is_game() != (self.board == Board::Court) => Some(DrillFault::CourtBoard),
            rule if rule.needs_misses() && self.board == Board::Lanes => Some(DrillFault::NeedsMisses),
            rule if rule.needs_each() && !self.board.names_children() => Some(DrillFault::NeedsEach),
            // Balls with no child named belong to no group.
            Rule::FirstTo(_) if self.board == Board::Group => Some(DrillFault::NeedsEach),
            Rule::Tally { .. } | Rule::Tens(_) if told => None,
            _ if told => Some(DrillFault::NeedsEach),
            _ => None,
        }
        .or_else(|| self.rule.fault().map(DrillFault::Rule))
        .or_else(|| self.groups_fault())
    }

    fn groups_fault(&self) -> Option<DrillFault> {
        let most = if self.board == Board::Lanes { Board::MAX_LANES } else { Board::MAX_GROUPS };
        match self.on_floor.groups {
            Some(n) if !(2..=most).contains(&n) => Some(DrillFault::Groups),
            None if self.board == Board::Lanes || matches!(self.rule, Rule::FirstTo(_)) => Some(DrillFault::Groups),
            _ => None,
        }
    }

    fn good_fault(&self) -> Option<DrillFault> {
        let fits = match (&self.skill, self.good_from) {
            (Skill::Pass, GoodFrom::Grade(grade)) => grade > PassGrade::Gone,
            (Skill::Serve, GoodFrom::ServeIn | GoodFrom::FastServeIn) | (Skill::Own(_), GoodFrom::GoodKey) => true,
            // Some boards know only good or not, whatever the skill.
            (_, GoodFrom::GoodKey) => self.board.is_two_key(),
            _ => false,
        };
        (!fits).then_some(DrillFault::GoodFrom)
    }
}
