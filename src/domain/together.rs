//! Who was with whom before: the groups of a practice one after another, as they were made and played. A change of mind is not a
//! round.

use super::entry::{Entry, Fact};
use super::ids::PlayerId;
use super::replay::base::Practice;
use crate::stats::arrange::arranged;

/// Who is with whom at one time.
pub type Groups = Vec<Vec<PlayerId>>;

/// The groups of a practice in order, from entries that may hold more than it. Groups that came back, or differ from those before by
/// one exchange alone, stand in their place: the coach had changed her mind.
pub fn rounds<'a>(practice: &Practice, entries: impl Iterator<Item = &'a Entry>) -> Vec<Groups> {
    let of_it = entries.filter(|e| groups_of(e).is_some_and(|g| !g.is_empty()) && practice.holds(e)).collect();
    let mut rounds: Vec<Groups> = Vec::new();
    for entry in arranged(of_it, |a: &&Entry, b: &&Entry| a.order().cmp(&b.order())) {
        let now = in_order(groups_of(entry).unwrap_or_default());
        let n = rounds.len();
        if n > 1 && rounds[n - 2] == now {
            rounds.pop();
        } else if n > 0 && is_exchange(&rounds[n - 1], &now) {
            rounds[n - 1] = now;
        } else if rounds.last() != Some(&now) {
            rounds.push(now);
        }
    }
    rounds
}

/// Pairs that were together in these rounds, one each time they came together anew.
pub fn pairs(rounds: &[Groups]) -> Vec<(PlayerId, PlayerId)> {
    let mut pairs = Vec::new();
    for (at, round) in rounds.iter().enumerate() {
        let before = at.checked_sub(1).and_then(|at| rounds.get(at));
        for group in round {
            for (i, a) in group.iter().enumerate() {
                let anew = group[..i].iter().filter(|b| !before.is_some_and(|before| are_together(before, *a, **b)));
                pairs.extend(anew.map(|b| (*a, *b)));
            }
        }
    }
    pairs
}

/// The same groups whatever the order in which they are told.
pub fn in_order(groups: &[Vec<PlayerId>]) -> Groups {
    let groups = groups.iter().filter(|g| !g.is_empty()).map(|g| arranged(g.clone(), PlayerId::cmp)).collect();
    arranged(groups, Ord::cmp)
}

/// So many pairs of such groups must have been together in that round already, however the groups are made: more in a group than that
/// round had groups, and some come from the same one.
///
/// ```
/// use peppertally::domain::together::fewest_again;
/// assert_eq!(fewest_again(&[4, 4, 3], 3), 2);
/// assert_eq!(fewest_again(&[2, 2, 2], 3), 0);
/// ```
pub fn fewest_again(sizes: &[usize], n_groups_before: usize) -> usize {
    let pairs = |n: usize| n * n.saturating_sub(1) / 2;
    let k = n_groups_before.max(1);
    sizes.iter().map(|s| (s % k) * pairs(s / k + 1) + (k - s % k) * pairs(s / k)).sum()
}

fn are_together(round: &Groups, a: PlayerId, b: PlayerId) -> bool {
    round.iter().any(|group| group.contains(&a) && group.contains(&b))
}

fn groups_of(entry: &Entry) -> Option<&[Vec<PlayerId>]> {
    match &entry.fact {
        Fact::GroupsMade { groups, .. } => Some(groups),
        Fact::RunStarted { lineup, .. } | Fact::LineupSet { lineup, .. } => Some(&lineup.groups),
        _ => None,
    }
}

/// The same children in as many groups, and two of the groups have one other child each.
fn is_exchange(was: &Groups, now: &Groups) -> bool {
    let rest =
        |one: &Groups, other: &Groups| -> Groups { one.iter().filter(|g| !other.contains(g)).cloned().collect() };
    let (gone, new) = (rest(was, now), rest(now, was));
    let ([a, b], [c, d]) = (gone.as_slice(), new.as_slice()) else { return false };
    let n_common = |x: &[PlayerId], y: &[PlayerId]| x.iter().filter(|p| y.contains(p)).count();
    let one_off = |x: &[PlayerId], y: &[PlayerId]| x.len() == y.len() && n_common(x, y) + 1 == x.len();
    let all = |groups: &Groups| in_order(&[groups.concat()]);
    // Groups of two: nobody would be with the same, so that is a new round.
    let large = a.len().min(b.len()) > 2;
    large && all(&gone) == all(&new) && ((one_off(a, c) && one_off(b, d)) || (one_off(a, d) && one_off(b, c)))
}
