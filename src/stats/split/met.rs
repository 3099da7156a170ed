//! How often any two items were in one group before.

/// A count for every pair of n items. A count stops at its highest value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Met {
    n: usize,
    /// Every pair twice: row by row.
    times: Vec<u16>,
}

impl Met {
    /// Nobody has met anybody.
    pub fn nobody(n: usize) -> Self {
        Self { n, times: vec![0; n * n] }
    }

    /// How many items it is about.
    pub const fn n(&self) -> usize {
        self.n
    }

    /// Two items were together once more. An item with itself, or one that isn't there, is no pair and counts nowhere.
    pub fn note(&mut self, a: usize, b: usize) {
        if a != b && a < self.n && b < self.n {
            for at in [a * self.n + b, b * self.n + a] {
                self.times[at] = self.times[at].saturating_add(1);
            }
        }
    }

    /// Everyone in one group has met everyone else in it once more.
    ///
    /// ```
    /// use peppertally::stats::split::Met;
    /// let mut met = Met::nobody(5);
    /// met.note_groups(&[vec![0, 2], vec![1, 3, 4]]);
    /// assert_eq!((met.times(2, 0), met.times(4, 1), met.times(0, 1)), (1, 1, 0));
    /// ```
    pub fn note_groups(&mut self, groups: &[Vec<usize>]) {
        for group in groups {
            for (i, &a) in group.iter().enumerate() {
                group[..i].iter().for_each(|&b| self.note(a, b));
            }
        }
    }

    /// How often two items were together; 0 for what is no pair.
    pub fn times(&self, a: usize, b: usize) -> u16 {
        if a < self.n && b < self.n { self.times[a * self.n + b] } else { 0 }
    }

    /// How many pairs within these groups have met before, each counted once however often that was.
    pub fn repeats(&self, groups: &[Vec<usize>]) -> u32 {
        let mut n = 0;
        for group in groups {
            for (i, &a) in group.iter().enumerate() {
                n += group[..i].iter().filter(|&&b| self.times(a, b) > 0).count() as u32;
            }
        }
        n
    }
}
