//! Who was with whom before: the groups of a practice one after another, as they were made and played. A change of mind is not a
//! round.

use super::entry::{Entry, Fact};
use super::ids::PlayerId;
use super::replay::base::Practice;
use super::same::Same;
use crate::stats::arrange::arranged;

/// So soon nothing was played in groups: they were only looked at.
const CHANGE_OF_MIND_MS: u64 = 60_000;

/// Who is with whom at one time.
pub type Groups = Vec<Vec<PlayerId>>;

/// The groups of a practice in order, from entries that may hold more than it. What was changed by hand stands in the place of what
/// it was made from, and so does what was made anew within a minute: the coach had changed her mind. Unless a run had these groups
/// meanwhile, then they were played.
pub fn rounds<'a>(practice: &Practice, same: &Same, entries: impl Iterator<Item = &'a Entry>) -> Vec<Groups> {
    let mut of_it: Vec<&Entry> = Vec::new();
    let mut taken: Vec<&Entry> = Vec::new();
    for entry in entries {
        let by_hand = matches!(entry.fact, Fact::GroupsMade { by_hand: true, .. });
        if matches!(entry.fact, Fact::EntryTakenBack { run: Some(_), .. }) {
            taken.push(entry);
        } else if (by_hand || groups_of(entry).is_some_and(|g| !g.is_empty())) && practice.holds(entry) {
            of_it.push(entry);
        }
    }
    of_it.retain(|entry| !is_undone(entry, &taken));
    let mut rounds: Vec<Groups> = Vec::new();
    // None of the first so many was a change of mind: a run had the last of these.
    let mut n_played = 0;
    let mut made_ms = i64::MIN;
    for entry in arranged(of_it, |a: &&Entry, b: &&Entry| a.order().cmp(&b.order())) {
        let changed_mind = match entry.fact {
            Fact::GroupsMade { by_hand, .. } => by_hand || entry.at.wall_ms.abs_diff(made_ms) < CHANGE_OF_MIND_MS,
            _ => false,
        };
        if changed_mind && rounds.len() > n_played {
            rounds.pop();
        }
        made_ms = entry.at.wall_ms;
        let mut now = groups_of(entry).unwrap_or_default().to_vec();
        same.lists(&mut now);
        let now = in_order(&now);
        if !now.is_empty() && rounds.last() != Some(&now) {
            rounds.push(now);
        }
        if !matches!(entry.fact, Fact::GroupsMade { .. }) {
            n_played = rounds.len();
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

/// A lineup of a run that was undone: nobody stood in it.
fn is_undone(entry: &Entry, taken: &[&Entry]) -> bool {
    let of_it = taken.iter().filter_map(|other| match other.fact {
        Fact::EntryTakenBack { target, revision, back, .. } if target == entry.id => {
            Some((revision, other.order(), back))
        }
        _ => None,
    });
    of_it.max().is_some_and(|(_, _, back)| back)
}

fn groups_of(entry: &Entry) -> Option<&[Vec<PlayerId>]> {
    match &entry.fact {
        Fact::GroupsMade { groups, .. } => Some(groups),
        Fact::RunStarted { lineup, .. } | Fact::LineupSet { lineup, .. } => Some(&lineup.groups),
        _ => None,
    }
}
