//! Do two who note the same tries agree, and does one note more good ones than the other? Owns kappa, the bias, and what the second's notes are
//! worth where the first's are trusted; never whose notes are right.

use super::proportion::{Confidence, Count, Gap, wilson};
use super::special::logit;

/// What a disagreement by some steps of the scale is worth, as agreement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Steps {
    /// Nothing, however near: Cohen's kappa.
    Equal,
    /// The less the further, in even steps (Cicchetti and Allison 1971).
    Linear,
    /// By the square of the distance (Fleiss and Cohen 1973).
    Square,
}

/// Agreement beyond chance: 1 is all, 0 as much as by chance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kappa {
    pub value: f64,
    /// Its asymptotic standard error; 0 where all agree, which doesn't mean that it is sure.
    pub error: f64,
    /// Within -1 to 1. Invariant: `low <= high`.
    pub low: f64,
    pub high: f64,
}

/// Kappa of a square table: row by row what the one noted, column by column the other, in the order of the scale. Cohen (1960, Educational and
/// Psychological Measurement 20:37), weighted by Cohen (1968), the error by Fleiss, Cohen and Everitt (1969, Psychological Bulletin
/// 72:323). `None` for a table that isn't square or less than 2 by 2, for no tries, and where both noted one and the same grade always.
///
/// The range is that of kappa with [`FEW`] more tries noted by chance alone: around kappa itself 95 in 100 are 93 for some dozens of tries,
/// and no range at all where all agree (of ten out of ten nobody is sure).
///
/// ```
/// use peppertally::stats::agreement::{Steps, kappa};
/// use peppertally::stats::proportion::Confidence;
/// let kappa = kappa(&[20, 5, 10, 15], 2, Steps::Equal, Confidence::P95).unwrap();
/// assert!((kappa.value - 0.4).abs() < 1e-12);
/// ```
pub fn kappa(table: &[u32], n_grades: usize, steps: Steps, sure: Confidence) -> Option<Kappa> {
    let n: f64 = table.iter().map(|n| f64::from(*n)).sum();
    if n_grades < 2 || n_grades.checked_mul(n_grades) != Some(table.len()) || n == 0.0 {
        return None;
    }
    let shares: Vec<f64> = table.iter().map(|one| f64::from(*one) / n).collect();
    let (value, error) = with_error(&shares, n, n_grades, steps)?;
    let (rows, columns) = margins(&shares, n_grades);
    let chance = (0..shares.len()).map(|at| rows[at / n_grades] * columns[at % n_grades]);
    let eased: Vec<f64> =
        shares.iter().zip(chance).map(|(seen, chance)| (n * seen + FEW * chance) / (n + FEW)).collect();
    let (middle, eased) = with_error(&eased, n + FEW, n_grades, steps)?;
    let reach = sure.z() * eased;
    Some(Kappa { value, error, low: (middle - reach).max(-1.0).min(value), high: (middle + reach).min(1.0).max(value) })
}

/// So many tries noted by chance are thought of beside those seen, for the range. A choice of ours; `tests/numbers/checks/agreements.rs` says how
/// often it holds.
pub const FEW: f64 = 2.0;

/// By how much the second notes a higher share good than the first, of the same tries.
///
/// From how many both noted good, only the first, only the second, and neither. The range for paired shares by Newcombe's method 10 (1998,
/// Statistics in Medicine 17:2635). `None` without a try.
///
/// ```
/// use peppertally::stats::{agreement::bias, proportion::Confidence};
/// let bias = bias([59, 16, 6, 80], Confidence::P95).unwrap();
/// assert!((bias.seen + 0.0621).abs() < 5e-5 && (bias.low + 0.1186).abs() < 5e-5 && (bias.high + 0.0046).abs() < 5e-5);
/// ```
pub fn bias([both, first, second, neither]: [u32; 4], sure: Confidence) -> Option<Gap> {
    let all = both.checked_add(first)?.checked_add(second)?.checked_add(neither)?;
    let of = |good: u32| Some((f64::from(good) / f64::from(all), wilson(Count::new(good, all)?, sure)?));
    let ((p, range), (q, other)) = (of(both + second)?, of(both + first)?);
    let [e, f, g, h, n] = [both, second, first, neither, all].map(f64::from);
    let (product, together) = ((e + f) * (g + h) * (e + g) * (f + h), e * h - f * g);
    // Taken less far than it was seen, towards none.
    let together = if together > 0.0 { (together - 0.5 * n).max(0.0) } else { together };
    let phi = if product > 0.0 { together / product.sqrt() } else { 0.0 };
    let reach = |a: f64, b: f64| (a * a - 2.0 * phi * a * b + b * b).max(0.0).sqrt();
    Some(Gap {
        low: (p - q - reach(p - range.low(), other.high() - q)).max(-1.0),
        seen: p - q,
        high: (p - q + reach(range.high() - p, q - other.low())).min(1.0),
    })
}

