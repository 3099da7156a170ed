//! What the stored facts add up to: totals of a child, and each scoring rule in a module of its own behind one trait. A score is a
//! function of the facts alone; what comes next is only proposed.

pub mod court;
pub mod first_to;
pub mod goal;
pub mod in_row;
pub mod in_time;
pub mod match_game;
pub mod noted;
pub mod tally;
pub mod tens;
pub mod together;
pub mod transition;
pub mod winners_stay;

use std::collections::BTreeMap;

use super::entry::{Contact, Lineup, Rally, Side};
use super::ids::{GroupNo, PlayerId};
use super::rule::{Rule, Whose};
use crate::stats::proportion::Count;

/// A stored fact that a rule may score.
#[derive(Clone, Copy, Debug)]
pub enum Ball<'a> {
    Contact(&'a Contact),
    /// What was told for a child in one series; told again, it replaces what was told before.
    Told {
        player: PlayerId,
        told_no: u16,
        count: Count,
    },
    Rally {
        rally: &'a Rally,
        /// Who stood where while it was played.
        lineup: &'a Lineup,
        /// Since the rally before it, as far as that was play and no pause.
        lasted_ms: u32,
    },
}

/// Whose score.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Who {
    Everyone,
    Group(GroupNo),
    Child(PlayerId),
}

/// Where somebody stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Standing {
    /// What counts now: good ones, a row, this ten, points.
    pub now: u32,
    /// Of so many balls, where the rule counts them.
    pub of: Option<u32>,
    /// The best so far, this one included.
    pub best: u32,
    /// The one before, where the rule has a series of them.
    pub last: Option<u32>,
    /// What is to be reached.
    pub goal: Option<u32>,
}

impl Standing {
    pub fn reached(&self) -> bool {
        self.goal.is_some_and(|goal| self.now >= goal || self.best >= goal)
    }
}

/// The rule says that the run is over; the coach may still go on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Over {
    /// These have it: one, or several who are level.
    Have(Vec<Who>),
    /// All balls or all the time are used up, and nobody plays against another.
    Done,
}

/// One scoring rule. It advances by one stored fact and refuses to go back (undo folds the run again).
pub trait ScoringRule {
    fn note(&mut self, ball: Ball<'_>);

    fn standing(&self, who: Who) -> Standing;

    /// `shown_ms`: what the run's clock shows.
    fn over(&self, shown_ms: u32) -> Option<Over>;

    /// Who stands where after a rally that began with `lineup`: where the rule moves nobody, as before.
    fn after_rally(&self, lineup: &Lineup, _rally: &Rally) -> Lineup {
        lineup.clone()
    }
}

/// The score of a run, whatever its rule.
#[derive(Clone, Debug, PartialEq)]
pub enum Score {
    Goal(goal::TowardGoal),
    InRow(in_row::RowScore),
    Tens(tens::TensScore),
    FirstTo(first_to::RaceScore),
    InTime(in_time::TimeScore),
    Together(together::TogetherScore),
    Transition(transition::TransitionScore),
    WinnersStay(winners_stay::CourtScore),
    MatchGame(match_game::MatchScore),
}

/// The score inside, whichever it is: by reference or to be changed, as `self` is.
macro_rules! whichever {
    ($score:expr) => {
        match $score {
            Score::Goal(score) => score,
            Score::InRow(score) => score,
            Score::Tens(score) => score,
            Score::FirstTo(score) => score,
            Score::InTime(score) => score,
            Score::Together(score) => score,
            Score::Transition(score) => score,
            Score::WinnersStay(score) => score,
            Score::MatchGame(score) => score,
        }
    };
}

impl Score {
    pub fn new(rule: &Rule) -> Score {
        match *rule {
            Rule::Tally { goal } => Score::Goal(goal::TowardGoal::new(goal)),
            Rule::InRow(rule) => Score::InRow(in_row::RowScore::new(rule)),
            Rule::Tens(rule) => Score::Tens(tens::TensScore::new(rule)),
            Rule::FirstTo(rule) => Score::FirstTo(first_to::RaceScore::new(rule)),
            Rule::InTime(rule) => Score::InTime(in_time::TimeScore::new(rule)),
            Rule::Together(rule) => Score::Together(together::TogetherScore::new(rule)),
            Rule::Transition(rule) => Score::Transition(transition::TransitionScore::new(rule)),
            Rule::WinnersStay(rule) => Score::WinnersStay(winners_stay::CourtScore::new(rule)),
            Rule::MatchGame(rule) => Score::MatchGame(match_game::MatchScore::new(rule)),
        }
    }

    pub fn rule(&self) -> &dyn ScoringRule {
        whichever!(self)
    }

    /// The match, where it is one.
    pub fn match_game(&self) -> Option<&match_game::MatchScore> {
        match self {
            Score::MatchGame(score) => Some(score),
            _ => None,
        }
    }

    /// The side that serves the next rally by the rule, in a game.
    pub fn serves_next(&self) -> Option<Side> {
        match self {
            Score::WinnersStay(score) => Some(score.serves_next()),
            Score::MatchGame(score) => Some(score.serves_next()),
            _ => None,
        }
    }

    pub fn note(&mut self, ball: Ball<'_>) {
        let rule: &mut dyn ScoringRule = whichever!(self);
        rule.note(ball);
    }

    /// Others stand on the court: whatever rally was on is none.
    pub fn broken_off(&mut self) {
        if let Score::MatchGame(score) = self {
            score.broken_off();
        }
    }
}

/// Whom a contact is scored for; nobody where each child's balls are its own and no child is named.
fn scored_for(whose: Whose, contact: &Contact) -> Option<Who> {
    match whose {
        Whose::Child => contact.player.map(Who::Child),
        Whose::Group => Some(contact.group.map_or(Who::Everyone, Who::Group)),
    }
}

/// Those with the most, if anyone has any; several if they are level.
fn leaders(points: &BTreeMap<Who, u32>) -> Vec<Who> {
    let most = points.values().copied().max().unwrap_or(0);
    if most == 0 {
        return Vec::new();
    }
    points.iter().filter(|(_, n)| **n == most).map(|(who, _)| *who).collect()
}
