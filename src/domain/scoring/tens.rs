//! Out of ten: each child's balls in series of ten (or another number), this one, the last one, the best one. A series is full when
//! its balls are played; the next ball begins another. A told count is a series of its own, as long as it was.

use std::collections::BTreeMap;

use super::{Ball, Over, ScoringRule, Standing, Who};
use crate::domain::ids::PlayerId;
use crate::domain::rule::Tens;
use crate::stats::proportion::Count;

#[derive(Clone, Debug, PartialEq)]
pub struct TensScore {
    rule: Tens,
    by_child: BTreeMap<PlayerId, Child>,
}

#[derive(Clone, Debug, Default, PartialEq)]
struct Child {
    /// The series that is being played, or was played last while the next hasn't begun.
    now: Count,
    last: Option<u32>,
    best: Option<u32>,
    told: BTreeMap<u16, Count>,
}

impl TensScore {
    pub fn new(rule: Tens) -> Self {
        TensScore { rule, by_child: BTreeMap::new() }
    }
}

impl Child {
    fn note(&mut self, good: bool, n: u32) {
        if self.now.tries() >= n {
            self.last = Some(self.now.good());
            self.now = Count::NONE;
        }
        self.now.note(good);
        if self.now.tries() >= n {
            self.best = self.best.max(Some(self.now.good()));
        }
    }

    /// This series and the good ones of the one before. Where all was told, the latest told series is this one.
    fn series(&self) -> (Count, Option<u32>) {
        let mut told = self.told.values().rev();
        match told.next() {
            Some(count) if self.now == Count::NONE => (*count, told.next().map(|count| count.good())),
            _ => (self.now, self.last),
        }
    }

    fn best(&self) -> u32 {
        let told = self.told.values().map(|count| count.good()).max();
        self.best.max(told).unwrap_or(0)
    }
}

impl ScoringRule for TensScore {
    fn note(&mut self, ball: Ball<'_>) {
        match ball {
            Ball::Contact(contact) => {
                let Some(good) = contact.good_from.judge(contact.outcome) else { return };
                let Some(player) = contact.player else { return };
                self.by_child.entry(player).or_default().note(good, u32::from(self.rule.n));
            }
            Ball::Told { player, told_no, count } => {
                self.by_child.entry(player).or_default().told.insert(told_no, count);
            }
            Ball::Rally { .. } => {}
        }
    }

    /// Everyone's: the good ones of all series that are being played, of their balls.
    fn standing(&self, who: Who) -> Standing {
        match who {
            Who::Child(player) => {
                let Some(child) = self.by_child.get(&player) else {
                    return Standing { of: Some(0), ..Standing::default() };
                };
                let (now, last) = child.series();
                Standing { now: now.good(), of: Some(now.tries()), best: child.best(), last, goal: None }
            }
            Who::Everyone | Who::Group(_) => {
                let now: Count = self.by_child.values().map(|child| child.series().0).sum();
                let best = self.by_child.values().map(Child::best).max().unwrap_or(0);
                Standing { now: now.good(), of: Some(now.tries()), best, ..Standing::default() }
            }
        }
    }

    fn over(&self, _: u32) -> Option<Over> {
        None
    }
}
