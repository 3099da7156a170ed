//! Which balls of one phone are which of another's, by their times alone.

/// Balls of one child further apart than this are two.
const NEAR_MS: i64 = 15_000;
/// A child with more pairs within that time in one run than this isn't compared, and its balls are told as alone: three hundred at once against
/// three hundred.
const MOST: usize = 100_000;

/// Which of the one are which of the other, times in order: near each other, so that alone-standing and distance cost least. A ball alone costs half
/// of [`NEAR_MS`], so two are a pair rather than two alone as long as they are near.
///
/// Only what is near is looked at: against a ball of the one stand those of the other within [`NEAR_MS`], and what lies before them can't be a
/// later one's either. So it costs as many steps as there are balls, times those within that time.
pub fn paired(one: &[i64], other: &[i64]) -> Vec<(usize, usize)> {
    let near = |at: &i64| {
        let (from, to) = (at.saturating_sub(NEAR_MS), at.saturating_add(NEAR_MS));
        (other.partition_point(|b| *b < from), other.partition_point(|b| *b <= to))
    };
    let near: Vec<(usize, usize)> = one.iter().map(near).collect();
    if near.iter().fold(0_usize, |sum, (from, to)| sum.saturating_add(to - from)) > MOST {
        return Vec::new();
    }
    let alone = NEAR_MS / 2;
    let alone_times = |n: usize| alone.saturating_mul(i64::try_from(n).unwrap_or(i64::MAX));
    let apart = |i: usize, j: usize| one[i].saturating_sub(other[j]).saturating_abs();
    // The least cost from these places on, for each of the one at every place of the other that is near; what lies before those stands alone.
    let mut costs: Vec<Vec<i64>> = vec![Vec::new(); one.len()];
    let cost = |costs: &[Vec<i64>], i: usize, j: usize| match near.get(i) {
        None => alone_times(other.len() - j),
        Some((from, _)) => costs[i][j.saturating_sub(*from)].saturating_add(alone_times(from.saturating_sub(j))),
    };
    for (i, (from, to)) in near.iter().enumerate().rev() {
        let mut row = vec![0_i64; to - from + 1];
        for j in (*from..=*to).rev() {
            let mut least = cost(&costs, i + 1, j).saturating_add(alone);
            if j < *to {
                least = least.min(row[j + 1 - from].saturating_add(alone));
                least = least.min(cost(&costs, i + 1, j + 1).saturating_add(apart(i, j)));
            }
            row[j - from] = least;
        }
        costs[i] = row;
    }
    let (mut pairs, mut j) = (Vec::new(), 0);
    for (i, (from, to)) in near.iter().enumerate() {
        j = j.max(*from);
        // Those of the other that stand alone before it, or it stands alone itself.
        while j < *to {
            let now = cost(&costs, i, j);
            if now == cost(&costs, i + 1, j + 1).saturating_add(apart(i, j)) {
                pairs.push((i, j));
                j += 1;
                break;
            }
            if now == cost(&costs, i + 1, j).saturating_add(alone) {
                break;
            }
            j += 1;
        }
    }
    pairs
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stats::arrange::arranged;

    #[test]
    fn pairs_keep_their_order_and_are_near() {
        let s = |seconds: &[i64]| seconds.iter().map(|s| s * 1000).collect::<Vec<i64>>();
        for (one, other, pairs) in [
            (vec![], vec![], vec![]),
            (s(&[1, 8, 15]), s(&[2, 9, 16]), vec![(0, 0), (1, 1), (2, 2)]),
            // The second was seen by one alone: the third is the other's second, not the one that comes in order.
            (s(&[0, 20, 40]), s(&[1, 41]), vec![(0, 0), (2, 1)]),
            // Nearer to the next than to this one.
            (s(&[0, 10]), s(&[9]), vec![(1, 0)]),
            // Too far, by a second.
            (s(&[0]), s(&[16]), vec![]),
            (s(&[0]), s(&[15]), vec![(0, 0)]),
            // At the ends of the clock.
            (vec![i64::MIN], vec![i64::MAX], vec![]),
        ] {
            assert_eq!(paired(&one, &other), pairs, "{one:?} {other:?}");
        }
        let many = vec![0; 2000];
        assert_eq!(paired(&many, &many), []);
        let some: Vec<i64> = (0..900).map(|i| i * 3000).collect();
        assert_eq!(paired(&some, &some).len(), 900);
        // However long the run, only what is near is looked at.
        let long: Vec<i64> = (0..20_000).map(|i| i * 10_000).collect();
        assert_eq!(paired(&long, &long).len(), 20_000);
    }
    /// By every table there is: of all ways to pair in order what is near, none costs less.
    #[test]
    fn no_other_pairs_cost_less() {
        fn least(one: &[i64], other: &[i64]) -> i64 {
            let Some((a, rest)) = one.split_first() else { return NEAR_MS / 2 * other.len() as i64 };
            let alone = NEAR_MS / 2 + least(rest, other);
            let with = |(j, b): (usize, &i64)| {
                let near = (a - b).abs() <= NEAR_MS;
                near.then(|| NEAR_MS / 2 * j as i64 + (a - b).abs() + least(rest, &other[j + 1..]))
            };
            other.iter().enumerate().filter_map(with).fold(alone, i64::min)
        }
        let mut seed = 7_u64;
        let mut next = |below: u64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (seed >> 33) % below
        };
        for _ in 0..2000 {
            let mut times = |most: u64| -> Vec<i64> {
                let n = next(7);
                arranged((0..n).map(|_| next(most) as i64 * 500).collect(), i64::cmp)
            };
            let (one, other) = (times(120), times(120));
            let pairs = paired(&one, &other);
            let alone = (one.len() + other.len() - 2 * pairs.len()) as i64;
            let cost = pairs.iter().map(|(a, b)| (one[*a] - other[*b]).abs()).sum::<i64>() + NEAR_MS / 2 * alone;
            assert_eq!(cost, least(&one, &other), "{one:?} {other:?} {pairs:?}");
            assert!(pairs.windows(2).all(|two| two[0].0 < two[1].0 && two[0].1 < two[1].1), "{pairs:?}");
        }
    }
}
