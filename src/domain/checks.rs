//! Balls that two have judged: the child that scored itself, and the coach who saw the same ball. Owns which two judgements are of one ball; what
//! they agree on is `stats::agreement`'s. Kept for a station as a whole and never for a child.
//!
//! Two ways lead here. At a station that is being checked the coach judges each ball right after the child, on the same phone: what belongs
//! together is stored (`Fact::BallChecked`). And where another phone counted the same run at the same time, what it tapped stands beside:
//! there the balls of one child are laid against each other in their order, each pair at most [`NEAR_MS`] apart by the wall clocks, so that as
//! many as can be are near each other and the sum of the distances is least; a ball alone on either side is told as such. Which pairs are
//! taken is a choice of ours. A number that was told has no balls to lay against: it is not compared.

use super::entry::{Contact, Entry, Fact};
use super::ids::{ContactId, PlayerId};
use super::lots::What;
use super::replay::part::{Counted, Part};
use super::replay::run::RunState;
use super::skill::{Outcome, ServeOutcome};

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
    /// Balls beside each other's time that only one of the two has.
    pub n_alone: u32,
}

/// Balls of one child further apart than this are two.
pub const NEAR_MS: i64 = 15_000;
/// A child with more pairs to look at in one run than this isn't compared, and its balls are told as alone: a thousand against a thousand.
const MOST: usize = 1_000_000;

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
    for (_, part) in &run.beside {
        all.beside(&run.main, part);
        all.beside(part, &run.main);
    }
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

    /// What children scored themselves in the one part, against what somebody else tapped of them in the other.
    fn beside(&mut self, by_child: &Part, by_coach: &Part) {
        let mut children: Vec<PlayerId> = Vec::new();
        for player in by_child.contacts.iter().filter(|c| c.contact.self_scored).filter_map(|c| c.contact.player) {
            if !children.contains(&player) {
                children.push(player);
            }
        }
        for player in children {
            let of = |part: &Part, by_self: bool| -> Vec<Counted> {
                let is = |c: &&Counted| {
                    c.contact.player == Some(player)
                        && c.contact.self_scored == by_self
                        && step(c.contact.outcome).is_some()
                };
                part.contacts.iter().filter(is).cloned().collect()
            };
            let (own, seen) = (of(by_child, true), of(by_coach, false));
            let pairs = paired(&times(&own), &times(&seen));
            pairs.iter().for_each(|(a, b)| self.note(own[*a].contact.outcome, seen[*b].contact.outcome));
            if !seen.is_empty() {
                let alone = own.len() + seen.len() - 2 * pairs.len();
                self.n_alone = self.n_alone.saturating_add(u32::try_from(alone).unwrap_or(u32::MAX));
            }
        }
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
    let is = |entry: &&Entry| entry.id == contact.0 && !run.amended.is_taken_back(entry.id);
    match &run.entries().find(is)?.fact {
        Fact::ContactNoted { contact, .. } if contact.self_scored => Some(contact),
        _ => None,
    }
}

fn times(balls: &[Counted]) -> Vec<i64> {
    balls.iter().map(|ball| ball.at.wall_ms).collect()
}

/// Which of the one are which of the other: in order, near each other, so that alone-standing and distance cost least. A ball alone costs half of
/// [`NEAR_MS`], so two are a pair rather than two alone as long as they are near.
fn paired(one: &[i64], other: &[i64]) -> Vec<(usize, usize)> {
    if one.len().saturating_mul(other.len()) > MOST {
        return Vec::new();
    }
    let alone = NEAR_MS / 2;
    let width = other.len() + 1;
    // The least cost from these places on.
    let mut cost = vec![0_i64; (one.len() + 1) * width];
    let apart = |i: usize, j: usize| one[i].saturating_sub(other[j]).saturating_abs();
    for i in (0..=one.len()).rev() {
        for j in (0..=other.len()).rev() {
            let skipped = [(i < one.len()).then(|| (i + 1) * width + j), (j < other.len()).then(|| i * width + j + 1)];
            let skipped = skipped.into_iter().flatten().map(|at| cost[at].saturating_add(alone)).min();
            let pair = (i < one.len() && j < other.len() && apart(i, j) <= NEAR_MS)
                .then(|| cost[(i + 1) * width + j + 1].saturating_add(apart(i, j)));
            cost[i * width + j] = [skipped, pair].into_iter().flatten().min().unwrap_or(0);
        }
    }
    let (mut pairs, mut i, mut j) = (Vec::new(), 0, 0);
    while i < one.len() && j < other.len() {
        let now = cost[i * width + j];
        if apart(i, j) <= NEAR_MS && now == cost[(i + 1) * width + j + 1].saturating_add(apart(i, j)) {
            pairs.push((i, j));
            (i, j) = (i + 1, j + 1);
        } else if now == cost[(i + 1) * width + j].saturating_add(alone) {
            i += 1;
        } else {
            j += 1;
        }
    }
    pairs
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pairs_keep_their_order_and_are_near() {
        let s = |seconds: &[i64]| seconds.iter().map(|s| s * 1000).collect::<Vec<i64>>();
        for (one, other, pairs) in [
            (vec![], vec![], vec![]),
            (s(&[1, 8, 15]), s(&[2, 9, 16]), vec![(0, 0), (1, 1), (2, 2)]),
            // The second was seen by one alone: the third is the other's second, not the one that comes in order.
            (s(&[0, 20, 40]), s(&[1, 41]), vec![(0, 0), (2, 1)]),
            // Nearer to the next than to this one.
            (s(&[0, 10]), s(&[9]), vec![(1, 0)]),
            // Too far, by a second.
            (s(&[0]), s(&[16]), vec![]),
            (s(&[0]), s(&[15]), vec![(0, 0)]),
            // At the ends of the clock.
            (vec![i64::MIN], vec![i64::MAX], vec![]),
        ] {
            assert_eq!(paired(&one, &other), pairs, "{one:?} {other:?}");
        }
        let many = vec![0; 2000];
        assert_eq!(paired(&many, &many), []);
        let some: Vec<i64> = (0..900).map(|i| i * 3000).collect();
        assert_eq!(paired(&some, &some).len(), 900);
    }
}
