//! Several together: the share of all their tries that are good, where each tries as often as another.

use super::super::beta::mixed;
use super::super::special::logit;
use super::Level;

/// The level of several as one: mean and variance of their average share, each taken for independent of the others, as the normal
/// distribution of the log-odds that has about these (the slope of the log-odds, by one term of Taylor's series). `None` of nobody. Goals
/// that rest on it are simulated in `tests/numbers/checks/fits.rs`; for a claim about a line it is too sure where little is known, since levels
/// of several hang together.
///
/// ```
/// use peppertally::stats::level::{Level, together};
/// let one = Level::new(1.0, 0.5).unwrap();
/// assert_eq!(together(&[one]), Some(one));
/// // Four alike are known twice as well as one.
/// let four = together(&[one; 4]).unwrap();
/// assert!((four.parts().1 / one.parts().1 - 0.5).abs() < 0.03, "{four:?}");
/// ```
pub fn together(levels: &[Level]) -> Option<Level> {
    if let [one] = levels {
        return Some(*one);
    }
    let n = levels.len() as f64;
    let (mut mean, mut variance) = (0.0, 0.0);
    for level in levels {
        let nodes = level.nodes(0);
        let (share, square) = (mixed(&nodes, &mut |p| p), mixed(&nodes, &mut |p| p * p));
        mean += share / n;
        variance += (square - share * share).max(0.0) / (n * n);
    }
    let slope = mean * (1.0 - mean);
    Level::new(logit(mean)?, variance.sqrt() / slope)
}
