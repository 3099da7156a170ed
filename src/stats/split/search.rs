//! The exact search. Groups are formed one after the other, each around the first unit that has none yet, and only with sums that
//! leave the others a chance: too small a group would leave too much for the rest. This is sequential number partitioning (Korf
//! 2009, "Multi-way number partitioning", IJCAI; Schreiber, Korf, Moffitt 2018, "Optimal multi-way number partitioning", JACM
//! 65:24), here with sizes and wishes. What is left over and can't be split any better is remembered.

use super::chance::Chance;
use super::exchange::{Exchange, Goal};
use super::plan::Plan;

/// How many leftovers are remembered; a newer one takes the place of an older.
const REMEMBERED: usize = 1 << 15;

/// No sum of this many items is possible.
const NONE: u64 = u64::MAX;

struct Search<'a> {
    plan: &'a Plan,
    formed: Vec<u64>,
    best: Option<Vec<u64>>,
    /// A split that costs more is of no use.
    limit: u64,
    /// One that costs no more than this ends the search.
    enough: u64,
    n_found: usize,
    steps: u32,
    is_over: bool,
    /// Units without a group and the number of groups still to form, where nothing up to the limit was found.
    failed: Vec<(u64, usize)>,
}

/// One group that is being formed.
struct Forming {
    /// Those without a group yet, this one's first left out.
    rest: u64,
    /// How many groups are to follow, by kind.
    left: [usize; 2],
    cap: u64,
    /// A smaller sum leaves too much for the groups to follow.
    low: u64,
    scale: u64,
    /// The largest cost of the groups formed before.
    worst: u64,
    candidates: Vec<usize>,
    /// The least and the largest sum that candidates from i on can add with exactly this much room, at `i * width + room`.
    least: Vec<u64>,
    most: Vec<u64>,
    width: usize,
}

/// A group so far.
#[derive(Clone, Copy)]
struct Part {
    mask: u64,
    room: usize,
    sum: u64,
    n_tagged: usize,
    /// Units that may not be added.
    closed: u64,
    /// Units that were left for the groups to follow.
    out: u64,
}

/// Any split that meets the wishes, and whether everything was looked at.
pub(super) fn any(plan: &Plan, steps: u32) -> (Option<Vec<u64>>, bool) {
    let mut search = Search::new(plan, u64::MAX, u64::MAX, steps);
    search.form(plan.all(), [plan.kinds[0].n, plan.kinds[1].n], 0);
    let was_all = search.best.is_some() || search.steps > 0;
    (search.best, was_all)
}

/// The split with the smallest largest cost, that cost, and whether it is proved.
pub(super) fn best(plan: &Plan, start: Vec<u64>, steps: u32, chance: &mut Chance) -> (Vec<u64>, u64, bool) {
    let enough = plan.least_cost();
    let mut best = start;
    let mut cost = plan.largest_cost(&best);
    for _ in 0..4 {
        if cost > enough {
            let goal = Goal::even(plan, enough);
            let found = Exchange::new(plan, &goal, u64::MAX, chance).run(best.clone(), 1_000);
            let found_cost = plan.largest_cost(&found);
            if found_cost < cost {
                (best, cost) = (found, found_cost);
            }
        }
    }
    if cost <= enough {
        return (best, cost, true);
    }
    let mut search = Search::new(plan, cost - 1, enough, steps);
    search.form(plan.all(), [plan.kinds[0].n, plan.kinds[1].n], 0);
    let proved = search.steps > 0 || plan.largest_cost(search.best.as_deref().unwrap_or(&best)) <= enough;
    let best = search.best.unwrap_or(best);
    let cost = plan.largest_cost(&best);
    (best, cost, proved)
}

impl<'a> Search<'a> {
    fn new(plan: &'a Plan, limit: u64, enough: u64, steps: u32) -> Self {
        let failed = vec![(0, 0); REMEMBERED];
        Self { plan, formed: Vec::new(), best: None, limit, enough, n_found: 0, steps, is_over: false, failed }
    }

    /// Forms all groups that are `left` from the units in `rest`.
    fn form(&mut self, rest: u64, left: [usize; 2], worst: u64) {
        let n_left = left[0] + left[1];
        if n_left == 1 {
            self.last(rest, worst);
            return;
        }
        let at = (rest ^ n_left as u64).wrapping_mul(0x9e37_79b9_7f4a_7c15) as usize >> 8 & (REMEMBERED - 1);
        if self.failed[at] == (rest, n_left) {
            return;
        }
        let n_found = self.n_found;
        for kind in 0..2 {
            let fits = self.plan.units[rest.trailing_zeros() as usize].room <= self.plan.kinds[kind].room;
            if fits && left[kind] > 0 && worst <= self.limit && !self.is_over {
                let mut left = left;
                left[kind] -= 1;
                let (forming, part) = self.forming(rest, kind, left, worst);
                self.fill(&forming, 0, part);
            }
        }
        if self.n_found == n_found && !self.is_over {
            self.failed[at] = (rest, n_left);
        }
    }

