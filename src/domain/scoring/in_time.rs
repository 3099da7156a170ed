//! Most in the time: good ones before the run's clock is at its end, of each child or group. What the clock showed is stored with
//! each contact, so a ball counts or not whatever becomes of clocks.

use std::collections::BTreeMap;

use super::{Ball, Over, ScoringRule, Standing, Who, leaders, scored_for};
use crate::domain::rule::{InTime, Whose};

#[derive(Clone, Debug, PartialEq)]
pub struct TimeScore {
    rule: InTime,
    points: BTreeMap<Who, u32>,
    everyone: u32,
}

impl TimeScore {
    pub fn new(rule: InTime) -> Self {
        TimeScore { rule, points: BTreeMap::new(), everyone: 0 }
    }
}

impl InTime {
    /// Where the clock stands at its end.
    const fn limit_ms(self) -> u32 {
        // Seconds are 16 bits wide: their milliseconds fit.
        self.seconds as u32 * 1000
    }

    /// What is left where it shows so much.
    pub const fn left_ms(self, shown_ms: u32) -> u32 {
        self.limit_ms().saturating_sub(shown_ms)
    }
}

impl ScoringRule for TimeScore {
    /// A ball without a reading was played outside the time.
    fn note(&mut self, ball: Ball<'_>) {
        let Ball::Contact(contact) = ball else { return };
        let in_time = contact.clock_ms.is_some_and(|shown| self.rule.left_ms(shown) > 0);
        if !in_time || !contact.outcome.scores(contact.good_from) {
            return;
        }
        self.everyone += 1;
        if let Some(who) = scored_for(self.rule.whose, contact) {
            *self.points.entry(who).or_default() += 1;
        }
    }

    fn standing(&self, who: Who) -> Standing {
        let now = match who {
            Who::Everyone => self.everyone,
            who => self.points.get(&who).copied().unwrap_or(0),
        };
        Standing { now, best: now, ..Standing::default() }
    }

    /// Groups that play against each other have a winner; of children nobody is named.
    fn over(&self, shown_ms: u32) -> Option<Over> {
        if self.rule.left_ms(shown_ms) > 0 {
            return None;
        }
        let mut first = leaders(&self.points);
        first.retain(|who| matches!(who, Who::Group(_)));
        Some(if self.rule.whose == Whose::Group && !first.is_empty() { Over::Have(first) } else { Over::Done })
    }
}
