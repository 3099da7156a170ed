//! Balls that two have judged: the child that scored itself, and the coach who saw the same ball. Owns which two judgements are of one ball; what
//! they agree on is `stats::agreement`'s. Kept for a station as a whole and never for a child.
//!
//! Two ways lead here. At a station that is being checked the coach judges each ball right after the child, on the same phone: what belongs
//! together is stored (`Fact::BallChecked`). And where another phone counted the same run at the same time, what it tapped stands beside:
//! there the balls of one child are laid against each other in their order, each pair at most fifteen seconds apart by the wall clocks, so that as
//! many as can be are near each other and the sum of the distances is least; a ball alone on either side, while both were at it, is told as such.
//! Which pairs are taken is a choice of ours. A child's ball counts as it tapped it, whatever the coach made of it later, and is compared once,
//! however many others saw it: with the first of them by identity. A number that was told has no balls to lay against: it is not compared.

mod pairs;

use super::entry::{Contact, Fact};
use super::ids::{ContactId, PlayerId};
use super::lots::What;
use super::replay::part::Part;
use super::replay::run::RunState;
use super::skill::{Outcome, ServeOutcome};
use crate::stats::arrange::arranged;
use pairs::paired;
use std::ops::RangeInclusive;

/// So many balls of one kind on which the child said the one and the coach the other, each by its step on the scale, the best highest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Checked {
    pub what: What,
    pub coach: u8,
    pub child: u8,
    pub n: u32,
}

#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Checks {
    pub checked: Vec<Checked>,
    /// Balls of a child that only one of the two has, while both noted that child's: from where the later of them began to where the first of them
    /// ended.
    pub n_alone: u32,
}

/// Of one run.
pub fn checks(run: &RunState) -> Checks {
    let mut all = Checks::default();
    for (i, check) in run.main.checks.iter().enumerate() {
        // Judged twice (by two windows), the last stands.
        let again = run.main.checks[i + 1..].iter().any(|later| later.contact == check.contact);
        if let Some(child) = as_noted(run, check.contact).filter(|_| !again) {
            all.note(child.outcome, check.outcome);
        }
    }
    let others: Vec<&Part> = run.beside.iter().map(|(_, part)| part).collect();
    all.beside(run, &run.main, &others);
    others.iter().for_each(|part| all.beside(run, part, &[&run.main]));
    all
}

impl Checks {
    pub fn add(&mut self, other: &Checks) {
        other.checked.iter().for_each(|one| self.count(*one));
        self.n_alone = self.n_alone.saturating_add(other.n_alone);
    }

    fn note(&mut self, child: Outcome, coach: Outcome) {
        if let (Some((what, child)), Some((same, coach))) = (step(child), step(coach))
            && what == same
        {
            self.count(Checked { what, coach, child, n: 1 });
        }
    }

    fn count(&mut self, one: Checked) {
        let is = |had: &&mut Checked| (had.what, had.coach, had.child) == (one.what, one.coach, one.child);
        match self.checked.iter_mut().find(is) {
            Some(had) => had.n = had.n.saturating_add(one.n),
            None => self.checked.push(one),
        }
    }

    /// What children scored themselves in the one part, against what others tapped of them in theirs.
    fn beside(&mut self, run: &RunState, by_child: &Part, others: &[&Part]) {
        if others.is_empty() {
            return;
        }
        let mut children: Vec<PlayerId> = Vec::new();
        for player in by_child.contacts.iter().filter(|c| c.contact.self_scored).filter_map(|c| c.contact.player) {
            if !children.contains(&player) {
                children.push(player);
            }
        }
        for player in children {
            let own = balls(by_child, player, true, run);
            let own_times: Vec<i64> = own.iter().map(|(at, _)| *at).collect();
            let mut met = vec![Met::Outside; own.len()];
            for other in others {
                let seen = balls(other, player, false, run);
                let seen_times: Vec<i64> = seen.iter().map(|(at, _)| *at).collect();
                let Some(both) = overlap(&own_times, &seen_times) else { continue };
                let mut is_paired = vec![false; seen.len()];
                for (a, b) in paired(&own_times, &seen_times) {
                    is_paired[b] = true;
                    if std::mem::replace(&mut met[a], Met::Compared) != Met::Compared {
                        self.note(own[a].1, seen[b].1);
                    }
                }
                for (met, at) in met.iter_mut().zip(&own_times) {
                    if *met == Met::Outside && both.contains(at) {
                        *met = Met::Alone;
                    }
                }
                let alone = seen_times.iter().zip(is_paired).filter(|(at, is_paired)| !is_paired && both.contains(at));
                self.alone(alone.count());
            }
            self.alone(met.iter().filter(|met| **met == Met::Alone).count());
        }
    }

