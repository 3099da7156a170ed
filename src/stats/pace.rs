//! How fast contacts come, from the times given. Reads no clock; a pause or a clock that starts anew bends nothing.

/// So many a minute; finite and above 0.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct PerMinute(f64);

/// The pace of the latest contacts. Costs the same at every contact.
///
/// What is kept is not each interval but each *pair* of intervals, from a contact to the next but one. The pace is two by
/// the median of the last twenty pairs. A median, so that fetching balls or a word to the group doesn't slow it; pairs, since
/// two thumbs at once give intervals that are by turns nearly nothing and long, where the median of single ones would be
/// absurd. An interval of [`PAUSE_MS`] or more is a pause and belongs to no pair.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pace {
    last_ms: Option<u64>,
    /// The interval up to the last contact, if it was no pause.
    interval_ms: Option<u32>,
    pairs_ms: [u32; Pace::KEPT],
    n_pairs: usize,
    next: usize,
}

/// From here on a wait is a pause: a minute.
pub const PAUSE_MS: u64 = 60_000;

impl PerMinute {
    pub const fn value(self) -> f64 {
        self.0
    }

    /// To the nearest whole ball; below a half it is 0.
    ///
    /// ```
    /// use peppertally::stats::pace::Pace;
    /// let mut pace = Pace::default();
    /// [0, 7_000, 14_000].into_iter().for_each(|at_ms| pace.note(at_ms));
    /// assert_eq!(pace.per_minute().map(|p| p.whole()), Some(9)); // 60 / 7 = 8.57
    /// ```
    pub fn whole(self) -> u32 {
        self.0.round() as u32
    }
}

impl Pace {
    const KEPT: usize = 20;

    /// One more contact, at a monotonic time in milliseconds. A time before the last one means another clock: the wait up to
    /// it is unknown, and counting goes on from there.
    ///
    /// ```
    /// use peppertally::stats::pace::Pace;
    /// let mut pace = Pace::default();
    /// for at_ms in [0, 4_000, 8_000, 308_000, 312_000, 316_000] {
    ///     pace.note(at_ms); // five minutes of water in the middle
    /// }
    /// assert_eq!(pace.per_minute().map(|p| p.value()), Some(15.0));
    /// ```
    pub fn note(&mut self, at_ms: u64) {
        let interval_ms = self
            .last_ms
            .and_then(|last_ms| at_ms.checked_sub(last_ms))
            .filter(|&wait_ms| wait_ms < PAUSE_MS)
            .and_then(|wait_ms| u32::try_from(wait_ms).ok());
        if let (Some(before), Some(now)) = (self.interval_ms, interval_ms) {
            self.pairs_ms[self.next] = before + now;
            self.next = (self.next + 1) % Self::KEPT;
            self.n_pairs = (self.n_pairs + 1).min(Self::KEPT);
        }
        self.last_ms = Some(at_ms);
        self.interval_ms = interval_ms;
    }

    /// The next contact is timed by another clock (another phone, a page loaded anew): no interval reaches across.
    ///
    /// ```
    /// use peppertally::stats::pace::Pace;
    /// let mut pace = Pace::default();
    /// [0, 4_000].into_iter().for_each(|at_ms| pace.note(at_ms));
    /// pace.other_clock();
    /// pace.note(5_000);
    /// assert_eq!(pace.per_minute(), None);
    /// ```
    pub fn other_clock(&mut self) {
        self.last_ms = None;
        self.interval_ms = None;
    }

    /// Of how much play the pace is made: at least so many milliseconds without a pause.
    ///
    /// ```
    /// use peppertally::stats::pace::Pace;
    /// let mut pace = Pace::default();
    /// [0, 4_000, 8_000].into_iter().for_each(|at_ms| pace.note(at_ms));
    /// assert_eq!(pace.timed_ms(), 4_000); // one pair of 8 s; pairs overlap, so half of it counts
    /// ```
    pub fn timed_ms(&self) -> u64 {
        self.pairs_ms[..self.n_pairs].iter().copied().map(u64::from).sum::<u64>() / 2
    }

    /// `None` before three contacts have come without a pause between them, or where they came all at once.
    pub fn per_minute(&self) -> Option<PerMinute> {
        let mut pairs_ms = self.pairs_ms;
        let kept = &mut pairs_ms[..self.n_pairs];
        kept.sort_unstable();
        let upper = *kept.get(kept.len() / 2)?;
        let lower = *kept.get((kept.len() - 1) / 2)?;
        let median_ms = f64::from(lower + upper) / 2.0;
        (median_ms > 0.0).then(|| PerMinute(2.0 * 60_000.0 / median_ms))
    }
}