/// How tries that only the second noted are to be read, once some were noted by both and the first is trusted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// What such a try is worth beside a trusted one, 0 to 1: the weight of a level's occasion.
    pub worth: f64,
    /// Of good tries so many are noted good, of others so many not; and the variance of each.
    good: (f64, f64),
    other: (f64, f64),
}

/// The second's notes read by the first's: from how many both noted good, only the first, only the second, and neither.
///
/// With sensitivity s and specificity t the second notes the share p' = 1 - t + (s + t - 1) p of tries whose true share is p (Bross 1954,
/// Biometrics 10:478). So a try seen through it tells of p's log-odds (s + t - 1)² p (1-p) / (p' (1-p')) of what a try seen truly does (the
/// ratio of the Fisher informations), and that is the square of the table's phi.
///
/// For the worth, [`HALF`] tries are thought of beside those checked, in which the two are level and a try is worth a half. So nothing checked is a
/// half, and few checked are not much else. For s and t [`ALIKE`] tries of either kind are thought of on which the two agree: as long as nothing
/// is checked, what is noted is taken for true. Both are choices of ours.
///
/// ```
/// use peppertally::stats::agreement::reading;
/// let unchecked = reading([0; 4]);
/// assert!((unchecked.worth - 0.5).abs() < 1e-12 && unchecked.offset(0.7) == (0.0, 0.0));
/// // Nine in ten alike at a share of a half: 0.8² of a try.
/// assert!((reading([45_000, 5_000, 5_000, 45_000]).worth - 0.64).abs() < 1e-3);
/// assert!(reading([10, 0, 5, 5]).offset(0.7).0 > 0.0 && reading([5, 5, 5, 5]).worth < 0.2);
/// ```
pub fn reading([both, first, second, neither]: [u32; 4]) -> Reading {
    let (alike, apart) = (0.25 * HALF * (1.0 + 0.5_f64.sqrt()), 0.25 * HALF * (1.0 - 0.5_f64.sqrt()));
    let [a, d] = [both, neither].map(|n| f64::from(n) + alike);
    let [b, c] = [first, second].map(|n| f64::from(n) + apart);
    let phi = (a * d - b * c) / ((a + b) * (c + d) * (a + c) * (b + d)).sqrt();
    let of = |right: u32, wrong: u32| {
        let n = f64::from(right) + f64::from(wrong) + ALIKE;
        let share = (f64::from(right) + ALIKE) / n;
        (share, share * (1.0 - share) / n)
    };
    // Notes that say the contrary are worth nothing: nobody would read them so.
    Reading { worth: phi.max(0.0).powi(2), good: of(both, first), other: of(neither, second) }
}

/// The share that one noted good, drawn towards that of all who note so: with few tries it is theirs.
///
/// ```
/// use peppertally::stats::{agreement::drawn, proportion::Count};
/// let of = |good, tries| Count::new(good, tries).unwrap();
/// assert_eq!((drawn(of(0, 0), of(60, 100)), drawn(of(10, 10), of(50, 100)), drawn(of(0, 0), of(0, 0))), (0.6, 0.75, 0.5));
/// ```
pub fn drawn(own: Count, all: Count) -> f64 {
    const LIKE_ALL: f64 = 10.0;
    let mean = if all.tries() > 0 { f64::from(all.good()) / f64::from(all.tries()) } else { 0.5 };
    (f64::from(own.good()) + LIKE_ALL * mean) / (f64::from(own.tries()) + LIKE_ALL)
}

