//! How a range is told in plain words: as data, in tenths. Owns the rounding; the sentence itself is written elsewhere.

use super::proportion::{Confidence, Count, Range, wilson};

/// What may be said of a share: "about 5 to 9 in 10".
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Share {
    /// Fewer than [`ENOUGH`] tries (or none): say only the count.
    NotEnough,
    /// Both ends round to 0 in 10.
    NearlyNone,
    /// Both ends round to 10 in 10.
    NearlyAll,
    /// Both ends round to the same tenth, 1 to 9: "about 7 in 10".
    About(u8),
    /// "About 5 to 9 in 10".
    Between(InTen),
}

/// Both ends in tenths. Invariant: `low <= high <= 10`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct InTen {
    low: u8,
    high: u8,
}

/// Tries from which a share is told at all. Under five, even all of them good leaves half of everything open: four of four
/// allows 5 to 10 in 10. A choice of ours, no published limit.
pub const ENOUGH: u32 = 5;

impl InTen {
    /// Each end to its nearest tenth, a half upwards. Nearest and not outwards: outwards would make 14 of 20 (0.481 to 0.855)
    /// "4 to 9", wider than it is by up to a fifth; nearest is off by at most half a tenth at either end, which "about" covers.
    ///
    /// ```
    /// use peppertally::stats::{proportion::Range, share::InTen};
    /// let told = InTen::of(Range::new(0.481, 0.855).unwrap());
    /// assert_eq!((told.low(), told.high()), (5, 9));
    /// ```
    pub fn of(range: Range) -> Self {
        let tenths = |share: f64| (share * 10.0).round() as u8;
        Self { low: tenths(range.low()), high: tenths(range.high()) }
    }

    pub const fn low(self) -> u8 {
        self.low
    }

    pub const fn high(self) -> u8 {
        self.high
    }
}

impl Share {
    /// What a count allows to be said, by its 95 % Wilson range.
    ///
    /// ```
    /// use peppertally::stats::{proportion::Count, share::Share};
    /// let told = |good, tries| Share::of(Count::new(good, tries).unwrap());
    /// assert!(matches!(told(14, 20), Share::Between(t) if (t.low(), t.high()) == (5, 9)));
    /// assert_eq!(told(4, 4), Share::NotEnough);
    /// assert_eq!(told(1000, 1000), Share::NearlyAll);
    /// ```
    pub fn of(count: Count) -> Self {
        match wilson(count, Confidence::P95) {
            Some(range) if count.tries() >= ENOUGH => Self::of_range(range),
            _ => Share::NotEnough,
        }
    }

    /// A range that is already known to rest on enough tries.
    ///
    /// ```
    /// use peppertally::stats::{proportion::Range, share::Share};
    /// assert_eq!(Share::of_range(Range::new(0.66, 0.74).unwrap()), Share::About(7));
    /// ```
    pub fn of_range(range: Range) -> Self {
        match InTen::of(range) {
            InTen { low: 10, .. } => Share::NearlyAll,
            InTen { high: 0, .. } => Share::NearlyNone,
            InTen { low, high } if low == high => Share::About(low),
            tenths => Share::Between(tenths),
        }
    }
}

/// Whether no order can be told: every two of the ranges have a share in common (ends that touch do). Nothing or one range
/// has no order to tell.
///
/// `false` means that some two can be told apart. This asks for more than a test of their difference would: two ranges may
/// overlap although the difference itself is clear (Schenker and Gentleman 2001, The American Statistician 55:182). So it
/// errs towards "no order", the side that does a child no wrong.
///
/// ```
/// use peppertally::stats::{proportion::Range, share::overlap};
/// let range = |low, high| Range::new(low, high).unwrap();
/// assert!(overlap(&[range(0.2, 0.6), range(0.5, 0.9), range(0.1, 0.55)]));
/// assert!(!overlap(&[range(0.2, 0.6), range(0.5, 0.9), range(0.1, 0.4)]));
/// ```
pub fn overlap(ranges: &[Range]) -> bool {
    // On a line, every two meet exactly when all of them do.
    let highest_low = ranges.iter().map(|r| r.low()).fold(0.0, f64::max);
    let lowest_high = ranges.iter().map(|r| r.high()).fold(1.0, f64::min);
    highest_low <= lowest_high
}
