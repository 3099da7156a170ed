//! How good each member of a group is at one thing, and whether that has changed, from counts on many occasions. Owns what may be said of a
//! level; `fit` owns the model. A level moves by itself a little from week to week and is near the others' until it has shown otherwise.

mod day;
mod fit;
mod group;

use super::beta::{Node, normal_nodes};
use super::proportion::{Confidence, Count, Range};
use super::special::{logistic, logit, normal_below, normal_density, normal_quantile};

pub use fit::fit;
pub use group::together;

/// What was counted of one member on one occasion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// Days from any day; a day before the one before it counts as the same.
    pub day: i32,
    pub count: Count,
    /// What a try of this count is worth beside one that is trusted: 0 to 1. What is no such number counts for nothing.
    pub weight: f64,
    /// By how much the log-odds of these tries lay above the level for what they were: easier ones, or noted too kindly. What is no number is 0.
    pub offset: f64,
}

impl Seen {
    /// Tries like any others, each trusted.
    pub const fn plain(day: i32, count: Count) -> Self {
        Self { day, count, weight: 1.0, offset: 0.0 }
    }
}

/// A level with all that is not known of it: a normal distribution of the log-odds. Invariant: `mean` finite, `sd` finite and above 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    mean: f64,
    sd: f64,
}

/// From one occasion to the last, in shares of 1. Invariant: `low <= high`, all from -1 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    pub low: f64,
    pub likely: f64,
    pub high: f64,
    /// The chance that the level is higher now than it was.
    pub up: f64,
}

/// No variance is taken for less.
const LEAST: f64 = 1e-12;

/// The levels of a group, occasion by occasion.
#[derive(Clone, Debug, PartialEq)]
pub struct Levels {
    members: Vec<Vec<At>>,
    /// Somebody of the group of whom nothing is known.
    newcomer: Level,
    /// By how much the log-odds move in a week: variance.
    drift: f64,
    /// Of one day's own form, in log-odds: variance.
    form: f64,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct At {
    day: i32,
    level: Level,
    /// The covariance with the last occasion's level.
    with_last: f64,
}

impl Level {
    /// `None` unless the mean is finite and the spread finite and above 0; both in log-odds.
    pub fn new(mean: f64, sd: f64) -> Option<Self> {
        (mean.is_finite() && sd > 0.0 && sd.is_finite()).then_some(Self { mean, sd })
    }

    /// Mean and standard deviation of the log-odds: what [`Level::new`] makes the same level of.
    pub const fn parts(self) -> (f64, f64) {
        (self.mean, self.sd)
    }

    /// The share that is as likely too high as too low.
    pub fn likely(self) -> f64 {
        logistic(self.mean).0
    }

    /// Where the share lies, so sure.
    ///
    /// ```
    /// use peppertally::stats::{level::Level, proportion::Confidence};
    /// let range = Level::new(0.0, 1.0).unwrap().range(Confidence::P95);
    /// assert!((range.low() - 0.1235).abs() < 5e-5 && (range.high() - 0.8765).abs() < 5e-5);
    /// ```
    pub fn range(self, sure: Confidence) -> Range {
        let reach = sure.z() * self.sd;
        let (low, high) = (logistic(self.mean - reach).0, logistic(self.mean + reach).0);
        Range::new(low, high).unwrap_or(Range::ALL)
    }

    /// The chance that the share is above a line. A line at or outside 0 or 1 is passed for sure or never.
    ///
    /// ```
    /// use peppertally::stats::level::Level;
    /// let level = Level::new(0.0, 1.0).unwrap();
    /// assert_eq!((level.above(0.5), level.above(0.0), level.above(1.0)), (0.5, 1.0, 0.0));
    /// ```
    pub fn above(self, line: f64) -> f64 {
        match logit(line) {
            Some(line) => normal_below((self.mean - line) / self.sd),
            None if line <= 0.0 => 1.0,
            None => 0.0,
        }
    }

    /// The chance that the share is below a line: all that [`Level::above`] leaves.
    pub fn below(self, line: f64) -> f64 {
        match logit(line) {
            Some(line) => normal_below((line - self.mean) / self.sd),
            None if line <= 0.0 => 0.0,
            None => 1.0,
        }
    }

    /// About how many more tries would tell on which side of a line the share lies, with chance `sure`, if it is what it now seems: 0 where
    /// they wouldn't be needed. `None` where it seems to lie on the line, or more than `most` would be needed.
    ///
    /// n tries add n p (1-p) to what is known of the log-odds (their Fisher information).
    ///
    /// ```
    /// use peppertally::stats::level::Level;
    /// // 0.6 against a line of 0.5: 0.405 apart in log-odds. To be sure by 95 in 100 the spread must be 0.405 / 1.645, what is known
    /// // 16.5 where it is now 4: 12.5 more, at 0.24 a try.
    /// let level = Level::new(0.4054651, 0.5).unwrap();
    /// assert_eq!(level.more_tries(0.5, 0.95, 1000), Some(52));
    /// ```
    pub fn more_tries(self, line: f64, sure: f64, most: u32) -> Option<u32> {
        let apart = self.mean - logit(line)?;
        let known = 1.0 / (self.sd * self.sd);
        let needed = (normal_quantile(sure)?.max(0.0) / apart).powi(2) - known;
        let (p, q) = logistic(self.mean);
        let tries = (needed / (p * q)).ceil().max(0.0);
        (tries <= f64::from(most)).then_some(tries as u32)
    }