    fn alone(&mut self, n: usize) {
        self.n_alone = self.n_alone.saturating_add(u32::try_from(n).unwrap_or(u32::MAX));
    }

    /// One kind's table, row by row what the coach said and column by column the child, and how many steps its scale has. Empty without a ball.
    pub fn table(&self, what: What) -> (Vec<u32>, usize) {
        let n = n_steps(what);
        let mut table = vec![0_u32; n * n];
        for one in self.checked.iter().filter(|one| one.what == what) {
            if let Some(cell) = table.get_mut(usize::from(one.coach) * n + usize::from(one.child)) {
                *cell = cell.saturating_add(one.n);
            }
        }
        (table, n)
    }

    /// Good by the trade's line: both, only the coach, only the child, neither.
    pub fn good(&self, what: What) -> [u32; 4] {
        let mut good = [0_u32; 4];
        for one in self.checked.iter().filter(|one| one.what == what) {
            let at = match (is_good(what, one.coach), is_good(what, one.child)) {
                (true, true) => 0,
                (true, false) => 1,
                (false, true) => 2,
                (false, false) => 3,
            };
            good[at] = good[at].saturating_add(one.n);
        }
        good
    }
}

/// The step of an outcome on its scale: a pass by its grade; of serves long is the better miss and net the worst (common practice, no source).
fn step(outcome: Outcome) -> Option<(What, u8)> {
    match outcome {
        Outcome::Pass { grade, .. } => Some((What::Pass, grade.digit())),
        Outcome::Serve { outcome, .. } => Some((
            What::Serve,
            match outcome {
                ServeOutcome::Net => 0,
                ServeOutcome::Wide => 1,
                ServeOutcome::Long => 2,
                ServeOutcome::In | ServeOutcome::Ace => 3,
            },
        )),
        Outcome::TwoKey { good } => Some((What::Own, u8::from(good))),
        _ => None,
    }
}

fn n_steps(what: What) -> usize {
    if what == What::Own { 2 } else { 4 }
}

fn is_good(what: What, step: u8) -> bool {
    match what {
        What::Pass => step >= 2,
        What::Serve => step >= 3,
        What::Own => step >= 1,
    }
}

/// The child's ball as the child tapped it, whatever was corrected since; nothing where it was taken back.
fn as_noted(run: &RunState, contact: ContactId) -> Option<&Contact> {
    match &run.entry(contact.0).filter(|entry| !run.amended.is_taken_back(entry.id))?.fact {
        Fact::ContactNoted { contact, .. } if contact.self_scored => Some(contact),
        _ => None,
    }
}

/// What became of a child's ball beside others.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Met {
    /// Nobody else was at it.
    Outside,
    Alone,
    Compared,
}

/// A child's balls in one part by the wall clock, each as it was noted by the child, or as it stands where somebody else noted it.
fn balls(part: &Part, player: PlayerId, by_self: bool, run: &RunState) -> Vec<(i64, Outcome)> {
    let of = part.contacts.iter().filter(|c| c.contact.player == Some(player) && c.contact.self_scored == by_self);
    let noted = of.map(|c| {
        let own = as_noted(run, c.id).filter(|_| by_self);
        (c.at.wall_ms, own.map_or(c.contact.outcome, |own| own.outcome))
    });
    arranged(noted.filter(|(_, outcome)| step(*outcome).is_some()).collect(), |(a, _), (b, _)| a.cmp(b))
}

/// While both were at it, times in order: empty where all of the one lie before the other's. `None` where one has none.
fn overlap(one: &[i64], other: &[i64]) -> Option<RangeInclusive<i64>> {
    let (from, to) = (*one.first()?.max(other.first()?), *one.last()?.min(other.last()?));
    Some(from..=to)
}
