//! How a run is scored, as it is set: one value for each scoring rule, and what is wrong with one. What a rule makes of the
//! contacts is in `scoring`.

/// How a run is scored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Rule {
    /// Good ones are counted towards a goal, if there is one.
    Tally {
        goal: Option<u16>,
    },
    InRow(InRow),
    Tens(Tens),
    FirstTo(FirstTo),
    InTime(InTime),
    Together(Together),
    Transition(Transition),
    WinnersStay(WinnersStay),
    MatchGame(MatchGame),
}

/// Whose balls are counted together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Whose {
    /// Each child's own.
    Child,
    /// Those of a group; of everyone where the run has no groups.
    Group,
}

/// In a row: now and best.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct InRow {
    pub goal: Option<u16>,
    pub whose: Whose,
    /// A row that breaks falls back to the last full five (13 to 10), not to nothing.
    pub falls_to_five: bool,
}

/// Out of ten: tens of each child, one after another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tens {
    /// Balls of one series, 10 unless changed.
    pub n: u8,
}

/// First to ten, among two to four groups.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct FirstTo {
    pub n: u16,
    /// Two good ones ahead of every other.
    pub by_two: bool,
}

/// Most good ones before the clock runs out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct InTime {
    pub seconds: u16,
    pub whose: Whose,
}

/// All together against the squad's own best.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Together {
    /// One row that everyone keeps alive, else one total.
    pub row: bool,
    /// How many balls the total is out of; `None`: as many as there are.
    pub balls: Option<u16>,
    /// The squad's own best before this run, as it was known at its start.
    pub to_beat: Option<u16>,
}

/// Who serves a rally of a small-sided game.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Serves {
    Challengers,
    WinnersSide,
    /// Whoever won the last rally.
    LastWinner,
}

/// Small-sided games: winners stay, the next come on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct WinnersStay {
    /// Children a side, 2 to 4.
    pub a_side: u8,
    /// Rallies to win before sides change: 1 is a rally, more a short game.
    pub to: u8,
    /// A point only where the winners' side wins.
    pub near_only: bool,
    /// After so many games won in a row the winners join the line too.
    pub off_after: Option<u8>,
    pub serves: Serves,
    /// A missed serve may be served once more.
    pub second_serve: bool,
    /// The next serve comes after about two seconds, ready or not.
    pub paced: bool,
}

/// A match game by the rule-book: rally points, rotation at side-out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct MatchGame {
    /// Points to win, with two ahead and no upper end (FIVB Official Volleyball Rules 2025-28, rule 6.2: 25, in the deciding set 15).
    pub to: u16,
    /// Children a side, 3 to 6; six is the rule-book's.
    pub a_side: u8,
    /// After so many serves in a row the serve goes to the other side, if wanted. Not the rule-book's.
    pub serve_cap: Option<u8>,
    /// Where each serve went is noted too, and how good each first pass was.
    pub serves: bool,
    pub passes: bool,
}

impl Default for WinnersStay {
    fn default() -> Self {
        Self {
            a_side: 3,
            to: 1,
            near_only: true,
            off_after: None,
            serves: Serves::Challengers,
            second_serve: true,
            paced: true,
        }
    }
}

impl Default for MatchGame {
    fn default() -> Self {
        Self { to: 25, a_side: 6, serve_cap: None, serves: false, passes: false }
    }
}

impl Rule {
    pub const fn transition(&self) -> Option<&Transition> {
        match self {
            Rule::Transition(rule) => Some(rule),
            _ => None,
        }
    }

    /// Whether sides play each other and rallies are noted.
    pub const fn is_game(&self) -> bool {
        matches!(self, Rule::WinnersStay(_) | Rule::MatchGame(_))
    }

    /// Whether a missed serve of a game may be served once more.
    pub const fn has_second_serve(&self) -> bool {
        matches!(self, Rule::WinnersStay(WinnersStay { second_serve: true, .. }))
    }

