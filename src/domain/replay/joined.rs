//! What was said of two who may be one: the same child or two, the same practice or two. Each pair is a register; what counts together
//! follows from all that stands, by identity alone, so it is the same on every phone and in every order of arrival.

use super::super::as_one::AsOne;
use super::super::entry::{Entry, Fact};
use super::super::ids::{EntryId, PlayerId, PracticeId, Revision};
use super::super::same::Same;
use super::amend::Rank;
use super::base::{Base, after};
use crate::stats::arrange::arranged;

/// One thing that was said of a pair.
#[derive(Clone, Debug, PartialEq)]
struct Told {
    id: EntryId,
    rank: Rank,
    /// The lower identity first.
    pair: (EntryId, EntryId),
    /// The one that stays; `None`: they are two.
    stays: Option<EntryId>,
}

/// All that was said, in the order of identity, and what follows from it.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Joined {
    children: Vec<Told>,
    same: Same,
    practices: Vec<Told>,
    as_one: AsOne,
}

/// What stands of a pair, of children or of practices.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pair<Id = PlayerId> {
    /// The entry that said so: taking it back leaves the pair open.
    pub id: EntryId,
    /// In a pair that is one, the one that stays comes first.
    pub one: Id,
    pub other: Id,
    pub joined: bool,
}

impl Base {
    /// Whom everything of a child counts under.
    pub fn same(&self) -> &Same {
        &self.joined.same
    }

    /// Which practices are one.
    pub fn as_one(&self) -> &AsOne {
        &self.joined.as_one
    }

    /// The same squad, read under these. For a part of a log that doesn't hold what was said of children.
    pub fn under(mut self, same: Same) -> Base {
        self.joined.same = same;
        self
    }

    /// What stands of every pair of children of which something was said.
    pub fn pairs(&self) -> Vec<Pair> {
        let of = |Pair { id, one, other, joined }| Pair { id, one: PlayerId(one), other: PlayerId(other), joined };
        self.pairs_of(&self.joined.children).into_iter().map(of).collect()
    }

    /// The same of practices.
    pub fn practice_pairs(&self) -> Vec<Pair<PracticeId>> {
        let of = |Pair { id, one, other, joined }| Pair { id, one: PracticeId(one), other: PracticeId(other), joined };
        self.pairs_of(&self.joined.practices).into_iter().map(of).collect()
    }

    pub fn next_pair_revision(&self, one: PlayerId, other: PlayerId) -> Revision {
        next_revision(&self.joined.children, ordered(one.0, other.0))
    }

    pub fn next_practice_pair_revision(&self, one: PracticeId, other: PracticeId) -> Revision {
        next_revision(&self.joined.practices, ordered(one.0, other.0))
    }

    /// Takes in what is said of a pair; settles anew what counts together, after whatever may change that.
    pub(super) fn note_joined(&mut self, entry: &Entry) {
        match &entry.fact {
            Fact::ChildrenJoined { stays, also, revision } => {
                keep(&mut self.joined.children, entry, (stays.0, also.0, *revision), Some(stays.0));
            }
            Fact::ChildrenToldApart { one, other, revision } => {
                keep(&mut self.joined.children, entry, (one.0, other.0, *revision), None);
            }
            Fact::PracticesJoined { stays, also, revision } => {
                keep(&mut self.joined.practices, entry, (stays.0, also.0, *revision), Some(stays.0));
            }
            Fact::PracticesToldApart { one, other, revision } => {
                keep(&mut self.joined.practices, entry, (one.0, other.0, *revision), None);
            }
            Fact::PlayerAdded { .. } | Fact::PlayerChanged { .. } | Fact::EntryTakenBack { run: None, .. } => {}
            _ => return,
        }
        if !self.joined.children.is_empty() {
            // A child whose name is known here stays before one whose isn't.
            let sets = self.sets(&self.joined.children, &|id| self.is_known(PlayerId(id)));
            let pairs = sets.iter().flat_map(|set| set.iter().map(|id| (PlayerId(*id), PlayerId(set[0]))));
            self.joined.same = Same::new(pairs);
        }
        if !self.joined.practices.is_empty() {
            // Most practices lie packed, so whether one is known here is never asked.
            let sets = self.sets(&self.joined.practices, &|_| true);
            let of = |set: Vec<EntryId>| set.into_iter().map(PracticeId).collect();
            self.joined.as_one = AsOne::new(sets.into_iter().map(of).collect());
        }
    }

    fn pairs_of(&self, told: &[Told]) -> Vec<Pair<EntryId>> {
        let of = |told: &&Told| {
            let (low, high) = told.pair;
            let one = told.stays.unwrap_or(low);
            let other = if one == low { high } else { low };
            Pair { id: told.id, one, other, joined: told.stays.is_some() }
        };
        self.standing(told).iter().map(of).collect()
    }

    /// Not taken back, and the highest of their pair.
    fn standing<'a>(&self, all: &'a [Told]) -> Vec<&'a Told> {
        let higher = |told: &Told, other: &Told| {
            other.pair == told.pair && other.rank > told.rank && !self.is_taken_back(other.id)
        };
        let stands = |told: &&Told| !self.is_taken_back(told.id) && !all.iter().any(|other| higher(told, other));
        all.iter().filter(stands).collect()
    }

    /// Sets of those that are one, each of two or more, the one that stays first: which is known, which no other was said to stay for, the
    /// lowest identity. In a ring (A for B on one phone, B for A on another) identity alone decides.
    fn sets(&self, all: &[Told], known: &dyn Fn(EntryId) -> bool) -> Vec<Vec<EntryId>> {
        let standing: Vec<&Told> = self.standing(all).into_iter().filter(|told| told.stays.is_some()).collect();
        let gives_way = |id: EntryId| {
            let of = |told: &&Told| (told.pair.0 == id || told.pair.1 == id) && told.stays != Some(id);
            standing.iter().any(of)
        };
        let mut sets: Vec<Vec<EntryId>> = Vec::new();
        for told in &standing {
            let (low, high) = told.pair;
            let (with, rest): (Vec<_>, Vec<_>) =
                sets.into_iter().partition(|set| set.contains(&low) || set.contains(&high));
            sets = rest;
            let mut set = with.concat();
            for id in [low, high] {
                if !set.contains(&id) {
                    set.push(id);
                }
            }
            sets.push(set);
        }
        let rank = |id: &EntryId| (!known(*id), gives_way(*id), *id);
        let sets = sets.into_iter().map(|set| arranged(set, |a, b| rank(a).cmp(&rank(b)))).collect();
        // By their first, so that no order of arrival tells.
        arranged(sets, |a: &Vec<EntryId>, b| a.first().cmp(&b.first()))
    }
}

fn keep(
    all: &mut Vec<Told>,
    entry: &Entry,
    (one, other, revision): (EntryId, EntryId, Revision),
    stays: Option<EntryId>,
) {
    // Who is one with itself says nothing.
    if one == other {
        return;
    }
    if let Err(at) = all.binary_search_by(|had| had.id.cmp(&entry.id)) {
        let rank = (revision, entry.order());
        all.insert(at, Told { id: entry.id, rank, pair: ordered(one, other), stays });
    }
}

fn next_revision(all: &[Told], pair: (EntryId, EntryId)) -> Revision {
    after(all.iter().filter(|told| told.pair == pair).map(|told| told.rank.0).max())
}

fn ordered(one: EntryId, other: EntryId) -> (EntryId, EntryId) {
    if one < other { (one, other) } else { (other, one) }
}
