//! Transition scoring: easy balls that both sides earn together, then challenge balls as a duel between passers and servers.
//! The score is a function of the stored contacts alone; which ball comes next is proposed from the last one's turn, so a late
//! correction changes the score and never the past turns.

use std::collections::BTreeMap;

use super::super::entry::{Contact, Turn};
use super::super::ids::{PlayerId, Round};
use super::super::rule::{DuelBetween, Transition, TransitionEnd};
use super::super::skill::{FeedKind, Outcome};
use super::{Ball, Over, ScoringRule, Standing, Who};

/// After so many restarts of the easy balls an easier feed is offered.
pub const RESTARTS_BEFORE_OFFER: u8 = 2;

/// The score so far.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TransitionScore {
    rule: Transition,
    /// Good easy balls: they count for both sides together.
    pub joint: u16,
    pub duel: Duel,
    /// Duel points of each child, where points follow the child.
    pub by_child: BTreeMap<PlayerId, u16>,
    /// The furthest that was played: a ball of an earlier turn, put back or noted late, scores and leads nowhere back.
    here: Option<Here>,
}

/// Points of the two sides.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Duel {
    pub passers: u16,
    pub servers: u16,
}

/// What became of a ball of a round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BallMark {
    Good,
    NotGood,
    NoChance,
}

/// The balls used in one turn, in order; the easy ones stay in view during the challenge.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Here {
    turn: Turn,
    easy: Vec<BallMark>,
    challenge: Vec<BallMark>,
}

/// The ball that the rule proposes next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NextBall {
    pub turn: Turn,
    pub kind: FeedKind,
    /// From 1.
    pub ball: u8,
    pub of: u8,
    /// The run has reached its end; the coach may still go on.
    pub over: bool,
    /// The easy balls started over twice: an easier feed is offered.
    pub offer_easier: bool,
}

/// Who got a duel point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PointTo {
    Passers,
    Servers,
}

/// The duel point of a challenge ball: the passers' when it is passed well or the serve misses, the servers' otherwise.
pub fn duel_point(contact: &Contact) -> PointTo {
    let missed = match contact.outcome {
        Outcome::ServeMissed => true,
        Outcome::Serve { outcome, .. } => !outcome.is_in(),
        _ => false,
    };
    if missed
        || contact.good_from.judge(contact.outcome) == Some(true) && !matches!(contact.outcome, Outcome::Serve { .. })
    {
        PointTo::Passers
    } else {
        PointTo::Servers
    }
}

impl ScoringRule for TransitionScore {
    fn note(&mut self, ball: Ball<'_>) {
        if let Ball::Contact(contact) = ball {
            self.note_contact(contact);
        }
    }

    /// Everyone's: what both sides earned together. A child's: its duel points.
    fn standing(&self, who: Who) -> Standing {
        let now = match who {
            Who::Everyone => self.joint,
            Who::Child(player) => self.by_child.get(&player).copied().unwrap_or(0),
            Who::Group(_) => 0,
        };
        Standing { now: u32::from(now), best: u32::from(now), ..Standing::default() }
    }

    fn over(&self, _: u32) -> Option<Over> {
        self.next().over.then_some(Over::Done)
    }
}

impl TransitionScore {
    pub fn new(rule: Transition) -> Self {
        TransitionScore { rule, joint: 0, duel: Duel::default(), by_child: BTreeMap::new(), here: None }
    }

