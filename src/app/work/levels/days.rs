//! Days that are far from what all the other days show, held down over everyone and all kinds of balls at once: whoever looks at hundreds of days
//! finds odd ones by chance alone.

use super::Found;
use crate::stats::level::{Levels, Seen};
use crate::stats::many::standing;
use serde::{Deserialize, Serialize};

/// A day of one child in one kind of ball that is worth a word.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct OddDay {
    /// Which of the child's occasions.
    pub at: u32,
    /// How often chance, and the usual ups and downs of days, bring one as far out.
    pub chance: f64,
    /// It stands though all the other days of everyone were looked at too.
    pub stands: bool,
}

/// What comes more often than once in so many days needs no word.
const WORTH_A_WORD: f64 = 0.05;
/// Of the days that stand so many may be chance all the same (Benjamini and Hochberg 1995).
const FALSE_SHARE: f64 = 0.1;

pub fn odd(levels: &Levels, child: usize, seen: &[Seen]) -> Vec<OddDay> {
    let all = (0..).zip(seen.iter().enumerate());
    all.map(|(at, (n, seen))| OddDay { at, chance: levels.as_far_out(child, n, *seen), stands: false })
        .filter(|day| day.chance < WORTH_A_WORD)
        .collect()
}

/// Ordinary days were looked at too: each counts as a finding that is none.
pub fn hold_down(all: &mut [Vec<Found>]) {
    let n_days: usize = all.iter().flatten().map(|found| found.at.len()).sum();
    let mut chances: Vec<f64> = all.iter().flatten().flat_map(|found| &found.odd).map(|day| day.chance).collect();
    chances.resize(n_days.max(chances.len()), 1.0);
    let stand = standing(&chances, FALSE_SHARE);
    let days = all.iter_mut().flatten().flat_map(|found| &mut found.odd);
    days.zip(stand).for_each(|(day, stands)| day.stands = stands);
}
