//! Looking at many at once: how many of the findings may be by chance. Owns the correction, nothing of where the p-values come from.

use super::arrange::arranged;

/// Which of the findings stand when at most the share `rate` of those that stand may be false: the step-up of Benjamini and Hochberg (1995,
/// Journal of the Royal Statistical Society B 57:289). What is no number, or outside 0 to 1, never stands and counts as looked at.
///
/// ```
/// use peppertally::stats::many::standing;
/// assert_eq!(standing(&[0.01, 0.9, 0.03, 0.04], 0.05), [true, false, false, false]);
/// assert_eq!(standing(&[0.01, 0.02, 0.03, 0.04], 0.05), [true; 4]);
/// ```
pub fn standing(p_values: &[f64], rate: f64) -> Vec<bool> {
    adjusted(p_values).into_iter().map(|p| p <= rate).collect()
}

/// Each p-value as the lowest rate of false findings at which it stands; 1 for what is no p-value. Same order, same source.
///
/// ```
/// use peppertally::stats::many::adjusted;
/// assert_eq!(adjusted(&[0.5, 0.25]), [0.5, 0.5]);
/// ```
pub fn adjusted(p_values: &[f64]) -> Vec<f64> {
    let n = p_values.len();
    let sound = |p: f64| if (0.0..=1.0).contains(&p) { p } else { 1.0 };
    let order = arranged((0..n).collect::<Vec<_>>(), |a, b| sound(p_values[*b]).total_cmp(&sound(p_values[*a])));
    let mut adjusted = vec![1.0; n];
    let mut least = 1.0_f64;
    // From the largest, of rank n, down.
    for (passed, &at) in order.iter().enumerate() {
        let rank = (n - passed) as f64;
        least = least.min(sound(p_values[at]) * n as f64 / rank);
        adjusted[at] = least;
    }
    adjusted
}
