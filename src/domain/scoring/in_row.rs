//! In a row: good ones without a miss between them, of each child, or of a group that keeps one row alive together. A row that
//! breaks falls to nothing, or back to the last full five. Who broke it is not remembered. Balls that are nobody's try pass it by.

use std::collections::BTreeMap;

use super::{Ball, Over, ScoringRule, Standing, Who, scored_for};
use crate::domain::rule::InRow;

#[derive(Clone, Debug, PartialEq)]
pub struct RowScore {
    rule: InRow,
    rows: BTreeMap<Who, Row>,
}

#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Row {
    now: u32,
    best: u32,
}

impl RowScore {
    pub fn new(rule: InRow) -> Self {
        RowScore { rule, rows: BTreeMap::new() }
    }
}

/// Where a row falls to from `now`: nothing, or the last full five.
///
/// ```
/// use peppertally::domain::scoring::in_row::fallen;
/// assert_eq!((fallen(13, false), fallen(13, true), fallen(4, true), fallen(10, true)), (0, 10, 0, 10));
/// ```
pub const fn fallen(now: u32, falls_to_five: bool) -> u32 {
    if falls_to_five { now - now % 5 } else { 0 }
}

impl ScoringRule for RowScore {
    fn note(&mut self, ball: Ball<'_>) {
        let Ball::Contact(contact) = ball else { return };
        let Some(good) = contact.good_from.judge(contact.outcome) else { return };
        let Some(who) = scored_for(self.rule.whose, contact) else { return };
        let row = self.rows.entry(who).or_default();
        row.now = if good { row.now + 1 } else { fallen(row.now, self.rule.falls_to_five) };
        row.best = row.best.max(row.now);
    }

    /// Everyone's, where each has a row of its own: the longest there is now, and the best there was.
    fn standing(&self, who: Who) -> Standing {
        let row = self.rows.get(&who).copied().or_else(|| (who == Who::Everyone).then(|| self.longest()));
        let Row { now, best } = row.unwrap_or_default();
        Standing { now, best, goal: self.rule.goal.map(u32::from), ..Standing::default() }
    }

    /// Reached or not, the coach ends it.
    fn over(&self, _: u32) -> Option<Over> {
        None
    }
}

impl RowScore {
    fn longest(&self) -> Row {
        let most = |of: fn(&Row) -> u32| self.rows.values().map(of).max().unwrap_or(0);
        Row { now: most(|row| row.now), best: most(|row| row.best) }
    }
}
