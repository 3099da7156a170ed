//! Who is meant: of children that were entered more than once, the one that stays for all of them. Entries keep what was written; they
//! are read under the one that stays. Knows neither who said so nor why.

use super::entry::{Entry, Fact, Lineup};
use super::ids::PlayerId;

/// For each child that another one stays for: that one. In the order of identity, and never a chain.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Same(Vec<(PlayerId, PlayerId)>);

impl Same {
    /// `pairs`: who is meant, by whom it stays. One that leads to itself says nothing.
    pub fn new(pairs: impl IntoIterator<Item = (PlayerId, PlayerId)>) -> Same {
        let mut same = Same::default();
        for (also, stays) in pairs.into_iter().filter(|(also, stays)| also != stays) {
            if let Err(at) = same.0.binary_search_by(|(known, _)| known.cmp(&also)) {
                same.0.insert(at, (also, stays));
            }
        }
        same
    }

    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub fn pairs(&self) -> &[(PlayerId, PlayerId)] {
        &self.0
    }

    /// The one that stays for this child: mostly itself.
    pub fn of(&self, player: PlayerId) -> PlayerId {
        self.0.binary_search_by(|(known, _)| known.cmp(&player)).map_or(player, |at| self.0[at].1)
    }

    /// This child, and every other that is meant by it.
    pub fn all(&self, player: PlayerId) -> impl Iterator<Item = PlayerId> {
        let others = self.0.iter().filter(move |(_, stays)| *stays == player).map(|(also, _)| *also);
        std::iter::once(player).chain(others)
    }

    /// Each once, where it stands first.
    pub fn list(&self, players: &mut Vec<PlayerId>) {
        if self.is_empty() {
            return;
        }
        let mut kept = Vec::new();
        for player in players.drain(..).map(|player| self.of(player)) {
            if !kept.contains(&player) {
                kept.push(player);
            }
        }
        *players = kept;
    }

    /// The same, over all of the lists: nobody is in two groups.
    pub fn lists(&self, lists: &mut [Vec<PlayerId>]) {
        if self.is_empty() {
            return;
        }
        let mut seen: Vec<PlayerId> = Vec::new();
        for list in lists {
            self.list(list);
            list.retain(|player| !seen.contains(player));
            seen.extend(list.iter().copied());
        }
    }

    /// An entry of a run, read under those who stay.
    pub fn read(&self, mut entry: Entry) -> Entry {
        if self.is_empty() {
            return entry;
        }
        let one = |player: &mut PlayerId| *player = self.of(*player);
        let maybe = |player: &mut Option<PlayerId>| *player = player.map(|player| self.of(player));
        match &mut entry.fact {
            Fact::RunStarted { lineup, .. } | Fact::LineupSet { lineup, .. } => self.lineup(lineup),
            Fact::TurnGiven { player, .. } | Fact::CountTold { player, .. } => one(player),
            Fact::ContactNoted { contact, .. } => {
                maybe(&mut contact.player);
                maybe(&mut contact.server);
            }
            Fact::EffortNoted { player, .. } | Fact::EffortCorrected { player, .. } => maybe(player),
            Fact::ContactsCorrected { changes, .. } => {
                changes.iter_mut().for_each(|change| maybe(&mut change.player));
            }
            // Places of a match stay as they were, whoever stood on them.
            Fact::RallyNoted { rally, .. } => rally.near.iter_mut().chain(&mut rally.far).for_each(one),
            Fact::GroupsMade { groups, .. } => self.lists(groups),
            _ => {}
        }
        entry
    }

    /// Nobody stands in two places: where two of them stood, the first is kept.
    fn lineup(&self, lineup: &mut Lineup) {
        let mut seen: Vec<PlayerId> = Vec::new();
        for place in &mut lineup.places {
            *place = place.map(|player| self.of(player)).filter(|player| !seen.contains(player));
            seen.extend(*place);
        }
        for list in [&mut lineup.waiting, &mut lineup.servers, &mut lineup.getters] {
            self.list(list);
            list.retain(|player| !seen.contains(player));
            seen.extend(list.iter().copied());
        }
        lineup.target = lineup.target.map(|player| self.of(player)).filter(|player| !seen.contains(player));
        self.lists(&mut lineup.groups);
    }
}