    /// Whether the next serve of a game comes after about two seconds, ready or not.
    pub const fn is_paced(&self) -> bool {
        matches!(self, Rule::WinnersStay(WinnersStay { paced: true, .. }))
    }

    /// Children a side, in a game.
    pub const fn a_side(&self) -> Option<u8> {
        match self {
            Rule::WinnersStay(WinnersStay { a_side, .. }) | Rule::MatchGame(MatchGame { a_side, .. }) => Some(*a_side),
            _ => None,
        }
    }

    /// Whether misses must be told too: a board that counts only good ones can't keep it.
    pub const fn needs_misses(&self) -> bool {
        match self {
            Rule::InRow(_) | Rule::Tens(_) | Rule::Transition(_) => true,
            Rule::Together(Together { row, balls, .. }) => *row || balls.is_some(),
            Rule::Tally { .. } | Rule::FirstTo(_) | Rule::InTime(_) | Rule::WinnersStay(_) | Rule::MatchGame(_) => {
                false
            }
        }
    }

    /// Whether each ball must have its child: balls with no child named would count for nobody.
    pub const fn needs_each(&self) -> bool {
        match self {
            Rule::Tens(_) => true,
            Rule::InRow(InRow { whose, .. }) | Rule::InTime(InTime { whose, .. }) => matches!(whose, Whose::Child),
            _ => false,
        }
    }

    /// Whether children of several groups may play against each other by it.
    pub const fn has_groups(&self) -> bool {
        match self {
            Rule::FirstTo(_) => true,
            Rule::InRow(InRow { whose, .. }) | Rule::InTime(InTime { whose, .. }) => matches!(whose, Whose::Group),
            _ => false,
        }
    }

    /// The rule as a drill keeps it: what only a run knows is left out.
    pub const fn as_kept(self) -> Rule {
        match self {
            Rule::Together(rule) => Rule::Together(Together { to_beat: None, ..rule }),
            rule => rule,
        }
    }

    /// Something is 0 that can't be, or outside what the rule allows.
    pub fn fault(&self) -> Option<RuleFault> {
        let zero = |bad: bool| bad.then_some(RuleFault::Nothing);
        match *self {
            Rule::Tally { goal } => zero(goal == Some(0)),
            Rule::InRow(rule) => zero(rule.goal == Some(0)),
            Rule::Tens(rule) => zero(rule.n == 0),
            Rule::FirstTo(rule) => zero(rule.n == 0),
            Rule::InTime(rule) => zero(rule.seconds == 0),
            Rule::Together(rule) => zero(rule.balls == Some(0)),
            Rule::Transition(t) if !(1..=10).contains(&t.n_easy) || !(1..=10).contains(&t.n_challenge) => {
                Some(RuleFault::RoundBalls)
            }
            Rule::Transition(t) if t.earn.is_some_and(|x| x == 0 || x > t.n_easy) => Some(RuleFault::Earn),
            Rule::Transition(t) => zero(matches!(t.end, TransitionEnd::DuelPoints(0) | TransitionEnd::Rounds(0))),
            Rule::WinnersStay(rule) if !(2..=4).contains(&rule.a_side) => Some(RuleFault::ASide),
            Rule::WinnersStay(rule) => zero(rule.to == 0 || rule.off_after == Some(0)),
            Rule::MatchGame(rule) if !(3..=6).contains(&rule.a_side) => Some(RuleFault::ASide),
            Rule::MatchGame(MatchGame { to: 0, .. }) => Some(RuleFault::MatchTo),
            Rule::MatchGame(rule) => zero(rule.serve_cap == Some(0)),
        }
    }
}

/// Why a rule can't be played as it is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RuleFault {
    /// A goal, an end, a number of balls or seconds of 0.
    Nothing,
    /// Easy or challenge balls outside 1 to 10.
    RoundBalls,
    /// More good easy balls asked for than there are easy balls, or none.
    Earn,
    /// Children a side outside what the game is for.
    ASide,
    /// A match to no number of points.
    MatchTo,
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
