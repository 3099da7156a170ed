//! What isn't known of several levels at once, laid out evenly: sets of chances, each as likely as another, to average a goal over. No chance
//! is drawn, so the same levels give the same figures.

use super::super::level::Level;
use super::super::special::{logistic, normal_quantile};

/// Sets to lay out: a prime, so that every level takes each of so many equal parts of its distribution once. Fewer where each costs much.
pub const SETS: usize = 251;
pub const FEW_SETS: usize = 31;
/// The lattice's generator and the shift from one level to the next, sought out so that the mean product of any two of twenty levels comes
/// out as if they were independent (`tests/numbers/checks/fits.rs`).
const GENERATOR: usize = 136;
const SHIFT: usize = 97;

/// A lattice of rank one (Korobov 1959, Doklady Akademii Nauk 124:1207; from memory) in as many dimensions as there are levels, each taken
/// for independent of the others.
///
/// ```
/// use peppertally::stats::{goal::draws::{SETS, laid_out}, level::Level};
/// let sets = laid_out(&[Level::new(0.0, 1.0).unwrap(); 2], SETS);
/// let mean = |at: usize| sets.iter().map(|set| set[at]).sum::<f64>() / SETS as f64;
/// assert!((mean(0) - 0.5).abs() < 1e-12 && (mean(1) - 0.5).abs() < 1e-12);
/// ```
pub fn laid_out(levels: &[Level], sets: usize) -> Vec<Vec<f64>> {
    let sets = sets.max(1);
    let mut by_level = Vec::with_capacity(levels.len());
    let mut stride = 1;
    for (n, level) in levels.iter().enumerate() {
        let (mean, sd) = level.parts();
        let share = |set: usize| {
            let part = (set * stride + n * SHIFT) % sets;
            let z = normal_quantile((part as f64 + 0.5) / sets as f64).unwrap_or(0.0);
            logistic(mean + sd * z).0
        };
        by_level.push((0..sets).map(share).collect::<Vec<f64>>());
        stride = stride * GENERATOR % sets;
    }
    (0..sets).map(|set| by_level.iter().map(|shares| shares[set]).collect()).collect()
}
