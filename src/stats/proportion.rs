//! Good of tries, and what such a count really allows to be said. Owns the interval; refuses to put it into words (`share`).

use std::iter::Sum;
use std::ops::Add;

use super::beta::Beta;
use super::special::{normal_below, normal_quantile};

/// So many good of so many tries.
///
/// Invariant: `good <= tries`. Both stay at their highest value rather than wrap.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Count {
    good: u32,
    tries: u32,
}

/// Where the long-run share may lie, both ends within 0 to 1.
///
/// Invariant: `0 <= low <= high <= 1`, never NaN.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    low: f64,
    high: f64,
}

/// How sure a range is to hold the long-run share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Confidence {
    z: f64,
}

impl Confidence {
    /// Nineteen ranges in twenty hold it: z is the 0.975 quantile of the standard normal distribution.
    pub const P95: Confidence = Confidence { z: 1.959_963_984_540_054 };

    /// So many ranges in 1; `None` unless between 0 and 1, both excluded.
    ///
    /// ```
    /// use peppertally::stats::proportion::Confidence;
    /// assert!((Confidence::new(0.8).unwrap().z() - 1.2815515655446).abs() < 1e-12);
    /// ```
    pub fn new(share: f64) -> Option<Self> {
        normal_quantile(0.5 - 0.5 * share).filter(|z| *z < 0.0).map(|z| Self { z: -z })
    }

    /// How many standard deviations it reaches either side.
    pub const fn z(self) -> f64 {
        self.z
    }
}

impl Count {
    /// No try yet.
    pub const NONE: Count = Count { good: 0, tries: 0 };

    /// `None` where more are good than were tried.
    ///
    /// ```
    /// use peppertally::stats::proportion::Count;
    /// assert_eq!(Count::new(14, 20).map(|c| (c.good(), c.missed(), c.tries())), Some((14, 6, 20)));
    /// assert_eq!(Count::new(21, 20), None);
    /// ```
    pub const fn new(good: u32, tries: u32) -> Option<Self> {
        if good <= tries { Some(Self { good, tries }) } else { None }
    }

    pub const fn good(self) -> u32 {
        self.good
    }

    pub const fn tries(self) -> u32 {
        self.tries
    }

    /// Tries that were not good.
    pub const fn missed(self) -> u32 {
        self.tries - self.good
    }

    /// Good a try; `None` without one. Says nothing of how sure it is: see [`wilson`].
    ///
    /// ```
    /// use peppertally::stats::proportion::Count;
    /// assert_eq!(Count::new(3, 4).and_then(|count| count.share()), Some(0.75));
    /// ```
    pub fn share(self) -> Option<f64> {
        (self.tries > 0).then(|| f64::from(self.good) / f64::from(self.tries))
    }

    /// One more try. What is nobody's try is not noted.
    ///
    /// ```
    /// use peppertally::stats::proportion::Count;
    /// let mut count = Count::NONE;
    /// count.note(true);
    /// count.note(false);
    /// assert_eq!(Some(count), Count::new(1, 2));
    /// ```
    pub const fn note(&mut self, good: bool) {
        if self.tries < u32::MAX {
            self.tries += 1;
            self.good += good as u32;
        }
    }
}

impl Add for Count {
    type Output = Count;

    /// Both counts together.
    ///
    /// ```
    /// use peppertally::stats::proportion::Count;
    /// let (told, noted) = (Count::new(8, 10), Count::new(1, 4));
    /// assert_eq!(told.zip(noted).map(|(a, b)| a + b), Count::new(9, 14));
    /// ```
    fn add(self, other: Count) -> Count {
        Count { good: self.good.saturating_add(other.good), tries: self.tries.saturating_add(other.tries) }
    }
}

impl Sum for Count {
    fn sum<I: Iterator<Item = Count>>(counts: I) -> Count {
        counts.fold(Count::NONE, Add::add)
    }
}

impl Range {
    /// Anything is possible.
    pub const ALL: Range = Range { low: 0.0, high: 1.0 };

    /// `None` unless `0 <= low <= high <= 1`.
    ///
    /// ```
    /// use peppertally::stats::proportion::Range;
    /// assert_eq!(Range::new(0.25, 0.5).map(|r| (r.low(), r.high())), Some((0.25, 0.5)));
    /// assert_eq!(Range::new(0.5, 0.25), None);
    /// assert_eq!(Range::new(f64::NAN, 1.0), None);
    /// ```
    pub fn new(low: f64, high: f64) -> Option<Self> {
        (0.0 <= low && low <= high && high <= 1.0).then_some(Self { low, high })
    }

