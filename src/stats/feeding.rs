//! How many balls come in a time: one source gives them at an even pace until all are used, then they are collected, and so on. Knows no
//! volleyball, reads no clock. The derivation is here; `tests/plan/floor_sim.rs` holds it against balls that are fed one by one.

/// One source of balls.
///
/// A cycle of `n_balls` takes `n_balls * interval_ms + collect_ms`. In a time there are as many whole cycles as fit, and in what is left as
/// many balls as come before the balls are used up. A ball counts once its interval is over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Feeding {
    /// From one ball to the next.
    pub interval_ms: u32,
    /// Balls until all are used; at least 1.
    pub n_balls: u32,
    /// To bring them back; 0 where somebody does that meanwhile.
    pub collect_ms: u32,
}

/// The lowest, the likeliest, the highest.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Range {
    pub low: u32,
    pub likely: u32,
    pub high: u32,
}

/// Each wait may be so much longer or shorter than told, in hundredths, while nothing of the squad's own is known.
pub const SPREAD: u32 = 30;

impl Feeding {
    /// Balls in so many milliseconds.
    ///
    /// ```
    /// use peppertally::stats::feeding::Feeding;
    /// let feeding = Feeding { interval_ms: 6_000, n_balls: 12, collect_ms: 40_000 };
    /// // A cycle is 12 * 6 + 40 = 112 s; in 600 s five of them (560 s) and 6 balls in the last 40 s.
    /// assert_eq!(feeding.balls_in(600_000), 66);
    /// ```
    pub fn balls_in(self, ms: u64) -> u32 {
        let (interval, n) = (u64::from(self.interval_ms.max(1)), u64::from(self.n_balls.max(1)));
        let cycle = n * interval + u64::from(self.collect_ms);
        let balls = (ms / cycle) * n + (ms % cycle / interval).min(n);
        u32::try_from(balls).unwrap_or(u32::MAX)
    }

    /// Every wait changed to so many hundredths of what it is.
    pub fn slowed(self, hundredths: u32) -> Feeding {
        let of = |ms: u32| u32::try_from(u64::from(ms) * u64::from(hundredths) / 100).unwrap_or(u32::MAX);
        Feeding { interval_ms: of(self.interval_ms), collect_ms: of(self.collect_ms), ..self }
    }

    /// From every wait [`SPREAD`] longer to every wait as much shorter.
    pub fn range_in(self, ms: u64) -> Range {
        Range {
            low: self.slowed(100 + SPREAD).balls_in(ms),
            likely: self.balls_in(ms),
            high: self.slowed(100 - SPREAD).balls_in(ms),
        }
    }
}

impl Range {
    pub fn times(self, n: u32) -> Range {
        let of = |v: u32| v.saturating_mul(n);
        Range { low: of(self.low), likely: of(self.likely), high: of(self.high) }
    }

    /// Shared among so many in fair turns: nobody has less than the low, or more than the high one rounded up.
    pub fn among(self, n: u32) -> Range {
        match n {
            0 => Range::default(),
            n => Range { low: self.low / n, likely: (self.likely + n / 2) / n, high: self.high.div_ceil(n) },
        }
    }
}

/// What came in so long, so many a time; at least three are needed for a range, fewer widen it by [`SPREAD`].
///
/// ```
/// use peppertally::stats::feeding::{Range, at_paces};
/// // 40 balls in 5 min, 30 in 5 min, 60 in 10 min: 8, 6 and 6 a minute. In ten minutes 60 to 80, most likely 60.
/// let had = [(40, 300_000), (30, 300_000), (60, 600_000)];
/// assert_eq!(at_paces(&had, 600_000), Some(Range { low: 60, likely: 60, high: 80 }));
/// assert_eq!(at_paces(&[], 600_000), None);
/// ```
pub fn at_paces(had: &[(u32, u64)], ms: u64) -> Option<Range> {
    let paces = had.iter().filter(|(_, took)| *took > 0).map(|(n, took)| u64::from(*n) * ms / took);
    let paces: Vec<u32> = paces.map(|n| u32::try_from(n).unwrap_or(u32::MAX)).collect();
    let paces = super::arrange::arranged(paces, Ord::cmp);
    let (low, likely, high) = (*paces.first()?, *paces.get(paces.len() / 2)?, *paces.last()?);
    if paces.len() >= 3 {
        return Some(Range { low, likely, high });
    }
    let part = |n: u32, hundredths: u32| n.saturating_mul(hundredths).div_ceil(100);
    Some(Range { low: part(low, 100 - SPREAD), likely, high: part(high, 100 + SPREAD) })
}
