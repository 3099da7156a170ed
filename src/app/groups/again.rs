//! Who is with the same again: the rounds in memory, and how many pairs can't be helped.

use super::super::model::Model;
use crate::domain::ids::PlayerId;
use crate::domain::together::{self, Groups};
use crate::stats::split::Met;

/// Rounds of this practice in order, and those of earlier ones as far as they are in memory, the latest practice last.
pub(super) fn rounds(model: &Model) -> (Vec<Groups>, Vec<Vec<Groups>>) {
    let entries = || model.own.iter().chain(model.theirs.iter());
    let today = model.practice_today();
    let mut earlier = Vec::new();
    for practice in model.base.practices().iter().rev() {
        if today.as_ref().is_some_and(|p| p.id == practice.id) || model.packed.contains_key(&practice.id) {
            continue;
        }
        earlier.push((practice.started.wall_ms, together::rounds(practice, model.base.same(), entries())));
    }
    let packed = model.packed.values().map(|p| (p.summary.started.wall_ms, p.summary.rounds.clone()));
    earlier.extend(packed);
    earlier.retain(|(_, rounds)| !rounds.is_empty());
    let earlier = crate::stats::arrange::arranged(earlier, |(a, _), (b, _)| a.cmp(b));
    let today = today.map(|practice| together::rounds(&practice, model.base.same(), entries())).unwrap_or_default();
    (today, earlier.into_iter().map(|(_, rounds)| rounds).collect())
}

/// Who is with the same again, as far as that can be known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Again {
    /// Pairs who were together before.
    pub n: usize,
    /// So many can't be helped, whatever groups are made.
    pub at_least: usize,
    /// Before in this practice; else in the last one with groups.
    pub today: bool,
}

/// `None` where there were no groups before.
pub fn again(model: &Model, groups: &Groups) -> Option<Again> {
    let (mut today, mut earlier) = rounds(model);
    // What came after these groups isn't before them: a game that has teams of its own, say.
    if let Some(at) = today.iter().rposition(|round| is_same(round, groups)) {
        today.truncate(at);
    }
    while today.last().is_some_and(|last| is_same(last, groups)) {
        today.pop();
    }
    let is_today = !today.is_empty();
    let before = if is_today { today } else { earlier.pop()? };
    let here: Vec<PlayerId> = groups.concat();
    let index = |p: &PlayerId| here.iter().position(|q| q == p);
    let mut met = Met::nobody(here.len());
    for (a, b) in together::pairs(&before) {
        if let (Some(a), Some(b)) = (index(&a), index(&b)) {
            met.note(a, b);
        }
    }
    let by_index: Vec<Vec<usize>> = groups.iter().map(|g| g.iter().filter_map(index).collect()).collect();
    let sizes: Vec<usize> = groups.iter().map(Vec::len).collect();
    // A round that everyone here was in: who comes from how few of its groups.
    let whole = |round: &&Groups| here.iter().all(|p| round.iter().any(|g| g.contains(p)));
    let by_round = before.iter().filter(whole).map(|round| together::fewest_again(&sizes, round.len())).max();
    let n = here.len();
    let all = n * n.saturating_sub(1) / 2;
    let n_met = (0..n).map(|a| (0..a).filter(|b| met.times(a, *b) > 0).count()).sum::<usize>();
    let needed: usize = sizes.iter().map(|s| s * s.saturating_sub(1) / 2).sum();
    let by_pairs = (needed + n_met).saturating_sub(all);
    let repeats = usize::try_from(met.repeats(&by_index)).unwrap_or(usize::MAX);
    Some(Again { n: repeats, at_least: by_round.unwrap_or(0).max(by_pairs), today: is_today })
}

/// The same groups but for who came or went.
fn is_same(one: &Groups, other: &Groups) -> bool {
    let group_in = |groups: &Groups, p: &PlayerId| groups.iter().position(|g| g.contains(p));
    let both: Vec<(usize, usize)> =
        one.iter().flatten().filter_map(|p| Some((group_in(one, p)?, group_in(other, p)?))).collect();
    both.iter().all(|(a, b)| both.iter().all(|(c, d)| (a == c) == (b == d)))
}
