//! One occasion beside the others: whether its count is what the level that all the others show leads one to expect, and how far the level has
//! moved since. Says how often chance does the like, never why it was so.

use super::super::chart::by_chance;
use super::super::proportion::Confidence;
use super::super::special::logistic;
use super::{Change, Level, Levels, Seen, changed};

/// Nearer to what is expected than so many standard deviations a count is ordinary, and its exact chance isn't worked out.
const ORDINARY: f64 = 1.8;
/// Less than this says nothing of where the others lie.
const LEAST_KNOWN: f64 = 1e-3;

impl Levels {
    /// How often chance and the usual ups and downs of days lead to a count as far out as this one, on either side, when the level is what all
    /// the other occasions show: a p-value, 1 where it is plainly ordinary. `seen` is what was counted on that occasion.
    ///
    /// What the occasion itself has said is taken out of the level again, as far as it is normal: the leave-one-out of a Laplace approximation
    /// (Vehtari and others 2016, Journal of Machine Learning Research 17:103, from memory); the count is then held against all that is left
    /// open by the prior predictive check of [`by_chance`].
    pub fn as_far_out(&self, member: usize, occasion: usize, seen: Seen) -> f64 {
        let Some((expected, share)) = self.by_the_others(member, occasion, seen).zip(seen.count.share()) else {
            return 1.0;
        };
        let (likely, spread) = strayed(expected, seen);
        if ((share - likely) / spread).abs() < ORDINARY {
            return 1.0;
        }
        by_chance(seen.count, &expected.nodes(seen.count.tries()))
    }

    /// What [`Levels::as_far_out`] holds an occasion against: the share that all the other occasions lead to, for tries such as these, and how far so
    /// many stray from it, level and form of the day not known (one standard deviation). `None` where the others say nothing, or without a try.
    pub fn expected(&self, member: usize, occasion: usize, seen: Seen) -> Option<(f64, f64)> {
        let expected = self.by_the_others(member, occasion, seen).filter(|_| seen.count.tries() > 0)?;
        Some(strayed(expected, seen))
    }

    fn by_the_others(&self, member: usize, occasion: usize, seen: Seen) -> Option<Level> {
        let level = self.at(member, occasion).and_then(|level| self.without(level, seen))?;
        // As hard as the tries of that occasion were.
        Level::new(level.mean + seen.offset, level.sd)
    }

    /// What the others lead to on that day, its form included. `None` where hardly anything is left.
    fn without(&self, level: Level, Seen { count, weight, offset, .. }: Seen) -> Option<Level> {
        let weight = if weight > 0.0 { weight.min(1.0) } else { 0.0 };
        let (p, q) = logistic(level.mean + offset);
        let tries = weight * f64::from(count.tries());
        let told = tries * p * q;
        if told <= 0.0 {
            return None;
        }
        // In log-odds: how far from the level it was seen, and how much that is worth.
        let off = (weight * f64::from(count.good()) - tries * p) / told;
        let worth = 1.0 / (self.form + 1.0 / told);
        let known = 1.0 / level.variance() - worth;
        if known < LEAST_KNOWN {
            return None;
        }
        Level::new(level.mean - worth * off / known, (1.0 / known + self.form).sqrt())
    }

    /// How the level of an occasion hangs together with that of the member's last one: their covariance, in log-odds.
    pub fn with_last(&self, member: usize, occasion: usize) -> Option<f64> {
        Some(self.members.get(member)?.get(occasion)?.with_last)
    }
}

fn strayed(expected: Level, seen: Seen) -> (f64, f64) {
    let (p, q) = logistic(expected.mean);
    let tries = f64::from(seen.count.tries());
    (p, (p * q / tries + (p * q * expected.sd).powi(2)).sqrt())
}

impl Level {
    /// From this level to a later one, when both hang together by so much (their covariance): as [`Levels::change`], for who keeps the parts.
    ///
    /// ```
    /// use peppertally::stats::{level::Level, proportion::Confidence};
    /// let (then, now) = (Level::new(0.0, 0.5).unwrap(), Level::new(0.0, 0.5).unwrap());
    /// let change = then.change_to(now, 0.1, Confidence::P95);
    /// assert!((change.up - 0.5).abs() < 1e-12 && (change.low + change.high).abs() < 1e-3);
    /// ```
    pub fn change_to(self, now: Level, together: f64, sure: Confidence) -> Change {
        changed(self, now, together, sure)
    }
}
