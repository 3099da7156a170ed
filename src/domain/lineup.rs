//! Who stands where, and how a swap slides the names on. Pure rearrangement: nobody is lost, nobody is doubled.

use super::drill::{Board, DrillSpec, DuelBetween, Rule};
use super::entry::Lineup;
use super::ids::{GroupNo, Place, PlayerId};
use super::roles;

impl Lineup {
    /// The lineup a run opens with: children fill the places in order, the rest wait; where servers are a side of their own
    /// (transition scoring), those after the places serve, and only what is over six waits.
    ///
    /// `before` is the order of last time: children known from it keep that order, new ones come last.
    pub fn opening(spec: &DrillSpec, here: &[PlayerId], before: &[PlayerId]) -> Lineup {
        let mut order: Vec<PlayerId> = before.iter().copied().filter(|p| here.contains(p)).collect();
        order.extend(here.iter().copied().filter(|p| !before.contains(p)));
        let mut children = order.into_iter();
        let n_places = match spec.board {
            Board::Floor { n_places } | Board::ServeFloor { n_places, .. } => usize::from(n_places),
            _ => 0,
        };
        let mut places: Vec<Option<PlayerId>> = children.by_ref().take(n_places).map(Some).collect();
        places.resize(n_places, None);
        let rest: Vec<PlayerId> = children.collect();
        match spec.rule {
            Rule::Transition(t) => {
                let n_servers = match t.between {
                    DuelBetween::Sides => rest.len().min(n_places),
                    DuelBetween::Children => rest.len().min(usize::from(Board::MAX_SERVERS)),
                };
                let (servers, waiting) = rest.split_at(n_servers);
                Lineup { places, waiting: waiting.to_vec(), servers: servers.to_vec(), ..Lineup::default() }
            }
            _ => {
                // Beside the places: who feeds, who catches, who fetches; as far as there are children. Elsewhere than on the floor
                // nobody would take them out of these roles again.
                let mut rest = rest.into_iter();
                let on_floor = roles::standing(spec);
                let servers = rest.by_ref().take(usize::from(on_floor.n_feeders)).collect();
                let target = if on_floor.target { rest.next() } else { None };
                let getters = rest.by_ref().take(usize::from(on_floor.n_getters)).collect();
                Lineup { places, servers, target, getters, waiting: rest.collect(), groups: Vec::new() }
            }
        }
    }

