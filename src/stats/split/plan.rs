//! What was asked, made ready: items that stay together are one unit, a group is a set of units in the bits of a number.
//! Faults that are seen without trying are told here.

use super::chance::Chance;
use super::{Asked, Fault, MOST, SizeFault, Sizes, sizes_by_number, sizes_by_size};
use crate::stats::arrange::arranged;

/// Items that stay together; most often one.
pub(super) struct Unit {
    pub(super) items: Vec<usize>,
    /// How much of a group it fills; 0 where sizes are free.
    pub(super) room: usize,
    pub(super) weight: u64,
    pub(super) n_tagged: usize,
}

/// Groups of one size.
#[derive(Clone, Copy)]
pub(super) struct Kind {
    /// 0 where sizes are free.
    pub(super) room: usize,
    /// A group's cost is its weight by this. The costs of groups of different size are then to each other as their means.
    pub(super) scale: u64,
    pub(super) n: usize,
}

pub(super) struct Plan {
    /// The heaviest first.
    pub(super) units: Vec<Unit>,
    /// The larger first; the second has no groups where all are of one size.
    pub(super) kinds: [Kind; 2],
    /// For each unit, those it must not be with.
    pub(super) apart: Vec<u64>,
    /// For each unit, those that could take its place without a difference, itself included.
    pub(super) twins: Vec<u64>,
    /// How many tagged items a group may have: at least, at most.
    pub(super) tags: (usize, usize),
}

/// The places of the ones in a number, lowest first.
pub(super) struct Bits(pub(super) u64);

impl Iterator for Bits {
    type Item = usize;

    fn next(&mut self) -> Option<usize> {
        if self.0 == 0 {
            return None;
        }
        let bit = self.0.trailing_zeros() as usize;
        self.0 &= self.0 - 1;
        Some(bit)
    }
}

impl Plan {
    /// With `shuffled` all strengths count as nothing, and the units are in random order.
    pub(super) fn new(asked: &Asked, shuffled: Option<&mut Chance>) -> Result<Self, Fault> {
        let n = asked.strengths.len();
        let (kinds, largest) = kinds(asked.sizes, n).map_err(Fault::Sizes)?;
        if n > MOST {
            return Err(Fault::TooMany);
        }
        if asked.met.n() != n {
            return Err(Fault::Met);
        }
        check_items(asked, n)?;
        let k = kinds[0].n + kinds[1].n;
        let n_tagged = asked.tagged.len();
        let tags = (n_tagged / k, n_tagged.div_ceil(k));

        let of = merged(n, &asked.together);
        if let Some(&(a, b)) = asked.apart.iter().find(|&&(a, b)| of[a] == of[b]) {
            return Err(Fault::ApartAndTogether(a, b));
        }
        let is_free = matches!(asked.sizes, Sizes::Free(_));
        let weighs = shuffled.is_none();
        let mut units = Vec::new();
        for first in (0..n).filter(|&i| of[i] == i) {
            let items: Vec<usize> = (first..n).filter(|&i| of[i] == first).collect();
            if items.len() > largest {
                return Err(Fault::TogetherTooLarge(items));
            }
            let tagged: Vec<usize> = items.iter().copied().filter(|i| asked.tagged.contains(i)).collect();
            if tagged.len() > tags.1 {
                return Err(Fault::TagsTogether(tagged));
            }
            let weight = if weighs { items.iter().map(|&i| u64::from(asked.strengths[i])).sum() } else { 0 };
            let room = if is_free { 0 } else { items.len() };
            units.push(Unit { items, room, weight, n_tagged: tagged.len() });
        }
        let units = match shuffled {
            None => arranged(units, |a, b| (b.weight, b.items.len()).cmp(&(a.weight, a.items.len()))),
            Some(chance) => {
                let mut keys = vec![0; n];
                keys.iter_mut().for_each(|key| *key = chance.next());
                arranged(units, |a, b| keys[a.items[0]].cmp(&keys[b.items[0]]))
            }
        };
        let mut plan = Self { apart: vec![0; units.len()], twins: Vec::new(), units, kinds, tags };
        for &(a, b) in &asked.apart {
            let (a, b) = (plan.unit_of(a), plan.unit_of(b));
            plan.apart[a] |= 1 << b;
            plan.apart[b] |= 1 << a;
        }
        if let Some(clique) = plan.too_many_apart() {
            let between = |&&(a, b): &&(usize, usize)| [a, b].iter().all(|&i| clique >> plan.unit_of(i) & 1 == 1);
            let mut named = vec![false; n];
            asked.apart.iter().filter(between).for_each(|&(a, b)| (named[a], named[b]) = (true, true));
            return Err(Fault::TooManyApart((0..n).filter(|&i| named[i]).collect()));
        }
        plan.twins = (0..plan.units.len()).map(|u| plan.twins_of(u)).collect();
        Ok(plan)
    }

    pub(super) const fn n_groups(&self) -> usize {
        self.kinds[0].n + self.kinds[1].n
    }

    pub(super) const fn is_free(&self) -> bool {
        self.kinds[0].room == 0
    }

    pub(super) fn all(&self) -> u64 {
        u64::MAX >> (64 - self.units.len())
    }

    pub(super) fn room(&self, mask: u64) -> usize {
        Bits(mask).map(|u| self.units[u].room).sum()
    }

    pub(super) fn weight(&self, mask: u64) -> u64 {
        Bits(mask).map(|u| self.units[u].weight).sum()
    }

    pub(super) fn n_tagged(&self, mask: u64) -> usize {
        Bits(mask).map(|u| self.units[u].n_tagged).sum()
    }

