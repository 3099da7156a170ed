//! The plain tally: good ones of everyone towards a goal, if there is one. Told counts are in.

use std::collections::BTreeMap;

use super::{Ball, Over, ScoringRule, Standing, Who};
use crate::domain::ids::{GroupNo, PlayerId};

#[derive(Clone, Debug, PartialEq)]
pub struct TowardGoal {
    goal: Option<u16>,
    everyone: u32,
    by_group: BTreeMap<GroupNo, u32>,
    by_child: BTreeMap<PlayerId, u32>,
    told: BTreeMap<(PlayerId, u16), u32>,
}

impl TowardGoal {
    pub fn new(goal: Option<u16>) -> Self {
        let (by_group, by_child, told) = Default::default();
        TowardGoal { goal, everyone: 0, by_group, by_child, told }
    }
}

impl ScoringRule for TowardGoal {
    fn note(&mut self, ball: Ball<'_>) {
        match ball {
            Ball::Contact(contact) if contact.outcome.scores(contact.good_from) => {
                self.everyone += 1;
                if let Some(group) = contact.group {
                    *self.by_group.entry(group).or_default() += 1;
                }
                if let Some(player) = contact.player {
                    *self.by_child.entry(player).or_default() += 1;
                }
            }
            Ball::Told { player, told_no, count } => {
                let before = self.told.insert((player, told_no), count.good()).unwrap_or(0);
                self.everyone = self.everyone - before + count.good();
                let child = self.by_child.entry(player).or_default();
                *child = *child - before + count.good();
            }
            Ball::Contact(_) | Ball::Rally { .. } => {}
        }
    }

    fn standing(&self, who: Who) -> Standing {
        let now = match who {
            Who::Everyone => self.everyone,
            Who::Group(group) => self.by_group.get(&group).copied().unwrap_or(0),
            Who::Child(player) => self.by_child.get(&player).copied().unwrap_or(0),
        };
        let goal = if who == Who::Everyone { self.goal.map(u32::from) } else { None };
        Standing { now, best: now, goal, ..Standing::default() }
    }

    /// Reached or not, the coach ends it.
    fn over(&self, _: u32) -> Option<Over> {
        None
    }
}