    fn forming(&self, rest: u64, kind: usize, left: [usize; 2], worst: u64) -> (Forming, Part) {
        let Plan { units, kinds, apart, .. } = self.plan;
        let first = rest.trailing_zeros() as usize;
        let all = self.plan.weight(rest);
        let rest = rest & (rest - 1);
        let candidates: Vec<usize> = super::plan::Bits(rest & !apart[first]).collect();
        let room = kinds[kind].room - units[first].room;
        let caps = |k: usize| (self.limit / kinds[k].scale).saturating_mul(left[k] as u64);
        let width = room + 1;
        let mut least = vec![NONE; (candidates.len() + 1) * width];
        let mut most = least.clone();
        (least[candidates.len() * width], most[candidates.len() * width]) = (0, 0);
        for (i, &u) in candidates.iter().enumerate().rev() {
            for room in 0..width {
                let (at, without) = (i * width + room, (i + 1) * width + room);
                (least[at], most[at]) = (least[without], most[without]);
                if room >= units[u].room && least[without - units[u].room] != NONE {
                    let (low, high) = (least[without - units[u].room], most[without - units[u].room]);
                    least[at] = least[at].min(low + units[u].weight);
                    let high = high + units[u].weight;
                    most[at] = if most[at] == NONE { high } else { most[at].max(high) };
                }
            }
        }
        let forming = Forming {
            rest,
            left,
            cap: self.limit / kinds[kind].scale,
            low: all.saturating_sub(caps(0).saturating_add(caps(1))),
            scale: kinds[kind].scale,
            worst,
            candidates,
            least,
            most,
            width,
        };
        let unit = &units[first];
        (
            forming,
            Part {
                mask: 1 << first,
                room,
                sum: unit.weight,
                n_tagged: unit.n_tagged,
                closed: 0,
                out: rest & apart[first],
            },
        )
    }

    /// Adds candidates from i on, or not.
    fn fill(&mut self, forming: &Forming, i: usize, part: Part) {
        if self.steps == 0 {
            self.is_over = true;
        }
        if self.is_over || part.n_tagged > self.plan.tags.1 {
            return;
        }
        self.steps -= 1;
        let at = i * forming.width + part.room;
        let (least, most) = (forming.least[at], forming.most[at]);
        if least == NONE || part.sum + least > forming.cap || part.sum + most < forming.low {
            return;
        }
        let is_full = if self.plan.is_free() { i == forming.candidates.len() } else { part.room == 0 };
        if is_full {
            self.formed_one(forming, part);
            return;
        }
        let u = forming.candidates[i];
        let unit = &self.plan.units[u];
        if part.closed >> u & 1 == 0 && unit.room <= part.room {
            let with = Part {
                mask: part.mask | 1 << u,
                room: part.room - unit.room,
                sum: part.sum + unit.weight,
                n_tagged: part.n_tagged + unit.n_tagged,
                closed: part.closed | self.plan.apart[u],
                ..part
            };
            self.fill(forming, i + 1, with);
        }
        // Who leaves one out needs none of its twins: that split is looked at with the two exchanged.
        if forming.left[0] + forming.left[1] > 1 || self.plan.apart[u] & part.out == 0 {
            let without = Part { closed: part.closed | self.plan.twins[u], out: part.out | 1 << u, ..part };
            self.fill(forming, i + 1, without);
        }
    }

    fn formed_one(&mut self, forming: &Forming, part: Part) {
        let n_left = forming.left[0] + forming.left[1];
        let rest = forming.rest & !part.mask;
        let n_tagged = self.plan.n_tagged(rest);
        let (fewest, most) = self.plan.tags;
        let worst = forming.worst.max(part.sum * forming.scale);
        if worst <= self.limit
            && part.n_tagged >= fewest
            && (fewest * n_left..=most * n_left).contains(&n_tagged)
            && rest.count_ones() as usize >= n_left
        {
            self.formed.push(part.mask);
            self.form(rest, forming.left, worst);
            self.formed.pop();
        }
    }

    /// The last group takes what is left. Its room is right, since all others' were.
    fn last(&mut self, rest: u64, worst: u64) {
        if !self.plan.may_be(rest) {
            return;
        }
        let cost = worst.max(self.plan.cost(rest));
        if cost > self.limit {
            return;
        }
        self.n_found += 1;
        let mut groups = self.formed.clone();
        groups.push(rest);
        self.best = Some(groups);
        if cost <= self.enough {
            self.is_over = true;
        } else {
            self.limit = cost - 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stats::split::{Asked, STEPS, Sizes};

    /// Begun from nothing, where leftovers are seen again under ever lower limits, and from a good split: the same optimum.
    #[test]
    fn the_beginning_makes_no_difference() {
        let mut chance = Chance::new(3);
        for case in 0..200 {
            let (n, k) = (8 + chance.below(6), 3 + chance.below(2));
            let most = [4, 40, 4_000_000][case % 3];
            let strengths = (0..n).map(|_| chance.below(most) as u32).collect();
            let sizes = if case % 2 == 0 { Sizes::Number(k) } else { Sizes::Free(k) };
            let mut asked = Asked::new(strengths, sizes);
            asked.apart = vec![(0, 1 + chance.below(n - 1)), (1, 2)];
            let plan = Plan::new(&asked, None).unwrap();
            let mut search = Search::new(&plan, u64::MAX, plan.least_cost(), STEPS);
            search.form(plan.all(), [plan.kinds[0].n, plan.kinds[1].n], 0);
            let from_nothing = plan.largest_cost(&search.best.unwrap());
            let start = any(&plan, STEPS).0.unwrap();
            let (_, cost, proved) = best(&plan, start, STEPS, &mut chance);
            assert_eq!((from_nothing, true), (cost, proved), "{asked:?}");
        }
    }
}
