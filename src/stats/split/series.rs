//! Rounds in which, as far as the numbers allow, no two items are together twice: planned all at once. The app plans one round at a
//! time, from who was together before, as children come and go between rounds; what is checked here is what is published of such plans.

use super::chance::Chance;
use super::searched::searched;
use super::{MOST, Met, SizeFault, sizes_by_size};
use crate::stats::arrange::arranged;

/// Several splits of the same items, one after the other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Series {
    /// Round by round, its groups; items in rising order, the larger groups first.
    pub rounds: Vec<Vec<Vec<usize>>>,
    /// How many times two are together that already were in an earlier round, over all pairs and rounds.
    pub repeats: u32,
}

/// So many rounds of groups of about `size`. Where a plan without repeats is known it is used, its items in an order from the
/// seed: for pairs of an even number the circle method (Kirkman 1847; Anderson 1997, "Combinatorial designs and tournaments"); for
/// groups of s out of s·m items, s up to m and m a prime, 4 or 8, the m parallel classes of a transversal design, and one more
/// from its columns where s is m: then it is an affine plane (Colbourn, Dinitz 2007, "Handbook of combinatorial designs", III.3
/// and VII.2). All further rounds, and all other numbers, are searched for within a bound: there may be fewer repeats than found.
///
/// ```
/// use peppertally::stats::split::rounds;
/// let series = rounds(9, 3, 4, 1).unwrap();
/// assert_eq!((series.rounds.len(), series.repeats), (4, 0)); // everyone with everyone, once
/// ```
pub fn rounds(n: usize, size: usize, n_rounds: usize, seed: u64) -> Result<Series, SizeFault> {
    let sizes = sizes_by_size(n, size)?;
    let mut chance = Chance::new(seed);
    let mut known = if sizes.iter().all(|&s| s == size) { known(n, size) } else { Vec::new() };
    let mut names: Vec<usize> = (0..n).collect();
    chance.shuffle(&mut names);
    known.iter_mut().flatten().flatten().for_each(|item| *item = names[*item]);
    let mut order: Vec<usize> = (0..known.len()).collect();
    chance.shuffle(&mut order);
    let mut rounds: Vec<Vec<Vec<usize>>> = order.into_iter().take(n_rounds).map(|i| known[i].clone()).collect();
    if rounds.len() < n_rounds {
        // From the known rounds on; and, since a known plan may be the wrong beginning for more, from none.
        let begun = [rounds.as_slice(), &[]].into_iter().take(if rounds.is_empty() { 1 } else { 2 });
        let (mut best, mut fewest) = (Vec::new(), u32::MAX);
        for begun in begun.flat_map(|begun| [begun; 4]) {
            if fewest > 0 {
                let found = searched(n, &sizes, begun, n_rounds, &mut chance);
                let n_repeats = repeats(n, &found);
                if n_repeats < fewest {
                    (best, fewest) = (found, n_repeats);
                }
            }
        }
        rounds = best;
    }
    for group in rounds.iter_mut().flatten() {
        *group = arranged(std::mem::take(group), usize::cmp);
    }
    Ok(Series { repeats: repeats(n, &rounds), rounds })
}

/// Counted on from nobody having met.
fn repeats(n: usize, rounds: &[Vec<Vec<usize>>]) -> u32 {
    let mut met = Met::nobody(n);
    let mut repeats = 0;
    for groups in rounds {
        repeats += met.repeats(groups);
        met.note_groups(groups);
    }
    repeats
}

/// A plan without repeats, if one is known.
fn known(n: usize, size: usize) -> Vec<Vec<Vec<usize>>> {
    let m = n / size;
    if size == 2 {
        circle(n)
    } else if size >= 2 && size <= m && n <= MOST && (is_prime(m) || m == 4 || m == 8) {
        transversal(size, m)
    } else {
        Vec::new()
    }
}

/// All n − 1 rounds of pairs: one item stays, the others go round.
fn circle(n: usize) -> Vec<Vec<Vec<usize>>> {
    let at = |round: usize, i: usize| (round + i) % (n - 1);
    let pair = |round, i| if i == 0 { vec![n - 1, at(round, 0)] } else { vec![at(round, i), at(round, n - 1 - i)] };
    (0..n - 1).map(|round| (0..n / 2).map(|i| pair(round, i)).collect()).collect()
}

/// Item (column c, value v) is c·m + v. In round r group b holds in every column c the value b + r·c, reckoned in the field of m
/// elements: two items of different columns meet in just one round, two of one column in none.
fn transversal(size: usize, m: usize) -> Vec<Vec<Vec<usize>>> {
    let group = |r: usize, b: usize| (0..size).map(|c| c * m + add(m, b, times(m, r, c))).collect();
    let mut rounds: Vec<Vec<Vec<usize>>> = (0..m).map(|r| (0..m).map(|b| group(r, b)).collect()).collect();
    if size == m {
        rounds.push((0..m).map(|c| (c * m..(c + 1) * m).collect()).collect());
    }
    rounds
}

fn is_prime(m: usize) -> bool {
    m > 1 && (2..m).all(|d| !m.is_multiple_of(d))
}

/// In the field of m elements; for 4 and 8 the bits are the coefficients of a polynomial over two elements.
fn add(m: usize, a: usize, b: usize) -> usize {
    if m.is_power_of_two() { a ^ b } else { (a + b) % m }
}

/// As above, by x² + x + 1 for 4 and x³ + x + 1 for 8.
fn times(m: usize, a: usize, b: usize) -> usize {
    if !m.is_power_of_two() {
        return a * b % m;
    }
    let by = m | if m == 2 { 0 } else { 3 };
    let mut product = 0;
    for bit in (0..m.ilog2()).rev() {
        product <<= 1;
        if product & m != 0 {
            product ^= by;
        }
        product ^= if b >> bit & 1 == 1 { a } else { 0 };
    }
    product
}