    /// Notes a contact that carries a turn; one without is a ball outside the rule and scores nothing.
    fn note_contact(&mut self, contact: &Contact) {
        let Some(turn) = contact.turn else { return };
        let kind = contact.feed.kind;
        let good = contact.good_from.judge(contact.outcome);
        let mark = match kind {
            FeedKind::Challenge if duel_point(contact) == PointTo::Passers => BallMark::Good,
            FeedKind::Challenge => BallMark::NotGood,
            FeedKind::Easy => match good {
                Some(true) => BallMark::Good,
                Some(false) => BallMark::NotGood,
                None => BallMark::NoChance,
            },
        };
        match kind {
            FeedKind::Easy => self.joint = self.joint.saturating_add(u16::from(good == Some(true))),
            FeedKind::Challenge => self.duel_note(contact),
        }
        if self.here.as_ref().is_none_or(|here| here.turn < turn) {
            self.here = Some(Here { turn, easy: Vec::new(), challenge: Vec::new() });
        }
        if let Some(here) = self.here.as_mut().filter(|here| here.turn == turn) {
            match kind {
                FeedKind::Easy => here.easy.push(mark),
                FeedKind::Challenge => here.challenge.push(mark),
            }
        }
    }

    fn duel_note(&mut self, contact: &Contact) {
        // A serve that is judged is its server's contact; any other, also one that only missed, is the passer's.
        let served = matches!(contact.outcome, Outcome::Serve { .. });
        let server = contact.server.or(contact.player.filter(|_| served));
        let (side, child) = match duel_point(contact) {
            PointTo::Passers => (&mut self.duel.passers, contact.player.filter(|p| !served && server != Some(*p))),
            PointTo::Servers => (&mut self.duel.servers, server),
        };
        *side = side.saturating_add(1);
        if let Some(child) = child {
            let points = self.by_child.entry(child).or_default();
            *points = points.saturating_add(1);
        }
    }

    /// The easy balls of this round, as far as they are played.
    pub fn easy_marks(&self) -> &[BallMark] {
        self.here.as_ref().map_or(&[], |here| &here.easy)
    }

    /// The challenge balls of this round, as far as they are played.
    pub fn challenge_marks(&self) -> &[BallMark] {
        self.here.as_ref().map_or(&[], |here| &here.challenge)
    }

    /// The latest round of which a ball was played.
    pub fn round(&self) -> Option<Round> {
        self.here.as_ref().map(|here| here.turn.round)
    }

    /// The ball that comes next.
    pub fn next(&self) -> NextBall {
        let rule = &self.rule;
        let easy = |round, restart| NextBall {
            turn: Turn { round, restart },
            kind: FeedKind::Easy,
            ball: 1,
            of: rule.n_easy,
            over: false,
            offer_easier: restart >= RESTARTS_BEFORE_OFFER,
        };
        let mut next = match &self.here {
            None => easy(Round(1), 0),
            Some(here) => {
                let Turn { round, restart } = here.turn;
                let n_used = |marks: &[BallMark]| u8::try_from(marks.len()).unwrap_or(u8::MAX);
                let n_good = here.easy.iter().filter(|m| **m == BallMark::Good).count();
                let challenge = |ball| NextBall {
                    turn: here.turn,
                    kind: FeedKind::Challenge,
                    ball,
                    of: rule.n_challenge,
                    over: false,
                    offer_easier: false,
                };
                match (n_used(&here.easy), n_used(&here.challenge)) {
                    (_, n) if n >= rule.n_challenge => easy(Round(round.0.saturating_add(1)), 0),
                    (_, n) if n > 0 => challenge(n + 1),
                    _ if rule.earn.is_some_and(|x| n_good >= usize::from(x)) => challenge(1),
                    (n, _) if n < rule.n_easy => NextBall { ball: n + 1, ..easy(round, restart) },
                    _ if rule.earn.is_some() => easy(round, restart.saturating_add(1)),
                    _ => challenge(1),
                }
            }
        };
        next.over = self.is_over(next.turn.round);
        next
    }

    fn is_over(&self, next_round: Round) -> bool {
        match self.rule.end {
            TransitionEnd::Coach => false,
            TransitionEnd::Rounds(n) => next_round.0 > n,
            TransitionEnd::DuelPoints(n) => match self.rule.between {
                DuelBetween::Sides => self.duel.passers.max(self.duel.servers) >= n,
                DuelBetween::Children => self.by_child.values().any(|points| *points >= n),
            },
        }
    }
}
