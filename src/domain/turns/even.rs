//! Which child takes which spot, so that nobody runs a whole turn ahead of its share or behind it, now or in the turns to come.
//!
//! For one child alone this is the chairman assignment problem (Tijdeman 1980, Discrete Mathematics 32), and giving what is due
//! earliest solves it. Here the children share the spots, and what each needs may clash some turns later; so a choice is played on
//! for some turns, and where that ends in a clash, other choices are tried.

use super::cheapest::cheapest;

/// One turn of one child. Every group of up to 20 divides it, so that shares are exact.
pub const WHOLE: i64 = 232_792_560;
/// So many turns are looked ahead. Six, with twelve tries, are the fewest that kept every group even (see `tests/properties/turns.rs`).
const AHEAD: usize = 6;
const TRIES: u64 = 12;
/// So much less than by one of them alone does it weigh what a child is owed of roles that are alike: less than doing the same twice.
const AKIN: i64 = 4_000_000;

/// A running order: what each child is owed, role by role, and what it did last.
#[derive(Clone)]
pub struct Standing {
    /// By child, then by role: the share so far less what was had, in parts of `WHOLE`.
    pub owed: Vec<Vec<i64>>,
    pub last: Vec<Option<usize>>,
}

/// As many spots as children, each with its role; the spots of one role stand together.
pub struct Spots {
    role_of: Vec<usize>,
    /// What each role adds every turn to what a child is owed.
    share: Vec<i64>,
    /// How far from its share a role swings by itself, in thousandths. What is owed is weighed by it, so rare roles aren't forgotten.
    swing: Vec<i64>,
    /// Roles that are alike though each counts by itself.
    akin: Vec<bool>,
}

impl Spots {
    /// From the number of spots of each role, together as many as there are children; and which roles are alike.
    pub fn new(sizes: &[usize], akin: Vec<bool>) -> Spots {
        let n: usize = sizes.iter().sum();
        let role_of = sizes.iter().enumerate().flat_map(|(role, size)| vec![role; *size]).collect();
        let share = sizes.iter().map(|size| share(*size, n)).collect();
        let swing =
            |size: &usize| ((*size as u64 * (n - size) as u64 * 1_000_000).isqrt() / n.max(1) as u64).max(10) as i64;
        Spots { role_of, share, swing: sizes.iter().map(swing).collect(), akin }
    }

    /// The role of each child in the next turn.
    pub fn choose(&self, standing: &Standing) -> Vec<usize> {
        let mut best = (Vec::new(), None);
        for attempt in 0..TRIES {
            let (first, lasted) = self.played_on(standing, attempt);
            if best.1.is_none_or(|b| lasted > b) {
                best = (first, Some(lasted));
            }
            if lasted > AHEAD {
                break;
            }
        }
        best.0
    }

    /// The first turn of this attempt, and how many turns went by without anybody a whole turn off its share.
    fn played_on(&self, standing: &Standing, attempt: u64) -> (Vec<usize>, usize) {
        let mut standing = standing.clone();
        let first = self.turn(&standing, attempt);
        let mut now = first.clone();
        for lasted in 0..=AHEAD {
            standing.take(&now, &self.share);
            if standing.owed.iter().any(|owed| off(owed)) {
                return (first, lasted);
            }
            if lasted < AHEAD {
                now = self.turn(&standing, attempt);
            }
        }
        (first, AHEAD + 1)
    }

    /// One turn: the cheapest giving of spots. `attempt` 0 goes by what is owed alone, the others shift the prices a little, each in
    /// its own fixed way.
    fn turn(&self, standing: &Standing, attempt: u64) -> Vec<usize> {
        let n = self.role_of.len();
        let mut prices = Vec::with_capacity(n * n);
        for (child, (owed, last)) in standing.owed.iter().zip(&standing.last).enumerate() {
            let due: Vec<i64> = owed.iter().zip(&self.share).map(|(owed, share)| owed + share).collect();
            let of_role: Vec<i64> = (0..due.len())
                .map(|role| if self.share[role] == 0 { 0 } else { self.price(&due, role, *last) })
                .collect();
            let shift = |spot: usize| if attempt == 0 { 0 } else { shifted(child, spot, attempt) };
            prices.extend(self.role_of.iter().enumerate().map(|(spot, role)| of_role[*role] + shift(spot)));
        }
        cheapest(n, &prices).into_iter().map(|spot| self.role_of[spot]).collect()
    }

    /// What it costs to give this role now: less the more it is owed; a great deal where it may not be had yet, or where this child
    /// would come to need two roles at once, the sooner the dearer; a trifle for having it twice running.
    fn price(&self, due: &[i64], role: usize, last: Option<usize>) -> i64 {
        let mut price = -due[role] * 1_000 / self.swing[role];
        if due[role] >= WHOLE {
            price -= 500 * WHOLE;
        }
        if due[role] <= 0 {
            price += 500 * WHOLE;
        }
        // Of two to whom it costs nothing else, whoever has had least of what is alike, taken together.
        if self.akin[role] {
            let of_all: i64 = due.iter().zip(&self.akin).filter(|(_, akin)| **akin).map(|(due, _)| due).sum();
            price -= of_all / AKIN;
        }
        let lasts = self.alone(due, role);
        if lasts < AHEAD {
            price += (5_000 * WHOLE) >> lasts.min(3);
        }
        if last == Some(role) {
            price += WHOLE / 200_000;
        }
        price
    }

    /// For how many turns a child could keep to its share if it were alone, taking `role` now and then what is due earliest.
    fn alone(&self, due: &[i64], role: usize) -> usize {
        let mut due = due.to_vec();
        due[role] -= WHOLE;
        for lasted in 0..AHEAD {
            if off(&due) {
                return lasted;
            }
            let mut earliest: Option<(i64, usize)> = None;
            for (role, share) in self.share.iter().enumerate().filter(|(_, share)| **share > 0) {
                due[role] += share;
                let turns_left = ((WHOLE - due[role]).max(0) + share - 1) / share;
                if due[role] > 0 && earliest.is_none_or(|(e, _)| turns_left < e) {
                    earliest = Some((turns_left, role));
                }
            }
            match earliest {
                Some((_, role)) => due[role] -= WHOLE,
                None => return lasted,
            }
        }
        AHEAD
    }
}

impl Standing {
    fn take(&mut self, roles: &[usize], share: &[i64]) {
        for ((owed, last), role) in self.owed.iter_mut().zip(&mut self.last).zip(roles) {
            for (owed, share) in owed.iter_mut().zip(share) {
                *owed += share;
            }
            owed[*role] -= WHOLE;
            *last = Some(*role);
        }
    }
}

/// The share of one child in `spots` of `n` children.
pub fn share(spots: usize, n: usize) -> i64 {
    if n == 0 { 0 } else { WHOLE * spots as i64 / n as i64 }
}

/// Whether a child is a whole turn ahead or behind in some role.
fn off(owed: &[i64]) -> bool {
    owed.iter().any(|owed| owed.abs() >= WHOLE)
}

/// A fixed shift of a price for this child, spot and attempt, up to one and a half turns' worth: the bits are stirred, nothing more.
fn shifted(child: usize, spot: usize, attempt: u64) -> i64 {
    let mut bits = child as u64 * 31 + spot as u64 * 17 + attempt * 101;
    bits ^= bits << 13;
    bits = bits.wrapping_mul(0x9E37_79B9_7F4A_7C15);
    ((bits >> 40) as i64 % 300_000) * (WHOLE / 200_000)
}
