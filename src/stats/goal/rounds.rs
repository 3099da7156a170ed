//! Rounds of easy tries and then of hard ones: the easy ones may have to be earned before the hard ones come, and the hard ones are points for
//! one of two sides. Knows nothing of who the sides are.

/// A row of rounds as it is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rounds {
    /// Easy tries of a round; 0 for none.
    pub n_easy: u32,
    /// So many of them must be good, and with the last of these the hard ones begin; else they start over. 0: they count for nothing.
    pub earn: u32,
    /// Hard tries of a round, from 1.
    pub n_hard: u32,
    /// Good hard tries that reach the goal.
    pub to: u32,
    /// Hard tries not good with which the other side is there first; 0: it never is.
    pub other_to: u32,
}

/// What becomes of it within some tries, easy and hard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoundsEnd {
    pub reached: f64,
    /// The other side was there first.
    pub other: f64,
    /// Neither.
    pub open: f64,
    /// Tries played, until either or until the last looked at, on average.
    pub tries: f64,
}

/// Steps of the working, at most.
const MOST_STEPS: u64 = 200_000_000;

impl Rounds {
    /// Try after try, by every state there is. `None` for no hard tries, nothing to reach, more to earn than there are, chances outside 0
    /// to 1, and too long a working (the tries times the states).
    ///
    /// ```
    /// use peppertally::stats::goal::rounds::Rounds;
    /// let rounds = Rounds { n_easy: 1, earn: 1, n_hard: 1, to: 1, other_to: 0 };
    /// // An easy one and then a hard one, in two tries: a half times a half.
    /// assert_eq!(rounds.within(2, 0.5, 0.5).unwrap().reached, 0.25);
    /// ```
    pub fn within(&self, tries: u32, easy: f64, hard: f64) -> Option<RoundsEnd> {
        let Rounds { n_easy, earn, n_hard, to, other_to } = *self;
        let sound = (0.0..=1.0).contains(&easy) && (0.0..=1.0).contains(&hard);
        if n_hard == 0 || to == 0 || earn > n_easy || !sound {
            return None;
        }
        let n_phases = u64::from(n_easy) * u64::from(earn.max(1)) + u64::from(n_hard);
        let n_scores = u64::from(to).checked_mul(u64::from(other_to.max(1)))?;
        let n_states = n_phases.checked_mul(n_scores)?;
        n_states.checked_mul(u64::from(tries)).filter(|steps| *steps <= MOST_STEPS)?;
        let (earned, other) = (earn.max(1) as usize, other_to.max(1) as usize);
        let (n_easy, n_hard, to) = (n_easy as usize, n_hard as usize, to as usize);
        let first_hard = n_easy * earned;
        // A state is a phase (easy tries used and good of them, or hard tries used) and the points of both sides.
        let place = |phase: usize, a: usize, b: usize| (phase * to + a) * other + b;
        let mut now = vec![0.0; n_states as usize];
        now[0] = 1.0;
        let mut end = RoundsEnd { reached: 0.0, other: 0.0, open: 1.0, tries: 0.0 };
        for _ in 0..tries {
            end.tries += end.open;
            let mut next = vec![0.0; now.len()];
            for (state, weight) in now.iter().enumerate().filter(|(_, weight)| **weight > 0.0) {
                let (phase, a, b) = (state / (to * other), state / other % to, state % other);
                if phase < first_hard {
                    let (used, good) = (phase / earned, phase % earned);
                    for (now_good, chance) in [(good + 1, easy), (good, 1.0 - easy)] {
                        let phase = if earn > 0 && now_good >= earned || earn == 0 && used + 1 == n_easy {
                            first_hard
                        } else if used + 1 == n_easy {
                            0
                        } else {
                            (used + 1) * earned + if earn > 0 { now_good } else { 0 }
                        };
                        next[place(phase, a, b)] += chance * weight;
                    }
                } else {
                    let used = phase - first_hard + 1;
                    let phase = if used == n_hard { 0 } else { first_hard + used };
                    if a + 1 == to {
                        end.reached += hard * weight;
                    } else {
                        next[place(phase, a + 1, b)] += hard * weight;
                    }
                    if other_to == 0 {
                        next[place(phase, a, b)] += (1.0 - hard) * weight;
                    } else if b + 1 == other {
                        end.other += (1.0 - hard) * weight;
                    } else {
                        next[place(phase, a, b + 1)] += (1.0 - hard) * weight;
                    }
                }
            }
            now = next;
            end.open = now.iter().sum();
        }
        Some(end)
    }
}
