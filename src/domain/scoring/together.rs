//! Together: one total of everyone's good ones, or one row that everyone keeps alive, against the squad's own best before. Nobody's
//! miss is anybody's.

use super::{Ball, Over, ScoringRule, Standing, Who};
use crate::domain::rule::Together;

#[derive(Clone, Debug, PartialEq)]
pub struct TogetherScore {
    rule: Together,
    now: u32,
    best: u32,
    balls: u32,
}

impl TogetherScore {
    pub fn new(rule: Together) -> Self {
        TogetherScore { rule, now: 0, best: 0, balls: 0 }
    }
}

impl ScoringRule for TogetherScore {
    fn note(&mut self, ball: Ball<'_>) {
        let Ball::Contact(contact) = ball else { return };
        let good = contact.outcome.scores(contact.good_from);
        if !good && contact.good_from.judge(contact.outcome).is_none() {
            return;
        }
        self.balls += 1;
        // After the last ball the score stands.
        if self.rule.balls.is_some_and(|n| self.balls > u32::from(n)) {
            return;
        }
        match good {
            true => self.now += 1,
            false if self.rule.row => self.now = 0,
            false => {}
        }
        self.best = self.best.max(self.now);
    }

    /// The goal is one more than the squad ever had; the same for everyone.
    fn standing(&self, _: Who) -> Standing {
        Standing {
            now: self.now,
            of: self.rule.balls.map(|n| self.balls.min(u32::from(n))),
            best: self.best,
            last: self.rule.to_beat.map(u32::from),
            goal: self.rule.to_beat.map(|best| u32::from(best) + 1),
        }
    }

    fn over(&self, _: u32) -> Option<Over> {
        self.rule.balls.is_some_and(|n| self.balls >= u32::from(n)).then_some(Over::Done)
    }
}
