//! First to ten (or another number) among groups: a point for each good ball. Won at that number, or once two ahead of every other
//! where that is wanted. No head starts: groups are evened out by what they are fed.

use std::collections::BTreeMap;

use super::{Ball, Over, ScoringRule, Standing, Who};
use crate::domain::rule::FirstTo;

#[derive(Clone, Debug, PartialEq)]
pub struct RaceScore {
    rule: FirstTo,
    points: BTreeMap<Who, u32>,
    won: Option<Who>,
}

impl RaceScore {
    pub fn new(rule: FirstTo) -> Self {
        RaceScore { rule, points: BTreeMap::new(), won: None }
    }
}

impl ScoringRule for RaceScore {
    fn note(&mut self, ball: Ball<'_>) {
        let Ball::Contact(contact) = ball else { return };
        // Who is in no group plays for none.
        let Some(who) = contact.group.filter(|_| contact.outcome.scores(contact.good_from)).map(Who::Group) else {
            return;
        };
        let points = self.points.entry(who).or_default();
        *points += 1;
        let points = *points;
        let next = self.points.iter().filter(|(other, _)| **other != who).map(|(_, n)| *n).max().unwrap_or(0);
        // The first who had it has it, however the others go on.
        if self.won.is_none() && points >= u32::from(self.rule.n) && (!self.rule.by_two || points >= next + 2) {
            self.won = Some(who);
        }
    }

    /// Everyone's: what the first ones have.
    fn standing(&self, who: Who) -> Standing {
        let now = match who {
            Who::Everyone => self.points.values().copied().max().unwrap_or(0),
            who => self.points.get(&who).copied().unwrap_or(0),
        };
        Standing { now, best: now, goal: Some(u32::from(self.rule.n)), ..Standing::default() }
    }

    fn over(&self, _: u32) -> Option<Over> {
        self.won.map(|who| Over::Have(vec![who]))
    }
}