    pub const fn low(self) -> f64 {
        self.low
    }

    pub const fn high(self) -> f64 {
        self.high
    }
}

/// The score interval of Wilson (1927, Journal of the American Statistical Association 22:209), method 3 of Newcombe (1998,
/// Statistics in Medicine 17:857). Unlike "share plus or minus" it never leaves 0 to 1 and holds for a handful of tries.
/// `None` without a try: then anything is possible, and a range would only look like knowledge.
///
/// It takes each try as one toss of the same coin. Tries of a child that tires or learns in between are less even than that,
/// so the true range is if anything wider.
///
/// ```
/// use peppertally::stats::proportion::{Confidence, Count, wilson};
/// let range = Count::new(14, 20).and_then(|count| wilson(count, Confidence::P95)).unwrap();
/// assert!((range.low() - 0.4810).abs() < 5e-5 && (range.high() - 0.8545).abs() < 5e-5);
/// assert_eq!(wilson(Count::NONE, Confidence::P95), None);
/// ```
pub fn wilson(count: Count, confidence: Confidence) -> Option<Range> {
    if count.tries() == 0 {
        return None;
    }
    let low = wilson_low(count.good(), count.tries(), confidence.z);
    // What holds for the good from below holds for the missed from above.
    let high = 1.0 - wilson_low(count.missed(), count.tries(), confidence.z);
    Range::new(low, high.max(low))
}

/// The range that Jeffreys' prior leaves (Brown, Cai and DasGupta 2001, Statistical Science 16:101): equal tails of the beta with ½ more of
/// each; 0 is kept where none was good and 1 where all were. `None` without a try.
///
/// ```
/// use peppertally::stats::proportion::{Confidence, Count, jeffreys};
/// let range = jeffreys(Count::new(1, 10).unwrap(), Confidence::P95).unwrap();
/// assert!((range.low() - 0.0110).abs() < 5e-5 && (range.high() - 0.3813).abs() < 5e-5);
/// ```
pub fn jeffreys(count: Count, confidence: Confidence) -> Option<Range> {
    if count.tries() == 0 {
        return None;
    }
    let beta = known(count);
    let tail = normal_below(-confidence.z);
    let low = if count.good() == 0 { 0.0 } else { beta.quantile(tail)? };
    let high = if count.missed() == 0 { 1.0 } else { beta.quantile(1.0 - tail)? };
    Range::new(low, high)
}

/// What a count leaves open of the share, from Jeffreys' prior; without a try that prior itself.
///
/// ```
/// use peppertally::stats::proportion::{Count, known};
/// assert_eq!(known(Count::new(3, 4).unwrap()).mean(), 3.5 / 5.0);
/// ```
pub fn known(count: Count) -> Beta {
    Beta::of_counts(count.good(), count.missed())
}

/// By how much the second share may be above the first, from -1 to 1. Invariant: `low <= high`, never NaN.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    pub low: f64,
    /// The plain difference of the two shares seen.
    pub seen: f64,
    pub high: f64,
}

/// The range of `of` less `from`: method 10 of Newcombe (1998, Statistics in Medicine 17:873), from the two Wilson ranges. For separate tries,
/// not for two judgements of the same. `None` where either has no try.
///
/// ```
/// use peppertally::stats::proportion::{Confidence, Count, difference};
/// let gap = difference(Count::new(56, 70).unwrap(), Count::new(48, 80).unwrap(), Confidence::P95).unwrap();
/// assert!((gap.low - 0.0524).abs() < 5e-5 && (gap.high - 0.3339).abs() < 5e-5);
/// ```
pub fn difference(of: Count, from: Count, confidence: Confidence) -> Option<Gap> {
    let (range, other) = (wilson(of, confidence)?, wilson(from, confidence)?);
    let (p, q) = (of.share()?, from.share()?);
    Some(Gap {
        low: (p - q - (p - range.low()).hypot(other.high() - q)).max(-1.0),
        seen: p - q,
        high: (p - q + (range.high() - p).hypot(q - other.low())).min(1.0),
    })
}

/// The lower end. With A = 2g + z² + z√(z² + 4g(n−g)/n) the ends are conjugate: upper = A / 2(n+z²), and their product is
/// g² / n(n+z²). So the lower is 2g² / nA: no difference of like numbers, 0 exactly for none good, at most g/n always.
fn wilson_low(good: u32, tries: u32, z: f64) -> f64 {
    let (g, n) = (f64::from(good), f64::from(tries));
    let a = 2.0 * g + z * z + z * (z * z + 4.0 * g * (n - g) / n).sqrt();
    2.0 * g * g / (n * a)
}
