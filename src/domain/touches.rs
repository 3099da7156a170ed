//! Who touched a ball in which role, worked out beside the judged contacts: whoever served or tossed, passed, caught or fetched. For
//! fairness, never for rates.

use std::collections::BTreeMap;

use super::entry::{Contact, Lineup};
use super::ids::PlayerId;
use super::skill::{Outcome, PassGrade, Role};

/// Touches of one child. Only the judged ones were seen; the rest are told by the places as they
/// stood, which the coach may not have kept up with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Touches {
    /// Judged ones: passes, serves, any skill.
    pub judged: u32,
    /// Serves and tosses for somebody else's contact.
    pub fed: u32,
    pub caught: u32,
    pub fetched: u32,
}

impl std::ops::Add for Touches {
    type Output = Touches;

    fn add(self, other: Touches) -> Touches {
        Touches {
            judged: self.judged + other.judged,
            fed: self.fed + other.fed,
            caught: self.caught + other.caught,
            fetched: self.fetched + other.fetched,
        }
    }
}

impl Touches {
    pub fn all(self) -> u32 {
        self.judged + self.fed + self.caught + self.fetched
    }
}

/// Touches of everybody in one run.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TouchBook {
    by_child: BTreeMap<PlayerId, Touches>,
    n_balls: usize,
}

impl TouchBook {
    /// Several who feed, or fetch, take turns.
    pub fn note(&mut self, contact: &Contact, lineup: &Lineup) {
        let ball = self.n_balls;
        self.n_balls += 1;
        if let Some(player) = contact.player.filter(|_| contact.outcome != Outcome::ServeMissed) {
            self.of_mut(player).judged += 1;
        }
        let in_turn = |list: &[PlayerId]| (!list.is_empty()).then(|| list[ball % list.len()]);
        let fed = contact.server.or_else(|| in_turn(&lineup.servers).filter(|_| contact.role != Role::Server));
        if let Some(player) = fed.filter(|player| contact.player != Some(*player)) {
            self.of_mut(player).fed += 1;
        }
        let reached = match contact.outcome {
            // One that was only chased may have been caught or not.
            Outcome::Pass { grade, .. } => grade >= PassGrade::Moved,
            Outcome::TwoKey { good } => good,
            Outcome::Counted => true,
            Outcome::Serve { .. } | Outcome::ServeMissed | Outcome::NoChance | Outcome::Removed => false,
        };
        match lineup.target.filter(|_| reached) {
            Some(player) => self.of_mut(player).caught += 1,
            None => {
                if let Some(player) = in_turn(&lineup.getters) {
                    self.of_mut(player).fetched += 1;
                }
            }
        }
    }

    /// In a match the server of a pass has touched the ball too, unless that serve was noted by itself.
    pub fn note_in_match(&mut self, contact: &Contact, serve_noted: bool) {
        if let Some(player) = contact.player {
            self.of_mut(player).judged += 1;
        }
        if let Some(server) = contact.server.filter(|_| !serve_noted) {
            self.of_mut(server).fed += 1;
        }
    }

    pub fn of(&self, player: PlayerId) -> Touches {
        self.by_child.get(&player).copied().unwrap_or_default()
    }

    pub fn iter(&self) -> impl Iterator<Item = (PlayerId, Touches)> + '_ {
        self.by_child.iter().map(|(player, touches)| (*player, *touches))
    }

    fn of_mut(&mut self, player: PlayerId) -> &mut Touches {
        self.by_child.entry(player).or_default()
    }
}
