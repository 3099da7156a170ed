//! Ratings from who met whom: of two sides, each the sum of its members, how often the one comes off better. Pairs and teams (Bradley and Terry
//! 1952, Biometrika 39:324; teams as sums: Huang, Weng and Lin 2006, Journal of Machine Learning Research 7:85), and tries against
//! difficulties (the one-parameter model of Rasch 1960), which are the same sum with other names. Never a ranking: what is owned here is
//! the correction, and how little is known.

use super::special::logistic;

/// Who was on the one side, who on the other, and how often the first came off better. Places in the list of ratings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Meeting<'a> {
    pub first: &'a [usize],
    pub second: &'a [usize],
    pub won: f64,
    pub lost: f64,
}

/// What is known of all of them together, in log-odds.
#[derive(Clone, Debug, PartialEq)]
pub struct Ratings {
    values: Vec<f64>,
    /// Row by row.
    covariance: Vec<f64>,
    /// How well this prior foresaw what was seen (Laplace's approximation): to compare priors by.
    pub ln_likelihood: f64,
}

/// The ratings that are likeliest given what was seen, when each is drawn about 0 with its own spread before (penalised likelihood; the error
/// from the curvature there). A large spread leaves a rating free, a small one holds it back where little was seen, so that one who
/// only won is not out of all bounds, and two groups that never met differ by what the prior says, with an error to match.
///
/// `None` for a spread that isn't finite and above 0, places outside the list, counts below 0 or not finite.
///
/// ```
/// use peppertally::stats::ratings::{Meeting, rated};
/// // 3 to 1 between two: nearly ln 3 apart when hardly held back.
/// let ratings = rated(&[100.0; 2], &[Meeting { first: &[0], second: &[1], won: 3.0, lost: 1.0 }]).unwrap();
/// assert!((ratings.apart(&[0], &[1]).0 - 3.0_f64.ln()).abs() < 1e-3);
/// ```
pub fn rated(spreads: &[f64], meetings: &[Meeting<'_>]) -> Option<Ratings> {
    let n = spreads.len();
    let sound = |m: &Meeting<'_>| {
        m.first.iter().chain(m.second).all(|at| *at < n)
            && m.won >= 0.0
            && m.lost >= 0.0
            && (m.won + m.lost).is_finite()
    };
    let holds = spreads.iter().all(|spread| *spread > 0.0 && spread.is_finite());
    if n == 0 || !holds || !meetings.iter().all(sound) {
        return None;
    }
    let held: Vec<f64> = spreads.iter().map(|spread| 1.0 / (spread * spread)).collect();
    let mut values = vec![0.0; n];
    let mut factor = Vec::new();
    for _ in 0..100 {
        let mut slope: Vec<f64> = values.iter().zip(&held).map(|(value, held)| -value * held).collect();
        factor = vec![0.0; n * n];
        (0..n).for_each(|i| factor[i * n + i] = held[i]);
        for m in meetings {
            let (p, q) = logistic(sum(&values, m));
            let more = m.won * q - m.lost * p;
            let known = (m.won + m.lost) * p * q;
            for (i, sign) in sides(m) {
                slope[i] += sign * more;
                sides(m).for_each(|(j, other)| factor[i * n + j] += sign * other * known);
            }
        }
        factorised(&mut factor, n)?;
        let step = solved(&factor, n, slope);
        // Never so far that the curve could turn.
        let furthest = step.iter().fold(0.0_f64, |most, step| most.max(step.abs()));
        let part = (2.0 / furthest).min(1.0);
        values.iter_mut().zip(&step).for_each(|(value, step)| *value += part * step);
        if furthest < 1e-9 {
            break;
        }
    }
    let mut covariance = Vec::with_capacity(n * n);
    for i in 0..n {
        let unit = (0..n).map(|j| f64::from(u8::from(i == j))).collect();
        covariance.extend(solved(&factor, n, unit));
    }
    let seen = |m: &Meeting<'_>| {
        let (p, q) = logistic(sum(&values, m));
        let of = |times: f64, chance: f64| if times > 0.0 { times * chance.max(f64::MIN_POSITIVE).ln() } else { 0.0 };
        of(m.won, p) + of(m.lost, q)
    };
    let prior: f64 = values.iter().zip(&held).map(|(value, held)| 0.5 * held.ln() - 0.5 * held * value * value).sum();
    let curve: f64 = (0..n).map(|i| factor[i * n + i].ln()).sum();
    let ln_likelihood = meetings.iter().map(seen).sum::<f64>() + prior - curve;
    Some(Ratings { values, covariance, ln_likelihood })
}

