//! Do two who note the same tries agree, and does one note more good ones than the other? Owns kappa and the bias; never whose notes are right.

use super::proportion::{Confidence, Count, Gap, wilson};

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

impl Kappa {
    /// What a try noted so is worth beside one that is trusted, 0 to 1, as a weight of a level: the square of what kappa is at least.
    ///
    /// With equal shares good kappa is the correlation of the two notes, and a try seen through such a note tells so much of the share as the
    /// correlation squared (its Fisher information: at a share of a half and one in ten noted wrongly 0.8² of a try). That it takes the lower
    /// end is a choice of ours: what hasn't been checked much isn't worth much. It says nothing of a bias.
    ///
    /// ```
    /// use peppertally::stats::{agreement::{Steps, kappa}, proportion::Confidence};
    /// let checked = |table: [u32; 4]| kappa(&table, 2, Steps::Equal, Confidence::P95).map(|kappa| kappa.worth());
    /// assert!(checked([9, 1, 1, 9]) < checked([90, 10, 10, 90]));
    /// assert!(checked([9000, 1000, 1000, 9000]).is_some_and(|worth| (worth - 0.64).abs() < 0.02));
    /// assert_eq!(checked([5, 5, 5, 5]), Some(0.0));
    /// ```
    pub fn worth(self) -> f64 {
        let least = self.low.max(0.0);
        least * least
    }
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
