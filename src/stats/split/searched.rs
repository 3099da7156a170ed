//! Rounds for which no plan is known: begun at random, bettered by exchanges of two items within a round. A step that makes it a
//! little worse is taken too, at first: threshold accepting, as in `exchange`.

use super::chance::Chance;

const STEPS: i64 = 60_000;

/// How often each two are together.
struct Counts {
    n: usize,
    /// Every pair twice: row by row. An item with itself counts for nothing.
    times: Vec<i64>,
    /// How many times a pair is together beyond its first.
    n_repeats: i64,
    /// For each pair c · (c − 1) / 2, where c is how often it is together: the same repeats, and more if they fall on few pairs.
    off: i64,
}

impl Counts {
    fn at(&self, a: usize, b: usize) -> i64 {
        self.times[a * self.n + b]
    }

    /// Two are together once more.
    fn add(&mut self, a: usize, b: usize) {
        let times = self.at(a, b);
        self.n_repeats += i64::from(times > 0);
        self.off += times;
        self.set(a, b, times + 1);
    }

    fn remove(&mut self, a: usize, b: usize) {
        let times = self.at(a, b) - 1;
        self.n_repeats -= i64::from(times > 0);
        self.off -= times;
        self.set(a, b, times);
    }

    fn set(&mut self, a: usize, b: usize, times: i64) {
        self.times[a * self.n + b] = times;
        self.times[b * self.n + a] = times;
    }
}

/// The rounds given, and as many more as are missing.
pub(super) fn searched(
    n: usize,
    sizes: &[usize],
    given: &[Vec<Vec<usize>>],
    n_rounds: usize,
    chance: &mut Chance,
) -> Vec<Vec<Vec<usize>>> {
    let mut rounds = given.to_vec();
    for _ in given.len()..n_rounds {
        let mut items: Vec<usize> = (0..n).collect();
        chance.shuffle(&mut items);
        rounds.push(sizes.iter().map(|&s| items.split_off(items.len() - s)).collect());
    }
    let mut counts = Counts { n, times: vec![0; n * n], n_repeats: 0, off: 0 };
    for group in rounds.iter().flatten() {
        for (i, &a) in group.iter().enumerate() {
            group[..i].iter().for_each(|&b| counts.add(a, b));
        }
    }
    let mut best = rounds.clone();
    let mut least = (counts.n_repeats, counts.off);
    for left in (0..STEPS).rev() {
        if sizes.len() < 2 || least.0 == 0 {
            break;
        }
        let round = given.len() + chance.below(n_rounds - given.len());
        let g = chance.below(sizes.len());
        let h = (g + 1 + chance.below(sizes.len() - 1)) % sizes.len();
        let (i, j) = (chance.below(sizes[g]), chance.below(sizes[h]));
        let groups = &mut rounds[round];
        let (a, b) = (groups[g][i], groups[h][j]);
        // What `off` changes by when one goes and the other comes.
        let change = |group: &[usize], goes: usize, comes: usize| {
            group.iter().filter(|&&x| x != goes).map(|&x| counts.at(comes, x) - counts.at(goes, x) + 1).sum::<i64>()
        };
        let change = change(&groups[g], a, b) + change(&groups[h], b, a);
        if change > 2 * left / STEPS + i64::from(left % 16 == 0 && left > STEPS / 8) {
            continue;
        }
        for (group, goes, comes) in [(g, a, b), (h, b, a)] {
            for &x in groups[group].iter().filter(|&&x| x != goes) {
                counts.remove(goes, x);
                counts.add(comes, x);
            }
        }
        (groups[g][i], groups[h][j]) = (b, a);
        if (counts.n_repeats, counts.off) < least {
            least = (counts.n_repeats, counts.off);
            best.clone_from(&rounds);
        }
    }
    best
}
