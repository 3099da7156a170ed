//! The roles of a floor: passing places, who feeds, who catches, who fetches. Which drills change them by fair turns, and a lineup
//! told as a turn and back. When a turn is over is `replay`'s.

use super::drill::{Board, DrillSpec, OnFloor, SwapEvery};
use super::entry::Lineup;
use super::ids::PlayerId;
use super::turns::{self, Assignment, History, Slot};

const FEEDER: Slot = Slot(Slot::BESIDE);
const TARGET: Slot = Slot(Slot::BESIDE + 1);
const GETTER: Slot = Slot(Slot::BESIDE + 2);

/// Whether anybody can have a role beside passing: on a floor of passers, where no rule makes sides of them.
pub fn stand(spec: &DrillSpec) -> bool {
    matches!(spec.board, Board::Floor { .. }) && spec.rule.transition().is_none()
}

/// Who does what besides, where anybody can.
pub fn standing(spec: &DrillSpec) -> OnFloor {
    if stand(spec) { spec.on_floor } else { OnFloor::default() }
}

/// The drill without roles where none can stand: left over from another board, they would wait there unseen.
pub fn kept_to_floor(spec: DrillSpec) -> DrillSpec {
    if stand(&spec) {
        return spec;
    }
    let OnFloor { groups, challenge, .. } = spec.on_floor;
    DrillSpec { on_floor: OnFloor { groups, challenge, ..OnFloor::default() }, ..spec }
}

/// Whether everyone is to have every role: where somebody does something beside passing, or places change by themselves. A rule with
/// swaps of its own keeps them.
pub fn rotates(spec: &DrillSpec) -> bool {
    let OnFloor { target, n_getters, n_feeders, swap, .. } = spec.on_floor;
    let beside = target || n_getters > 0 || n_feeders > 0 || swap != SwapEvery::Never;
    stand(spec) && beside
}

/// The roles of a drill in the order in which they are filled: where there are too few children, those at the end stay empty. Each
/// passing place is a role of its own; two who do the same are one.
pub fn slots(spec: &DrillSpec) -> Vec<Slot> {
    let n_places = match spec.board {
        Board::Floor { n_places } => n_places,
        _ => 0,
    };
    let on_floor = spec.on_floor;
    let feeders = std::iter::repeat_n(FEEDER, usize::from(on_floor.n_feeders));
    let target = on_floor.target.then_some(TARGET);
    let getters = std::iter::repeat_n(GETTER, usize::from(on_floor.n_getters));
    (0..n_places).map(Slot).chain(feeders).chain(target).chain(getters).collect()
}

/// A lineup as a turn: who had which role, and who rested.
pub fn turn_of(lineup: &Lineup) -> Assignment {
    let places = (0..=u8::MAX).map(Slot).zip(lineup.places.iter().copied());
    let feeders = lineup.servers.iter().map(|p| (FEEDER, Some(*p)));
    let target = lineup.target.map(|p| (TARGET, Some(p)));
    let getters = lineup.getters.iter().map(|p| (GETTER, Some(*p)));
    Assignment { slots: places.chain(feeders).chain(target).chain(getters).collect(), resting: lineup.waiting.clone() }
}

/// A turn as a lineup; groups stay as they are.
pub fn lineup_of(turn: &Assignment, groups: &[Vec<PlayerId>]) -> Lineup {
    let with = |slot: Slot| turn.slots.iter().filter(move |(s, _)| *s == slot).filter_map(|(_, player)| *player);
    Lineup {
        places: turn.slots.iter().filter(|(slot, _)| *slot < FEEDER).map(|(_, player)| *player).collect(),
        waiting: turn.resting.clone(),
        servers: with(FEEDER).collect(),
        target: with(TARGET).next(),
        getters: with(GETTER).collect(),
        groups: groups.to_vec(),
    }
}

/// Who does what in the next turn, after this one.
pub fn next(spec: &DrillSpec, now: &Lineup, history: &History) -> Lineup {
    let mut history = history.clone();
    history.note(&turn_of(now));
    let here: Vec<PlayerId> = now.everyone().collect();
    lineup_of(&turns::next(&slots(spec), &here, &history), &now.groups)
}

/// After somebody came or went: roles that stand empty are filled from those who rest, in the order of the roles; nobody else is moved
/// but to keep the places and then the earlier roles filled.
pub fn filled(spec: &DrillSpec, lineup: &Lineup) -> Lineup {
    let mut turn = Assignment { slots: Vec::new(), resting: lineup.waiting.clone() };
    let had = turn_of(lineup);
    let mut left = had.slots;
    for slot in slots(spec) {
        let at = left.iter().position(|(s, player)| *s == slot && player.is_some());
        turn.slots.push((slot, at.and_then(|at| left.remove(at).1)));
    }
    // A role that the drill hasn't: whoever had it rests.
    turn.resting.extend(left.into_iter().filter_map(|(_, player)| player));
    for at in 0..turn.slots.len() {
        if turn.slots[at].1.is_some() {
            continue;
        }
        turn.slots[at].1 = if turn.resting.is_empty() {
            let last = turn.slots.iter().rposition(|(_, player)| player.is_some()).filter(|last| *last > at);
            last.and_then(|last| turn.slots[last].1.take())
        } else {
            Some(turn.resting.remove(0))
        };
    }
    lineup_of(&turn, &lineup.groups)
}
