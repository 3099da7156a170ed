//! Splits by chance, and bettered by exchanges: a unit goes to another group and others come back for it. A step that makes it a
//! little worse is taken too, less and less so: threshold accepting (Dueck, Scheuer 1990, J. Computational Physics 90:161).

use super::Asked;
use super::chance::Chance;
use super::plan::{Bits, Plan};

/// What the exchanges are for. Every group has a value, and their sum is to be small.
pub(super) enum Goal {
    /// Costs near this one, by squares; both are first shifted so far that no sum overflows.
    Even { near: u64, shift: u32 },
    /// How often the pairs of units have met, row by row.
    Met(Vec<u64>),
    /// Nothing but change.
    Stir,
}

impl Goal {
    pub(super) fn even(plan: &Plan, near: u64) -> Self {
        let highest = plan.weight(plan.all()).saturating_mul(plan.kinds[0].scale.max(plan.kinds[1].scale));
        Self::Even { near, shift: (64 - highest.leading_zeros()).saturating_sub(22) }
    }

    pub(super) fn met(asked: &Asked, plan: &Plan) -> Self {
        let n = plan.units.len();
        let mut times = vec![0; n * n];
        for (i, time) in times.iter_mut().enumerate().filter(|(i, _)| i / n != i % n) {
            let (a, b) = (&plan.units[i / n].items, &plan.units[i % n].items);
            *time = a.iter().flat_map(|&a| b.iter().map(move |&b| u64::from(asked.met.times(a, b)))).sum();
        }
        Self::Met(times)
    }

    /// Nobody has met but those who stay together anyway.
    pub(super) fn is_idle(&self) -> bool {
        if let Self::Met(times) = self { times.iter().all(|&t| t == 0) } else { false }
    }

    pub(super) fn sum(&self, plan: &Plan, groups: &[u64]) -> u64 {
        groups.iter().map(|&mask| self.of(plan, mask)).sum()
    }

    fn of(&self, plan: &Plan, mask: u64) -> u64 {
        match self {
            Self::Even { near, shift } => {
                let off = plan.cost(mask).abs_diff(*near) >> shift;
                off * off
            }
            Self::Met(times) => {
                let row = |a: usize| Bits(mask & ((1 << a) - 1)).map(move |b| times[a * plan.units.len() + b]);
                Bits(mask).flat_map(row).sum()
            }
            Self::Stir => 0,
        }
    }
}

pub(super) struct Exchange<'a> {
    plan: &'a Plan,
    goal: &'a Goal,
    /// No group may cost more.
    cap: u64,
    chance: &'a mut Chance,
}

impl<'a> Exchange<'a> {
    pub(super) fn new(plan: &'a Plan, goal: &'a Goal, cap: u64, chance: &'a mut Chance) -> Self {
        Self { plan, goal, cap, chance }
    }

    /// The best split met on the way; for stirring, the last.
    pub(super) fn run(&mut self, mut groups: Vec<u64>, steps: u64) -> Vec<u64> {
        if groups.len() < 2 {
            return groups;
        }
        let mut values: Vec<u64> = groups.iter().map(|&mask| self.goal.of(self.plan, mask)).collect();
        let mut value: u64 = values.iter().sum();
        let (mut best, mut least) = (groups.clone(), self.score(&groups, value));
        for left in (0..steps).rev() {
            let Some((g, h, with)) = self.step(&groups) else { continue };
            let new = with.map(|mask| self.goal.of(self.plan, mask));
            let new_value = value - values[g] - values[h] + new[0] + new[1];
            if new_value > value + value / 4 * left / steps + u64::from(left > steps / 2 && value < 64) {
                continue;
            }
            (groups[g], groups[h], values[g], values[h], value) = (with[0], with[1], new[0], new[1], new_value);
            let score = self.score(&groups, value);
            if score < least || matches!(self.goal, Goal::Stir) {
                least = score;
                best.clone_from(&groups);
                if score == 0 && matches!(self.goal, Goal::Met(_)) {
                    break;
                }
            }
        }
        best
    }

    fn score(&self, groups: &[u64], value: u64) -> u64 {
        if let Goal::Even { .. } = self.goal { self.plan.largest_cost(groups) } else { value }
    }

    /// Two groups and what they would be after an exchange, if that is allowed.
    fn step(&mut self, groups: &[u64]) -> Option<(usize, usize, [u64; 2])> {
        let unit = self.chance.below(self.plan.units.len());
        let g = groups.iter().take_while(|&&mask| mask >> unit & 1 == 0).count();
        let h = (g + 1 + self.chance.below(groups.len() - 1)) % groups.len();
        let rooms = [self.plan.room(groups[g]), self.plan.room(groups[h])];
        let room = self.plan.units[unit].room;
        let mut back = 0;
        let mut back_room = 0;
        let comes_alone = (self.plan.is_free() || rooms[0] > rooms[1]) && self.chance.below(2) == 0;
        while !comes_alone && back != groups[h] && (back == 0 || back_room < room) {
            let from = groups[h] & !back;
            let u = Bits(from).nth(self.chance.below(from.count_ones() as usize))?;
            back |= 1 << u;
            back_room += self.plan.units[u].room;
        }
        let with = [groups[g] & !(1 << unit) | back, groups[h] & !back | 1 << unit];
        let new_rooms = [rooms[0] + back_room - room, rooms[1] + room - back_room];
        let keeps = new_rooms == rooms || new_rooms == [rooms[1], rooms[0]];
        let allowed = |&mask: &u64| self.plan.may_be(mask) && self.plan.cost(mask) <= self.cap;
        (keeps && with.iter().all(allowed)).then_some((g, h, with))
    }
}

/// A split that meets the wishes, drawn anew up to so many times. Each unit takes places at random; those that fill more than one
/// come first. Without wishes, and with one set that stays together, all splits are equally likely.
pub(super) fn drawn(plan: &Plan, times: usize, chance: &mut Chance) -> Option<Vec<u64>> {
    let mut order: Vec<usize> = (0..plan.units.len()).filter(|&u| plan.units[u].room > 1).collect();
    order.extend((0..plan.units.len()).filter(|&u| plan.units[u].room <= 1));
    (0..times).find_map(|_| draw(plan, &order, chance))
}

fn draw(plan: &Plan, order: &[usize], chance: &mut Chance) -> Option<Vec<u64>> {
    let k = plan.n_groups();
    let mut groups = vec![0_u64; k];
    let mut rooms: Vec<usize> = (0..k).map(|g| plan.kinds[usize::from(g >= plan.kinds[0].n)].room).collect();
    for &u in order {
        let room = plan.units[u].room;
        // In how many ways the group has places for it: the first may sit at any of the free ones, and so on. From the eleventh
        // on they are not counted, or the number would grow too large.
        let ways = |g: usize| {
            if rooms[g] < room { 0 } else { (0..room.min(10)).map(|i| (rooms[g] - i) as u64).product::<u64>() }
        };
        let all: u64 = (0..k).map(ways).sum();
        if all == 0 {
            return None;
        }
        let mut at = chance.below_wide(all);
        let mut g = 0;
        while at >= ways(g) {
            at -= ways(g);
            g += 1;
        }
        if plan.apart[u] & groups[g] != 0 {
            return None;
        }
        groups[g] |= 1 << u;
        rooms[g] -= room;
    }
    groups.iter().all(|&mask| plan.may_be(mask)).then_some(groups)
}
