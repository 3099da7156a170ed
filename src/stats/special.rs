//! The special functions the other numbers rest on: normal distribution, gamma, logistic. Our own, in little code: the crates that have
//! them (statrs, libm) bring either traits and dozens of distributions or not these at all, and each is a page of arithmetic.
//! Held against scipy by `tests/compare`.

use std::f64::consts::PI;

/// Half the logarithm of 2π.
pub const HALF_LN_2PI: f64 = 0.918_938_533_204_672_8;

/// The density of the standard normal distribution at `z`.
///
/// ```
/// use peppertally::stats::special::normal_density;
/// assert!((normal_density(0.0) - 0.3989422804).abs() < 1e-10);
/// ```
pub fn normal_density(z: f64) -> f64 {
    (-0.5 * z * z).exp() / (2.0 * PI).sqrt()
}

/// The chance that a standard normal value lies below `z`; 0 for what is no number.
///
/// Near the middle by the series of Marsaglia (2004, Journal of Statistical Software 11:4), outside by Laplace's continued fraction
/// (Abramowitz and Stegun 1964, 26.2.14), which keeps its digits far out in the tail.
///
/// ```
/// use peppertally::stats::special::normal_below;
/// assert!((normal_below(1.959963984540054) - 0.975).abs() < 1e-15);
/// ```
pub fn normal_below(z: f64) -> f64 {
    if z.is_nan() {
        return 0.0;
    }
    let tail = z.abs();
    if tail < 2.5 {
        let (mut term, mut sum, mut odd) = (z, z, 1.0);
        while sum + term != sum {
            odd += 2.0;
            term *= z * z / odd;
            sum += term;
        }
        return 0.5 + sum * normal_density(z);
    }
    // So many terms that the rest, about exp(-2z √2n), is below the last digit.
    let n_terms = 8 + (250.0 / (tail * tail)) as u32;
    let fraction = (1..=n_terms).rev().fold(tail, |below, n| tail + f64::from(n) / below);
    let outside = if tail.is_finite() { normal_density(tail) / fraction } else { 0.0 };
    if z < 0.0 { outside } else { 1.0 - outside }
}

/// The value below which a standard normal one lies with chance `p`. `None` unless `p` lies between 0 and 1, both excluded.
///
/// A first guess by Hastings (Abramowitz and Stegun 1964, 26.2.23), then Halley's steps on [`normal_below`].
///
/// ```
/// use peppertally::stats::special::normal_quantile;
/// assert!((normal_quantile(0.975).unwrap() - 1.959963984540054).abs() < 1e-14);
/// assert_eq!(normal_quantile(1.0), None);
/// ```
pub fn normal_quantile(p: f64) -> Option<f64> {
    if !(p > 0.0 && p < 1.0) {
        return None;
    }
    // On the lower side, where a tail's digits are.
    let tail = p.min(1.0 - p);
    let t = (-2.0 * tail.ln()).sqrt();
    let top = 2.515517 + t * (0.802853 + t * 0.010328);
    let mut z = top / (1.0 + t * (1.432788 + t * (0.189269 + t * 0.001308))) - t;
    for _ in 0..4 {
        let step = (normal_below(z) - tail) / normal_density(z);
        z -= step / (1.0 + 0.5 * z * step);
    }
    Some(if p > 0.5 { -z } else { z })
}

/// The natural logarithm of gamma at `x` above 0 (of (x-1)! for a whole x); 0 for anything else.
///
/// Stirling's series (Abramowitz and Stegun 1964, 6.1.40).
///
/// ```
/// use peppertally::stats::special::ln_gamma;
/// assert!((ln_gamma(5.0) - 24.0_f64.ln()).abs() < 1e-14);
/// ```
pub fn ln_gamma(x: f64) -> f64 {
    if x > 0.0 && x.is_finite() { stirling_rest(x) + (x - 0.5) * x.ln() - x + HALF_LN_2PI } else { 0.0 }
}

/// What Stirling's formula leaves out: ln Γ(x) - (x-½) ln x + x - ½ ln 2π, for `x` above 0. Kept apart, because in a ratio of gammas the
/// large parts cancel on paper and must not be left to cancel in the last digits (Loader 2000, "Fast and accurate computation of binomial
/// probabilities").
pub fn stirling_rest(x: f64) -> f64 {
    let (mut x, mut rest) = (x, 0.0);
    while x < 10.0 {
        rest += (x + 0.5) * (1.0 / x).ln_1p() - 1.0;
        x += 1.0;
    }
    let s = 1.0 / (x * x);
    let series = 1.0 / 1260.0 - s * (1.0 / 1680.0 - s * (1.0 / 1188.0 - s * 691.0 / 360_360.0));
    rest + (1.0 / 12.0 - s * (1.0 / 360.0 - s * series)) / x
}

/// The share that belongs to log-odds `u`, and what it lacks of 1, each with all its digits.
///
/// ```
/// use peppertally::stats::special::{logistic, logit};
/// assert_eq!(logistic(0.0), (0.5, 0.5));
/// assert!((logistic(logit(0.8).unwrap()).0 - 0.8).abs() < 1e-15);
/// ```
pub fn logistic(u: f64) -> (f64, f64) {
    let small = (-u.abs()).exp();
    let (less, more) = (small / (1.0 + small), 1.0 / (1.0 + small));
    if u < 0.0 { (less, more) } else { (more, less) }
}

/// Log-odds of a share. `None` unless it lies between 0 and 1, both excluded.
pub fn logit(share: f64) -> Option<f64> {
    (share > 0.0 && share < 1.0).then(|| share.ln() - (-share).ln_1p())
}
