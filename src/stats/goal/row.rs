//! So many good ones in a row, where a miss ends the row or drops it to its last full step.

use super::{Tries, Within};

/// A row to be reached. Invariant: `1 <= step <= long`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Row {
    long: u32,
    /// A row that breaks falls to the last full multiple of this: to nothing where it is the whole.
    step: u32,
}

impl Row {
    /// `long` good ones in a row; `None` for none. With a `step` above 0 a row that breaks falls to its last full multiple.
    ///
    /// ```
    /// use peppertally::stats::goal::row::Row;
    /// let plain = Row::new(3, 0).unwrap();
    /// assert_eq!(plain.tries(0.5).map(|t| t.mean), Some(14.0));
    /// assert_eq!(Row::new(0, 0), None);
    /// ```
    pub fn new(long: u32, step: u32) -> Option<Self> {
        (long > 0).then_some(Self { long, step: if step == 0 { long } else { step.min(long) } })
    }

    /// The chance to reach it within so many tries. Costs as many steps as there are tries; with a `step`, times the row's length.
    ///
    /// ```
    /// use peppertally::stats::goal::row::Row;
    /// assert_eq!(Row::new(3, 0).unwrap().within(10, 0.5), 65.0 / 128.0);
    /// ```
    pub fn within(self, tries: u32, chance: f64) -> f64 {
        let p = if chance > 0.0 { chance.min(1.0) } else { 0.0 };
        if tries < self.long {
            0.0
        } else if self.step == self.long {
            self.plain_within(tries as usize, p)
        } else {
            self.stepped_within(tries, p)
        }
    }

    /// The mean and spread of the tries it takes (Feller 1968, volume 1, XIII.7). `None` where it can't be reached, or not in any number of
    /// tries that a number can hold.
    ///
    /// A row grows by one try, and where that misses all begins anew. So mean(k) = (mean(k-1) + 1) / p, and with q = 1-p
    /// variance(k) = variance(k-1) / p + q mean(k)²: sums only, no digits lost. The steps of a row that falls no further than to the last of
    /// them are waited for one after another.
    pub fn tries(self, chance: f64) -> Option<Tries> {
        let (full, rest) = (f64::from(self.long / self.step), self.long % self.step);
        let (a_step, the_rest) = (moments(self.step, chance), moments(rest, chance));
        let (mean, variance) = (full * a_step.0 + the_rest.0, full * a_step.1 + the_rest.1);
        (mean.is_finite() && variance.is_finite()).then(|| Tries { mean, sd: variance.sqrt() })
    }

    /// One row that several keep alive, turn by turn, each with its own chance; one alone is several too. Costs as many steps as there are
    /// tries, times the row's length.
    ///
    /// ```
    /// use peppertally::stats::goal::row::Row;
    /// // Two in a row of two who take turns, within three tries: the first two good (0.5 · 0.8), or a miss and then two (0.5 · 0.8 · 0.5).
    /// let within = Row::new(2, 0).unwrap().in_turn(&[0.5, 0.8], 3);
    /// assert!((within.chance - (0.4 + 0.2)).abs() < 1e-15);
    /// // Two tries are played for sure, the third unless the first two were good.
    /// assert!((within.tries - (2.0 + 0.6)).abs() < 1e-15);
    /// ```
    pub fn in_turn(self, shares: &[f64], tries: u32) -> Within {
        // More than there are tries is never reached, however long.
        if shares.is_empty() || self.long > tries {
            return Within { chance: 0.0, tries: f64::from(tries) };
        }
        let mut open = 1.0;
        let mut all = vec![open];
        self.walked(shares, tries, &mut |reached| {
            open -= reached;
            all.push(open.max(0.0));
        });
        Within::of_open(&all)
    }

    /// It is first reached at a try where the last k were good, the one before was not, and it wasn't reached before that one.
    fn plain_within(self, tries: usize, p: f64) -> f64 {
        let k = self.long as usize;
        let all_good = p.powf(f64::from(self.long));
        // by[i]: the chance to have reached it by try k + i.
        let mut by = Vec::with_capacity(tries - k + 1);
        by.push(all_good);
        for n in k + 1..=tries {
            let before = if n > 2 * k { by[n - 2 * k - 1] } else { 0.0 };
            by.push(by[n - k - 1] + (1.0 - before) * (1.0 - p) * all_good);
        }
        by[tries - k].min(1.0)
    }

    /// Added up where it is reached: what is left open would lose the digits of a small chance.
    fn stepped_within(self, tries: u32, p: f64) -> f64 {
        let mut reached = 0.0;
        self.walked(&[p], tries, &mut |now| reached += now);
        reached
    }

    /// By the row as it stands, try after try, who tries by turns: the chance that each of them is the one that reaches it.
    fn walked(self, shares: &[f64], tries: u32, at_each: &mut dyn FnMut(f64)) {
        let (k, step) = (self.long as usize, self.step as usize);
        let mut stands = vec![0.0; k];
        stands[0] = 1.0;
        for share in shares.iter().cycle().take(tries as usize) {
            let p = if *share > 0.0 { share.min(1.0) } else { 0.0 };
            let mut next = vec![0.0; k];
            let mut reached = 0.0;
            for (now, weight) in stands.iter().enumerate().filter(|(_, weight)| **weight > 0.0) {
                match next.get_mut(now + 1) {
                    Some(longer) => *longer += p * weight,
                    None => reached += p * weight,
                }
                next[now - now % step] += (1.0 - p) * weight;
            }
            stands = next;
            at_each(reached);
        }
    }
}

/// Mean and variance of the tries to so many in a row.
fn moments(long: u32, p: f64) -> (f64, f64) {
    let (mut mean, mut variance) = (0.0, 0.0);
    if !(p > 0.0 && p <= 1.0) {
        return (f64::INFINITY, f64::INFINITY);
    }
    for _ in 0..long {
        mean = (mean + 1.0) / p;
        variance = variance / p + (1.0 - p) * mean * mean;
        if p == 1.0 {
            return (f64::from(long), 0.0);
        }
    }
    (mean, variance)
}
