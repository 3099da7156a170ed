//! What is only chance, from occasion to occasion: limits for the real number of tries, and how often chance leads as far out. Says when something
//! is out of the ordinary, never why, and whom to tell is not its business. Looking at many at once is `many`'s.

use super::beta::{Node, mixed};
use super::goal::at_least;
use super::proportion::{Count, Range};

/// Where a share lies when `centre` is expected and it strays by `sd` (one standard deviation): `reach` of these either side, 3 by custom, cut at 0
/// and 1. With [`share_sd`] that is the p-chart of Shewhart (1931; NIST/SEMATECH e-Handbook 6.3.3.2), where the long-run share is known. `None`
/// for a centre outside 0 to 1, and for what is no number.
///
/// ```
/// use peppertally::stats::chart::{limits, share_sd};
/// let range = limits(0.5, share_sd(0.5, 25).unwrap(), 3.0).unwrap();
/// assert!((range.low() - 0.2).abs() < 1e-12 && (range.high() - 0.8).abs() < 1e-12);
/// ```
pub fn limits(centre: f64, sd: f64, reach: f64) -> Option<Range> {
    let away = reach * sd;
    let sound = (0.0..=1.0).contains(&centre) && away >= 0.0;
    sound.then(|| Range::new((centre - away).max(0.0), (centre + away).min(1.0)))?
}

/// The standard deviation of a share of so many tries, by chance alone.
pub fn share_sd(centre: f64, tries: u32) -> Option<f64> {
    let sound = (0.0..=1.0).contains(&centre) && tries > 0;
    sound.then(|| (centre * (1.0 - centre) / f64::from(tries)).sqrt())
}

/// How often chance alone leads to a count as far out as this one, on either side: a p-value, 1 at most. What is expected is given by nodes:
/// one of weight 1 for a known share, those of a beta for one that is itself known only from a count (the prior predictive check of Box
/// 1980, Journal of the Royal Statistical Society A 143:383). 1 without a try.
///
/// ```
/// use peppertally::stats::{beta::Node, chart::by_chance, proportion::Count};
/// let even = [Node { chance: 0.5, weight: 1.0 }];
/// // Ten of ten or none of ten: 2 / 1024.
/// assert!((by_chance(Count::new(10, 10).unwrap(), &even) - 2.0 / 1024.0).abs() < 1e-15);
/// ```
pub fn by_chance(count: Count, expected: &[Node]) -> f64 {
    let (good, missed, tries) = (count.good(), count.missed(), count.tries());
    let as_many = mixed(expected, &mut |p| at_least(good, tries, p));
    let as_few = mixed(expected, &mut |p| at_least(missed, tries, 1.0 - p));
    (2.0 * as_many.min(as_few)).min(1.0)
}