    /// Everyone in it, in order: places, waiting, servers, target, ball-getters. Groups hold the same children once more.
    pub fn everyone(&self) -> impl Iterator<Item = PlayerId> + '_ {
        let standing = self.places.iter().flatten().chain(&self.waiting).chain(&self.servers);
        standing.chain(&self.target).chain(&self.getters).copied()
    }

    /// The group of a child, where there are groups.
    pub fn group_of(&self, player: PlayerId) -> Option<GroupNo> {
        let at = self.groups.iter().position(|group| group.contains(&player))?;
        u8::try_from(at).ok().map(GroupNo)
    }

    /// The groups with their numbers, as far as there are numbers.
    pub fn groups_numbered(&self) -> impl Iterator<Item = (GroupNo, &Vec<PlayerId>)> {
        (0..=u8::MAX).map(GroupNo).zip(&self.groups)
    }

    /// Where a child stands.
    pub fn place_of(&self, player: PlayerId) -> Option<Place> {
        let at = self.places.iter().position(|p| *p == Some(player))?;
        u8::try_from(at).ok().map(Place)
    }

    pub fn at(&self, place: Place) -> Option<PlayerId> {
        self.places.get(usize::from(place.0)).copied().flatten()
    }

    /// The names slide on by one through places and waiting: the first who waits comes on at the left, each moves one to
    /// the right, the one at the right end joins the line. An empty place stays empty.
    pub fn slid(&self) -> Lineup {
        let mut ring: Vec<PlayerId> = self.places.iter().flatten().copied().collect();
        let n_standing = ring.len();
        ring.extend(&self.waiting);
        if ring.len() < 2 {
            return self.clone();
        }
        // The standing ones shift right; the first of the line enters at the left.
        let next: Vec<PlayerId> = if self.waiting.is_empty() {
            ring.rotate_right(1);
            ring
        } else {
            let mut standing = vec![self.waiting[0]];
            standing.extend(&ring[..n_standing]);
            let off = if n_standing == 0 { None } else { standing.pop() };
            standing.extend(&self.waiting[1..]);
            standing.extend(off);
            standing
        };
        self.refilled(next)
    }

    /// Whether [`Lineup::slid`] moves anyone: somebody stands, and there are two at least.
    pub fn can_slide(&self) -> bool {
        let n_standing = self.places.iter().flatten().count();
        n_standing > 0 && n_standing + self.waiting.len() > 1
    }

    /// After a round of transition scoring: as sides, the servers pass and the longest waiting (else the passers) serve; child by child, everyone moves on by
    /// one through places, waiting and servers.
    pub fn after_round(&self, between: DuelBetween) -> Lineup {
        match between {
            DuelBetween::Sides if self.servers.is_empty() => self.slid(),
            DuelBetween::Sides => {
                let n_places = self.places.len();
                let n_servers = self.servers.len();
                let mut coming = self.servers.clone();
                // Whoever waited longest serves next; the passers of this round stand behind them.
                let mut queue = coming.split_off(coming.len().min(n_places));
                queue.extend(&self.waiting);
                queue.extend(self.places.iter().flatten());
                let waiting = queue.split_off(n_servers.max(n_places).min(queue.len()));
                let mut places: Vec<Option<PlayerId>> = coming.into_iter().map(Some).collect();
                places.resize(n_places, None);
                Lineup { places, waiting, servers: queue, ..self.clone() }
            }
            DuelBetween::Children => {
                let mut ring: Vec<PlayerId> = self.everyone().collect();
                if ring.is_empty() {
                    return self.clone();
                }
                ring.rotate_right(1);
                let n_servers = self.servers.len();
                let servers = ring.split_off(ring.len() - n_servers);
                Lineup { servers, ..self.refilled(ring) }
            }
        }
    }

    /// The same shape with these children, first the filled places, then the line.
    fn refilled(&self, children: Vec<PlayerId>) -> Lineup {
        let mut next = children.into_iter();
        let places = self.places.iter().map(|p| p.and_then(|_| next.next())).collect();
        Lineup { places, waiting: next.collect(), ..self.clone() }
    }

    /// A child comes (to the end of the line, or to an empty place) or goes (its place stays empty, or is filled from the line).
    pub fn with_presence(&self, player: PlayerId, here: bool) -> Lineup {
        let mut next = self.clone();
        if here {
            if self.everyone().any(|p| p == player) {
                return next;
            }
            match next.places.iter_mut().find(|p| p.is_none()) {
                Some(free) => *free = Some(player),
                None => next.waiting.push(player),
            }
            // The smallest group, the last of several: in a game that is the one that waits longest.
            let smallest = next.groups.iter().map(Vec::len).min();
            if let Some(group) = next.groups.iter_mut().rev().find(|group| Some(group.len()) == smallest) {
                group.push(player);
            }
            return next;
        }
        next.waiting.retain(|p| *p != player);
        next.servers.retain(|p| *p != player);
        next.getters.retain(|p| *p != player);
        next.target = next.target.filter(|p| *p != player);
        for group in &mut next.groups {
            group.retain(|p| *p != player);
        }
        if let Some(place) = next.places.iter_mut().find(|p| **p == Some(player)) {
            *place = (!next.waiting.is_empty()).then(|| next.waiting.remove(0));
        }
        next
    }

    /// These two change places, wherever they are.
    pub fn exchanged(&self, a: PlayerId, b: PlayerId) -> Lineup {
        let other = |p: PlayerId| match p {
            p if p == a => b,
            p if p == b => a,
            p => p,
        };
        Lineup {
            places: self.places.iter().map(|p| p.map(other)).collect(),
            waiting: self.waiting.iter().copied().map(other).collect(),
            servers: self.servers.iter().copied().map(other).collect(),
            target: self.target.map(other),
            getters: self.getters.iter().copied().map(other).collect(),
            groups: self.groups.iter().map(|group| group.iter().copied().map(other).collect()).collect(),
        }
    }
}