/// The same by that of several lists of spreads which foresaw best what was seen; the first of equals. `None` where [`rated`] has none for any.
///
/// ```
/// use peppertally::stats::ratings::{Meeting, best_rated};
/// // Even games between two: the narrow spread.
/// let even = Meeting { first: &[0], second: &[1], won: 50.0, lost: 50.0 };
/// let ratings = best_rated(&[&[1.0; 2], &[0.1; 2]], &[even]).unwrap();
/// assert!(ratings.of(0).unwrap().1 < 0.11);
/// ```
pub fn best_rated(candidates: &[&[f64]], meetings: &[Meeting<'_>]) -> Option<Ratings> {
    let mut best: Option<Ratings> = None;
    for spreads in candidates {
        let ratings = rated(spreads, meetings)?;
        if best.as_ref().is_none_or(|best| ratings.ln_likelihood > best.ln_likelihood) {
            best = Some(ratings);
        }
    }
    best
}

impl Ratings {
    /// One rating and its standard error. `None` outside the list.
    pub fn of(&self, at: usize) -> Option<(f64, f64)> {
        let value = *self.values.get(at)?;
        Some((value, self.covariance.get(at * self.values.len() + at)?.max(0.0).sqrt()))
    }

    /// How far the first side is above the second, and the standard error of that. Places outside the list count for nothing.
    pub fn apart(&self, first: &[usize], second: &[usize]) -> (f64, f64) {
        let n = self.values.len();
        let meeting = Meeting { first, second, won: 0.0, lost: 0.0 };
        let (mut apart, mut variance) = (0.0, 0.0);
        for (i, sign) in sides(&meeting).filter(|(i, _)| *i < n) {
            apart += sign * self.values[i];
            let row = &self.covariance[i * n..(i + 1) * n];
            variance += sides(&meeting).filter(|(j, _)| *j < n).map(|(j, other)| sign * other * row[j]).sum::<f64>();
        }
        (apart, variance.max(0.0).sqrt())
    }

    /// A mean of ratings with these weights, as a sum of weight times rating, and its standard error. Places outside the list count for nothing.
    pub fn mixed(&self, parts: &[(usize, f64)]) -> (f64, f64) {
        let n = self.values.len();
        let known = || parts.iter().copied().filter(|(at, _)| *at < n);
        let sum = known().map(|(at, weight)| weight * self.values[at]).sum();
        let with = |at: usize| known().map(|(other, weight)| weight * self.covariance[at * n + other]).sum::<f64>();
        let variance: f64 = known().map(|(at, weight)| weight * with(at)).sum();
        (sum, variance.max(0.0).sqrt())
    }
}

/// Which of them hang together by having met, on whichever side: the lowest place of each one's group. Between two groups nothing is known but
/// the prior.
///
/// ```
/// use peppertally::stats::ratings::{Meeting, connected};
/// let met = Meeting { first: &[0], second: &[2], won: 1.0, lost: 0.0 };
/// assert_eq!(connected(4, &[met]), [0, 1, 0, 3]);
/// ```
pub fn connected(n: usize, meetings: &[Meeting<'_>]) -> Vec<usize> {
    let mut group: Vec<usize> = (0..n).collect();
    for meeting in meetings.iter().filter(|m| m.won + m.lost > 0.0) {
        let of = |group: &[usize]| sides(meeting).filter_map(|(at, _)| group.get(at).copied()).min();
        let Some(least) = of(&group) else { continue };
        let joined: Vec<usize> = sides(meeting).filter_map(|(at, _)| group.get(at).copied()).collect();
        group.iter_mut().filter(|g| joined.contains(g)).for_each(|g| *g = least);
    }
    group
}

fn sides<'a>(meeting: &Meeting<'a>) -> impl Iterator<Item = (usize, f64)> + use<'a> {
    let (first, second) = (meeting.first, meeting.second);
    first.iter().map(|at| (*at, 1.0)).chain(second.iter().map(|at| (*at, -1.0)))
}

fn sum(values: &[f64], meeting: &Meeting<'_>) -> f64 {
    sides(meeting).map(|(at, sign)| sign * values[at]).sum()
}

/// Cholesky's root in the lower half. `None` where rounding leaves none.
pub(crate) fn factorised(matrix: &mut [f64], n: usize) -> Option<()> {
    for i in 0..n {
        for j in 0..=i {
            let known: f64 = (0..j).map(|k| matrix[i * n + k] * matrix[j * n + k]).sum();
            let rest = matrix[i * n + j] - known;
            if i > j {
                matrix[i * n + j] = rest / matrix[j * n + j];
            } else if rest > 0.0 {
                matrix[i * n + i] = rest.sqrt();
            } else {
                return None;
            }
        }
    }
    Some(())
}

pub(crate) fn solved(root: &[f64], n: usize, mut right: Vec<f64>) -> Vec<f64> {
    for i in 0..n {
        let known: f64 = (0..i).map(|k| root[i * n + k] * right[k]).sum();
        right[i] = (right[i] - known) / root[i * n + i];
    }
    for i in (0..n).rev() {
        let known: f64 = (i + 1..n).map(|k| root[k * n + i] * right[k]).sum();
        right[i] = (right[i] - known) / root[i * n + i];
    }
    right
}
