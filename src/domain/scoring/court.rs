//! What a game gives each child, whoever it plays with: rallies and time on the court, games won, the longest wait. Keeps no score.

use std::collections::{BTreeMap, BTreeSet};

use crate::domain::entry::{Lineup, Rally};
use crate::domain::ids::PlayerId;

/// One child's share of the game.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Played {
    pub n_rallies: u32,
    pub court_ms: u32,
    /// Games (or rallies, where each is a game) that its side won.
    pub n_won: u32,
    /// Rallies in the line since it was last on the court.
    pub n_waited: u32,
    pub longest_wait: u32,
    pub longest_wait_ms: u32,
    waited_ms: u32,
}

#[derive(Clone, Debug, Default, PartialEq)]
pub struct CourtShares {
    by_child: BTreeMap<PlayerId, Played>,
}

impl CourtShares {
    /// `lineup` is who stood where while it was played; who waits in no group waits for nothing.
    pub fn note(&mut self, rally: &Rally, lineup: &Lineup, lasted_ms: u32) {
        let on_court: BTreeSet<PlayerId> = rally.near.iter().chain(&rally.far).copied().collect();
        for player in &on_court {
            let played = self.by_child.entry(*player).or_default();
            played.n_rallies += 1;
            played.court_ms = played.court_ms.saturating_add(lasted_ms);
            (played.n_waited, played.waited_ms) = (0, 0);
        }
        for player in lineup.groups.iter().flatten().filter(|player| !on_court.contains(player)) {
            let played = self.by_child.entry(*player).or_default();
            played.n_waited += 1;
            played.waited_ms = played.waited_ms.saturating_add(lasted_ms);
            played.longest_wait = played.longest_wait.max(played.n_waited);
            played.longest_wait_ms = played.longest_wait_ms.max(played.waited_ms);
        }
    }

    pub fn note_won(&mut self, team: &[PlayerId]) {
        for player in team {
            self.by_child.entry(*player).or_default().n_won += 1;
        }
    }

    pub fn of(&self, player: PlayerId) -> Played {
        self.by_child.get(&player).copied().unwrap_or_default()
    }

    pub fn iter(&self) -> impl Iterator<Item = (PlayerId, Played)> + '_ {
        self.by_child.iter().map(|(player, played)| (*player, *played))
    }
}

/// Whether the same children stand on each side, of which at most so many are on the court. Where each stands is no matter.
pub fn same_sides(a: &Lineup, b: &Lineup, a_side: usize) -> bool {
    (0..2).all(|at| {
        let [a, b] = [a, b].map(|lineup| lineup.groups.get(at).map_or(&[][..], |g| &g[..g.len().min(a_side)]));
        a.len() == b.len() && a.iter().all(|player| b.contains(player))
    })
}

/// The groups with those of this rally on the court again, the winners' side first. Each rally says who played it, so a rally
/// before it that was taken back or corrected moves nobody in it.
pub fn anchored(groups: &[Vec<PlayerId>], rally: &Rally) -> Vec<Vec<PlayerId>> {
    let same =
        |group: &Vec<PlayerId>, team: &[PlayerId]| team.iter().all(|player| group.contains(player)) && !team.is_empty();
    let near = groups.iter().position(|group| same(group, &rally.near));
    let far = groups.iter().position(|group| same(group, &rally.far));
    match (near, far) {
        (Some(near), Some(far)) if near != far => {
            let rest = groups.iter().enumerate().filter(|(at, _)| *at != near && *at != far);
            [near, far].iter().map(|at| groups[*at].clone()).chain(rest.map(|(_, group)| group.clone())).collect()
        }
        _ => groups.to_vec(),
    }
}