/// So many tries are thought of beside those that both noted, for what a try is worth.
pub const HALF: f64 = 20.0;
/// And so many good ones, and so many others, on which both agree.
const ALIKE: f64 = 3.0;

impl Reading {
    /// Of one whose share noted good is this: by how much its log-odds lie above the true ones, and the error of that. Of a member whose every try is
    /// noted good, or none, the true share is taken for no further out than 3 or 97 in 100.
    ///
    /// ```
    /// use peppertally::stats::agreement::reading;
    /// // Of a hundred good ones ten are noted bad, of as many others ten good: 0.74 noted is 0.8.
    /// let (offset, error) = reading([90_000, 10_000, 10_000, 90_000]).offset(0.74);
    /// assert!((offset - ((0.74_f64 / 0.26).ln() - (0.8_f64 / 0.2).ln())).abs() < 1e-3 && error < 0.02);
    /// ```
    pub fn offset(&self, noted: f64) -> (f64, f64) {
        let ((s, of_s), (t, of_t)) = (self.good, self.other);
        // Where the two hardly agree the share can't be told back, and such notes are worth next to nothing.
        let slope = (s + t - 1.0).max(0.2);
        let noted = noted.clamp(0.03, 0.97);
        let p = ((noted - (1.0 - t)) / slope).clamp(0.03, 0.97);
        let error = (p * p * of_s + (1.0 - p) * (1.0 - p) * of_t).sqrt() / (slope * p * (1.0 - p));
        let of = |share: f64| logit(share).unwrap_or(0.0);
        (of(noted) - of(p), error.min(2.0))
    }
}

fn margins(shares: &[f64], n_grades: usize) -> (Vec<f64>, Vec<f64>) {
    let (mut rows, mut columns) = (vec![0.0; n_grades], vec![0.0; n_grades]);
    for (at, share) in shares.iter().enumerate() {
        rows[at / n_grades] += share;
        columns[at % n_grades] += share;
    }
    (rows, columns)
}

/// Kappa and its asymptotic standard error.
fn with_error(shares: &[f64], n: f64, n_grades: usize, steps: Steps) -> Option<(f64, f64)> {
    let (rows, columns) = margins(shares, n_grades);
    let weight = |i: usize, j: usize| {
        let apart = i.abs_diff(j) as f64 / (n_grades - 1) as f64;
        match steps {
            Steps::Equal => f64::from(u8::from(i == j)),
            Steps::Linear => 1.0 - apart,
            Steps::Square => 1.0 - apart * apart,
        }
    };
    let cells = || (0..n_grades * n_grades).map(|at| (at, at / n_grades, at % n_grades));
    let seen: f64 = cells().map(|(at, i, j)| weight(i, j) * shares[at]).sum();
    let by_chance: f64 = cells().map(|(_, i, j)| weight(i, j) * rows[i] * columns[j]).sum();
    let left = 1.0 - by_chance;
    if left <= 1e-12 {
        return None;
    }
    let value = (seen - by_chance) / left;
    let of_row: Vec<f64> = (0..n_grades).map(|i| (0..n_grades).map(|j| columns[j] * weight(i, j)).sum()).collect();
    let of_column: Vec<f64> = (0..n_grades).map(|j| (0..n_grades).map(|i| rows[i] * weight(i, j)).sum()).collect();
    let squares: f64 = cells()
        .map(|(at, i, j)| shares[at] * (weight(i, j) - (of_row[i] + of_column[j]) * (1.0 - value)).powi(2))
        .sum();
    let variance = (squares - (value - by_chance * (1.0 - value)).powi(2)) / (n * left * left);
    // Rounding leaves next to nothing where all agree.
    Some((value, if variance > 1e-15 { variance.sqrt() } else { 0.0 }))
}
