//! How likely a goal is, exactly, for one chance a try; averaged over what is not known of it by `beta::mixed`. Owns the choice of a goal by
//! its chance; refuses to say which chance is right.

pub mod draws;
pub mod points;
pub mod race;
pub mod rounds;
pub mod row;
pub mod several;
pub mod stays;

use super::beta::Beta;

/// Tries until a goal is reached: their mean and standard deviation, both finite.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tries {
    pub mean: f64,
    pub sd: f64,
}

/// Within some tries: the chance to be there by the last, and how many are played on average, until then or until the last.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Within {
    pub chance: f64,
    pub tries: f64,
}

impl Within {
    /// Of what is open, by the chance, before each try and after the last.
    fn of_open(open: &[f64]) -> Within {
        let Some((last, before)) = open.split_last() else { return Within::default() };
        Within { chance: (1.0 - last).clamp(0.0, 1.0), tries: before.iter().sum() }
    }

    /// One of several that may be so, with its weight.
    fn add(&mut self, other: Within, weight: f64) {
        self.chance += weight * other.chance;
        self.tries += weight * other.tries;
    }
}

/// The same averaged over what isn't known of it: each goal's, one of the possible after another.
pub fn averaged(all: impl Iterator<Item = (Vec<Within>, f64)>) -> Vec<Within> {
    let mut sums: Vec<Within> = Vec::new();
    for (goals, weight) in all {
        sums.resize(goals.len(), Within::default());
        sums.iter_mut().zip(goals).for_each(|(sum, one)| sum.add(one, weight));
    }
    sums
}

/// Places in a list of goals.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Proposal {
    /// Its chance is nearest to the wished one; of two as near the likelier.
    pub nearest: usize,
    /// The next likelier and the next less likely, where there are any.
    pub easier: Option<usize>,
    pub harder: Option<usize>,
}

/// The chance of at least so many good in so many tries: the upper tail of the binomial, by the beta distribution (Abramowitz and Stegun
/// 1964, 26.5.24).
///
/// ```
/// use peppertally::stats::goal::at_least;
/// // De Méré's first bet: a six in four throws.
/// assert!((at_least(1, 4, 1.0 / 6.0) - 671.0 / 1296.0).abs() < 1e-15);
/// ```
pub fn at_least(good: u32, tries: u32, chance: f64) -> f64 {
    match good {
        0 => 1.0,
        _ if good > tries => 0.0,
        _ => Beta::new(f64::from(good), f64::from(tries - good) + 1.0).map_or(0.0, |beta| beta.below(chance)),
    }
}

/// The fewest tries in which a goal is reached with chance `share`, for a chance that no more tries make less. `None` where even `most`
/// tries don't do.
///
/// ```
/// use peppertally::stats::goal::{at_least, fewest_tries};
/// // Pascal to Fermat, 1654: for an even bet on a double six 24 throws are too few, 25 do.
/// assert_eq!(fewest_tries(0.5, 1000, &mut |n| at_least(1, n, 1.0 / 36.0)), Some(25));
/// assert_eq!(fewest_tries(0.5, 24, &mut |n| at_least(1, n, 1.0 / 36.0)), None);
/// ```
pub fn fewest_tries(share: f64, most: u32, within: &mut dyn FnMut(u32) -> f64) -> Option<u32> {
    // Up by doubling, so that a goal near at hand never costs what the most tries would.
    let (mut few, mut enough) = (0, 1_u32.min(most));
    while within(enough) < share {
        if enough == most {
            return None;
        }
        (few, enough) = (enough, enough.saturating_mul(2).min(most));
    }
    while enough - few > 1 {
        let middle = few + (enough - few) / 2;
        if within(middle) < share { few = middle } else { enough = middle }
    }
    Some(enough)
}

/// Of goals with these chances the one nearest to the wished chance, and its neighbours. What is no chance is passed over; `None` where
/// nothing is left, or the wish is no chance.
///
/// ```
/// use peppertally::stats::goal::{Proposal, propose};
/// let proposal = propose(&[0.9, 0.75, 0.5, 0.2], 0.7).unwrap();
/// assert_eq!(proposal, Proposal { nearest: 1, easier: Some(0), harder: Some(2) });
/// ```
pub fn propose(chances: &[f64], wish: f64) -> Option<Proposal> {
    let sound = |chance: f64| (0.0..=1.0).contains(&chance);
    // The best by `key`, the least of it; the first of equals.
    let least = |key: &dyn Fn(f64) -> Option<f64>| {
        let mut best: Option<(f64, usize)> = None;
        for (at, chance) in chances.iter().enumerate().filter(|(_, chance)| sound(**chance)) {
            if let Some(value) = key(*chance).filter(|value| best.is_none_or(|(least, _)| *value < least)) {
                best = Some((value, at));
            }
        }
        best.map(|(_, at)| at)
    };
    let off =
        least(&|chance| Some((chance - wish).abs())).filter(|_| sound(wish)).map(|at| (chances[at] - wish).abs())?;
    let nearest = least(&|chance| ((chance - wish).abs() <= off).then_some(-chance))?;
    let here = chances[nearest];
    let easier = least(&|chance| (chance > here).then_some(chance));
    let harder = least(&|chance| (chance < here).then_some(-chance));
    Some(Proposal { nearest, easier, harder })
}