    /// Shares that stand for it, to average a goal's chance over (see `beta::mixed`).
    pub fn nodes(self, n_tries: u32) -> Vec<Node> {
        normal_nodes(self.mean, self.sd, n_tries).unwrap_or_default()
    }

    fn variance(self) -> f64 {
        self.sd * self.sd
    }

    /// Some time later, with nothing seen since.
    fn later(self, days: i32, drift: f64) -> Level {
        let weeks = f64::from(days.max(0)) / 7.0;
        Level { mean: self.mean, sd: (self.sd * self.sd + weeks * drift).sqrt() }
    }
}

impl Levels {
    /// Somebody of the group who hasn't tried yet.
    pub const fn newcomer(&self) -> Level {
        self.newcomer
    }

    /// How far a level strays in a week, in log-odds (standard deviation), as the group has it.
    pub fn weekly(&self) -> f64 {
        self.drift.sqrt()
    }

    /// After an occasion, with all that was seen before and since. `None` where there is no such member or occasion.
    pub fn at(&self, member: usize, occasion: usize) -> Option<Level> {
        Some(self.members.get(member)?.get(occasion)?.level)
    }

    /// On a day at or after the last occasion, past or future; a newcomer's where there was none. `None` where there is no such member.
    pub fn on(&self, member: usize, day: i32) -> Option<Level> {
        Some(match self.members.get(member)?.last() {
            Some(last) => last.level.later(day.saturating_sub(last.day), self.drift),
            None => self.newcomer,
        })
    }

    /// The chance that the level is higher at the last occasion than it was at this one. `None` where there is no such member, or no
    /// occasion after it.
    pub fn higher(&self, member: usize, since: usize) -> Option<f64> {
        let (then, now) = self.since(member, since)?;
        Some(higher(then.level, now.level, then.with_last))
    }

    /// From an occasion to the last one; `None` as for [`Levels::higher`].
    ///
    /// The two levels depend on each other, so the range is that of their difference: over the first, in equal steps, the second given the
    /// first.
    pub fn change(&self, member: usize, since: usize, sure: Confidence) -> Option<Change> {
        let (then, now) = self.since(member, since)?;
        Some(changed(then.level, now.level, then.with_last, sure))
    }

    fn since(&self, member: usize, since: usize) -> Option<(At, At)> {
        let all = self.members.get(member)?;
        let (then, now) = (all.get(since)?, all.last()?);
        (since + 1 < all.len()).then_some((*then, *now))
    }
}

/// The chance that the second is higher.
fn higher(then: Level, now: Level, together: f64) -> f64 {
    let spread = then.variance() + now.variance() - 2.0 * together;
    normal_below((now.mean - then.mean) / spread.max(LEAST).sqrt())
}

fn changed(then: Level, now: Level, together: f64, sure: Confidence) -> Change {
    let slope = together / then.variance();
    let rest = (now.variance() - slope * together).max(LEAST).sqrt();
    // For each step: the share then, the mean of the log-odds now, and what it weighs.
    let steps: [(f64, f64, f64); 25] = std::array::from_fn(|i| {
        let z = 0.5 * (i as f64 - 12.0);
        let off = z * then.sd;
        (logistic(then.mean + off).0, now.mean + slope * off, normal_density(z))
    });
    let weights: f64 = steps.iter().map(|(_, _, weight)| weight).sum();
    let below = |change: f64| {
        let of = |(share, mean, weight): &(f64, f64, f64)| {
            let share = share + change;
            let chance =
                logit(share).map_or(f64::from(u8::from(share > 0.5)), |line| normal_below((line - mean) / rest));
            weight * chance
        };
        steps.iter().map(of).sum::<f64>() / weights
    };
    let at = |chance: f64| root(|change| below(change) - chance);
    let tail = normal_below(-sure.z());
    let likely = now.likely() - then.likely();
    Change { low: at(tail), likely, high: at(1.0 - tail), up: higher(then, now, together) }
}

/// Where a function that grows passes 0, from -1 to 1, to a millionth: halving first, then between the chords (the Illinois method; Dowell and
/// Jarratt 1971, BIT 11:168).
fn root(f: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = ((-1.0, f(-1.0)), (1.0, f(1.0)));
    let mut last = 0.0;
    for n in 0..60 {
        let chord = (low.0 * high.1 - high.0 * low.1) / (high.1 - low.1);
        let at = if n < 5 || !(low.0..=high.0).contains(&chord) { 0.5 * (low.0 + high.0) } else { chord };
        let here = f(at);
        if high.0 - low.0 < 1e-6 || here.abs() < 1e-7 {
            return at;
        }
        // An end that stays twice is taken for half as far from 0.
        if here < 0.0 {
            low = (at, here);
            high.1 *= if last < 0.0 { 0.5 } else { 1.0 };
        } else {
            high = (at, here);
            low.1 *= if last > 0.0 { 0.5 } else { 1.0 };
        }
        last = here;
    }
    0.5 * (low.0 + high.0)
}
