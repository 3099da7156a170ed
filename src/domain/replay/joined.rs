//! What was said of children who may be one: the same child, or two. Each pair is a register; whom everything counts under follows from
//! all that stands, by identity alone, so it is the same on every phone and in every order of arrival.

use super::super::entry::{Entry, Fact};
use super::super::ids::{EntryId, PlayerId, Revision};
use super::super::same::Same;
use super::amend::Rank;
use super::base::{Base, after};

/// One thing that was said of a pair.
#[derive(Clone, Debug, PartialEq)]
struct Told {
    id: EntryId,
    rank: Rank,
    /// The lower identity first.
    pair: (PlayerId, PlayerId),
    /// The one that stays; `None`: they are two.
    stays: Option<PlayerId>,
}

/// All that was said, in the order of identity, and what follows from it.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Joined {
    told: Vec<Told>,
    same: Same,
}

/// What stands of a pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pair {
    /// The entry that said so: taking it back leaves the pair open.
    pub id: EntryId,
    /// In a pair that is one child, the one that stays comes first.
    pub one: PlayerId,
    pub other: PlayerId,
    pub joined: bool,
}

impl Base {
    /// Whom everything of a child counts under.
    pub fn same(&self) -> &Same {
        &self.joined.same
    }

    /// The same squad, read under these. For a part of a log that doesn't hold what was said of children.
    pub fn under(mut self, same: Same) -> Base {
        self.joined.same = same;
        self
    }

    /// What stands of every pair of which something was said.
    pub fn pairs(&self) -> Vec<Pair> {
        let standing = self.joined.told.iter().filter(|told| self.stands(told));
        standing
            .map(|told| {
                let (low, high) = told.pair;
                let one = told.stays.unwrap_or(low);
                let other = if one == low { high } else { low };
                Pair { id: told.id, one, other, joined: told.stays.is_some() }
            })
            .collect()
    }

    pub fn next_pair_revision(&self, one: PlayerId, other: PlayerId) -> Revision {
        let pair = ordered(one, other);
        after(self.joined.told.iter().filter(|told| told.pair == pair).map(|told| told.rank.0).max())
    }

    /// Takes in what is said of a pair; settles anew whom all counts under, after whatever may change that.
    pub(super) fn note_joined(&mut self, entry: &Entry) {
        let told = match &entry.fact {
            Fact::ChildrenJoined { stays, also, revision } => Some((*stays, *also, *revision, Some(*stays))),
            Fact::ChildrenToldApart { one, other, revision } => Some((*one, *other, *revision, None)),
            Fact::PlayerAdded { .. } | Fact::PlayerChanged { .. } | Fact::EntryTakenBack { run: None, .. } => None,
            _ => return,
        };
        if let Some((one, other, revision, stays)) = told.filter(|(one, other, ..)| one != other)
            && let Err(at) = self.joined.told.binary_search_by(|had| had.id.cmp(&entry.id))
        {
            let rank = (revision, entry.order());
            self.joined.told.insert(at, Told { id: entry.id, rank, pair: ordered(one, other), stays });
        }
        if !self.joined.told.is_empty() {
            self.joined.same = self.settled();
        }
    }

    /// Not taken back, and the highest of its pair.
    fn stands(&self, told: &Told) -> bool {
        let higher = |other: &Told| other.pair == told.pair && other.rank > told.rank && !self.is_taken_back(other.id);
        !self.is_taken_back(told.id) && !self.joined.told.iter().any(higher)
    }

    /// Of each set of children who are one, the one that stays: whose name is known here, whom nobody else was said to stay for, the
    /// lowest identity. In a ring (A for B on one phone, B for A on another) identity alone decides.
    fn settled(&self) -> Same {
        let standing: Vec<&Told> =
            self.joined.told.iter().filter(|told| told.stays.is_some() && self.stands(told)).collect();
        let gives_way = |player: PlayerId| {
            let of = |told: &&Told| (told.pair.0 == player || told.pair.1 == player) && told.stays != Some(player);
            standing.iter().any(of)
        };
        let mut sets: Vec<Vec<PlayerId>> = Vec::new();
        for told in &standing {
            let (low, high) = told.pair;
            let (with, rest): (Vec<_>, Vec<_>) =
                sets.into_iter().partition(|set| set.contains(&low) || set.contains(&high));
            sets = rest;
            let mut set = with.concat();
            for player in [low, high] {
                if !set.contains(&player) {
                    set.push(player);
                }
            }
            sets.push(set);
        }
        let mut pairs = Vec::new();
        for set in sets {
            let stays = set.iter().copied().min_by_key(|player| (!self.is_known(*player), gives_way(*player), *player));
            pairs.extend(set.iter().filter_map(|player| Some((*player, stays?))));
        }
        Same::new(pairs)
    }
}

fn ordered(one: PlayerId, other: PlayerId) -> (PlayerId, PlayerId) {
    if one < other { (one, other) } else { (other, one) }
}
