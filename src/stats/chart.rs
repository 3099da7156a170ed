//! What is only chance, from occasion to occasion: limits for the real number of tries, a smoothed line, two running sums. Says when something is
//! out of the ordinary, never why, and whom to tell is not its business. Looking at many at once is `many`'s.

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

/// A line that follows what is seen, the newest for the most (Roberts 1959, Technometrics 1:239; NIST/SEMATECH e-Handbook 6.3.2.4).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Smoothed {
    part: f64,
    value: f64,
    variance: f64,
}

impl Smoothed {
    /// From `start`; each new value counts for `part`, the line as it was for the rest. `None` unless the part is above 0 and at most 1 and the
    /// start is finite.
    ///
    /// ```
    /// use peppertally::stats::chart::Smoothed;
    /// let mut line = Smoothed::new(0.3, 50.0).unwrap();
    /// line.note(52.0, 2.0);
    /// assert!((line.value() - 50.6).abs() < 1e-12 && (line.sd() - 0.6).abs() < 1e-12);
    /// ```
    pub fn new(part: f64, start: f64) -> Option<Self> {
        (part > 0.0 && part <= 1.0 && start.is_finite()).then_some(Self { part, value: start, variance: 0.0 })
    }

    /// One more value, with its own standard deviation (that of a share hangs on its tries: [`share_sd`]). What isn't finite is passed over.
    pub fn note(&mut self, value: f64, sd: f64) {
        if value.is_finite() && sd.is_finite() {
            self.value += self.part * (value - self.value);
            let kept = 1.0 - self.part;
            self.variance = kept * kept * self.variance + self.part * self.part * sd * sd;
        }
    }

    pub const fn value(self) -> f64 {
        self.value
    }

    /// How far the line strays from its start by chance alone: exact for the values so far, each with its own spread.
    pub fn sd(self) -> f64 {
        self.variance.sqrt()
    }

    /// The same after very many values of one spread: sd √(λ / (2-λ)).
    pub fn sd_at_last(self, sd: f64) -> f64 {
        sd * (self.part / (2.0 - self.part)).sqrt()
    }
}

/// Two running sums of values in standard deviations from what is expected, one up and one down (Page 1954, Biometrika 41:100, in the tabular
/// form of Montgomery, Introduction to Statistical Quality Control). Each begins anew where it would fall below 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sums {
    slack: f64,
    pub up: f64,
    pub down: f64,
}

impl Sums {
    /// So much of every value is let go; half the change to be found, a half by custom. With that and a limit of 5, what is in order is called
    /// out of it once in 465 values, of 4 once in 168. `None` unless the slack is 0 or more and finite.
    ///
    /// ```
    /// use peppertally::stats::chart::Sums;
    /// let mut sums = Sums::new(0.5).unwrap();
    /// [1.5, -0.25, 2.0].into_iter().for_each(|z| sums.note(z));
    /// assert_eq!((sums.up, sums.down), (1.75, 0.0)); // 1, 0.25, 1.75
    /// ```
    pub fn new(slack: f64) -> Option<Self> {
        (slack >= 0.0 && slack.is_finite()).then_some(Self { slack, up: 0.0, down: 0.0 })
    }

    /// One more value; what isn't finite is passed over.
    pub fn note(&mut self, z: f64) {
        if z.is_finite() {
            self.up = (self.up + z - self.slack).max(0.0);
            self.down = (self.down - z - self.slack).max(0.0);
        }
    }
}

/// How many standard deviations a count lies from what is expected. `None` without a try, or for an expected share not between 0 and 1.
pub fn in_sds(count: Count, centre: f64) -> Option<f64> {
    let sd = share_sd(centre, count.tries()).filter(|sd| *sd > 0.0)?;
    Some((count.share()? - centre) / sd)
}
