//! Good tries in a row, and the last ten. Both advance by one contact at the same cost however long the run is. Neither keeps
//! who or when, and neither can step back (undo folds the run again). Only tries are noted: what is nobody's try is passed over
//! by the caller, so it neither lengthens nor ends a row.

use super::proportion::Count;

/// Good in a row: now, and the best so far. Invariant: `best` is the longer of `now` and `before`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Rows {
    now: u32,
    best: u32,
    /// The longest of the rows that have ended.
    before: u32,
}

/// The last ten tries, good or not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct LastTen {
    /// The newest in the lowest bit; bits from `n_tries` up are 0.
    good: u16,
    n_tries: u8,
}

impl Rows {
    /// One more try: a good one lengthens the row, any other ends it.
    ///
    /// ```
    /// use peppertally::stats::rows::Rows;
    /// let mut rows = Rows::default();
    /// [true, true, false, true].into_iter().for_each(|good| rows.note(good));
    /// assert_eq!((rows.now(), rows.best()), (1, 2));
    /// ```
    pub fn note(&mut self, good: bool) {
        if !good {
            self.before = self.best;
        }
        self.now = if good { self.now.saturating_add(1) } else { 0 };
        self.best = self.best.max(self.now);
    }

    /// Good tries since the last that was not.
    pub const fn now(self) -> u32 {
        self.now
    }

    /// The longest row so far, the present one included.
    pub const fn best(self) -> u32 {
        self.best
    }

    /// The longest row that has ended: what the present one has to beat.
    ///
    /// ```
    /// use peppertally::stats::rows::Rows;
    /// let mut rows = Rows::default();
    /// [true, true, false, true, true].into_iter().for_each(|good| rows.note(good));
    /// assert_eq!((rows.now(), rows.best(), rows.before()), (2, 2, 2)); // level, not beaten
    /// ```
    pub const fn before(self) -> u32 {
        self.before
    }
}

impl LastTen {
    const SIZE: u8 = 10;

    /// One more try.
    ///
    /// ```
    /// use peppertally::stats::{proportion::Count, rows::LastTen};
    /// let mut last = LastTen::default();
    /// for i in 0..12 {
    ///     last.note(i >= 4); // four not good, of which two are by now forgotten
    /// }
    /// assert_eq!(Some(last.count()), Count::new(8, 10));
    /// ```
    pub fn note(&mut self, good: bool) {
        self.good = (self.good << 1 | u16::from(good)) & ((1 << Self::SIZE) - 1);
        self.n_tries = (self.n_tries + 1).min(Self::SIZE);
    }

    /// Good of the last ten, or of as many as there are.
    pub fn count(self) -> Count {
        let mut count = Count::NONE;
        self.tries().for_each(|good| count.note(good));
        count
    }

    /// Oldest first.
    ///
    /// ```
    /// use peppertally::stats::rows::LastTen;
    /// let mut last = LastTen::default();
    /// last.note(true);
    /// last.note(false);
    /// assert_eq!(last.tries().collect::<Vec<_>>(), [true, false]);
    /// ```
    pub fn tries(self) -> impl DoubleEndedIterator<Item = bool> + ExactSizeIterator {
        (0..self.n_tries).rev().map(move |age| self.good >> age & 1 == 1)
    }
}