    /// Asked of a group whose room is one of the two.
    pub(super) fn cost(&self, mask: u64) -> u64 {
        let kind = usize::from(self.room(mask) != self.kinds[0].room);
        self.weight(mask) * self.kinds[kind].scale
    }

    pub(super) fn largest_cost(&self, groups: &[u64]) -> u64 {
        groups.iter().map(|&mask| self.cost(mask)).fold(0, u64::max)
    }

    /// Whether this may be one group, whatever its room.
    pub(super) fn may_be(&self, mask: u64) -> bool {
        let n_tagged = self.n_tagged(mask);
        mask != 0 && self.tags.0 <= n_tagged && n_tagged <= self.tags.1 && Bits(mask).all(|u| self.apart[u] & mask == 0)
    }

    /// No split's largest cost is lower.
    pub(super) fn least_cost(&self) -> u64 {
        if self.is_free() { self.filled().max(self.crowded()) } else { self.filled() }
    }

    /// Of any j · k + 1 units some j + 1 share one of k groups; they weigh at least what the lightest j + 1 do. Taken of the heaviest
    /// (Dell'Amico, Martello 1995, ORSA J. Computing 7:191).
    fn crowded(&self) -> u64 {
        let k = self.n_groups();
        let sum = |j: usize| self.units.get(j * k - j..=j * k).map(|units| units.iter().map(|unit| unit.weight).sum());
        (1..=self.units.len() / k).filter_map(sum).fold(0, u64::max)
    }

    /// With every group filled up to less there would be no place for all.
    fn filled(&self) -> u64 {
        let all = self.weight(self.all());
        let (mut low, mut high) = (0, all * self.kinds[0].scale.max(self.kinds[1].scale));
        while low < high {
            let middle = (low + high) / 2;
            if self.kinds.iter().map(|kind| kind.n as u64 * (middle / kind.scale)).sum::<u64>() < all {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        low
    }

    /// The items of a group, in rising order.
    pub(super) fn items(&self, mask: u64) -> Vec<usize> {
        let items = Bits(mask).flat_map(|u| &self.units[u].items).fold(0_u64, |items, i| items | 1 << i);
        Bits(items).collect()
    }

    /// Every item has a unit.
    fn unit_of(&self, item: usize) -> usize {
        self.units.iter().take_while(|unit| !unit.items.contains(&item)).count()
    }

    fn twins_of(&self, u: usize) -> u64 {
        let like = |&v: &usize| {
            let (a, b) = (&self.units[u], &self.units[v]);
            (a.weight, a.room, a.n_tagged, a.items.len()) == (b.weight, b.room, b.n_tagged, b.items.len())
                && self.apart[u] == self.apart[v]
        };
        (0..self.units.len()).filter(like).fold(0, |twins, v| twins | 1 << v)
    }

    /// Units of which each is apart from each, one more than there are groups. Looked for within a bound; what is missed the
    /// search finds out.
    fn too_many_apart(&self) -> Option<u64> {
        self.clique(0, self.all(), self.n_groups() + 1, &mut 100_000)
    }

    fn clique(&self, chosen: u64, mut from: u64, n_missing: usize, steps: &mut u32) -> Option<u64> {
        if n_missing == 0 {
            return Some(chosen);
        }
        while from.count_ones() as usize >= n_missing && *steps > 0 {
            *steps -= 1;
            let u = from.trailing_zeros() as usize;
            from &= from - 1;
            let found = self.clique(chosen | 1 << u, from & self.apart[u], n_missing - 1, steps);
            if found.is_some() {
                return found;
            }
        }
        None
    }
}

/// The sizes there are, and how many items the largest group may hold.
fn kinds(sizes: Sizes, n: usize) -> Result<([Kind; 2], usize), SizeFault> {
    let list = match sizes {
        Sizes::Number(k) | Sizes::Free(k) => sizes_by_number(n, k)?,
        Sizes::Size(size) => sizes_by_size(n, size)?,
    };
    let (k, small, n_large) = (list.len(), n / list.len(), n % list.len());
    let none = Kind { room: 0, scale: 1, n: 0 };
    Ok(if let Sizes::Free(_) = sizes {
        ([Kind { n: k, ..none }, none], n - k + 1)
    } else if n_large == 0 {
        ([Kind { room: small, scale: 1, n: k }, none], small)
    } else {
        let large = Kind { room: small + 1, scale: small as u64, n: n_large };
        ([large, Kind { room: small, scale: small as u64 + 1, n: k - n_large }], small + 1)
    })
}

/// Every item that a wish names is there, and no wish names one twice.
fn check_items(asked: &Asked, n: usize) -> Result<(), Fault> {
    let pairs: Vec<Vec<usize>> = asked.apart.iter().map(|&(a, b)| vec![a, b]).collect();
    for set in asked.together.iter().chain(&pairs).chain([&asked.tagged]) {
        let mut seen = vec![false; n];
        for &item in set {
            match seen.get_mut(item) {
                None => return Err(Fault::Unknown(item)),
                Some(seen) if *seen => return Err(Fault::Doubled(item)),
                Some(seen) => *seen = true,
            }
        }
    }
    Ok(())
}

/// For each item the lowest item it stays with, which may be itself.
fn merged(n: usize, together: &[Vec<usize>]) -> Vec<usize> {
    let mut of: Vec<usize> = (0..n).collect();
    for set in together {
        let Some(lowest) = set.iter().map(|&i| of[i]).min() else { continue };
        for i in set {
            let old = of[*i];
            of.iter_mut().filter(|of| **of == old).for_each(|of| *of = lowest);
        }
    }
    of
}
